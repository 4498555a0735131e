use super::{Member, PointForce, PointMass, Resultants, SectionPoints, Vector, diagram, resultants_at};
use crate::failure::Failure;
use proptest::prelude::*;

const UP: Vector = [0.0, 0.0, 1.0];

fn demo() -> (Member, PointForce) {
    let member = Member::new([0.0; 3], [-700.0, 0.0, 0.0], UP).unwrap();
    (member, PointForce { at_mm: [-650.0, 0.0, -90.0], force_n: [-16_580.0, -4440.0, 0.0] })
}

/// The demo's recovery case at station 310 (invented figures, by hand): N 16.6, V_y 4.44 kN, T +0.40,
/// M_y −1.49, M_z +1.51 kN m; local y to the vehicle's right. Half a unit of the last digit.
#[test]
fn val_demo_resultants() {
    let (member, force) = demo();
    assert_eq!(member.axes(), [[-1.0, 0.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0]]);
    let found = resultants_at(&member, &[force], 310.0, &SectionPoints::default()).unwrap();
    let expected =
        [(16_600.0, 50.0), (4440.0, 5.0), (0.0, 1e-9), (-1.49e6, 5e3), (1.51e6, 5e3), (0.40e6, 5e3)];
    for (part, (figure, half_digit)) in found.parts().into_iter().zip(expected) {
        assert!((part - figure).abs() <= half_digit, "{found:?}");
    }
}

/// The shear centre's offset changes the torque alone, the centroid's the moments alone.
#[test]
fn unit_moments_about_the_points_of_the_section() {
    let (member, force) = demo();
    let at = |points| resultants_at(&member, &[force], 310.0, &points).unwrap();
    let plain = at(SectionPoints::default());
    let moved = at(SectionPoints { centroid_mm: [3.0, 5.0], shear_centre_mm: [-20.0, 10.0] });
    assert_eq!((plain.axial_n, plain.shear_y_n), (moved.axial_n, moved.shear_y_n));
    // M_y = (z − z_c) N, M_z = … − (y − y_c) N, T = (y − y_s) V_z − (z − z_s) V_y
    assert!((moved.moment_y_nmm - (plain.moment_y_nmm - 5.0 * 16_580.0)).abs() < 1e-6, "{moved:?}");
    assert!((moved.moment_z_nmm - (plain.moment_z_nmm + 3.0 * 16_580.0)).abs() < 1e-6, "{moved:?}");
    assert!((moved.torque_nmm - (plain.torque_nmm + 10.0 * 4440.0)).abs() < 1e-6, "{moved:?}");
}

/// Cantilever under its own mass: N = 0, V_z = −m g, M_y = + m g a: it hangs, so the top is in tension.
#[test]
fn unit_a_weight_pulls_the_top() {
    let member = Member::new([0.0; 3], [1000.0, 0.0, 0.0], UP).unwrap();
    let mass = PointMass { at_mm: [800.0, 0.0, 0.0], mass_kg: 10.0 };
    let weight = mass.weight([0.0, 0.0, -9.81]).unwrap();
    let found = resultants_at(&member, &[weight], 300.0, &SectionPoints::default()).unwrap();
    assert!((found.shear_z_n + 98.1).abs() < 1e-9 && (found.moment_y_nmm - 98.1 * 500.0).abs() < 1e-6);
    assert!(PointMass { mass_kg: -1.0, ..mass }.weight([0.0; 3]).is_err());
}

#[test]
fn unit_only_forces_beyond_the_station_count() {
    let (member, force) = demo();
    let axial =
        |station| resultants_at(&member, &[force], station, &SectionPoints::default()).unwrap().axial_n;
    for (station, expected) in [(0.0, 16_580.0), (649.0, 16_580.0), (650.0, 0.0), (700.0, 0.0)] {
        assert!((axial(station) - expected).abs() < 1e-9, "{station}");
    }
    // Beyond the member's end it still pulls at the end.
    let hook = PointForce { at_mm: [-750.0, 0.0, 0.0], ..force };
    assert!(resultants_at(&member, &[hook], 700.0, &SectionPoints::default()).unwrap().axial_n > 16_000.0);
}

