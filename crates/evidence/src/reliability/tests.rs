//! Closed forms: normal, lognormal, Weibull, correlated, down to 1e-6; limit states that bend and that have an edge.

use std::num::NonZeroUsize;

use proptest::prelude::*;

use super::*;
use crate::normal;

fn settings(seed: u64) -> Settings {
    Settings { seed, evaluations: 2000, precision: 0.1, threads: NonZeroUsize::MIN }
}

type Limit = Box<dyn Fn(&[f64]) -> Option<f64> + Sync>;

/// The chance, with nothing that stops it.
fn whole(
    variables: &Variables,
    settings: &Settings,
    limit: &(dyn Fn(&[f64]) -> Option<f64> + Sync),
) -> Result<Estimate, EvidenceError> {
    failure_probability(variables, settings, &Task { limit, stopped: &|| false })
}

/// A closed form: name, variables, limit state, chance.
struct Closed(&'static str, Variables, Limit, f64);

fn closed_forms() -> Result<Vec<Closed>, EvidenceError> {
    let mut all = Vec::new();
    let difference = || -> Limit { Box::new(|x| Some(x[0] - x[1])) };
    for (resistance, rho) in [(14.0, 0.0), (24.0, 0.0), (20.0, 0.5), (14.0, -0.4), (9.0, 0.0)] {
        let (r, s) =
            (Marginal::new(Shape::Normal, resistance, 0.1)?, Marginal::new(Shape::Normal, 10.0, 0.15)?);
        let (a, b): (f64, f64) = (0.1 * resistance, 1.5);
        // β = (μ_R − μ_S)/√(σ_R² + σ_S² − 2 ρ σ_R σ_S)
        let beta = (resistance - 10.0) / (a * a + b * b - 2.0 * rho * a * b).sqrt();
        let variables = Variables::new(vec![r, s], &[(0, 1, rho)])?;
        all.push(Closed("normal", variables, difference(), normal::cdf(-beta)));
    }
    for (resistance, rho) in [(16.0, 0.0), (30.0, 0.0), (22.0, 0.6)] {
        let (v_r, v_s): (f64, f64) = (0.15, 0.2);
        let (r, s) =
            (Marginal::new(Shape::Lognormal, resistance, v_r)?, Marginal::new(Shape::Lognormal, 10.0, v_s)?);
        let (q_r, q_s) = (libm::log1p(v_r * v_r), libm::log1p(v_s * v_s));
        let away = libm::log(resistance / 10.0) - 0.5 * (q_r - q_s);
        let beta = away / (q_r + q_s - 2.0 * rho * (q_r * q_s).sqrt()).sqrt();
        // Beside the logarithm, in which it is straight, as a difference, in which it is not.
        let variables = Variables::new(vec![r, s], &[(0, 1, rho)])?;
        all.push(Closed("lognormal", variables, difference(), normal::cdf(-beta)));
    }
    for load in [10.0, 3.0] {
        let cov: f64 = 0.15;
        let variables = Variables::new(vec![Marginal::new(Shape::Weibull, 24.0, cov)?], &[])?;
        // P(R ≤ s) = 1 − exp(−(s/η)^β); β and η once more, by bisection.
        let (mut low, mut high) = (1.0_f64, 60.0_f64);
        for _ in 0..200 {
            let beta = 0.5 * (low + high);
            let mean = libm::tgamma(1.0 + 1.0 / beta);
            if libm::tgamma(1.0 + 2.0 / beta) / (mean * mean) - 1.0 > cov * cov {
                low = beta;
            } else {
                high = beta;
            }
        }
        let scale = 24.0 / libm::tgamma(1.0 + 1.0 / low);
        let chance = -libm::expm1(-libm::pow(load / scale, low));
        all.push(Closed("Weibull", variables, Box::new(move |x| Some(x[0] - load)), chance));
    }
    Ok(all)
}

/// Limit states that are not planes, of which the lines do not all say the same: a bowl and a hill (u₁ = β + κ u₂²/2), an
/// edge (the nearer of two planes), and a strength in four factors with tails of their own against a load, each against
/// an integral over what lies across the lines, by the trapezium.
fn bent() -> Result<Vec<Closed>, EvidenceError> {
    let mut all = Vec::new();
    let two = || Variables::new(vec![Marginal::new(Shape::Normal, 10.0, 0.1)?; 2], &[]);
    let density = |u: f64| libm::exp(-0.5 * u * u) / std::f64::consts::TAU.sqrt();
    let over = |of: &dyn Fn(f64) -> f64| -> f64 {
        (-1600..=1600).map(|k| f64::from(k) / 200.0).map(|u| density(u) * of(u) / 200.0).sum()
    };
    for (beta, bend) in [(3.5, 0.15), (3.0, -0.12)] {
        let limit: Limit = Box::new(move |x| {
            let (u, v) = (x[0] - 10.0, x[1] - 10.0);
            Some(beta + 0.5 * bend * v * v - u)
        });
        let chance = over(&|v| normal::cdf(-(beta + 0.5 * bend * v * v)));
        all.push(Closed("bent", two()?, limit, chance));
    }
    // Planes that meet at 30°: u cos 30° + v sin 30°.
    let (cos, sin) = (0.75_f64.sqrt(), 0.5);
    let limit: Limit = Box::new(move |x| {
        let (u, v) = (x[0] - 10.0, x[1] - 10.0);
        Some(f64::min(3.0 - u, 3.2 - (u * cos + v * sin)))
    });
    let chance = over(&|v| normal::cdf(-f64::min(3.0, (3.2 - sin * v) / cos)));
    all.push(Closed("edge", two()?, limit, chance));
    // R = Π Xᵢ, lognormal, against a normal load S: P = E[Φ(−(R − μ)/σ)].
    let covs = [0.1, 0.15, 0.1, 0.05];
    let factors = covs.map(|cov| Marginal::new(Shape::Lognormal, 1.0, cov));
    let mut marginals = factors.into_iter().collect::<Result<Vec<_>, _>>()?;
    marginals.push(Marginal::new(Shape::Normal, 1.0, 0.2)?);
    let square: f64 = covs.iter().map(|cov| libm::log1p(cov * cov)).sum();
    let limit: Limit = Box::new(|x| Some(2.4 * x[0] * x[1] * x[2] * x[3] - x[4]));
    let chance = over(&|z| {
        let strength = 2.4 * libm::exp(square.sqrt() * z - 0.5 * square);
        normal::cdf(-(strength - 1.0) / 0.2)
    });
    all.push(Closed("product", Variables::new(marginals, &[])?, limit, chance));
    Ok(all)
}

/// "Closed-form resistance-load problems (normal, lognormal, Weibull, correlated, down to 1e-6) within the stated
/// interval". Of 200 seeds 190 are to be covered; the binomial distribution has a standard deviation of 3.1, and fewer
/// than 178 come with a chance of 3e-4. Where the limit state is a plane every line says the same and all are covered. The
/// interval is as narrow as was asked.
#[test]
fn val_intervals_cover_closed_forms() -> Result<(), EvidenceError> {
    let mut rarest = 1.0_f64;
    for Closed(name, variables, limit, chance) in closed_forms()?.into_iter().chain(bent()?) {
        rarest = rarest.min(chance);
        let (mut covered, mut spent) = (0, 0);
        for seed in 0..200 {
            let found = whole(&variables, &settings(seed), &limit)?;
            assert_eq!((found.method, found.ended), (Method::ImportanceSampling, Ended::Precise));
            let [low, high] = found.interval;
            covered += u32::from(low <= chance && chance <= high);
            spent += found.evaluations;
            assert!(
                high <= if high < 1e-7 { 1.69 } else { 1.21 } * low
                    && low <= found.probability
                    && found.probability <= high,
                "{found:?}"
            );
        }
        println!("{name}: p = {chance:.3e}, covered {covered} of 200, {} evaluations", spent / 200);
        assert!(covered >= 178, "{name} {chance}: {covered}");
    }
    assert!(rarest < 1.1e-6, "{rarest}");
    Ok(())
}

/// "Ctrl-C keeps what is known": stopped after some evaluations, what is told is an interval that covers as one that was
/// not stopped does, and wider; or nothing is told.
#[test]
fn val_what_is_known_when_stopped_covers() -> Result<(), EvidenceError> {
    for Closed(name, variables, limit, chance) in bent()? {
        for most in [50, 100, 150, 250] {
            let (mut covered, mut told) = (0_u32, 0_u32);
            for seed in 0..200 {
                let asked = AtomicUsize::new(0);
                let counted = |x: &[f64]| {
                    asked.fetch_add(1, Ordering::Relaxed);
                    limit(x)
                };
                let stopped = || asked.load(Ordering::Relaxed) >= most;
                let asked_for = Settings { precision: 1e-3, ..settings(seed) };
                let task = Task { limit: &counted, stopped: &stopped };
                match failure_probability(&variables, &asked_for, &task) {
                    Ok(found) => {
                        assert_eq!(found.ended, Ended::Stopped);
                        assert!(found.evaluations <= most);
                        told += 1;
                        covered += u32::from(found.interval[0] <= chance && chance <= found.interval[1]);
                    }
                    Err(error) => assert_eq!(error, EvidenceError::Stopped),
                }
            }
            println!("{name}, stopped after {most}: told {told} of 200, covered {covered}");
            // A twentieth is missed; four standard deviations of that more are allowed. Of a few that happened to need
            // fewer evaluations than the others nothing is asked.
            if told < 100 {
                continue;
            }
            let missed = f64::from(told - covered);
            let most_missed = 0.05 * f64::from(told) + 4.0 * (0.0475 * f64::from(told)).sqrt();
            assert!(missed <= most_missed, "{name} {most}: {covered} of {told}");
            assert!(most < 150 || told == 200, "{name} {most}: {told}");
        }
    }
    Ok(())
}

/// The evaluations allowed are never exceeded, and when they are used up first, the interval that is known is told.
#[test]
fn unit_ends_when_the_evaluations_are_used_up() -> Result<(), EvidenceError> {
    for Closed(name, variables, limit, chance) in bent()? {
        for evaluations in [5, 40, 150, 400] {
            let spent = AtomicUsize::new(0);
            let counted = |x: &[f64]| {
                spent.fetch_add(1, Ordering::Relaxed);
                limit(x)
            };
            let asked = Settings { evaluations, precision: 1e-4, ..settings(2) };
            let found = whole(&variables, &asked, &counted);
            assert!(spent.load(Ordering::Relaxed) <= evaluations, "{name} {evaluations}");
            match found {
                Ok(found) => {
                    assert_eq!(found.ended, Ended::UsedUp);
                    assert_eq!(found.evaluations, spent.load(Ordering::Relaxed));
                    let [low, high] = found.interval;
                    assert!(low < chance && chance < high && evaluations >= 40, "{name} {found:?}");
                }
                Err(error) => {
                    assert!(matches!(error, EvidenceError::NotConverged { .. }) && evaluations <= 150);
                }
            }
        }
    }
    Ok(())
}

/// Subset simulation on the same closed forms, 40 seeds each: 38 are to be covered, standard deviation 1.4; fewer than
/// 33 come with a chance of 7e-4.
#[test]
fn val_subset_simulation_covers_closed_forms() -> Result<(), EvidenceError> {
    for Closed(name, variables, limit, chance) in closed_forms()? {
        if chance > 0.1 {
            continue;
        }
        let mut covered = 0;
        for seed in 0..40 {
            let asked = Settings { evaluations: 30_000, ..settings(seed) };
            let found = subset::sample(&variables, &asked, &Task { limit: &limit, stopped: &|| false })?;
            assert!(found.evaluations <= asked.evaluations);
            covered += u32::from(found.interval[0] <= chance && chance <= found.interval[1]);
        }
        println!("{name}: p = {chance:.3e}, covered {covered} of 40");
        assert!(covered >= 33, "{name} {chance}: {covered}");
    }
    Ok(())
}

/// "same seed, same answer on any thread count": to the last bit.
#[test]
fn unit_threads_change_nothing_and_seeds_do() -> Result<(), EvidenceError> {
    for Closed(_, variables, limit, _) in bent()? {
        let on = |threads: usize, seed: u64| {
            let threads = NonZeroUsize::new(threads).expect("not zero");
            whole(&variables, &Settings { threads, ..settings(seed) }, &limit)
        };
        let alone = on(1, 5)?;
        for threads in [2, 3, 7] {
            assert_eq!(on(threads, 5)?, alone);
        }
        assert_ne!(on(1, 6)?.probability.to_bits(), alone.probability.to_bits());
    }
    Ok(())
}

/// The shares of a straight limit state are those of the variances: R − S with 1.4 and 1.5.
#[test]
fn unit_shares_are_those_of_the_variances() -> Result<(), EvidenceError> {
    let variables = Variables::new(
        vec![
            Marginal::new(Shape::Normal, 14.0, 0.1)?,
            Marginal::new(Shape::Normal, 10.0, 0.15)?,
            Marginal::new(Shape::Normal, 3.0, 0.1)?,
        ],
        &[],
    )?;
    let found = whole(&variables, &settings(1), &|x: &[f64]| Some(x[0] - x[1]))?;
    let point = found.design_point.expect("a straight limit state has one");
    let sum = 1.4 * 1.4 + 1.5 * 1.5;
    for (share, variance) in point.shares.iter().zip([1.4 * 1.4, 1.5 * 1.5, 0.0]) {
        assert!((share - variance / sum).abs() < 1e-9, "{:?}", point.shares);
    }
    assert!((point.index - 4.0 / f64::sqrt(sum)).abs() < 1e-6 && point.settled);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// "ranking of what matters": shares are none below zero and sum to 1, what does not scatter has none, and of two
    /// factors of a strength the one that scatters more has more.
    #[test]
    fn law_shares_rank_what_scatters(
        first in 0.02..0.3_f64, more in 1.1..3.0_f64, load in 0.05..0.3_f64, strength in 1.5..4.0_f64,
        shape in prop::sample::select(vec![Shape::Normal, Shape::Lognormal]),
    ) {
        let second = (first * more).min(0.5);
        prop_assume!(second > 1.05 * first);
        let marginals = [first, second, load, 0.0].map(|cov| Marginal::new(shape, 1.0, cov).unwrap());
        let variables = Variables::new(marginals.to_vec(), &[]).unwrap();
        let limit = |x: &[f64]| Some(strength * x[0].max(1e-3) * x[1].max(1e-3) * x[3] - x[2]);
        let found = whole(&variables, &settings(1), &limit).unwrap();
        let shares = found.design_point.unwrap().shares;
        prop_assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9, "{shares:?}");
        prop_assert!(shares.iter().all(|share| *share >= 0.0) && shares[3] < 1e-12, "{shares:?}");
        prop_assert!(shares[1] > shares[0], "{shares:?}");
    }
}

