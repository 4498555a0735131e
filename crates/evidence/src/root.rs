//! The root of a rising function, bracketed from start to end.

use crate::EvidenceError;

/// Doublings of the bracket, and steps inside it. Bisection alone needs 60 for all digits, and the
/// method below halves the bracket at least every step.
const LIMIT: usize = 200;

/// Where the rising function `f` passes zero, starting from the bracket `low..high`, which is
/// widened until it holds the root.
///
/// Ridders' method: an exponential factor makes the three points low, middle, high collinear, and
/// the secant of that line gives the next point (Ridders 1979, IEEE Trans. Circuits Syst. 26;
/// from memory).
///
/// # Errors
///
/// [`EvidenceError::NotConverged`], and whatever `f` returns.
pub(crate) fn rising_root(
    what: &'static str,
    low: f64,
    high: f64,
    f: impl Fn(f64) -> Result<f64, EvidenceError>,
) -> Result<f64, EvidenceError> {
    let unsettled = EvidenceError::NotConverged { what, limit: LIMIT };
    let (mut low, mut high) = (low, high);
    let (mut at_low, mut at_high) = (f(low)?, f(high)?);
    let mut doublings = 0;
    while at_low > 0.0 || at_high < 0.0 {
        let width = high - low;
        if at_low > 0.0 {
            (high, at_high) = (low, at_low);
            low -= 2.0 * width;
            at_low = f(low)?;
        } else {
            (low, at_low) = (high, at_high);
            high += 2.0 * width;
            at_high = f(high)?;
        }
        doublings += 1;
        if doublings > LIMIT || !(at_low.is_finite() && at_high.is_finite()) {
            return Err(unsettled);
        }
    }
    for _ in 0..LIMIT {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            return Ok(middle);
        }
        let at_middle = f(middle)?;
        let under = at_middle * at_middle - at_low * at_high;
        // Zero only where all three values are: then every point of the bracket is a root.
        if under <= 0.0 {
            return Ok(middle);
        }
        let next = middle - (middle - low) * at_middle / under.sqrt();
        let at_next = f(next)?;
        for (x, y) in [(middle, at_middle), (next, at_next)] {
            if y <= 0.0 && x > low {
                (low, at_low) = (x, y);
            }
            if y >= 0.0 && x < high {
                (high, at_high) = (x, y);
            }
        }
        // Four units in the last place: no more digits are to be had.
        if high - low <= 4.0 * f64::EPSILON * low.abs().max(high.abs()) {
            return Ok(f64::midpoint(low, high));
        }
    }
    Err(unsettled)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_finds_roots_inside_and_beyond_the_bracket() -> Result<(), EvidenceError> {
        for root in [-700.0, -1e-3, 0.0, 0.3, 41.0] {
            let found = rising_root("test", 0.0, 1.0, |x| Ok(libm::atan(x - root)))?;
            assert!((found - root).abs() <= 1e-14 * (1.0 + root.abs()), "{root} {found}");
        }
        Ok(())
    }

    #[test]
    fn unit_no_root_is_an_error() {
        let found = rising_root("test", 0.0, 1.0, |x| Ok(libm::atan(x) - 2.0));
        assert!(matches!(found, Err(EvidenceError::NotConverged { .. })));
    }
}
