//! Student's t and the non-central t distribution.

use crate::EvidenceError;
use crate::error::{finite, positive, probability};
use crate::quadrature::trapezoid;
use crate::root::rising_root;
use crate::{beta, normal};

/// The chance that Student's t with `degrees` degrees of freedom is below `t`.
///
/// ```text
/// P(T ≤ t) = 1 − ½ I_{ν/(ν+t²)}(ν/2, ½)          t ≥ 0, mirrored below
///          = ½ + ½ I_{t²/(ν+t²)}(½, ν/2)
/// ```
///
/// Abramowitz and Stegun 1964, 26.7.1, 26.5.27 and 26.5.2 (formula). The second form, for t² < ν, keeps the digits of
/// a small t, which ν/(ν+t²) near 1 loses.
///
/// # Errors
///
/// Degrees of freedom not positive, `t` not a finite number.
pub fn cdf(t: f64, degrees: f64) -> Result<f64, EvidenceError> {
    positive("degrees of freedom", degrees)?;
    finite("t", t)?;
    if t * t < degrees {
        let middle = 0.5 * beta::regularised(t * t / (degrees + t * t), 0.5, 0.5 * degrees)?;
        return Ok(if t < 0.0 { 0.5 - middle } else { 0.5 + middle });
    }
    let tail = 0.5 * beta::regularised(degrees / (degrees + t * t), 0.5 * degrees, 0.5)?;
    Ok(if t < 0.0 { tail } else { 1.0 - tail })
}

/// The value below which Student's t falls with chance `p`.
///
/// # Errors
///
/// Degrees of freedom not positive, `p` not between 0 and 1.
pub fn quantile(p: f64, degrees: f64) -> Result<f64, EvidenceError> {
    probability("probability", p)?;
    positive("degrees of freedom", degrees)?;
    rising_root("t quantile", -1.0, 1.0, |t| Ok(cdf(t, degrees)? - p))
}

/// Natural logarithm of the least share of the density that still counts: 6e-19.
const LOG_NEGLIGIBLE: f64 = 42.0;

/// The chance that a non-central t value is below `t`.
///
/// ```text
/// T = (Z + δ)/W,  W = √(χ²_ν/ν)          P(T ≤ t) = ∫ Φ(t w − δ) f_W(w) dw,  w from 0 to ∞
/// f_W(w) = 2 (ν/2)^(ν/2)/Γ(ν/2) · w^(ν−1) exp(−ν w²/2)
/// Z  standard normal   δ  non-centrality   ν  degrees of freedom
/// ```
///
/// Integrated over ln w, where the integrand is smooth and dies out at both ends. On the
/// reference grid (`validation/reference/noncentral_t.toml`: ν from 1 to 200, δ from −2 to 40) the
/// greatest difference is 4e-14. Definition: textbook (formula).
///
/// # Errors
///
/// Degrees of freedom not positive, `t` or δ not finite, no convergence.
pub fn noncentral_cdf(t: f64, degrees: f64, noncentrality: f64) -> Result<f64, EvidenceError> {
    positive("degrees of freedom", degrees)?;
    finite("t", t)?;
    finite("non-centrality", noncentrality)?;
    let half = 0.5 * degrees;
    // f_W(w) dw with w = e^x is exp(log_scale + ν (x − e^(2x)/2)) dx, greatest at x = 0.
    let log_scale = core::f64::consts::LN_2 + half * libm::log(half) - libm::lgamma(half) - half;
    let integrand = |x: f64| {
        let w = libm::exp(x);
        normal::cdf(t * w - noncentrality) * libm::exp(log_scale + degrees * (x - 0.5 * (w * w - 1.0)))
    };
    // Ends where ν (e^(2x) − 1 − 2x)/2 has grown to LOG_NEGLIGIBLE: left, e^(2x) ≥ 0, and for
    // −1 ≤ x ≤ 0 the bracket is at least 2x²/3; right, it is at least 2x².
    let scaled = LOG_NEGLIGIBLE / degrees;
    let from = if 3.0 * scaled <= 1.0 { -(3.0 * scaled).sqrt() } else { -scaled - 0.5 };
    let to = 0.5 * libm::log1p(2.0 * scaled + 2.0 * scaled.sqrt());
    let value = trapezoid("non-central t", from, to, 1e-12, integrand)?;
    Ok(value.clamp(0.0, 1.0))
}

