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
//! ([`design_point`]); samples are then drawn on lines that run in its direction ([`importance`]). Where there is no
//! such direction, [`subset`] simulation is used, which needs none and many more evaluations.
//!
//! What the interval covers is the scatter of the sampling alone. It says nothing of the tails that were
//! assumed, and a second region of failure that the lines do not cross, or cross further out, is missed.
//!
//! Same seed, same answer: sample number n draws the same numbers whichever thread does it, sums run in the order of
//! the samples, and when enough is known is decided after whole batches. Only what was stopped from outside may end
//! elsewhere.

pub mod design_point;
pub mod generator;
pub mod importance;
pub mod marginal;
pub mod subset;
mod variables;

use std::num::NonZeroUsize;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

pub use design_point::DesignPoint;
pub use marginal::{Marginal, Shape};
pub use variables::Variables;

use self::design_point::Nearest;
use crate::EvidenceError;

/// How much is done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// What the random numbers are made from.
    pub seed: u64,
    /// Evaluations of the limit state that are allowed.
    pub evaluations: usize,
    /// How wide the interval may be left: sampling ends once its upper end is no more than (1 + this)² times its lower;
    /// of chances below one in ten million, (1 + 3 this)².
    pub precision: f64,
    /// Threads that evaluate the limit state; the answer does not depend on it.
    pub threads: NonZeroUsize,
}

/// What is sampled: the limit state, and whether to stop.
///
/// The limit state may be asked from several threads at once.
pub struct Task<'a> {
    /// Distance from the limit state at some values, negative where it is passed, nothing where it cannot be told.
    pub limit: &'a (dyn Fn(&[f64]) -> Option<f64> + Sync),
    /// Asked before each evaluation: whether to end with what is known.
    pub stopped: &'a (dyn Fn() -> bool + Sync),
}

/// By what the chance was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Samples on lines in the direction of the design point.
    ImportanceSampling,
    /// Levels of ever rarer samples.
    SubsetSimulation,
    /// No sampling: the way down the steepest slope does not meet the limit state within
    /// [`FAR`](design_point::FAR) standard deviations.
    FirstOrder,
}

/// Why no more was sampled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// The interval is as narrow as was asked.
    Precise,
    /// The evaluations allowed are used up.
    UsedUp,
    /// It was stopped from outside.
    Stopped,
}

/// A chance of failure.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// The chance that the limit state is passed; by [`Method::FirstOrder`] the nearer end of the interval to one half.
    pub probability: f64,
    /// 95 % interval of the sampling. Samples without an answer are survivals at its lower end and as likely failures
    /// as what is known of them allows at its upper; subset simulation takes them for survivals at both.
    pub interval: [f64; 2],
    /// By what it was found.
    pub method: Method,
    /// Why no more was sampled.
    pub ended: Ended,
    /// The design point, or where its search came to rest.
    pub design_point: Option<DesignPoint>,
    /// Evaluations of the limit state.
    pub evaluations: usize,
    /// Those without an answer.
    pub untold: usize,
}

/// The chance that the limit state is passed.
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] where neither method comes to an end within the evaluations allowed,
/// [`EvidenceError::Untold`] where too many samples have no answer, [`EvidenceError::Stopped`] where it was stopped
/// before anything was known, and whatever [`Variables`] returns.
pub fn failure_probability(
    variables: &Variables,
    settings: &Settings,
    task: &Task<'_>,
) -> Result<Estimate, EvidenceError> {
    match design_point::search(variables, settings, task)? {
        Nearest::Point { point, spent, untold } => {
            let left = Settings { evaluations: settings.evaluations - spent, ..*settings };
            let found = importance::sample(variables, &left, &point, task)?;
            Ok(Estimate {
                evaluations: found.evaluations + spent,
                untold: found.untold + untold,
                design_point: Some(point),
                ..found
            })
        }
        Nearest::Beyond { point, fails, spent, untold } => {
            Ok(Estimate { evaluations: spent, untold, ..beyond(Some(point), fails) })
        }
        Nearest::Level { spent } => {
            let left = Settings { evaluations: settings.evaluations - spent, ..*settings };
            subset::sample(variables, &left, task)
        }
    }
}

/// What is known of a limit state that lies farther away than [`FAR`](design_point::FAR).
///
/// To first order the chance is below Φ(−8) = 6e-16; what is said leaves more than a factor of a thousand for a limit
/// state that is bent.
fn beyond(point: Option<DesignPoint>, fails: bool) -> Estimate {
    const LEAST: f64 = 1e-12;
    let (probability, interval) =
        if fails { (1.0 - LEAST, [1.0 - LEAST, 1.0]) } else { (LEAST, [0.0, LEAST]) };
    Estimate {
        probability,
        interval,
        method: Method::FirstOrder,
        ended: Ended::Precise,
        design_point: point,
        evaluations: 0,
        untold: 0,
    }
}

/// The limit state at points of the space of U, in their order; what is not finite is no answer.
///
/// # Errors
///
/// [`EvidenceError::Stopped`] where it was stopped before the last of them.
fn evaluate(
    variables: &Variables,
    threads: NonZeroUsize,
    task: &Task<'_>,
    points: &[Vec<f64>],
) -> Result<Vec<Option<f64>>, EvidenceError> {
    let one = |number: usize| (!(task.stopped)()).then(|| at(variables, task, &points[number]));
    let answers = each(points.len(), threads, &one);
    if answers.len() < points.len() { Err(EvidenceError::Stopped) } else { answers.into_iter().collect() }
}

/// The limit state at one point of the space of U.
fn at(variables: &Variables, task: &Task<'_>, u: &[f64]) -> Result<Option<f64>, EvidenceError> {
    Ok((task.limit)(&variables.at(u)?).filter(|g| g.is_finite()))
}

/// What `work` makes of the numbers from 0 on, in their order, up to the first of which it makes nothing.
fn each<T: Send>(count: usize, threads: NonZeroUsize, work: &(impl Fn(usize) -> Option<T> + Sync)) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let run = || {
        let mut done = Vec::new();
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            let Some(made) = (number < count).then(|| work(number)).flatten() else { return done };
            done.push((number, made));
        }
    };
    let mut all: Vec<(usize, T)> = thread::scope(|scope| {
        let helpers = threads.get().min(count);
        let others: Vec<_> = (1..helpers).map(|_| scope.spawn(run)).collect();
        let own = run();
        let theirs = others.into_iter().map(|thread| match thread.join() {
            Ok(done) => done,
            Err(panic) => std::panic::resume_unwind(panic),
        });
        std::iter::once(own).chain(theirs).flatten().collect()
    });
    all.sort_unstable_by_key(|(number, _)| *number);
    let in_order = all.into_iter().enumerate();
    in_order.take_while(|(place, (number, _))| place == number).map(|(_, (_, made))| made).collect()
}

#[cfg(test)]
mod tests;
