//! The one error type of the crate.

use thiserror::Error;

/// Why a function of this crate has no number to give.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ProcessError {
    /// An input is not a finite number, or is not greater than zero where it must be.
    #[error("{what} must be a positive number, found {value}")]
    NotPositive {
        /// The input's name.
        what: &'static str,
        /// The value found.
        value: f64,
    },
    /// An input is not a finite number, or is below zero.
    #[error("{what} must be zero or more, found {value}")]
    Negative {
        /// The input's name.
        what: &'static str,
        /// The value found.
        value: f64,
    },
    /// A share lies outside its range.
    #[error("{what} must lie between {least} and {greatest}, found {value}")]
    OutOfRange {
        /// The input's name.
        what: &'static str,
        /// The value found.
        value: f64,
        /// Least admissible value.
        least: f64,
        /// Greatest admissible value.
        greatest: f64,
    },
    /// A temperature is below absolute zero, beyond any cure, or not a number.
    #[error("{value_k} K is not a temperature an adhesive is cured at (0 to {greatest_k} K)")]
    NotATemperature {
        /// The value found, in K.
        value_k: f64,
        /// The greatest accepted temperature, in K.
        greatest_k: f64,
    },
    /// A time in a history is not a finite number.
    #[error("time of sample {index} is not a finite number")]
    TimeNotFinite {
        /// Index of the sample, from 0.
        index: usize,
    },
    /// Two neighbouring times do not rise.
    #[error("times must rise: entry {index} at {time_s} s follows {before_s} s")]
    TimesNotRising {
        /// Index of the later entry, from 0.
        index: usize,
        /// The time before it, s.
        before_s: f64,
        /// Its own time, s.
        time_s: f64,
    },
    /// A temperature history needs at least two samples.
    #[error("a temperature history needs at least two samples, found {count}")]
    TooFewSamples {
        /// Samples found.
        count: usize,
    },
    /// The history says nothing about the time from first mix to its first sample.
    #[error("the history starts at {first_s} s, after first mix at 0 s")]
    StartsAfterFirstMix {
        /// Time of the first sample, s.
        first_s: f64,
    },
    /// The history is over before first mix.
    #[error("the history ends at {end_s} s, not after first mix at 0 s")]
    EndsBeforeFirstMix {
        /// End of the history, s.
        end_s: f64,
    },
    /// A question about a time which the history does not cover.
    #[error("the history covers 0 s to {end_s} s, asked for {time_s} s")]
    OutsideHistory {
        /// The time asked for, s.
        time_s: f64,
        /// End of the history, s.
        end_s: f64,
    },
    /// The history has no end, and the question needs one.
    #[error("a temperature without an end has no state at its end")]
    EndlessHistory,
    /// Two data points at one temperature say nothing about the effect of temperature.
    #[error("both data points are at {temperature_k} K: no activation energy follows")]
    SameTemperature {
        /// The common temperature, K.
        temperature_k: f64,
    },
    /// The hotter data point is not the faster one.
    #[error(
        "the data are not faster when hotter: {hot_time_s} s at {hot_k} K, {cold_time_s} s at {cold_k} K"
    )]
    HotterNotFaster {
        /// The hotter temperature, K.
        hot_k: f64,
        /// Time at the hotter temperature, s.
        hot_time_s: f64,
        /// The colder temperature, K.
        cold_k: f64,
        /// Time at the colder temperature, s.
        cold_time_s: f64,
    },
    /// A table has no rows.
    #[error("{what} has no rows")]
    NoRows {
        /// The table's name.
        what: &'static str,
    },
    /// A strength table falls with time at one temperature.
    #[error("strength must not fall with time: {fraction} at {time_s} s follows {before}")]
    StrengthFalls {
        /// Time of the later row, s.
        time_s: f64,
        /// Fraction of the earlier row.
        before: f64,
        /// Fraction of the later row.
        fraction: f64,
    },
    /// The kinetics cannot start from the given conversion.
    #[error("with rate 1 zero the cure never starts from conversion zero")]
    NeverStarts,
    /// A step count or iteration limit was reached.
    #[error("{what} did not converge within {limit} steps")]
    NotConverged {
        /// What was being computed.
        what: &'static str,
        /// The limit that was reached.
        limit: usize,
    },
    /// A result left the range of numbers.
    #[error("{what} is not a finite number")]
    NotFinite {
        /// What was being computed.
        what: &'static str,
    },
    /// A cartridge holds no more than what is thrown away with its nozzle.
    #[error("a cartridge of {cartridge_mm3} mm³ leaves nothing after a purge of {purge_mm3} mm³")]
    NothingLeftAfterPurge {
        /// Volume of a cartridge, mm³.
        cartridge_mm3: f64,
        /// Purge per cartridge, mm³.
        purge_mm3: f64,
    },
}

/// `value` if it is a finite number greater than zero.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<f64, ProcessError> {
    if value.is_finite() && value > 0.0 { Ok(value) } else { Err(ProcessError::NotPositive { what, value }) }
}

/// `value` if it is a finite number, zero or more.
pub(crate) fn not_negative(what: &'static str, value: f64) -> Result<f64, ProcessError> {
    if value.is_finite() && value >= 0.0 { Ok(value) } else { Err(ProcessError::Negative { what, value }) }
}

/// `value` if it lies in `least..=greatest`.
pub(crate) fn within(what: &'static str, value: f64, least: f64, greatest: f64) -> Result<f64, ProcessError> {
    if (least..=greatest).contains(&value) {
        Ok(value)
    } else {
        Err(ProcessError::OutOfRange { what, value, least, greatest })
    }
}

/// `value` if it is finite: the last gate before a result leaves the crate.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<f64, ProcessError> {
    if value.is_finite() { Ok(value) } else { Err(ProcessError::NotFinite { what }) }
}
