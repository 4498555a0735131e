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

/// How a problem ends that says that something is not there.
pub(crate) const MISSING: &str = "is missing";

impl Problem {
    /// Whether something is not there that must be: it is mended by going on, not by changing what is there.
    pub fn is_missing_key(&self) -> bool {
        self.what.ends_with(MISSING)
    }
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

/// The nearest of the known words, if one is near enough to be what was meant; capitals make no difference.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    /// No known word is longer; what is cannot be near one.
    const LONGEST: usize = 200;
    let length = word.chars().count();
    if length > LONGEST {
        return None;
    }
    let word = word.to_lowercase();
    known
        .into_iter()
        .filter_map(|candidate| {
            let letters = candidate.chars().count();
            let reach = 1.max(letters / 3);
            // The distance is at least the difference in length, and costs much more to find.
            let near = letters.abs_diff(length) <= reach;
            let distance = near.then(|| strsim::damerau_levenshtein(&word, &candidate.to_lowercase()))?;
            (distance <= reach).then_some((distance, candidate))
        })
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

/// A text of the user's as a message shows it: on one line, and no longer than one.
pub(crate) fn shown(text: &str) -> String {
    /// Long enough to know one's own text again.
    const LONGEST: usize = 60;
    let mut characters = text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c });
    let mut shown: String = characters.by_ref().take(LONGEST).collect();
    if characters.next().is_some() {
        shown.push('…');
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_nearest_takes_a_slip_and_nothing_farther() {
        let known = ["title", "method", "service"];
        assert_eq!(nearest("titel", known), Some("title"));
        assert_eq!(nearest("methods", known), Some("method"));
        assert_eq!(nearest("TITEL", known), Some("title"));
        assert_eq!(nearest("en1999-1-1", ["own", "EN 1999-1-1"]), Some("EN 1999-1-1"));
        assert_eq!(nearest("colour", known), None);
        assert_eq!(nearest("", known), None);
        assert_eq!(nearest(&"x".repeat(1_000_000), [&*"x".repeat(1_000_000)]), None);
    }

    #[test]
    fn unit_listed_joins_with_or() {
        assert_eq!(listed([]), "none");
        assert_eq!(listed(["a"]), "\"a\"");
        assert_eq!(listed(["a", "b", "c"]), "\"a\", \"b\" or \"c\"");
    }

    #[test]
    fn unit_shown_is_one_short_line() {
        assert_eq!(shown("a\u{1b}[2J\nb"), "a\u{fffd}[2J\u{fffd}b");
        assert_eq!(shown(&"µ".repeat(100)).chars().count(), 61);
    }
}
