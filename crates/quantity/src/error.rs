//! What can be wrong with the text of a quantity, and what to do about it.

use std::ops::Range;

use crate::kind::Kind;

/// Why a text is not a quantity of the kind asked for.
///
/// Printed, it is one line: what was found, what is expected, and a way to mend it where there
/// is one.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{}", self.sentence())]
#[non_exhaustive]
pub enum ParseQuantityError {
    /// Nothing but white space.
    Empty {
        /// The kind asked for.
        kind: Kind,
        /// Where in the text.
        span: Range<usize>,
    },
    /// No number where one must stand.
    NoNumber {
        /// The kind asked for.
        kind: Kind,
        /// What stands there instead.
        rest: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// Something like `1.2.3`.
    MalformedNumber {
        /// The kind asked for.
        kind: Kind,
        /// The number as written.
        written: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A comma in a number, which some read as a point and others skip.
    DecimalComma {
        /// The kind asked for.
        kind: Kind,
        /// The number as written.
        written: String,
        /// The numbers that may have been meant.
        meant: Vec<String>,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A fraction over zero.
    DivisionByZero {
        /// The kind asked for.
        kind: Kind,
        /// The fraction as written.
        written: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// "nan" or "inf".
    NotFinite {
        /// The kind asked for.
        kind: Kind,
        /// The word as written.
        written: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// Beyond the range of numbers.
    TooLarge {
        /// The kind asked for.
        kind: Kind,
        /// The quantity as written.
        written: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// Not zero, but too small to be told from it.
    TooSmall {
        /// The kind asked for.
        kind: Kind,
        /// The quantity as written.
        written: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A bare number where a unit is needed.
    NoUnit {
        /// The kind asked for.
        kind: Kind,
        /// The number as written.
        number: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A word that is no unit.
    UnknownUnit {
        /// The kind asked for.
        kind: Kind,
        /// The word as written.
        unit: String,
        /// The unit that was probably meant.
        nearest: Option<&'static str>,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A unit that breaks off, such as `N/`.
    UnfinishedUnit {
        /// The kind asked for.
        kind: Kind,
        /// The unit as written.
        unit: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A unit that can be read in two ways which differ.
    AmbiguousUnit {
        /// The kind asked for.
        kind: Kind,
        /// The unit as written.
        unit: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A quantity of another kind.
    WrongKind {
        /// The kind asked for.
        kind: Kind,
        /// The unit as written.
        unit: String,
        /// What it measures instead; empty where it measures nothing known here.
        found: Vec<Kind>,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A character that has no place in a quantity.
    UnexpectedCharacter {
        /// The kind asked for.
        kind: Kind,
        /// The character.
        character: char,
        /// Where in the text.
        span: Range<usize>,
    },
    /// More than one number, and not as in `1 h 30 min`.
    SeveralNumbers {
        /// The kind asked for.
        kind: Kind,
        /// Where in the text.
        span: Range<usize>,
    },
    /// Zero kelvin or below.
    NotAboveAbsoluteZero {
        /// The temperature in °C.
        celsius: f64,
        /// Where in the text.
        span: Range<usize>,
    },
    /// More text than any quantity needs.
    TooLong {
        /// The kind asked for.
        kind: Kind,
        /// Where in the text.
        span: Range<usize>,
    },
}

impl ParseQuantityError {
    /// The bytes of the text that are at fault.
    pub fn span(&self) -> Range<usize> {
        match self {
            Self::Empty { span, .. }
            | Self::NoNumber { span, .. }
            | Self::MalformedNumber { span, .. }
            | Self::DecimalComma { span, .. }
            | Self::DivisionByZero { span, .. }
            | Self::NotFinite { span, .. }
            | Self::TooLarge { span, .. }
            | Self::TooSmall { span, .. }
            | Self::NoUnit { span, .. }
            | Self::UnknownUnit { span, .. }
            | Self::UnfinishedUnit { span, .. }
            | Self::AmbiguousUnit { span, .. }
            | Self::WrongKind { span, .. }
            | Self::UnexpectedCharacter { span, .. }
            | Self::SeveralNumbers { span, .. }
            | Self::NotAboveAbsoluteZero { span, .. }
            | Self::TooLong { span, .. } => span.clone(),
        }
    }

    /// The kind of quantity that was asked for.
    pub fn kind(&self) -> Kind {
        match *self {
            Self::Empty { kind, .. }
            | Self::NoNumber { kind, .. }
            | Self::MalformedNumber { kind, .. }
            | Self::DecimalComma { kind, .. }
            | Self::DivisionByZero { kind, .. }
            | Self::NotFinite { kind, .. }
            | Self::TooLarge { kind, .. }
            | Self::TooSmall { kind, .. }
            | Self::NoUnit { kind, .. }
            | Self::UnknownUnit { kind, .. }
            | Self::UnfinishedUnit { kind, .. }
            | Self::AmbiguousUnit { kind, .. }
            | Self::WrongKind { kind, .. }
            | Self::UnexpectedCharacter { kind, .. }
            | Self::SeveralNumbers { kind, .. }
            | Self::TooLong { kind, .. } => kind,
            Self::NotAboveAbsoluteZero { .. } => Kind::Temperature,
        }
    }

    /// What is wrong, such as `this is a length`.
    pub fn found(&self) -> String {
        match self {
            Self::Empty { .. } => "nothing is written here".to_owned(),
            Self::NoNumber { rest, .. } if rest.is_empty() => "there is no number".to_owned(),
            Self::NoNumber { rest, .. } => format!("there is no number before \"{rest}\""),
            Self::MalformedNumber { written, .. } => format!("\"{written}\" is not a number"),
            Self::DecimalComma { written, .. } => format!("the number \"{written}\" has a comma"),
            Self::DivisionByZero { written, .. } => format!("\"{written}\" divides by zero"),
            Self::NotFinite { written, .. } => format!("\"{written}\" is not a finite number"),
            Self::TooLarge { written, .. } => format!("\"{written}\" is too large to compute with"),
            Self::TooSmall { written, .. } => {
                format!("\"{written}\" is too small to be told from zero")
            }
            Self::NoUnit { number, .. } => format!("\"{number}\" has no unit"),
            Self::UnknownUnit { unit, .. } => format!("\"{unit}\" is not a unit known here"),
            Self::UnfinishedUnit { unit, .. } => format!("the unit \"{unit}\" breaks off"),
            Self::AmbiguousUnit { unit, .. } => {
                format!("the unit \"{unit}\" can be read in two ways")
            }
            Self::WrongKind { unit, found, .. } => match found.split_last() {
                None => format!("the unit \"{unit}\" fits no quantity used here"),
                Some((only, [])) => format!("this is {}", only.facts().phrase),
                Some((last, others)) => {
                    let others: Vec<_> = others.iter().map(|kind| kind.facts().phrase).collect();
                    format!("this is {} or {}", others.join(", "), last.facts().phrase)
                }
            },
            Self::UnexpectedCharacter { character, .. } => {
                format!("\"{}\" has no place here", character.escape_debug())
            }
            Self::SeveralNumbers { .. } => "this is more than one number".to_owned(),
            Self::NotAboveAbsoluteZero { .. } => {
                "this temperature is not above absolute zero, -273.15 °C".to_owned()
            }
            Self::TooLong { .. } => "this is longer than any quantity".to_owned(),
        }
    }

    /// What is allowed, such as `a stress, such as "24 MPa" or "3500 psi"`.
    pub fn expected(&self) -> String {
        let kind = self.kind();
        let phrase = kind.facts().phrase;
        match kind.examples() {
            [first, second, ..] => format!("{phrase}, such as \"{first}\" or \"{second}\""),
            [only] => format!("{phrase}, such as \"{only}\""),
            [] => phrase.to_owned(),
        }
    }

    /// What would mend it, where that can be told.
    pub fn mend(&self) -> Option<String> {
        match self {
            Self::DecimalComma { meant, .. } => {
                let quoted: Vec<_> = meant.iter().map(|number| format!("\"{number}\"")).collect();
                Some(format!("write {}", quoted.join(" or ")))
            }
            Self::NoUnit { kind, number, .. } => {
                let [first, second] = kind.facts().likely;
                Some(format!("write \"{number} {first}\" or \"{number} {second}\""))
            }
            Self::UnknownUnit { unit, nearest, .. } => {
                mend_word(unit).or_else(|| nearest.map(|unit| format!("did you mean \"{unit}\"?")))
            }
            Self::UnexpectedCharacter { kind: Kind::Time, character: ':', .. } => {
                Some("write hours and minutes as in \"1 h 30 min\"".to_owned())
            }
            Self::AmbiguousUnit { .. } => Some("put what stands below the stroke in brackets".to_owned()),
            Self::WrongKind { kind, unit, found, .. } => mend_kind(*kind, unit, found),
            Self::SeveralNumbers { kind, .. } => {
                let compound = match kind {
                    Kind::Length => "6 ft 2 in",
                    Kind::Time => "1 h 30 min",
                    Kind::Mass => "5 lb 3 oz",
                    _ => return Some("write one number with its unit".to_owned()),
                };
                Some(format!("write one number, or the greater unit first, as in \"{compound}\""))
            }
            _ => None,
        }
    }

    fn sentence(&self) -> String {
        let mend = self.mend().map_or_else(String::new, |mend| format!("; {mend}"));
        format!("{}; expected {}{mend}", self.found(), self.expected())
    }
}

/// Words that have no fixed size, or more than one.
fn mend_word(word: &str) -> Option<String> {
    let mend = match word.to_lowercase().as_str() {
        "ton" | "tons" => "tons differ; write \"t\" for 1000 kg, or the figure in \"lb\"",
        "gal" | "gallon" | "gallons" => "gallons differ; write \"US gal\", or the figure in \"L\"",
        "month" | "months" | "mo" | "year" | "years" | "yr" => {
            "months and years differ; write the days, \"d\""
        }
        _ => return None,
    };
    Some(mend.to_owned())
}

/// Slips between kinds that happen often enough to have an answer of their own.
fn mend_kind(asked: Kind, unit: &str, found: &[Kind]) -> Option<String> {
    let mend = match (asked, unit) {
        (Kind::Stress, "mPa") => "did you mean \"MPa\"?",
        (Kind::Time, "m") => "did you mean \"min\"?",
        (Kind::Temperature, _) if found == [Kind::Angle] => "write \"°C\" or \"°F\"",
        (Kind::Force, _) if found == [Kind::Mass] => "for the weight of a mass write \"kgf\" or \"lbf\"",
        (Kind::Moment, _) if found.contains(&Kind::Energy) => "a moment is written in \"N·m\" or \"in·lbf\"",
        (Kind::LineLoad | Kind::Stiffness, _) if found == [Kind::Toughness] => "did you mean \"N/mm\"?",
        (Kind::Volume, "oz") => "did you mean \"fl oz\"?",
        (Kind::Area, _) if found == [Kind::Length] => "an area has a square unit, such as \"mm²\"",
        (Kind::Volume, _) if found == [Kind::Length] => "a volume has a cubic unit, such as \"cm³\"",
        _ => return None,
    };
    Some(mend.to_owned())
}
