//! How one quantity scatters.

use crate::error::{between, finite, positive};
use crate::root::rising_root;
use crate::{EvidenceError, normal};

/// The family of a distribution, and with it its tails.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Normal; it may fall below zero.
    Normal,
    /// The logarithm is normal.
    Lognormal,
    /// Weibull with two parameters: the longest lower tail of the three.
    Weibull,
}

impl Shape {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Normal, Self::Lognormal, Self::Weibull];
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Law {
    Fixed { value: f64 },
    Normal { mean: f64, deviation: f64 },
    Lognormal { log_median: f64, deviation: f64 },
    Weibull { shape: f64, scale: f64 },
}

/// A distribution given by its mean and its coefficient of variation.
///
/// ```text
/// lognormal   ζ² = ln(1 + V²), λ = ln μ − ζ²/2
/// Weibull     1 + V² = Γ(1 + 2/β)/Γ(1 + 1/β)², η = μ/Γ(1 + 1/β)
/// ```
///
/// Source: textbook (moments of the distributions).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Marginal(Law);

impl Marginal {
    /// A quantity of this mean (in its own unit, positive) and coefficient of variation (0 to 2; 0 is a fixed
    /// value).
    ///
    /// # Errors
    ///
    /// An argument out of range.
    pub fn new(shape: Shape, mean: f64, cov: f64) -> Result<Self, EvidenceError> {
        positive("mean", mean)?;
        if cov.abs() < f64::MIN_POSITIVE {
            return Ok(Self(Law::Fixed { value: mean }));
        }
        between("coefficient of variation", cov, 0.0, 2.0)?;
        Ok(Self(match shape {
            Shape::Normal => Law::Normal { mean, deviation: cov * mean },
            Shape::Lognormal => {
                let square = libm::log1p(cov * cov);
                Law::Lognormal { log_median: libm::log(mean) - 0.5 * square, deviation: square.sqrt() }
            }
            Shape::Weibull => {
                let square = libm::log1p(cov * cov);
                // ln(1 + V²) falls with the shape; V ≈ 1.28/β to begin with.
                let start = libm::log(1.28 / cov);
                let log_shape = rising_root("Weibull shape", start - 0.5, start + 0.5, |log_shape| {
                    let inverse = libm::exp(-log_shape);
                    Ok(square - libm::lgamma(1.0 + 2.0 * inverse) + 2.0 * libm::lgamma(1.0 + inverse))
                })?;
                let shape = libm::exp(log_shape);
                let scale = finite("Weibull scale", mean / libm::tgamma(1.0 + 1.0 / shape))?;
                Law::Weibull { shape, scale }
            }
        }))
    }

    /// Whether it does not scatter.
    #[must_use]
    pub fn is_fixed(&self) -> bool {
        matches!(self.0, Law::Fixed { .. })
    }

    /// The value whose chance of not being reached is Φ(z): F⁻¹(Φ(z)), exact in both tails.
    #[must_use]
    pub fn value(&self, z: f64) -> f64 {
        match self.0 {
            Law::Fixed { value } => value,
            Law::Normal { mean, deviation } => mean + deviation * z,
            Law::Lognormal { log_median, deviation } => libm::exp(log_median + deviation * z),
            Law::Weibull { shape, scale } => {
                // −ln(1 − Φ(z)), from whichever side keeps its digits.
                let hazard =
                    if z < 0.0 { -libm::log1p(-normal::cdf(z)) } else { -libm::log(normal::cdf(-z)) };
                scale * libm::pow(hazard, 1.0 / shape)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mean and coefficient of variation by integrating over z: the trapezium is exact to rounding for a smooth
    /// integrand that dies out; Weibull's is not smooth at its ends, but dies out, too.
    #[test]
    fn unit_moments_are_those_asked_for() -> Result<(), EvidenceError> {
        for shape in Shape::ALL {
            for cov in [0.02, 0.1, 0.4, 1.1] {
                let marginal = Marginal::new(shape, 24.0, cov)?;
                let moment = |power: i32| -> f64 {
                    (-4000..=4000)
                        .map(|i| f64::from(i) * 0.0025)
                        .map(|z| 0.0025 * normal::density(z) * marginal.value(z).powi(power))
                        .sum()
                };
                let mean = moment(1);
                let found = (moment(2) / (mean * mean) - 1.0).sqrt();
                assert!((mean / 24.0 - 1.0).abs() < 1e-6, "{shape:?} {cov} {mean}");
                assert!((found / cov - 1.0).abs() < 1e-6, "{shape:?} {cov} {found}");
            }
        }
        Ok(())
    }

    #[test]
    fn unit_refuses_what_is_no_distribution() {
        for (mean, cov) in
            [(0.0, 0.1), (-1.0, 0.1), (1.0, -0.1), (1.0, 3.0), (f64::NAN, 0.1), (1.0, f64::NAN)]
        {
            assert!(Marginal::new(Shape::Weibull, mean, cov).is_err(), "{mean} {cov}");
        }
    }
}
