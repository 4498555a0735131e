//! Logs of loads: a row for each reading.

use super::sheet::{Column, Sheet};
use crate::problem::Problem;

const COLUMNS: &[Column] = &[
    Column { name: "time_s", holds: "the time in seconds", needed: false },
    Column { name: "share", holds: "the load as a share of the case's load", needed: true },
];

/// More than ten times its load is no case that anybody wrote down.
const SHARE: std::ops::RangeInclusive<f64> = -10.0..=10.0;

/// The shares in the order of the file; a row with a problem is left out, and the problem stays.
pub(super) fn read(file: &str, text: &str, problems: &mut Vec<Problem>) -> Vec<f64> {
    let Some(sheet) = Sheet::read(file, text, COLUMNS, problems) else { return Vec::new() };
    let before = problems.len();
    let mut shares = Vec::with_capacity(sheet.rows.len());
    let mut last_s: Option<f64> = None;
    for row in &sheet.rows {
        if sheet.column("time_s").is_some()
            && let Some(time_s) = sheet.number(row, "time_s", |_| true, "seconds", problems)
        {
            if last_s.is_some_and(|last_s| last_s >= time_s) {
                let span = sheet.cell(row, "time_s").map_or(0..0, |cell| cell.span.clone());
                let expected = "times that rise from row to row: cycles are counted in their order";
                sheet.refuse(
                    span,
                    "time_s",
                    "this reading is not later than the one before".to_owned(),
                    expected,
                    problems,
                );
            }
            last_s = Some(time_s);
        }
        let expected = "a share of the case's load from -10 to 10";
        shares.extend(sheet.number(row, "share", |share| SHARE.contains(&share), expected, problems));
    }
    let moves = |shares: &[f64]| shares.windows(2).any(|pair| matches!(pair, [a, b] if (a - b).abs() > 0.0));
    if let (Some(first), true) = (sheet.rows.first().and_then(|row| row.first()), problems.len() == before)
        && !moves(&shares)
    {
        let expected = "at least two loads that differ";
        sheet.refuse(
            first.span.clone(),
            "share",
            "the load of this log does not change".to_owned(),
            expected,
            problems,
        );
    }
    shares
}
