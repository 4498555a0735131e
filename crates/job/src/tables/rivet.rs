//! `[rivets.X]`.

use quantity::{ElectricPotential, Force, Length, Stress};

use super::ForceCycles;
use crate::table::{choice, table};

table! {
    /// A kind of rivet.
    Rivet {
        /// How it is made.
        kind: RivetKind,
        /// Diameter of the shank.
        diameter: Length [Between(1.0, 30.0)],
        /// Diameter of the hole.
        hole: Length [Between(1.0, 32.0)],
        /// What it is made of.
        material: RivetMaterial,
        /// Shear strength of one rivet, one shear plane, by the maker's tests (ISO 14589).
        shear_strength: Force [Positive],
        /// Tension strength of one rivet by the maker's tests (ISO 14589).
        tension_strength: Force [Positive],
        /// Force in shear against cycles.
        fatigue: ForceCycles,
        /// Diameter of the head.
        head_diameter: Length [Between(1.0, 80.0)],
        /// Thinnest and thickest stack that it clamps.
        grip: [Length; 2],
        /// Where these values come from.
        source: String,
    }
}

table! {
    /// What a rivet is made of.
    RivetMaterial {
        /// Young's modulus.
        youngs_modulus: Stress [Positive],
        /// Tensile strength, for a solid rivet.
        tensile_strength: Stress [Positive],
        /// Anodic index.
        anodic_index: ElectricPotential,
    }
}

choice! {
    /// How a rivet is made.
    RivetKind {
        /// Set from one side, its stem pulled.
        Blind = "blind",
        /// Set from both sides, its shank upset.
        Solid = "solid",
    }
}
