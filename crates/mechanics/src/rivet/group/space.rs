//! Rows of fasteners around a member's section, as in a sleeve or a socket without its bond.

use super::First;
use super::frame::{Frame, Wrench};
use super::sliders::{self, Slider};
use super::springs::{self, Spring};
use crate::failure::{self, Failure};
use crate::rivet::resistance::Interaction;
use crate::statics::{Resultants, SectionPoints};

/// Where a fastener goes through the faying surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// x along the member, y and z in its section, mm.
    pub at_mm: [f64; 3],
    /// Direction along y and z in which the fastener points out of the section, of any length.
    pub outward: [f64; 2],
}

/// What a fastener does against opening of its walls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tension {
    /// Axial stiffness, N/mm. It also stands for the walls' contact where they are pressed together.
    pub stiffness_n_mm: f64,
    /// Strength, N.
    pub strength_n: f64,
}

/// A fastener in a wall of the section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rivet {
    /// Where it sits.
    pub place: Place,
    /// Shear stiffness along the member, N/mm.
    pub axial_n_mm: f64,
    /// Shear stiffness along the wall, across the member, N/mm.
    pub tangential_n_mm: f64,
    /// Shear strength, the same in all directions of the wall, N.
    pub shear_strength_n: f64,
    /// Against opening; `None` counts on shear alone.
    pub tension: Option<Tension>,
}

/// The section that the load acts on; the other one takes it over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loaded {
    /// The outer section: moving outward it opens the wall.
    Outer,
    /// The inner section: moving outward it presses against the wall.
    Inner,
}

/// The load on a group: the resultants of a section at a station, which need not be the rivets'.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Station of the section, mm.
    pub x_mm: f64,
    /// Its resultants.
    pub resultants: Resultants,
    /// Where they act: N at the centroid, V at the shear centre; in the rivets' coordinates.
    pub points: SectionPoints,
}

/// What one fastener takes of the load, N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Force {
    /// Along the member, toward +x.
    pub axial_n: f64,
    /// Along the wall: toward x × outward, which is the way of a positive torque.
    pub tangential_n: f64,
    /// Along the fastener: positive opens the wall, negative presses it together.
    pub tension_n: f64,
}

impl Force {
    /// Resultant in the wall, N.
    #[must_use]
    pub fn shear_n(&self) -> f64 {
        (self.axial_n * self.axial_n + self.tangential_n * self.tangential_n).sqrt()
    }
}

/// Forces by stiffness.
#[derive(Debug, Clone, PartialEq)]
pub struct Elastic {
    /// What each fastener takes of the load.
    pub forces: Vec<Force>,
    /// Each one's share of its strength, shear and tension together.
    pub utilisations: Vec<f64>,
    /// The fastener that reaches its strength first; none without load.
    pub first: Option<First>,
}

/// Forces at the plastic capacity, by shear alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Plastic {
    /// Multiple of the load that the group carries.
    pub factor: f64,
    /// Multiple of the load that it cannot exceed in shear: `factor` but for the last part in a
    /// million.
    pub bound: f64,
    /// Forces in equilibrium with `factor` times the load and within all shear strengths.
    pub forces: Vec<Force>,
}

const MOTIONS: [&str; 6] = [
    "translation along x",
    "translation along y",
    "translation along z",
    "rotation about x",
    "rotation about y",
    "rotation about z",
];

/// A row of fasteners around a box section, all at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxRow<'a> {
    /// Width of the faying surface along y, mm: where the fasteners are sheared.
    pub width_mm: f64,
    /// Height of the faying surface along z, mm.
    pub height_mm: f64,
    /// Station of the row, mm.
    pub x_mm: f64,
    /// Places on the two faces that lie across the height, y from their middle, mm.
    pub on_width_faces_mm: &'a [f64],
    /// Places on the two faces that lie across the width, z from their middle, mm.
    pub on_height_faces_mm: &'a [f64],
}

