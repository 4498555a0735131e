//! Cure and clocks of `process`.

use process::arrhenius::{Arrhenius, TimeAt, activation_from_times_j_mol};
use process::clocks::{AdhesiveTimes, Clock};
use process::glass::DiBenedetto;
use process::kamal::{KamalSourour, Parameters};
use process::temperature::{History, Sample, ZERO_CELSIUS_K};
use process::{kinetics, lee_loos_springer};
use quantity::Kind;

use super::Output;
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// `process::kamal::KamalSourour` at constant rates.
pub(super) fn kamal_sourour(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    // Without activation energy the rates are those given, at any temperature.
    let anywhere = History::constant(ZERO_CELSIUS_K, None)?;
    let kinetics = KamalSourour::new(
        Parameters {
            rate_1_per_s: inputs.quantity("rate_1", Kind::Rate)?,
            activation_1_j_mol: 0.0,
            rate_2_per_s: inputs.quantity("rate_2", Kind::Rate)?,
            activation_2_j_mol: 0.0,
            m: inputs.number("m")?,
            n: inputs.number("n")?,
        },
        None,
    )?;
    let time_s = inputs.quantity("time", Kind::Time)?;
    Ok(vec![Output::number("conversion", kinetics.conversion_at(&anywhere, 0.0, time_s)?)])
}

/// `process::kinetics::conversions` of `process::lee_loos_springer`, on a log.
pub(super) fn lee_loos_springer(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let samples = inputs.numbers("log_s")?.into_iter().zip(inputs.numbers("log_celsius")?);
    let history = History::sampled(samples.map(|(s, celsius)| Sample::celsius(s, celsius)).collect())?;
    let time_s = inputs.number("time_s")?;
    let found = kinetics::conversions(&lee_loos_springer::rate_per_s, &history, 0.0, &[time_s])?;
    let conversion = found.first().copied().ok_or(MethodError::NoAnswer { what: "conversion" })?;
    Ok(vec![Output::number("conversion", conversion)])
}

/// `process::arrhenius::activation_from_times_j_mol`: a process so many times faster when hotter.
pub(super) fn activation_energy(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let slow = TimeAt { temperature_k: kelvin(inputs, "from")?, time_s: inputs.number("times_faster")? };
    let fast = TimeAt { temperature_k: kelvin(inputs, "to")?, time_s: 1.0 };
    let energy = activation_from_times_j_mol(slow, fast)?;
    Ok(vec![Output::new("activation_energy", Kind::ActivationEnergy, energy)])
}

/// `process::arrhenius::Arrhenius::rate`.
pub(super) fn arrhenius_rate(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let energy = inputs.quantity("activation_energy", Kind::ActivationEnergy)?;
    let law = Arrhenius::new(kelvin(inputs, "from")?, energy)?;
    Ok(vec![Output::number("times_faster", law.rate(kelvin(inputs, "to")?))])
}

/// `process::clocks`: a working time at another temperature than the data sheet's, with the rule of
/// thumb for the activation energy.
pub(super) fn working_time(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let sheet = TimeAt {
        temperature_k: kelvin(inputs, "sheet_temperature")?,
        time_s: inputs.quantity("sheet_time", Kind::Time)?,
    };
    let history = History::constant(kelvin(inputs, "temperature")?, None)?;
    match AdhesiveTimes::default().limit(&history, 0.0, &[sheet])? {
        Clock::Reached { at_s } => Ok(vec![Output::new("working_time", Kind::Time, at_s)]),
        _ => Err(MethodError::NoAnswer { what: "working time" }),
    }
}

/// `process::glass::DiBenedetto::glass_transition_k`.
pub(super) fn dibenedetto(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let glass =
        DiBenedetto::new(kelvin(inputs, "uncured")?, kelvin(inputs, "cured")?, inputs.number("lambda")?)?;
    let celsius = glass.glass_transition_k(inputs.number("conversion")?) - ZERO_CELSIUS_K;
    Ok(vec![Output::new("glass_transition", Kind::Temperature, celsius)])
}

fn kelvin(inputs: &Inputs<'_>, key: &str) -> Result<f64, InputError> {
    Ok(inputs.quantity(key, Kind::Temperature)? + ZERO_CELSIUS_K)
}
