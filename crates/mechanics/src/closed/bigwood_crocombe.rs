//! Bigwood and Crocombe's simplified peel for unequal adherends.

use super::lap::Lap;
use crate::adherend::Adherend;
use crate::failure::{self, Failure};

/// Peel at the end of the overlap, by what causes it, MPa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndPeel {
    /// Of the moment.
    pub of_moment_mpa: f64,
    /// Of the shear force.
    pub of_shear_mpa: f64,
}

impl EndPeel {
    /// Both together, MPa.
    #[must_use]
    pub fn total_mpa(&self) -> f64 {
        self.of_moment_mpa + self.of_shear_mpa
    }
}

/// Peel at the end where adherend 1 is loaded by a moment and a shear force.
///
/// ```text
/// β_i = 12 E_a (1 − ν_i²)/(E_i t_i³ h)
///
/// σ_M = β₁ M/sqrt(β₁ + β₂)        σ_V = √2 β₁ V/(β₁ + β₂)^(3/4)
/// ```
///
/// M moment (N·mm/mm) that opens the bond, V rate at which it grows into the overlap (N/mm), E, ν, t
/// of the adherends (MPa, –, mm), E_a Young's modulus of the adhesive (MPa), h bondline (mm).
///
/// Overlap long against the decay of the peel, so that the ends do not feel each other; the
/// adherends' shear is left out of the peel. With 1 − ν² = 1 and equal adherends it meets Goland and
/// Reissner's peak for a long overlap.
///
/// After Bigwood and Crocombe 1989, Int. J. Adhesion Adhesives 9, 229–242 (from memory, re-derived
/// for the endless overlap).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn end_peel(lap: &Lap, moment_n: f64, shear_n_mm: f64) -> Result<EndPeel, Failure> {
    lap.check()?;
    failure::finite("edge moment", moment_n)?;
    failure::finite("edge shear", shear_n_mm)?;
    let compliance = |plate: &Adherend| {
        let nu = plate.poissons_ratio;
        let t = plate.thickness_mm;
        12.0 * lap.layer.youngs_modulus_mpa * (1.0 - nu * nu)
            / (plate.youngs_modulus_mpa * t * t * t * lap.layer.thickness_mm)
    };
    let beta1 = compliance(&lap.upper);
    let root = libm::sqrt(beta1 + compliance(&lap.lower));
    let of_moment_mpa = beta1 * moment_n / root;
    let of_shear_mpa = libm::sqrt(2.0) * beta1 * shear_n_mm / (root * libm::sqrt(root));
    Ok(EndPeel {
        of_moment_mpa: failure::number("peel of the moment", of_moment_mpa)?,
        of_shear_mpa: failure::number("peel of the shear force", of_shear_mpa)?,
    })
}

#[cfg(test)]
mod tests {
    use super::super::tests::coupon;
    use super::super::{Lap, goland_reissner};
    use super::*;

    /// BC-PEEL-1: Bigwood and Crocombe 1989; formula from memory, recomputed.
    #[test]
    fn val_peel_of_a_25_mm_overlap() {
        let lap = coupon();
        let edge = goland_reissner::edge_load(&lap, 200.0).unwrap();
        assert!((edge.shear_n_mm - 7.047_23).abs() < 1e-5);
        let peel = end_peel(&lap, edge.moment_n, edge.shear_n_mm).unwrap();
        assert!((peel.of_moment_mpa - 39.395_208_937_590_88).abs() < 1e-9);
        assert!((peel.of_shear_mpa - 4.142_078_423_868_932).abs() < 1e-5);
        assert!((peel.total_mpa() - 43.537_287_361_459_81).abs() < 1e-5);
    }

    /// With ν = 0 and a long overlap the two formulas are one.
    #[test]
    fn cross_long_overlap_without_poissons_ratio_meets_goland_and_reissner() {
        let mut lap = Lap { overlap_mm: 200.0, ..coupon() };
        lap.upper.poissons_ratio = 0.0;
        lap.lower.poissons_ratio = 0.0;
        let edge = goland_reissner::edge_load(&lap, 200.0).unwrap();
        let theirs = goland_reissner::layer_stresses(&lap, 200.0, edge).unwrap().end_peel();
        let peel = end_peel(&lap, edge.moment_n, edge.shear_n_mm).unwrap();
        assert!((peel.total_mpa() / theirs.value_mpa - 1.0).abs() < 1e-12);
    }
}
