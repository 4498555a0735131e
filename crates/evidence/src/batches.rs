//! Do batches belong together? And does a later one agree with the qualified one?

use crate::EvidenceError;
use crate::error::{finite, positive, probability};
use crate::sample::{Sample, count, mean};
use crate::{beta, student};

/// The k-sample Anderson-Darling test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KSample {
    /// A²_akN of Scholz and Stephens, ties by mid-rank.
    pub statistic: f64,
    /// The same over k − 1: ADK as CMH-17 reports it.
    pub per_freedom: f64,
    /// Standard deviation of the statistic.
    pub sigma: f64,
    /// The statistic beyond which the batches differ at the 2.5 % level.
    pub critical: f64,
}

impl KSample {
    /// Whether the batches may be pooled: no difference at the 2.5 % level.
    pub fn may_be_pooled(&self) -> bool {
        self.statistic <= self.critical
    }
}

/// Whether two or more batches may come from one population, of any form.
///
/// ```text
/// A² = (N−1)/N Σᵢ 1/nᵢ Σⱼ (lⱼ/N) (N M_ij − nᵢ B_j)² / (B_j (N − B_j) − N lⱼ/4)
/// critical = (k − 1) + σ_N (1.960 + 1.149/√(k−1) − 0.391/(k−1))
/// N  all values   nᵢ  values of batch i   k  batches   lⱼ  values equal to the j-th distinct one
/// B_j, M_ij  values below it, in all and in batch i, plus half of those equal to it
/// ```
///
/// Source: Scholz and Stephens 1987, JASA 82, 918-924 (read in part; σ_N and the 2.5 %
/// coefficients from memory, confirmed by a published σ_N and a reference library). The 2.5 %
/// level is the one of CMH-17-1G 8.3.2.2. Definitions in use differ by the factor k − 1.
///
/// # Errors
///
/// Fewer than two batches or four values, all values equal.
pub fn k_sample(batches: &[Sample]) -> Result<KSample, EvidenceError> {
    let what = "a k-sample test";
    let all = pooled(batches, what)?;
    all.at_least(4, what)?;
    let big_n = count(all.size());
    let mut distinct = all.sorted();
    distinct.dedup();
    if distinct.len() < 2 {
        return Err(EvidenceError::NoScatter { what });
    }
    let mut sum = 0.0;
    for batch in batches {
        let n = count(batch.size());
        let mut inner = 0.0;
        for &value in &distinct {
            let (below, equal) = rank(&all, value);
            let (batch_below, batch_equal) = rank(batch, value);
            let b = below + equal / 2.0;
            let m = batch_below + batch_equal / 2.0;
            inner += equal / big_n * (big_n * m - n * b).powi(2) / (b * (big_n - b) - big_n * equal / 4.0);
        }
        sum += inner / n;
    }
    let statistic = (big_n - 1.0) / big_n * sum;
    let sigma = sigma(batches, all.size());
    let m = count(batches.len()) - 1.0;
    let critical = m + sigma * (1.960 + 1.149 / m.sqrt() - 0.391 / m);
    Ok(KSample {
        statistic: finite(what, statistic)?,
        per_freedom: finite(what, statistic / m)?,
        sigma: finite(what, sigma)?,
        critical: finite(what, critical)?,
    })
}

/// How many values lie below a value, and how many are equal to it.
fn rank(sample: &Sample, value: f64) -> (f64, f64) {
    let below = sample.values().iter().filter(|x| **x < value).count();
    let up_to = sample.values().iter().filter(|x| **x <= value).count();
    (count(below), count(up_to - below))
}

/// Standard deviation of A²_akN (Scholz and Stephens 1987, equation 4).
fn sigma(batches: &[Sample], values: usize) -> f64 {
    let n = count(values);
    let k = count(batches.len());
    let big_h: f64 = batches.iter().map(|batch| 1.0 / count(batch.size())).sum();
    // h = Σ 1/i, g = Σ_{i<j} 1/((N−i) j), both up to N − 1: g from the partial sums of h.
    let (mut h, mut partial) = (0.0, Vec::with_capacity(values));
    for i in 1..values {
        h += 1.0 / count(i);
        partial.push(h);
    }
    let g: f64 = partial.iter().zip(1..values).map(|(up_to, i)| (h - up_to) / (n - count(i))).sum();
    let a = (4.0 * g - 6.0) * (k - 1.0) + (10.0 - 6.0 * g) * big_h;
    let b =
        (2.0 * g - 4.0) * k * k + 8.0 * h * k + (2.0 * g - 14.0 * h - 4.0) * big_h - 8.0 * h + 4.0 * g - 6.0;
    let c =
        (6.0 * h + 2.0 * g - 2.0) * k * k + (4.0 * h - 4.0 * g + 6.0) * k + (2.0 * h - 6.0) * big_h + 4.0 * h;
    let d = (2.0 * h + 6.0) * k * k - 4.0 * h * k;
    (((a * n + b) * n + c) * n + d).max(0.0).sqrt() / ((n - 1.0) * (n - 2.0) * (n - 3.0)).sqrt()
}

