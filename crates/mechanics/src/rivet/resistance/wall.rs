//! Solid rivets, and walls around any fastener (EN 1999-1-1, 8.5).

use super::{Mode, Resistance};
use crate::failure::{self, Failure};
use crate::rivet::flexibility::ShearPlanes;

/// Where a fastener sits in its wall; a distance that does not exist (a single row, a closed face)
/// is `None`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Place {
    /// e₁ to the end in the direction of the force, mm.
    pub end_mm: Option<f64>,
    /// e₂ to the edge across the force, mm.
    pub edge_mm: Option<f64>,
    /// p₁ to the next fastener along the force, mm.
    pub along_mm: Option<f64>,
    /// p₂ to the next fastener across the force, mm.
    pub across_mm: Option<f64>,
}

/// A wall in bearing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Thickness t, mm.
    pub thickness_mm: f64,
    /// Tensile strength f_u, MPa.
    pub tensile_strength_mpa: f64,
    /// Diameter d of the fastener, mm.
    pub diameter_mm: f64,
    /// Diameter d₀ of the hole, mm.
    pub hole_mm: f64,
    /// Tensile strength f_ur of the fastener, MPa; `None` where its own strength is judged by test.
    pub fastener_strength_mpa: Option<f64>,
}

/// The two factors of [`bearing`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BearingFactors {
    /// k₁, from the distances across the force.
    pub k_1: f64,
    /// α_b, from the distances along the force and the fastener's strength.
    pub alpha_b: f64,
}

/// Bearing factors of a fastener in a wall.
///
/// ```text
/// α_b = min(e₁/(3 d₀), p₁/(3 d₀) − 1/4, f_ur/f_u, 1)        k₁ = min(2.8 e₂/d₀ − 1.7, 1.4 p₂/d₀ − 1.7, 2.5)
/// ```
///
/// Symbols as in [`Place`] and [`Wall`]; a distance that does not exist drops out. Valid for e₁, e₂
/// ≥ 1.2 d₀, p₁ ≥ 2.2 d₀, p₂ ≥ 2.4 d₀. Source as in [`bearing`].
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, also of the rule's range of validity.
pub fn bearing_factors(wall: &Wall, place: &Place) -> Result<BearingFactors, Failure> {
    let d0 = failure::positive("hole diameter", wall.hole_mm)?;
    let f_u = failure::positive("tensile strength of the wall", wall.tensile_strength_mpa)?;
    let over_hole = |name, distance: Option<f64>, least: f64| match distance {
        // 1e-9 is rounding of a converted figure, not leave.
        Some(mm) => failure::within(name, mm / d0, least * (1.0 - 1e-9), f64::MAX).map(Some),
        None => Ok(None),
    };
    let end = over_hole("end distance over hole diameter", place.end_mm, 1.2)?;
    let edge = over_hole("edge distance over hole diameter", place.edge_mm, 1.2)?;
    let along = over_hole("spacing along the force over hole diameter", place.along_mm, 2.2)?;
    let across = over_hole("spacing across the force over hole diameter", place.across_mm, 2.4)?;
    let mut alpha_b = 1.0_f64;
    if let Some(f_ur) = wall.fastener_strength_mpa {
        alpha_b = alpha_b.min(failure::positive("tensile strength of the fastener", f_ur)? / f_u);
    }
    if let Some(e1) = end {
        alpha_b = alpha_b.min(e1 / 3.0);
    }
    if let Some(p1) = along {
        alpha_b = alpha_b.min(p1 / 3.0 - 0.25);
    }
    let mut k_1 = 2.5_f64;
    if let Some(e2) = edge {
        k_1 = k_1.min(2.8 * e2 - 1.7);
    }
    if let Some(p2) = across {
        k_1 = k_1.min(1.4 * p2 - 1.7);
    }
    Ok(BearingFactors { k_1, alpha_b })
}

