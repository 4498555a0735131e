//! The standard normal distribution.

use crate::EvidenceError;
use crate::error::probability;

/// Φ(x): the chance of a standard normal value below `x`.
///
/// ```text
/// Φ(x) = ½ erfc(−x/√2)
/// ```
///
/// Accurate to rounding in both tails. NaN in gives NaN out.
pub fn cdf(x: f64) -> f64 {
    0.5 * libm::erfc(-x * core::f64::consts::FRAC_1_SQRT_2)
}

/// φ(x) = exp(−x²/2)/√(2π): the density.
pub fn density(x: f64) -> f64 {
    libm::exp(-0.5 * x * x) / (2.0 * core::f64::consts::PI).sqrt()
}

/// The value z below which a standard normal value falls with chance `p`.
///
/// Start from the rational approximation of Hastings (Abramowitz and Stegun 1964, 26.2.23,
/// absolute error below 4.5e-4; from memory), then Halley steps on [`cdf`]: the error goes with
/// its third power, so three steps reach rounding. A slip in a coefficient would show in the tests.
///
/// # Errors
///
/// [`EvidenceError::OutOfRange`] unless 0 < p < 1.
pub fn quantile(p: f64) -> Result<f64, EvidenceError> {
    probability("probability", p)?;
    // The lower tail keeps its digits: work there and mirror.
    let tail = p.min(1.0 - p);
    let t = (-2.0 * libm::log(tail)).sqrt();
    let numerator = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let denominator = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    let mut x = -(t - numerator / denominator);
    for _ in 0..3 {
        let error = (cdf(x) - tail) / density(x);
        x -= error / (1.0 + 0.5 * x * error);
    }
    Ok(if p <= 0.5 { x } else { -x })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Table values to ten places (Abramowitz and Stegun 1964, table 26.1 and 26.5; from memory,
    /// confirmed against a reference library).
    #[test]
    fn val_quantiles() -> Result<(), EvidenceError> {
        for (p, z) in [
            (0.5, 0.0),
            (0.9, 1.281_551_565_544_600_4),
            (0.95, 1.644_853_626_951_472_2),
            (0.975, 1.959_963_984_540_054),
            (0.99, 2.326_347_874_040_840_8),
            (1e-10, -6.361_340_902_404_056),
        ] {
            assert!((quantile(p)? - z).abs() < 1e-14 * (1.0 + z.abs()), "{p}");
        }
        Ok(())
    }

    #[test]
    fn unit_refuses_what_is_no_probability() {
        for p in [0.0, 1.0, -0.1, f64::NAN] {
            assert!(quantile(p).is_err());
        }
    }

    proptest! {
        #[test]
        fn law_quantile_inverts_cdf(z in -8.0..5.0_f64) {
            // Above 5 the upper tail 1 − p has lost the digits.
            let back = quantile(cdf(z))?;
            prop_assert!((back - z).abs() < 1e-9, "{z} {back}");
        }

        #[test]
        fn law_symmetric(p in 1e-6..0.5_f64) {
            let sum = quantile(p)? + quantile(1.0 - p)?;
            // 1 − p is rounded: relative 1e-16/p in the tail's probability.
            prop_assert!(sum.abs() < 1e-9, "{sum}");
        }
    }
}
