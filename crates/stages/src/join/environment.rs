//! Hot, cold and wet, and the glass transition.

use assessment::{Basis, Finding, Known, Lack, Measure, Name, Verdict, names};
use job::tables::Service;
use quantity::{Kind, Temperature};

use super::adhesive::{glass_transition_c, temperature_share};
use super::nominal::{Nominal, ROOM_C, Shear, longer_overlap};
use super::subject::{Case, Subject};
use crate::Results;
use crate::bond_day::BondDay;

/// How far the glass transition should lie above the hottest service: 50 °F.
const MARGIN_K: f64 = 28.0;

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
    let Some(service) = service(subject) else {
        without_service(subject, case, results);
        return shares;
    };
    let ends = [
        ("hot", "hottest", &service.hottest, &names::RESERVE_BY_OVERLAP_HOT),
        ("cold", "coldest", &service.coldest, &names::RESERVE_BY_OVERLAP_COLD),
    ];
    for (end, word, entry, series) in ends {
        let share = at(subject, entry, results);
        shares.extend(share.iter().map(|(_, share)| (series, *share)));
        let finding = started(subject, case, &format!("bond_{end}"));
        results.findings.push(match share {
            Ok((celsius, share)) => judged(
                finding,
                subject,
                nominal,
                share,
                shear,
                results,
                &format!("at {}, the {word} service", results.print(celsius, Kind::Temperature)),
            ),
            Err(lack) => finding.unknown(
                format!("Whether the bond carries this at the {word} service cannot be told."),
                lack,
            ),
        });
    }
    if service.humid.get() == Some(&true) {
        let finding = started(subject, case, "bond_wet");
        let share = subject.adhesive().and_then(|adhesive| Ok(*adhesive.wet_strength.need()?));
        results.findings.push(match share {
            Ok(share) => judged(
                finding,
                subject,
                nominal,
                share,
                shear,
                results,
                &format!("wet at {}", results.print(ROOM_C, Kind::Temperature)),
            ),
            Err(lack) => {
                finding.unknown("Whether the bond carries this wet cannot be told.".to_owned(), lack)
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

fn service<'j>(subject: &Subject<'j>) -> Option<&'j Service> {
    subject.tables.job.get()?.service.get()
}

fn started(subject: &Subject<'_>, case: &Case<'_>, what: &str) -> Finding {
    subject.under(case, what, Basis::YourData("strength by temperature and wetness, in the nominal check"))
}

fn at(subject: &Subject<'_>, entry: &job::Entry<Temperature>, results: &Results) -> Known<(f64, f64)> {
    let celsius = entry.need()?.celsius();
    let share =
        temperature_share(subject.adhesive()?, celsius, |celsius| results.print(celsius, Kind::Temperature))?;
    Ok((celsius, share))
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

/// Whether the hottest service keeps its distance from the glass transition.
pub(super) fn glass_transition(subject: &Subject<'_>, bond_day: &BondDay, results: &mut Results) {
    let Some(service) = service(subject) else { return };
    let basis = Basis::CommonPractice("the hottest service stays 28 K (50 °F) below the glass transition");
    let finding =
        Finding { place: service.hottest.place().cloned(), ..subject.finding("glass_transition", basis) };
    let known = || -> Known<(f64, f64, f64)> {
        let hottest = service.hottest.need()?.celsius();
        let adhesive = subject.adhesive()?;
        let cured = bond_day.cured_at_c(adhesive)?;
        let print = |celsius| results.print(celsius, Kind::Temperature);
        Ok((hottest, cured, glass_transition_c(&adhesive.glass_transition, cured, print)?))
    };
    results.findings.push(match known() {
        Err(lack) => finding.unknown("Whether the hottest service stays below the glass transition cannot be told.".to_owned(), lack),
        Ok((hottest, cured, transition)) => {
            let print = |celsius| results.print(celsius, Kind::Temperature);
            let limit = transition - MARGIN_K;
            let met = hottest <= limit;
            Finding {
                statement: format!("The hottest service is {}; the glass transition allows {}.", print(hottest), print(limit)),
                value: Some(Measure::of(hottest, Kind::Temperature)),
                limit: Some(Measure::of(limit, Kind::Temperature)),
                verdict: if met { Verdict::Met } else { Verdict::NotMet },
                because: format!("The glass transition is {} after a cure at {}.", print(transition), print(cured)),
                next: (!met).then(|| "Cure warmer after closing, as the adhesive's data allow, or keep the joint cooler in service.".to_owned().into()),
                ..finding
            }
        }
    });
}
