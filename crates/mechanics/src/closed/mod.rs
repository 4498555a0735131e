//! Closed forms, as their authors wrote them.

pub mod bigwood_crocombe;
pub mod disc;
pub mod double_lap;
pub mod elastic_plastic;
pub mod goland_reissner;
pub mod hart_smith;
mod lap;
mod ratio;
mod shear_lag;
pub mod tsai_oplinger_morton;
pub mod tube;
pub mod volkersen;

pub use lap::{Lap, Layer};
pub use shear_lag::ShearLag;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Adherend;

    fn lap(poissons_ratio: f64, layer: Layer, overlap_mm: f64) -> Lap {
        let plate = Adherend {
            youngs_modulus_mpa: 70_000.0,
            poissons_ratio,
            thickness_mm: 2.0,
            thermal_expansion_per_k: 23e-6,
        };
        Lap { upper: plate, lower: plate, layer, overlap_mm }
    }

    /// Worked example 3 of Willberg, Krafteinleitung und Fügetechniken (seminar, HS
    /// Magdeburg-Stendal): VOLK-BAL-1; Poisson's ratio as in TOM-1. The Young's modulus of the
    /// adhesive is not in the source; Volkersen does not use it.
    pub(super) fn willberg() -> Lap {
        let layer = Layer { youngs_modulus_mpa: 2200.0, shear_modulus_mpa: 800.0, thickness_mm: 0.1 };
        lap(0.33, layer, 30.0)
    }

    /// The lap of GR-K-1, GR-SHEAR-1, GR-PEEL-1, HS-K-1, BC-PEEL-1.
    pub(super) fn coupon() -> Lap {
        let layer = Layer { youngs_modulus_mpa: 2500.0, shear_modulus_mpa: 900.0, thickness_mm: 0.2 };
        lap(0.33, layer, 25.0)
    }
}
