//! The round butt joint: a disc, with or without a hole, pulled off a surface.

use std::f64::consts::PI;

use crate::failure::{self, Failure};

/// Stress across the bond of a disc pulled off centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiscStress {
    /// Load over area, MPa.
    pub mean_mpa: f64,
    /// At the rim on the side of the pull, MPa.
    pub greatest_mpa: f64,
    /// At the rim on the other side, MPa; negative where it is pressed.
    pub least_mpa: f64,
    /// Eccentricity up to which the whole bond is in tension, mm.
    pub kern_mm: f64,
}

/// Stress across the bond of a disc or ring under a pull parallel to its axis.
///
/// ```text
/// σ = (F/A) (1 ± 8 e D/(D² + d²))        A = π (D² − d²)/4        kern = (D² + d²)/(8 D)
/// ```
///
/// F load (N), e its distance from the centre (mm), D outside, d hole diameter (mm, zero without a
/// hole). The disc is rigid and the stress linear across it; the strain at the rim, where a thin
/// layer is not confined, is another matter.
///
/// Textbook strength of materials (formula).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn eccentric_pull(
    load_n: f64,
    eccentricity_mm: f64,
    diameter_mm: f64,
    hole_mm: f64,
) -> Result<DiscStress, Failure> {
    failure::finite("load", load_n)?;
    failure::not_negative("eccentricity", eccentricity_mm)?;
    failure::positive("diameter", diameter_mm)?;
    failure::not_negative("hole", hole_mm)?;
    if hole_mm >= diameter_mm {
        return Err(Failure::OutOfRange { argument: "hole", found: hole_mm, least: 0.0, most: diameter_mm });
    }
    let area = 0.25 * PI * (diameter_mm - hole_mm) * (diameter_mm + hole_mm);
    let kern_mm = (diameter_mm * diameter_mm + hole_mm * hole_mm) / (8.0 * diameter_mm);
    let mean_mpa = load_n / area;
    let bending = mean_mpa * eccentricity_mm / kern_mm;
    Ok(DiscStress {
        mean_mpa: failure::number("mean stress", mean_mpa)?,
        greatest_mpa: failure::number("greatest stress", mean_mpa + bending)?,
        least_mpa: failure::number("least stress", mean_mpa - bending)?,
        kern_mm: failure::number("kern", kern_mm)?,
    })
}

/// Modulus of a thin layer between rigid faces, where it can strain across only, MPa.
///
/// ```text
/// E' = E (1 − ν)/((1 + ν) (1 − 2ν))
/// ```
///
/// E Young's modulus (MPa), ν Poisson's ratio. It grows without bound toward ν = 0.5, and holds for
/// the inside of the layer, not for its rim.
///
/// Textbook elasticity; of bonds Adams and Coppendale 1977 (from memory).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn constrained_modulus_mpa(youngs_modulus_mpa: f64, poissons_ratio: f64) -> Result<f64, Failure> {
    let e = failure::positive("Young's modulus", youngs_modulus_mpa)?;
    let nu = failure::poissons_ratio("Poisson's ratio", poissons_ratio)?;
    failure::number("constrained modulus", e * (1.0 - nu) / ((1.0 + nu) * (1.0 - 2.0 * nu)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(found: f64, expected: f64, share: f64) {
        assert!((found - expected).abs() <= share * expected.abs(), "{found} for {expected}");
    }

    /// ECC-DISC-1: textbook formula, recomputed.
    #[test]
    fn val_disc_of_20_mm_pulled_2_mm_off_centre() {
        let stress = eccentric_pull(1000.0, 2.0, 20.0, 0.0).unwrap();
        near(stress.mean_mpa, 3.183_098_861_837_906_6, 1e-12);
        near(stress.greatest_mpa, 5.729_577_951_308_232, 1e-12);
        near(stress.kern_mm, 2.5, 1e-12);
    }

    /// BUTT-CONSTR-1: Adams and Coppendale 1977 (formula from memory); E and ν as measured in place
    /// by Jangblad, Gradin and Stenström.
    #[test]
    fn val_constrained_modulus_of_an_epoxy() {
        near(constrained_modulus_mpa(2504.0, 0.34).unwrap(), 3_854.104_477_611_94, 1e-12);
    }

    #[test]
    fn unit_ring_pulled_at_its_kern_is_just_not_pressed() {
        let kern = eccentric_pull(1.0, 0.0, 40.0, 20.0).unwrap().kern_mm;
        near(kern, 6.25, 1e-12);
        let stress = eccentric_pull(500.0, kern, 40.0, 20.0).unwrap();
        assert!(stress.least_mpa.abs() < 1e-12 * stress.mean_mpa);
        near(stress.greatest_mpa, 2.0 * stress.mean_mpa, 1e-12);
    }

    #[test]
    fn unit_refuses_a_hole_as_wide_as_the_disc() {
        assert!(matches!(
            eccentric_pull(1.0, 0.0, 20.0, 20.0),
            Err(Failure::OutOfRange { argument: "hole", .. })
        ));
        assert!(matches!(constrained_modulus_mpa(1.0, 0.5), Err(Failure::OutOfRange { .. })));
    }
}
