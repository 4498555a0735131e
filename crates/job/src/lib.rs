//! The job file: from a TOML text, and the data files that it names, to a typed [`Job`].
//!
//! [`read`] reports every problem of a job in one go, each with its place, what was found, what is allowed
//! and how to mend it. [`edit`] changes values and keeps comments and order. Each table is written down once
//! (see `tables/`), and from that one description come the reader, the JSON [`schema`], the suggestions and
//! the [`reference()`] page, so that they cannot drift apart.

mod check;
mod data;
mod date;
mod describe;
mod edit;
mod entry;
pub mod keys;
mod place;
mod plausible;
mod problem;
mod read;
mod reference;
mod schema;
mod size;
mod syntax;
mod table;
pub mod tables;
mod text;
mod value;

pub use data::{Files, LARGEST_DATA_FILE, Sample, Specimen, TemperatureLog};
pub use date::Date;
pub use edit::{Edit, edit, take_out};
pub use entry::{Absent, Entry, Located, Named, Needed};
pub use place::Place;
pub use problem::Problem;
pub use reference::reference;
pub use schema::schema;
pub use tables::Tables;
pub use text::decode;

use std::collections::BTreeMap;
use std::fmt::Write;

use sha2::{Digest, Sha256};
use toml::de::DeValue;

use place::Source;
use read::{Reader, Value};
use syntax::Faults;

/// The longest job file that is read, in bytes.
pub const LONGEST_JOB_FILE: usize = 1 << 20;

/// A job: what the file says, and the data that it names.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// The job file's name as the user knows it.
    pub name: String,
    /// What the job file says.
    pub tables: Tables,
    /// The specimens of each set of coupons that names a file.
    pub specimens: BTreeMap<String, Vec<Specimen>>,
    /// The bond day's temperature log, if it names one.
    pub temperature_log: Option<TemperatureLog>,
    /// The loads of each log that a spectrum names, as shares of the case's load, by the key of the spectrum.
    pub load_logs: BTreeMap<String, Vec<f64>>,
    /// SHA-256 of the job file and of every data file, as hexadecimal digits.
    pub hash: String,
}

/// Reads a job file, whose name is only used to name places, and the data files that it names.
///
/// # Errors
/// Every problem of the job file, or else every problem of its data files.
pub fn read(name: &str, text: &str, files: &dyn Files) -> Result<Job, Vec<Problem>> {
    let mut reader = Reader { source: Source::new(name, text), problems: Vec::new(), broken: false };
    let (tables, faults) = read_tables(text, &mut reader);
    let Reader { source, mut problems, .. } = reader;
    let mut hash = Sha256::new();
    hash.update(text.as_bytes());
    if let Some(tables) = tables {
        let data = data::load(name, &tables, files, &mut hash, &mut problems);
        if problems.is_empty() && faults.problems.is_empty() {
            return Ok(Job {
                name: name.to_owned(),
                tables,
                specimens: data.specimens,
                temperature_log: data.temperature_log,
                load_logs: data.load_logs,
                hash: hexadecimal(&hash.finalize()),
            });
        }
    }
    problems.retain(|problem| *problem.place.file != *name || !faults.explain(problem, &source));
    problems.extend(faults.problems);
    // The job file first, then each data file, and each from its beginning to its end.
    problems.sort_by(|a, b| {
        let of = |problem: &Problem| (*problem.place.file != *name, problem.place.file.clone());
        of(a).cmp(&of(b)).then((a.place.line, a.place.column).cmp(&(b.place.line, b.place.column)))
    });
    problems.dedup();
    Err(problems)
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// Reads the tables of a job file, and checks them where the text is whole.
fn read_tables(text: &str, reader: &mut Reader<'_>) -> (Option<Tables>, Faults) {
    if let Some(problem) = text::too_large(&reader.source, text, LONGEST_JOB_FILE) {
        reader.problems.push(problem);
        return (None, Faults::default());
    }
    let (tree, errors) = toml::de::DeTable::parse_recoverable(text);
    let faults = Faults::of(&reader.source, text, &errors);
    // What could be read of a broken text is good for finding further problems, but not for telling what is
    // missing or contradicts: that may stand in the part that could not be read.
    reader.broken = !errors.is_empty();
    if tree.get_ref().is_empty() && !reader.broken {
        reader.problems.push(Problem {
            place: reader.source.place(0..0),
            key: String::new(),
            what: "there is no job in this file".to_owned(),
            expected: "fayline = 1, then a table [job] with a title".to_owned(),
            mend: Some("let `fayline new FILE` write a job to begin with".to_owned()),
        });
        return (None, faults);
    }
    let whole = toml::Spanned::new(0..0, DeValue::Table(tree.into_inner()));
    let node = read::Node { key: String::new(), value: &whole };
    let tables = Tables::read(&node, describe::Limit::Any, reader);
    if let Some(tables) = tables.as_ref().filter(|_| !reader.broken) {
        check::check(tables, &mut reader.problems);
        size::check(tables, &mut reader.problems);
    }
    (tables, faults)
}

#[cfg(test)]
mod tests;
