//! The characteristic value after EN 1990 Annex D.

use crate::EvidenceError;
use crate::error::{finite, positive};
use crate::sample::{Sample, count};
use crate::{normal, student};

/// What is known of the scatter before the tests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Scatter {
    /// Nothing: the coefficient of variation comes from the tests themselves.
    Unknown,
    /// The coefficient of variation is known, or bounded from above, from earlier work.
    Known {
        /// Coefficient of variation.
        coefficient_of_variation: f64,
    },
}

/// Share of the population below the characteristic value.
const FRACTILE: f64 = 0.05;

/// Fewest tests for which table D.1 gives a factor without knowledge of the scatter.
pub const LEAST_TESTS_UNKNOWN: usize = 3;

/// EN 1990 D7.1 advises to take an unknown coefficient of variation as not smaller than this
/// (from memory). [`characteristic_value`] does not apply it; whoever judges by it, does.
pub const LEAST_UNKNOWN_VARIATION: f64 = 0.10;

/// The factor of EN 1990 table D.1 for the characteristic (5 %) value.
///
/// ```text
/// V unknown   k_n = t_{0.95}(n − 1) √(1 + 1/n)          n ≥ 3
/// V known     k_n = z_{0.95} √(1 + 1/n)                 n ≥ 1
/// t, z  quantiles of Student's t and of the normal distribution   n  number of tests
/// ```
///
/// A prediction factor (vague prior), much smaller than a tolerance factor: 2.33 against 3.41 for
/// n = 5. Source: EN 1990:2002, Annex D, D7.2 and table D.1 (table from memory; formula).
///
/// # Errors
///
/// [`EvidenceError::TooFew`].
pub fn factor(tests: usize, scatter: Scatter) -> Result<f64, EvidenceError> {
    let needed = match scatter {
        Scatter::Unknown => LEAST_TESTS_UNKNOWN,
        Scatter::Known { .. } => 1,
    };
    if tests < needed {
        return Err(EvidenceError::TooFew { what: "a characteristic value", needed, found: tests });
    }
    let n = count(tests);
    let quantile = match scatter {
        Scatter::Unknown => student::quantile(1.0 - FRACTILE, n - 1.0)?,
        Scatter::Known { .. } => normal::quantile(1.0 - FRACTILE)?,
    };
    finite("characteristic factor", quantile * (1.0 + 1.0 / n).sqrt())
}

/// The characteristic (5 %) value of a normal population.
///
/// ```text
/// X_k = m (1 − k_n V)
/// m  mean of the tests   k_n  factor of table D.1   V  coefficient of variation
/// ```
///
/// V is the sample's own where the scatter is unknown. May be negative for large scatter: the
/// number then says that the tests carry no characteristic value. Source: EN 1990:2002, D7.2 (1),
/// design factors left out.
///
/// # Errors
///
/// As [`factor`]; a mean or a known coefficient of variation that is not positive.
pub fn characteristic_value(sample: &Sample, scatter: Scatter) -> Result<f64, EvidenceError> {
    let k_n = factor(sample.size(), scatter)?;
    let variation = match scatter {
        Scatter::Unknown => sample.coefficient_of_variation()?,
        Scatter::Known { coefficient_of_variation } => {
            positive("coefficient of variation", coefficient_of_variation)?
        }
    };
    let mean = positive("mean", sample.mean()?)?;
    finite("characteristic value", mean * (1.0 - k_n * variation))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const KNOWN: Scatter = Scatter::Known { coefficient_of_variation: 0.1 };

    /// EN 1990:2002 table D.1 (from memory). The printed factors differ from the formula by up to
    /// 0.012 (V unknown) and 0.016 (V known): the table is rounded roughly, so no tighter check is
    /// honest against it. With the scatter unknown the formula is checked to ten digits as well
    /// (recomputed with a reference library).
    #[test]
    fn val_table_d1() -> Result<(), EvidenceError> {
        for (n, printed, exact) in [
            (3, 3.37, 3.371_708_921_7),
            (4, 2.63, 2.631_140_308_0),
            (5, 2.33, 2.335_321_148_0),
            (6, 2.18, 2.176_501_000_4),
            (8, 2.00, 2.009_504_068_7),
            (10, 1.92, 1.922_585_063_5),
            (20, 1.76, 1.771_833_878_7),
            (30, 1.73, 1.727_213_673_5),
        ] {
            let k = factor(n, Scatter::Unknown)?;
            assert!((k - printed).abs() < 0.013, "{n}: {k}");
            assert!((k - exact).abs() < 1e-9, "{n}: {k}");
        }
        for (n, printed) in [
            (1, 2.31),
            (2, 2.01),
            (3, 1.89),
            (4, 1.83),
            (5, 1.80),
            (6, 1.77),
            (8, 1.74),
            (10, 1.72),
            (20, 1.68),
            (30, 1.67),
        ] {
            let k = factor(n, KNOWN)?;
            assert!((k - printed).abs() < 0.017, "{n}: {k}");
        }
        Ok(())
    }

    #[test]
    fn unit_two_tests_say_nothing_about_scatter() -> Result<(), EvidenceError> {
        let two = Sample::new(vec![20.0, 22.0])?;
        assert!(matches!(
            characteristic_value(&two, Scatter::Unknown),
            Err(EvidenceError::TooFew { needed: 3, found: 2, .. })
        ));
        // The normal quantile, not the rounded 1.645 of the table's heading.
        let known = characteristic_value(&two, KNOWN)?;
        let by_hand = 21.0 * (1.0 - 0.1 * 1.644_853_626_951_472_2 * 1.5_f64.sqrt());
        assert!((known - by_hand).abs() < 1e-12, "{known}");
        Ok(())
    }

    proptest! {
        #[test]
        fn law_factor_falls_with_tests(n in 3..200_usize) {
            prop_assert!(factor(n + 1, Scatter::Unknown)? < factor(n, Scatter::Unknown)?);
            prop_assert!(factor(n + 1, KNOWN)? < factor(n, KNOWN)?);
            prop_assert!(factor(n, KNOWN)? < factor(n, Scatter::Unknown)?);
        }

        /// Spreading the values about their mean never raises the characteristic value.
        #[test]
        fn law_more_scatter_never_raises(
            values in prop::collection::vec(15.0..30.0_f64, 3..20), spread in 1.0..1.4_f64,
        ) {
            let sample = Sample::new(values.clone())?;
            let mean = sample.mean()?;
            let wider = Sample::new(values.iter().map(|x| mean + spread * (x - mean)).collect())?;
            let before = characteristic_value(&sample, Scatter::Unknown)?;
            prop_assert!(characteristic_value(&wider, Scatter::Unknown)? <= before + 1e-9);
        }
    }
}
