//! Data from instruments, in CSV files that the job file names.

use std::collections::BTreeMap;

use sha2::{Digest, Sha256};

use crate::entry::{Entry, Located};
use crate::place::Source;
use crate::problem::{Problem, listed};
use crate::tables::{BondDay, Tables, TemperatureUnit};

/// The largest data file that is read, in bytes.
const LARGEST_DATA_FILE: usize = 32 << 20;

/// Where data files come from.
pub trait Files {
    /// The bytes of a file named relative to the job file.
    ///
    /// # Errors
    /// Why it cannot be had, in words.
    fn read(&self, name: &str) -> Result<Vec<u8>, String>;
}

/// One witness coupon.
#[derive(Debug, Clone, PartialEq)]
pub struct Specimen {
    /// Its name.
    pub specimen: String,
    /// The batch of adhesive.
    pub batch: String,
    /// Width of the overlap, mm.
    pub width_mm: f64,
    /// Length of the overlap, mm.
    pub overlap_mm: f64,
    /// Load at failure, N.
    pub load_n: f64,
    /// Failure pattern, such as `CF` or `60CF/40AF`; empty where it was not looked at.
    pub pattern: Located<String>,
}

/// One sample of a temperature log.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Time since the first sample, s.
    pub time_s: f64,
    /// Temperature, °C.
    pub temperature_c: f64,
}

/// All data of a job.
#[derive(Debug, Default)]
pub(crate) struct Data {
    pub(crate) specimens: BTreeMap<String, Vec<Specimen>>,
    pub(crate) temperature_log: Option<Vec<Sample>>,
}

/// Reads every data file that the job names.
pub(crate) fn load(
    tables: &Tables,
    files: &dyn Files,
    hash: &mut Sha256,
    problems: &mut Vec<Problem>,
) -> Data {
    let mut data = Data::default();
    for (name, coupons) in tables.coupons.iter() {
        if let Some(text) = open(&coupons.data, files, hash, problems) {
            let file = coupons.data.get().map_or("", String::as_str);
            data.specimens.insert(name.to_owned(), specimens(file, &text, problems));
        }
    }
    if let Some(day) = tables.bond_day.get()
        && let Some(text) = open(&day.log, files, hash, problems)
    {
        data.temperature_log = Some(temperature_log(day, &text, problems));
    }
    data
}

/// The text of the file that an entry names, if it names one that can be read.
fn open(
    entry: &Entry<String>,
    files: &dyn Files,
    hash: &mut Sha256,
    problems: &mut Vec<Problem>,
) -> Option<String> {
    let Located { value: name, place } = entry.located.as_ref()?;
    let mut refuse = |what: String, expected: String| {
        problems.push(Problem { place: place.clone(), key: entry.key.clone(), what, expected, mend: None });
    };
    match files.read(name) {
        Err(reason) => {
            refuse(
                format!("the file \"{name}\" cannot be read: {reason}"),
                "a file named relative to the job file".to_owned(),
            );
            None
        }
        Ok(bytes) if bytes.len() > LARGEST_DATA_FILE => {
            refuse(
                format!("the file \"{name}\" has {} bytes", bytes.len()),
                format!("at most {LARGEST_DATA_FILE} bytes"),
            );
            None
        }
        Ok(bytes) => {
            hash.update(&bytes);
            match String::from_utf8(bytes) {
                Ok(text) => Some(text),
                Err(_) => {
                    refuse(format!("the file \"{name}\" is not text"), "a CSV file in UTF-8".to_owned());
                    None
                }
            }
        }
    }
}

/// A CSV text with a heading, cell by cell with places.
struct Sheet<'t> {
    source: Source<'t>,
    heading: Vec<String>,
    rows: Vec<Vec<Cell<'t>>>,
}

/// One cell and the bytes that it takes.
struct Cell<'t> {
    text: &'t str,
    span: std::ops::Range<usize>,
}