#[test]
fn unit_the_diagram_jumps_at_forces() {
    let (member, force) = demo();
    let stations = diagram(&member, &[force], &SectionPoints::default()).unwrap();
    let places: Vec<f64> = stations.iter().map(|s| s.station_mm).collect();
    assert_eq!(places, [0.0, 650.0, 650.0, 700.0]);
    let [start, before, after, end] = &stations[..] else { panic!("{stations:?}") };
    assert!((start.resultants.moment_z_nmm - 650.0 * 4440.0).abs() < 1e-6, "{start:?}");
    assert!(
        (before.resultants.axial_n - 16_580.0).abs() < 1e-9 && before.resultants.moment_z_nmm.abs() < 1e-6
    );
    assert_eq!((after.resultants, end.resultants), (Resultants::default(), Resultants::default()));
}

#[test]
fn unit_shares() {
    let (member, force) = demo();
    let whole = resultants_at(&member, &[force], 310.0, &SectionPoints::default()).unwrap();
    assert_eq!(whole.shared(0.5).unwrap().plus(&whole.shared(0.5).unwrap()), whole);
    for share in [-0.1, 1.1, f64::NAN] {
        assert!(matches!(whole.shared(share), Err(Failure::OutOfRange { .. })));
    }
}

#[test]
fn unit_what_has_no_direction_or_no_number() {
    let (member, force) = demo();
    for (to, up) in [([0.0; 3], UP), ([0.0, 0.0, 500.0], UP), ([500.0, 0.0, 0.0], [0.0; 3])] {
        assert!(matches!(Member::new([0.0; 3], to, up), Err(Failure::NoDirection { .. })), "{to:?} {up:?}");
    }
    for broken in [f64::NAN, f64::INFINITY] {
        assert!(Member::new([broken, 0.0, 0.0], [1.0; 3], UP).is_err());
        let force = PointForce { at_mm: [broken, 0.0, 0.0], ..force };
        assert!(resultants_at(&member, &[force], 310.0, &SectionPoints::default()).is_err());
        assert!(resultants_at(&member, &[], broken, &SectionPoints::default()).is_err());
        let points = SectionPoints { centroid_mm: [broken, 0.0], ..SectionPoints::default() };
        assert!(resultants_at(&member, &[], 310.0, &points).is_err());
        assert!(diagram(&member, &[force], &SectionPoints::default()).is_err());
    }
    assert!(resultants_at(&member, &[force], 700.1, &SectionPoints::default()).is_err());
    // Each is finite, their moment is not.
    let huge = PointForce { at_mm: [-650.0, 1e200, 0.0], force_n: [1e200, 0.0, 0.0] };
    assert!(matches!(
        resultants_at(&member, &[huge], 310.0, &SectionPoints::default()),
        Err(Failure::NoNumber { .. })
    ));
}

fn vector(size: f64) -> impl Strategy<Value = Vector> {
    prop::array::uniform3(-size..size)
}

fn forces() -> impl Strategy<Value = Vec<PointForce>> {
    let force = (vector(900.0), vector(2e4)).prop_map(|(at_mm, force_n)| PointForce { at_mm, force_n });
    prop::collection::vec(force, 1..6)
}

/// A member of some length and an up that is not along it.
fn member() -> impl Strategy<Value = (Vector, Vector, Vector)> {
    (vector(200.0), vector(1000.0), vector(1.0)).prop_filter("a direction", |(from, to, up)| {
        let span = [0, 1, 2].map(|k| to[k] - from[k]);
        let size = |v: Vector| v.iter().map(|c| c * c).sum::<f64>().sqrt();
        let cross = super::member::cross(span, *up);
        size(span) > 50.0 && size(cross) > 0.05 * size(span) * size(*up) && size(*up) > 0.1
    })
}

fn points() -> impl Strategy<Value = SectionPoints> {
    (prop::array::uniform2(-50.0..50.0), prop::array::uniform2(-50.0..50.0))
        .prop_map(|(centroid_mm, shear_centre_mm)| SectionPoints { centroid_mm, shear_centre_mm })
}

