//! What a finding rests on.

use std::fmt;

/// Method and source of a finding, and how the source is known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Basis {
    /// A published method: author, title or number, year, clause.
    Published(&'static str),
    /// A published method quoted from memory, its text not at hand.
    Memory(&'static str),
    /// A fact of the trade without a source.
    CommonPractice(&'static str),
    /// The user's own data.
    YourData(&'static str),
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Published(text) => f.write_str(text),
            Self::Memory(text) => write!(f, "{text} (from memory, text not at hand)"),
            Self::CommonPractice(text) => write!(f, "common practice, no source: {text}"),
            Self::YourData(text) => write!(f, "your data: {text}"),
        }
    }
}
