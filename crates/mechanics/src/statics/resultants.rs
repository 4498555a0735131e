//! Section resultants.

use super::load::PointForce;
use super::member::{Member, Vector, cross};
use crate::failure::{self, Failure};

/// Resultants at a section, in the member's local axes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Resultants {
    /// Axial force N, N; tension positive.
    pub axial_n: f64,
    /// Shear force V_y, N.
    pub shear_y_n: f64,
    /// Shear force V_z, N.
    pub shear_z_n: f64,
    /// Moment M_y about the centroid, N·mm; positive: tension at z > 0.
    pub moment_y_nmm: f64,
    /// Moment M_z about the centroid, N·mm; positive: tension at y < 0.
    pub moment_z_nmm: f64,
    /// Torque T about the shear centre, N·mm.
    pub torque_nmm: f64,
}

impl Resultants {
    /// Refuses numbers that are none.
    ///
    /// # Errors
    ///
    /// [`Failure::NotFinite`].
    pub fn check(&self) -> Result<(), Failure> {
        let names = ["axial force", "shear force y", "shear force z", "moment y", "moment z", "torque"];
        for (argument, value) in names.into_iter().zip(self.parts()) {
            failure::finite(argument, value)?;
        }
        Ok(())
    }

    /// All six multiplied by a factor.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self::of(self.parts().map(|part| factor * part))
    }

    /// The sum of two.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        let (a, b) = (self.parts(), other.parts());
        Self::of([0, 1, 2, 3, 4, 5].map(|k| a[k] + b[k]))
    }

    /// The share that this member carries where a parallel path takes the rest.
    ///
    /// # Errors
    ///
    /// [`Failure::OutOfRange`] for a share outside 0 to 1.
    pub fn shared(&self, share: f64) -> Result<Self, Failure> {
        Ok(self.scaled(failure::within("share", share, 0.0, 1.0)?))
    }

    /// N, V_y, V_z, M_y, M_z, T.
    pub fn parts(&self) -> [f64; 6] {
        let Self { axial_n, shear_y_n, shear_z_n, moment_y_nmm, moment_z_nmm, torque_nmm } = *self;
        [axial_n, shear_y_n, shear_z_n, moment_y_nmm, moment_z_nmm, torque_nmm]
    }

    fn of([axial_n, shear_y_n, shear_z_n, moment_y_nmm, moment_z_nmm, torque_nmm]: [f64; 6]) -> Self {
        Self { axial_n, shear_y_n, shear_z_n, moment_y_nmm, moment_z_nmm, torque_nmm }
    }

    /// The resultants of forces (local axes) about the points of a section at x = `station`.
    pub(super) fn about(
        forces: impl Iterator<Item = (Vector, Vector)>,
        station: f64,
        points: &SectionPoints,
    ) -> Self {
        forces.fold(Self::default(), |sum, (at, force)| {
            let moment = |[y, z]: [f64; 2]| cross([at[0] - station, at[1] - y, at[2] - z], force);
            let [_, moment_y, moment_z] = moment(points.centroid_mm);
            let [torque, _, _] = moment(points.shear_centre_mm);
            sum.plus(&Self::of([force[0], force[1], force[2], moment_y, moment_z, torque]))
        })
    }
}

/// The points of a section about which moments are taken, y and z in its own coordinates, mm; the
/// member's axis runs through the origin of these.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionPoints {
    /// Centroid.
    pub centroid_mm: [f64; 2],
    /// Shear centre.
    pub shear_centre_mm: [f64; 2],
}

impl SectionPoints {
    pub(super) fn check(&self) -> Result<(), Failure> {
        for value in self.centroid_mm.into_iter().chain(self.shear_centre_mm) {
            failure::finite("centroid or shear centre", value)?;
        }
        Ok(())
    }
}

/// Resultants at a station of the forces beyond it, toward the member's end.
///
/// ```text
/// (N, V_y, V_z) = Σ F      M = Σ (r − c) × F      T = Σ ((r − s) × F)_x
/// ```
///
/// c centroid and s shear centre of the section at the station. A force belongs to the point of the axis
/// that it is level with; one that is level with the station itself is not beyond it; forces beyond the
/// member's end are. Forces before the station, and whatever holds the member, need not be known.
///
/// # Errors
///
/// [`Failure::OutOfRange`] for a station outside the member, [`Failure::NotFinite`],
/// [`Failure::NoNumber`].
pub fn resultants_at(
    member: &Member,
    forces: &[PointForce],
    station_mm: f64,
    points: &SectionPoints,
) -> Result<Resultants, Failure> {
    let station = failure::within("station", station_mm, 0.0, member.length_mm())?;
    points.check()?;
    let local = localise(member, forces)?;
    summed(local.iter().copied().filter(|(at, _)| at[0] > station), station, points)
}

/// Place and force of each load in local axes.
pub(super) fn localise(member: &Member, forces: &[PointForce]) -> Result<Vec<(Vector, Vector)>, Failure> {
    forces
        .iter()
        .map(|load| load.check().map(|()| (member.place(load.at_mm), member.turn(load.force_n))))
        .collect()
}

/// The checked resultants of loads in local axes.
pub(super) fn summed(
    loads: impl Iterator<Item = (Vector, Vector)>,
    station: f64,
    points: &SectionPoints,
) -> Result<Resultants, Failure> {
    let resultants = Resultants::about(loads, station, points);
    for part in resultants.parts() {
        failure::number("resultant", part)?;
    }
    Ok(resultants)
}
