//! Samples around the design point.

use super::design_point::dot;
use super::generator::Draws;
use super::{DesignPoint, Estimate, Method, Settings, Variables, evaluate};
use crate::EvidenceError;
use crate::error::finite;

/// More evaluations without an answer than this share leave the chance unknown.
const MOST_UNTOLD: f64 = 0.1;

/// Two-sided 95 % of the normal distribution.
const QUANTILE: f64 = 1.959_963_984_540_054;

/// Draws `settings.samples` points from the standard normal density moved to the design point, and weighs them.
///
/// ```text
/// p = (1/n) Σ w_k 1[g(u_k) < 0]        u_k = u* + z_k        w_k = exp(−z_k·u* − |u*|²/2)
/// ```
///
/// Where the origin itself has failed, the chance of survival is found so and taken from 1. The interval is
/// p exp(±1.96 s/p), s the standard error of the mean, so that it does not fall below zero; it needs enough samples
/// for the mean to be near to normal, of which a few hundred are enough around one design point.
///
/// Source: textbook (importance sampling at the design point; Schuëller and Stix 1987, from memory).
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] where no sample lies on the rare side, or too many have no answer.
pub fn sample(
    variables: &Variables,
    settings: &Settings,
    point: &DesignPoint,
    limit: &(impl Fn(&[f64]) -> Option<f64> + Sync),
) -> Result<Estimate, EvidenceError> {
    let unsettled = || EvidenceError::NotConverged { what: "importance sampling", limit: settings.samples };
    let draws = Draws::new(settings.seed, 0);
    let (mut points, mut weights) = (Vec::new(), Vec::new());
    for number in (0_u64..).take(settings.samples) {
        let z = draws.normals(number, variables.count())?;
        weights.push(libm::exp(-dot(&z, &point.u) - 0.5 * dot(&point.u, &point.u)));
        points.push(z.iter().zip(&point.u).map(|(z, u)| z + u).collect());
    }
    let answers = evaluate(variables, settings.threads, limit, &points)?;
    let untold = answers.iter().filter(|answer| answer.is_none()).count();
    let n = count(settings.samples);
    if count(untold) > MOST_UNTOLD * n {
        return Err(unsettled());
    }
    let survives = point.index < 0.0;
    let (mut sum, mut squares, mut lost) = (0.0, 0.0, 0.0);
    for (answer, weight) in answers.iter().zip(&weights) {
        match answer {
            Some(g) if (*g < 0.0) != survives => {
                sum += weight;
                squares += weight * weight;
            }
            Some(_) => {}
            None => lost += weight,
        }
    }
    let rare = sum / n;
    if rare <= 0.0 {
        return Err(unsettled());
    }
    let error = ((squares / n - rare * rare) / (n - 1.0)).max(0.0).sqrt();
    let spread = libm::exp(QUANTILE * error / rare);
    let (low, high) = (rare / spread, (rare * spread + lost / n).min(1.0));
    let rare = rare.min(1.0);
    let (probability, interval) =
        if survives { (1.0 - rare, [1.0 - high, 1.0 - low.min(1.0)]) } else { (rare, [low.min(1.0), high]) };
    Ok(Estimate {
        probability: finite("failure probability", probability)?,
        interval,
        method: Method::ImportanceSampling,
        design_point: None,
        evaluations: settings.samples,
        untold,
    })
}

#[expect(clippy::cast_precision_loss, reason = "numbers of samples are far below 2⁵²")]
pub(super) fn count(n: usize) -> f64 {
    n as f64
}
