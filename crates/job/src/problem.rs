//! What is wrong with a file, and how to mend it.

use std::fmt;

use crate::Place;

/// One fault of a job file or of a file that it names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Where it stands.
    pub place: Place,
    /// The dotted key, such as `adhesives.epoxy.poissons_ratio`; empty where no key is meant.
    pub key: String,
    /// What was found.
    pub what: String,
    /// What is allowed.
    pub expected: String,
    /// How to mend it, where that can be told.
    pub mend: Option<String>,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Place { file, line, column, .. } = &self.place;
        write!(f, "{file}:{line}:{column}: ")?;
        if !self.key.is_empty() {
            write!(f, "{}: ", self.key)?;
        }
        write!(f, "{}; allowed: {}", self.what, self.expected)?;
        match &self.mend {
            Some(mend) => write!(f, "; to mend: {mend}"),
            None => Ok(()),
        }
    }
}

/// The nearest of the known words, if one is near enough to be what was meant.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    known
        .into_iter()
        .map(|candidate| (strsim::damerau_levenshtein(word, candidate), candidate))
        .filter(|(distance, candidate)| *distance <= 1.max(candidate.len() / 3))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

/// A list in words: `"a", "b" or "c"`.
pub(crate) fn listed<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    let words: Vec<String> = words.into_iter().map(|word| format!("\"{word}\"")).collect();
    match words.split_last() {
        None => "none".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}
