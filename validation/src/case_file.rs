//! What stands in a file of cases.

use std::collections::BTreeMap;
use std::fmt;
use std::path::Path;

use serde::Deserialize;
use toml::{Table, Value};

use crate::error::ValidationError;

/// The cases of one source.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CaseFile {
    /// Where the expected values come from.
    pub source: Source,
    /// File in `validation/reference/` that holds inputs and values of the cases with `each`.
    pub reference: Option<String>,
    /// Inputs that hold for every case which does not give its own.
    #[serde(default)]
    pub inputs: Table,
    /// Tolerances by output, for every case that gives none of its own.
    #[serde(default)]
    pub tolerances: BTreeMap<String, Tolerance>,
    /// The cases.
    #[serde(rename = "case")]
    pub cases: Vec<Case>,
    /// The file's name, for messages.
    #[serde(skip)]
    pub name: String,
}

/// A publication, a standard or a computation.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Names of the authors, or the standard's number.
    pub author: String,
    /// Title.
    pub title: String,
    /// Year of publication; none where there is no single one.
    pub year: Option<u16>,
    /// Where in the world: journal and pages, publisher, report number.
    pub place: String,
}

/// How far from the expected value ours may be.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tolerance {
    /// In the unit of the output, or in per cent of the expected value.
    pub within: Value,
    /// Why so much.
    pub why: String,
}

/// One check: a method, its inputs, and what should come out.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Short name, unique in its file.
    pub id: String,
    /// What it checks, in a few words.
    pub checks: String,
    /// Clause, table, equation or example of the source.
    pub clause: Option<String>,
    /// How the expected values are known.
    pub known: Known,
    /// Name in the [register](crate::methods) of the function that is called.
    pub method: String,
    /// Inputs of the method.
    #[serde(default)]
    pub inputs: Table,
    /// Inputs given as lists of equal length, of which each run takes one entry.
    #[serde(default)]
    pub vary: Vec<String>,
    /// List of tables in the reference file, such as `joint` or `joint.case`: one run for each. Its
    /// keys, and those of the tables around it, are inputs too.
    pub each: Option<String>,
    /// Keys that a table of the reference must have to be taken, with a value or a list of them.
    #[serde(default)]
    pub only: Table,
    /// Keys of the reference's tables by which a run is named.
    #[serde(default)]
    pub named_by: Vec<String>,
    /// Expected values by output.
    pub expected: BTreeMap<String, Value>,
    /// Tolerance of the expected values that have none of their own.
    pub within: Option<Value>,
    /// Why that tolerance.
    pub why: Option<String>,
}

/// How an expected value is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Known {
    /// The number stands in the source, which was read.
    Published,
    /// The formula stands in the source; the number was computed from it by other means.
    Formula,
    /// Everybody in the trade does it so; no source.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Remembered: the source was not at hand. What could be was derived again.
    Memory,
    /// An independent solution made with a general-purpose library; script and data are stored.
    #[serde(rename = "reference library")]
    ReferenceLibrary,
}

impl fmt::Display for Known {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(match self {
            Self::Published => "published",
            Self::Formula => "formula",
            Self::CommonPractice => "common practice",
            Self::Memory => "memory",
            Self::ReferenceLibrary => "reference library",
        })
    }
}

impl fmt::Display for Source {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.author)?;
        self.year.map_or(Ok(()), |year| write!(formatter, " {year}"))
    }
}

impl CaseFile {
    /// Reads a file.
    ///
    /// # Errors
    ///
    /// [`ValidationError::Unreadable`], [`ValidationError::Malformed`].
    pub fn read(path: &Path) -> Result<Self, ValidationError> {
        let text = std::fs::read_to_string(path)
            .map_err(|source| ValidationError::Unreadable { path: path.to_owned(), source })?;
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        Self::parse(&name, &text)
    }

    /// Reads the text of a file of that name.
    ///
    /// # Errors
    ///
    /// [`ValidationError::Malformed`].
    pub fn parse(name: &str, text: &str) -> Result<Self, ValidationError> {
        let file: Self = toml::from_str(text)
            .map_err(|source| ValidationError::Malformed { file: name.to_owned(), source: source.into() })?;
        Ok(Self { name: name.to_owned(), ..file })
    }
}
