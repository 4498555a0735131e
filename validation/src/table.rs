//! The comparison as a Markdown table.

use std::fmt::Write;

use crate::compare::{Comparison, Within};

const HEAD: &str = "\
| source | case | quantity | ours | theirs | difference | allowed | how known |
|---|---|---|--:|--:|--:|--:|---|
";

/// One row for each quantity of each case, and the reasons of those outside their tolerance.
pub fn markdown(comparisons: &[Comparison]) -> String {
    let mut table = String::from(HEAD);
    let mut reasons = String::new();
    for comparison in comparisons {
        let Row { ours, theirs, difference, allowed } = Row::of(comparison);
        let Comparison { source, case, quantity, known, .. } = comparison;
        let case = match comparison.runs {
            1 => case.clone(),
            runs => format!("{case}: worst of {runs}, {}", comparison.worst.label),
        };
        let outside = if comparison.is_inside() { "" } else { ", **outside**" };
        let quantity = quantity.replace('_', " ");
        // Writing to a String cannot fail.
        let _ = writeln!(
            table,
            "| {source} | {case} | {quantity} | {ours} | {theirs} | {difference}{outside} | {allowed} | {known} |"
        );
        if let Some(reason) = &comparison.outside {
            let _ = writeln!(reasons, "- {source}, {case}, {quantity}: {reason}.");
        }
    }
    if !reasons.is_empty() {
        let _ = write!(table, "\nOutside, and why:\n\n{reasons}");
    }
    table
}

/// The numbers of a row, printed.
struct Row {
    ours: String,
    theirs: String,
    difference: String,
    allowed: String,
}

impl Row {
    fn of(comparison: &Comparison) -> Self {
        let (ours, theirs) = (comparison.worst.ours, comparison.worst.theirs);
        let unit = match comparison.unit {
            "" => String::new(),
            unit => format!(" {unit}"),
        };
        let (difference, allowed, step) = match comparison.within {
            // Two temperatures differ by kelvins.
            Within::Absolute(allowed) if comparison.unit == "°C" => (ours - theirs, allowed, " K"),
            Within::Absolute(allowed) => (ours - theirs, allowed, unit.as_str()),
            Within::Relative(share) => (100.0 * (ours / theirs - 1.0), 100.0 * share, " %"),
        };
        let (coarse, fine) = (decimals(comparison.within.allowed(theirs), 1), decimals(allowed, 2));
        Self {
            ours: plain(ours, coarse) + &unit,
            theirs: plain(theirs, coarse) + &unit,
            difference: signed(difference, fine) + step,
            allowed: small(allowed, fine) + step,
        }
    }
}

/// Decimals that show `more` digits beyond the first one of a tolerance.
fn decimals(allowed: f64, more: usize) -> usize {
    let mut decimals = 0;
    let mut size = allowed;
    // Beyond twelve decimals stands rounding.
    while size > 0.0 && size < 0.999 && decimals < 12 - more {
        size *= 10.0;
        decimals += 1;
    }
    if allowed > 0.0 { decimals + more } else { 0 }
}

fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// With a power of ten where there are many zeros.
fn small(value: f64, decimals: usize) -> String {
    let text = plain(value, decimals);
    if text == "0" || value.abs() >= 1e-4 { text } else { format!("{value:.1e}").replace(".0e", "e") }
}

fn signed(value: f64, decimals: usize) -> String {
    let text = small(value, decimals);
    if text == "0" || text.starts_with('-') { text } else { format!("+{text}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_numbers_show_the_digits_that_matter() {
        assert_eq!((decimals(0.05, 1), decimals(0.002, 2), decimals(15.0, 1)), (3, 5, 1));
        assert_eq!((decimals(0.0, 1), decimals(1e-20, 1)), (0, 12));
        assert_eq!(
            (plain(40.6, 3), plain(1000.0, 0), plain(-0.001, 1)),
            ("40.6".into(), "1000".into(), "0".into())
        );
        assert_eq!((small(1e-8, 10), small(1.25e-5, 7)), ("1e-8".into(), "1.3e-5".into()));
        assert_eq!(
            (signed(0.5, 1), signed(-0.5, 1), signed(0.0, 1)),
            ("+0.5".into(), "-0.5".into(), "0".into())
        );
    }
}
