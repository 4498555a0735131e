//! The program against the outside world: published cases as data, one harness, one table.
//!
//! A file in `validation/cases/` holds the cases of one source; [`run`] reads them all, calls the
//! method that each names, and compares. The way of a case through the modules:
//!
//! | module | subject |
//! |---|---|
//! | [`case_file`] | what stands in a file |
//! | [`plan`] | a case and the runs it asks for |
//! | [`inputs`] | what a method reads, with units |
//! | [`methods`] | the register: one function a method |
//! | [`compare`] | ours against theirs |
//! | [`table`] | the comparison as a Markdown table |

pub mod case_file;
pub mod compare;
pub mod error;
pub mod inputs;
pub mod methods;
pub mod plan;
pub mod table;

use std::path::Path;

use crate::case_file::CaseFile;
use crate::compare::Comparison;
use crate::error::ValidationError;

/// The folder of this package, with the published cases in `cases/` and the independent solutions in
/// `reference/`.
pub fn folder() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Runs every case of `folder/cases`, in the order of file names and of the cases in them.
///
/// # Errors
///
/// The first case that cannot be read or run. A case outside its tolerance is no error: it is in the
/// answer.
pub fn run(folder: &Path) -> Result<Vec<Comparison>, ValidationError> {
    let references = folder.join("reference");
    let mut comparisons = Vec::new();
    for file in case_files(folder)? {
        comparisons.extend(file.run(&references)?);
    }
    Ok(comparisons)
}

/// Reads every file of `folder/cases`, in the order of their names.
///
/// # Errors
///
/// The first that cannot be read.
pub fn case_files(folder: &Path) -> Result<Vec<CaseFile>, ValidationError> {
    let cases = folder.join("cases");
    let unreadable = |source| ValidationError::Unreadable { path: cases.clone(), source };
    let mut paths = Vec::new();
    for entry in std::fs::read_dir(&cases).map_err(unreadable)? {
        let path = entry.map_err(unreadable)?.path();
        if path.extension().is_some_and(|extension| extension == "toml") {
            paths.push(path);
        }
    }
    paths.sort();
    paths.iter().map(|path| CaseFile::read(path)).collect()
}
