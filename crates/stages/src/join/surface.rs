//! The faying surfaces: prepared, bare, and bonded soon enough.

use assessment::{Basis, Finding, Lack, Measure, Verdict};
use job::Needed;
use quantity::Kind;

use super::subject::Subject;
use crate::Results;

/// How long an abraded surface may wait, s: the upper end of what the trade allows.
const LONGEST_WAIT_S: f64 = 4.0 * 3600.0;

/// Finds what is known of the surfaces. No strength on paper holds on a surface that nobody prepared.
pub(super) fn find(subject: &Subject<'_>, results: &mut Results) {
    let surface = subject.surface;
    let basis = Basis::CommonPractice("bond bare, abraded metal within 1 to 4 h");
    let place = surface.place().cloned().or_else(|| Some(subject.place.clone()));
    let finding = Finding { place, ..subject.finding("surface", basis) };
    let needed = match surface.get() {
        None => Err(Lack::Missing { keys: vec![surface.key.clone()] }),
        Some(surface) => (surface.preparation.need(), surface.coating.need(), surface.hours_since.need())
            .need_all()
            .map_err(Lack::from),
    };
    results.findings.push(match needed {
        Err(lack) => finding.unknown(format!("Whether the faying surfaces of {} are fit for bonding cannot be told.", subject.name), lack),
        Ok((preparation, coating, since)) => {
            let soon = since.seconds() <= LONGEST_WAIT_S;
            Finding {
                statement: format!(
                    "The faying surfaces of {} are {preparation}, the coating is {coating}, and they wait {}.",
                    subject.name,
                    results.print(since.seconds(), Kind::Time)
                ),
                value: Some(Measure::of(since.seconds(), Kind::Time)),
                limit: Some(Measure::of(LONGEST_WAIT_S, Kind::Time)),
                verdict: if soon { Verdict::Note } else { Verdict::NotMet },
                because: "Every strength here is that of a bond that breaks in the adhesive, not off the metal.".to_owned(),
                next: (!soon).then(|| "Abrade and wipe again, then bond within the hour.".to_owned().into()),
                ..finding
            }
        }
    });
}
