//! One-sided lower bounds from witness coupons, and what they may be called.

use crate::EvidenceError;
use crate::error::finite;
use crate::sample::Sample;
use crate::tolerance::one_sided_factor;
use crate::weibull;

/// The form a population is taken to have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Distribution {
    /// Normal.
    Normal,
    /// The logarithms are normal.
    Lognormal,
    /// Two-parameter Weibull.
    Weibull,
}

/// A share of the population, and the confidence with which a bound lies below it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// Share of the population above the bound.
    pub proportion: f64,
    /// Confidence.
    pub confidence: f64,
}

impl Level {
    /// 90 % with 95 % confidence.
    pub const B: Self = Self { proportion: 0.90, confidence: 0.95 };
    /// 99 % with 95 % confidence.
    pub const A: Self = Self { proportion: 0.99, confidence: 0.95 };
}

/// Fewest specimens behind a bound that is called a basis value.
pub const BASIS_SPECIMENS: usize = 18;
/// Fewest batches behind a bound that is called a basis value.
pub const BASIS_BATCHES: usize = 3;

/// Whether a 90/95 bound may be called a B-basis value: at least 18 specimens from at least three
/// batches (MIL-HDBK-17-1F reduced sampling, from memory). Else it is named for what it is.
pub fn is_basis_value(specimens: usize, batches: usize) -> bool {
    specimens >= BASIS_SPECIMENS && batches >= BASIS_BATCHES
}

/// The bound that a share of the population exceeds, with confidence.
///
/// ```text
/// normal      x̄ − k s
/// lognormal   exp(mean(ln x) − k s(ln x))
/// Weibull     see [`weibull::lower_bound`]
/// k  one-sided tolerance factor   s  standard deviation (n − 1)
/// ```
///
/// Exact for independent values from one population of that form. A normal bound of a large
/// scatter may be negative: the tests then carry no such bound. Source: MIL-HDBK-17-1F 8.3.4 (read
/// in part); STAT-17 uses factors a little larger than the exact ones.
///
/// # Errors
///
/// Fewer than two values, values that are not positive for lognormal and Weibull, no scatter for
/// Weibull, a level outside 0 to 1.
pub fn lower_bound(sample: &Sample, distribution: Distribution, level: Level) -> Result<f64, EvidenceError> {
    match distribution {
        Distribution::Normal => normal_bound(sample, level),
        Distribution::Lognormal => {
            let logarithms = sample.logarithms("a lognormal bound")?;
            finite("lognormal bound", libm::exp(normal_bound(&logarithms, level)?))
        }
        Distribution::Weibull => weibull::lower_bound(sample, level),
    }
}

fn normal_bound(sample: &Sample, level: Level) -> Result<f64, EvidenceError> {
    let k = one_sided_factor(sample.size(), level.proportion, level.confidence)?;
    finite("normal bound", sample.mean()? - k * sample.standard_deviation()?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::published::STAT18;
    use proptest::prelude::*;

    /// STAT-17 on the 18-value set (read): normal 129.287 and 120.336, lognormal 129.664 and
    /// 121.710. STAT-17's own factors are a little larger than exact: its bounds lie up to 0.003
    /// (90/95) and 0.019 (99/95) below; the exact ones are checked beside them.
    #[test]
    fn val_stat17_bounds() -> Result<(), EvidenceError> {
        let sample = Sample::new(STAT18.to_vec())?;
        assert!((sample.mean()? - 141.917_883_333).abs() < 1e-8);
        assert!((sample.standard_deviation()? - 6.397_878_170).abs() < 1e-8);
        for (distribution, level, printed, tolerance, exact) in [
            (Distribution::Normal, Level::B, 129.287, 0.005, 129.289_783_143),
            (Distribution::Normal, Level::A, 120.336, 0.025, 120.354_909_894),
            (Distribution::Lognormal, Level::B, 129.664, 0.005, 129.667_034_943),
            (Distribution::Lognormal, Level::A, 121.710, 0.02, 121.726_465_614),
        ] {
            let found = lower_bound(&sample, distribution, level)?;
            assert!((found - printed).abs() < tolerance, "{distribution:?} {found}");
            assert!((found - exact).abs() < 1e-8, "{distribution:?} {found}");
        }
        Ok(())
    }

    /// The demo's six coupons (invented), one batch: mean 22.5, and bounds that six values carry.
    #[test]
    fn unit_demo_coupons() -> Result<(), EvidenceError> {
        let sample = Sample::new(vec![22.1, 23.4, 21.6, 24.0, 22.8, 20.9])?;
        let (mean, s) = (sample.mean()?, sample.standard_deviation()?);
        assert!((mean - 134.8 / 6.0).abs() < 1e-12);
        // k for n = 6 is 3.0063 (exact table, half a unit of the last place).
        let bound = lower_bound(&sample, Distribution::Normal, Level::B)?;
        assert!((bound - (mean - 3.0063 * s)).abs() < 5.1e-5 * s, "{bound}");
        assert!(!is_basis_value(6, 1));
        assert!(is_basis_value(18, 3) && !is_basis_value(18, 2) && !is_basis_value(17, 3));
        Ok(())
    }

    #[test]
    fn unit_without_scatter_the_bound_is_the_value() -> Result<(), EvidenceError> {
        let sample = Sample::new(vec![20.0; 6])?;
        assert!((lower_bound(&sample, Distribution::Normal, Level::A)? - 20.0).abs() < 1e-12);
        assert!((lower_bound(&sample, Distribution::Lognormal, Level::A)? - 20.0).abs() < 1e-12);
        assert!(lower_bound(&sample, Distribution::Weibull, Level::A).is_err());
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(32))]

        /// More scatter about the same centre never raises a bound, and 99/95 never lies above 90/95.
        #[test]
        fn law_more_scatter_never_raises(
            values in prop::collection::vec(15.0..30.0_f64, 2..30), spread in 1.0..1.5_f64,
        ) {
            let sample = Sample::new(values.clone())?;
            let mean = sample.mean()?;
            let log_mean = sample.logarithms("test")?.mean()?;
            let about = |x: &f64| mean + spread * (x - mean);
            let wider = Sample::new(values.iter().map(about).collect())?;
            let log_about = |x: &f64| libm::exp(log_mean + spread * (libm::log(*x) - log_mean));
            let log_wider = Sample::new(values.iter().map(log_about).collect())?;
            for (distribution, wider) in [(Distribution::Normal, &wider), (Distribution::Lognormal, &log_wider)] {
                let b = lower_bound(&sample, distribution, Level::B)?;
                prop_assert!(lower_bound(wider, distribution, Level::B)? <= b + 1e-9);
                prop_assert!(lower_bound(&sample, distribution, Level::A)? <= b);
            }
            let b = lower_bound(&sample, Distribution::Weibull, Level::B)?;
            prop_assert!(lower_bound(&sample, Distribution::Weibull, Level::A)? <= b);
        }
    }
}
