//! The one error type of the numbers; failure patterns have their own ([`PatternError`](crate::pattern::PatternError)).

use thiserror::Error;

/// Why a function of this crate has no number to give.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum EvidenceError {
    /// Fewer values than the method needs.
    #[error("{what} needs at least {needed} values, found {found}")]
    TooFew {
        /// The method.
        what: &'static str,
        /// Values needed.
        needed: usize,
        /// Values found.
        found: usize,
    },
    /// More values than the method is defined for.
    #[error("{what} is defined for at most {most} values, found {found}")]
    TooMany {
        /// The method.
        what: &'static str,
        /// Most values admitted.
        most: usize,
        /// Values found.
        found: usize,
    },
    /// A value is not a finite number.
    #[error("value {index} is not a finite number")]
    ValueNotFinite {
        /// Index of the value, from 0.
        index: usize,
    },
    /// A method for positive values met another.
    #[error("value {index} must be positive for {what}, found {value}")]
    ValueNotPositive {
        /// The method.
        what: &'static str,
        /// Index of the value, from 0.
        index: usize,
        /// The value.
        value: f64,
    },
    /// All values are equal, or equal within each group, and the method divides by their scatter.
    #[error("{what} has no meaning without scatter")]
    NoScatter {
        /// The method.
        what: &'static str,
    },
    /// A parameter lies outside its open range.
    #[error("{what} must lie between {above} and {below}, found {value}")]
    OutOfRange {
        /// The parameter.
        what: &'static str,
        /// The value found.
        value: f64,
        /// Lower end, itself excluded.
        above: f64,
        /// Upper end, itself excluded.
        below: f64,
    },
    /// A search or an integration did not settle.
    #[error("{what} did not converge within {limit} steps")]
    NotConverged {
        /// What was being computed.
        what: &'static str,
        /// The limit that was reached.
        limit: usize,
    },
    /// Too many samples of a limit state had no answer.
    #[error("{untold} of {drawn} samples had no answer")]
    Untold {
        /// Samples without an answer.
        untold: usize,
        /// Samples drawn.
        drawn: usize,
    },
    /// Stopped from outside before anything was known.
    #[error("it was stopped before anything was known")]
    Stopped,
    /// A result left the range of numbers.
    #[error("{what} is not a finite number")]
    NotFinite {
        /// What was being computed.
        what: &'static str,
    },
    /// No distribution fits the values.
    #[error("normal, lognormal and Weibull are all rejected at the 5 % level")]
    NoDistributionFits,
}

/// `value` if it lies between the two ends, themselves excluded.
pub(crate) fn between(what: &'static str, value: f64, above: f64, below: f64) -> Result<f64, EvidenceError> {
    // Written so that NaN fails.
    if value > above && value < below {
        Ok(value)
    } else {
        Err(EvidenceError::OutOfRange { what, value, above, below })
    }
}

/// `value` if it is a probability other than 0 and 1.
pub(crate) fn probability(what: &'static str, value: f64) -> Result<f64, EvidenceError> {
    between(what, value, 0.0, 1.0)
}

/// `value` if it is a finite number greater than zero.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<f64, EvidenceError> {
    between(what, value, 0.0, f64::INFINITY)
}

/// `value` if it is finite: the last gate before a result leaves the crate.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<f64, EvidenceError> {
    if value.is_finite() { Ok(value) } else { Err(EvidenceError::NotFinite { what }) }
}
