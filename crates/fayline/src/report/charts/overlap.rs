//! The reserve of a bond against its overlap, for the worst case of each joint that has an overlap.

use std::collections::BTreeMap;

use assessment::{Assessment, names};
use drawing::chart::{ByOverlap, Reserves};
use drawing::figure::{Figure, Pen};
use quantity::Kind;

use super::{number, part};

/// A figure for each joint: of several cases the one with the least reserve.
pub(super) fn figures(assessment: &Assessment) -> Vec<Figure> {
    let mut worst: BTreeMap<&str, (&str, f64)> = BTreeMap::new();
    for (dotted, _) in
        assessment.series.iter().filter(|(dotted, _)| names::RESERVE_BY_OVERLAP.matches(dotted))
    {
        let parts: Vec<&str> = dotted.split('.').collect();
        let (joint, case) = (part(&parts, 1), part(&parts, 2));
        let Some(reserve) = planned(assessment, joint, case) else { continue };
        let known = worst.entry(joint).or_insert((case, reserve));
        if reserve < known.1 {
            *known = (case, reserve);
        }
    }
    worst.into_iter().map(|(joint, (case, reserve))| drawn(assessment, joint, case, reserve)).collect()
}

/// The reserve of the nominal check at the planned overlap: where the curve passes it.
fn planned(assessment: &Assessment, joint: &str, case: &str) -> Option<f64> {
    let overlap = number(assessment, &names::OVERLAP, &[joint])?;
    let curve = assessment.series.get(&names::RESERVE_BY_OVERLAP.fill(&[joint, case]))?;
    let off = |at: &f64| (at - overlap).abs();
    let nearest = curve.x.values.iter().zip(&curve.y.values).min_by(|a, b| off(a.0).total_cmp(&off(b.0)));
    nearest.map(|(_, reserve)| *reserve)
}

fn drawn(assessment: &Assessment, joint: &str, case: &str, reserve: f64) -> Figure {
    /// The temperature of the data, °C.
    const ROOM_C: f64 = 23.0;
    let fill = [joint, case];
    let dry = format!("{}, dry", quantity::print(ROOM_C, Kind::Temperature, assessment.system));
    let lines = [
        (&names::RESERVE_BY_OVERLAP, dry.as_str(), Pen::Accent),
        (&names::RESERVE_BY_OVERLAP_HOT, "hottest service", Pen::AccentDashed),
        (&names::RESERVE_BY_OVERLAP_COLD, "coldest service", Pen::Thin),
    ];
    let lines = lines.map(|(name, words, pen)| (assessment.series.get(&name.fill(&fill)), words, pen));
    let curves: Vec<Reserves<'_>> = lines
        .iter()
        .filter_map(|(series, words, pen)| {
            let series = (*series)?;
            Some(Reserves { words, pen: *pen, overlap_mm: &series.x.values, reserve: &series.y.values })
        })
        .collect();
    ByOverlap {
        name: &format!("overlap-{joint}-{case}"),
        title: &format!("{joint}, {case}: nominal reserve of the bond against the overlap"),
        curves: &curves,
        planned: number(assessment, &names::OVERLAP, &[joint]).map(|overlap| (overlap, reserve)),
        parts: number(assessment, &names::PARTS_RESERVE, &fill),
        helps_to_mm: number(assessment, &names::OVERLAP_HELPS_TO, &fill),
        system: assessment.system,
    }
    .figure()
}
