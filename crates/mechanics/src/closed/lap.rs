//! The bonded single lap as the closed forms see it.

use crate::adherend::{self, Adherend, Role};
use crate::failure::{self, Failure};

/// The adhesive layer of a lap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Young's modulus E_a, MPa.
    pub youngs_modulus_mpa: f64,
    /// Shear modulus G_a, MPa.
    pub shear_modulus_mpa: f64,
    /// Bondline thickness h, mm.
    pub thickness_mm: f64,
}

impl Layer {
    pub(super) fn check(&self) -> Result<(), Failure> {
        failure::positive("adhesive Young's modulus", self.youngs_modulus_mpa)?;
        failure::positive("adhesive shear modulus", self.shear_modulus_mpa)?;
        failure::positive("bondline", self.thickness_mm)?;
        Ok(())
    }
}

/// A bonded single lap: adherend 1 above, loaded at the left end x = 0; adherend 2 below, loaded at
/// the right end x = L.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lap {
    /// Adherend 1.
    pub upper: Adherend,
    /// Adherend 2.
    pub lower: Adherend,
    /// The adhesive.
    pub layer: Layer,
    /// Length L of the overlap, mm.
    pub overlap_mm: f64,
}

impl Lap {
    /// Refuses what is not a lap.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range.
    pub fn check(&self) -> Result<(), Failure> {
        adherend::check(&self.upper, Role::Upper)?;
        adherend::check(&self.lower, Role::Lower)?;
        self.layer.check()?;
        failure::positive("overlap", self.overlap_mm)?;
        Ok(())
    }

    /// The adherend, if both are the same; `formula` is the one that needs it so.
    pub(super) fn balanced(&self, formula: &'static str) -> Result<&Adherend, Failure> {
        self.check()?;
        let (a, b) = (&self.upper, &self.lower);
        for (property, upper, lower) in [
            ("Young's modulus", a.youngs_modulus_mpa, b.youngs_modulus_mpa),
            ("Poisson's ratio", a.poissons_ratio, b.poissons_ratio),
            ("thickness", a.thickness_mm, b.thickness_mm),
        ] {
            // Equal as written in a file, whatever unit it was converted from.
            if (upper - lower).abs() > 1e-9 * upper.abs() {
                return Err(Failure::UnequalAdherends { formula, property, upper, lower });
            }
        }
        Ok(a)
    }
}
