//! A bond whose adhesive lies somewhere between two complete tables: both answers, and no judgement.

use assessment::{Known, Lack, names};

use super::super::ends::Ends;
use super::super::subject::{Case, Subject};
use crate::Results;

/// What one of the two tables gives.
pub(in super::super) struct End {
    /// Multiple of the case's load at which the bond gives way, strengths as written.
    pub(in super::super) written: f64,
    /// Reserve factor at characteristic values.
    pub(in super::super) reserve: Known<f64>,
}

/// Loads a lap with each of the two tables, and tells what came of it.
pub(super) fn laps(
    subject: &Subject<'_>,
    case: &Case<'_>,
    ends: &Ends,
    of: impl Fn(&Subject<'_>, &Results) -> Known<End>,
    results: &mut Results,
) {
    let tables = subject.adhesive.get().map(|name| ends.tables(subject.tables, name));
    let both = tables.ok_or_else(|| ends.lack()).and_then(|tables| {
        let [low, high] =
            tables.each_ref().map(|tables| of(&Subject { tables, ends: None, ..subject.clone() }, results));
        Ok([low?, high?])
    });
    let lack = both.as_ref().err().cloned().unwrap_or_else(|| ends.lack());
    super::lap::put(&[subject.name, case.name], &Err(lack), results);
    tell(subject, case, ends, both, results);
}

/// Tells what both tables give, the lower answer first.
pub(in super::super) fn tell(
    subject: &Subject<'_>,
    case: &Case<'_>,
    ends: &Ends,
    both: Known<[End; 2]>,
    results: &mut Results,
) {
    let fill = [subject.name, case.name];
    let sorted = |[a, b]: [f64; 2]| [f64::min(a, b), f64::max(a, b)];
    let written =
        both.as_ref().map(|both| sorted(both.each_ref().map(|end| end.written))).map_err(Lack::clone);
    results.quantities.put(&names::CAPACITY_FACTOR_LOW, &fill, written.clone().map(|[low, _]| low));
    results.quantities.put(&names::CAPACITY_FACTOR_HIGH, &fill, written.clone().map(|[_, high]| high));
    let finding = subject.under(case, "bond_to_failure", super::basis());
    let (both, [low, high]) = match both.and_then(|both| Ok((both, written?))) {
        Ok(known) => known,
        Err(lack) => {
            let statement = format!("At what load the bond of {} gives way cannot be told.", subject.name);
            results.findings.push(finding.unknown(statement, lack));
            return;
        }
    };
    let name = subject.name;
    let gives = format!("gives way between {low:.2} and {high:.2} times the load");
    let (statement, lack, more) = match both.map(|end| end.reserve) {
        [Ok(one), Ok(other)] => {
            let [low, high] = sorted([one, other]);
            let statement = format!(
                "Loaded until it fails, for {} the bond of {name} has a reserve factor between {low:.2} and {high:.2} at 23 °C, dry; nothing is judged by that.",
                ends.by
            );
            (statement, ends.lack(), format!(" It {gives}, strengths as written."))
        }
        [Err(lack), _] | [_, Err(lack)] => {
            let statement = format!(
                "Loaded until it fails, for {} the bond of {name} {gives}; that cannot be judged.",
                ends.by
            );
            (statement, ends.and(lack), String::new())
        }
    };
    let mut finding = finding.unknown(statement, lack);
    finding.because.push_str(&more);
    results.findings.push(finding);
}
