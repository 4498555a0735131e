//! What came of sizing a joint, in words and as a chart, for terminal and page.

use drawing::chart::{ByOverlap, Reserves};
use drawing::figure::{Figure, Pen};
use quantity::{Kind, System};
use stages::size::{Candidate, Governs, Sizing, Trial};

/// The sizes of a trial and its reserve.
pub(crate) fn one(trial: &Trial, system: System) -> String {
    let reserve = trial.least.as_ref().map_or_else(
        || "no reserve is known".to_owned(),
        |least| format!("least reserve factor {:.2} ({})", least.reserve, least.id),
    );
    format!("{}; {reserve}", sizes(&trial.candidate, system))
}

fn sizes(candidate: &Candidate, system: System) -> String {
    let print = |mm: f64| quantity::print(mm, Kind::Length, system);
    let mut words = vec![format!("overlap {}", print(candidate.overlap_mm))];
    match candidate.rows_mm.as_slice() {
        [] => {}
        rows => {
            let at: Vec<String> = rows.iter().map(|row| print(*row)).collect();
            let rows = if rows.len() == 1 { "1 row".to_owned() } else { format!("{} rows", rows.len()) };
            words.push(format!("{rows} at {}", at.join(", ")));
        }
    }
    words.extend(candidate.bondline_mm.map(|mm| format!("bondline {}", print(mm))));
    words.extend(candidate.wall_mm.map(|mm| format!("insert wall {}", print(mm))));
    words.join(", ")
}

/// Reserves against overlap as a chart.
pub(crate) fn figure(joint: &str, sizing: &Sizing) -> Figure {
    let curve = |pick: fn(&Trial) -> &Option<Governs>| -> (Vec<f64>, Vec<f64>) {
        let all = sizing.by_overlap.iter();
        all.filter_map(|trial| Some((trial.candidate.overlap_mm, pick(trial).as_ref()?.reserve))).unzip()
    };
    let lines = [
        ("bond, least of all conditions", Pen::Accent, curve(|trial| &trial.bond)),
        ("rivets alone, bond lost", Pen::Thin, curve(|trial| &trial.bond_lost)),
    ];
    let drawn = lines.iter().filter(|(_, _, (overlaps, _))| overlaps.len() > 1);
    let curves: Vec<Reserves<'_>> = drawn
        .map(|(words, pen, (overlap_mm, reserve))| Reserves { words, pen: *pen, overlap_mm, reserve })
        .collect();
    let chosen = &sizing.chosen;
    ByOverlap {
        name: &format!("size-{joint}"),
        title: &format!("{joint}: reserve factors against the overlap, all else as sized"),
        curves: &curves,
        planned: chosen.bond.as_ref().map(|bond| (chosen.candidate.overlap_mm, bond.reserve)),
        flagged: if sizing.reached { "sized" } else { "nearest" },
        target: Some(sizing.target),
        parts: chosen.parts.as_ref().map(|parts| parts.reserve),
        helps_to_mm: sizing.helps_to_mm,
        system: sizing.assessment.system,
    }
    .figure()
}
