//! Findings: the one currency between computation and faces.

use job::{Edit, Place};

use crate::{Basis, Lack, Measure, Stage};

/// What a finding comes to. The order is from worst to best.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// A requirement is not met.
    NotMet,
    /// It cannot be told.
    Unknown,
    /// The requirement is met.
    Met,
    /// Nothing was required.
    Note,
}

impl Verdict {
    /// The word that every face shows.
    pub fn word(self) -> &'static str {
        match self {
            Self::NotMet => "not met",
            Self::Unknown => "unknown",
            Self::Met => "met",
            Self::Note => "note",
        }
    }

    /// The verdict of a reserve factor: 1.00 is exactly enough.
    pub fn of_reserve(reserve: f64) -> Self {
        if reserve >= 1.0 { Self::Met } else { Self::NotMet }
    }
}

/// What would mend a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Next {
    /// One sentence.
    pub text: String,
    /// The changes to the job file that do it, where they can be told.
    pub edits: Vec<Edit>,
}

impl From<String> for Next {
    fn from(text: String) -> Self {
        Self { text, edits: Vec::new() }
    }
}

/// One thing found out.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// A stable dotted name.
    pub id: String,
    /// The stage that it belongs to.
    pub stage: Stage,
    /// What it is about: the name of a joint, a set of coupons, the bond day.
    pub about: String,
    /// The load case, where there is one.
    pub case: Option<String>,
    /// One plain sentence with the figure in it.
    pub statement: String,
    /// What was found.
    pub value: Option<Measure>,
    /// What it is held against.
    pub limit: Option<Measure>,
    /// Capacity over demand, where there is one.
    pub reserve: Option<f64>,
    /// What it comes to.
    pub verdict: Verdict,
    /// What governs, in one sentence.
    pub because: String,
    /// What would mend it, where that can be told.
    pub next: Option<Next>,
    /// Method and source.
    pub basis: Basis,
    /// Why there is no number, where there is none.
    pub lack: Option<Lack>,
    /// Where in the job file it comes from.
    pub place: Option<Place>,
}

impl Finding {
    /// A finding with the parts that every finding has; the others are set by struct update.
    pub fn new(stage: Stage, id: String, about: &str, basis: Basis) -> Self {
        Self {
            id,
            stage,
            about: about.to_owned(),
            case: None,
            statement: String::new(),
            value: None,
            limit: None,
            reserve: None,
            verdict: Verdict::Note,
            because: String::new(),
            next: None,
            basis,
            lack: None,
            place: None,
        }
    }

    /// The statement with the load case that it belongs to in front.
    pub fn headline(&self) -> String {
        self.case
            .as_ref()
            .map_or_else(|| self.statement.clone(), |case| format!("{case}: {}", self.statement))
    }

    /// Turns it into one that cannot be told, with the reason and with what would settle it. Where nothing loads
    /// what it is about there is nothing to tell, and it becomes a note.
    #[must_use]
    pub fn unknown(self, statement: String, lack: Lack) -> Self {
        if lack == Lack::NoLoad {
            return Self {
                statement: format!("No load acts on this part of {} in this case.", self.about),
                because: "Zero demand has no reserve factor.".to_owned(),
                verdict: Verdict::Note,
                lack: Some(lack),
                ..self
            };
        }
        Self {
            statement,
            verdict: Verdict::Unknown,
            because: format!("{}.", capitalised(&lack.to_string())),
            next: Some(Next::from(format!("{}.", capitalised(&lack.remedy())))),
            lack: Some(lack),
            ..self
        }
    }
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
