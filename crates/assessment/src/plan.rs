//! The plan of a bond day: what happens when, counted from first mix.

use crate::{Known, Verdict};

/// The plan of one joint.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The joint.
    pub joint: String,
    /// Its steps in the order in which they are read.
    pub steps: Vec<Step>,
}

/// One step of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What happens, or what must have happened by then.
    pub what: String,
    /// When, or why that is not known.
    pub when: Known<When>,
    /// The latest that the job asks for, s from first mix.
    pub asked_s: Option<f64>,
    /// How the time stands against what is asked; a note where nothing is.
    pub verdict: Verdict,
    /// What else is to be known of it; may be empty.
    pub remark: String,
}

/// A time of a plan, s; always finite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum When {
    /// At a time from first mix.
    At(f64),
    /// No later than a time from first mix.
    By(f64),
    /// For no longer than this, whenever it begins.
    For(f64),
    /// From one time to another, from first mix.
    Between(f64, f64),
}