/// Non-convergence is a status, never a number: a level limit state, one that cannot be told, and one that cannot be
/// told for a quarter of the samples. One that is told for nearly all has a wider interval instead.
#[test]
fn unit_no_answer_is_no_number() -> Result<(), EvidenceError> {
    let variables = Variables::new(vec![Marginal::new(Shape::Normal, 10.0, 0.1)?; 2], &[])?;
    let of = |limit: &(dyn Fn(&[f64]) -> Option<f64> + Sync)| whole(&variables, &settings(1), limit);
    assert!(matches!(of(&|_| Some(1.0)), Err(EvidenceError::NotConverged { .. })));
    assert!(matches!(of(&|_| None), Err(EvidenceError::NotConverged { .. })));
    assert!(matches!(of(&|_| Some(f64::NAN)), Err(EvidenceError::NotConverged { .. })));
    assert!(of(&|x| (x[1] < 10.7).then_some(x[0] - 7.0)).is_err());
    let told = of(&|x| Some(x[0] - 7.0))?;
    let holed = of(&|x| (x[1] < 11.8).then_some(x[0] - 7.0))?;
    assert!(holed.untold > 0 && holed.interval[1] > told.interval[1], "{holed:?} {told:?}");
    assert!(variables.at(&[f64::INFINITY, 0.0]).is_err());
    assert!(Variables::new(vec![Marginal::new(Shape::Normal, 1.0, 0.1)?; 2], &[(0, 1, 1.0)]).is_err());
    assert!(Variables::new(vec![Marginal::new(Shape::Normal, 1.0, 0.1)?; 2], &[(0, 2, 0.1)]).is_err());
    Ok(())
}