impl<'t> Sheet<'t> {
    /// Splits a text into cells. Cells of instruments are plain: no quotation marks, no line breaks in a cell.
    fn split(file: &str, text: &'t str, problems: &mut Vec<Problem>) -> Option<Self> {
        let source = Source::new(file, text);
        let mut lines = text.split_inclusive('\n').scan(0, |at, line| {
            let from = *at;
            *at += line.len();
            Some((from, line.trim_end_matches(['\n', '\r'])))
        });
        let Some((_, first)) = lines.next().filter(|(_, first)| !first.trim().is_empty()) else {
            problems.push(Problem {
                place: source.place(0..0),
                key: String::new(),
                what: "the file is empty".to_owned(),
                expected: "a heading and a line for each row".to_owned(),
                mend: None,
            });
            return None;
        };
        let heading =
            first.trim_start_matches('\u{feff}').split(',').map(|cell| cell.trim().to_owned()).collect();
        let rows = lines
            .filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'))
            .map(|(from, line)| cells(from, line))
            .collect();
        Some(Self { source, heading, rows })
    }

    fn column(&self, name: &str) -> Option<usize> {
        self.heading.iter().position(|known| known == name)
    }

    fn refuse(
        &self,
        span: std::ops::Range<usize>,
        key: &str,
        what: String,
        expected: &str,
        problems: &mut Vec<Problem>,
    ) {
        let place = self.source.place(span);
        problems.push(Problem {
            place,
            key: key.to_owned(),
            what,
            expected: expected.to_owned(),
            mend: None,
        });
    }

    /// Refuses a heading that lacks columns, or has columns that nobody reads.
    fn expect_columns(&self, needed: &[&str], known: &[&str], problems: &mut Vec<Problem>) -> bool {
        let before = problems.len();
        let end = self.heading.join(",").len();
        for name in needed.iter().filter(|name| self.column(name).is_none()) {
            self.refuse(
                0..end,
                name,
                format!("the column \"{name}\" is missing"),
                &format!("a heading with {}", known.join(", ")),
                problems,
            );
        }
        for name in self.heading.iter().filter(|name| !known.contains(&name.as_str())) {
            self.refuse(
                0..end,
                name,
                format!("the column \"{name}\" is not known here"),
                &known.join(", "),
                problems,
            );
        }
        problems.len() == before
    }

    /// A number in a cell, refused with its place where it is none or is not allowed.
    fn number(
        &self,
        row: &[Cell<'t>],
        name: &str,
        allowed: impl Fn(f64) -> bool,
        expected: &str,
        problems: &mut Vec<Problem>,
    ) -> Option<f64> {
        let Some(cell) = cell(row, self.column(name)) else {
            let end = row.last().map_or(0, |cell| cell.span.end);
            self.refuse(
                end..end,
                name,
                format!("the row ends before the column \"{name}\""),
                expected,
                problems,
            );
            return None;
        };
        match cell.text.parse::<f64>() {
            Ok(number) if number.is_finite() && allowed(number) => Some(number),
            _ => {
                self.refuse(cell.span.clone(), name, format!("found \"{}\"", cell.text), expected, problems);
                None
            }
        }
    }
}

/// The cell of a row in a column, if the heading has the column and the row is long enough.
fn cell<'s, 't>(row: &'s [Cell<'t>], column: Option<usize>) -> Option<&'s Cell<'t>> {
    column.and_then(|index| row.get(index))
}

fn cells(from: usize, line: &str) -> Vec<Cell<'_>> {
    let mut at = from;
    line.split(',')
        .map(|raw| {
            let text = raw.trim();
            let start = at + (raw.len() - raw.trim_start().len());
            at += raw.len() + 1;
            Cell { text, span: start..start + text.len() }
        })
        .collect()
}

