//! What a point of the adhesive layer answers to its slips and its opening.

use super::cohesive::Cohesive;
use super::plastic::Plastic;
use crate::failure::Failure;

/// The law of the adhesive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// Elastic, then level in shear up to a failure strain.
    Plastic(Plastic),
    /// Elastic, then softening until its toughness is spent.
    Cohesive(Cohesive),
}

/// Stiffness of the layer at a point, MPa/mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stiffness {
    /// G/h, along and across.
    pub(super) shear: f64,
    /// E_peel/h.
    pub(super) opening: f64,
    /// Thickness h, mm.
    pub(super) thickness_mm: f64,
}

/// A point of the layer as it stands. Components: slip along x, slip across, opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Point {
    /// Slips and opening, mm.
    pub(super) slip: [f64; 3],
    /// Stresses, MPa.
    pub(super) traction: [f64; 3],
    /// Work done so far on opening and on shear, N/mm.
    pub(super) work: [f64; 2],
    /// Share of the elastic stiffness that is left.
    pub(super) keep: f64,
    /// Share of the toughness put in when softening began; zero before.
    pub(super) onset_share: f64,
    /// Slip that stays, along and across, mm.
    pub(super) stays: [f64; 2],
    /// How far the point is loaded: 1 where it begins to give.
    pub(super) kappa: f64,
    /// Whether it gave way in the last step.
    pub(super) gives: bool,
}

impl Default for Point {
    fn default() -> Self {
        Self {
            slip: [0.0; 3],
            traction: [0.0; 3],
            work: [0.0; 2],
            keep: 1.0,
            onset_share: 0.0,
            stays: [0.0; 2],
            kappa: 0.0,
            gives: false,
        }
    }
}

impl Point {
    /// Whether the point has never given: it then answers with its elastic stiffness.
    pub(super) fn is_whole(&self) -> bool {
        self.onset_share <= 0.0 && self.keep >= 1.0
    }

    /// Work that will not come back, opening and shear, N/mm.
    pub(super) fn spent(&self) -> [f64; 2] {
        let [along, across, opening] = std::array::from_fn(|i| {
            let elastic = if i < 2 { self.slip[i] - self.stays[i] } else { f64::max(self.slip[2], 0.0) };
            0.5 * self.traction[i] * elastic
        });
        [self.work[0] - opening, self.work[1] - along - across]
    }
}

/// The answer of a point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Response {
    /// Change of stress i with slip j, MPa/mm.
    pub(super) tangent: [[f64; 3]; 3],
    pub(super) after: Point,
}

/// What both laws that give have in common.
pub(super) trait Respond {
    /// From the point as it stood at the last balance to the slips asked for.
    fn respond(&self, stiffness: Stiffness, before: &Point, slip: [f64; 3]) -> Response;
}

impl Law {
    pub(super) fn check(&self, stiffness: Stiffness) -> Result<(), Failure> {
        match self {
            Self::Plastic(plastic) => plastic.check(stiffness),
            Self::Cohesive(cohesive) => cohesive.check(stiffness),
        }
    }

    #[inline]
    pub(super) fn respond(&self, stiffness: Stiffness, before: &Point, slip: [f64; 3]) -> Response {
        match self {
            Self::Plastic(plastic) => plastic.respond(stiffness, before, slip),
            Self::Cohesive(cohesive) => cohesive.respond(stiffness, before, slip),
        }
    }

    /// The κ at which a point that began to give at κ = 1 is spent.
    pub(super) fn last(&self, stiffness: Stiffness, point: &Point) -> f64 {
        match self {
            Self::Plastic(plastic) => plastic.last(stiffness),
            Self::Cohesive(_) if point.onset_share > 0.0 => 1.0 / point.onset_share,
            Self::Cohesive(cohesive) => {
                // Not begun: by pure shear.
                let s = cohesive.shear_strength_mpa;
                2.0 * cohesive.mode_2_toughness_n_mm * stiffness.shear / (s * s)
            }
        }
    }

    /// How κ grows with each slip at the point as it stands, 1/mm.
    pub(super) fn growth(&self, stiffness: Stiffness, point: &Point) -> [f64; 3] {
        let (shear, opening) = match self {
            Self::Plastic(plastic) => (stiffness.shear / plastic.shear_strength_mpa, 0.0),
            Self::Cohesive(cohesive) => (
                stiffness.shear / cohesive.shear_strength_mpa,
                stiffness.opening / cohesive.tensile_strength_mpa,
            ),
        };
        let scale = [shear, shear, opening];
        let open = [point.slip[0], point.slip[1], f64::max(point.slip[2], 0.0)];
        let ratio: [f64; 3] = std::array::from_fn(|i| scale[i] * open[i]);
        let kappa = libm::sqrt(ratio.iter().map(|ratio| ratio * ratio).sum());
        if kappa > 0.0 { std::array::from_fn(|i| scale[i] * ratio[i] / kappa) } else { [shear, 0.0, 0.0] }
    }
}
