//! Forces at points.

use super::member::{Vector, finite};
use crate::failure::{self, Failure};

/// A force at a point, in vehicle axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointForce {
    /// Where it acts, mm.
    pub at_mm: Vector,
    /// The force, N.
    pub force_n: Vector,
}

/// A mass at a point, in vehicle axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointMass {
    /// Its centre, mm.
    pub at_mm: Vector,
    /// The mass, kg.
    pub mass_kg: f64,
}

impl PointForce {
    pub(super) fn check(&self) -> Result<(), Failure> {
        finite("point of a force", self.at_mm)?;
        finite("force", self.force_n)
    }
}

impl PointMass {
    /// What the mass weighs under an acceleration field, m/s²: `[0, 0, -9.81]` at rest; braking and
    /// cornering add the opposite of the vehicle's acceleration.
    ///
    /// # Errors
    ///
    /// [`Failure::Negative`] for the mass, [`Failure::NotFinite`].
    pub fn weight(&self, field_m_s2: Vector) -> Result<PointForce, Failure> {
        let mass = failure::not_negative("mass", self.mass_kg)?;
        finite("acceleration", field_m_s2)?;
        let force = PointForce { at_mm: self.at_mm, force_n: field_m_s2.map(|a| mass * a) };
        force.check()?;
        Ok(force)
    }
}
