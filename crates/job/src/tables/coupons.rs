//! `[coupons.S]`.

use quantity::{Length, Stress};

use crate::table::{choice, table};

table! {
    /// A set of witness coupons: test pieces made on the day with the same batch, surface and cure.
    Coupons {
        /// What they are; single laps where nothing is said.
        kind: CouponKind,
        /// A CSV file: `specimen, batch, width_mm, overlap_mm, load_n, pattern`, and for cantilevers `crack_mm`.
        data: String,
        /// The strengths themselves, where no file is at hand.
        strengths: Vec<Stress> [Positive],
        /// The distribution on which the bounds rest.
        distribution: Distribution,
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// How the faying surfaces were prepared.
        surface: String,
        /// The material of both plates, by its name under `[materials]`; with it and their thickness, the adhesive's own strengths and toughnesses are found from the coupons.
        adherend: String,
        /// Thickness of both plates.
        thickness: Length [Between(0.1, 50.0)],
        /// From the end of a lap's overlap to the grips.
        free_length: Length [Between(0.0, 1000.0)],
        /// Thickness of the adhesive; the standoff beads where it is absent.
        bondline: Length [Between(0.01, 10.0)],
    }
}

impl Coupons {
    /// Whether the coupons are cracked from one end, so that their loads are no shear strengths.
    pub fn is_cracked(&self) -> bool {
        matches!(self.kind.get(), Some(CouponKind::DoubleCantilever | CouponKind::EndLoadedSplit))
    }
}

choice! {
    /// A kind of coupon.
    CouponKind {
        /// A single lap, thin or thick, pulled in its plane (ISO 4587, ISO 11003-2).
        Lap = "lap",
        /// Two plates cracked from one end, whose ends are pulled apart (ISO 25217).
        DoubleCantilever = "double cantilever",
        /// The same held at the other end and bent as one, so that the crack shears (ISO 15114).
        EndLoadedSplit = "end-loaded split",
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