/// Bearing resistance of a fastener in a wall.
///
/// ```text
/// F_b,Rk = k₁ α_b f_u d t
/// ```
///
/// k₁ and α_b by [`bearing_factors`], f_u tensile strength of the wall (MPa), d fastener diameter, t
/// wall thickness (mm). For normal round holes and protruding heads. The code's form for steel has d
/// = d₀ for a rivet that fills its hole; here d is what is given.
///
/// EN 1999-1-1:2007 Table 8.5 (from memory), of the same form as EN 1993-1-8:2005 Table 3.4 (read).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, also of the rule's range of validity.
pub fn bearing(wall: &Wall, place: &Place, gamma_m2: f64) -> Result<Resistance, Failure> {
    let d = failure::positive("fastener diameter", wall.diameter_mm)?;
    let t = failure::positive("wall thickness", wall.thickness_mm)?;
    let BearingFactors { k_1, alpha_b } = bearing_factors(wall, place)?;
    Resistance::new(Mode::Bearing, k_1 * alpha_b * wall.tensile_strength_mpa * d * t, gamma_m2)
}

/// Resistance of a head against being pulled through a wall.
///
/// ```text
/// B_p,Rk = 0.6 π d_m t f_u
/// ```
///
/// d_m mean diameter of the head, t wall thickness (mm), f_u tensile strength of the wall (MPa): a
/// cylinder of shear around the head. Both ends of a fastener have a head, the formed one of a blind
/// rivet is often the smaller.
///
/// EN 1993-1-8:2005 Table 3.4 for bolts (read; solid rivets are exempt there); EN 1999-1-1 Table
/// 8.5 (from memory). For thin sheet that bends under the head it is too high; EN 1993-1-3 leaves
/// that case to tests.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn pull_through(
    thickness_mm: f64,
    tensile_strength_mpa: f64,
    head_diameter_mm: f64,
    gamma_m2: f64,
) -> Result<Resistance, Failure> {
    let t = failure::positive("wall thickness", thickness_mm)?;
    let f_u = failure::positive("tensile strength of the wall", tensile_strength_mpa)?;
    let d_m = failure::positive("head diameter", head_diameter_mm)?;
    Resistance::new(Mode::PullThrough, 0.6 * std::f64::consts::PI * d_m * t * f_u, gamma_m2)
}

/// Shear resistance of a solid rivet.
///
/// ```text
/// F_v,Rk = 0.6 f_ur A₀        for each shear plane, A₀ = π d₀²/4
/// ```
///
/// f_ur tensile strength of the rivet (MPa), d₀ hole diameter, which the driven rivet fills (mm).
///
/// EN 1999-1-1:2007 Table 8.5 (from memory); EN 1993-1-8:2005 Table 3.4 (read).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn solid_shear(
    rivet_strength_mpa: f64,
    hole_mm: f64,
    planes: ShearPlanes,
    gamma_m2: f64,
) -> Result<Resistance, Failure> {
    let shank_n = shank_n(rivet_strength_mpa, hole_mm)?;
    Resistance::new(Mode::RivetShear, planes.count() * shank_n, gamma_m2)
}

/// Tension resistance of a solid rivet: F_t,Rk = 0.6 f_ur A₀, symbols and source as in
/// [`solid_shear`].
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn solid_tension(rivet_strength_mpa: f64, hole_mm: f64, gamma_m2: f64) -> Result<Resistance, Failure> {
    Resistance::new(Mode::RivetTension, shank_n(rivet_strength_mpa, hole_mm)?, gamma_m2)
}

fn shank_n(rivet_strength_mpa: f64, hole_mm: f64) -> Result<f64, Failure> {
    let f_ur = failure::positive("tensile strength of the rivet", rivet_strength_mpa)?;
    let d0 = failure::positive("hole diameter", hole_mm)?;
    Ok(0.6 * f_ur * 0.25 * std::f64::consts::PI * d0 * d0)
}

#[cfg(test)]
mod tests {
    use super::super::GAMMA_M2;
    use super::*;
    use proptest::prelude::*;

    fn wall() -> Wall {
        Wall {
            thickness_mm: 2.0,
            tensile_strength_mpa: 260.0,
            diameter_mm: 5.0,
            hole_mm: 5.2,
            fastener_strength_mpa: None,
        }
    }

    fn edges(end_mm: f64, edge_mm: f64) -> Place {
        Place { end_mm: Some(end_mm), edge_mm: Some(edge_mm), ..Place::default() }
    }

