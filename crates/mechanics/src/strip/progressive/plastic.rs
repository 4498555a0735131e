//! Elastic, then level in shear up to a failure strain.

use super::law::{Point, Respond, Response, Stiffness};
use crate::failure::{self, Failure};

/// A layer that yields in shear.
///
/// ```text
/// |τ| = min(G γ, τ_p)         γ = |δ_s|/h         spent at γ = γ_f
/// ```
///
/// τ_p shear strength (MPa), γ_f shear strain at failure, elastic and plastic part together.
/// Along and across yield together, by the length of the slip. Across the bondline elastic without a limit: peel is
/// not judged. After Hart-Smith 1973, NASA CR-112235 (from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plastic {
    /// Shear strength τ_p, MPa.
    pub shear_strength_mpa: f64,
    /// Shear strain at failure γ_f.
    pub strain_at_failure: f64,
}

/// What is left of the stiffness once the layer yields. A bond that yields all along would have none,
/// and its load would not be defined; this adds less than 1e-4 of the strength by the failure strain.
const HARDENING: f64 = 1e-6;

impl Plastic {
    pub(super) fn check(&self, stiffness: Stiffness) -> Result<(), Failure> {
        let strength = failure::positive("shear strength", self.shear_strength_mpa)?;
        let yields = strength / (stiffness.shear * stiffness.thickness_mm);
        failure::within("shear strain at failure", self.strain_at_failure, yields, f64::MAX)?;
        Ok(())
    }

    /// γ_f/γ_e.
    pub(super) fn last(&self, stiffness: Stiffness) -> f64 {
        self.strain_at_failure * stiffness.thickness_mm * stiffness.shear / self.shear_strength_mpa
    }
}

impl Respond for Plastic {
    fn respond(&self, stiffness: Stiffness, before: &Point, slip: [f64; 3]) -> Response {
        let k = stiffness.shear;
        let trial: [f64; 2] = std::array::from_fn(|i| k * (slip[i] - before.stays[i]));
        let size = libm::hypot(trial[0], trial[1]);
        let mut traction = [trial[0], trial[1], stiffness.opening * slip[2]];
        let mut tangent = [[k, 0.0, 0.0], [0.0, k, 0.0], [0.0, 0.0, stiffness.opening]];
        let mut stays = before.stays;
        // The level rises by the hardening with the slip that stays.
        let level = self.shear_strength_mpa + HARDENING * k * libm::hypot(stays[0], stays[1]);
        if size > level {
            let share = (level + HARDENING * (size - level)) / size;
            let turn = [trial[0] / size, trial[1] / size];
            for i in 0..2 {
                traction[i] = share * trial[i];
                stays[i] = slip[i] - traction[i] / k;
                for j in 0..2 {
                    let same = f64::from(u8::from(i == j));
                    tangent[i][j] = k * (share * (same - turn[i] * turn[j]) + HARDENING * turn[i] * turn[j]);
                }
            }
        }
        let work_of = |i: usize| 0.5 * (before.traction[i] + traction[i]) * (slip[i] - before.slip[i]);
        let open = f64::max(slip[2], 0.0);
        let work = [0.5 * stiffness.opening * open * open, before.work[1] + work_of(0) + work_of(1)];
        let kappa = libm::hypot(slip[0], slip[1]) * k / self.shear_strength_mpa;
        let onset_share = if size > level { 1.0 / self.last(stiffness) } else { before.onset_share };
        let gives = size > level;
        let after = Point { slip, traction, work, onset_share, stays, kappa, gives, ..*before };
        Response { tangent, after }
    }
}
