//! `[materials.X]`.

use quantity::{ElectricPotential, Stress, ThermalExpansion};

use super::StressCycles;
use crate::table::table;

table! {
    /// A material of the parts that are joined.
    Material {
        /// Young's modulus.
        youngs_modulus: Stress [Positive],
        /// Poisson's ratio.
        poissons_ratio: f64 [Below(0.0, 0.5)],
        /// 0.2 % proof strength.
        proof_strength: Stress [Positive],
        /// Tensile strength.
        tensile_strength: Stress [Positive],
        /// Elongation at failure, as a share of the length.
        elongation: f64 [Share],
        /// Stress against cycles at a rivet hole: the range of nominal stress in the net section.
        fatigue_at_holes: StressCycles,
        /// Linear thermal expansion.
        thermal_expansion: ThermalExpansion [NotNegative],
        /// Anodic index.
        anodic_index: ElectricPotential,
        /// Where these values come from.
        source: String,
    }
}
