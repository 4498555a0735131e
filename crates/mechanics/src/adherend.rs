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

/// Refuses a pair of adherends of which one is none; adherend 1 is the upper one.
pub(crate) fn check_pair(upper: &Adherend, lower: &Adherend) -> Result<(), Failure> {
    let names = [
        ["upper Young's modulus", "upper Poisson's ratio", "upper thickness", "upper thermal expansion"],
        ["lower Young's modulus", "lower Poisson's ratio", "lower thickness", "lower thermal expansion"],
    ];
    for (adherend, [modulus, ratio, thickness, expansion]) in [upper, lower].into_iter().zip(names) {
        failure::positive(modulus, adherend.youngs_modulus_mpa)?;
        failure::poissons_ratio(ratio, adherend.poissons_ratio)?;
        failure::positive(thickness, adherend.thickness_mm)?;
        failure::finite(expansion, adherend.thermal_expansion_per_k)?;
    }
    Ok(())
}
