//! Temperature logs: a row for each sample.

use std::ops::Range;

use super::sheet::{Cell, Column, Sheet, lines};
use super::{Sample, TemperatureLog};
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

/// An hour, by which clocks are put forward and back, s.
const HOUR_S: f64 = 3600.0;

/// Before this time of the day clocks are put forward and back, s after midnight; common practice, no source.
const NIGHT_ENDS_S: f64 = 4.0 * HOUR_S;

const DAY_S: f64 = 24.0 * HOUR_S;

/// What tells the hour that a local clock shows twice from the other, and the one that it leaves out from a gap.
const WITH_OFFSETS: (&str, &str) = (
    "times that rise from row to row, with their offset where a clock may have been put forward or back",
    "write the offset behind each time, such as 2031-10-26T02:30:00+01:00, or seconds in a column time_s",
);

/// The log; a row with a problem is left out, and the problem stays.
pub(super) fn read(
    file: &str,
    text: &str,
    unit: Option<TemperatureUnit>,
    problems: &mut Vec<Problem>,
) -> TemperatureLog {
    let in_seconds = lines(text).next().is_some_and(|(_, heading)| heading.contains("time_s"));
    let mut log = TemperatureLog { samples: Vec::new(), local_times: false };
    let Some(sheet) = Sheet::read(file, text, if in_seconds { IN_SECONDS } else { AS_WRITTEN }, problems)
    else {
        return log;
    };
    let (celsius, expected): (fn(f64) -> f64, _) = match unit {
        Some(TemperatureUnit::Fahrenheit) => (|f| (f - 32.0) / 1.8, "a temperature from -76 to 482, in °F"),
        Some(TemperatureUnit::Celsius) | None => (|c| c, "a temperature from -60 to 250, in °C"),
    };
    let allowed = |number: f64| TEMPERATURE_C.contains(&celsius(number));
    let name = if in_seconds { "time_s" } else { "time" };
    let mut times = Times { sheet: &sheet, name, first: None, last: None };
    let mut spans = Vec::new();
    let before = problems.len();
    for row in &sheet.rows {
        let temperature_c = sheet.number(row, "temperature", allowed, expected, problems).map(celsius);
        let time = times.next(row, temperature_c, problems);
        if let (Some((span, time_s)), Some(temperature_c)) = (time, temperature_c) {
            log.samples.push(Sample { time_s, temperature_c });
            spans.push(span);
        }
    }
    if let Some((Written::DateTime, first_s)) = times.first {
        log.local_times = true;
        for index in clock_changes(&log.samples, first_s) {
            let span = spans.get(index).cloned().unwrap_or_default();
            let what = "from the sample before to this one the clock seems to have been put forward or back: the step \
                        is an hour off the others";
            sheet.refuse_with_mend(span, name, what.to_owned(), WITH_OFFSETS, problems);
        }
    }
    if let ([row, ..], 1) = (sheet.rows.as_slice(), log.samples.len())
        && problems.len() == before
    {
        let span = row.first().map_or(0..0, |cell| cell.span.clone());
        let expected = "at least two samples: between them the log says how warm it was";
        sheet.refuse(span, "", "the log has a single sample".to_owned(), expected, problems);
    }
    log
}

