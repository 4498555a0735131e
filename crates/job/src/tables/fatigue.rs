//! How often a load comes, and how much of that a part bears.

use quantity::{Force, Stress};

use crate::table::table;

table! {
    /// How often a load case comes in the service life: blocks of cycles, or a log of loads that is counted by rainflow.
    Spectrum {
        /// Blocks of equal cycles.
        blocks: Vec<Block>,
        /// A log of loads as CSV, with the column `share`, the share of the case's load, and if you like `time_s`.
        log: String,
        /// How often the stretch that the log shows comes in the service life.
        repeats: f64 [Between(1.0, 1e9)],
    }
}

table! {
    /// Equal cycles in the service life.
    Block {
        /// Greatest load of the cycle, as a share of the case's load.
        @required share: f64 [Between(-10.0, 10.0)],
        /// Least load of the cycle, as a share of the case's load; without it, none.
        least: f64 [Between(-10.0, 10.0)],
        /// How many cycles.
        @required cycles: f64 [Between(1.0, 1e9)],
    }
}

table! {
    /// Stress against cycles from tests: a straight line in logarithms.
    StressCycles {
        /// The range of nominal stress, from least to greatest, that is borne for `at_cycles`.
        strength: Stress [Positive],
        /// The cycles at that range.
        at_cycles: f64 [Between(1.0, 1e9)],
        /// Exponent of the line: the life falls with this power of the range.
        slope: f64 [Between(1.0, 30.0)],
        /// A range at and below which no cycle counts, where the tests show one.
        cut_off: Stress [Positive],
        /// Least over greatest load in the tests; without it, 0.
        stress_ratio: f64 [Between(-1.0, 0.95)],
    }
}

table! {
    /// Force on one rivet against cycles from tests: a straight line in logarithms.
    ForceCycles {
        /// The range of force on one rivet, from least to greatest, that is borne for `at_cycles`.
        strength: Force [Positive],
        /// The cycles at that range.
        at_cycles: f64 [Between(1.0, 1e9)],
        /// Exponent of the line: the life falls with this power of the range.
        slope: f64 [Between(1.0, 30.0)],
        /// A range at and below which no cycle counts, where the tests show one.
        cut_off: Force [Positive],
        /// Least over greatest load in the tests; without it, 0.
        stress_ratio: f64 [Between(-1.0, 0.95)],
    }
}
