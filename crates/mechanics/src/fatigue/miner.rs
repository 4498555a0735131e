//! The sum of damage.

use super::basquin::Line;
use super::goodman;
use super::rainflow::Cycle;
use crate::failure::{self, Failure};

/// The static strength and the stress ratio by which means are taken into account.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mean {
    /// Static strength, in the unit of the line's range.
    pub strength: f64,
    /// Least over greatest load in the tests of the line.
    pub ratio: f64,
}

/// The sum of the damage of cycles: each takes its share of the life under its own range.
///
/// ```text
/// D = Σ n_i/N_i
/// n_i  cycles of a range   N_i  life under that range alone
/// ```
///
/// Failure is expected at D = 1; tests of mixed loads scatter around it. The order of the loads does not enter.
///
/// Source: Palmgren 1924; Miner, "Cumulative damage in fatigue", J. Appl. Mech. 12, 1945 (memory).
///
/// # Errors
///
/// A [`Failure`] of the line, of a mean, or where a count is negative.
pub fn damage(cycles: &[Cycle], line: &Line, mean: &Mean) -> Result<f64, Failure> {
    line.check()?;
    let mut sum = 0.0;
    for cycle in cycles {
        let count = failure::not_negative("count of cycles", cycle.count)?;
        let range = goodman::at_ratio(cycle, mean.strength, mean.ratio)?;
        sum += count * line.damage(range)?;
    }
    failure::number("sum of damage", sum)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const LINE: Line = Line { range: 8.0, at_cycles: 1e6, slope: 5.0, cut_off: None };
    const MEAN: Mean = Mean { strength: 100.0, ratio: 0.0 };

    fn pulsating(range: f64, count: f64) -> Cycle {
        Cycle { range, mean: 0.5 * range, count }
    }

    #[test]
    fn unit_two_blocks_take_their_shares() {
        // By hand: half of the million cycles at 8, and a quarter of those at 16, which are 1e6/2⁵.
        let cycles = [pulsating(8.0, 5e5), pulsating(16.0, 0.25e6 / 32.0)];
        assert!((damage(&cycles, &LINE, &MEAN).expect("a sum") - 0.75).abs() < 1e-12);
        assert_eq!(damage(&[], &LINE, &MEAN), Ok(0.0));
        assert!(matches!(damage(&[pulsating(8.0, -1.0)], &LINE, &MEAN), Err(Failure::Negative { .. })));
    }

    proptest! {
        #[test]
        fn law_damage_is_linear_in_the_counts_and_deaf_to_their_order(
            ranges in proptest::collection::vec((0.5_f64..40.0, 1.0_f64..1e6), 1..10), times in 1.0_f64..100.0,
        ) {
            let cycles: Vec<Cycle> = ranges.iter().map(|(range, count)| pulsating(*range, *count)).collect();
            let once = damage(&cycles, &LINE, &MEAN).unwrap();
            let more: Vec<Cycle> = cycles.iter().rev().map(|it| Cycle { count: it.count * times, ..*it }).collect();
            // Sums of at most ten positive numbers.
            prop_assert!((damage(&more, &LINE, &MEAN).unwrap() / (once * times) - 1.0).abs() < 1e-13);
        }
    }
}