/// Levene's test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levene {
    /// The variance ratio F.
    pub statistic: f64,
    /// The chance of a greater one if all scatter were alike.
    pub significance: f64,
}

/// Whether the batches scatter alike: analysis of variance of the distances from each batch's
/// median.
///
/// ```text
/// z_ij = |x_ij − median_i|          F = Σ nᵢ (z̄ᵢ − z̄)²/(k − 1) / (Σ (z_ij − z̄ᵢ)²/(N − k))
/// ```
///
/// Source: MIL-HDBK-17-1F 8.3.5.2.1, CMH-17-1G 8.3.11.2.2 (read); Levene 1960, median form by
/// Brown and Forsythe 1974 (from memory).
///
/// # Errors
///
/// Fewer than two batches, no more values than batches, distances without scatter.
pub fn levene(batches: &[Sample]) -> Result<Levene, EvidenceError> {
    let what = "Levene's test";
    let all = pooled(batches, what)?;
    all.at_least(batches.len() + 1, what)?;
    let distances: Vec<Vec<f64>> = batches
        .iter()
        .map(|batch| {
            let median = median(batch);
            batch.values().iter().map(|x| (x - median).abs()).collect()
        })
        .collect();
    let grand = mean(&distances.concat());
    let (mut between, mut within) = (0.0, 0.0);
    for batch in &distances {
        let own = mean(batch);
        between += count(batch.len()) * (own - grand) * (own - grand);
        within += batch.iter().map(|z| (z - own) * (z - own)).sum::<f64>();
    }
    if within <= 0.0 {
        return Err(EvidenceError::NoScatter { what });
    }
    let d1 = count(batches.len()) - 1.0;
    let d2 = count(all.size()) - count(batches.len());
    let statistic = finite(what, between / d1 / (within / d2))?;
    Ok(Levene { statistic, significance: beta::f_exceedance(statistic, d1, d2)? })
}

fn median(sample: &Sample) -> f64 {
    let sorted = sample.sorted();
    let half = sorted.len() / 2;
    let upper = sorted.get(half).copied().unwrap_or(f64::NAN);
    if sorted.len() % 2 == 1 {
        return upper;
    }
    f64::midpoint(sorted.get(half.wrapping_sub(1)).copied().unwrap_or(upper), upper)
}

/// All values of two or more batches.
fn pooled(batches: &[Sample], what: &'static str) -> Result<Sample, EvidenceError> {
    if batches.len() < 2 {
        return Err(EvidenceError::TooFew { what, needed: 2, found: batches.len() });
    }
    Sample::new(batches.iter().flat_map(|batch| batch.values().iter().copied()).collect())
}

/// What is known of a set of values whose single values are not at hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Summary {
    /// Number of values.
    pub count: usize,
    /// Mean.
    pub mean: f64,
    /// Standard deviation (n − 1).
    pub standard_deviation: f64,
}

