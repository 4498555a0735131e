//! Published figures and formulas.

use super::super::shapes::{HollowBox, Plate, Tube};
use super::super::{Section, rectangle};
use super::{ALLOY, near, section};
use crate::statics::Resultants;

/// The box of BREDT-BOX, midlines 100 × 60; thicknesses right, top, left, bottom.
fn bredt(t: [f64; 4]) -> Section {
    section(
        &[[50.0, -30.0], [50.0, 30.0], [-50.0, 30.0], [-50.0, -30.0]],
        &[(0, 1, t[0]), (1, 2, t[1]), (2, 3, t[2]), (3, 0, t[3])],
    )
}

fn torque(torque_nmm: f64) -> Resultants {
    Resultants { torque_nmm, ..Resultants::default() }
}

/// BREDT-BOX: Bredt 1896; Hartsuijker and Welleman, Engineering Mechanics vol. 2, chapter 6 (formula,
/// read). The tolerances are the check's own.
#[test]
fn val_bredt_box() {
    let closed = bredt([3.0; 4]);
    let torsion = closed.properties().torsion;
    assert!(near(torsion.constant_mm4, 1_350_000.0, 135.0), "{torsion:?}");
    let q = closed.perimeter(&torque(1e6)).unwrap().at(0, 30.0).unwrap().shear_flow_n_mm;
    assert!(near(q, 83.3333, 0.008_333_33), "{q}");
    assert!(near(q / 3.0, 27.7778, 0.002_777_78), "{q}");
    // The check's own G.
    let twist_per_m = 1e6 / (26_316.0 * torsion.constant_mm4) * 1000.0;
    assert!(near(twist_per_m, 0.028_147_9, 2.814_79e-6), "{twist_per_m}");

    let unequal = bredt([2.0, 3.0, 2.0, 3.0]).properties().torsion.constant_mm4;
    assert!(near(unequal, 1_136_840.0, 113.684), "{unequal}");
}

/// The same box slit along a wall: a slit of 1 µm takes 3e-6 of the walls away, the check allows 1e-4.
#[test]
fn val_slit_box() {
    let slit = section(
        &[[50.0, 0.001], [50.0, 30.0], [-50.0, 30.0], [-50.0, -30.0], [50.0, -30.0], [50.0, 0.0]],
        &[(0, 1, 3.0), (1, 2, 3.0), (2, 3, 3.0), (3, 4, 3.0), (4, 5, 3.0)],
    );
    let open = slit.properties().torsion.constant_mm4;
    assert!(near(open, 2880.0, 0.288), "{open}");
    let ratio = bredt([3.0; 4]).properties().torsion.constant_mm4 / open;
    assert!(near(ratio, 468.75, 0.046_875), "{ratio}");
    let wall = slit.perimeter(&torque(1e6)).unwrap().walls()[1];
    let tau = 3.0 * wall.twisting_n / (3.0 * 3.0);
    assert!(near(tau, 1041.67, 0.104_167), "{tau}");
    assert!(wall.shear_flow.iter().all(|q| q.abs() < 1e-9), "an open section has no flow in torsion");
}

/// BREDT-RATIO (textbook, from memory): square (3/4)(a/t)², circle 3 (r/t)².
#[test]
fn val_closed_against_slit() {
    let slit_of = |walls: &Section| {
        let own = |(wall, line): (&super::Wall, f64)| wall.thickness_mm.powi(3) / 3.0 * line;
        let load = walls.perimeter(&Resultants::default()).unwrap();
        walls.walls().iter().zip(load.walls().iter().map(|w| w.length_mm)).map(own).sum::<f64>()
    };
    let square = HollowBox { width_mm: 42.0, height_mm: 42.0, wall_mm: 2.0, inner_radius_mm: 0.0 }
        .section(ALLOY)
        .unwrap();
    let ratio = square.properties().torsion.cells_mm4 / slit_of(&square);
    assert!(near(ratio, 300.0, 1e-9), "{ratio}");
    let tube = Tube { outside_diameter_mm: 42.0, wall_mm: 2.0 }.section(ALLOY).unwrap();
    let ratio = tube.properties().torsion.cells_mm4 / slit_of(&tube);
    // 96 chords as long as the circle enclose 3.6e-4 less, which enters squared.
    assert!(near(ratio, 300.0, 300.0 * 1e-3), "{ratio}");
}

/// SV-RECT: Timoshenko and Goodier, table in the chapter on torsion (from memory; recomputed).
#[test]
fn val_saint_venant_rectangle() {
    for (sides, beta, alpha) in [
        (1.0, 0.141, 0.208),
        (1.5, 0.196, 0.231),
        (2.0, 0.229, 0.246),
        (3.0, 0.263, 0.267),
        (4.0, 0.281, 0.282),
        (5.0, 0.291, 0.291),
        (10.0, 0.312, 0.312),
    ] {
        let found = rectangle(7.0 * sides, 7.0).unwrap();
        assert!(near(found.beta, beta, 0.0006) && near(found.alpha, alpha, 0.0006), "{found:?}");
        let plate = Plate { width_mm: 7.0 * sides, thickness_mm: 7.0 }.section(ALLOY).unwrap();
        let constant = plate.properties().torsion.constant_mm4;
        assert!(near(constant / (sides * 7.0_f64.powi(4)), beta, 0.0006), "{constant}");
    }
}

