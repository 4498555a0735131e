//! The nominal check hot, cold and wet.

use assessment::{Basis, Finding, Known, Lack, Measure, Name, Verdict, names};
use quantity::Kind;

use super::condition::{Condition, End, Parts, of_service};
use super::nominal::{Nominal, Shear, longer_overlap};
use super::subject::{Case, Subject};
use crate::Results;

/// The reserve of the bond at the ends of service; gives the shares of the strength there, by the series they make.
pub(super) fn find(
    subject: &Subject<'_>,
    case: &Case<'_>,
    nominal: &Known<Nominal>,
    shear: &Shear<'_>,
    results: &mut Results,
) -> Vec<(&'static Name, f64)> {
    let mut shares = Vec::new();
    // Where the bond cannot be judged at 23 °C it cannot be judged anywhere else; one finding says so.
    let Ok(nominal) = nominal else { return shares };
    if !case.is_required() {
        return shares;
    }
    // Strains between the parts do not enter a mean shear.
    let parts = Parts { own_k: None, alike: true };
    let Some(served) = of_service(subject, Condition::room(0.0), &parts, results) else {
        without_service(subject, case, results);
        return shares;
    };
    for served in served {
        let share = served.condition.map(|condition| condition.strength_share);
        let series = match served.end {
            End::Hot => Some(&names::RESERVE_BY_OVERLAP_HOT),
            End::Cold => Some(&names::RESERVE_BY_OVERLAP_COLD),
            End::Wet => None,
        };
        shares.extend(series.zip(share.clone().ok()));
        let finding = started(subject, case, &format!("bond_{}", served.end.word()));
        results.findings.push(match share {
            Ok(share) => judged(finding, subject, nominal, share, shear, results, &served.when),
            Err(lack) => {
                let when = served.end.when();
                finding.unknown(format!("Whether the bond carries this {when} cannot be told."), lack)
            }
        });
    }
    shares
}

/// A job that does not say in which conditions the part serves.
fn without_service(subject: &Subject<'_>, case: &Case<'_>, results: &mut Results) {
    let lack = Lack::Missing { keys: vec!["job.service".to_owned()] };
    let statement = "Whether the bond carries this hot, cold or wet cannot be told.".to_owned();
    results.findings.push(started(subject, case, "service").unknown(statement, lack));
}

fn started(subject: &Subject<'_>, case: &Case<'_>, what: &str) -> Finding {
    subject.under(case, what, Basis::YourData("strength by temperature and wetness, in the nominal check"))
}

fn judged(
    finding: Finding,
    subject: &Subject<'_>,
    nominal: &Nominal,
    share: f64,
    shear: &Shear<'_>,
    results: &Results,
    condition: &str,
) -> Finding {
    let changed = nominal.with_strength_share(share);
    let reserve = changed.reserve();
    Finding {
        statement: format!("The bond of {} has a reserve factor of {reserve:.2} {condition}.", finding.about),
        value: Some(Measure::of(changed.demand_mpa(), Kind::Stress)),
        limit: Some(Measure::of(changed.allowed_mpa(), Kind::Stress)),
        reserve: Some(reserve),
        verdict: Verdict::of_reserve(reserve),
        because: format!("The adhesive has {:.0} % of its strength there.", share * 100.0),
        next: if reserve < 1.0 { longer_overlap(subject, &changed, shear, results) } else { None },
        ..finding
    }
}
