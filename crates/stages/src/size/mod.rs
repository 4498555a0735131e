//! Sizing: the least overlap, rows, bondline and insert wall at which a joint has a target reserve.
//!
//! Every candidate goes the way that a reader's own change would go: edits, text, reading, [`crate::assess`]. There is
//! no second model, so what is found here is what `check` says once the edits are applied.

mod search;
mod trial;
mod variables;

use assessment::{Assessment, Finding, names};
use job::{Edit, Files, Problem};

use self::search::Search;
pub use self::trial::{Governs, Trial};
use self::variables::Variables;
pub use self::variables::{Bounds, Candidate};
use crate::{Ask, Watch, assess};

/// What is to be sized.
#[derive(Debug, Clone, PartialEq)]
pub struct Request<'a> {
    /// The joint, by its name under `[joints]`.
    pub joint: &'a str,
    /// The reserve factor to be reached.
    pub target: f64,
    /// How far each size may go.
    pub bounds: Bounds,
}

/// Why nothing was sized.
#[derive(Debug)]
pub enum Refusal {
    /// The job has problems.
    Problems(Vec<Problem>),
    /// The request cannot be met: why.
    Cannot(String),
}

/// What came of sizing a joint.
#[derive(Debug, Clone)]
pub struct Sizing {
    /// The reserve factor that was asked for.
    pub target: f64,
    /// Whether the edits reach it.
    pub reached: bool,
    /// The joint as planned.
    pub planned: Trial,
    /// The sizes that reach the target, or else those that come nearest to it.
    pub chosen: Trial,
    /// The changes to the job file that lead from the one to the other.
    pub edits: Vec<Edit>,
    /// The job file with these edits.
    pub text: String,
    /// Reserves against overlap, all else as chosen; as far as it was not stopped.
    pub by_overlap: Vec<Trial>,
    /// Reserves against rows of rivets at the chosen overlap, all else as chosen; as far as it was not stopped.
    pub by_rows: Vec<Trial>,
    /// How far the overlap was searched, and what sets the end, in words.
    pub range: String,
    /// The overlap beyond which the peak of the shear hardly falls, mm: the longest of all cases.
    pub helps_to_mm: Option<f64>,
    /// What none of these sizes lifts, and what falls short of the target there.
    pub limits: Vec<Finding>,
    /// How many candidates were assessed.
    pub tried: usize,
    /// Whether it was stopped: smaller sizes may do, or others where none does.
    pub stopped: bool,
    /// The job with the edits.
    pub assessment: Assessment,
}

/// Sizes a joint of a job.
///
/// Of all sizes within the bounds that reach the target the least overlap is chosen, in whole millimetres; at that
/// overlap the fewest rows, then the bondline nearest to the planned one, then the thinnest insert. The watch tells how far
/// it has come; stopped by it, the best sizes so far are chosen, and the trade-off is left out.
///
/// # Errors
/// The problems of the job, or a joint that does not exist or has no overlap.
pub fn size(
    name: &str,
    text: &str,
    files: &dyn Files,
    request: &Request<'_>,
    watch: &Watch,
) -> Result<Sizing, Refusal> {
    let job = job::read(name, text, files).map_err(Refusal::Problems)?;
    let Some(joint) = job.tables.joints.get(request.joint) else {
        let known: Vec<&str> = job.tables.joints.iter().map(|(name, _)| name).collect();
        let known = if known.is_empty() { "none".to_owned() } else { known.join(", ") };
        return Err(Refusal::Cannot(format!("the job has no joint \"{}\"; it has: {known}", request.joint)));
    };
    let variables = Variables::of(&job, joint, &request.bounds).map_err(Refusal::Cannot)?;
    let before = assess(&job, &Ask::default());
    let mut search = Search::new(name, text, files, request, &variables, &before, watch);
    if search.planned().least.is_none() && search.planned().unknown.is_empty() {
        return Err(Refusal::Cannot(format!(
            "nothing is required of {} that its sizes could bring, so there is nothing to size",
            request.joint
        )));
    }
    let chosen = search.run();
    let stopped = search.is_stopped();
    let edits = variables.edits(&chosen.candidate);
    let text = job::edit(text, &edits).map_err(Refusal::Problems)?;
    let job = job::read(name, &text, files).map_err(Refusal::Problems)?;
    let assessment = assess(&job, &Ask::default());
    Ok(Sizing {
        target: request.target,
        reached: search.reaches(&chosen),
        planned: search.planned().clone(),
        by_overlap: search.by_overlap(&chosen.candidate),
        by_rows: search.by_rows(&chosen.candidate),
        range: variables.range(),
        helps_to_mm: helps_to_mm(&assessment, request.joint),
        limits: search.limits(&assessment),
        tried: search.tried(),
        stopped,
        chosen,
        edits,
        text,
        assessment,
    })
}

/// The longest overlap of all cases beyond which the peak of the shear hardly falls, mm.
fn helps_to_mm(assessment: &Assessment, joint: &str) -> Option<f64> {
    let start = format!("join.{joint}.");
    let all = assessment.quantities.iter();
    let of_joint = all.filter(|(name, _)| name.starts_with(&start) && names::OVERLAP_HELPS_TO.matches(name));
    of_joint.map(|(_, measure)| measure.value).reduce(f64::max)
}

#[cfg(test)]
mod tests;
