//! The mean of a cycle.

use super::rainflow::Cycle;
use crate::failure::{self, Failure};

/// The range that does the same at the stress ratio of the tests as a cycle does at its own mean.
///
/// ```text
/// a_r = a/(1 − |m|/s)                    the amplitude that does the same about zero
/// a_R = a_r/(1 + a_r k/s)                the one at the ratio R,  k = (1 + R)/(1 − R)
/// Δ   = 2 max(a, a_R)
/// a  amplitude   m  mean   s  static strength   R  least over greatest load of the tests
/// ```
///
/// Any unit. The correction only ever raises a range: a cycle whose mean is lower than that of the tests gets no
/// credit for it. Valid for −1 ≤ R < 1 and while the peak stays below the strength.
///
/// Source: Goodman 1899, straight line to the static strength (memory); without the credit, common practice.
///
/// # Errors
///
/// A [`Failure`] where an argument is out of range, or where the peak of the cycle reaches the strength.
pub fn at_ratio(cycle: &Cycle, strength: f64, ratio: f64) -> Result<f64, Failure> {
    failure::positive("strength", strength)?;
    failure::not_negative("range", cycle.range)?;
    failure::finite("mean", cycle.mean)?;
    failure::within("stress ratio", ratio, -1.0, 0.99)?;
    let (amplitude, mean) = (0.5 * cycle.range, cycle.mean.abs());
    failure::within("peak of a cycle", amplitude + mean, 0.0, strength)?;
    let of_tests = (1.0 + ratio) / (1.0 - ratio);
    // The amplitude about zero times (1 − m/s), so that a cycle without range at the strength needs no division.
    let corrected = amplitude / (1.0 - mean / strength + amplitude * of_tests / strength);
    let range = 2.0 * if corrected.is_finite() { amplitude.max(corrected) } else { amplitude };
    failure::number("range at the mean of the tests", range)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn unit_a_mean_above_that_of_the_tests_counts_for_more() {
        // By hand, s = 100: 10 about 50 does 20 about zero, and that 20/1.2 at the ratio zero.
        let cycle = Cycle { range: 20.0, mean: 50.0, count: 1.0 };
        assert!((at_ratio(&cycle, 100.0, -1.0).expect("a range") - 40.0).abs() < 1e-12);
        assert!((at_ratio(&cycle, 100.0, 0.0).expect("a range") - 2.0 * 20.0 / 1.2).abs() < 1e-12);
        assert!(matches!(at_ratio(&cycle, 59.0, 0.0), Err(Failure::OutOfRange { .. })));
        assert!(matches!(at_ratio(&cycle, 100.0, 1.0), Err(Failure::OutOfRange { .. })));
    }

    proptest! {
        /// A cycle of the tests' own ratio is what it is, and none is ever lowered.
        #[test]
        fn law_never_lowered_and_kept_at_the_ratio_of_the_tests(peak in 1.0_f64..99.0, ratio in -1.0_f64..0.95, of_tests in -1.0_f64..0.95) {
            let least = ratio * peak;
            let cycle = Cycle { range: peak - least, mean: 0.5 * (peak + least), count: 1.0 };
            let range = at_ratio(&cycle, 100.0, of_tests).unwrap();
            prop_assert!(range >= cycle.range * (1.0 - 1e-15));
            // A few roundings of numbers of one size.
            let own = at_ratio(&cycle, 100.0, ratio).unwrap();
            prop_assert!((own - cycle.range).abs() <= 1e-12 * cycle.range);
        }
    }
}