/// Forces of up to 1e5 N in all at distances of up to some 2e3 mm: 1e-9 of that.
fn same(found: &Resultants, expected: &Resultants) -> Result<(), TestCaseError> {
    for (k, (a, b)) in found.parts().into_iter().zip(expected.parts()).enumerate() {
        let scale = if k < 3 { 1e5 } else { 2e8 };
        prop_assert!((a - b).abs() <= 1e-9 * scale, "{k}: {a} against {b}");
    }
    Ok(())
}

/// A turn about an axis (Rodrigues).
fn turned(vector: Vector, axis: Vector, angle: f64) -> Vector {
    let size = axis.iter().map(|c| c * c).sum::<f64>().sqrt();
    let unit = axis.map(|c| c / size);
    let (c, s) = (libm::cos(angle), libm::sin(angle));
    let dot: f64 = (0..3).map(|k| unit[k] * vector[k]).sum();
    let cross = super::member::cross(unit, vector);
    [0, 1, 2].map(|k| c * vector[k] + s * cross[k] + (1.0 - c) * dot * unit[k])
}

proptest! {
    /// The part beyond the station is in equilibrium: its forces and the resultants reversed leave no force
    /// and no moment about any point, in vehicle axes.
    #[test]
    fn law_equilibrium((from, to, up) in member(), loads in forces(), share in 0.0..1.0, pole in vector(500.0)) {
        let member = Member::new(from, to, up).unwrap();
        let station = share * member.length_mm();
        let found = resultants_at(&member, &loads, station, &SectionPoints::default()).unwrap();
        let axes = member.axes();
        let back = |local: Vector| [0, 1, 2].map(|k| (0..3).map(|j| local[j] * axes[j][k]).sum::<f64>());
        let force = back([found.axial_n, found.shear_y_n, found.shear_z_n]);
        let moment = back([found.torque_nmm, found.moment_y_nmm, found.moment_z_nmm]);
        let cut = [0, 1, 2].map(|k| from[k] + station * axes[0][k]);
        let arm = |at: Vector| [0, 1, 2].map(|k| at[k] - pole[k]);
        let at_cut = super::member::cross(arm(cut), force);
        let mut left = [0, 1, 2].map(|k| -force[k]);
        let mut turning = [0, 1, 2].map(|k| -moment[k] - at_cut[k]);
        for load in loads.iter().filter(|load| member.place(load.at_mm)[0] > station) {
            let about = super::member::cross(arm(load.at_mm), load.force_n);
            for k in 0..3 {
                left[k] += load.force_n[k];
                turning[k] += about[k];
            }
        }
        prop_assert!(left.iter().all(|c| c.abs() < 1e-9 * 1e5), "{left:?}");
        prop_assert!(turning.iter().all(|c| c.abs() < 1e-9 * 2e8), "{turning:?}");
    }

    /// The axes are a right-handed set of unit vectors, x along the member, y level with respect to up.
    #[test]
    fn law_axes((from, to, up) in member()) {
        let axes = Member::new(from, to, up).unwrap().axes();
        let dot = |a: Vector, b: Vector| (0..3).map(|k| a[k] * b[k]).sum::<f64>();
        for (i, a) in axes.iter().enumerate() {
            for (j, b) in axes.iter().enumerate() {
                let unit = if i == j { 1.0 } else { 0.0 };
                prop_assert!((dot(*a, *b) - unit).abs() < 1e-12);
            }
        }
        let y = super::member::cross(axes[2], axes[0]);
        prop_assert!((0..3).all(|k| (y[k] - axes[1][k]).abs() < 1e-12));
        prop_assert!(dot(axes[1], up).abs() < 1e-12 && dot(axes[2], up) > 0.0);
        prop_assert!(dot(axes[0], [0, 1, 2].map(|k| to[k] - from[k])) > 0.0);
    }

    /// Everything turned and shifted together: the resultants do not know.
    #[test]
    fn law_rotation((from, to, up) in member(), loads in forces(), share in 0.0..1.0, points in points(),
                    axis in vector(1.0), angle in -3.0..3.0, shift in vector(500.0)) {
        prop_assume!(axis.iter().any(|c| c.abs() > 0.1));
        let place = |p: Vector| { let t = turned(p, axis, angle); [0, 1, 2].map(|k| t[k] + shift[k]) };
        let elsewhere: Vec<PointForce> = loads
            .iter()
            .map(|l| PointForce { at_mm: place(l.at_mm), force_n: turned(l.force_n, axis, angle) })
            .collect();
        let one = Member::new(from, to, up).unwrap();
        let other = Member::new(place(from), place(to), turned(up, axis, angle)).unwrap();
        // A force that is level with the station may fall to either side by rounding.
        let station: f64 = share * one.length_mm();
        prop_assume!(loads.iter().all(|l| (one.place(l.at_mm)[0] - station).abs() > 1e-6));
        let station_there = station.min(other.length_mm());
        same(
            &resultants_at(&other, &elsewhere, station_there, &points).unwrap(),
            &resultants_at(&one, &loads, station, &points).unwrap(),
        )?;
    }

    /// Two loads act as the sum of each alone, and twice a load twice as much.
    #[test]
    fn law_superposition((from, to, up) in member(), a in forces(), b in forces(), share in 0.0..1.0,
                         points in points(), factor in -3.0..3.0) {
        let member = Member::new(from, to, up).unwrap();
        let of = |loads: &[PointForce]| resultants_at(&member, loads, share * member.length_mm(), &points).unwrap();
        same(&of(&[a.clone(), b.clone()].concat()), &of(&a).plus(&of(&b)))?;
        let scaled: Vec<PointForce> =
            a.iter().map(|l| PointForce { force_n: l.force_n.map(|f| factor * f), ..*l }).collect();
        same(&of(&scaled), &of(&a).scaled(factor))?;
    }

    /// Mirrored in the vehicle's x–z plane with its section: V_y, M_z and T change sign, the rest stays.
    #[test]
    fn law_mirror((from, to, up) in member(), loads in forces(), share in 0.0..1.0, points in points()) {
        let image = |[x, y, z]: Vector| [x, -y, z];
        let flip = |[y, z]: [f64; 2]| [-y, z];
        let mirrored: Vec<PointForce> =
            loads.iter().map(|l| PointForce { at_mm: image(l.at_mm), force_n: image(l.force_n) }).collect();
        let mirrored_points =
            SectionPoints { centroid_mm: flip(points.centroid_mm), shear_centre_mm: flip(points.shear_centre_mm) };
        let one = Member::new(from, to, up).unwrap();
        let other = Member::new(image(from), image(to), image(up)).unwrap();
        let station = share * one.length_mm();
        let here = resultants_at(&one, &loads, station, &points).unwrap();
        let there = resultants_at(&other, &mirrored, station, &mirrored_points).unwrap();
        let expected = Resultants {
            shear_y_n: -here.shear_y_n, moment_z_nmm: -here.moment_z_nmm, torque_nmm: -here.torque_nmm, ..here
        };
        same(&there, &expected)?;
    }

    /// Between its stations the diagram is linear: anywhere it gives what the cut there gives.
    #[test]
    fn law_diagram_interpolates((from, to, up) in member(), loads in forces(), share in 0.0..1.0, points in points()) {
        let member = Member::new(from, to, up).unwrap();
        let stations = diagram(&member, &loads, &points).unwrap();
        prop_assert!(stations.windows(2).all(|w| w[0].station_mm <= w[1].station_mm));
        let x = share * member.length_mm();
        let Some(pair) = stations.windows(2).find(|w| w[0].station_mm <= x && x < w[1].station_mm) else {
            return Err(TestCaseError::fail("the diagram does not reach along the member"));
        };
        let part = (x - pair[0].station_mm) / (pair[1].station_mm - pair[0].station_mm);
        let between = pair[0].resultants.scaled(1.0 - part).plus(&pair[1].resultants.scaled(part));
        same(&between, &resultants_at(&member, &loads, x, &points).unwrap())?;
    }
}
