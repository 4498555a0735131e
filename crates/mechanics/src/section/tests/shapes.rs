//! Named shapes and faces.

use super::super::shapes::{Channel, Hat, HollowBox, Tube};
use super::super::{Form, Side};
use super::{ALLOY, near};
use crate::statics::Resultants;

const CASTING: HollowBox = HollowBox { width_mm: 80.0, height_mm: 120.0, wall_mm: 4.0, inner_radius_mm: 8.0 };

/// Sizes by hand: outside minus inside, each a rectangle less (4 − π) r².
#[test]
fn unit_rounded_box_has_the_area_of_its_outline() {
    let area = CASTING.section(ALLOY).unwrap().properties().area_mm2;
    let lost = 4.0 - std::f64::consts::PI;
    let exact = 80.0 * 120.0 - lost * 144.0 - (72.0 * 112.0 - lost * 64.0);
    // Arcs are 251 of 1467 mm²; 24 chords a quarter cut 1.8e-4 of them off.
    assert!(near(area, exact, 1e-4 * exact), "{area} {exact}");
}

/// Ring of radii 30 and 25: I = π (R⁴ − r⁴)/4. The brief asks for 1e-3.
#[test]
fn unit_tube_has_the_second_moment_of_a_ring() {
    let tube = Tube { outside_diameter_mm: 60.0, wall_mm: 5.0 }.section(ALLOY).unwrap();
    let properties = tube.properties();
    let exact = std::f64::consts::PI * (30.0_f64.powi(4) - 25.0_f64.powi(4)) / 4.0;
    assert!(near(properties.i_y_mm4, exact, 1e-3 * exact), "{} {exact}", properties.i_y_mm4);
    assert!(near(properties.i_z_mm4, exact, 1e-3 * exact));
    assert_eq!(tube.cells(), 1);
    // No axis is a principal one: the angle is zero by convention, not by rounding.
    assert!(near(properties.principal_angle, 0.0, 0.0));
}

#[test]
fn unit_flats_of_the_demo_casting() {
    let faces = CASTING.faces().unwrap();
    let section = CASTING.section(ALLOY).unwrap();
    let widths = faces.map(|face| face.width_mm);
    for (width, expected) in widths.into_iter().zip([96.0, 56.0, 96.0, 56.0]) {
        assert!(near(width, expected, 1e-12), "{widths:?}");
    }
    assert_eq!(faces.map(|face| face.side), [Side::Right, Side::Top, Side::Left, Side::Bottom]);
    // Inner surface of the right face, 10 above its middle; outer surface of the top, 17.5 to the right.
    for (found, expected) in
        [(faces[0].point_mm(10.0, -2.0), [36.0, 10.0]), (faces[1].point_mm(17.5, 2.0), [17.5, 60.0])]
    {
        assert!((0..2).all(|k| near(found[k], expected[k], 1e-12)), "{found:?}");
    }
    assert_eq!(section.walls()[faces[1].wall].form, Form::Flat);
}

/// A position on a face and the wall's own coordinate name the same point, on sharp boxes as well.
#[test]
fn unit_face_positions_lie_on_their_wall() {
    for inner_radius_mm in [0.0, 8.0] {
        let shape = HollowBox { inner_radius_mm, ..CASTING };
        let load = shape.section(ALLOY).unwrap().perimeter(&Resultants::default()).unwrap();
        for face in shape.faces().unwrap() {
            for share in [-0.5, -0.2, 0.0, 0.5] {
                let position = share * face.width_mm;
                let on_wall = load.at(face.wall, face.s_mm(position)).unwrap().at_mm;
                let on_face = face.point_mm(position, 0.0);
                assert!((0..2).all(|k| near(on_wall[k], on_face[k], 1e-9)), "{face:?} {on_wall:?}");
            }
        }
    }
}

/// The web is on the left, so the shear centre is further left and the centroid left of the middle.
#[test]
fn unit_channel_opens_to_the_right() {
    let channel = Channel { web_mm: 80.0, flange_mm: 40.0, wall_mm: 4.0 }.section(ALLOY).unwrap();
    let properties = channel.properties();
    assert!(properties.centroid_mm[0] < 0.0 && properties.shear_centre_mm[0] < -20.0, "{properties:?}");
    let exact = 80.0 * 4.0 + 2.0 * 36.0 * 4.0;
    assert!(near(properties.area_mm2, exact, 1e-9 * exact));
}

#[test]
fn unit_hat_is_closed_by_its_plate_only() {
    let hat = Hat { top_mm: 60.0, height_mm: 50.0, flange_mm: 25.0, wall_mm: 2.0, plate_mm: 0.0 };
    let open = hat.section(ALLOY).unwrap();
    let closed = Hat { plate_mm: 3.0, ..hat }.section(ALLOY).unwrap();
    assert_eq!((open.cells(), closed.cells()), (0, 1));
    let open_area = 60.0 * 2.0 + 2.0 * 48.0 * 2.0 + 2.0 * 25.0 * 2.0;
    for (section, area) in [(open, open_area), (closed, open_area + 110.0 * 3.0)] {
        assert!(near(section.properties().area_mm2, area, 1e-9 * area), "{:?}", section.properties());
    }
}

/// What symmetry makes zero is zero, without the noise and the sign of rounding.
#[test]
fn unit_symmetric_sections_say_so() {
    let properties = *CASTING.section(ALLOY).unwrap().properties();
    let zeros = properties.centroid_mm.into_iter().chain(properties.shear_centre_mm);
    for value in
        zeros.chain([properties.i_yz_mm4, properties.principal_angle, properties.torsion.branches_mm4])
    {
        assert!(value.to_bits() == 0, "{properties:?}");
    }
}
