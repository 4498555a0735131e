//! The members that a bond joins.

use crate::failure::{self, Failure};

/// One of the two members that the bond joins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Adherend {
    /// Young's modulus E, MPa.
    pub youngs_modulus_mpa: f64,
    /// Poisson's ratio ν.
    pub poissons_ratio: f64,
    /// Thickness t, mm.
    pub thickness_mm: f64,
    /// Thermal expansion α, 1/K.
    pub thermal_expansion_per_k: f64,
}

impl Adherend {
    /// E t, N/mm.
    #[must_use]
    pub fn axial_stiffness_n_mm(&self) -> f64 {
        self.youngs_modulus_mpa * self.thickness_mm
    }

    /// G = E/(2 (1 + ν)), MPa.
    #[must_use]
    pub fn shear_modulus_mpa(&self) -> f64 {
        self.youngs_modulus_mpa / (2.0 * (1.0 + self.poissons_ratio))
    }
}

/// What an adherend's arguments are called in a refusal.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Role {
    Upper,
    Lower,
    Inner,
    Outer,
}

impl Role {
    fn names(self) -> [&'static str; 4] {
        match self {
            Self::Upper => [
                "upper Young's modulus",
                "upper Poisson's ratio",
                "upper thickness",
                "upper thermal expansion",
            ],
            Self::Lower => [
                "lower Young's modulus",
                "lower Poisson's ratio",
                "lower thickness",
                "lower thermal expansion",
            ],
            Self::Inner => [
                "inner Young's modulus",
                "inner Poisson's ratio",
                "inner thickness",
                "inner thermal expansion",
            ],
            Self::Outer => [
                "outer Young's modulus",
                "outer Poisson's ratio",
                "outer thickness",
                "outer thermal expansion",
            ],
        }
    }
}

/// Refuses what is not an adherend.
pub(crate) fn check(adherend: &Adherend, role: Role) -> Result<(), Failure> {
    let [modulus, ratio, thickness, expansion] = role.names();
    failure::positive(modulus, adherend.youngs_modulus_mpa)?;
    failure::poissons_ratio(ratio, adherend.poissons_ratio)?;
    failure::positive(thickness, adherend.thickness_mm)?;
    failure::finite(expansion, adherend.thermal_expansion_per_k)?;
    Ok(())
}
