//! Rainflow counting.

use crate::failure::{self, Failure};

/// Cycles of one range and one mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cycle {
    /// From the least to the greatest value, never negative.
    pub range: f64,
    /// Half way between the two.
    pub mean: f64,
    /// How many there are; a half cycle counts 0.5.
    pub count: f64,
}

impl Cycle {
    fn between(from: f64, to: f64, count: f64) -> Self {
        Self { range: (to - from).abs(), mean: 0.5 * from + 0.5 * to, count }
    }
}

/// The cycles in a history of loads, in the order in which they are counted.
///
/// ```text
/// X the range under consideration, Y the one before it, S the start:
/// X < Y                    read on
/// X ≥ Y, Y contains S      count Y as half a cycle, discard its first point, S moves to the second
/// X ≥ Y, otherwise         count Y as one cycle, discard both its points
/// at the end               count every range that is left as half a cycle
/// ```
///
/// Any unit; the counts have none. Values between a peak and a valley do not matter, nor does a value written twice.
/// Valid for any history; fewer than two different values have no cycle.
///
/// Source: ASTM E1049-85 (2017), 5.4.4, rainflow counting (memory).
///
/// # Errors
///
/// A [`Failure`] where a value is not finite, or where a range leaves the numbers.
pub fn rainflow(history: &[f64]) -> Result<Vec<Cycle>, Failure> {
    let mut cycles = Vec::new();
    let mut left: Vec<f64> = Vec::new();
    for point in reversals(history)? {
        left.push(point);
        while let [.., first, second, third] = left[..] {
            if (third - second).abs() < (second - first).abs() {
                break;
            }
            if left.len() == 3 {
                cycles.push(Cycle::between(first, second, 0.5));
                left.remove(0);
            } else {
                cycles.push(Cycle::between(first, second, 1.0));
                left.truncate(left.len() - 3);
                left.push(third);
            }
        }
    }
    cycles.extend(left.windows(2).filter_map(|pair| match pair {
        [from, to] => Some(Cycle::between(*from, *to, 0.5)),
        _ => None,
    }));
    for cycle in &cycles {
        failure::number("range of a cycle", cycle.range)?;
    }
    Ok(cycles)
}

/// The cycles in a history that is repeated again and again, for one passage.
///
/// The history is begun at its greatest value and closed with it, so that its widest range counts as a whole cycle:
/// where it is repeated, the half at its end and the half at its beginning belong together. From the last value the
/// load goes on to the first.
///
/// Source: ASTM E1049-85 (2017), 5.4.5, simplified rainflow counting for repeating histories (memory).
///
/// # Errors
///
/// A [`Failure`] where a value is not finite, or where a range leaves the numbers.
pub fn rainflow_repeating(history: &[f64]) -> Result<Vec<Cycle>, Failure> {
    let greatest = history.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1)).map_or(0, |(index, _)| index);
    let (before, from) = history.split_at(greatest);
    let turned: Vec<f64> = from.iter().chain(before).chain(from.first()).copied().collect();
    rainflow(&turned)
}

