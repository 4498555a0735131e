//! Integrals of smooth functions that die out at both ends.

use crate::EvidenceError;

/// Doublings of the number of intervals: 128 to 65 536.
const DOUBLINGS: usize = 10;

/// ∫ f dx between two ends at which `f` has died out, by the trapezoidal rule.
///
/// For an analytic function that vanishes at both ends the rule converges exponentially: halving
/// the step about squares the error, so two results that agree to `tolerance` are good to far
/// better (Trefethen and Weideman 2014, SIAM Review 56, 385-458; from memory).
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] with the number of intervals that did not suffice.
pub(crate) fn trapezoid(
    what: &'static str,
    from: f64,
    to: f64,
    tolerance: f64,
    f: impl Fn(f64) -> f64,
) -> Result<f64, EvidenceError> {
    let mut intervals = 128_u32;
    let mut step = (to - from) / f64::from(intervals);
    let mut sum = f64::midpoint(f(from), f(to));
    for i in 1..intervals {
        sum += f(from + step * f64::from(i));
    }
    let mut before = sum * step;
    for _ in 0..DOUBLINGS {
        for i in 0..intervals {
            sum += f(from + step * (f64::from(i) + 0.5));
        }
        intervals *= 2;
        step /= 2.0;
        let now = sum * step;
        if (now - before).abs() <= tolerance {
            return Ok(now);
        }
        before = now;
    }
    Err(EvidenceError::NotConverged { what, limit: intervals as usize })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_gaussian_integral() -> Result<(), EvidenceError> {
        let found = trapezoid("test", -9.0, 9.0, 1e-13, |x| libm::exp(-x * x))?;
        assert!((found - core::f64::consts::PI.sqrt()).abs() < 1e-14, "{found}");
        Ok(())
    }

    #[test]
    fn unit_a_jump_does_not_converge() {
        let jump = |x: f64| if x < 0.123_456_7 { 1.0 } else { 0.0 };
        assert!(matches!(trapezoid("test", -1.0, 1.0, 1e-13, jump), Err(EvidenceError::NotConverged { .. })));
    }
}