/// A limit state that is nowhere near is told so at once, from either side; one at the edge of what is looked for is
/// sampled: Φ(−7.5) = 3.2e-14.
#[test]
fn unit_what_is_far_away_takes_no_sampling() -> Result<(), EvidenceError> {
    let variables = Variables::new(vec![Marginal::new(Shape::Normal, 10.0, 0.1)?; 2], &[])?;
    for (at, interval) in [(-40.0, [0.0, 1e-12]), (60.0, [1.0 - 1e-12, 1.0])] {
        let found = whole(&variables, &settings(1), &|x: &[f64]| Some(0.5 * (x[0] + x[1]) - at))?;
        assert_eq!((found.method, found.interval), (Method::FirstOrder, interval));
        assert!(found.evaluations < 20 && found.design_point.is_some(), "{found:?}");
    }
    let near = whole(&variables, &settings(1), &|x: &[f64]| Some(x[0] - 2.5))?;
    assert_eq!(near.method, Method::ImportanceSampling);
    let chance = normal::cdf(-7.5);
    assert!(near.interval[0] < chance && chance < near.interval[1], "{near:?}");
    Ok(())
}

/// A limit state without a slope at the origin has no direction to go; subset simulation finds both of its
/// sides: P(|Z| > 3).
#[test]
fn unit_falls_back_where_there_is_no_direction() -> Result<(), EvidenceError> {
    let variables = Variables::new(vec![Marginal::new(Shape::Normal, 10.0, 0.1)?], &[])?;
    let asked = Settings { evaluations: 60_000, ..settings(3) };
    let found = whole(&variables, &asked, &|x: &[f64]| Some(9.0 - (x[0] - 10.0) * (x[0] - 10.0)))?;
    assert_eq!(found.method, Method::SubsetSimulation);
    let chance = 2.0 * normal::cdf(-3.0);
    assert!((found.probability / chance - 1.0).abs() < 0.25, "{found:?} {chance}");
    let few = Settings { evaluations: 3000, ..asked };
    let less = whole(&variables, &few, &|x: &[f64]| Some(9.0 - (x[0] - 10.0) * (x[0] - 10.0)))?;
    assert!(less.evaluations <= 3000 && less.interval[0] < chance && chance < less.interval[1], "{less:?}");
    Ok(())
}