    /// EC9-BEAR-1: EN 1999-1-1 Table 8.5 evaluated elsewhere, printed to six digits.
    #[test]
    fn val_bearing_of_a_wall() {
        let of = |place: &Place| bearing(&wall(), place, GAMMA_M2).unwrap().design_n;
        assert!((of(&edges(10.4, 7.8)) - 3_466.666_666_666_666_5).abs() < 1e-9);
        assert!((of(&edges(1.2 * 5.2, 1.2 * 5.2)) - 1_381.12).abs() < 1e-9);
        let inner = Place { along_mm: Some(2.5 * 5.2), ..Place::default() };
        let alpha_b = bearing_factors(&wall(), &inner).unwrap().alpha_b;
        assert!((alpha_b - 7.0 / 12.0).abs() < 1e-15);
    }

    /// EC9-SHEAR-1: EN 1999-1-1 Table 8.5 evaluated elsewhere to 16 digits.
    #[test]
    fn val_shear_of_a_solid_rivet() {
        let one = solid_shear(250.0, 5.0, ShearPlanes::One, GAMMA_M2).unwrap();
        assert!((one.design_n - 2_356.194_490_192_345).abs() < 1e-10);
        let two = solid_shear(250.0, 5.0, ShearPlanes::Two, GAMMA_M2).unwrap();
        assert!((two.design_n / one.design_n - 2.0).abs() < 1e-15);
        let tension = solid_tension(250.0, 5.0, GAMMA_M2).unwrap();
        assert!((tension.design_n - one.design_n).abs() < 1e-12);
    }

    #[test]
    fn unit_a_soft_fastener_and_near_neighbours_lower_the_factors() {
        let soft = Wall { fastener_strength_mpa: Some(195.0), ..wall() };
        assert!((bearing_factors(&soft, &Place::default()).unwrap().alpha_b - 0.75).abs() < 1e-15);
        let near = Place { across_mm: Some(2.5 * 5.2), ..Place::default() };
        assert!((bearing_factors(&wall(), &near).unwrap().k_1 - 1.8).abs() < 1e-14);
        let free = bearing_factors(&wall(), &Place::default()).unwrap();
        assert_eq!(free, BearingFactors { k_1: 2.5, alpha_b: 1.0 });
    }

    #[test]
    fn unit_pull_through_shears_a_cylinder_around_the_head() {
        let head = pull_through(4.0, 220.0, 13.0, GAMMA_M2).unwrap();
        assert!((head.characteristic_n - 0.6 * std::f64::consts::PI * 13.0 * 4.0 * 220.0).abs() < 1e-9);
        assert_eq!(head.mode, Mode::PullThrough);
    }

    #[test]
    fn unit_refuses_what_the_table_does_not_cover() {
        for (place, name) in [
            (edges(1.19 * 5.2, 20.0), "end distance over hole diameter"),
            (edges(20.0, 1.19 * 5.2), "edge distance over hole diameter"),
            (
                Place { along_mm: Some(2.1 * 5.2), ..Place::default() },
                "spacing along the force over hole diameter",
            ),
            (
                Place { across_mm: Some(2.3 * 5.2), ..Place::default() },
                "spacing across the force over hole diameter",
            ),
        ] {
            match bearing(&wall(), &place, GAMMA_M2) {
                Err(Failure::OutOfRange { argument, .. }) => assert_eq!(argument, name),
                other => panic!("{other:?}"),
            }
        }
        assert!(solid_shear(f64::INFINITY, 5.0, ShearPlanes::One, GAMMA_M2).is_err());
        assert!(pull_through(4.0, 220.0, 0.0, GAMMA_M2).is_err());
    }

    proptest! {
        /// More room never carries less, and nothing carries more than 2.5 f_u d t.
        #[test]
        fn law_bearing_grows_with_every_distance(
            distances in prop::array::uniform4(2.4..12.0_f64), which in 0..4_usize, more in 1.0..2.0_f64,
        ) {
            let place = |d: [f64; 4]| Place {
                end_mm: Some(d[0] * 5.2),
                edge_mm: Some(d[1] * 5.2),
                along_mm: Some(d[2] * 5.2),
                across_mm: Some(d[3] * 5.2),
            };
            let of = |d| bearing(&wall(), &place(d), GAMMA_M2).unwrap().characteristic_n;
            let mut wider = distances;
            wider[which] *= more;
            prop_assert!(of(wider) >= of(distances));
            prop_assert!(of(wider) <= 2.5 * 260.0 * 5.0 * 2.0 * (1.0 + 1e-12));
        }
    }
}
