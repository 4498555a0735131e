//! A set of measured values and its statistics.

use crate::EvidenceError;
use crate::error::finite;

/// Measured values, all finite, at least one.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    values: Vec<f64>,
}

impl Sample {
    /// Takes the values as they are.
    ///
    /// # Errors
    ///
    /// [`EvidenceError::TooFew`] for none, [`EvidenceError::ValueNotFinite`].
    pub fn new(values: Vec<f64>) -> Result<Self, EvidenceError> {
        if values.is_empty() {
            return Err(EvidenceError::TooFew { what: "a sample", needed: 1, found: 0 });
        }
        match values.iter().position(|value| !value.is_finite()) {
            Some(index) => Err(EvidenceError::ValueNotFinite { index }),
            None => Ok(Self { values }),
        }
    }

    /// The values, in the order given.
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// How many.
    pub fn size(&self) -> usize {
        self.values.len()
    }

    /// The values in rising order.
    pub fn sorted(&self) -> Vec<f64> {
        let mut sorted = self.values.clone();
        sorted.sort_by(f64::total_cmp);
        sorted
    }

    /// Arithmetic mean.
    ///
    /// # Errors
    ///
    /// [`EvidenceError::NotFinite`] if the sum overflows.
    pub fn mean(&self) -> Result<f64, EvidenceError> {
        finite("mean", mean(&self.values))
    }

    /// Standard deviation of the population, estimated.
    ///
    /// ```text
    /// s = √( Σ (xᵢ − x̄)² / (n − 1) )
    /// ```
    ///
    /// # Errors
    ///
    /// [`EvidenceError::TooFew`] for one value, [`EvidenceError::NotFinite`].
    pub fn standard_deviation(&self) -> Result<f64, EvidenceError> {
        self.at_least(2, "a standard deviation")?;
        let mean = self.mean()?;
        let squares: f64 = self.values.iter().map(|x| (x - mean) * (x - mean)).sum();
        finite("standard deviation", (squares / (count(self.size()) - 1.0)).sqrt())
    }

    /// Coefficient of variation s / x̄.
    ///
    /// # Errors
    ///
    /// As [`standard_deviation`](Self::standard_deviation); [`EvidenceError::OutOfRange`] for a
    /// mean that is not positive.
    pub fn coefficient_of_variation(&self) -> Result<f64, EvidenceError> {
        let mean = crate::error::positive("mean", self.mean()?)?;
        finite("coefficient of variation", self.standard_deviation()? / mean)
    }

    /// The natural logarithms of the values.
    ///
    /// # Errors
    ///
    /// [`EvidenceError::ValueNotPositive`].
    pub fn logarithms(&self, what: &'static str) -> Result<Self, EvidenceError> {
        match self.values.iter().position(|&value| value <= 0.0) {
            Some(index) => Err(EvidenceError::ValueNotPositive {
                what,
                index,
                value: self.values.get(index).copied().unwrap_or(f64::NAN),
            }),
            None => Ok(Self { values: self.values.iter().map(|&x| libm::log(x)).collect() }),
        }
    }

    /// Whether the sample has at least `needed` values.
    pub(crate) fn at_least(&self, needed: usize, what: &'static str) -> Result<(), EvidenceError> {
        if self.size() < needed {
            return Err(EvidenceError::TooFew { what, needed, found: self.size() });
        }
        Ok(())
    }
}

/// The mean of some values; NaN for none.
pub(crate) fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / count(values.len())
}

/// A number of values as a number.
#[expect(clippy::cast_precision_loss, reason = "exact below 2^53 values, which no memory holds")]
pub(crate) fn count(values: usize) -> f64 {
    values as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_small_sample_by_hand() -> Result<(), EvidenceError> {
        let sample = Sample::new(vec![2.0, 4.0, 9.0])?;
        assert!((sample.mean()? - 5.0).abs() < 1e-15);
        // Deviations −3, −1, 4: squares sum to 26, over 2.
        assert!((sample.standard_deviation()? - 13.0_f64.sqrt()).abs() < 1e-15);
        assert!((sample.coefficient_of_variation()? - 13.0_f64.sqrt() / 5.0).abs() < 1e-15);
        Ok(())
    }

    #[test]
    fn unit_refusals() -> Result<(), EvidenceError> {
        assert!(Sample::new(vec![]).is_err());
        assert!(matches!(Sample::new(vec![1.0, f64::NAN]), Err(EvidenceError::ValueNotFinite { index: 1 })));
        assert!(Sample::new(vec![1.0])?.standard_deviation().is_err());
        assert!(Sample::new(vec![-1.0, 1.0])?.coefficient_of_variation().is_err());
        assert!(Sample::new(vec![1e308, 1e308])?.mean().is_err());
        assert!(matches!(
            Sample::new(vec![1.0, -2.0])?.logarithms("test"),
            Err(EvidenceError::ValueNotPositive { index: 1, .. })
        ));
        Ok(())
    }

    proptest! {
        #[test]
        fn law_scatter_ignores_shift_and_follows_scale(
            values in prop::collection::vec(10.0..50.0_f64, 2..20), shift in 0.0..100.0_f64, scale in 0.1..10.0_f64,
        ) {
            let s = Sample::new(values.clone())?.standard_deviation()?;
            let moved = values.iter().map(|x| scale * x + shift).collect();
            let moved = Sample::new(moved)?.standard_deviation()?;
            prop_assert!((moved - scale * s).abs() < 1e-11 * (1.0 + scale * s), "{moved} {s}");
        }
    }
}
