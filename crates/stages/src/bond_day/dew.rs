//! Condensation: the metal against the dew point of the air.

use assessment::{Basis, Finding, Known, Lack, Measure, Next, Stage, Verdict};
use job::tables::BondDay;
use job::{Edit, Needed};
use process::dew::dew_point_k;
use quantity::Kind;

use super::history::{Temperatures, ZERO_CELSIUS_K, refused};
use crate::Results;

/// How much warmer than the dew point the metal should be, K.
const MARGIN_K: f64 = 3.0;

/// Holds the metal against the dew point, where the air or the parts are given.
pub(super) fn run(day: &BondDay, temperatures: &Known<Temperatures>, results: &mut Results) {
    if day.air.get().is_none() && day.parts.get().is_none() {
        return;
    }
    let finding = Finding {
        place: day.air.place().or_else(|| day.parts.place()).cloned(),
        ..Finding::new(
            Stage::BondDay,
            "bond_day.dew_point".to_owned(),
            "parts",
            Basis::CommonPractice(
                "metal at least 3 K warmer than the dew point when it is bared, wiped and coated; dew point after Magnus with the constants of Sonntag 1990",
            ),
        )
    };
    let known = || -> Known<(f64, f64, f64)> {
        let air = day.air.need()?;
        let (temperature, humidity) = (air.temperature.need(), air.humidity.need()).need_all()?;
        let dew_k =
            dew_point_k(temperature.kelvin(), *humidity).map_err(|error| refused(&error, &air.key))?;
        Ok((temperature.celsius(), dew_k - ZERO_CELSIUS_K, metal_c(day, temperatures)?))
    };
    results.findings.push(match known() {
        Err(lack) => finding.unknown("Whether the metal gets wet with dew cannot be told.".to_owned(), lack),
        Ok((air, dew, metal)) => {
            let print = |celsius| results.print(celsius, Kind::Temperature);
            let limit = dew + MARGIN_K;
            let met = metal >= limit;
            Finding {
                statement: format!(
                    "The metal is {}; to stay dry it must be at least {}.",
                    print(metal),
                    print(limit)
                ),
                value: Some(Measure::of(metal, Kind::Temperature)),
                limit: Some(Measure::of(limit, Kind::Temperature)),
                verdict: if met { Verdict::Met } else { Verdict::NotMet },
                because: format!("Air at {} has its dew point at {}.", print(air), print(dew)),
                next: (!met).then(|| warm_up(day, limit, air, results)),
                ..finding
            }
        }
    });
}

/// The temperature of the metal at first mix, °C: of the parts as they come in, or of the day.
fn metal_c(day: &BondDay, temperatures: &Known<Temperatures>) -> Known<f64> {
    if let Some(parts) = day.parts.get() {
        return Ok(parts.celsius());
    }
    let temperatures = temperatures.as_ref().map_err(Lack::clone)?;
    let [coldest, _] = temperatures.parts.ends();
    let missing = || Lack::Missing { keys: vec![day.parts.key.clone()] };
    coldest.temperature_k(0.0).map(|kelvin| kelvin - ZERO_CELSIUS_K).ok_or_else(missing)
}

/// Bring the part in, where the air is warm enough to warm it; otherwise the air has to change.
fn warm_up(day: &BondDay, limit_c: f64, air_c: f64, results: &Results) -> Next {
    let enough_c = limit_c.ceil();
    let warm = results.print(enough_c, Kind::Temperature);
    if enough_c > air_c {
        return format!("Dry the air, or warm the metal with a lamp to at least {warm}, before the faces are bared, wiped and coated.").into();
    }
    Next {
        text: format!(
            "Bring the part in and let the metal warm up to at least {warm} before the faces are bared, wiped and coated; measure on the metal."
        ),
        edits: if day.parts.get().is_some() {
            vec![Edit { key: day.parts.key.clone(), value: format!("\"{enough_c} °C\"") }]
        } else {
            Vec::new()
        },
    }
}
