//! The point of the limit state nearest to the origin.

use super::{Settings, Variables, evaluate};
use crate::EvidenceError;
use crate::error::finite;

/// Half the span of a difference quotient, in standard deviations: wide enough for a limit state that is only
/// known to four digits, narrow enough for one that bends.
const SPAN: f64 = 0.05;

/// Iterations allowed.
const LIMIT: usize = 40;

/// Where failure is most likely.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignPoint {
    /// The point in the space of independent standard normal U.
    pub u: Vec<f64>,
    /// The values there, each in its own unit.
    pub values: Vec<f64>,
    /// Its distance from the origin, negative where the origin itself has failed: reliability index β.
    pub index: f64,
    /// Share of each quantity in the distance, summing to 1: α² of independent quantities.
    pub shares: Vec<f64>,
}

/// Searches the design point by the method of Hasofer and Lind 1974 and Rackwitz and Fiessler 1978 with the line
/// search of Zhang and Der Kiureghian 1995 (all from memory).
///
/// ```text
/// u' = ∇g (∇g·u − g)/|∇g|²          merit ½|u|² + c |g|,  c > |u|/|∇g|
/// ```
///
/// Gives the point and the evaluations it took.
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] where the limit state cannot be told on the way, is level, or the search does not
/// settle.
pub fn search(
    variables: &Variables,
    settings: &Settings,
    limit: &(impl Fn(&[f64]) -> Option<f64> + Sync),
) -> Result<(DesignPoint, usize), EvidenceError> {
    let unsettled = || EvidenceError::NotConverged { what: "search of the design point", limit: LIMIT };
    let n = variables.count();
    let mut spent = 0;
    let mut all = |points: &[Vec<f64>]| -> Result<Vec<f64>, EvidenceError> {
        spent += points.len();
        let answers = evaluate(variables, settings.threads, limit, points)?;
        answers.into_iter().collect::<Option<_>>().ok_or_else(unsettled)
    };
    let mut u = vec![0.0; n];
    let mut g = all(std::slice::from_ref(&u))?[0];
    let (at_origin, mut scale) = (g, 0.0_f64);
    for _ in 0..LIMIT {
        let slope = slope(&u, &mut all)?;
        let square = dot(&slope, &slope);
        scale = scale.max(square.sqrt());
        if square.sqrt() <= 1e-12 * (at_origin.abs() + scale) {
            return Err(unsettled());
        }
        let ahead = (dot(&slope, &u) - g) / square;
        let step: Vec<f64> = slope.iter().zip(&u).map(|(s, u)| ahead * s - u).collect();
        // A hundredth of a standard deviation: samples around it do not care.
        if dot(&step, &step).sqrt() < 0.01 && (g / square.sqrt()).abs() < 0.01 {
            let length = dot(&u, &u).sqrt();
            let alpha: Vec<f64> = slope.iter().map(|s| s / square.sqrt()).collect();
            let index = finite("reliability index", if at_origin < 0.0 { -length } else { length })?;
            let (values, shares) = (variables.at(&u)?, variables.shares(&alpha));
            return Ok((DesignPoint { u, values, index, shares }, spent));
        }
        let penalty = 2.0 * (dot(&u, &u).sqrt() / square.sqrt()).max(1.0 / square.sqrt());
        let merit = |u: &[f64], g: f64| 0.5 * dot(u, u) + penalty * g.abs();
        let falls = dot(&u, &step) - penalty * g.abs();
        let before = merit(&u, g);
        let mut length = 1.0;
        loop {
            let next: Vec<f64> = u.iter().zip(&step).map(|(u, s)| u + length * s).collect();
            let there = all(std::slice::from_ref(&next))?[0];
            if merit(&next, there) <= before + 1e-4 * length * falls.min(0.0) + 1e-9 {
                (u, g) = (next, there);
                break;
            }
            length *= 0.5;
            if length < 1e-3 {
                return Err(unsettled());
            }
        }
    }
    Err(unsettled())
}

/// The slope by central differences.
fn slope(
    u: &[f64],
    all: &mut impl FnMut(&[Vec<f64>]) -> Result<Vec<f64>, EvidenceError>,
) -> Result<Vec<f64>, EvidenceError> {
    let mut around = Vec::with_capacity(2 * u.len());
    for i in 0..u.len() {
        for side in [-SPAN, SPAN] {
            let mut moved = u.to_vec();
            moved[i] += side;
            around.push(moved);
        }
    }
    Ok(all(&around)?.chunks_exact(2).map(|pair| (pair[1] - pair[0]) / (2.0 * SPAN)).collect())
}

pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
