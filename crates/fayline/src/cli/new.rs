//! `fayline new`.

use std::path::Path;

use super::{Exit, Stop, say};
use crate::files::{in_words, write_new};

/// A commented job to begin with.
const STARTER: &str = include_str!("../../../../examples/starter.toml");

/// Writes the starter job to a file that is not there yet.
pub(super) fn run(path: &Path) -> Result<Exit, Stop> {
    let shown = path.display();
    write_new(path, STARTER.as_bytes())
        .map_err(|error| Stop::Cannot(format!("{shown} cannot be written: {}", in_words(&error))))?;
    say(&format!("{shown} is written. Fill it in, then: fayline check {shown}\n"));
    Ok(Exit::Met)
}
