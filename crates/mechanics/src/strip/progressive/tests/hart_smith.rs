//! The elastic-plastic strip against Hart-Smith's double lap.

use super::*;
use crate::closed::Layer;
use crate::closed::double_lap::DoubleLap;
use crate::closed::elastic_plastic::{self, Plastic as Theirs};
use crate::rivet::share::{Hold, Row};

/// "Hart-Smith's elastic-plastic capacity, balanced, unbalanced, thermal, short overlap, within 0.5 %."
///
/// Half the joint by its plane of symmetry, both plates held flat as in his bars, plane stress for his E.
#[test]
fn cross_double_lap_capacity() {
    let cases = [
        ("balanced", 4.0, 2.0, 50.0, 0.0),
        ("unbalanced", 4.0, 3.5, 50.0, 0.0),
        ("stiff inner", 8.0, 2.0, 60.0, 0.0),
        ("thermal", 4.0, 2.0, 50.0, -80.0),
        ("thermal, hot", 6.0, 2.0, 50.0, 60.0),
        ("short", 4.0, 2.0, 8.0, 0.0),
        ("long", 4.0, 2.0, 150.0, 0.0),
    ];
    for (name, inner_mm, outer_mm, overlap_mm, temperature_change_k) in cases {
        let steel = Adherend {
            youngs_modulus_mpa: 210e3,
            poissons_ratio: 0.3,
            thickness_mm: inner_mm,
            thermal_expansion_per_k: 12e-6,
        };
        let adhesive = Adhesive::isotropic(1900.0, 0.38).unwrap();
        let joint = DoubleLap {
            inner: steel,
            outer: plate(outer_mm),
            layer: Layer {
                youngs_modulus_mpa: 1900.0,
                shear_modulus_mpa: adhesive.shear_modulus_mpa,
                thickness_mm: 0.25,
            },
            overlap_mm,
        };
        let theirs = Theirs { shear_strength_mpa: 24.0, strain_at_failure: 0.45 };
        let expected = elastic_plastic::any_overlap(&joint, &theirs, temperature_change_k).unwrap();
        let half = Adherend { thickness_mm: 0.5 * inner_mm, ..steel };
        let strip = Strip {
            upper: plate(outer_mm),
            lower: half,
            overlap_mm,
            adhesive,
            temperature_change_k,
            plane: Plane::Stress,
            hold_transverse: true,
            mesh: Mesh { elements: 120, arm_elements: 4, grading: 4.0 },
            ..coupon()
        };
        let law = Law::Plastic(Plastic { shear_strength_mpa: 24.0, strain_at_failure: 0.45 });
        let found = 2.0 * 100.0 * capacity(&Joint::new(strip, law), &Control::default());
        let off = found / expected.capacity_n_mm() - 1.0;
        assert!(off.abs() < 5e-3, "{name}: {found} against {}", expected.capacity_n_mm());
    }
}

/// A layer that yields ends where its first point reaches its last strain, whichever point led there: none is beyond it
/// by more than what its strain bends within one step, 0.2 %. Where the two ends take turns, as between two rows of
/// rivets, the one that does not lead was passed by more than that, and the capacity came out too high.
#[test]
fn unit_no_point_is_strained_beyond_its_last() {
    let law = Law::Plastic(Plastic { shear_strength_mpa: 26.4, strain_at_failure: 0.328 });
    let hold = Hold { stiffness_n_mm: 43.8e3, strength_n: 4.6e3, break_mm: Some(0.215) };
    let row = |x_mm| Row { x_mm, pitch_mm: 20.0, shear: hold, opening: Hold { break_mm: None, ..hold } };
    let strip = Strip {
        upper: plate(3.97),
        lower: plate(3.97),
        bondline: Bondline::Constant(0.126),
        overlap_mm: 15.3,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 54.0, right_arm_mm: 38.6 },
        mesh: Mesh { elements: 60, arm_elements: 8, grading: 4.0 },
        ..coupon()
    };
    for places in [[11.9, 3.1], [10.0, 5.0], [13.0, 2.0]] {
        let joint = Joint { rows: places.map(row).to_vec(), ..Joint::new(strip.clone(), law) };
        let mut walker = Walker::new();
        let end = walker.run(&joint, &Control::default()).unwrap().end;
        assert_eq!(end, End::BondBreaks);
        let system = walker.bending.as_ref().unwrap();
        let points = system.now.points.iter().flatten().zip(system.gauss.iter().flatten());
        let beyond = points.map(|(point, gauss)| point.kappa / law.last(gauss.stiffness, point));
        let beyond = beyond.fold(0.0, f64::max);
        assert!((1.0..1.002).contains(&beyond), "{places:?}: {beyond}");
    }
}
