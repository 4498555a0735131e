//! The strip against the formulas of the literature.

use super::*;
use crate::closed::goland_reissner::{self, EdgeLoad};
use crate::closed::volkersen;

/// Relative error of the peak shear of a strip held flat.
fn volkersen_error(strip: &Strip, elements: u32, grading: f64) -> f64 {
    let mesh = Mesh { elements, grading, ..strip.mesh };
    let answer = solve(&Strip { mesh, hold_transverse: true, ..strip.clone() }).unwrap();
    let exact = volkersen::solve(&closed(strip), strip.axial_n_mm, strip.temperature_change_k);
    let exact = exact.unwrap().peak();
    if strip.upper != strip.lower {
        near(answer.peak_shear.x_mm, exact.x_mm, 1e-12, strip.overlap_mm);
    }
    answer.peak_shear.value_mpa / exact.value_mpa - 1.0
}

/// "With transverse freedoms held, the strip meets Volkersen: ≤ 1e-4 at 200 elements, the element's
/// order observed within 0.1, ≤ 1e-6 extrapolated."
///
/// E = E' by plane stress. The nodes of quadratic elements converge with the fourth order; it is
/// observed where the error is still far above rounding.
#[test]
fn cross_held_flat_meets_volkersen() {
    let hot = Strip { temperature_change_k: -40.0, ..unequal_lap() };
    for strip in [lap(), unequal_lap(), hot] {
        for grading in [1.0, 6.0] {
            assert!(volkersen_error(&strip, 200, grading).abs() < 1e-4);
            let [coarse, middle, fine] =
                [20, 40, 80].map(|elements| volkersen_error(&strip, elements, grading));
            for (error, half) in [(coarse, middle), (middle, fine)] {
                let order = libm::log2(error / half);
                assert!((order - 4.0).abs() < 0.1, "order {order} at grading {grading}");
            }
            let extrapolated = fine + (fine - middle) / 15.0;
            assert!(extrapolated.abs() < 1e-6, "{extrapolated:e}");
        }
    }
}

/// "Layer stresses meet Goland-Reissner's for the same edge moment and shear when h is dropped,
/// 1e-3."
///
/// Their β and γ use E: plane stress. The equations are then the same, and only the division into
/// elements is between them.
#[test]
fn cross_layer_stresses_meet_goland_and_reissner() {
    let (load, t, length) = (200.0, 2.0, 25.0);
    for k in [0.3, 0.57, 1.0] {
        let moment_n = 0.5 * k * load * t;
        // In equilibrium with the load over the overlap.
        let shear_n_mm = (load * t - 2.0 * moment_n) / length;
        let strip = Strip {
            lever_arm_includes_bondline: false,
            supports: Supports::EdgeResultants { moment_n, shear_n_mm: -shear_n_mm },
            ..lap()
        };
        let answer = solve(&strip).unwrap();
        let edge = EdgeLoad { moment_n, shear_n_mm };
        let exact = goland_reissner::layer_stresses(&closed(&strip), load, edge).unwrap();
        let (shear, peel) = (exact.end_shear().value_mpa, exact.end_peel().value_mpa);
        near(answer.peak_shear.value_mpa, shear, 1e-3, shear);
        near(answer.peak_peel.value_mpa, peel, 1e-3, peel);
        for ((x, tau), sigma) in answer.x_mm.iter().zip(&answer.shear_mpa).zip(&answer.peel_mpa) {
            near(*tau, exact.shear_mpa(*x), 1e-3, shear);
            near(*sigma, exact.peel_mpa(*x), 1e-3, peel);
        }
        // The right edge: the resultant that equilibrium asks for.
        near(answer.edge_moments_n[0], moment_n, 1e-9, moment_n);
        near(answer.edge_moments_n[1], moment_n, 1e-9, moment_n);
    }
}

/// Anti-plane shear is Volkersen's with G t in place of E t.
#[test]
fn cross_antiplane_shear_meets_volkersen() {
    let strip = Strip { shear_flow_n_mm: 120.0, axial_n_mm: 0.0, ..unequal_lap() };
    let answer = solve(&strip).unwrap();
    let mut in_shear = closed(&strip);
    for adherend in [&mut in_shear.upper, &mut in_shear.lower] {
        adherend.youngs_modulus_mpa = adherend.shear_modulus_mpa();
    }
    let exact = volkersen::solve(&in_shear, 120.0, 0.0).unwrap();
    let peak = exact.peak();
    near(answer.peak_antiplane_shear.value_mpa, peak.value_mpa, 1e-6, peak.value_mpa);
    near(answer.peak_antiplane_shear.x_mm, peak.x_mm, 1e-12, 25.0);
    for (x, tau) in answer.x_mm.iter().zip(&answer.antiplane_shear_mpa) {
        near(*tau, exact.shear_mpa(*x), 1e-6, peak.value_mpa);
    }
    assert!(answer.peak_shear.value_mpa.abs() < 1e-300 && answer.stiffness_n_mm2.is_none());
    // Flexibility: arms, and over the overlap the middle plane of the two.
    assert!(answer.antiplane_end_displacement_mm > 0.0);
}
