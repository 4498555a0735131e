//! One ordinary differential equation, integrated with its error under control.

use crate::ProcessError;

/// Steps over one stretch. A cure slows down as it ends, so that the steps grow; thousands would
/// already be strange.
const LIMIT: usize = 100_000;

/// The state at the start of a step, with the step that was accepted.
pub(crate) struct Step {
    pub(crate) from: f64,
    pub(crate) length: f64,
    pub(crate) before: f64,
    pub(crate) after: f64,
}

/// One step of y' = f(t, y): the fifth-order value and an estimate of its error.
///
/// Dormand and Prince 1980, J. Comput. Appl. Math. 6, 19-26, RK5(4)7M (coefficients from memory;
/// the order is tested).
pub(crate) fn dormand_prince(f: &impl Fn(f64, f64) -> f64, t: f64, y: f64, h: f64) -> (f64, f64) {
    let k1 = f(t, y);
    let k2 = f(t + h / 5.0, y + h * k1 / 5.0);
    let k3 = f(t + h * 0.3, y + h * (k1 * 3.0 + k2 * 9.0) / 40.0);
    let k4 = f(t + h * 0.8, y + h * (k1 * 44.0 / 45.0 - k2 * 56.0 / 15.0 + k3 * 32.0 / 9.0));
    let k5 = f(
        t + h * 8.0 / 9.0,
        y + h * (k1 * 19372.0 / 6561.0 - k2 * 25360.0 / 2187.0 + k3 * 64448.0 / 6561.0 - k4 * 212.0 / 729.0),
    );
    let k6 = f(
        t + h,
        y + h
            * (k1 * 9017.0 / 3168.0 - k2 * 355.0 / 33.0 + k3 * 46732.0 / 5247.0 + k4 * 49.0 / 176.0
                - k5 * 5103.0 / 18656.0),
    );
    let next = y + h
        * (k1 * 35.0 / 384.0 + k3 * 500.0 / 1113.0 + k4 * 125.0 / 192.0 - k5 * 2187.0 / 6784.0
            + k6 * 11.0 / 84.0);
    let k7 = f(t + h, next);
    let error = h
        * (k1 * 71.0 / 57600.0 - k3 * 71.0 / 16695.0 + k4 * 71.0 / 1920.0 - k5 * 17253.0 / 339_200.0
            + k6 * 22.0 / 525.0
            - k7 / 40.0);
    (next, error)
}

/// Follows y' = f(t, y) from `from` to `to` with steps whose error stays below `tolerance`.
///
/// `visit` sees every accepted step and says whether to go on. Returns the last value.
///
/// # Errors
///
/// [`ProcessError::NotConverged`], [`ProcessError::NotFinite`].
pub(crate) fn follow(
    f: &impl Fn(f64, f64) -> f64,
    from: f64,
    to: f64,
    start: f64,
    tolerance: f64,
    mut visit: impl FnMut(&Step) -> bool,
) -> Result<f64, ProcessError> {
    let (mut t, mut y) = (from, start);
    // A first step that changes y by about a hundredth; the control below finds the right one.
    let slope = f(t, y).abs();
    let mut h = if slope > 0.0 { 0.01 / slope } else { to - from };
    for _ in 0..LIMIT {
        if t >= to {
            return Ok(y);
        }
        h = h.min(to - t);
        let (next, error) = dormand_prince(f, t, y, h);
        if !(next.is_finite() && error.is_finite()) {
            return Err(ProcessError::NotFinite { what: "state of the differential equation" });
        }
        let ratio = error.abs() / tolerance;
        if ratio <= 1.0 {
            let step = Step { from: t, length: h, before: y, after: next };
            // Ends exactly at `to`, whatever the rounding of t + h.
            t = if h >= to - t { to } else { t + h };
            y = next;
            if !visit(&step) {
                return Ok(y);
            }
        }
        // Local error of order h⁵; 0.9 keeps most steps accepted, the bounds keep it from jumping.
        h *= (0.9 * libm::pow(ratio.max(1e-10), -0.2)).clamp(0.2, 5.0);
    }
    Err(ProcessError::NotConverged { what: "differential equation", limit: LIMIT })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// y' = y cos t has y = e^(sin t): halving the step must cut the error by 2⁵.
    #[test]
    fn unit_fifth_order() {
        let f = |t: f64, y: f64| y * libm::cos(t);
        let error = |steps: u32| {
            let h = 2.0 / f64::from(steps);
            let mut y = 1.0;
            for i in 0..steps {
                y = dormand_prince(&f, f64::from(i) * h, y, h).0;
            }
            (y - libm::exp(libm::sin(2.0))).abs()
        };
        let order = libm::log2(error(16) / error(32));
        // The asymptotic order is approached from either side at these steps.
        assert!((4.5..6.0).contains(&order), "{order}");
    }

    #[test]
    fn unit_error_stays_under_control() -> Result<(), ProcessError> {
        let f = |t: f64, y: f64| y * libm::cos(t);
        for tolerance in [1e-6, 1e-10] {
            let mut steps = 0.0;
            let y = follow(&f, 0.0, 2.0, 1.0, tolerance, |_| {
                steps += 1.0;
                true
            })?;
            // Local errors add up, and the equation magnifies them by less than e.
            let bound = 3.0 * steps * tolerance;
            assert!((y - libm::exp(libm::sin(2.0))).abs() < bound, "{y}");
        }
        Ok(())
    }

    #[test]
    fn unit_blow_up_is_an_error() {
        // y' = y² from 1 is infinite at t = 1.
        let blown = follow(&|_, y| y * y, 0.0, 2.0, 1.0, 1e-8, |_| true);
        assert!(blown.is_err(), "{blown:?}");
    }
}
