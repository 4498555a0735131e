//! What another overlap would do: the reserve of the bond, and the peak of its shear.

use assessment::{Known, Name, Verdict, names};

use super::nominal::{Nominal, Shear};
use super::subject::{Case, Subject};
use crate::Results;

/// Overlaps are tried from four tenths of the planned one to twice it, in tenths, so that the planned one is among
/// them.
const TENTHS: std::ops::RangeInclusive<u32> = 4..=20;

/// A multiple of the planned overlap at which a peak of shear has long stopped falling, if it ever does.
const LONG: f64 = 4.0;

/// What is left of the peak shear's fall where more overlap stops helping.
const LEFT: f64 = 0.01;

/// Greatest shear at another overlap (mm), MPa.
pub(super) type PeakAt<'a> = &'a dyn Fn(f64) -> Known<f64>;

/// Puts the curves of a case: at 23 °C and in each condition with its share of the strength; and where they end.
pub(super) fn put(
    subject: &Subject<'_>,
    case: &Case<'_>,
    nominal: &Known<Nominal>,
    shear: &Shear<'_>,
    conditions: &[(&'static Name, f64)],
    peak_at: Option<PeakAt<'_>>,
    results: &mut Results,
) {
    let (Some(overlap), Ok(nominal)) = (subject.overlap, nominal) else { return };
    let Some(planned) = overlap.get().map(|overlap| overlap.mm()) else { return };
    let fill = [subject.name, case.name];
    results.quantities.put(&names::OVERLAP, &[subject.name], Ok(planned));
    let overlaps: Vec<f64> = TENTHS.map(|tenths| planned * (f64::from(tenths) / 10.0)).collect();
    let along = ("overlap", "mm");
    let curve = |value: &dyn Fn(f64) -> Known<f64>| -> Vec<(f64, f64)> {
        overlaps.iter().filter_map(|overlap| Some((*overlap, value(*overlap).ok()?))).collect()
    };
    let dry = [(&names::RESERVE_BY_OVERLAP, 1.0)];
    for (name, share) in dry.iter().chain(conditions) {
        let changed = nominal.with_strength_share(*share);
        let points = curve(&|overlap| Ok(changed.with_shear((shear.at_overlap)(overlap)?).reserve()));
        results.series.put(name, &fill, along, &points);
    }
    parts(subject, case, results);
    let Some(peak_at) = peak_at else { return };
    // Every second will do: the peak falls smoothly.
    let peaks: Vec<(f64, f64)> =
        overlaps.iter().step_by(2).filter_map(|at| Some((*at, peak_at(*at).ok()?))).collect();
    let helps_to = peak_at(LONG * planned).ok().and_then(|long| helps_to(&peaks, long, peak_at));
    if let Some(helps_to) = helps_to {
        results.quantities.put(&names::OVERLAP_HELPS_TO, &fill, Ok(helps_to));
    }
    results.series.put(&names::PEAK_SHEAR_BY_OVERLAP, &fill, along, &peaks);
}

/// The overlap at which the peak has fallen to within a hundredth of its least, between the points by halving; `None`
/// where it still falls at the longest overlap, or never did.
fn helps_to(peaks: &[(f64, f64)], long: f64, peak_at: PeakAt<'_>) -> Option<f64> {
    /// To a hundredth of the planned overlap and closer: the points stand a fifth of it apart.
    const HALVINGS: u32 = 5;
    let least = peaks.iter().map(|(_, peak)| *peak).fold(long, f64::min);
    let enough = least * (1.0 + LEFT);
    let after = peaks.iter().position(|(_, peak)| *peak <= enough)?;
    let (mut from, mut to) = (peaks.get(after.checked_sub(1)?)?.0, peaks.get(after)?.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(from, to);
        if peak_at(middle).ok()? <= enough { to = middle } else { from = middle }
    }
    Some(to)
}

/// The least reserve of the parts beside the bond whose stress does not depend on the overlap: beyond it a longer
/// overlap carries no more.
fn parts(subject: &Subject<'_>, case: &Case<'_>, results: &mut Results) {
    let start = format!("join.{}.{}.", subject.name, case.name);
    let of_part = |id: &str| {
        let part = id.strip_prefix(&start);
        part.is_some_and(|part| matches!(part, "member" | "insert") || part.ends_with("_plate"))
    };
    let told = results.findings.iter().filter(|finding| of_part(&finding.id));
    let judged = told.filter(|finding| finding.verdict != Verdict::Unknown);
    let least = judged.filter_map(|finding| finding.reserve).reduce(f64::min);
    if let Some(least) = least {
        results.quantities.put(&names::PARTS_RESERVE, &[subject.name, case.name], Ok(least));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_more_overlap_stops_helping_where_the_peak_is_flat() {
        // A hundredth above the least of 10 is 10.1: reached at 70.
        let peak = |overlap: f64| Ok(if overlap < 80.0 { 10.0 + (80.0 - overlap) / 100.0 } else { 10.0 });
        let points = |from: u32| -> Vec<(f64, f64)> {
            (from..=5).map(|k| 20.0 * f64::from(k)).filter_map(|at| Some((at, peak(at).ok()?))).collect()
        };
        let found = helps_to(&points(2), 10.0, &peak).expect("an overlap");
        // Five halvings of 20 mm.
        assert!((70.0..=70.0 + 20.0 / 32.0).contains(&found), "{found}");
        assert_eq!(helps_to(&points(2), 5.0, &peak), None, "it still falls");
        assert_eq!(helps_to(&points(4), 10.0, &peak), None, "it never fell");
    }
}