/// The peaks and valleys of a history with its first and its last value.
fn reversals(history: &[f64]) -> Result<Vec<f64>, Failure> {
    let mut found: Vec<f64> = Vec::new();
    for value in history {
        let value = failure::finite("value of the history", *value)?;
        match found[..] {
            [.., last] if value - last == 0.0 => {}
            [.., before, last] if (last > before) == (value > last) => {
                let end = found.len() - 1;
                found[end] = value;
            }
            _ => found.push(value),
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// "Rainflow against the standard's example": ASTM E1049-85, figure 6 and its table (memory).
    #[test]
    fn val_example_of_the_standard() {
        let cycles = rainflow(&[-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0]).expect("a count");
        let counted = |range: f64| -> f64 {
            cycles.iter().filter(|it| it.range.to_bits() == range.to_bits()).map(|it| it.count).sum()
        };
        let expected = [(3.0, 0.5), (4.0, 1.5), (6.0, 0.5), (8.0, 1.0), (9.0, 0.5)];
        for (range, count) in expected {
            // Halves and wholes are exact.
            assert_eq!(counted(range).to_bits(), f64::to_bits(count), "range {range}");
        }
        assert_eq!(cycles.iter().map(|it| it.count).sum::<f64>().to_bits(), 4.0_f64.to_bits());
        // The one whole cycle is that from E to F, of mean 1.
        let whole: Vec<_> = cycles.iter().filter(|it| it.count > 0.75).collect();
        assert_eq!(whole, [&Cycle { range: 4.0, mean: 1.0, count: 1.0 }]);
    }

    #[test]
    fn unit_nothing_that_moves_is_no_cycle_and_what_is_no_number_is_refused() {
        assert_eq!(rainflow(&[]), Ok(vec![]));
        assert_eq!(rainflow(&[2.0, 2.0, 2.0]), Ok(vec![]));
        assert!(matches!(rainflow(&[0.0, f64::NAN]), Err(Failure::NotFinite { .. })));
        assert!(matches!(rainflow(&[-1e308, 1e308]), Err(Failure::NoNumber { .. })));
    }

    #[test]
    fn unit_repeated_load_is_counted_as_often_as_it_comes() {
        // From nothing to 1 and back, ten times: ten cycles, of which the ends make halves.
        let history: Vec<f64> = (0..21).map(|index| f64::from(index % 2)).collect();
        let cycles = rainflow(&history).expect("a count");
        assert_eq!(cycles.iter().map(|it| it.count).sum::<f64>().to_bits(), 10.0_f64.to_bits());
        assert!(cycles.iter().all(|it| it.range.to_bits() == 1.0_f64.to_bits()));
    }

    /// ASTM E1049-85, 5.4.5 with figure 7 (memory): the standard's history begun at its greatest peak, D.
    #[test]
    fn val_repeating_example_of_the_standard() {
        let mut cycles =
            rainflow_repeating(&[-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0]).expect("a count");
        cycles.sort_by(|a, b| a.range.total_cmp(&b.range));
        let mut whole: Vec<(f64, f64)> = Vec::new();
        for cycle in &cycles {
            match whole.last_mut() {
                Some(last) if last.0.to_bits() == cycle.range.to_bits() => last.1 += cycle.count,
                _ => whole.push((cycle.range, cycle.count)),
            }
        }
        assert_eq!(whole, [(3.0, 1.0), (4.0, 1.0), (7.0, 1.0), (9.0, 1.0)]);
    }

    /// Whole numbers: their sums and differences are exact, so that the laws hold to the last bit.
    fn histories() -> impl Strategy<Value = Vec<f64>> {
        proptest::collection::vec((-1000_i32..1000).prop_map(f64::from), 0..60)
    }

    proptest! {
        #[test]
        fn law_a_constant_changes_only_the_means(history in histories(), by in -1000_i32..1000) {
            let by = f64::from(by);
            let moved: Vec<f64> = history.iter().map(|value| value + by).collect();
            let (before, after) = (rainflow(&history).unwrap(), rainflow(&moved).unwrap());
            prop_assert_eq!(before.len(), after.len());
            for (before, after) in before.iter().zip(&after) {
                prop_assert_eq!(Cycle { mean: before.mean + by, ..*before }, *after);
            }
        }

        #[test]
        fn law_ranges_scale_with_the_load(history in histories(), by in -8_i32..8) {
            let by = f64::from(by);
            prop_assume!(by != 0.0);
            let scaled: Vec<f64> = history.iter().map(|value| value * by).collect();
            let (before, after) = (rainflow(&history).unwrap(), rainflow(&scaled).unwrap());
            prop_assert_eq!(before.len(), after.len());
            for (before, after) in before.iter().zip(&after) {
                prop_assert_eq!((before.range * by.abs(), before.count), (after.range, after.count));
            }
        }

        /// Each count is a way there and back: twice the ranges make the whole way that the load went.
        #[test]
        fn law_the_whole_way_is_counted(history in histories()) {
            let way: f64 = history.windows(2).map(|pair| (pair[1] - pair[0]).abs()).sum();
            let counted: f64 = rainflow(&history).unwrap().iter().map(|it| 2.0 * it.count * it.range).sum();
            // The sum of nothing is the negative zero.
            prop_assert_eq!((0.0 + way).to_bits(), (0.0 + counted).to_bits());
        }

        /// Wherever a log of something that repeats happens to begin, the same is counted.
        #[test]
        fn law_a_repeating_history_may_begin_anywhere(history in histories(), at in 0_usize..60) {
            prop_assume!(!history.is_empty());
            let mut turned = history.clone();
            turned.rotate_left(at % history.len());
            let sums = |history: &[f64]| -> (f64, f64) {
                let cycles = rainflow_repeating(history).unwrap();
                // The sum of squares tells more of the ranges than their count; of whole numbers both are exact.
                cycles.iter().fold((0.0, 0.0), |(n, s), it| (n + it.count, s + it.count * it.range * it.range))
            };
            prop_assert_eq!(sums(&history), sums(&turned));
        }

        #[test]
        fn law_the_greatest_range_is_that_of_the_history(history in histories()) {
            prop_assume!(history.len() > 1);
            let (low, high) = history
                .iter()
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| (low.min(*it), high.max(*it)));
            let greatest = rainflow(&history).unwrap().iter().map(|it| it.range).fold(0.0, f64::max);
            prop_assert_eq!(greatest.to_bits(), (high - low).to_bits());
        }
    }
}
