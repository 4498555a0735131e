//! The tubular lap: a round tube bonded inside another.

use std::f64::consts::PI;

use super::shear_lag::{Members, ShearLag};
use crate::failure::{self, Failure};

/// A round tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    /// Young's modulus E, MPa.
    pub youngs_modulus_mpa: f64,
    /// Poisson's ratio ν.
    pub poissons_ratio: f64,
    /// Thermal expansion α, 1/K.
    pub thermal_expansion_per_k: f64,
    /// Outside diameter, mm.
    pub outside_diameter_mm: f64,
    /// Wall, mm; half the outside diameter for a full rod.
    pub wall_mm: f64,
}

impl Tube {
    fn check(&self, names: [&'static str; 5]) -> Result<(), Failure> {
        let [modulus, ratio, expansion, diameter, wall] = names;
        failure::positive(modulus, self.youngs_modulus_mpa)?;
        failure::poissons_ratio(ratio, self.poissons_ratio)?;
        failure::finite(expansion, self.thermal_expansion_per_k)?;
        failure::positive(diameter, self.outside_diameter_mm)?;
        failure::positive(wall, self.wall_mm)?;
        failure::within(wall, self.wall_mm, 0.0, 0.5 * self.outside_diameter_mm)?;
        Ok(())
    }

    fn inside_radius_mm(&self) -> f64 {
        0.5 * self.outside_diameter_mm - self.wall_mm
    }

    /// J = π (r_o⁴ − r_i⁴)/2, mm⁴.
    #[must_use]
    pub fn polar_second_moment_mm4(&self) -> f64 {
        let squared = |r: f64| r * r;
        let (out, inn) = (0.5 * self.outside_diameter_mm, self.inside_radius_mm());
        0.5 * PI * (squared(squared(out)) - squared(squared(inn)))
    }

    /// A = π (r_o² − r_i²), mm².
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        PI * self.wall_mm * (self.outside_diameter_mm - self.wall_mm)
    }

    /// G J, N·mm².
    fn torsional_stiffness(&self) -> f64 {
        self.youngs_modulus_mpa / (2.0 * (1.0 + self.poissons_ratio)) * self.polar_second_moment_mm4()
    }
}

/// Two tubes, one bonded inside the other; the inner is loaded at x = 0, the outer at x = L.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubularLap {
    /// The inner tube.
    pub inner: Tube,
    /// The outer tube.
    pub outer: Tube,
    /// Shear modulus of the adhesive, MPa.
    pub shear_modulus_mpa: f64,
    /// Length L of the overlap, mm.
    pub overlap_mm: f64,
}

impl TubularLap {
    /// Refuses what is not a tubular lap, such as tubes that leave no room for adhesive.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range.
    pub fn check(&self) -> Result<(), Failure> {
        self.inner.check([
            "inner tube's Young's modulus",
            "inner tube's Poisson's ratio",
            "inner tube's thermal expansion",
            "inner tube's outside diameter",
            "inner tube's wall",
        ])?;
        self.outer.check([
            "outer tube's Young's modulus",
            "outer tube's Poisson's ratio",
            "outer tube's thermal expansion",
            "outer tube's outside diameter",
            "outer tube's wall",
        ])?;
        failure::positive("adhesive shear modulus", self.shear_modulus_mpa)?;
        failure::positive("overlap", self.overlap_mm)?;
        failure::positive("bondline between the tubes", self.bondline_mm())?;
        Ok(())
    }

    /// Bondline: what the two tubes leave, mm.
    #[must_use]
    pub fn bondline_mm(&self) -> f64 {
        self.outer.inside_radius_mm() - 0.5 * self.inner.outside_diameter_mm
    }

    /// Mean radius a of the bond, mm.
    #[must_use]
    pub fn bond_radius_mm(&self) -> f64 {
        0.5 * (self.outer.inside_radius_mm() + 0.5 * self.inner.outside_diameter_mm)
    }
}

/// Shear around the bond of a tubular lap in torsion, MPa along x.
///
/// ```text
/// β² = (2π a³ G_a/h) (1/(G₁ J₁) + 1/(G₂ J₂))        ψ = G₁ J₁/(G₂ J₂)        τ_mean = T/(2π a² L)
///
/// τ_end = τ_mean (β L/2) [coth(β L/2) ± ((1 − ψ)/(1 + ψ)) tanh(β L/2)]
/// ```
///
/// The upper sign holds where the inner tube (1) is loaded, the lower where the outer (2) is. T
/// torque (N·mm), a mean radius of the bond (mm), h bondline (mm), G_a shear modulus of the adhesive
/// (MPa), G J torsional stiffnesses (N·mm²), L overlap (mm). The bond is thin against its radius;
/// tubes twist as Saint Venant's do.
///
/// After Volkersen 1965 and Adams and Peppiatt 1977, J. Adhesion 9, 1–18 (from memory).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn torsion(lap: &TubularLap, torque_n_mm: f64) -> Result<ShearLag, Failure> {
    lap.check()?;
    failure::finite("torque", torque_n_mm)?;
    let a = lap.bond_radius_mm();
    // The wall of unit width at the bond's radius that turns the same under the same shear.
    let ring = 2.0 * PI * a * a * a;
    ShearLag::new(&Members {
        first_n_mm: lap.inner.torsional_stiffness() / ring,
        second_n_mm: lap.outer.torsional_stiffness() / ring,
        layer_mpa_mm: lap.shear_modulus_mpa / lap.bondline_mm(),
        overlap_mm: lap.overlap_mm,
        load_n_mm: torque_n_mm / (2.0 * PI * a * a),
        mismatch: 0.0,
    })
}

