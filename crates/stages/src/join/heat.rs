//! The glass transition, and heat that comes near it: in service, and once more after the cure.

use assessment::{Basis, Finding, Known, Measure, Verdict};
use quantity::Kind;

use super::adhesive::glass_transition_c;
use super::condition::service;
use super::subject::Subject;
use crate::Results;
use crate::bond_day::BondDay;

/// How far the glass transition should lie above the hottest service: 50 °F.
const MARGIN_K: f64 = 28.0;

/// Whether the hottest service keeps its distance from the glass transition.
pub(super) fn glass_transition(subject: &Subject<'_>, bond_day: &BondDay, results: &mut Results) {
    let Some(service) = service(subject.tables) else { return };
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

/// Whether heat after the cure, in which nothing but its own parts hangs on the bond, stays below the glass transition.
pub(super) fn later(subject: &Subject<'_>, bond_day: &BondDay, results: &mut Results) {
    let Some(day) = subject.tables.bond_day.get() else { return };
    let Some(heat) = day.later_heat.get() else { return };
    let here = day.joints.get().is_none_or(|joints| joints.iter().any(|joint| joint.value == subject.name));
    let Some(heat_c) = heat.temperature.get().map(|at| at.celsius()).filter(|_| here) else { return };
    let basis = Basis::CommonPractice("heat after the cure stays below the glass transition");
    let place = day.later_heat.place().cloned();
    let finding = Finding { place, ..subject.finding("later_heat", basis) };
    let known = || -> Known<(f64, f64)> {
        let adhesive = subject.adhesive()?;
        let cured = bond_day.cured_at_c(adhesive)?;
        let print = |celsius| results.print(celsius, Kind::Temperature);
        Ok((cured, glass_transition_c(&adhesive.glass_transition, cured, print)?))
    };
    let print = |celsius| results.print(celsius, Kind::Temperature);
    let lasts = heat.duration.get().map_or_else(String::new, |duration| {
        format!(" for {}", results.print(duration.seconds(), Kind::Time))
    });
    let (cured_c, transition_c) = match known() {
        Ok(known) => known,
        Err(lack) => {
            let statement =
                format!("Whether {} bears a later heat of {} cannot be told.", subject.name, print(heat_c));
            results.findings.push(finding.unknown(statement, lack));
            return;
        }
    };
    let met = heat_c <= transition_c;
    let mut because =
        format!("The glass transition is {} after a cure at {}.", print(transition_c), print(cured_c));
    because.push_str(match (met, heat_c <= transition_c - MARGIN_K) {
        (true, true) => " It lies at least 28 K above.",
        (true, false) => {
            " So near to it the adhesive is soft: nothing may hang on the bond until it is cold."
        }
        (false, _) => " Above it the adhesive is soft as rubber, and the parts may shift.",
    });
    results.findings.push(Finding {
        statement: format!(
            "{} meets a later heat of {}{lasts}; the glass transition allows {}.",
            subject.name,
            print(heat_c),
            print(transition_c)
        ),
        value: Some(Measure::of(heat_c, Kind::Temperature)),
        limit: Some(Measure::of(transition_c, Kind::Temperature)),
        verdict: if met { Verdict::Met } else { Verdict::NotMet },
        because,
        next: (!met).then(|| {
            "Cure warmer before, as the adhesive's data allow, heat before bonding, or keep the joint out of that heat."
                .to_owned()
                .into()
        }),
        ..finding
    });
}
