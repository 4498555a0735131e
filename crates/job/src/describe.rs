//! What a table of the job file may hold: the one description from which the reader takes its limits,
//! and from which the JSON Schema, the suggestions and the reference page are made.

use quantity::Kind;

/// A key of a table.
#[derive(Debug, Clone)]
pub(crate) struct Field {
    /// The key.
    pub(crate) name: &'static str,
    /// One sentence on what it means.
    pub(crate) doc: &'static str,
    /// What it may hold.
    pub(crate) shape: Shape,
    /// Which numbers are allowed.
    pub(crate) limit: Limit,
    /// Whether the table is refused without it.
    pub(crate) required: bool,
}

/// What a value may be.
#[derive(Debug, Clone)]
pub(crate) enum Shape {
    /// A quantity with a unit, written as a string.
    Quantity(Kind),
    /// A bare number.
    Number,
    /// A whole number.
    Whole,
    /// Text.
    Text,
    /// `true` or `false`.
    Switch,
    /// A day of the calendar.
    Date,
    /// One of a few words.
    Choice(&'static [Word]),
    /// A list, of a fixed length where one is given.
    List(Box<Shape>, Option<usize>),
    /// A table with known keys.
    Table(Table),
    /// Tables under free names.
    Named(Box<Shape>),
    /// Tables under free names, whose keys depend on the word under the tag.
    Tagged {
        /// The key that decides.
        tag: &'static str,
        /// The word and the table that goes with it.
        forms: Vec<(&'static str, Table)>,
    },
}

/// One word of a choice, and what it means.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Word {
    /// As it is written in the file.
    pub(crate) word: &'static str,
    /// One sentence on what it means.
    pub(crate) doc: &'static str,
}

/// A table and its keys.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Table {
    /// What the table is for.
    pub(crate) doc: &'static str,
    /// Its keys.
    pub(crate) fields: fn() -> Vec<Field>,
}

/// Which numbers a key allows, in the base unit of its kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Limit {
    /// Every finite number.
    Any,
    /// Greater than zero.
    Positive,
    /// Zero or greater.
    NotNegative,
    /// From zero to one.
    Share,
    /// From the first to the second, both allowed.
    Between(f64, f64),
    /// From the first, allowed, to the second, not allowed.
    Below(f64, f64),
}

impl Limit {
    /// Whether a number is allowed.
    pub(crate) fn allows(self, value: f64) -> bool {
        value.is_finite()
            && match self {
                Self::Any => true,
                Self::Positive => value > 0.0,
                Self::NotNegative => value >= 0.0,
                Self::Share => (0.0..=1.0).contains(&value),
                Self::Between(low, high) => (low..=high).contains(&value),
                Self::Below(low, high) => (low..high).contains(&value),
            }
    }

    /// The limit in words, printed by the given function; `None` where everything is allowed.
    pub(crate) fn words(self, print: impl Fn(f64) -> String) -> Option<String> {
        match self {
            Self::Any => None,
            Self::Positive => Some("greater than zero".to_owned()),
            Self::NotNegative => Some("zero or greater".to_owned()),
            Self::Share => Some("from 0 to 1".to_owned()),
            Self::Between(only, high) if only.to_bits() == high.to_bits() => Some(print(only)),
            Self::Between(low, high) => Some(format!("from {} to {}", print(low), print(high))),
            Self::Below(low, high) => Some(format!("from {} to below {}", print(low), print(high))),
        }
    }
}
