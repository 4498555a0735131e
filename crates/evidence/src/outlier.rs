//! Is the value farthest from the mean an outlier?

use crate::EvidenceError;
use crate::error::{finite, probability};
use crate::sample::{Sample, count};
use crate::student;

/// The result of the maximum normed residual test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NormedResidual {
    /// Index of the value farthest from the mean.
    pub index: usize,
    /// Its distance from the mean over the standard deviation.
    pub statistic: f64,
    /// The distance beyond which it is an outlier.
    pub critical: f64,
}

impl NormedResidual {
    /// Whether that value is an outlier. An outlier is looked into, not thrown away.
    pub fn is_outlier(&self) -> bool {
        self.statistic > self.critical
    }
}

/// The maximum normed residual test at significance level `alpha` (0.05 is usual).
///
/// ```text
/// MNR = max |xᵢ − x̄| / s
/// C = (n − 1)/√n · √(t²/(n − 2 + t²))          t = t_{1−α/(2n)}(n − 2)
/// ```
///
/// Valid for one outlier in values of one normal population. Source: MIL-HDBK-17-1F 8.3.3,
/// CMH-17-1G 8.3.3 (read; Stefansky 1972, Technometrics 14, 469-479).
///
/// # Errors
///
/// Fewer than three values, no scatter, `alpha` not between 0 and 1.
pub fn normed_residual(sample: &Sample, alpha: f64) -> Result<NormedResidual, EvidenceError> {
    let what = "an outlier test";
    sample.at_least(3, what)?;
    probability("significance level", alpha)?;
    let (mean, s) = (sample.mean()?, sample.standard_deviation()?);
    if s <= 0.0 {
        return Err(EvidenceError::NoScatter { what });
    }
    let (mut index, mut farthest) = (0, 0.0);
    for (i, x) in sample.values().iter().enumerate() {
        if (x - mean).abs() > farthest {
            (index, farthest) = (i, (x - mean).abs());
        }
    }
    let n = count(sample.size());
    let t = student::quantile(1.0 - alpha / (2.0 * n), n - 2.0)?;
    let critical = (n - 1.0) / n.sqrt() * (t * t / (n - 2.0 + t * t)).sqrt();
    Ok(NormedResidual { index, statistic: finite(what, farthest / s)?, critical: finite(what, critical)? })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::published::ETW;
    use proptest::prelude::*;

    /// CMH-17-1G table 8.3.11.1.1(a) (read): batch 2 has no outlier, batch 3 one.
    #[test]
    fn val_cmh17() -> Result<(), EvidenceError> {
        for (batch, statistic, critical, outlier) in
            [(ETW[1], 2.008, 2.127, false), (ETW[2], 2.119, 2.020, true)]
        {
            let found = normed_residual(&Sample::new(batch.to_vec())?, 0.05)?;
            // Half a unit of the last printed digit.
            assert!((found.statistic - statistic).abs() < 5e-4, "{found:?}");
            assert!((found.critical - critical).abs() < 5e-4, "{found:?}");
            assert_eq!(found.is_outlier(), outlier);
        }
        Ok(())
    }

    #[test]
    fn unit_refusals() -> Result<(), EvidenceError> {
        assert!(normed_residual(&Sample::new(vec![1.0, 2.0])?, 0.05).is_err());
        assert!(normed_residual(&Sample::new(vec![2.0; 5])?, 0.05).is_err());
        assert!(normed_residual(&Sample::new(vec![1.0, 2.0, 4.0])?, 0.0).is_err());
        Ok(())
    }

    proptest! {
        /// No value lies farther than (n − 1)/√n standard deviations, and the limit knows it.
        #[test]
        fn law_bounded(values in prop::collection::vec(1.0..50.0_f64, 3..30), alpha in 0.001..0.3_f64) {
            let found = normed_residual(&Sample::new(values.clone())?, alpha)?;
            let n = count(values.len());
            let most = (n - 1.0) / n.sqrt();
            prop_assert!(found.statistic <= most * (1.0 + 1e-12));
            prop_assert!(found.critical < most);
        }

        /// Moving the farthest value out never turns an outlier into none.
        #[test]
        fn law_farther_is_no_less_an_outlier(values in prop::collection::vec(10.0..20.0_f64, 4..20), out in 0.0..50.0_f64) {
            let at = |top: f64| {
                let mut all = values.clone();
                all.push(top);
                Sample::new(all).and_then(|sample| normed_residual(&sample, 0.05))
            };
            let (near, far) = (at(25.0)?, at(25.0 + out)?);
            prop_assert!(!near.is_outlier() || far.is_outlier());
        }
    }
}
