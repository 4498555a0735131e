//! Subset simulation: rare failure as a chain of failures that are not rare.

use super::generator::Draws;
use super::importance::count;
use super::{Estimate, Method, Settings, Variables, evaluate};
use crate::error::finite;
use crate::{EvidenceError, student};

/// Independent runs, whose scatter gives the interval.
const RUNS: u32 = 12;

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
/// p₀ = 1/10 and ρ = 0.8. Twelve runs that share nothing give the mean and, by their scatter, a Student interval.
/// Evaluations without an answer do not pass a level.
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] where failure is not reached within twelve levels or the limit state is level.
pub fn sample(
    variables: &Variables,
    settings: &Settings,
    limit: &(impl Fn(&[f64]) -> Option<f64> + Sync),
) -> Result<Estimate, EvidenceError> {
    let mut spent = (0, 0);
    let chances: Vec<f64> =
        (0..RUNS).map(|run| one(variables, settings, limit, run, &mut spent)).collect::<Result<_, _>>()?;
    let runs = f64::from(RUNS);
    let mean = chances.iter().sum::<f64>() / runs;
    let square: f64 = chances.iter().map(|p| (p - mean) * (p - mean)).sum();
    let error = (square / (runs - 1.0) / runs).sqrt();
    let spread = libm::exp(student::quantile(0.975, runs - 1.0)? * error / mean);
    Ok(Estimate {
        probability: finite("failure probability", mean)?,
        interval: [mean / spread, (mean * spread).min(1.0)],
        method: Method::SubsetSimulation,
        design_point: None,
        evaluations: spent.0,
        untold: spent.1,
    })
}

/// One run; `spent` counts evaluations, and those without an answer.
fn one(
    variables: &Variables,
    settings: &Settings,
    limit: &(impl Fn(&[f64]) -> Option<f64> + Sync),
    run: u32,
    spent: &mut (usize, usize),
) -> Result<f64, EvidenceError> {
    let unsettled = || EvidenceError::NotConverged { what: "subset simulation", limit: LEVELS as usize };
    let mut all = |points: &[Vec<f64>]| -> Result<Vec<f64>, EvidenceError> {
        let answers = evaluate(variables, settings.threads, limit, points)?;
        spent.0 += answers.len();
        spent.1 += answers.iter().filter(|answer| answer.is_none()).count();
        Ok(answers.into_iter().map(|answer| answer.unwrap_or(f64::MAX)).collect())
    };
    let seeds = settings.samples / ONE_IN;
    let samples = seeds * ONE_IN;
    // Stream 0 belongs to importance sampling.
    let stream = |level: u32| Draws::new(settings.seed, 1 + run * LEVELS + level);
    let start = stream(0);
    let points: Vec<Vec<f64>> = (0_u64..)
        .take(samples)
        .map(|number| start.normals(number, variables.count()))
        .collect::<Result<_, _>>()?;
    let answers = all(&points)?;
    let mut population: Vec<(f64, Vec<f64>)> = answers.into_iter().zip(points).collect();
    let mut reached = 1.0;
    for level in 1..LEVELS {
        population.sort_by(|a, b| a.0.total_cmp(&b.0));
        let failed = population.iter().filter(|(g, _)| *g < 0.0).count();
        if failed >= seeds {
            return Ok(reached * count(failed) / count(samples));
        }
        let threshold = population[seeds - 1].0;
        if threshold >= population[samples - 1].0 {
            return Err(unsettled());
        }
        reached /= count(ONE_IN);
        population.truncate(seeds);
        population = walk(&population, threshold, stream(level), &mut all)?;
    }
    Err(unsettled())
}

/// Chains from the seeds, all of them one step at a time, each step staying within the level.
fn walk(
    seeds: &[(f64, Vec<f64>)],
    threshold: f64,
    draws: Draws,
    all: &mut impl FnMut(&[Vec<f64>]) -> Result<Vec<f64>, EvidenceError>,
) -> Result<Vec<(f64, Vec<f64>)>, EvidenceError> {
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
        let answers = all(&tried)?;
        for (place, (g, u)) in here.iter_mut().zip(answers.into_iter().zip(tried)) {
            if g <= threshold {
                *place = (g, u);
            }
        }
        visited.extend_from_slice(&here);
    }
    Ok(visited)
}
