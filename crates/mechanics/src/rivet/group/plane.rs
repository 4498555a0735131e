//! A group of fasteners in a plane.

use super::First;
use super::frame::{Frame, Wrench};
use super::sliders::{self, Slider};
use super::springs::{self, Spring};
use crate::failure::{self, Failure};

/// A fastener in the y-z plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rivet {
    /// Its place along y, mm.
    pub y_mm: f64,
    /// Its place along z, mm.
    pub z_mm: f64,
    /// Shear stiffness along y, N/mm.
    pub stiffness_y_n_mm: f64,
    /// Shear stiffness along z, N/mm.
    pub stiffness_z_n_mm: f64,
    /// Shear strength, the same in all directions, N.
    pub strength_n: f64,
}

/// A load in the plane: a force at a point, and a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Where the force acts along y, mm.
    pub y_mm: f64,
    /// Where the force acts along z, mm.
    pub z_mm: f64,
    /// Force along y, N.
    pub force_y_n: f64,
    /// Force along z, N.
    pub force_z_n: f64,
    /// Moment about x, positive from y to z, N mm.
    pub moment_nmm: f64,
}

/// Forces by stiffness.
#[derive(Debug, Clone, PartialEq)]
pub struct Elastic {
    /// What each fastener takes of the load, along y and along z, N.
    pub forces_n: Vec<[f64; 2]>,
    /// The fastener that reaches its strength first; none without load.
    pub first: Option<First>,
    /// Point about which one part turns against the other; none where it only shifts.
    pub centre_mm: Option<[f64; 2]>,
}

/// Forces at the plastic capacity.
#[derive(Debug, Clone, PartialEq)]
pub struct Plastic {
    /// Multiple of the load that the group carries.
    pub factor: f64,
    /// Multiple of the load that it cannot exceed: `factor` but for the last part in a million.
    pub bound: f64,
    /// Forces along y and along z, in equilibrium with `factor` times the load and within all
    /// strengths, N.
    pub forces_n: Vec<[f64; 2]>,
    /// Point about which one part turns against the other; none where it only shifts. Where several
    /// motions need the same load it is one of them.
    pub centre_mm: Option<[f64; 2]>,
}

const MOTIONS: [&str; 3] = ["translation along y", "translation along z", "rotation about x"];

/// Forces in a group by stiffness.
///
/// ```text
/// u_y = v_y − ω (z − z₀)        u_z = v_z + ω (y − y₀)        f_y = k_y u_y        f_z = k_z u_z
///
/// Σ f = F        Σ (y f_z − z f_y) = M
/// ```
///
/// v, ω motion of one rigid part against the other, k stiffness (N/mm), F, M load. With one
/// stiffness for all it is the textbook's superposition: F/n and M r/Σ r² about the centroid.
///
/// Rigid parts, linear fasteners, no friction. Formula.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range; [`Failure::FreeMotion`] if the group leaves a
/// motion free, also one on which the load does no work.
pub fn elastic(rivets: &[Rivet], load: &Load) -> Result<Elastic, Failure> {
    let frame = checked(rivets, load)?;
    let springs: Vec<Spring<3>> = rivets
        .iter()
        .flat_map(|rivet| {
            let [along_y, along_z] = rows(&frame, rivet);
            [
                Spring { row: along_y, stiffness: rivet.stiffness_y_n_mm },
                Spring { row: along_z, stiffness: rivet.stiffness_z_n_mm },
            ]
        })
        .collect();
    let (forces, motion) = springs::forces(&springs, &in_plane(frame.load(&wrench(load))), &MOTIONS)?;
    let forces_n: Vec<[f64; 2]> = forces.as_chunks().0.to_vec();
    let first = First::of(
        forces_n.iter().zip(rivets).map(|([y, z], rivet)| (y * y + z * z).sqrt() / rivet.strength_n),
    );
    Ok(Elastic { forces_n, first, centre_mm: centre(&frame, motion) })
}

/// Plastic capacity of a group: the greatest multiple of a load for which forces in equilibrium
/// exist with every fastener's resultant within its strength; none without load.
///
/// ```text
/// max λ:  Σ f = λ F,  Σ (y f_z − z f_y) = λ M,  |f| ≤ s        =        min over motions with work 1:  Σ s |u|
/// ```
///
/// s strength (N), u slip of each fastener (mm). At the optimum every fastener that slips carries
/// its strength normal to the line to the instantaneous centre. Needs fasteners or walls that yield;
/// rigid parts; stiffnesses do not matter.
///
/// Static and kinematic theorems of limit analysis (formula).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range; [`Failure::FreeMotion`] as in [`elastic`];
/// [`Failure::NotConverged`] if the bounds stay apart by more than one part in a million.
pub fn plastic(rivets: &[Rivet], load: &Load) -> Result<Option<Plastic>, Failure> {
    let frame = checked(rivets, load)?;
    let load = in_plane(frame.load(&wrench(load)));
    if load.iter().all(|part| *part == 0.0) {
        return Ok(None);
    }
    let sliders: Vec<Slider<3>> =
        rivets.iter().map(|rivet| Slider { rows: rows(&frame, rivet), strength: rivet.strength_n }).collect();
    let capacity = sliders::capacity(&sliders, &load, &MOTIONS)?;
    Ok(Some(Plastic {
        factor: capacity.factor,
        bound: capacity.bound,
        forces_n: capacity.forces,
        centre_mm: centre(&frame, capacity.motion),
    }))
}

fn checked(rivets: &[Rivet], load: &Load) -> Result<Frame, Failure> {
    for rivet in rivets {
        failure::finite("place of a rivet along y", rivet.y_mm)?;
        failure::finite("place of a rivet along z", rivet.z_mm)?;
        failure::not_negative("stiffness of a rivet along y", rivet.stiffness_y_n_mm)?;
        failure::not_negative("stiffness of a rivet along z", rivet.stiffness_z_n_mm)?;
        failure::positive("strength of a rivet", rivet.strength_n)?;
    }
    failure::finite("place of the force along y", load.y_mm)?;
    failure::finite("place of the force along z", load.z_mm)?;
    failure::finite("force along y", load.force_y_n)?;
    failure::finite("force along z", load.force_z_n)?;
    failure::finite("moment about x", load.moment_nmm)?;
    Ok(Frame::around(rivets.iter().map(point)))
}

fn point(rivet: &Rivet) -> [f64; 3] {
    [0.0, rivet.y_mm, rivet.z_mm]
}

fn wrench(load: &Load) -> Wrench {
    Wrench {
        at_mm: [0.0, load.y_mm, load.z_mm],
        force_n: [0.0, load.force_y_n, load.force_z_n],
        moment_nmm: [load.moment_nmm, 0.0, 0.0],
    }
}

/// Of six motions the three in the plane.
fn in_plane([_, y, z, turn, _, _]: [f64; 6]) -> [f64; 3] {
    [y, z, turn]
}

fn rows(frame: &Frame, rivet: &Rivet) -> [[f64; 3]; 2] {
    [[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]].map(|direction| in_plane(frame.row(point(rivet), direction)))
}

/// Where a motion leaves the plane at rest.
fn centre(frame: &Frame, [v_y, v_z, turn]: [f64; 3]) -> Option<[f64; 2]> {
    // A turn that moves the rivets by less than rounding is none.
    if turn.abs() <= 1e-12 * v_y.abs().max(v_z.abs()) || turn == 0.0 {
        return None;
    }
    let [_, y0, z0] = frame.centre_mm;
    Some([y0 - v_z / turn * frame.length_mm, z0 + v_y / turn * frame.length_mm])
}

#[cfg(test)]
mod tests;
