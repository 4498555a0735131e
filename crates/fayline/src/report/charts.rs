//! Which charts a report has, made from the series and quantities of an assessment.

mod cut_error;
mod failure;
mod overlap;
mod perimeter;

use std::collections::BTreeMap;

use assessment::{Assessment, Finding, Name, Series, Stage, Verdict, names};
use drawing::chart::{
    Axis, Coupon, Coupons, CureClock, Curve, Distribution, Growth, Ladder, Milestone, NamedStrength, Plot,
    Rung, Ticks,
};
use drawing::figure::{Figure, Pen};
use drawing::{look, sheet};
use quantity::{Kind, Scale};

/// The mark and colour of a verdict.
pub(super) fn look_of(verdict: Verdict) -> look::Verdict {
    match verdict {
        Verdict::Met => look::Verdict::Met,
        Verdict::NotMet => look::Verdict::NotMet,
        Verdict::Unknown => look::Verdict::Unknown,
        Verdict::Note => look::Verdict::Note,
    }
}

/// How many reserve factors the ladder shows: those that matter stand on one screen.
const MOST_RUNGS: usize = 12;

/// The least reserve factors against 1.00, worst first; nothing where there is none.
pub(super) fn reserves(assessment: &Assessment) -> Option<Figure> {
    let mut judged: Vec<(&Finding, f64)> = assessment
        .findings
        .iter()
        .filter(|finding| finding.verdict != Verdict::Note)
        .filter_map(|finding| finding.reserve.map(|reserve| (finding, reserve)))
        .collect();
    judged.sort_by(|a, b| a.1.total_cmp(&b.1));
    let title = if judged.len() > MOST_RUNGS {
        format!("The {MOST_RUNGS} least of {} reserve factors: 1.00 is exactly enough", judged.len())
    } else {
        "Reserve factors: 1.00 is exactly enough".to_owned()
    };
    judged.truncate(MOST_RUNGS);
    let names: Vec<String> = judged.iter().map(|(finding, _)| short(finding)).collect();
    let rungs: Vec<Rung<'_>> = judged
        .iter()
        .zip(&names)
        .map(|((finding, reserve), words)| Rung {
            words,
            reserve: Some(*reserve),
            verdict: look_of(finding.verdict),
            remark: None,
        })
        .collect();
    let ladder = Ladder { name: "reserves", title: &title, rungs: &rungs };
    (!rungs.is_empty()).then(|| ladder.figure())
}

/// A finding in a few words: what it is about, the case, and the last part of its name.
fn short(finding: &Finding) -> String {
    let last = finding.id.rsplit('.').next().unwrap_or_default().replace('_', " ");
    match &finding.case {
        Some(case) => format!("{}, {case}: {last}", finding.about),
        None => format!("{}: {last}", finding.about),
    }
}

/// The charts of a stage, in the order of their names.
pub(super) fn of(assessment: &Assessment, stage: Stage) -> Vec<Figure> {
    match stage {
        Stage::Join => {
            let draw = |parts: &[&str], series: &Series| distribution(assessment, parts, series);
            let mut figures = each(assessment, &names::SHEAR, draw);
            figures.extend(failure::figures(assessment));
            figures.extend(perimeter::figures(assessment));
            figures.extend(overlap::figures(assessment));
            figures.extend(cut_error::figures(assessment));
            figures.extend(diagrams(assessment));
            figures.extend(sheets(assessment));
            figures
        }
        Stage::BondDay => {
            each(assessment, &names::STRENGTH_CURVE, |parts, series| clock(assessment, parts, series))
        }
        Stage::Prove => {
            each(assessment, &names::COUPON_STRENGTHS, |parts, series| coupons(assessment, parts, series))
        }
        Stage::Triage | Stage::Choose | Stage::Fit | Stage::HandOver => Vec::new(),
    }
}

