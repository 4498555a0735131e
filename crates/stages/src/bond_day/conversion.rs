//! The share of cure by the adhesive's own kinetics.

use assessment::{Basis, Finding, Known, Lack, Measure, Stage, names};
use job::Needed;
use job::tables::{Adhesive, BondDay, Kinetics};
use process::glass::{DiBenedetto, Stall};
use process::kamal::{KamalSourour, Parameters};
use quantity::Kind;

use super::history::{Temperatures, ZERO_CELSIUS_K, refused};
use crate::Results;

/// What cure is taken for none at first mix.
const FRESH: f64 = 0.0;

/// Two conversions that agree to this are one: what the integration is known to.
const SAME: f64 = 1e-6;

/// The conversion at the end of the temperature given; nothing is asked of one without an end, nor of an
/// adhesive without kinetics.
pub(super) fn run(
    day: &BondDay,
    joint: &str,
    adhesive: &Adhesive,
    temperatures: &Known<Temperatures>,
    results: &mut Results,
) {
    let Some(kinetics) = adhesive.kinetics.get() else { return };
    let end_s = match temperatures {
        Ok(temperatures) => match temperatures.parts.end_s() {
            Some(end_s) => Ok(end_s),
            None => return,
        },
        Err(lack) => Err(lack.clone()),
    };
    let known = end_s.and_then(|end_s| {
        let model = Model::of(kinetics)?;
        let temperatures = temperatures.as_ref().map_err(Lack::clone)?;
        Ok((end_s, model.at(end_s, temperatures, day, &kinetics.key, results)?, model.glass))
    });
    let conversion = known.as_ref().map(|(_, conversion, _)| *conversion).map_err(Lack::clone);
    results.quantities.put(&names::CONVERSION, &[joint], conversion);
    let finding = Finding {
        place: Some(kinetics.place.clone()),
        ..Finding::new(
            Stage::BondDay,
            format!("bond_day.{joint}.conversion"),
            joint,
            Basis::Memory(
                "Kamal and Sourour 1973; stall after Chern and Poehlein 1987, glass transition after DiBenedetto 1987",
            ),
        )
    };
    results.findings.push(match known {
        Ok((end_s, conversion, glass)) => Finding {
            statement: format!(
                "After {} the adhesive of {joint} has cured to {:.1} %.",
                results.print(end_s, Kind::Time),
                conversion * 100.0
            ),
            value: Some(Measure { value: conversion, unit: "-", kind: None }),
            because: match glass {
                None => "Without its glass transitions the kinetics know of no stall, and a cool cure stalls earlier.".to_owned(),
                Some(glass) => format!(
                    "Its glass transition is then {}; the cure stalls as that passes the temperature of the parts.",
                    results.print(glass.glass_transition_k(conversion) - ZERO_CELSIUS_K, Kind::Temperature)
                ),
            },
            ..finding
        },
        Err(lack) => finding.unknown(format!("The share of cure of {joint} cannot be told."), lack),
    });
}

/// The kinetics of an adhesive.
struct Model {
    law: KamalSourour,
    /// Glass transition against conversion, where it is given.
    glass: Option<DiBenedetto>,
}

impl Model {
    fn of(kinetics: &Kinetics) -> Known<Self> {
        let (rate_1, activation_1, rate_2, activation_2, m, n) = (
            kinetics.rate_1.need(),
            kinetics.activation_1.need(),
            kinetics.rate_2.need(),
            kinetics.activation_2.need(),
            kinetics.m.need(),
            kinetics.n.need(),
        )
            .need_all()?;
        let any = kinetics.tg_uncured.get().is_some()
            || kinetics.tg_cured.get().is_some()
            || kinetics.lambda.get().is_some();
        let refuse = |error| refused(&error, &kinetics.key);
        let glass = if any {
            // One of the three alone says nothing; a stall that is half given is no reason to leave it out.
            let (fresh, cured, lambda) =
                (kinetics.tg_uncured.need(), kinetics.tg_cured.need(), kinetics.lambda.need()).need_all()?;
            Some(DiBenedetto::new(fresh.kelvin(), cured.kelvin(), *lambda).map_err(refuse)?)
        } else {
            None
        };
        let stall =
            glass.map(|glass| Stall::new(glass, Stall::COMMON_STEEPNESS)).transpose().map_err(refuse)?;
        let parameters = Parameters {
            rate_1_per_s: rate_1.per_second(),
            activation_1_j_mol: activation_1.j_per_mol(),
            rate_2_per_s: rate_2.per_second(),
            activation_2_j_mol: activation_2.j_per_mol(),
            m: *m,
            n: *n,
        };
        Ok(Self { law: KamalSourour::new(parameters, stall).map_err(refuse)?, glass })
    }

    /// The conversion at a time; of two that the gaps of a log leave open, none.
    fn at(
        &self,
        end_s: f64,
        temperatures: &Temperatures,
        day: &BondDay,
        key: &str,
        results: &Results,
    ) -> Known<f64> {
        let [cold, warm] = temperatures.parts.at_ends(|history| {
            self.law.conversion_at(history, FRESH, end_s).map_err(|error| refused(&error, key))
        });
        let (cold, warm) = (cold?, warm?);
        if (cold - warm).abs() <= SAME {
            return Ok(warm);
        }
        let bounds = format!("the share of cure is {:.1} % and {:.1} %", cold * 100.0, warm * 100.0);
        Err(temperatures.parts.open(day, &bounds, results))
    }
}
