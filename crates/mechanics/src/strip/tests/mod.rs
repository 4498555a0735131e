//! The strip against closed forms and against the laws that it must obey.

use super::*;
use crate::Adherend;
use crate::bondline::Bondline;
use crate::closed::{Lap, Layer, ShearLag, volkersen};

/// An invented lap: 70 GPa, 2 mm, overlap 25 mm, bond 0.2 mm; E and no E'.
fn lap() -> Strip {
    let plate = Adherend {
        youngs_modulus_mpa: 70_000.0,
        poissons_ratio: 0.33,
        thickness_mm: 2.0,
        thermal_expansion_per_k: 23e-6,
    };
    Strip {
        upper: plate,
        lower: plate,
        adhesive: Adhesive {
            shear_modulus_mpa: 900.0,
            peel_modulus_mpa: 2500.0,
        },
        bondline: Bondline::Constant(0.2),
        overlap_mm: 25.0,
        supports: Supports::Gripped {
            ends: Ends::Clamped,
            left_arm_mm: 60.0,
            right_arm_mm: 60.0,
        },
        axial_n_mm: 200.0,
        shear_flow_n_mm: 0.0,
        temperature_change_k: 0.0,
        plane: Plane::Stress,
        hold_transverse: false,
        lever_arm_includes_bondline: true,
        geometry: Geometry::FirstOrder,
        mesh: Mesh::default(),
    }
}

/// The bar model of the same lap.
fn shear_lag(strip: &Strip) -> ShearLag {
    let lap = Lap {
        upper: strip.upper,
        lower: strip.lower,
        overlap_mm: strip.overlap_mm,
        layer: Layer {
            youngs_modulus_mpa: strip.adhesive.peel_modulus_mpa,
            shear_modulus_mpa: strip.adhesive.shear_modulus_mpa,
            thickness_mm: strip.bondline.thickness_mm(0.0),
        },
    };
    volkersen::solve(&lap, strip.axial_n_mm, strip.temperature_change_k).unwrap()
}

#[test]
fn cross_held_flat_meets_volkersen() {
    let strip = Strip {
        hold_transverse: true,
        ..lap()
    };
    let answer = solve(&strip).unwrap();
    let closed = shear_lag(&strip);
    assert!((answer.peak_shear.value_mpa / closed.peak().value_mpa - 1.0).abs() < 1e-4);
}