/// Moments and torque along each member, for the case with the greatest of them: the others look alike.
fn diagrams(assessment: &Assessment) -> Vec<Figure> {
    let greatest = |series: &Series| series.y.values.iter().map(|value| value.abs()).fold(0.0, f64::max);
    let mut worst: BTreeMap<&str, (&str, f64)> = BTreeMap::new();
    for (dotted, series) in assessment.series.iter() {
        if !names::DIAGRAM_MOMENT_Y.matches(dotted) && !names::DIAGRAM_MOMENT_Z.matches(dotted) {
            continue;
        }
        let parts: Vec<&str> = dotted.split('.').collect();
        let of_member = worst.entry(part(&parts, 1)).or_insert((part(&parts, 2), 0.0));
        if greatest(series) > of_member.1 {
            *of_member = (part(&parts, 2), greatest(series));
        }
    }
    worst.into_iter().map(|(member, (case, _))| diagram(assessment, member, case)).collect()
}

fn diagram(assessment: &Assessment, member: &str, case: &str) -> Figure {
    let lines = [
        (&names::DIAGRAM_MOMENT_Y, "moment about y", Pen::Accent),
        (&names::DIAGRAM_MOMENT_Z, "moment about z", Pen::AccentDashed),
        (&names::DIAGRAM_TORQUE, "torque", Pen::Thin),
    ];
    let known: Vec<(&Series, &str, Pen)> = lines
        .into_iter()
        .filter_map(|(name, words, pen)| {
            Some((assessment.series.get(&name.fill(&[member, case]))?, words, pen))
        })
        .collect();
    let greatest = |values: &dyn Fn(&Series) -> &Vec<f64>| {
        let all = known.iter().flat_map(|(series, ..)| values(series));
        all.map(|value| value.abs()).fold(0.0, f64::max)
    };
    let length = Scale::of(greatest(&|series| &series.x.values), Kind::Length, assessment.system);
    let moment = Scale::of(greatest(&|series| &series.y.values), Kind::Moment, assessment.system);
    let curves = known.iter().map(|(series, words, pen)| {
        let points = series.x.values.iter().zip(&series.y.values);
        let points = points.map(|(x, y)| [length.value(*x), moment.value(*y)]).collect();
        Curve { words: (*words).to_owned(), pen: *pen, points }
    });
    let axis =
        |unit: &str, ticks| Axis { label: unit.to_owned(), include: vec![0.0], ticks, growth: Growth::Even };
    Plot {
        name: format!("diagram-{member}-{case}"),
        title: format!("{member}, {case}: moments and torque along the member"),
        desc: "Resultants of all forces beyond each station, in the member's local axes.".to_owned(),
        x: axis(length.unit(), Ticks::Tight),
        y: axis(moment.unit(), Ticks::Rounded),
        curves: curves.collect(),
        dots: Vec::new(),
        levels: Vec::new(),
        flags: Vec::new(),
        bands: Vec::new(),
        folds: Vec::new(),
        ends: Some(["beginning of the member".to_owned(), "end".to_owned()]),
        remarks: Vec::new(),
    }
    .figure()
}

/// Each joint's sheet, then the fields painted on it. Of several cases only the one with the greatest value is
/// shown: the others look alike.
fn sheets(assessment: &Assessment) -> Vec<Figure> {
    let mut figures = Vec::new();
    for laid in &assessment.sheets {
        figures.push(sheet::figure(laid, None, assessment.system));
        for name in names::FIELDS {
            let of_joint = assessment
                .fields
                .iter()
                .filter(|(dotted, field)| field.joint == laid.joint && name.matches(dotted));
            let worst = of_joint.max_by(|a, b| a.1.greatest().total_cmp(&b.1.greatest()));
            figures.extend(worst.map(|(dotted, field)| {
                sheet::figure(laid, Some((dotted.as_str(), field)), assessment.system)
            }));
        }
    }
    figures
}

