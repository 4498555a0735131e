//! A CSV text with a heading, cell by cell with places.

use std::borrow::Cow;
use std::ops::Range;

use crate::place::Source;
use crate::problem::{Problem, nearest, shown};

/// The most rows that a data file may have: a log of every second for a day.
pub(super) const MOST_ROWS: usize = 100_000;

/// A column that is read.
pub(super) struct Column {
    /// Its name in the heading.
    pub(super) name: &'static str,
    /// What it holds.
    pub(super) holds: &'static str,
    /// Whether the file is refused without it.
    pub(super) needed: bool,
}

/// A table of cells.
pub(super) struct Sheet<'t> {
    pub(super) source: Source<'t>,
    columns: &'static [Column],
    heading: Vec<Cell<'t>>,
    pub(super) rows: Vec<Vec<Cell<'t>>>,
}

/// One cell and the bytes that it takes.
pub(super) struct Cell<'t> {
    pub(super) text: Cow<'t, str>,
    pub(super) span: Range<usize>,
}

impl<'t> Sheet<'t> {
    /// Splits a text into rows and cells, and holds its heading against the columns that are read.
    ///
    /// Columns are parted by commas, a cell may stand in quotation marks, lines that begin with # are remarks.
    pub(super) fn read(
        file: &str,
        text: &'t str,
        columns: &'static [Column],
        problems: &mut Vec<Problem>,
    ) -> Option<Self> {
        let source = Source::new(file, text);
        let before = problems.len();
        let mut lines = lines(text);
        let Some((from, first)) = lines.next() else {
            let expected = format!("a heading with {}, then a line for each row", listed(columns));
            problems.push(at(&source, 0..0, "", "the file is empty".to_owned(), expected, None));
            return None;
        };
        let mut heading = cells(from, first);
        while heading.last().is_some_and(|cell| cell.text.is_empty()) {
            heading.pop();
        }
        let rows: Vec<_> = lines.map(|(from, line)| cells(from, line)).collect();
        let sheet = Self { source, columns, heading, rows };
        sheet.check_heading(first, from, problems);
        if problems.len() > before {
            return None;
        }
        let end = from + first.len();
        if sheet.rows.is_empty() {
            let expected = "a line for each row below the heading".to_owned();
            problems.push(at(&sheet.source, end..end, "", "the file has no rows".to_owned(), expected, None));
        }
        if sheet.rows.len() > MOST_ROWS {
            let what = format!("the file has {} rows", sheet.rows.len());
            let mend = Some("leave out what does not belong to this job, or thin it".to_owned());
            problems.push(at(&sheet.source, end..end, "", what, format!("at most {MOST_ROWS}"), mend));
            return None;
        }
        for row in &sheet.rows {
            sheet.check_length(row, problems);
        }
        Some(sheet)
    }

    /// Refuses a heading that lacks columns, or has columns twice or such as nobody reads.
    fn check_heading(&self, line: &str, from: usize, problems: &mut Vec<Problem>) {
        let whole = from..from + line.len();
        if let Some(other) = [(';', "semicolons"), ('\t', "tabs")]
            .into_iter()
            .find(|(separator, _)| !line.contains(',') && line.contains(*separator))
        {
            problems.push(at(
                &self.source,
                whole,
                "",
                format!("the columns are parted by {}", other.1),
                "columns parted by commas, numbers with a decimal point".to_owned(),
                Some("export the file as CSV with commas, or replace them in an editor".to_owned()),
            ));
            return;
        }
        let mut meant = Vec::new();
        for (index, cell) in self.heading.iter().enumerate() {
            let name = cell.text.as_ref();
            let known = self.columns.iter().any(|column| column.name == name);
            if known && self.heading.iter().take(index).any(|earlier| earlier.text == cell.text) {
                let what = format!("the column \"{name}\" stands here a second time");
                let expected = "each column once".to_owned();
                problems.push(at(&self.source, cell.span.clone(), name, what, expected, None));
            }
            if known {
                continue;
            }
            let free = self.columns.iter().filter(|column| self.column(column.name).is_none());
            let near = nearest(name, free.clone().map(|column| column.name));
            let column = near.and_then(|near| free.clone().find(|column| column.name == near));
            meant.extend(near);
            let what = if name.is_empty() {
                "a column has no name".to_owned()
            } else {
                format!("the column \"{}\" is not known here", shown(name))
            };
            let mend = match column {
                Some(Column { name, holds, .. }) => format!("write \"{name}\", which holds {holds}"),
                None => "leave the column out".to_owned(),
            };
            let expected = listed(self.columns);
            problems.push(at(&self.source, cell.span.clone(), "", what, expected, Some(mend)));
        }
        for column in self.columns.iter().filter(|column| column.needed) {
            if self.column(column.name).is_none() && !meant.contains(&column.name) {
                let what = format!("the column \"{}\" is missing", column.name);
                let mend = Some(format!("add it: {}", column.holds));
                problems.push(at(&self.source, whole.clone(), "", what, listed(self.columns), mend));
            }
        }
    }