fn specimens(file: &str, text: &str, problems: &mut Vec<Problem>) -> Vec<Specimen> {
    const COLUMNS: [&str; 6] = ["specimen", "batch", "width_mm", "overlap_mm", "load_n", "pattern"];
    let Some(sheet) = Sheet::split(file, text, problems) else {
        return Vec::new();
    };
    if !sheet.expect_columns(&["specimen", "width_mm", "overlap_mm", "load_n"], &COLUMNS, problems) {
        return Vec::new();
    }
    let word = |row: &[Cell<'_>], name: &str| {
        cell(row, sheet.column(name)).map_or(String::new(), |cell| cell.text.to_owned())
    };
    let mut found: Vec<Specimen> = Vec::new();
    for row in &sheet.rows {
        let positive = |number: f64| number > 0.0;
        let width_mm = sheet.number(row, "width_mm", positive, "a width in mm, greater than zero", problems);
        let overlap_mm =
            sheet.number(row, "overlap_mm", positive, "an overlap in mm, greater than zero", problems);
        let load_n = sheet.number(row, "load_n", positive, "a load in N, greater than zero", problems);
        let name = word(row, "specimen");
        let first = row.first().map_or(0..0, |cell| cell.span.clone());
        if name.is_empty() || found.iter().any(|known| known.specimen == name) {
            let what = if name.is_empty() {
                "the specimen has no name".to_owned()
            } else {
                format!("the specimen \"{name}\" stands here a second time")
            };
            sheet.refuse(first, "specimen", what, "a name that no other specimen has", problems);
            continue;
        }
        let at = cell(row, sheet.column("pattern")).map_or(first, |cell| cell.span.clone());
        if let (Some(width_mm), Some(overlap_mm), Some(load_n)) = (width_mm, overlap_mm, load_n) {
            let pattern = Located { value: word(row, "pattern"), place: sheet.source.place(at) };
            found.push(Specimen {
                specimen: name,
                batch: word(row, "batch"),
                width_mm,
                overlap_mm,
                load_n,
                pattern,
            });
        }
    }
    found
}

fn temperature_log(day: &BondDay, text: &str, problems: &mut Vec<Problem>) -> Vec<Sample> {
    let file = day.log.get().map_or("", String::as_str);
    let Some(sheet) = Sheet::split(file, text, problems) else {
        return Vec::new();
    };
    let seconds = sheet.column("time_s").is_some();
    let time = if seconds { "time_s" } else { "time" };
    if !sheet.expect_columns(&[time, "temperature"], &[time, "temperature"], problems) {
        return Vec::new();
    }
    let fahrenheit = day.temperature_unit.get() == Some(&TemperatureUnit::Fahrenheit);
    let unit = if fahrenheit { "°F" } else { "°C" };
    let mut found: Vec<Sample> = Vec::new();
    let mut first: Option<f64> = None;
    for row in &sheet.rows {
        let expected = format!("a temperature in {unit}");
        let celsius = |number: f64| if fahrenheit { (number - 32.0) / 1.8 } else { number };
        let temperature =
            sheet.number(row, "temperature", |number| celsius(number) > -273.15, &expected, problems);
        let Some(cell) = cell(row, sheet.column(time)) else { continue };
        let Some(moment) = moment_s(cell.text) else {
            sheet.refuse(
                cell.span.clone(),
                time,
                format!("found \"{}\"", cell.text),
                "seconds, or a date and time such as 2031-11-07T08:30:00",
                problems,
            );
            continue;
        };
        let time_s = moment - *first.get_or_insert(moment);
        if let Some(before) = found.last().filter(|before| before.time_s >= time_s) {
            let what = if before.time_s > time_s {
                "this sample is earlier than the one before"
            } else {
                "two samples have the same time"
            };
            sheet.refuse(
                cell.span.clone(),
                time,
                what.to_owned(),
                "times that rise from line to line",
                problems,
            );
            continue;
        }
        if let Some(temperature) = temperature {
            found.push(Sample { time_s, temperature_c: celsius(temperature) });
        }
    }
    if found.is_empty() && problems.is_empty() {
        sheet.refuse(
            0..0,
            time,
            "the log has no samples".to_owned(),
            &listed([time, "temperature"]),
            problems,
        );
    }
    found
}

/// A moment in seconds from an arbitrary zero: bare seconds, a date-time with offset, or one without.
fn moment_s(text: &str) -> Option<f64> {
    if let Ok(seconds) = text.parse::<f64>() {
        return seconds.is_finite().then_some(seconds);
    }
    if let Ok(timestamp) = text.parse::<jiff::Timestamp>() {
        return Some(timestamp.as_duration().as_secs_f64());
    }
    let local: jiff::civil::DateTime = text.parse().ok()?;
    Some(local.duration_since(jiff::civil::date(2000, 1, 1).at(0, 0, 0, 0)).as_secs_f64())
}
