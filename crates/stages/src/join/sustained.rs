//! Loads that stay on: an adhesive creeps under what it bears for a minute.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use quantity::Kind;

use super::nominal::Nominal;
use super::subject::{Case, Subject};
use crate::Results;

/// The nominal check once more, with the lasting share of the load against the lasting share of the strength.
pub(super) fn find(subject: &Subject<'_>, case: &Case<'_>, nominal: &Known<Nominal>, results: &mut Results) {
    let Some(lasting) = case.service.lasting else { return };
    let known = || -> Known<(Nominal, f64)> {
        let share = subject.adhesive().and_then(|adhesive| Ok(*adhesive.sustained_share.need()?));
        let (share, nominal) = (share?, nominal.clone()?);
        Ok((nominal.with_load_share(lasting).with_strength_share(share), share))
    };
    let known = known();
    let fill = [subject.name, case.name];
    let reserve = known.as_ref().map(|(nominal, _)| nominal.reserve()).map_err(Lack::clone);
    results.quantities.put(&names::SUSTAINED_RESERVE, &fill, reserve);
    let basis = Basis::YourData("lasting share of the strength, by the factors of the nominal check");
    let finding = subject.under(case, "sustained", basis);
    results.findings.push(match known {
        Err(lack) => {
            let statement = format!(
                "Whether the bond of {} bears the lasting part of the case cannot be told.",
                subject.name
            );
            finding.unknown(statement, lack)
        }
        Ok((nominal, share)) => {
            let reserve = nominal.reserve();
            let verdict = if case.is_required() { Verdict::of_reserve(reserve) } else { Verdict::Note };
            Finding {
                statement: format!(
                    "Under the lasting part of the load the bond of {} has a reserve factor of {reserve:.2}.",
                    subject.name
                ),
                value: Some(Measure::of(nominal.demand_mpa(), Kind::Stress)),
                limit: Some(Measure::of(nominal.allowed_mpa(), Kind::Stress)),
                reserve: Some(reserve),
                verdict,
                because: format!(
                    "{:.0} % of the load stays on, and {:.0} % of the strength lasts in the hottest service.",
                    100.0 * lasting,
                    100.0 * share
                ),
                next: (verdict == Verdict::NotMet).then(|| {
                    "Make the bonded area larger, take the lasting load off, or let the rivets carry it."
                        .to_owned()
                        .into()
                }),
                ..finding
            }
        }
    });
}
