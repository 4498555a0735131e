//! Any law of cure followed along a temperature history.

use crate::ProcessError;
use crate::error::within;
use crate::runge_kutta::{Step, dormand_prince, follow};
use crate::temperature::{History, Reach, Segment};

/// Greatest error of one step, in conversion. With the hundred steps of a cure the whole error
/// stays below 1e-8, far below what kinetics are known to.
const TOLERANCE: f64 = 1e-11;

/// So little unreacted counts as none: the end of the cure is approached for ever.
const COMPLETE: f64 = 1e-12;

/// A constant temperature without an end is followed this far: ten years, s.
pub const HORIZON_S: f64 = 10.0 * 365.25 * 86_400.0;

/// The conversion at each of some rising times from first mix, starting from `initial` at first mix.
///
/// ```text
/// dα/dt = rate(T(t), α)
/// ```
///
/// The rate, 1/s, is asked at a temperature in K and a conversion; the inner stages of a long step may leave
/// 0 to 1 a little. It may jump at some conversion: the steps become short there.
///
/// # Errors
///
/// `initial` outside 0 to 1, times that do not rise or lie outside the history, and failures of the
/// integration.
pub fn conversions(
    rate: &impl Fn(f64, f64) -> f64,
    history: &History,
    initial: f64,
    times_s: &[f64],
) -> Result<Vec<f64>, ProcessError> {
    within("initial conversion", initial, 0.0, 1.0)?;
    let mut conversions = Vec::with_capacity(times_s.len());
    let (mut at_s, mut conversion) = (0.0, initial);
    for (index, &time_s) in times_s.iter().enumerate() {
        history.covers(time_s)?;
        if time_s < at_s {
            return Err(ProcessError::TimesNotRising { index, before_s: at_s, time_s });
        }
        for segment in history.between(at_s, time_s) {
            conversion = over(rate, &segment, conversion, |_, _| true)?;
        }
        at_s = time_s;
        conversions.push(conversion);
    }
    Ok(conversions)
}

/// When a conversion is reached. In [`Reach::NotWithin`] the amount is the conversion at the end; a temperature
/// without an end is followed for [`HORIZON_S`].
///
/// # Errors
///
/// As [`conversions`]; a target outside 0 to 1.
pub fn time_to_conversion(
    rate: &impl Fn(f64, f64) -> f64,
    history: &History,
    initial: f64,
    target: f64,
) -> Result<Reach, ProcessError> {
    within("conversion", target, 0.0, 1.0)?;
    within("initial conversion", initial, 0.0, 1.0)?;
    if target <= initial {
        return Ok(Reach::At { time_s: 0.0 });
    }
    let end_s = history.end_s().unwrap_or(HORIZON_S);
    let mut conversion = initial;
    for segment in history.between(0.0, end_s) {
        let mut crossed = None;
        conversion = over(rate, &segment, conversion, |step, f| {
            if step.after < target {
                return true;
            }
            crossed = Some(crossing(f, step, target));
            false
        })?;
        if let Some(time_s) = crossed {
            return Ok(Reach::At { time_s });
        }
    }
    Ok(Reach::NotWithin { end_s, amount: conversion })
}

/// Follows the cure over one segment; `visit` may end it.
fn over(
    rate: &impl Fn(f64, f64) -> f64,
    segment: &Segment,
    conversion: f64,
    mut visit: impl FnMut(&Step, &dyn Fn(f64, f64) -> f64) -> bool,
) -> Result<f64, ProcessError> {
    if 1.0 - conversion <= COMPLETE {
        return Ok(conversion);
    }
    let f = |t: f64, conversion: f64| rate(segment.at_k(t), conversion);
    let end = follow(&f, segment.from_s, segment.to_s, conversion, TOLERANCE, |step| {
        visit(step, &f) && 1.0 - step.after > COMPLETE
    })?;
    // A step may pass complete cure by its tolerance, no further.
    Ok(end.min(1.0))
}

/// When inside an accepted step the conversion passes the target: shorter steps from the same
/// start, bisected. Each is at least as accurate as the accepted one.
fn crossing(f: &dyn Fn(f64, f64) -> f64, step: &Step, target: f64) -> f64 {
    let f = |t: f64, y: f64| f(t, y);
    let (mut low, mut high) = (0.0, step.length);
    // 60 halvings exhaust the digits of the step.
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if dormand_prince(&f, step.from, step.before, middle).0 < target {
            low = middle;
        } else {
            high = middle;
        }
    }
    step.from + high
}