/// The value below which a non-central t value falls with chance `p`.
///
/// # Errors
///
/// As [`noncentral_cdf`]; `p` not between 0 and 1.
pub fn noncentral_quantile(p: f64, degrees: f64, noncentrality: f64) -> Result<f64, EvidenceError> {
    probability("probability", p)?;
    // The median lies near δ; the spread is 1 at least and grows with δ/√ν.
    let spread = 1.0 + noncentrality.abs() / positive("degrees of freedom", degrees)?.sqrt();
    rising_root("non-central t quantile", noncentrality - spread, noncentrality + spread, |t| {
        Ok(noncentral_cdf(t, degrees, noncentrality)? - p)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_closed_forms() -> Result<(), EvidenceError> {
        // ν = 1 is the Cauchy distribution, ν = 2 has the quantile (2p−1)/√(2p(1−p)).
        for p in [0.05, 0.5, 0.9, 0.99] {
            let cauchy = libm::tan(core::f64::consts::PI * (p - 0.5));
            assert!((quantile(p, 1.0)? - cauchy).abs() < 1e-12 * (1.0 + cauchy.abs()));
            let two = (2.0 * p - 1.0) / (2.0 * p * (1.0 - p)).sqrt();
            assert!((quantile(p, 2.0)? - two).abs() < 1e-12 * (1.0 + two.abs()));
        }
        assert!(quantile(0.5, 0.0).is_err());
        assert!(noncentral_cdf(f64::NAN, 5.0, 1.0).is_err());
        assert!(noncentral_cdf(1.0, 5.0, f64::INFINITY).is_err());
        Ok(())
    }

    /// Near zero the chance rises from a half with the density there, Γ((ν+1)/2)/(√(νπ) Γ(ν/2)): its next term is
    /// smaller by t², so that 1e-15 is the rounding of a half.
    #[test]
    fn regress_small_t_keeps_its_digits() -> Result<(), EvidenceError> {
        let degrees = 139.867_900_974_458_3_f64;
        let log_density = libm::lgamma(0.5 * (degrees + 1.0))
            - libm::lgamma(0.5 * degrees)
            - 0.5 * libm::log(degrees * core::f64::consts::PI);
        for t in [1e-5, -1e-6, 1e-9] {
            let found = cdf(t, degrees)? - 0.5;
            assert!((found - t * libm::exp(log_density)).abs() < 1e-15, "{t}: {found}");
        }
        Ok(())
    }

    proptest! {
        /// Without non-centrality the integral is Student's t, computed by another method.
        #[test]
        fn cross_noncentral_zero_is_student(t in -30.0..30.0_f64, degrees in 1.0..200.0_f64) {
            let difference = noncentral_cdf(t, degrees, 0.0)? - cdf(t, degrees)?;
            prop_assert!(difference.abs() < 1e-11, "{difference}");
        }

        /// P(T ≤ 0) = Φ(−δ) whatever the degrees of freedom.
        #[test]
        fn law_noncentral_at_zero(degrees in 1.0..300.0_f64, delta in -6.0..6.0_f64) {
            let difference = noncentral_cdf(0.0, degrees, delta)? - normal::cdf(-delta);
            prop_assert!(difference.abs() < 1e-12, "{difference}");
        }

        #[test]
        fn law_noncentral_quantile_inverts(p in 0.01..0.999_f64, degrees in 1.0..200.0_f64, delta in -5.0..40.0_f64) {
            let t = noncentral_quantile(p, degrees, delta)?;
            prop_assert!((noncentral_cdf(t, degrees, delta)? - p).abs() < 1e-11);
        }

        #[test]
        fn law_noncentral_falls_with_delta(t in -10.0..40.0_f64, degrees in 1.0..100.0_f64, delta in -5.0..30.0_f64, more in 0.0..2.0_f64) {
            let (a, b) = (noncentral_cdf(t, degrees, delta)?, noncentral_cdf(t, degrees, delta + more)?);
            prop_assert!(b <= a + 1e-12);
        }
    }
}
