//! Panels and local buckling.

use super::super::shapes::{Channel, HollowBox, Plate, Tube};
use super::super::{
    Alloy, Class, PanelBuckling, Section, Stability, Support, aluminium_class, buckling_factor,
};
use super::{ALLOY, near, section};
use crate::statics::Resultants;

fn pressed(section: &Section, stress_mpa: f64) -> Vec<PanelBuckling> {
    let axial_n = -stress_mpa * section.properties().area_mm2;
    section.local_buckling(&Resultants { axial_n, ..Resultants::default() }).unwrap()
}

/// The insert of the demo: flats 96 × 3, σ_cr = 4 π² E/(12 (1 − ν²)) (t/b)² by hand.
#[test]
fn val_flat_of_a_box() {
    let insert = HollowBox { width_mm: 71.0, height_mm: 111.0, wall_mm: 3.0, inner_radius_mm: 4.5 };
    let panels = pressed(&insert.section(ALLOY).unwrap(), 200.0);
    assert_eq!(panels.len(), 8, "four flats and four corners");
    let right = &panels[0];
    assert_eq!(right.panel.support, Support::Internal);
    assert!(near(right.slenderness, 32.0, 1e-9), "{right:?}");
    let critical = 4.0 * 9.869_604_4 * 70_000.0 / (12.0 * (1.0 - 0.33 * 0.33)) / (32.0 * 32.0);
    assert!(near(right.critical_mpa.unwrap(), critical, 1e-6 * critical), "{right:?}");
    assert!(
        matches!(right.stability, Stability::Stable { reserve } if near(reserve, critical / 200.0, 1e-6))
    );
    // 32 > 22 at 250 MPa: class 4 (EN 1999-1-1, table 6.2, from memory).
    assert_eq!(aluminium_class(right, 250.0, Alloy::A).unwrap(), Some(Class::Four));
    // The corners are short cylinders, far from buckling.
    assert!(panels[4..].iter().all(|p| matches!(p.panel.support, Support::Cylinder { .. })));
    assert!(panels[4..].iter().all(|p| p.critical_mpa.unwrap() > 10_000.0));
}

#[test]
fn unit_beyond_the_critical_stress_is_said() {
    let insert = HollowBox { width_mm: 71.0, height_mm: 111.0, wall_mm: 3.0, inner_radius_mm: 4.5 };
    let panels = pressed(&insert.section(ALLOY).unwrap(), 300.0);
    assert!(
        matches!(panels[0].stability, Stability::Buckles { reserve } if reserve < 1.0),
        "{:?}",
        panels[0]
    );
    let pulled = pressed(&insert.section(ALLOY).unwrap(), -300.0);
    assert!(pulled.iter().all(|p| p.stability == Stability::NoCompression));
}

#[test]
fn unit_flanges_of_a_channel_stand_out() {
    let channel = Channel { web_mm: 80.0, flange_mm: 40.0, wall_mm: 4.0 }.section(ALLOY).unwrap();
    let supports: Vec<Support> = channel.panels().iter().map(|p| p.support).collect();
    assert_eq!(supports, [Support::Outstand, Support::Internal, Support::Outstand]);
}

/// A wall drawn in several pieces is one panel; so is the polygon that stands for a curve.
#[test]
fn unit_pieces_of_one_panel_are_joined() {
    let split = section(
        &[[-50.0, 0.0], [-10.0, 0.0], [50.0, 0.0], [50.0, 40.0], [-50.0, 40.0]],
        &[(0, 1, 2.0), (2, 1, 3.0), (2, 3, 2.0), (3, 4, 2.0), (4, 0, 2.0)],
    );
    let panels = split.panels();
    assert_eq!(panels.len(), 4);
    assert_eq!(panels[0].walls, [0, 1]);
    assert!(near(panels[0].width_mm, 100.0, 1e-9) && near(panels[0].thickness_mm, 2.0, 0.0));

    let nodes: Vec<[f64; 2]> = (0..24_u32)
        .map(|k| std::f64::consts::PI / 12.0 * f64::from(k))
        .map(|angle| [40.0 * libm::cos(angle), 40.0 * libm::sin(angle)])
        .collect();
    let walls: Vec<_> = (0..24).map(|k| (k, (k + 1) % 24, 1.0)).collect();
    let ring = section(&nodes, &walls).panels();
    assert_eq!(ring.len(), 1);
    assert_eq!((ring[0].walls.len(), ring[0].support, ring[0].flat), (24, Support::Internal, false));
}

