//! `fayline report`.

use std::path::Path;

use super::{Exit, Stop, assessed, say};
use crate::files::{in_words, write_whole};
use crate::report;

/// Writes the report of a job.
pub(super) fn run(job: &Path, output: &Path) -> Result<Exit, Stop> {
    let shown = output.display();
    if output.extension().is_none_or(|extension| !extension.eq_ignore_ascii_case("html")) {
        return Err(Stop::Cannot(format!("{shown} does not end in .html, the one form of report there is")));
    }
    let assessment = assessed(job)?;
    let page = report::html(&assessment);
    write_whole(output, page.as_bytes())
        .map_err(|error| Stop::Cannot(format!("{shown} cannot be written: {}", in_words(&error))))?;
    say(&format!("{shown} is written.\n"));
    Ok(Exit::of(&assessment, Some(assessment.verdict())))
}
