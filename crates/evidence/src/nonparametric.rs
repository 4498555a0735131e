//! Lower bounds that trust no distribution.

use crate::EvidenceError;
use crate::beta;
use crate::coupons::Level;
use crate::error::{finite, probability};
use crate::quadrature::trapezoid;
use crate::root::rising_root;
use crate::sample::{Sample, count};

/// Most values taken: the count must be a whole number in every use.
const MOST_VALUES: usize = 1_000_000;

/// The rank, counted from the least value, that is a lower bound by itself; `None` where even the
/// least value is not.
///
/// ```text
/// r = greatest r with P(Bin(n, 1 − p) ≤ r − 1) ≤ 1 − γ
/// n  values   p  share of the population above the bound   γ  confidence
/// ```
///
/// The least n is 29 for 90/95 and 299 for 99/95. Valid for any continuous population. Source:
/// MIL-HDBK-17-1F tables 8.5.12 and 8.5.13 (read); order statistics (formula).
///
/// # Errors
///
/// A level outside 0 to 1, more than a million values.
pub fn rank(values: usize, level: Level) -> Result<Option<usize>, EvidenceError> {
    probability("proportion", level.proportion)?;
    probability("confidence", level.confidence)?;
    let what = "a rank";
    let n = match u32::try_from(values) {
        Ok(n) if values <= MOST_VALUES => n,
        _ => return Err(EvidenceError::TooMany { what, most: MOST_VALUES, found: values }),
    };
    // The chance rises with r: bisect between 0, which always holds, and n.
    let (mut low, mut high) = (0_u32, n);
    while low < high {
        let middle = low + (high - low).div_ceil(2);
        let chance = beta::binomial_cdf(middle - 1, n, 1.0 - level.proportion)?;
        if chance <= 1.0 - level.confidence {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    Ok((low > 0).then_some(low as usize))
}

/// The order of the value that the Hanson-Koopmans bound is drawn from, for 2 to 28 values and
/// 90/95 (MIL-HDBK-17-1F table 8.5.14, after Vangel 1994; read). Any order gives a bound; these
/// give the best one on average.
const ORDERS: [usize; 27] =
    [2, 3, 4, 4, 5, 5, 6, 6, 6, 7, 7, 7, 8, 8, 8, 8, 9, 9, 10, 10, 10, 11, 11, 11, 11, 11, 12];

/// The order and factor of the Hanson-Koopmans bound for a short sample.
///
/// ```text
/// bound = x_r (x_1/x_r)^k          P( U_r (U_1/U_r)^k ≤ 1 − p ) = γ
/// U_1, U_r  least and r-th least of n uniform values
/// 1 − γ = ∫ b(u) (1 − ((1−p)/u)^(1/k))^(r−1) du,  u from 1 − p to 1,  b(u) density of U_r
/// ```
///
/// The uniform case is the worst of all populations whose distribution function has a concave
/// logarithm, as normal, lognormal and Weibull have over the range that matters. Source: Hanson
/// and Koopmans 1964, Annals of Mathematical Statistics 35, 1561-1570; Vangel 1994; tables
/// MIL-HDBK-17-1F 8.5.14 and 8.5.15 (read); the integral derived, it reproduces both tables.
fn hanson_koopmans(values: usize, level: Level) -> Result<(usize, f64), EvidenceError> {
    let what = "a Hanson-Koopmans bound";
    if values < 2 {
        return Err(EvidenceError::TooFew { what, needed: 2, found: values });
    }
    // Above 90 % the greatest value serves best (the 99/95 table has no other).
    let order =
        if level.proportion <= 0.9 { ORDERS.get(values - 2).copied().unwrap_or(values) } else { values };
    Ok((order, factor(values, order, level)?))
}

/// The factor k for a given order.
fn factor(values: usize, order: usize, level: Level) -> Result<f64, EvidenceError> {
    let (n, r) = (count(values), count(order));
    let below = 1.0 - probability("proportion", level.proportion)?;
    probability("confidence", level.confidence)?;
    let log_scale = libm::lgamma(n + 1.0) - libm::lgamma(r) - libm::lgamma(n - r + 1.0);
    let missed = |k: f64| {
        // u between 1 − p and 1 by a logistic map: smooth, and dead at both ends.
        trapezoid("Hanson-Koopmans factor", -42.0, 42.0, 1e-12, |x| {
            let share = 1.0 / (1.0 + libm::exp(-x));
            let rest = 1.0 / (1.0 + libm::exp(x));
            let u = below + (1.0 - below) * share;
            let density =
                libm::exp(log_scale + (r - 1.0) * libm::log(u) + (n - r) * libm::log((1.0 - below) * rest));
            let above = libm::pow(-libm::expm1(libm::log(below / u) / k), r - 1.0);
            density * above * (1.0 - below) * share * rest
        })
    };
    // In the logarithm of k, which must be positive; more k, fewer misses.
    let log_k = rising_root("Hanson-Koopmans factor", -0.5, 1.0, |log_k| {
        Ok(1.0 - level.confidence - missed(libm::exp(log_k))?)
    })?;
    finite("Hanson-Koopmans factor", libm::exp(log_k))
}

/// The bound that a share of any population exceeds, with confidence: by rank where the sample is
/// large enough, else after Hanson and Koopmans.
///
/// # Errors
///
/// Fewer than two values, a level outside 0 to 1; where no rank serves, values that are not
/// positive.
pub fn lower_bound(sample: &Sample, level: Level) -> Result<f64, EvidenceError> {
    let what = "a nonparametric bound";
    let sorted = sample.sorted();
    let at = |rank: usize| {
        sorted.get(rank - 1).copied().ok_or(EvidenceError::TooFew { what, needed: rank, found: sorted.len() })
    };
    if let Some(rank) = rank(sample.size(), level)? {
        return at(rank);
    }
    let (order, k) = hanson_koopmans(sample.size(), level)?;
    sample.logarithms(what)?;
    let (least, reference) = (at(1)?, at(order)?);
    finite(what, reference * libm::pow(least / reference, k))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::published::{ETW, STAT18};
    use proptest::prelude::*;

    /// MIL-HDBK-17-1F tables 8.5.12 and 8.5.13 (read; 29 and 299 also from memory): each n is the
    /// least for its rank.
    #[test]
    fn val_ranks() -> Result<(), EvidenceError> {
        let b = [
            (29, 1),
            (46, 2),
            (61, 3),
            (76, 4),
            (89, 5),
            (103, 6),
            (116, 7),
            (129, 8),
            (142, 9),
            (154, 10),
            (167, 11),
            (179, 12),
            (191, 13),
            (203, 14),
        ];
        let a = [(299, 1), (473, 2), (628, 3), (773, 4), (913, 5)];
        for (level, table) in [(Level::B, &b[..]), (Level::A, &a[..])] {
            for &(n, r) in table {
                assert_eq!(rank(n, level)?, Some(r), "{n}");
                let fewer = rank(n - 1, level)?.unwrap_or(0);
                assert_eq!(fewer, r - 1, "{n}");
            }
        }
        Ok(())
    }

    /// MIL-HDBK-17-1F table 8.5.14 (read): 90/95, printed to three decimals.
    #[test]
    fn val_factors_b() -> Result<(), EvidenceError> {
        let printed = [
            35.177, 7.859, 4.505, 4.101, 3.064, 2.858, 2.382, 2.253, 2.137, 1.897, 1.814, 1.738, 1.599,
            1.540, 1.485, 1.434, 1.354, 1.311, 1.253, 1.218, 1.184, 1.143, 1.114, 1.087, 1.060, 1.035, 1.010,
        ];
        for (n, printed) in (2..).zip(printed) {
            let (_, k) = hanson_koopmans(n, Level::B)?;
            // Half a unit of the last digit; the printed table rounds some entries the other way.
            assert!((k - printed).abs() < 0.001, "{n}: {k} {printed}");
        }
        Ok(())
    }

    /// MIL-HDBK-17-1F table 8.5.15 (read): 99/95, order n, printed to six digits.
    #[test]
    fn val_factors_a() -> Result<(), EvidenceError> {
        for (n, printed) in [
            (2, 80.0038),
            (4, 9.49579),
            (6, 5.57681),
            (8, 4.25011),
            (10, 3.57267),
            (18, 2.4966),
            (30, 1.96975),
            (50, 1.62313),
            (100, 1.30806),
            (200, 1.09434),
            (275, 1.01773),
        ] {
            let (order, k) = hanson_koopmans(n, Level::A)?;
            assert_eq!(order, n);
            assert!((k - printed).abs() < 1e-4, "{n}: {k} {printed}");
        }
        Ok(())
    }

    /// Vangel 1994 (read): least and middle value, 90/95, printed to eight digits.
    #[test]
    fn val_factors_middle() -> Result<(), EvidenceError> {
        for (n, printed) in [(3, 28.820_048), (9, 2.516_876_2), (15, 1.540_398_9), (27, 1.030_304_6)] {
            let k = factor(n, n.div_ceil(2), Level::B)?;
            assert!((k / printed - 1.0).abs() < 1e-7, "{n}: {k} {printed}");
        }
        Ok(())
    }

    /// STAT-17 on the 18-value set: 124.156 and 99.651; CMH-17-1G 8.3.11.1.1, ETW: 37.9 and 13.0
    /// (read).
    #[test]
    fn val_bounds() -> Result<(), EvidenceError> {
        let stat = Sample::new(STAT18.to_vec())?;
        // The programs use the printed factors: half a unit of their last place moves the 90/95
        // bound by ln(x₁/x₉) · 0.0005 = 0.006, the 99/95 bound by far less.
        assert!((lower_bound(&stat, Level::B)? - 124.156).abs() < 0.007);
        assert!((lower_bound(&stat, Level::A)? - 99.651).abs() < 0.001);
        let etw = Sample::new(ETW.concat())?;
        assert!((lower_bound(&etw, Level::B)? - 37.9).abs() < 0.05);
        assert!((lower_bound(&etw, Level::A)? - 13.0).abs() < 0.05);
        Ok(())
    }

    #[test]
    fn unit_refusals() -> Result<(), EvidenceError> {
        assert!(lower_bound(&Sample::new(vec![3.0])?, Level::B).is_err());
        assert!(lower_bound(&Sample::new(vec![3.0, -1.0])?, Level::B).is_err());
        assert!(rank(10, Level { proportion: 1.0, confidence: 0.95 }).is_err());
        assert!(rank(2_000_000, Level::B).is_err());
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        /// The bound lies at or below the least value unless a higher rank is allowed, and lowering
        /// a value never raises it.
        #[test]
        fn law_lower_values_never_raise(
            values in prop::collection::vec(10.0..30.0_f64, 2..60), index in 0..60_usize, drop in 0.0..5.0_f64,
        ) {
            let before = lower_bound(&Sample::new(values.clone())?, Level::B)?;
            if values.len() < 29 {
                let least = values.iter().copied().fold(f64::INFINITY, f64::min);
                prop_assert!(before <= least);
            }
            // Below 29 values k > 1: raising the reference lowers the bound, so only the least
            // value is lowered there.
            let mut lowered = values.clone();
            let at = if values.len() < 29 {
                (0..values.len()).min_by(|a, b| values[*a].total_cmp(&values[*b])).unwrap_or(0)
            } else {
                index % values.len()
            };
            lowered[at] -= drop;
            prop_assert!(lower_bound(&Sample::new(lowered)?, Level::B)? <= before + 1e-12);
        }
    }
}
