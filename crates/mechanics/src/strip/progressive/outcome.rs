//! What came of loading a strip until it failed.

/// How the way ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum End {
    /// The load fell well below its greatest: the capacity is passed.
    PastPeak,
    /// Nothing holds any more.
    Spent,
    /// Nothing gives, however great the load: it presses the bond together, or there is none. No capacity.
    NothingGives,
    /// The adhesive reached its failure strain, beyond which its law says nothing.
    BondBreaks,
    /// An adherend is strained to its break.
    AdherendBreaks,
    /// No balance was found beyond the last step, however small: there is no capacity.
    Stalled {
        /// Load factor of the last balance.
        factor: f64,
        /// What was left out of balance, against the work of the load.
        residual: f64,
    },
    /// The steps allowed were used up before the load fell: there is no capacity.
    LimitReached {
        /// Steps taken.
        steps: u32,
    },
}

/// A moment of the way.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moment {
    /// Load factor.
    pub factor: f64,
    /// Axial displacement of the right end less that of the left, mm, temperature included.
    pub displacement_mm: f64,
}

/// Work that stays in the joint, N·mm for each millimetre of width.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spent {
    /// Opening of the bond.
    pub opening_n: f64,
    /// Shear of the bond, along and across.
    pub shear_n: f64,
    /// Rivets.
    pub rivets_n: f64,
    /// Yielding of the adherends.
    pub adherends_n: f64,
}

impl Spent {
    /// All of it.
    #[must_use]
    pub fn sum_n(&self) -> f64 {
        self.opening_n + self.shear_n + self.rivets_n + self.adherends_n
    }
}

/// A balance on the way.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Step {
    /// Load and displacement.
    pub at: Moment,
    /// Length of the bond that has begun to give, mm.
    pub damaged_mm: f64,
    /// Length of the bond that holds no more, mm.
    pub lost_mm: f64,
    /// Share of the load that the rivet rows carry; zero without load.
    pub rivet_share: f64,
    /// Work of the load since the temperature acted, N·mm/mm.
    pub work_n: f64,
    /// Elastic energy, N·mm/mm.
    pub stored_n: f64,
    /// What stays.
    pub spent: Spent,
}

/// An adherend.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Adherend 1.
    Upper,
    /// Adherend 2.
    Lower,
}

/// What happened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum What {
    /// The bond begins to give at a place, mm from the left end; said of the first place of each half.
    BondGives {
        /// The place.
        x_mm: f64,
    },
    /// The bond holds no more at a place; said of the first place of each half.
    BondSpent {
        /// The place.
        x_mm: f64,
    },
    /// No part of the bond holds any more.
    BondGone,
    /// A rivet row has reached its strength.
    RowYields {
        /// Its place in the list.
        row: usize,
    },
    /// A rivet row has let go.
    RowBreaks {
        /// Its place in the list.
        row: usize,
    },
    /// An adherend begins to yield.
    AdherendYields(Side),
    /// An adherend is strained to its break.
    AdherendBreaks(Side),
}

/// What happened when.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Event {
    /// What.
    pub what: What,
    /// The balance at which it was first seen.
    pub at: Moment,
    /// Which balance that is, in the order of the way.
    pub step: usize,
}

/// The bond at a place at the greatest load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// mm from the left end of the overlap.
    pub x_mm: f64,
    /// Shear along, MPa.
    pub shear_mpa: f64,
    /// Shear across, MPa.
    pub across_mpa: f64,
    /// Peel, MPa, opening positive.
    pub peel_mpa: f64,
    /// Share of the layer's stiffness that is gone; of a layer that yields, share of its failure strain
    /// used up beyond yielding.
    pub damage: f64,
}

/// What it took.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effort {
    /// Balances found.
    pub steps: u32,
    /// Linear systems solved.
    pub solutions: u32,
    /// Steps thrown away.
    pub rejected: u32,
}

impl Effort {
    /// This and a further one.
    pub(super) fn and(self, further: &Self) -> Self {
        Self {
            steps: self.steps + further.steps,
            solutions: self.solutions + further.solutions,
            rejected: self.rejected + further.rejected,
        }
    }
}

/// The way to failure.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// How it ended.
    pub end: End,
    /// Where the bond first gives.
    pub onset: Option<Moment>,
    /// The greatest load, if it was passed.
    pub capacity: Option<Moment>,
    /// Which balance stands nearest to it; the last before it.
    pub peak_step: usize,
    /// Every balance in order.
    pub steps: Vec<Step>,
    /// What happened, in order.
    pub events: Vec<Event>,
    /// The bond at the greatest load found.
    pub at_peak: Vec<Place>,
    /// Greatest difference between the work of the load and the energy stored and spent, against the
    /// greatest work.
    pub energy_error: f64,
    /// What it took.
    pub effort: Effort,
}

impl Default for Outcome {
    fn default() -> Self {
        Self {
            end: End::LimitReached { steps: 0 },
            onset: None,
            capacity: None,
            peak_step: 0,
            steps: Vec::new(),
            events: Vec::new(),
            at_peak: Vec::new(),
            energy_error: 0.0,
            effort: Effort::default(),
        }
    }
}
