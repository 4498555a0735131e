//! The double lap: an inner plate between two outer ones, no bending of the joint as a whole.

use super::lap::Layer;
use super::shear_lag::{Members, ShearLag};
use crate::adherend::{self, Adherend, Role};
use crate::failure::{self, Failure};

/// A bonded double lap: the inner plate is loaded at the left end x = 0, the two outer ones share
/// the load at the right end x = L.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoubleLap {
    /// The inner plate.
    pub inner: Adherend,
    /// Each of the two outer plates.
    pub outer: Adherend,
    /// Either adhesive layer.
    pub layer: Layer,
    /// Length L of the overlap, mm.
    pub overlap_mm: f64,
}

impl DoubleLap {
    /// Refuses what is not a double lap.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range.
    pub fn check(&self) -> Result<(), Failure> {
        adherend::check(&self.inner, Role::Inner)?;
        adherend::check(&self.outer, Role::Outer)?;
        self.layer.check()?;
        failure::positive("overlap", self.overlap_mm)?;
        Ok(())
    }

    /// E_i t_i, N/mm.
    pub(super) fn inner_stiffness(&self) -> f64 {
        self.inner.axial_stiffness_n_mm()
    }

    /// 2 E_o t_o, N/mm.
    pub(super) fn outer_stiffness(&self) -> f64 {
        2.0 * self.outer.axial_stiffness_n_mm()
    }

    /// (α_i − α_o) ΔT.
    pub(super) fn mismatch(&self, temperature_change_k: f64) -> f64 {
        (self.inner.thermal_expansion_per_k - self.outer.thermal_expansion_per_k) * temperature_change_k
    }
}

/// Elastic shear along either bondline of a double lap.
///
/// ```text
/// ω² = (G/h) (1/(E_o t_o) + 2/(E_i t_i))
///
/// τ = P ω/(4 sinh(ω L/2)) cosh ω ξ
///   − [P ω/(4 cosh(ω L/2)) (2 E_o t_o − E_i t_i)/(2 E_o t_o + E_i t_i)
///      + (α_i − α_o) ΔT ω/((1/(E_o t_o) + 2/(E_i t_i)) cosh(ω L/2))] sinh ω ξ        ξ = x − L/2
/// ```
///
/// P whole load of the inner plate per width (N/mm), E, t, α of the inner (i) and each outer (o)
/// plate (MPa, mm, 1/K), G shear modulus and h thickness of the adhesive (MPa, mm), L overlap (mm),
/// ΔT service minus stress-free temperature (K). Plates only stretch. The thermal part changes sign
/// between the ends.
///
/// After Volkersen's equation; as in Budynas and Nisbett, Shigley's Mechanical Engineering Design,
/// eq. 9-7 (from memory, re-derived), whose x runs the other way.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn elastic(joint: &DoubleLap, load_n_mm: f64, temperature_change_k: f64) -> Result<ShearLag, Failure> {
    joint.check()?;
    failure::finite("load", load_n_mm)?;
    failure::finite("temperature change", temperature_change_k)?;
    // One bondline: half the inner plate against one outer plate.
    ShearLag::new(&Members {
        first_n_mm: 0.5 * joint.inner_stiffness(),
        second_n_mm: 0.5 * joint.outer_stiffness(),
        layer_mpa_mm: joint.layer.shear_modulus_mpa / joint.layer.thickness_mm,
        overlap_mm: joint.overlap_mm,
        load_n_mm: 0.5 * load_n_mm,
        mismatch: -joint.mismatch(temperature_change_k),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SHIG-DLJ-1, in pounds, inches and °F, which the formula takes as well: Budynas and Nisbett,
    /// Shigley's Mechanical Engineering Design, section 9-9, data of the example with figure 9-26;
    /// the formula from memory and re-derived, the figures recomputed.
    #[test]
    fn val_aluminium_straps_on_steel_with_thermal_mismatch() {
        let plate = |modulus, thickness_mm, thermal_expansion_per_k| Adherend {
            youngs_modulus_mpa: modulus,
            poissons_ratio: 0.3,
            thickness_mm,
            thermal_expansion_per_k,
        };
        let joint = DoubleLap {
            inner: plate(30e6, 0.1, 6e-6),
            outer: plate(10e6, 0.15, 13.3e-6),
            layer: Layer { youngs_modulus_mpa: 5e5, shear_modulus_mpa: 2e5, thickness_mm: 0.02 },
            overlap_mm: 1.0,
        };
        let near = |found: f64, expected: f64| {
            assert!((found - expected).abs() < 1e-9 * expected.abs(), "{found} for {expected}");
        };
        let both = elastic(&joint, 2000.0, -130.0).unwrap();
        near(both.rate_per_mm(), 3.651_483_716_701_107_6);
        near(both.shear_mpa(0.5), 603.920_343_925_296_3);
        let load = elastic(&joint, 2000.0, 0.0).unwrap();
        near(load.ends_mpa()[0], 1_923.032_270_956_517_8);
        near(load.ends_mpa()[1], 1_923.032_270_956_517_8);
        let thermal = elastic(&joint, 0.0, -130.0).unwrap();
        near(thermal.ends_mpa()[0], 2_467.457_292_144_054);
        near(both.ends_mpa()[0], 4_390.489_563_100_572);
        near(both.ends_mpa()[1], -544.425_021_187_536_2);
        near(both.peak().value_mpa, 4_390.489_563_100_572);
    }

    #[test]
    fn unit_peak_stands_where_the_less_stiff_side_is_loaded() {
        let plate = |thickness_mm| Adherend {
            youngs_modulus_mpa: 70_000.0,
            poissons_ratio: 0.33,
            thickness_mm,
            thermal_expansion_per_k: 23e-6,
        };
        let layer = Layer { youngs_modulus_mpa: 2500.0, shear_modulus_mpa: 900.0, thickness_mm: 0.2 };
        let mut joint = DoubleLap { inner: plate(3.0), outer: plate(2.0), layer, overlap_mm: 40.0 };
        assert!(elastic(&joint, 500.0, 0.0).unwrap().peak().x_mm.abs() < f64::EPSILON);
        joint.inner = plate(6.0);
        let peak = elastic(&joint, 500.0, 0.0).unwrap().peak();
        assert!((peak.x_mm - 40.0).abs() < f64::EPSILON);
    }
}