/// Thin channel, midlines h and b, one thickness: e = 3 b²/(h + 6 b) from the web (formula, textbook). Thin
/// walls: the flanges' own second moments, left out there, are 1e-6 of I.
#[test]
fn val_shear_centre_of_a_channel() {
    let channel = section(
        &[[40.0, 50.0], [0.0, 50.0], [0.0, -50.0], [40.0, -50.0]],
        &[(0, 1, 0.1), (1, 2, 0.1), (2, 3, 0.1)],
    );
    let [y, z] = channel.properties().shear_centre_mm;
    assert!(near(y, -3.0 * 40.0 * 40.0 / (100.0 + 240.0), 1e-3) && near(z, 0.0, 1e-9), "{y} {z}");
}

/// Thin tube slit along its length: the shear centre lies 2 r from the middle, away from the slit;
/// closed: shear area half the area (formulas, textbook). 200 chords: 1e-4 of r.
#[test]
fn val_thin_tubes() {
    let nodes: Vec<[f64; 2]> = (0..=200)
        .map(|k| {
            // The slit, at +y, is 1e-4 of the circumference wide.
            let angle = 2.0 * std::f64::consts::PI * (5e-5 + 0.9999 * f64::from(k) / 200.0);
            [50.0 * libm::cos(angle), 50.0 * libm::sin(angle)]
        })
        .collect();
    let walls: Vec<_> = (0..200).map(|k| (k, k + 1, 0.1)).collect();
    let [y, z] = section(&nodes, &walls).properties().shear_centre_mm;
    assert!(near(y, -100.0, 0.05) && near(z, 0.0, 1e-6), "{y} {z}");

    let tube = Tube { outside_diameter_mm: 100.1, wall_mm: 0.1 }.section(ALLOY).unwrap();
    let properties = tube.properties();
    for shear_area in [properties.shear_area_y_mm2, properties.shear_area_z_mm2] {
        assert!(near(shear_area / properties.area_mm2, 0.5, 1e-3), "{shear_area}");
    }
}

/// Plate: A_s = 5/6 A across its thickness and along its width, W_pl = b h²/4, W_el = b h²/6 (textbook).
#[test]
fn val_plate() {
    let plate = Plate { width_mm: 60.0, thickness_mm: 5.0 }.section(ALLOY).unwrap();
    let properties = plate.properties();
    for shear_area in [properties.shear_area_y_mm2, properties.shear_area_z_mm2] {
        assert!(near(shear_area, 250.0, 1e-9), "{shear_area}");
    }
    let plastic = plate.plastic(&[100.0]).unwrap();
    assert!(near(plastic.axial_n, 30_000.0, 1e-6), "{plastic:?}");
    assert!(near(plastic.moment_y_nmm, 100.0 * 60.0 * 25.0 / 4.0, 1e-4), "{plastic:?}");
    assert!(near(plastic.moment_z_nmm, 100.0 * 5.0 * 3600.0 / 4.0, 1e-3), "{plastic:?}");
    let elastic = plate.section_moduli().unwrap();
    assert!(near(elastic.about_y_mm3, 250.0, 1e-9) && near(elastic.about_z_mm3, 3000.0, 1e-9), "{elastic:?}");
}

/// A plastic section of two strengths: a box whose top wall is twice as strong. By hand, midlines
/// 100 × 60, t = 2, f = 100 and 200 in the top wall: the neutral line lies in the webs where both sides
/// carry half of N_pl. The strips meet on mitres, whose second-order share is below the tolerance.
#[test]
fn val_plastic_of_two_strengths() {
    let plastic = bredt([2.0; 4]).plastic(&[100.0, 200.0, 100.0, 100.0]).unwrap();
    let all = 100.0 * 2.0 * (60.0 + 60.0 + 100.0) + 200.0 * 2.0 * 100.0;
    assert!(near(plastic.axial_n, all, 1e-6 * all), "{plastic:?}");
    // Top wall 40 kN, both webs 400 N/mm: 40000 + 400 (30 − z) = 42000.
    assert!(near(plastic.neutral_z_mm, 25.0, 0.02), "{plastic:?}");
    let moment = 40_000.0 * 5.0 + 400.0 * (5.0 * 2.5 + 55.0 * 27.5) + 20_000.0 * 55.0;
    assert!(near(plastic.moment_y_nmm, moment, 0.005 * moment), "{plastic:?}");
}
