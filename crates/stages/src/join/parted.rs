//! A note where a numerical answer and a closed form beside it lie further apart than they are known to.

use assessment::{Basis, Finding, Measure, Verdict};

use super::subject::{Case, Subject};
use crate::Results;

/// Two answers to one question.
pub(super) struct Pair {
    /// What both tell, in words.
    pub(super) what: String,
    /// The numerical answer, its method in words.
    pub(super) ours: (&'static str, f64),
    /// The closed form's, by whom.
    pub(super) theirs: (&'static str, f64),
    /// How far they may part, as a share of the closed form's.
    pub(super) known: f64,
}

impl Pair {
    /// How far they part, as a share of the closed form's.
    pub(super) fn apart(&self) -> f64 {
        (self.ours.1 - self.theirs.1).abs() / self.theirs.1.abs()
    }
}

/// Puts the note, if there is one to make; the reason says what the one counts that the other does not.
pub(super) fn note(
    subject: &Subject<'_>,
    case: &Case<'_>,
    pair: &Pair,
    basis: Basis,
    because: String,
    results: &mut Results,
) {
    let share = pair.apart();
    if share <= pair.known || !share.is_finite() {
        return;
    }
    let finding = subject.under(case, "closed_forms", basis);
    results.findings.push(Finding {
        statement: format!(
            "{} and {} part by {:.0} % in {} of {}.",
            pair.ours.0,
            pair.theirs.0,
            100.0 * share,
            pair.what,
            subject.name
        ),
        value: Some(Measure { value: share, unit: "-", kind: None }),
        limit: Some(Measure { value: pair.known, unit: "-", kind: None }),
        verdict: Verdict::Note,
        because,
        ..finding
    });
}
