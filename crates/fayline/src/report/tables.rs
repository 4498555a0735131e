//! The tables of a report.

use assessment::{Assessment, Plan, Sheet, SheetFace, SheetHole, Stage, Step, Verdict, When, names};
use quantity::{Kind, System};

use super::document::{Block, Cell, Ranged, Run, Table};

fn words(words: impl AsRef<str>) -> Cell {
    Cell::words(words.as_ref())
}

/// The verdict of each stage that is asked, with how many findings have which.
pub(super) fn stages(assessment: &Assessment) -> Block {
    let row = |stage: Stage| {
        let count = |verdict: Verdict| {
            let number = assessment.of(stage).filter(|finding| finding.verdict == verdict).count();
            (number > 0).then(|| format!("{number} {}", verdict.word()))
        };
        let (verdict, counts) = match assessment.verdict_of(stage) {
            None => (words("not asked"), String::new()),
            Some(worst) => {
                let all = [Verdict::NotMet, Verdict::Unknown, Verdict::Met, Verdict::Note];
                (Cell::Verdict(worst), all.into_iter().filter_map(count).collect::<Vec<_>>().join(", "))
            }
        };
        vec![words(stage.title()), verdict, words(counts)]
    };
    Block::Table(Table {
        columns: vec![("stage", Ranged::Left), ("verdict", Ranged::Left), ("findings", Ranged::Left)],
        rows: Stage::ALL.into_iter().map(row).collect(),
    })
}

/// The plan of a joint's bond day.
pub(super) fn plan(plan: &Plan, system: System) -> [Block; 2] {
    let print = |time_s: f64| quantity::print(time_s, Kind::Time, system);
    let row = |step: &Step| {
        let (when, why) = match &step.when {
            Ok(When::At(at)) if *at == 0.0 => ("0".to_owned(), None),
            Ok(When::At(at)) => (print(*at), None),
            Ok(When::By(at)) => (format!("by {}", print(*at)), None),
            Ok(When::For(time)) => (format!("at most {}", print(*time)), None),
            Ok(When::Between(from, until)) => (format!("{} to {}", print(*from), print(*until)), None),
            Err(lack) => ("unknown".to_owned(), Some(format!("Not known: {lack}."))),
        };
        let remark = [why.as_deref().unwrap_or_default(), &step.remark].join(" ").trim().to_owned();
        let verdict = if step.verdict == Verdict::Note { words("") } else { Cell::Verdict(step.verdict) };
        let asked = step.asked_s.map_or(String::new(), |asked| format!("by {}", print(asked)));
        vec![words(&step.what), words(when), words(asked), verdict, words(remark)]
    };
    [
        Block::Heading(format!("Plan of the day for {}", plan.joint)),
        Block::Table(Table {
            columns: vec![
                ("step", Ranged::Left),
                ("after first mix", Ranged::Right),
                ("asked", Ranged::Right),
                ("verdict", Ranged::Left),
                ("remark", Ranged::Left),
            ],
            rows: plan.steps.iter().map(row).collect(),
        }),
    ]
}

/// Every set of coupons: specimen, strength, how it broke, and what is to be said of it.
pub(super) fn coupons(assessment: &Assessment) -> Vec<Block> {
    let sets = assessment.series.iter().filter(|(dotted, _)| names::COUPON_STRENGTHS.matches(dotted));
    sets.flat_map(|(dotted, series)| {
        let set = dotted.split('.').nth(1).unwrap_or_default();
        let rows = series.names.iter().zip(&series.y.values).map(|(point, strength)| {
            vec![
                words(&point.name),
                words(quantity::print(*strength, Kind::Stress, assessment.system)),
                words(point.pattern.as_deref().unwrap_or("not given")),
                words(point.remark.as_deref().unwrap_or_default()),
            ]
        });
        let columns = vec![
            ("specimen", Ranged::Left),
            ("mean shear at failure", Ranged::Right),
            ("pattern", Ranged::Left),
            ("remark", Ranged::Left),
        ];
        [Block::Heading(format!("Coupons {set}")), Block::Table(Table { columns, rows: rows.collect() })]
    })
    .collect()
}

/// The holes of a sheet as a table to mark out by, from edges that a rule can reach.
pub(super) fn holes(sheet: &Sheet, system: System) -> Vec<Block> {
    let rows: Vec<(&SheetFace, &SheetHole)> =
        sheet.faces.iter().flat_map(|face| face.holes.iter().map(move |hole| (face, hole))).collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let length = |mm: f64| quantity::print(mm, Kind::Length, system);
    let cut = sheet.half_gap_mm;
    let from_edge = |hole: &SheetHole| match cut {
        Some(half_gap) => hole.x_mm.abs() - half_gap,
        None => hole.x_mm - sheet.x_mm[0],
    };
    let row = |(face, hole): (&SheetFace, &SheetHole)| {
        let side = match cut {
            None => "",
            Some(_) if hole.x_mm < 0.0 => "left",
            Some(_) => "right",
        };
        vec![
            words(hole.number.to_string()),
            words(face.name),
            words(side),
            words(length(from_edge(hole))),
            words(length(face.up * hole.s_mm)),
            words(length(hole.diameter_mm)),
        ]
    };
    let from = if cut.is_some() {
        "Distances from the cut face, to the left or to the right of it;"
    } else {
        "Distances from the left end of the overlap;"
    };
    let lead = format!(
        "Seen from outside, the member running to the right. {from} along the face from its middle, upward on the sheet."
    );
    let columns = vec![
        ("hole", Ranged::Right),
        ("face", Ranged::Left),
        ("side", Ranged::Left),
        ("from the edge", Ranged::Right),
        ("from the middle", Ranged::Right),
        ("diameter", Ranged::Right),
    ];
    vec![
        Block::Heading(format!("Holes of {}", sheet.joint)),
        Block::Paragraph(vec![Run::plain(&lead)]),
        Block::Table(Table { columns, rows: rows.into_iter().map(row).collect() }),
    ]
}