/// The range in which the mean of a later set shows no change from the qualified one, at
/// significance level `alpha` (both sides together).
///
/// ```text
/// x̄_q ± t_{1−α/2}(n_q + n − 2) s_p √(1/n_q + 1/n)     s_p² = ((n_q−1) s_q² + (n−1) s²)/(n_q + n − 2)
/// ```
///
/// Source: CMH-17-1G 8.4.2 (read); pooled t (textbook).
///
/// # Errors
///
/// Sets of fewer than two values, scatter not positive, `alpha` not between 0 and 1.
pub fn unchanged_mean(
    qualified: &Summary,
    later_count: usize,
    later_standard_deviation: f64,
    alpha: f64,
) -> Result<(f64, f64), EvidenceError> {
    let what = "a test for a change of the mean";
    for found in [qualified.count, later_count] {
        if found < 2 {
            return Err(EvidenceError::TooFew { what, needed: 2, found });
        }
    }
    probability("significance level", alpha)?;
    let s_q = positive("standard deviation", qualified.standard_deviation)?;
    let s = positive("standard deviation", later_standard_deviation)?;
    let (n_q, n) = (count(qualified.count), count(later_count));
    let freedom = n_q + n - 2.0;
    let pooled = (((n_q - 1.0) * s_q * s_q + (n - 1.0) * s * s) / freedom).sqrt();
    let t = student::quantile(1.0 - alpha / 2.0, freedom)?;
    let half = t * pooled * (1.0 / n_q + 1.0 / n).sqrt();
    Ok((finite(what, qualified.mean - half)?, finite(what, qualified.mean + half)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::published::{CTD, ETW, ETW2, LABORATORIES};
    use proptest::prelude::*;

    fn batches(of: &[&[f64]]) -> Result<Vec<Sample>, EvidenceError> {
        of.iter().map(|values| Sample::new(values.to_vec())).collect()
    }

    /// CMH-17-1G 8.3.11.1.1 (read): ETW 0.793 may be pooled, ETW2 3.024 may not.
    #[test]
    fn val_k_sample_cmh17() -> Result<(), EvidenceError> {
        let etw = k_sample(&batches(&ETW)?)?;
        assert!((etw.per_freedom - 0.793).abs() < 5e-4, "{etw:?}");
        assert!(etw.may_be_pooled());
        let etw2 = k_sample(&batches(&ETW2)?)?;
        assert!((etw2.per_freedom - 3.024).abs() < 5e-4, "{etw2:?}");
        assert!(!etw2.may_be_pooled());
        Ok(())
    }

    /// Scholz and Stephens 1987, four laboratories: A²_akN = 8.3926 (read), σ_N = 1.2038.
    #[test]
    fn val_k_sample_scholz_stephens() -> Result<(), EvidenceError> {
        let found = k_sample(&batches(&LABORATORIES)?)?;
        assert!((found.statistic - 8.3926).abs() < 5e-5, "{found:?}");
        assert!((found.sigma - 1.2038).abs() < 5e-5, "{found:?}");
        assert!(!found.may_be_pooled());
        Ok(())
    }

    /// CMH-17-1G 8.3.11.2.2 (read): F = 0.123 for ETW2; 3.850 for CTD, where the exact value is
    /// 3.8520 (the printed one carries the rounding of its program).
    #[test]
    fn val_levene_cmh17() -> Result<(), EvidenceError> {
        let etw2 = levene(&batches(&ETW2)?)?;
        assert!((etw2.statistic - 0.123).abs() < 5e-4, "{etw2:?}");
        assert!(etw2.significance > 0.5);
        let ctd = levene(&batches(&CTD)?)?;
        assert!((ctd.statistic - 3.850).abs() < 0.003, "{ctd:?}");
        assert!((ctd.statistic - 3.852_032_129).abs() < 1e-8, "{ctd:?}");
        Ok(())
    }

    /// CMH-17-1G 8.4.2 as computed by HYTEQ (read): 9.115 to 9.365.
    #[test]
    fn val_unchanged_mean() -> Result<(), EvidenceError> {
        let qualified = Summary { count: 28, mean: 9.24, standard_deviation: 0.162 };
        let (low, high) = unchanged_mean(&qualified, 9, 0.15785, 0.05)?;
        assert!((low - 9.115).abs() < 5e-4 && (high - 9.365).abs() < 5e-4, "{low} {high}");
        Ok(())
    }

    #[test]
    fn unit_refusals() -> Result<(), EvidenceError> {
        let one = batches(&[&[1.0, 2.0, 3.0]])?;
        assert!(k_sample(&one).is_err() && levene(&one).is_err());
        let equal = batches(&[&[2.0, 2.0], &[2.0, 2.0]])?;
        assert!(matches!(k_sample(&equal), Err(EvidenceError::NoScatter { .. })));
        assert!(matches!(levene(&equal), Err(EvidenceError::NoScatter { .. })));
        assert!(matches!(k_sample(&batches(&[&[1.0], &[2.0]])?), Err(EvidenceError::TooFew { .. })));
        let none = Summary { count: 1, mean: 9.24, standard_deviation: 0.162 };
        assert!(unchanged_mean(&none, 9, 0.1, 0.05).is_err());
        Ok(())
    }

    proptest! {
        /// The order of batches and of values in them does not matter.
        #[test]
        fn law_order_does_not_matter(
            a in prop::collection::vec(10.0..20.0_f64, 3..10), b in prop::collection::vec(10.0..20.0_f64, 3..10),
        ) {
            let forward = batches(&[&a, &b])?;
            let (mut ar, mut br) = (a.clone(), b.clone());
            ar.reverse();
            br.reverse();
            let backward = batches(&[&br, &ar])?;
            let (x, y) = (k_sample(&forward)?, k_sample(&backward)?);
            prop_assert!((x.statistic - y.statistic).abs() < 1e-9);
            let (x, y) = (levene(&forward)?, levene(&backward)?);
            prop_assert!((x.statistic - y.statistic).abs() < 1e-9 * (1.0 + x.statistic));
        }

        /// Batches far apart may never be pooled; the same batch twice always may.
        #[test]
        fn law_apart_and_alike(values in prop::collection::vec(10.0..20.0_f64, 6..15)) {
            let shifted: Vec<f64> = values.iter().map(|x| x + 100.0).collect();
            prop_assert!(!k_sample(&batches(&[&values, &shifted])?)?.may_be_pooled());
            prop_assert!(k_sample(&batches(&[&values, &values])?)?.may_be_pooled());
        }
    }
}
