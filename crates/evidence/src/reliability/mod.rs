//! How likely it is that a limit state is passed, when what it depends on scatters.
//!
//! [`Variables`] say what scatters and how, a closure says for one set of values how far the limit state is
//! away (negative: passed; `None`: it could not be told), and [`failure_probability`] gives the chance with a
//! 95 % interval, the effort, and what matters.
//!
//! ```text
//! p = P(g(X) < 0)          X_i = F_i⁻¹(Φ(Z_i))          Z = L U,  L Lᵀ = R,  U standard normal
//! ```
//!
//! The design point, the point of the limit state nearest to the origin of U, is searched first
//! ([`design_point`]); samples are then drawn around it ([`importance`]). Where the search does not settle,
//! [`subset`] simulation is used, which needs no such point and many more evaluations.
//!
//! What the interval covers is the scatter of the sampling alone. It says nothing of the tails that were
//! assumed, and a second region of failure far from the design point may be missed by importance sampling.
//!
//! Same seed, same answer: sample number n draws the same numbers whichever thread does it, and sums run in
//! the order of the samples.

pub mod design_point;
pub mod generator;
pub mod importance;
pub mod marginal;
pub mod subset;
mod variables;

use std::num::NonZeroUsize;

pub use design_point::DesignPoint;
pub use marginal::{Marginal, Shape};
pub use variables::Variables;

use crate::EvidenceError;

/// How much is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Settings {
    /// What the random numbers are made from.
    pub seed: u64,
    /// Samples around the design point, or on each level of each run of subset simulation.
    pub samples: usize,
    /// Threads that evaluate the limit state; the answer does not depend on it.
    pub threads: NonZeroUsize,
}

/// By what the chance was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Samples around the design point.
    ImportanceSampling,
    /// Levels of ever rarer samples.
    SubsetSimulation,
}

/// A chance of failure.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// The chance that the limit state is passed.
    pub probability: f64,
    /// 95 % interval of the sampling. Evaluations without an answer are survivals at its lower end and failures
    /// at its upper; subset simulation takes them for survivals at both.
    pub interval: [f64; 2],
    /// By what it was found.
    pub method: Method,
    /// The design point, where the search settled.
    pub design_point: Option<DesignPoint>,
    /// Evaluations of the limit state.
    pub evaluations: usize,
    /// Those without an answer.
    pub untold: usize,
}

/// The chance that `limit` is negative.
///
/// # Errors
///
/// [`EvidenceError::TooFew`] with fewer than 100 samples, [`EvidenceError::NotConverged`] where neither method
/// comes to an end, and whatever [`Variables`] returns.
pub fn failure_probability(
    variables: &Variables,
    settings: &Settings,
    limit: &(impl Fn(&[f64]) -> Option<f64> + Sync),
) -> Result<Estimate, EvidenceError> {
    const LEAST: usize = 100;
    if settings.samples < LEAST {
        return Err(EvidenceError::TooFew { what: "sampling", needed: LEAST, found: settings.samples });
    }
    match design_point::search(variables, settings, limit) {
        Ok((point, spent)) => {
            let found = importance::sample(variables, settings, &point, limit)?;
            Ok(Estimate { evaluations: found.evaluations + spent, design_point: Some(point), ..found })
        }
        Err(EvidenceError::NotConverged { .. }) => subset::sample(variables, settings, limit),
        Err(other) => Err(other),
    }
}

/// The limit state at points of the space of U, in their order; what is not finite is no answer.
fn evaluate(
    variables: &Variables,
    threads: NonZeroUsize,
    limit: &(impl Fn(&[f64]) -> Option<f64> + Sync),
    points: &[Vec<f64>],
) -> Result<Vec<Option<f64>>, EvidenceError> {
    let values: Vec<Vec<f64>> = points.iter().map(|u| variables.at(u)).collect::<Result<_, _>>()?;
    let mut answers = vec![None; points.len()];
    let work = |values: &[Vec<f64>], answers: &mut [Option<f64>]| {
        for (values, answer) in values.iter().zip(answers) {
            *answer = limit(values).filter(|g| g.is_finite());
        }
    };
    let share = points.len().div_ceil(threads.get()).max(1);
    if share >= points.len() {
        work(&values, &mut answers);
        return Ok(answers);
    }
    std::thread::scope(|scope| {
        for (values, answers) in values.chunks(share).zip(answers.chunks_mut(share)) {
            scope.spawn(move || work(values, answers));
        }
    });
    Ok(answers)
}

#[cfg(test)]
mod tests;