    /// Refuses a row with more cells than the heading; empty ones at its end are what spreadsheets leave.
    fn check_length(&self, row: &[Cell<'_>], problems: &mut Vec<Problem>) {
        if row.iter().skip(self.heading.len()).all(|cell| cell.text.is_empty()) {
            return;
        }
        let first = row.first().map_or(0, |cell| cell.span.start);
        let last = row.last().map_or(first, |cell| cell.span.end);
        let what = format!("the row has {} cells, the heading {}", row.len(), self.heading.len());
        let expected = "a cell for each column of the heading".to_owned();
        let mend = Some("write numbers with a decimal point: a comma begins a new cell".to_owned());
        problems.push(at(&self.source, first..last, "", what, expected, mend));
    }

    /// Where a column stands.
    pub(super) fn column(&self, name: &str) -> Option<usize> {
        self.heading.iter().position(|known| known.text == name)
    }

    /// The cell of a row in a column, if the heading has the column and the row is long enough.
    pub(super) fn cell<'s>(&self, row: &'s [Cell<'t>], name: &str) -> Option<&'s Cell<'t>> {
        self.column(name).and_then(|index| row.get(index))
    }

    /// The text of a row in a column; empty where there is none.
    pub(super) fn word(&self, row: &[Cell<'t>], name: &str) -> String {
        self.cell(row, name).map_or(String::new(), |cell| cell.text.clone().into_owned())
    }

    /// Leaves a problem behind at a cell.
    pub(super) fn refuse(
        &self,
        span: Range<usize>,
        column: &str,
        what: String,
        expected: &str,
        problems: &mut Vec<Problem>,
    ) {
        problems.push(at(&self.source, span, column, what, expected.to_owned(), None));
    }

    /// The same, and says how to mend it.
    pub(super) fn refuse_with_mend(
        &self,
        span: Range<usize>,
        column: &str,
        what: String,
        (expected, mend): (&str, &str),
        problems: &mut Vec<Problem>,
    ) {
        problems.push(at(&self.source, span, column, what, expected.to_owned(), Some(mend.to_owned())));
    }

    /// A number in a cell, refused with its place where it is none or is not allowed.
    pub(super) fn number(
        &self,
        row: &[Cell<'t>],
        name: &str,
        allowed: impl Fn(f64) -> bool,
        expected: &str,
        problems: &mut Vec<Problem>,
    ) -> Option<f64> {
        let Some(cell) = self.cell(row, name) else {
            let end = row.last().map_or(0, |cell| cell.span.end);
            self.refuse(end..end, name, "the row ends before this column".to_owned(), expected, problems);
            return None;
        };
        let what = match cell.text.parse::<f64>() {
            Ok(number) if number.is_finite() && allowed(number) => return Some(number),
            Ok(number) if number.is_finite() => format!("{} is out of range", shown(&cell.text)),
            _ if cell.text.is_empty() => "the cell is empty".to_owned(),
            _ => format!("\"{}\" is no number", shown(&cell.text)),
        };
        let digits = cell.text.trim_end_matches(|c: char| !c.is_ascii_digit());
        let bare = cell.text.len() > digits.len() && digits.parse::<f64>().is_ok_and(f64::is_finite);
        let pointed = cell.text.replacen(',', ".", 1);
        let comma = pointed != cell.text && pointed.parse::<f64>().is_ok_and(f64::is_finite);
        let mend = match (bare, comma) {
            (true, _) => Some("write the number alone; its unit stands in the heading".to_owned()),
            (_, true) => Some(format!("write it with a decimal point: {}", shown(&pointed))),
            _ => None,
        };
        problems.push(at(&self.source, cell.span.clone(), name, what, expected.to_owned(), mend));
        None
    }
}

fn at(
    source: &Source<'_>,
    span: Range<usize>,
    column: &str,
    what: String,
    expected: String,
    mend: Option<String>,
) -> Problem {
    Problem { place: source.place(span), key: column.to_owned(), what, expected, mend }
}

fn listed(columns: &[Column]) -> String {
    columns.iter().map(|column| column.name).collect::<Vec<_>>().join(", ")
}

/// The lines that hold something, with their first byte.
pub(super) fn lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let (marked, text) = match text.strip_prefix('\u{feff}') {
        Some(rest) => ('\u{feff}'.len_utf8(), rest),
        None => (0, text),
    };
    let lines = text.split_inclusive('\n').scan(marked, |at, line| {
        let from = *at;
        *at += line.len();
        Some((from, line.trim_end_matches(['\n', '\r'])))
    });
    lines.filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'))
}

/// The cells of a line. A cell in quotation marks may hold commas, and a quotation mark written twice.
fn cells(from: usize, line: &str) -> Vec<Cell<'_>> {
    let mut cells = Vec::new();
    let mut at = 0;
    loop {
        let rest = line.get(at..).unwrap_or("");
        let length = cell_length(rest);
        let raw = rest.get(..length).unwrap_or(rest);
        let text = raw.trim();
        let start = from + at + (raw.len() - raw.trim_start().len());
        cells.push(Cell { text: unquoted(text), span: start..start + text.len() });
        at += length + 1;
        if at > line.len() {
            return cells;
        }
    }
}

/// The bytes up to the comma that ends the first cell.
fn cell_length(rest: &str) -> usize {
    let quoted = rest.trim_start().starts_with('"');
    let mut inside = false;
    for (at, c) in rest.char_indices() {
        match c {
            '"' if quoted => inside = !inside,
            ',' if !inside => return at,
            _ => {}
        }
    }
    // A quotation mark that is never closed quotes nothing.
    if inside { rest.find(',').unwrap_or(rest.len()) } else { rest.len() }
}

fn unquoted(text: &str) -> Cow<'_, str> {
    match text.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')) {
        Some(inner) if inner.contains('"') => Cow::Owned(inner.replace("\"\"", "\"")),
        Some(inner) => Cow::Borrowed(inner.trim()),
        None => Cow::Borrowed(text),
    }
}
