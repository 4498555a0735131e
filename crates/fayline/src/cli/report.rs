//! `fayline report`.

use std::path::Path;

use super::{Exit, PaperName, Stop, assessed, say};
use crate::files::{in_words, write_whole};
use crate::report;

/// Writes the report of a job; the ending of the file says in which form.
pub(super) fn run(job: &Path, paper: PaperName, output: &Path) -> Result<Exit, Stop> {
    let shown = output.display();
    let ending = output.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    let is_pdf = match ending.as_deref() {
        Some("html") => false,
        Some("pdf") => true,
        _ => {
            let why = format!("{shown} does not end in .html or .pdf, the forms of report there are");
            return Err(Stop::Cannot(why));
        }
    };
    let assessment = assessed(job)?;
    let bytes = if is_pdf {
        report::pdf(&assessment, paper.into())
            .map_err(|error| Stop::Cannot(format!("{shown} cannot be made: {error}")))?
    } else {
        report::html(&assessment).into_bytes()
    };
    write_whole(output, &bytes)
        .map_err(|error| Stop::Cannot(format!("{shown} cannot be written: {}", in_words(&error))))?;
    say(&format!("{shown} is written.\n"));
    Ok(Exit::of(&assessment, Some(assessment.verdict())))
}