/// The samples of a local clock before which it seems to have been put forward or back: those whose step from the
/// one before differs from the usual step by an hour, in the night.
///
/// A logger that stood still for an hour looks the same and is refused, too: which of the two it was, only the
/// offsets say. Of a log without a usual step nothing is found.
fn clock_changes(samples: &[Sample], first_s: f64) -> Vec<usize> {
    let steps: Vec<f64> = samples
        .windows(2)
        .filter_map(|pair| match pair {
            [before, after] => Some(after.time_s - before.time_s),
            _ => None,
        })
        .collect();
    let mut sorted = steps.clone();
    sorted.sort_by(f64::total_cmp);
    let Some(&usual_s) = sorted.get(sorted.len() / 2) else { return Vec::new() };
    // Loggers keep their step to about a second, and slow ones to a few in a hundred.
    let same = |a: f64, b: f64| (a - b).abs() <= (0.02 * usual_s).clamp(1.5, HOUR_S / 10.0);
    let mut found = Vec::new();
    for (index, (&step_s, before)) in steps.iter().zip(samples).enumerate() {
        let of_day_s = (first_s + before.time_s).rem_euclid(DAY_S);
        let at_night = of_day_s < NIGHT_ENDS_S || of_day_s + step_s >= DAY_S;
        if at_night && !same(step_s, usual_s) && same((step_s - usual_s).abs(), HOUR_S) {
            found.push(index + 1);
        }
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
    /// Time since the first sample, s, and temperature, °C, where that could be read.
    last: Option<(f64, Option<f64>)>,
}

impl Times<'_, '_> {
    /// Time since the first sample, s, and where it stands; nothing for the same reading twice.
    fn next(
        &mut self,
        row: &[Cell<'_>],
        temperature_c: Option<f64>,
        problems: &mut Vec<Problem>,
    ) -> Option<(Range<usize>, f64)> {
        let (span, text) = self.cell(row, problems)?;
        let (written, moment_s) = self.moment(&span, &text, problems)?;
        let (_, first_s) = *self.first.get_or_insert((written, moment_s));
        let time_s = moment_s - first_s;
        let mut refuse = |what: &str, expected_and_mend: (&str, &str)| {
            self.sheet.refuse_with_mend(
                span.clone(),
                self.name,
                what.to_owned(),
                expected_and_mend,
                problems,
            );
            None
        };
        if time_s.abs() > LONGEST_S {
            let what = "this sample lies more than a year from the first";
            return refuse(what, ("a log of at most a year", "leave out what does not belong to this job"));
        }
        let local = written == Written::DateTime;
        if let Some((last_s, last_c)) = self.last
            && last_s >= time_s
        {
            let rising = ("times that rise from row to row", "put the rows in the order of time");
            return if last_s > time_s {
                let back = local && last_s - time_s <= HOUR_S;
                refuse("this sample is earlier than the one before", if back { WITH_OFFSETS } else { rising })
            } else if local {
                // The same reading an hour later, when the clock shows the same hour again, looks like this.
                refuse("two samples have the same time", WITH_OFFSETS)
            } else if last_c.zip(temperature_c).is_some_and(|(last, this)| last.to_bits() != this.to_bits()) {
                let one = ("one temperature for each time", "leave out the row that is wrong");
                refuse("two samples have the same time and different temperatures", one)
            } else {
                // A reading written twice says nothing new, and nothing wrong.
                None
            };
        }
        self.last = Some((time_s, temperature_c));
        Some((span, time_s))
    }

    /// The moment that a cell holds, s from an arbitrary zero; refused where it is none or is written in another
    /// way than the first.
    fn moment(&self, span: &Range<usize>, text: &str, problems: &mut Vec<Problem>) -> Option<(Written, f64)> {
        let mut refuse = |what: String, expected: &str| {
            self.sheet.refuse(span.clone(), self.name, what, expected, problems);
            None
        };
        let Some((written, moment_s)) = moment(text) else {
            let expected = if self.name == "time_s" {
                "seconds"
            } else {
                "seconds, or a date and time such as 2031-11-07T08:30:00"
            };
            return refuse(format!("\"{}\" is no time", shown(text)), expected);
        };
        if self.name == "time_s" && written != Written::Seconds {
            return refuse(
                format!("\"{}\" is a date and time", shown(text)),
                "seconds, or the column \"time\" for dates and times",
            );
        }
        match self.first {
            Some((first, _)) if first != written => {
                let what = format!("this is {}, the first sample has {}", written.words(), first.words());
                refuse(what, "times that are all written in the same way")
            }
            _ => Some((written, moment_s)),
        }
    }

    fn cell(&self, row: &[Cell<'_>], problems: &mut Vec<Problem>) -> Option<(Range<usize>, String)> {
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
