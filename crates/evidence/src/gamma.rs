//! The regularised incomplete gamma function and the chi-squared distribution.

use crate::EvidenceError;
use crate::error::{finite, positive, probability};
use crate::root::rising_root;

/// Terms of series and continued fraction; both need of the order of √a near x = a.
const LIMIT: usize = 100_000;

/// P(a, x): the chance that a gamma value of shape `a` is below `x`.
///
/// ```text
/// P(a,x) = x^a e^(−x)/Γ(a+1) · (1 + x/(a+1) + x²/((a+1)(a+2)) + …)          x < a + 1
/// P(a,x) = 1 − x^a e^(−x)/Γ(a) · 1/(x+1−a − 1(1−a)/(x+3−a − 2(2−a)/(x+5−a − …)))
/// ```
///
/// Abramowitz and Stegun 1964, 6.5.29 and 6.5.31 (from memory, tested against closed forms).
///
/// # Errors
///
/// `a` not positive, `x` negative or not a number, no convergence.
pub fn regularised(a: f64, x: f64) -> Result<f64, EvidenceError> {
    positive("gamma shape", a)?;
    if x == 0.0 {
        return Ok(0.0);
    }
    if x == f64::INFINITY {
        return Ok(1.0);
    }
    positive("gamma argument", x)?;
    let front = libm::exp(a * libm::log(x) - x - libm::lgamma(a));
    let value = if x < a + 1.0 { front * series(a, x)? / a } else { 1.0 - front * fraction(a, x)? };
    finite("incomplete gamma function", value.clamp(0.0, 1.0))
}

fn series(a: f64, x: f64) -> Result<f64, EvidenceError> {
    let (mut term, mut sum, mut k) = (1.0, 1.0, 1.0);
    for _ in 0..LIMIT {
        term *= x / (a + k);
        sum += term;
        if term < 1e-17 * sum {
            return Ok(sum);
        }
        k += 1.0;
    }
    Err(unsettled())
}

/// By the modified Lentz method.
fn fraction(a: f64, x: f64) -> Result<f64, EvidenceError> {
    const TINY: f64 = 1e-300;
    let guarded = |v: f64| if v.abs() < TINY { TINY } else { v };
    let mut b = x + 1.0 - a;
    let mut c = 1.0 / TINY;
    let mut d = 1.0 / guarded(b);
    let mut value = d;
    let mut k = 1.0;
    for _ in 0..LIMIT {
        let numerator = -k * (k - a);
        b += 2.0;
        d = 1.0 / guarded(numerator * d + b);
        c = guarded(b + numerator / c);
        value *= d * c;
        if (d * c - 1.0).abs() < 1e-15 {
            return Ok(value);
        }
        k += 1.0;
    }
    Err(unsettled())
}

fn unsettled() -> EvidenceError {
    EvidenceError::NotConverged { what: "incomplete gamma function", limit: LIMIT }
}

/// The chance that a chi-squared value with `degrees` degrees of freedom is below `x`.
///
/// ```text
/// P(χ² ≤ x) = P(ν/2, x/2)
/// ```
///
/// # Errors
///
/// As [`regularised`].
pub fn chi_squared_cdf(x: f64, degrees: f64) -> Result<f64, EvidenceError> {
    regularised(0.5 * degrees, 0.5 * x)
}

/// The value below which a chi-squared value falls with chance `p`.
///
/// # Errors
///
/// As [`regularised`]; `p` not between 0 and 1.
pub fn chi_squared_quantile(p: f64, degrees: f64) -> Result<f64, EvidenceError> {
    probability("probability", p)?;
    positive("degrees of freedom", degrees)?;
    // In the logarithm the lower end is no wall.
    let log = rising_root("chi-squared quantile", -1.0, 1.0, |log| {
        Ok(chi_squared_cdf(degrees * libm::exp(log), degrees)? - p)
    })?;
    finite("chi-squared quantile", degrees * libm::exp(log))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_closed_forms() -> Result<(), EvidenceError> {
        // P(1, x) = 1 − e^(−x), P(½, x) = erf √x.
        for x in [0.01, 0.7, 3.0, 20.0] {
            assert!((regularised(1.0, x)? + libm::expm1(-x)).abs() < 1e-14, "{x}");
            assert!((regularised(0.5, x)? - libm::erf(x.sqrt())).abs() < 1e-14, "{x}");
        }
        assert!(regularised(1.0, f64::NAN).is_err());
        assert!(regularised(1.0, -1.0).is_err());
        Ok(())
    }

    /// χ²_{0.01}(42) as used in the two-sided factor of NIST/SEMATECH e-Handbook 7.2.6.3 (read):
    /// k₂ = z_{0.95} √((N−1)(1+1/N)/χ²) = 2.2173 for N = 43, printed to four decimals.
    #[test]
    fn val_nist_two_sided_factor() -> Result<(), EvidenceError> {
        let chi2 = chi_squared_quantile(0.01, 42.0)?;
        let k2 = crate::normal::quantile(0.95)? * (42.0 * (1.0 + 1.0 / 43.0) / chi2).sqrt();
        assert!((k2 - 2.2173).abs() < 5e-5, "{k2}");
        Ok(())
    }

    proptest! {
        #[test]
        fn law_quantile_inverts_cdf(p in 0.001..0.999_f64, degrees in 0.5..300.0_f64) {
            let x = chi_squared_quantile(p, degrees)?;
            prop_assert!((chi_squared_cdf(x, degrees)? - p).abs() < 1e-11);
        }
    }
}
