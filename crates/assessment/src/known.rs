//! A value, or one of the ways to have none. Bad files are a third way: they never get as far as this.

use std::fmt;

/// A value, or why there is none; `?` carries an unknown to its finding.
pub type Known<T> = Result<T, Lack>;

/// Why there is no value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Lack {
    /// The job does not give what is needed.
    Missing {
        /// The dotted keys that are absent.
        keys: Vec<String>,
    },
    /// The data given do not reach as far as is asked.
    OutOfData {
        /// What was asked, and how far the data reach.
        what: String,
        /// The key that would settle it.
        key: String,
    },
    /// Nothing loads what is asked about: zero demand has no reserve factor.
    NoLoad,
    /// It was not computed, or not far enough, because no more was asked for.
    NotRun {
        /// What was not, and why.
        what: String,
        /// What to ask for.
        ask: String,
    },
    /// A solver did not get there.
    Failed {
        /// What failed, in words.
        what: String,
        /// What to try.
        advice: String,
    },
}

impl From<job::Absent> for Lack {
    fn from(absent: job::Absent) -> Self {
        Self::Missing { keys: absent.keys }
    }
}

impl fmt::Display for Lack {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing { keys } => write!(f, "the job does not give {}", keys.join(", ")),
            Self::NoLoad => f.write_str("no load acts in this case"),
            Self::OutOfData { what, .. } | Self::NotRun { what, .. } | Self::Failed { what, .. } => {
                f.write_str(what)
            }
        }
    }
}

impl Lack {
    /// What would settle it, in one sentence.
    pub fn remedy(&self) -> String {
        match self {
            Self::Missing { keys } if keys.len() == 1 => format!("fill in {}", keys.join("")),
            Self::Missing { keys } => format!("fill in {}", keys.join(" and ")),
            Self::NoLoad => "give the case a load".to_owned(),
            Self::OutOfData { key, .. } => format!("extend or change {key}"),
            Self::NotRun { ask: advice, .. } | Self::Failed { advice, .. } => advice.clone(),
        }
    }
}
