//! What a strip is made of, how it is held and loaded.

use super::mesh::Mesh;
use crate::adherend::{self, Adherend, Role};
use crate::bondline::Bondline;
use crate::failure::{self, Failure};

/// The adhesive as a layer: its stiffness in shear and across the bondline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Adhesive {
    /// Shear modulus G, MPa.
    pub shear_modulus_mpa: f64,
    /// Modulus across the bondline, MPa: peel stress over opening strain.
    pub peel_modulus_mpa: f64,
}

impl Adhesive {
    /// The layer of an isotropic adhesive.
    ///
    /// ```text
    /// G = E / (2 (1 + ν))        peel modulus = E / (1 − ν²)
    /// ```
    ///
    /// E Young's modulus (MPa), ν Poisson's ratio. The peel modulus lets the layer contract along x
    /// but not along the width: of the usual choices it comes nearest to the stress at mid-bondline
    /// of a plane-strain solution; the fully confined modulus overstates the edge peel.
    ///
    /// # Errors
    ///
    /// [`Failure::NotPositive`], [`Failure::OutOfRange`] for Poisson's ratio.
    pub fn isotropic(youngs_modulus_mpa: f64, poissons_ratio: f64) -> Result<Self, Failure> {
        let e = failure::positive("adhesive Young's modulus", youngs_modulus_mpa)?;
        let nu = failure::poissons_ratio("adhesive Poisson's ratio", poissons_ratio)?;
        Ok(Self { shear_modulus_mpa: e / (2.0 * (1.0 + nu)), peel_modulus_mpa: e / (1.0 - nu * nu) })
    }
}

/// How the strip deforms across its width.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Plane {
    /// No strain across the width: E' = E/(1 − ν²), thermal strain α (1 + ν) ΔT. Wide joints.
    Strain,
    /// No stress across the width: E and α ΔT. Narrow strips, and the literature's formulas.
    Stress,
}

/// Whether equilibrium is taken on the undeformed or on the bent joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Geometry {
    /// On the undeformed joint: linear in the load.
    FirstOrder,
    /// On the bent joint: moderate rotations, axial strain u' + w'²/2.
    SecondOrder,
}

/// How a gripped end is held. Either way it stays at the height of its own adherend's midplane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// Neither turns nor shifts sideways.
    Clamped,
    /// Turns freely, does not shift sideways.
    Pinned,
}

/// How the strip is held and where the axial load enters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Supports {
    /// The far ends of the two arms are gripped and pulled apart.
    Gripped {
        /// How both ends are held.
        ends: Ends,
        /// Free length of adherend 1 left of the overlap, mm; may be zero.
        left_arm_mm: f64,
        /// Free length of adherend 2 right of the overlap, mm; may be zero.
        right_arm_mm: f64,
    },
    /// The bare overlap, loaded at adherend 1's left edge by the axial load and by these; held at
    /// adherend 2's right edge, where equilibrium sets what acts.
    EdgeResultants {
        /// Moment M₁(0) = (E' t³/12) w₁'', N·mm/mm; positive opens the left end of the bond.
        moment_n: f64,
        /// Transverse force on the section's positive face, along z, N/mm. The right edge's moment
        /// is M₂(L) = M₁(0) − V L − P (t₁/2 + h + t₂/2) in first order.
        shear_n_mm: f64,
    },
}

/// A lap to be solved.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Adherend 1, above the bond.
    pub upper: Adherend,
    /// Adherend 2, below the bond.
    pub lower: Adherend,
    /// The adhesive.
    pub adhesive: Adhesive,
    /// Thickness of the adhesive along the overlap.
    pub bondline: Bondline,
    /// Length of the overlap, mm.
    pub overlap_mm: f64,
    /// How the strip is held.
    pub supports: Supports,
    /// Axial load per width, N/mm, tension positive.
    pub axial_n_mm: f64,
    /// Anti-plane shear flow, N/mm.
    pub shear_flow_n_mm: f64,
    /// Service minus stress-free temperature, K.
    pub temperature_change_k: f64,
    /// Plane strain or plane stress.
    pub plane: Plane,
    /// Holds every transverse displacement and rotation at zero: a wall held flat.
    pub hold_transverse: bool,
    /// Lever arms (t + h)/2 to the middle of the bond; without, t/2 as in Goland and Reissner.
    pub lever_arm_includes_bondline: bool,
    /// First or second order.
    pub geometry: Geometry,
    /// Elements.
    pub mesh: Mesh,
}

impl Strip {
    /// Refuses what is not a joint.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range.
    pub fn check(&self) -> Result<(), Failure> {
        adherend::check(&self.upper, Role::Upper)?;
        adherend::check(&self.lower, Role::Lower)?;
        failure::positive("adhesive shear modulus", self.adhesive.shear_modulus_mpa)?;
        failure::positive("adhesive peel modulus", self.adhesive.peel_modulus_mpa)?;
        failure::positive("overlap", self.overlap_mm)?;
        self.bondline.check(self.overlap_mm)?;
        match self.supports {
            Supports::Gripped { left_arm_mm, right_arm_mm, .. } => {
                failure::not_negative("left arm", left_arm_mm)?;
                failure::not_negative("right arm", right_arm_mm)?;
            }
            Supports::EdgeResultants { moment_n, shear_n_mm } => {
                failure::finite("edge moment", moment_n)?;
                failure::finite("edge shear", shear_n_mm)?;
            }
        }
        failure::finite("axial load", self.axial_n_mm)?;
        failure::finite("shear flow", self.shear_flow_n_mm)?;
        failure::finite("temperature change", self.temperature_change_k)?;
        self.mesh.check()
    }

    /// Lengths of the two arms, mm; zero where the overlap is bare.
    #[must_use]
    pub fn arms_mm(&self) -> [f64; 2] {
        match self.supports {
            Supports::Gripped { left_arm_mm, right_arm_mm, .. } => [left_arm_mm, right_arm_mm],
            Supports::EdgeResultants { .. } => [0.0, 0.0],
        }
    }
}

/// The stiffnesses of an adherend per width.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Section {
    /// E' t, N/mm.
    pub(super) axial: f64,
    /// E' t³/12, N·mm.
    pub(super) bending: f64,
    /// G t, N/mm.
    pub(super) antiplane: f64,
    /// Free thermal strain along x.
    pub(super) thermal_strain: f64,
}

impl Section {
    pub(super) fn of(adherend: &Adherend, plane: Plane, temperature_change_k: f64) -> Self {
        let Adherend { youngs_modulus_mpa: e, poissons_ratio: nu, thickness_mm: t, .. } = *adherend;
        let free = adherend.thermal_expansion_per_k * temperature_change_k;
        let (modulus, thermal_strain) = match plane {
            Plane::Strain => (e / (1.0 - nu * nu), free * (1.0 + nu)),
            Plane::Stress => (e, free),
        };
        Self {
            axial: modulus * t,
            bending: modulus * t * t * t / 12.0,
            antiplane: e / (2.0 * (1.0 + nu)) * t,
            thermal_strain,
        }
    }
}