/// The places of a row on a box: those at the top, at the bottom, at +y and at −y.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, also a place beyond its face.
pub fn on_box(row: &BoxRow) -> Result<Vec<Place>, Failure> {
    let half_width = 0.5 * failure::positive("width of the faying surface", row.width_mm)?;
    let half_height = 0.5 * failure::positive("height of the faying surface", row.height_mm)?;
    failure::finite("station of the row", row.x_mm)?;
    for y in row.on_width_faces_mm {
        failure::within("place on a width face", *y, -half_width, half_width)?;
    }
    for z in row.on_height_faces_mm {
        failure::within("place on a height face", *z, -half_height, half_height)?;
    }
    let flat = [1.0, -1.0].into_iter().flat_map(|side| {
        row.on_width_faces_mm
            .iter()
            .map(move |y| Place { at_mm: [row.x_mm, *y, side * half_height], outward: [0.0, side] })
    });
    let upright = [1.0, -1.0].into_iter().flat_map(|side| {
        row.on_height_faces_mm
            .iter()
            .map(move |z| Place { at_mm: [row.x_mm, side * half_width, *z], outward: [side, 0.0] })
    });
    Ok(flat.chain(upright).collect())
}

/// Forces in rows around a section by stiffness.
///
/// ```text
/// u = v + θ × (r − r₀)        f_j = k_j e_j·u        Σ f = (N, V_y, V_z)        Σ r × f = (T, M_y, M_z)
/// ```
///
/// v, θ motion of the loaded section against the other, both rigid; e_j the three directions of each
/// fastener (along x, along the wall, out of it) and k_j its stiffness in them (N/mm). Between the
/// section of the resultants and the rivets the shear changes the moment, which is accounted for: of
/// the two sides of a cut the one away from the load has the greater. A sleeve has a group on each
/// side, and each takes the whole load.
///
/// A wall that bends out takes no load: the stiffness across it is to be given low. Formula.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range; [`Failure::FreeMotion`] if the group leaves a
/// motion free, also one on which the load does no work.
pub fn elastic(
    rivets: &[Rivet],
    loaded: Loaded,
    interaction: Interaction,
    load: &Load,
) -> Result<Elastic, Failure> {
    let (frame, directions) = checked(rivets, load)?;
    let springs: Vec<Spring<6>> = rivets
        .iter()
        .zip(&directions)
        .flat_map(|(rivet, directions)| {
            let opening = rivet.tension.map_or(0.0, |tension| tension.stiffness_n_mm);
            let row = |direction| frame.row(rivet.place.at_mm, direction);
            [
                Spring { row: row(directions.along), stiffness: rivet.axial_n_mm },
                Spring { row: row(directions.across), stiffness: rivet.tangential_n_mm },
                Spring { row: row(directions.outward), stiffness: opening },
            ]
        })
        .collect();
    let (parts, _) = springs::forces(&springs, &frame.load(&wrench(load)), &MOTIONS)?;
    let opens = match loaded {
        Loaded::Outer => 1.0,
        Loaded::Inner => -1.0,
    };
    let forces: Vec<Force> = parts
        .as_chunks()
        .0
        .iter()
        .map(|[axial_n, tangential_n, outward_n]| Force {
            axial_n: *axial_n,
            tangential_n: *tangential_n,
            tension_n: opens * outward_n,
        })
        .collect();
    let utilisations = rivets
        .iter()
        .zip(&forces)
        .map(|(rivet, force)| {
            let tension = rivet.tension.map_or(0.0, |tension| force.tension_n / tension.strength_n);
            interaction.utilisation(force.shear_n() / rivet.shear_strength_n, tension)
        })
        .collect::<Result<Vec<f64>, Failure>>()?;
    let first = First::of(utilisations.iter().copied());
    Ok(Elastic { forces, utilisations, first })
}

