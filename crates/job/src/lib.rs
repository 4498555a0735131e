//! The job file: from a TOML text, and the data files that it names, to a typed [`Job`].
//!
//! [`read`] reports every problem of a job in one go, each with its place, what was found, what is allowed
//! and how to mend it. [`edit`] changes values and keeps comments and order. Each table is written down once
//! (see `tables/`), and from that one description come the reader, the JSON [`schema`], the suggestions and
//! the [`reference`] page, so that they cannot drift apart.

mod check;
mod data;
mod describe;
mod edit;
mod entry;
mod place;
mod problem;
mod read;
mod reference;
mod schema;
mod table;
pub mod tables;

pub use data::{Files, Sample, Specimen};
pub use edit::{Edit, edit};
pub use entry::{Absent, Entry, Located, Named, Needed};
pub use place::Place;
pub use problem::Problem;
pub use reference::reference;
pub use schema::schema;
pub use tables::Tables;

use std::collections::BTreeMap;
use std::fmt::Write;

use sha2::{Digest, Sha256};

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
    /// The samples of the bond day's temperature log, if it names one.
    pub temperature_log: Option<Vec<Sample>>,
    /// SHA-256 of the job file and of every data file, as hexadecimal digits.
    pub hash: String,
}

/// Reads a job file, whose name is only used to name places, and the data files that it names.
///
/// # Errors
/// Every problem of the job file, or else every problem of its data files.
pub fn read(name: &str, text: &str, files: &dyn Files) -> Result<Job, Vec<Problem>> {
    let mut reader = read::Reader { source: place::Source::new(name, text), problems: Vec::new() };
    let tables = read_tables(text, &mut reader);
    if let Some(tables) = &tables {
        check::check(tables, &mut reader.problems);
    }
    let mut problems = reader.problems;
    let mut hash = Sha256::new();
    hash.update(text.as_bytes());
    if let Some(tables) = tables {
        let data = data::load(&tables, files, &mut hash, &mut problems);
        if problems.is_empty() {
            return Ok(Job {
                name: name.to_owned(),
                tables,
                specimens: data.specimens,
                temperature_log: data.temperature_log,
                hash: hexadecimal(&hash.finalize()),
            });
        }
    }
    problems.sort_by_key(|problem| {
        (problem.place.file.to_string() != name, problem.place.line, problem.place.column)
    });
    Err(problems)
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

fn read_tables(text: &str, reader: &mut read::Reader<'_>) -> Option<Tables> {
    if text.len() > LONGEST_JOB_FILE {
        reader.problems.push(Problem {
            place: reader.source.place(0..0),
            key: String::new(),
            what: format!("the file has {} bytes", text.len()),
            expected: format!("at most {LONGEST_JOB_FILE} bytes"),
            mend: Some(
                "keep data from instruments in files of their own, named from the job file".to_owned(),
            ),
        });
        return None;
    }
    let (tree, errors) = toml::de::DeTable::parse_recoverable(text);
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        reader.problems.push(Problem {
            place: reader.source.place(span),
            key: String::new(),
            what: format!("this is not TOML: {}", error.message().lines().next().unwrap_or("unreadable")),
            expected: "a key, an equals sign and a value on each line, or a table in square brackets"
                .to_owned(),
            mend: None,
        });
    }
    let whole = toml::Spanned::new(0..0, toml::de::DeValue::Table(tree.into_inner()));
    let node = read::Node { key: String::new(), value: &whole };
    // Where the text itself is broken, what could be read of it is only good for finding further problems.
    <Tables as read::Value>::read(&node, describe::Limit::Any, reader)
}

#[cfg(test)]
mod tests;
