//! Subset simulation: rare failure as a chain of failures that are not rare.

use super::generator::Draws;
use super::importance::count;
use super::{Ended, Estimate, Method, Settings, Task, Variables, evaluate};
use crate::error::finite;
use crate::{EvidenceError, student};

/// Independent runs at most, whose scatter gives the interval.
const RUNS: u32 = 12;

/// The fewest of them that give one.
const LEAST_RUNS: u32 = 3;

/// Samples on each level, at the least and at the most.
const SAMPLES: [usize; 2] = [100, 1000];

/// One sample in so many goes on to the next level.
const ONE_IN: usize = 10;

/// Levels allowed: chances below 10⁻¹² are not looked for.
const LEVELS: u32 = 12;

/// How much a step of a chain keeps of where it was.
const KEEP: f64 = 0.8;

/// The chance of failure as a product of conditional ones.
///
/// ```text
/// p = p₀^(m−1) P(g < 0 | level m−1)        u' = ρ u + √(1 − ρ²) z, kept if g(u') is within the level
/// ```
///
/// After Au and Beck 2001; the chains after Papaioannou, Betz, Zwirglmaier and Straub 2015 (both from memory), with
/// p₀ = 1/10 and ρ = 0.8. Up to twelve runs that share nothing give the mean and, by their scatter, a Student interval.
/// Evaluations without an answer do not pass a level.
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] where failure is not reached within twelve levels, the limit state is level, or the
/// evaluations allowed do not reach for three runs; [`EvidenceError::Stopped`] where it was stopped before.
pub(super) fn sample(
    variables: &Variables,
    settings: &Settings,
    task: &Task<'_>,
) -> Result<Estimate, EvidenceError> {
    // Five levels, as for one in a hundred thousand, in each of the runs.
    let samples = (settings.evaluations / (5 * RUNS as usize)).clamp(SAMPLES[0], SAMPLES[1]);
    let (mut chances, mut untold, mut left) = (Vec::new(), 0, settings.evaluations);
    let mut ended = Ended::Precise;
    for run in 0..RUNS {
        let mut one = Run { variables, settings, task, samples, left, untold: 0 };
        match one.chance(run) {
            Ok(chance) => chances.push(chance),
            Err(Unfinished::Failed(error)) => return Err(error),
            Err(Unfinished::UsedUp) => ended = Ended::UsedUp,
            Err(Unfinished::Stopped) => ended = Ended::Stopped,
        }
        (left, untold) = (one.left, untold + one.untold);
        if ended != Ended::Precise {
            break;
        }
    }
    if chances.len() < LEAST_RUNS as usize {
        return Err(match ended {
            Ended::Stopped => EvidenceError::Stopped,
            Ended::Precise | Ended::UsedUp => {
                EvidenceError::NotConverged { what: "subset simulation", limit: settings.evaluations }
            }
        });
    }
    let runs = count(chances.len());
    let mean = chances.iter().sum::<f64>() / runs;
    let square: f64 = chances.iter().map(|p| (p - mean) * (p - mean)).sum();
    let error = (square / (runs - 1.0) / runs).sqrt();
    let spread = libm::exp(student::quantile(0.975, runs - 1.0)? * error / mean);
    Ok(Estimate {
        probability: finite("failure probability", mean)?,
        interval: [mean / spread, (mean * spread).min(1.0)],
        method: Method::SubsetSimulation,
        ended,
        design_point: None,
        evaluations: settings.evaluations - left,
        untold,
    })
}

/// Why a run has no chance to give.
enum Unfinished {
    UsedUp,
    Stopped,
    Failed(EvidenceError),
}

impl From<EvidenceError> for Unfinished {
    fn from(error: EvidenceError) -> Self {
        if error == EvidenceError::Stopped { Self::Stopped } else { Self::Failed(error) }
    }
}

/// One run.
struct Run<'a> {
    variables: &'a Variables,
    settings: &'a Settings,
    task: &'a Task<'a>,
    /// Samples on each level.
    samples: usize,
    /// Evaluations that are left.
    left: usize,
    untold: usize,
}

impl Run<'_> {
    fn all(&mut self, points: &[Vec<f64>]) -> Result<Vec<f64>, Unfinished> {
        self.left = self.left.checked_sub(points.len()).ok_or(Unfinished::UsedUp)?;
        let answers = evaluate(self.variables, self.settings.threads, self.task, points)?;
        self.untold += answers.iter().filter(|answer| answer.is_none()).count();
        Ok(answers.into_iter().map(|answer| answer.unwrap_or(f64::MAX)).collect())
    }

    fn chance(&mut self, run: u32) -> Result<f64, Unfinished> {
        let unsettled = || EvidenceError::NotConverged { what: "subset simulation", limit: LEVELS as usize };
        let seeds = self.samples / ONE_IN;
        let samples = seeds * ONE_IN;
        // Stream 0 belongs to importance sampling.
        let stream = |level: u32| Draws::new(self.settings.seed, 1 + run * LEVELS + level);
        let start = stream(0);
        let points: Vec<Vec<f64>> = (0_u64..)
            .take(samples)
            .map(|number| start.normals(number, self.variables.count()))
            .collect::<Result<_, _>>()?;
        let levels: Vec<Draws> = (0..LEVELS).map(stream).collect();
        let answers = self.all(&points)?;
        let mut population: Vec<(f64, Vec<f64>)> = answers.into_iter().zip(points).collect();
        let mut reached = 1.0;
        for draws in levels.into_iter().skip(1) {
            population.sort_by(|a, b| a.0.total_cmp(&b.0));
            let failed = population.iter().filter(|(g, _)| *g < 0.0).count();
            if failed >= seeds {
                return Ok(reached * count(failed) / count(samples));
            }
            let threshold = population[seeds - 1].0;
            if threshold >= population[samples - 1].0 {
                return Err(unsettled().into());
            }
            reached /= count(ONE_IN);
            population.truncate(seeds);
            population = self.walk(&population, threshold, draws)?;
        }
        Err(unsettled().into())
    }

    /// Chains from the seeds, all of them one step at a time, each step staying within the level.
    fn walk(
        &mut self,
        seeds: &[(f64, Vec<f64>)],
        threshold: f64,
        draws: Draws,
    ) -> Result<Vec<(f64, Vec<f64>)>, Unfinished> {
        let mut here = seeds.to_vec();
        let mut visited = Vec::with_capacity(seeds.len() * ONE_IN);
        visited.extend_from_slice(seeds);
        let mut number = 0;
        for _ in 1..ONE_IN {
            let mut tried = Vec::with_capacity(here.len());
            for (_, u) in &here {
                let z = draws.normals(number, u.len())?;
                number += 1;
                let fresh = (1.0 - KEEP * KEEP).sqrt();
                tried.push(u.iter().zip(&z).map(|(u, z)| KEEP * u + fresh * z).collect());
            }
            let answers = self.all(&tried)?;
            for (place, (g, u)) in here.iter_mut().zip(answers.into_iter().zip(tried)) {
                if g <= threshold {
                    *place = (g, u);
                }
            }
            visited.extend_from_slice(&here);
        }
        Ok(visited)
    }
}