/// Plastic capacity of rows around a section: the greatest multiple of a load for which forces in
/// equilibrium exist with every fastener's shear within its strength; none without load.
///
/// ```text
/// max λ:  Σ f = λ (N, V_y, V_z),  Σ r × f = λ (T, M_y, M_z),  |f| ≤ s,  f in the wall
/// ```
///
/// s shear strength (N). Tension and the contact of the walls are left out, which lowers the
/// capacity or leaves it. Needs fasteners or walls that yield; rigid sections; stiffnesses do not
/// matter.
///
/// Static and kinematic theorems of limit analysis (formula).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range; [`Failure::FreeMotion`] if shear alone leaves a
/// motion free; [`Failure::NotConverged`] if the bounds stay apart by more than one part in a
/// million.
pub fn plastic(rivets: &[Rivet], load: &Load) -> Result<Option<Plastic>, Failure> {
    let (frame, directions) = checked(rivets, load)?;
    let load = frame.load(&wrench(load));
    if load.iter().all(|part| *part == 0.0) {
        return Ok(None);
    }
    let sliders: Vec<Slider<6>> = rivets
        .iter()
        .zip(&directions)
        .map(|(rivet, directions)| Slider {
            rows: [directions.along, directions.across].map(|way| frame.row(rivet.place.at_mm, way)),
            strength: rivet.shear_strength_n,
        })
        .collect();
    let capacity = sliders::capacity(&sliders, &load, &MOTIONS)?;
    let forces = capacity
        .forces
        .iter()
        .map(|[axial_n, tangential_n]| Force {
            axial_n: *axial_n,
            tangential_n: *tangential_n,
            tension_n: 0.0,
        })
        .collect();
    Ok(Some(Plastic { factor: capacity.factor, bound: capacity.bound, forces }))
}

/// The three directions of a fastener: a right-handed set of unit vectors.
struct Directions {
    along: [f64; 3],
    across: [f64; 3],
    outward: [f64; 3],
}

fn checked(rivets: &[Rivet], load: &Load) -> Result<(Frame, Vec<Directions>), Failure> {
    let mut directions = Vec::with_capacity(rivets.len());
    for rivet in rivets {
        for coordinate in rivet.place.at_mm {
            failure::finite("place of a rivet", coordinate)?;
        }
        failure::not_negative("stiffness of a rivet along the member", rivet.axial_n_mm)?;
        failure::not_negative("stiffness of a rivet along the wall", rivet.tangential_n_mm)?;
        failure::positive("shear strength of a rivet", rivet.shear_strength_n)?;
        if let Some(tension) = rivet.tension {
            failure::not_negative("stiffness of a rivet out of the wall", tension.stiffness_n_mm)?;
            failure::positive("tension strength of a rivet", tension.strength_n)?;
        }
        let [y, z] = rivet.place.outward;
        let length = failure::positive("outward direction of a rivet", libm::hypot(y, z))?;
        let (y, z) = (y / length, z / length);
        directions.push(Directions { along: [1.0, 0.0, 0.0], across: [0.0, -z, y], outward: [0.0, y, z] });
    }
    failure::finite("station of the resultants", load.x_mm)?;
    load.resultants.check()?;
    for coordinate in load.points.centroid_mm.into_iter().chain(load.points.shear_centre_mm) {
        failure::finite("centroid or shear centre", coordinate)?;
    }
    Ok((Frame::around(rivets.iter().map(|rivet| rivet.place.at_mm)), directions))
}

/// The resultants about the shear centre: there the axial force at the centroid adds to the moments.
fn wrench(load: &Load) -> Wrench {
    let Resultants { axial_n, shear_y_n, shear_z_n, moment_y_nmm, moment_z_nmm, torque_nmm } =
        load.resultants;
    let [y_c, z_c] = load.points.centroid_mm;
    let [y_s, z_s] = load.points.shear_centre_mm;
    Wrench {
        at_mm: [load.x_mm, y_s, z_s],
        force_n: [axial_n, shear_y_n, shear_z_n],
        moment_nmm: [torque_nmm, moment_y_nmm + (z_c - z_s) * axial_n, moment_z_nmm - (y_c - y_s) * axial_n],
    }
}

#[cfg(test)]
mod tests;
