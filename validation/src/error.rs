//! Why there is no comparison.

use std::path::PathBuf;

use evidence::EvidenceError;
use evidence::pattern::PatternError;
use mechanics::Failure;
use process::ProcessError;
use quantity::ParseQuantityError;
use thiserror::Error;

/// Why the cases could not be read or run.
#[derive(Debug, Error)]
pub enum ValidationError {
    /// A file or folder cannot be read.
    #[error("{}: {source}", path.display())]
    Unreadable {
        /// The file or folder.
        path: PathBuf,
        /// Why.
        source: std::io::Error,
    },
    /// A file is no file of cases.
    #[error("{file}: {source}")]
    Malformed {
        /// The file.
        file: String,
        /// Why, and where.
        source: Box<toml::de::Error>,
    },
    /// A case cannot be run.
    #[error("{file}, case `{case}`: {source}")]
    Case {
        /// The file.
        file: String,
        /// The case's id.
        case: String,
        /// Why.
        source: Box<CaseError>,
    },
    /// Two cases bear the same id.
    #[error("{file}, case `{case}`: another case bears this id")]
    SecondOfThatName {
        /// The file of the second.
        file: String,
        /// The id.
        case: String,
    },
    /// No case reads an input that stands at the head of a file.
    #[error("{file}: no case reads the input `{key}`")]
    UnusedInput {
        /// The file.
        file: String,
        /// The input.
        key: String,
    },
}

/// Why a case could not be run.
#[derive(Debug, Error)]
pub enum CaseError {
    /// No function of that name.
    #[error("no method `{found}`; the register has {}", known.join(", "))]
    UnknownMethod {
        /// The name in the case.
        found: String,
        /// The names in the register.
        known: Vec<&'static str>,
    },
    /// The method does not read an input of the case.
    #[error("the method does not read the input `{key}`")]
    UnusedInput {
        /// The input.
        key: String,
    },
    /// The method gave no numbers.
    #[error("{0}")]
    Method(#[from] MethodError),
    /// The case expects what the method does not give.
    #[error("the method gives no `{found}`, but {}", given.join(", "))]
    UnknownOutput {
        /// The name in the case.
        found: String,
        /// The names that the method gives.
        given: Vec<&'static str>,
    },
    /// An output is infinite or not a number.
    #[error("the method gives {value} for `{output}`")]
    NotFinite {
        /// The output.
        output: String,
        /// What came out.
        value: f64,
    },
    /// Nothing is expected.
    #[error("no value is expected")]
    NothingExpected,
    /// An expected value is not one of the three ways to write it.
    #[error(
        "`{output}` is expected as a value, or as a table of `value` or `from`, `within`, `why`: {source}"
    )]
    MalformedExpectation {
        /// The output.
        output: String,
        /// What is wrong.
        source: Box<toml::de::Error>,
    },
    /// An expected value has neither or both of `value` and `from`.
    #[error("`{output}` needs either `value` or `from`")]
    ValueOrReference {
        /// The output.
        output: String,
    },
    /// An expected value without a tolerance.
    #[error("`{output}` has no tolerance: write `within`, beside it or for the whole case")]
    NoTolerance {
        /// The output.
        output: String,
    },
    /// A tolerance without a reason.
    #[error("the tolerance of `{output}` has no reason: write `why`, beside it or for the whole case")]
    NoReason {
        /// The output.
        output: String,
    },
    /// A tolerance that is negative or no number.
    #[error("the tolerance of `{output}` must be zero or positive")]
    NegativeTolerance {
        /// The output.
        output: String,
    },
    /// A value that cannot be read.
    #[error("{0}")]
    Value(#[from] InputError),
    /// `each` without a reference.
    #[error("`each` needs a `reference` at the head of the file")]
    NoReference,
    /// The reference cannot be read.
    #[error("reference {name}: {what}")]
    Reference {
        /// The reference file.
        name: String,
        /// Why.
        what: String,
    },
    /// The reference has no such key.
    #[error("the reference has no `{path}`")]
    NotInReference {
        /// The key, with those above it.
        path: String,
    },
    /// No entry of the reference passes `only`.
    #[error("no entry of `{path}` in the reference has what `only` asks for")]
    NothingTaken {
        /// The list.
        path: String,
    },
    /// An input to vary is no list.
    #[error("the input `{key}` is to vary, but it is no list")]
    NoListToVary {
        /// The input.
        key: String,
    },
    /// Inputs to vary differ in length.
    #[error("the list `{key}` is not as long as the one before it")]
    UnequalLists {
        /// The second list.
        key: String,
    },
    /// A list of expected values ends before the runs do.
    #[error("a list of {length} values has none for run {needed}")]
    ListTooShort {
        /// Its length.
        length: usize,
        /// The place that is missing, from 1.
        needed: usize,
    },
}

/// Why a method gave no numbers.
#[derive(Debug, Error)]
pub enum MethodError {
    /// An input is missing or not what the method needs.
    #[error("{0}")]
    Input(#[from] InputError),
    /// From `mechanics`.
    #[error("{0}")]
    Mechanics(#[from] Failure),
    /// From `process`.
    #[error("{0}")]
    Process(#[from] ProcessError),
    /// From `evidence`.
    #[error("{0}")]
    Evidence(#[from] EvidenceError),
    /// From `evidence::pattern`.
    #[error("{0}")]
    Pattern(#[from] PatternError),
    /// The method answered without the number that is asked for.
    #[error("the answer has no {what}")]
    NoAnswer {
        /// What is missing.
        what: &'static str,
    },
}

/// Why a value in a case cannot be read. Keys are dotted paths.
#[derive(Debug, Error)]
pub enum InputError {
    /// Nothing there.
    #[error("`{key}` is missing: {expected}")]
    Missing {
        /// Where.
        key: String,
        /// What belongs there.
        expected: &'static str,
    },
    /// Something else there.
    #[error("`{key}` must be {expected}, found {found}")]
    Other {
        /// Where.
        key: String,
        /// What belongs there.
        expected: &'static str,
        /// What stands there.
        found: String,
    },
    /// A text that is no quantity of the kind asked for.
    #[error("`{key}`: {source}")]
    Quantity {
        /// Where.
        key: String,
        /// What is wrong with it.
        source: ParseQuantityError,
    },
    /// A word that the method does not know.
    #[error("`{key}` is one of {}, not \"{found}\"", known.join(", "))]
    Word {
        /// Where.
        key: String,
        /// The word.
        found: String,
        /// The words it knows.
        known: Vec<&'static str>,
    },
}