/// A lip of 5 on a flange of 40 does not hold it (5 < 0.2 × 40), one of 12 does.
#[test]
fn unit_a_small_lip_holds_nothing() {
    let flange_of = |lip: f64| {
        let z = section(
            &[[40.0, 60.0 - lip], [40.0, 60.0], [0.0, 60.0], [0.0, 0.0], [-30.0, 0.0]],
            &[(0, 1, 2.0), (1, 2, 2.0), (2, 3, 2.0), (3, 4, 2.0)],
        );
        z.panels()[1].support
    };
    assert_eq!(flange_of(5.0), Support::Outstand);
    assert_eq!(flange_of(12.0), Support::Internal);
}

#[test]
fn unit_a_plain_plate_is_a_column() {
    let plate = Plate { width_mm: 60.0, thickness_mm: 5.0 }.section(ALLOY).unwrap();
    let panels = pressed(&plate, 10.0);
    assert_eq!((panels.len(), panels[0].critical_mpa, panels[0].stability), (1, None, Stability::Column));
}

/// Classical E t/(r √(3 (1 − ν²))), knocked down after NASA SP-8007 (from memory), by hand for r/t = 9.5.
#[test]
fn val_tube_is_a_cylinder() {
    let tube = Tube { outside_diameter_mm: 80.0, wall_mm: 4.0 }.section(ALLOY).unwrap();
    let panels = pressed(&tube, 10.0);
    assert_eq!(panels.len(), 1);
    let gamma = 1.0 - 0.901 * (1.0 - libm::exp(-libm::sqrt(9.5) / 16.0));
    let critical = gamma * 70_000.0 / 9.5 / libm::sqrt(3.0 * (1.0 - 0.33 * 0.33));
    assert!(near(panels[0].critical_mpa.unwrap(), critical, 1e-9 * critical), "{panels:?}");
}

/// EN 1993-1-5, table 4.1 (from memory): 4.0, 7.81 and 23.9 at ψ = 1, 0, −1; the pieces join.
#[test]
fn val_buckling_factors() {
    let k = |psi| buckling_factor(Support::Internal, psi).unwrap();
    for (psi, expected, tolerance) in
        [(1.0, 4.0, 1e-12), (0.0, 7.81, 0.005), (-1.0, 23.9, 0.05), (-3.0, 95.7, 0.05)]
    {
        assert!(near(k(psi), expected, tolerance), "{psi}: {}", k(psi));
    }
    for joint in [0.0, -1.0] {
        // The published factors have three digits.
        assert!(near(k(joint - 1e-9), k(joint + 1e-9), 0.005 * k(joint)), "{joint}");
    }
    assert_eq!(buckling_factor(Support::Outstand, 0.3), Some(0.43));
    assert_eq!(buckling_factor(Support::Unsupported, 1.0), None);
}

/// Bending about y compresses the bottom (M_y > 0: tension at z > 0); its webs see ψ = −1.
#[test]
fn unit_stress_ratio_in_bending() {
    let shape = HollowBox { width_mm: 60.0, height_mm: 60.0, wall_mm: 2.0, inner_radius_mm: 0.0 };
    let bent = Resultants { moment_y_nmm: 1e6, ..Resultants::default() };
    let [right, top, _, bottom] = &shape.section(ALLOY).unwrap().local_buckling(&bent).unwrap()[..] else {
        panic!("a sharp box has four panels")
    };
    assert_eq!(top.stability, Stability::NoCompression);
    assert!(near(bottom.stress_ratio, 1.0, 1e-9) && near(right.stress_ratio, -1.0, 1e-9));
    assert!(right.critical_mpa > bottom.critical_mpa);
}
