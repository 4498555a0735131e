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
        let spaced = |unit: &str| if unit.is_empty() { String::new() } else { format!(" {unit}") };
        let unit = spaced(comparison.unit);
        // Two temperatures differ by kelvins.
        let step = if comparison.unit == "°C" { " K".to_owned() } else { unit.clone() };
        // As many decimals as show a tenth of what is allowed.
        let decimals = decimals(comparison.within.allowed(theirs), 1);
        let (difference, allowed) = match comparison.within {
            Within::Absolute(allowed) => (
                signed(ours - theirs, self::decimals(allowed, 2)) + &step,
                small(allowed, self::decimals(allowed, 2)) + &step,
            ),
            Within::Relative(share) => {
                let percent = 100.0 * share;
                let digits = self::decimals(percent, 2);
                (signed(100.0 * (ours / theirs - 1.0), digits) + " %", plain(percent, digits) + " %")
            }
        };
        Self {
            ours: plain(ours, decimals) + &unit,
            theirs: plain(theirs, decimals) + &unit,
            difference,
            allowed,
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