/// A figure for each series of a registered name; the parts of the dotted name are handed on.
fn each(assessment: &Assessment, name: &Name, draw: impl Fn(&[&str], &Series) -> Figure) -> Vec<Figure> {
    let of_name = assessment.series.iter().filter(|(dotted, _)| name.matches(dotted));
    of_name.map(|(dotted, series)| draw(&dotted.split('.').collect::<Vec<_>>(), series)).collect()
}

/// A part of a dotted name.
fn part<'n>(parts: &[&'n str], index: usize) -> &'n str {
    parts.get(index).copied().unwrap_or_default()
}

fn number(assessment: &Assessment, name: &Name, fill: &[&str]) -> Option<f64> {
    let known = assessment.quantities.get(&name.fill(fill))?;
    known.as_ref().ok().map(|measure| measure.value)
}

fn distribution(assessment: &Assessment, parts: &[&str], shear: &Series) -> Figure {
    let (joint, case) = (part(parts, 1), part(parts, 2));
    let peel = assessment.series.get(&names::PEEL.fill(&[joint, case]));
    Distribution {
        name: &format!("distribution-{joint}-{case}"),
        title: &format!("{joint}, {case}: shear and peel along the overlap at the load as written"),
        x_mm: &shear.x.values,
        shear_mpa: &shear.y.values,
        peel_mpa: peel.map_or(&[], |peel| &peel.y.values),
        mean_shear_mpa: number(assessment, &names::MEAN_SHEAR, &[joint, case]),
        left_end: "left end",
        right_end: "right end",
        system: assessment.system,
    }
    .figure()
}

fn clock(assessment: &Assessment, parts: &[&str], strength: &Series) -> Figure {
    let joint = part(parts, 1);
    let at = |name: &Name| number(assessment, name, &[joint]);
    // The share that a milestone needs is where the curve stands at its time.
    let share = |name: &Name| {
        let at_s = at(name)?;
        let after = strength.x.values.iter().position(|time| *time >= at_s)?;
        strength.y.values.get(after).copied()
    };
    let milestones = [
        Milestone { words: "nozzle", at_s: at(&names::NOZZLE_TIME), strength: None },
        Milestone { words: "open", at_s: at(&names::OPEN_TIME), strength: None },
        Milestone { words: "working", at_s: at(&names::WORKING_TIME), strength: None },
        Milestone { words: "handling", at_s: at(&names::HANDLING_AT), strength: share(&names::HANDLING_AT) },
        Milestone { words: "driving", at_s: at(&names::DRIVING_AT), strength: share(&names::DRIVING_AT) },
        Milestone { words: "full", at_s: at(&names::FULL_AT), strength: Some(1.0) },
    ];
    let working = at(&names::WORKING_TIME).map(|at_s| (0.0, at_s, "spread and close"));
    let bands: Vec<(f64, f64, &str)> = working.into_iter().collect();
    CureClock {
        name: &format!("clock-{joint}"),
        title: &format!("{joint}: strength over time, and what happens when"),
        time_s: &strength.x.values,
        strength: &strength.y.values,
        milestones: &milestones,
        bands: &bands,
    }
    .figure()
}

fn coupons(assessment: &Assessment, parts: &[&str], strengths: &Series) -> Figure {
    let set = part(parts, 1);
    let named = |name: &Name, words: &'static str| {
        number(assessment, name, &[set]).map(|strength_mpa| NamedStrength { words, strength_mpa })
    };
    let points: Vec<Coupon<'_>> = strengths
        .names
        .iter()
        .zip(&strengths.y.values)
        .map(|(point, strength_mpa)| Coupon {
            name: &point.name,
            strength_mpa: *strength_mpa,
            notable: point.remark.as_deref(),
        })
        .collect();
    Coupons {
        name: &format!("coupons-{set}"),
        title: &format!("{set}: mean shear at failure of each coupon"),
        coupons: &points,
        mean: named(&names::COUPON_MEAN, "mean"),
        bound: named(&names::B_BASIS, "90/95 bound"),
        characteristic: named(&names::CHARACTERISTIC, "characteristic"),
        system: assessment.system,
    }
    .figure()
}
