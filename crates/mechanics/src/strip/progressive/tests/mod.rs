//! The strip to failure against closed forms, hand values and itself.

mod fracture;
mod hart_smith;
mod laws;
mod rivets;

use super::*;
use crate::Adherend;
use crate::bondline::Bondline;
use crate::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Strip, Supports};

fn plate(thickness_mm: f64) -> Adherend {
    Adherend { youngs_modulus_mpa: 70e3, poissons_ratio: 0.33, thickness_mm, thermal_expansion_per_k: 23e-6 }
}

/// A lap of two plates of 1.6 mm, 100 N/mm at the factor 1.
fn coupon() -> Strip {
    Strip {
        upper: plate(1.6),
        lower: plate(1.6),
        adhesive: Adhesive::isotropic(1900.0, 0.38).unwrap(),
        bondline: Bondline::Constant(0.25),
        overlap_mm: 12.5,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 50.0, right_arm_mm: 50.0 },
        axial_n_mm: 100.0,
        shear_flow_n_mm: 0.0,
        temperature_change_k: 0.0,
        plane: Plane::Strain,
        hold_transverse: false,
        lever_arm_includes_bondline: true,
        geometry: Geometry::SecondOrder,
        mesh: Mesh { elements: 80, arm_elements: 8, grading: 6.0 },
    }
}

fn tough() -> Cohesive {
    Cohesive {
        tensile_strength_mpa: 30.0,
        shear_strength_mpa: 24.0,
        mode_1_toughness_n_mm: 1.4,
        mode_2_toughness_n_mm: 2.6,
        mixing: Mixing::Power(1.0),
    }
}

fn capacity(joint: &Joint, control: &Control) -> f64 {
    let out = run(joint, control).unwrap();
    assert!(out.energy_error < 0.01, "energies part by {:e}", out.energy_error);
    out.capacity.unwrap_or_else(|| panic!("no capacity: {:?}, {:?}", out.end, out.effort)).factor
}

fn near(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() <= within, "{found} is not within {within} of {expected}");
}
