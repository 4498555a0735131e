//! The unit that was probably meant.

use crate::kind::Kind;
use crate::symbol;
use crate::unit::is_letter;

/// The spelling nearest to an unknown word, if one is near enough to be offered: among the units
/// of the kind asked for and the parts that they are put together from, or the same but for case
/// among all.
pub(crate) fn unit(written: &str, kind: Kind) -> Option<&'static str> {
    let single = symbol::of_kind(kind).flat_map(|symbol| symbol.spellings).copied();
    let parts = kind.facts().composed.iter().flat_map(|unit| unit.split(|c| !is_letter(c)));
    spelling(written, single.chain(parts)).or_else(|| symbol::find_in_any_case(written))
}

/// The spelling nearest to `written`: the same but for case, or a slip or two away.
fn spelling<'a>(written: &str, spellings: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let lower = written.to_lowercase();
    spellings
        .filter(|candidate| !candidate.is_empty())
        .filter_map(|candidate| {
            let slips = distance(&lower, &candidate.to_lowercase());
            let shorter = candidate.chars().count().min(written.chars().count());
            let near = match shorter {
                0 | 1 => slips == 0,
                2..=4 => slips <= 1,
                _ => slips <= 2,
            };
            let start_differs = lower.chars().next() != candidate.to_lowercase().chars().next();
            near.then_some((slips, start_differs, candidate))
        })
        .min_by_key(|&(slips, start_differs, _)| (slips, start_differs))
        .map(|(_, _, candidate)| candidate)
}

/// The number of insertions, deletions, replacements and swaps of neighbours between two words
/// (the optimal string alignment distance).
fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    let mut previous = None;
    for (row, c) in a.chars().enumerate() {
        let mut next = vec![row + 1];
        for (column, &d) in b.iter().enumerate() {
            let at = |line: &[usize], index: usize| line.get(index).copied().unwrap_or(usize::MAX - 1);
            let replaced = at(&last, column) + usize::from(c != d);
            let mut least = replaced.min(at(&last, column + 1) + 1).min(at(&next, column) + 1);
            let swapped = column > 0 && previous == Some(d) && b.get(column - 1) == Some(&c);
            if swapped {
                least = least.min(at(&before, column - 1) + 1);
            }
            next.push(least);
        }
        before = std::mem::replace(&mut last, next);
        previous = Some(c);
    }
    last.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_distance_counts_slips() {
        let cases = [
            ("", "", 0),
            ("mm", "mm", 0),
            ("mm", "m", 1),
            ("mpa", "map", 1),
            ("ksi", "psi", 1),
            ("abc", "xyz", 3),
            ("", "abc", 3),
        ];
        for (a, b, slips) in cases {
            assert_eq!(distance(a, b), slips, "{a} {b}");
            assert_eq!(distance(b, a), slips, "{b} {a}");
        }
    }
}
