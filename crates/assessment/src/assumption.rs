//! What was taken for granted because the job does not say it.

use crate::Basis;

/// One thing that was taken for granted for this job; it is made where it is taken, and only if it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assumption {
    /// The dotted key that says it, or what it is about where no key does.
    pub key: String,
    /// One sentence, with the value and its unit where there is one.
    pub statement: String,
    /// On what the value rests.
    pub basis: Basis,
}