/// Shear along the bond of a tubular lap under axial load and temperature, MPa along x.
///
/// ```text
/// ω² = (2π a G_a/h) (1/(E₁ A₁) + 1/(E₂ A₂))        τ_mean = F/(2π a L)
/// ```
///
/// F axial load (N), E A axial stiffnesses (N); else as [`torsion`], and the shear along x as for
/// Volkersen's lap. Tubes only stretch: the bending of the walls at the ends, and with it the peel,
/// is left out.
///
/// After Volkersen's equation (formula).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn axial(lap: &TubularLap, load_n: f64, temperature_change_k: f64) -> Result<ShearLag, Failure> {
    lap.check()?;
    failure::finite("load", load_n)?;
    failure::finite("temperature change", temperature_change_k)?;
    let ring = 2.0 * PI * lap.bond_radius_mm();
    let stiffness = |tube: &Tube| tube.youngs_modulus_mpa * tube.area_mm2() / ring;
    ShearLag::new(&Members {
        first_n_mm: stiffness(&lap.inner),
        second_n_mm: stiffness(&lap.outer),
        layer_mpa_mm: lap.shear_modulus_mpa / lap.bondline_mm(),
        overlap_mm: lap.overlap_mm,
        load_n_mm: load_n / ring,
        mismatch: (lap.outer.thermal_expansion_per_k - lap.inner.thermal_expansion_per_k)
            * temperature_change_k,
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Lap, Layer, volkersen};
    use super::*;
    use crate::Adherend;

    /// The tubes of TUBE-TORS-1: bond radius 20, bondline 0.25, walls 2.5 and 2.0 mm.
    fn tubes() -> TubularLap {
        let tube = |outside_diameter_mm, wall_mm| Tube {
            youngs_modulus_mpa: 2.0 * 1.33 * 26_316.0,
            poissons_ratio: 0.33,
            thermal_expansion_per_k: 23e-6,
            outside_diameter_mm,
            wall_mm,
        };
        TubularLap {
            inner: tube(39.75, 2.5),
            outer: tube(44.25, 2.0),
            shear_modulus_mpa: 900.0,
            overlap_mm: 30.0,
        }
    }

    fn near(found: f64, expected: f64, share: f64) {
        assert!((found - expected).abs() <= share * expected.abs(), "{found} for {expected}");
    }

    /// TUBE-TORS-1: Volkersen 1965, Adams and Peppiatt 1977; formula from memory, met by a numerical
    /// solution of the boundary-value problem.
    #[test]
    fn val_tubes_in_torsion() {
        let lap = tubes();
        near(lap.bondline_mm(), 0.25, 1e-12);
        near(lap.inner.polar_second_moment_mm4(), 101_943.730_540_900_3, 1e-12);
        near(lap.outer.polar_second_moment_mm4(), 118_733.180_943_924_4, 1e-12);
        let lag = torsion(&lap, 5e5).unwrap();
        near(lag.mean_mpa(), 6.631_455_962_162_306, 1e-12);
        near(lag.ends_mpa()[0], 37.901_107_585_814_79, 1e-10);
        near(lag.ends_mpa()[1], 32.542_191_784_981_02, 1e-10);
    }

    /// A tube of large radius unrolls into Volkersen's lap: walls against radius are 2e-4 here.
    #[test]
    fn cross_large_tube_unrolls_into_a_flat_lap() {
        let mut lap = tubes();
        lap.inner.outside_diameter_mm = 20_000.0;
        lap.outer.outside_diameter_mm = 20_004.5;
        lap.outer.thermal_expansion_per_k = 12e-6;
        let plate = |tube: &Tube| Adherend {
            youngs_modulus_mpa: tube.youngs_modulus_mpa,
            poissons_ratio: tube.poissons_ratio,
            thickness_mm: tube.wall_mm,
            thermal_expansion_per_k: tube.thermal_expansion_per_k,
        };
        let flat = Lap {
            upper: plate(&lap.inner),
            lower: plate(&lap.outer),
            layer: Layer { youngs_modulus_mpa: 2500.0, shear_modulus_mpa: 900.0, thickness_mm: 0.25 },
            overlap_mm: 30.0,
        };
        let round = axial(&lap, 200.0 * 2.0 * PI * lap.bond_radius_mm(), -40.0).unwrap();
        let plain = volkersen::solve(&flat, 200.0, -40.0).unwrap();
        near(round.ends_mpa()[0], plain.ends_mpa()[0], 1e-3);
        near(round.ends_mpa()[1], plain.ends_mpa()[1], 1e-3);
    }

    #[test]
    fn unit_refuses_tubes_without_room_for_the_bond() {
        let mut lap = tubes();
        lap.inner.outside_diameter_mm = 40.25;
        assert!(matches!(torsion(&lap, 1.0), Err(Failure::NotPositive { .. })));
        lap = tubes();
        lap.outer.wall_mm = 30.0;
        assert!(matches!(axial(&lap, 1.0, 0.0), Err(Failure::OutOfRange { .. })));
    }
}
