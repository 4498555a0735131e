//! The strip against closed forms and against the laws that it must obey.

mod beam_column;
mod closed_forms;
mod laws;
mod second_order;

use super::*;
use crate::Adherend;
use crate::bondline::Bondline;
use crate::closed::{Lap, Layer};

/// An invented lap: 70 GPa, 2 mm, overlap 25 mm, bond 0.2 mm, arms 60 mm; E and not E'.
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
        adhesive: Adhesive { shear_modulus_mpa: 900.0, peel_modulus_mpa: 2500.0 },
        bondline: Bondline::Constant(0.2),
        overlap_mm: 25.0,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 60.0, right_arm_mm: 60.0 },
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

/// The same lap with unequal members: steel below, 1.2 mm.
fn unequal_lap() -> Strip {
    let steel = Adherend {
        youngs_modulus_mpa: 210_000.0,
        poissons_ratio: 0.3,
        thickness_mm: 1.2,
        thermal_expansion_per_k: 12e-6,
    };
    Strip { lower: steel, ..lap() }
}

/// The closed forms' view of a strip.
fn closed(strip: &Strip) -> Lap {
    Lap {
        upper: strip.upper,
        lower: strip.lower,
        overlap_mm: strip.overlap_mm,
        layer: Layer {
            youngs_modulus_mpa: strip.adhesive.peel_modulus_mpa,
            shear_modulus_mpa: strip.adhesive.shear_modulus_mpa,
            thickness_mm: strip.bondline.thickness_mm(0.0),
        },
    }
}

/// Fails where `found` is further from `expected` than `share` of `scale`.
#[track_caller]
fn near(found: f64, expected: f64, share: f64, scale: f64) {
    assert!(
        (found - expected).abs() <= share * scale,
        "{found} for {expected}: off by {:e} of {scale}",
        (found - expected).abs() / scale
    );
}
