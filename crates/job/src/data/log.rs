//! Temperature logs: a row for each sample.

use super::Sample;
use super::sheet::{Cell, Column, Sheet};
use crate::problem::{Problem, shown};
use crate::tables::TemperatureUnit;

const IN_SECONDS: &[Column] = &[
    Column { name: "time_s", holds: "the time in seconds", needed: true },
    Column { name: "temperature", holds: "the temperature", needed: true },
];

const AS_WRITTEN: &[Column] = &[
    Column { name: "time", holds: "the time: seconds, or date and time", needed: true },
    Column { name: "temperature", holds: "the temperature", needed: true },
];

/// Temperatures of parts, °C: the same as a constant one may have. Broken sensors show others.
const TEMPERATURE_C: std::ops::RangeInclusive<f64> = -60.0..=250.0;

/// No log of a bond is longer than a year, s.
const LONGEST_S: f64 = 366.0 * 86_400.0;

/// The samples of a log; a row with a problem is left out, and the problem stays.
pub(super) fn read(
    file: &str,
    text: &str,
    unit: Option<TemperatureUnit>,
    problems: &mut Vec<Problem>,
) -> Vec<Sample> {
    let heading = text.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#'));
    let in_seconds = heading.is_some_and(|heading| heading.contains("time_s"));
    let Some(sheet) = Sheet::read(file, text, if in_seconds { IN_SECONDS } else { AS_WRITTEN }, problems)
    else {
        return Vec::new();
    };
    let (celsius, expected): (fn(f64) -> f64, _) = match unit {
        Some(TemperatureUnit::Fahrenheit) => (|f| (f - 32.0) / 1.8, "a temperature from -76 to 482, in °F"),
        Some(TemperatureUnit::Celsius) | None => (|c| c, "a temperature from -60 to 250, in °C"),
    };
    let allowed = |number: f64| TEMPERATURE_C.contains(&celsius(number));
    let mut times =
        Times { sheet: &sheet, name: if in_seconds { "time_s" } else { "time" }, first: None, last_s: None };
    let mut found = Vec::new();
    for row in &sheet.rows {
        let temperature = sheet.number(row, "temperature", allowed, expected, problems);
        let time_s = times.next(row, problems);
        if let (Some(time_s), Some(temperature)) = (time_s, temperature) {
            found.push(Sample { time_s, temperature_c: celsius(temperature) });
        }
    }
    if let ([row], 1) = (sheet.rows.as_slice(), found.len()) {
        let span = row.first().map_or(0..0, |cell| cell.span.clone());
        let expected = "at least two samples: between them the log says how warm it was";
        sheet.refuse(span, "", "the log has a single sample".to_owned(), expected, problems);
    }
    found
}

/// How a time is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Written {
    Seconds,
    DateTime,
    DateTimeWithOffset,
}

impl Written {
    fn words(self) -> &'static str {
        match self {
            Self::Seconds => "seconds",
            Self::DateTime => "a date and time without an offset",
            Self::DateTimeWithOffset => "a date and time with an offset",
        }
    }
}

/// The times of a log, one after the other.
struct Times<'s, 't> {
    sheet: &'s Sheet<'t>,
    name: &'static str,
    first: Option<(Written, f64)>,
    last_s: Option<f64>,
}

impl Times<'_, '_> {
    /// Time since the first sample, s.
    fn next(&mut self, row: &[Cell<'_>], problems: &mut Vec<Problem>) -> Option<f64> {
        let (span, text) = self.cell(row, problems)?;
        let mut refuse = |what: String, expected: &str| {
            self.sheet.refuse(span.clone(), self.name, what, expected, problems);
            None
        };
        let Some((written, moment_s)) = moment(&text) else {
            let expected = if self.name == "time_s" {
                "seconds"
            } else {
                "seconds, or a date and time such as 2031-11-07T08:30:00"
            };
            return refuse(format!("\"{}\" is no time", shown(&text)), expected);
        };
        if self.name == "time_s" && written != Written::Seconds {
            return refuse(
                format!("\"{}\" is a date and time", shown(&text)),
                "seconds, or the column \"time\" for dates and times",
            );
        }
        let (first_written, first_s) = *self.first.get_or_insert((written, moment_s));
        if written != first_written {
            let what = format!("this is {}, the first sample has {}", written.words(), first_written.words());
            return refuse(what, "times that are all written in the same way");
        }
        let time_s = moment_s - first_s;
        if time_s.abs() > LONGEST_S {
            return refuse(
                "this sample lies more than a year from the first".to_owned(),
                "a log of at most a year",
            );
        }
        match self.last_s {
            Some(last_s) if last_s > time_s => refuse(
                "this sample is earlier than the one before".to_owned(),
                "times that rise from row to row",
            ),
            Some(last_s) if last_s >= time_s => {
                refuse("two samples have the same time".to_owned(), "times that rise from row to row")
            }
            _ => {
                self.last_s = Some(time_s);
                Some(time_s)
            }
        }
    }

    fn cell(
        &self,
        row: &[Cell<'_>],
        problems: &mut Vec<Problem>,
    ) -> Option<(std::ops::Range<usize>, String)> {
        if let Some(cell) = self.sheet.column(self.name).and_then(|index| row.get(index)) {
            return Some((cell.span.clone(), cell.text.clone().into_owned()));
        }
        let end = row.last().map_or(0, |cell| cell.span.end);
        let what = "the row ends before this column".to_owned();
        self.sheet.refuse(end..end, self.name, what, "a time", problems);
        None
    }
}

/// A moment in seconds from an arbitrary zero, by how it is written.
fn moment(text: &str) -> Option<(Written, f64)> {
    if let Ok(seconds) = text.parse::<f64>() {
        return seconds.is_finite().then_some((Written::Seconds, seconds));
    }
    if let Ok(timestamp) = text.parse::<jiff::Timestamp>() {
        return Some((Written::DateTimeWithOffset, timestamp.as_duration().as_secs_f64()));
    }
    let local: jiff::civil::DateTime = text.parse().ok()?;
    let since = local.duration_since(jiff::civil::date(2000, 1, 1).at(0, 0, 0, 0));
    Some((Written::DateTime, since.as_secs_f64()))
}
