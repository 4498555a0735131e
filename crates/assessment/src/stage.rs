//! The seven stages through which a job runs.

/// A stage, in the repairer's order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// How far did the damage go, and what must be made safe first?
    Triage,
    /// Which cut line, may I, and is it worth it?
    Choose,
    /// Does the joint carry what the original carried?
    Join,
    /// Is the cut good enough, and where does the piece go?
    Fit,
    /// How much adhesive, in which order, how long have I got, when may it be moved, driven, loaded?
    BondDay,
    /// How do I know that this one holds?
    Prove,
    /// What can I show, and who can trust it?
    HandOver,
}

impl Stage {
    /// All stages in the repairer's order.
    pub const ALL: [Self; 7] =
        [Self::Triage, Self::Choose, Self::Join, Self::Fit, Self::BondDay, Self::Prove, Self::HandOver];

    /// The name that people read.
    pub fn title(self) -> &'static str {
        match self {
            Self::Triage => "Triage",
            Self::Choose => "Choose",
            Self::Join => "Join",
            Self::Fit => "Fit",
            Self::BondDay => "Bond day",
            Self::Prove => "Prove",
            Self::HandOver => "Hand over",
        }
    }

    /// The name that commands and files use.
    pub fn word(self) -> &'static str {
        match self {
            Self::Triage => "triage",
            Self::Choose => "choose",
            Self::Join => "join",
            Self::Fit => "fit",
            Self::BondDay => "bond_day",
            Self::Prove => "prove",
            Self::HandOver => "hand_over",
        }
    }

    /// The question that the repairer must answer before going on.
    pub fn question(self) -> &'static str {
        match self {
            Self::Triage => "How far did the damage go, and what must be made safe first?",
            Self::Choose => "Which cut line, may I, and is it worth it?",
            Self::Join => "Does the joint carry what the original carried, and what if the bond fails?",
            Self::Fit => "Is the cut good enough, and where exactly does the piece go?",
            Self::BondDay => "How much adhesive, how long have I got, when may it be moved, driven, loaded?",
            Self::Prove => "How do I know that this one holds?",
            Self::HandOver => "What can I show, and who can trust it?",
        }
    }
}
