//! `[coupons.S]`.

use quantity::Stress;

use crate::table::{choice, table};

table! {
    /// A set of witness coupons: test pieces made on the day with the same batch, surface and cure.
    Coupons {
        /// A CSV file: `specimen, batch, width_mm, overlap_mm, load_n, pattern`.
        data: String,
        /// The strengths themselves, where no file is at hand.
        strengths: Vec<Stress> [Positive],
        /// The distribution on which the bounds rest.
        distribution: Distribution,
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// How the faying surfaces were prepared.
        surface: String,
    }
}

choice! {
    /// The distribution on which the bounds rest.
    Distribution {
        /// Normal.
        Normal = "normal",
        /// The logarithms are normal.
        Lognormal = "lognormal",
        /// Two-parameter Weibull.
        Weibull = "weibull",
        /// Of the three the one that the specimens contradict least.
        Best = "best",
    }
}
