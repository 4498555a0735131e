//! One-sided lower bounds from witness coupons.

use crate::EvidenceError;
use crate::error::finite;
use crate::sample::Sample;
use crate::tolerance::one_sided_factor;

/// The form a population is taken to have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Distribution {
    /// Normal.
    Normal,
    /// The logarithms are normal.
    Lognormal,
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

/// The bound that a share of the population exceeds, with confidence.
///
/// ```text
/// normal      x̄ − k s
/// lognormal   exp(mean(ln x) − k s(ln x))
/// k  one-sided tolerance factor   s  standard deviation (n − 1)
/// ```
///
/// Valid for independent values from one population of that form. Source: MIL-HDBK-17-1F 8.3.4
/// (read in part) and textbook (formula).
///
/// # Errors
///
/// Fewer than two values, values that are not positive for the lognormal, a level outside 0 to 1.
pub fn lower_bound(sample: &Sample, distribution: Distribution, level: Level) -> Result<f64, EvidenceError> {
    match distribution {
        Distribution::Normal => normal_bound(sample, level),
        Distribution::Lognormal => {
            let logarithms = sample.logarithms("a lognormal bound")?;
            finite("lognormal bound", libm::exp(normal_bound(&logarithms, level)?))
        }
    }
}

fn normal_bound(sample: &Sample, level: Level) -> Result<f64, EvidenceError> {
    let k = one_sided_factor(sample.len(), level.proportion, level.confidence)?;
    finite("normal bound", sample.mean()? - k * sample.standard_deviation()?)
}
