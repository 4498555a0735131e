//! A joint that is loaded until it fails.

use super::law::{Law, Stiffness};
use crate::bondline::Bondline;
use crate::failure::{self, Failure};
use crate::rivet::share::Row;
use crate::strip::Strip;

/// What an adherend does beyond its proof strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hardening {
    /// Proof strength, MPa.
    pub proof_strength_mpa: f64,
    /// Rise of the stress with the plastic strain, MPa.
    pub modulus_mpa: f64,
    /// Whole strain at which it breaks; without, it goes on.
    pub strain_at_break: Option<f64>,
}

impl Hardening {
    fn check(&self) -> Result<(), Failure> {
        failure::positive("proof strength", self.proof_strength_mpa)?;
        failure::not_negative("hardening", self.modulus_mpa)?;
        if let Some(strain) = self.strain_at_break {
            failure::positive("strain at break", strain)?;
        }
        Ok(())
    }

    /// From proof and tensile strength and the elongation between them.
    ///
    /// ```text
    /// H = (f_u − f_0)/(A − f_u/E)
    /// ```
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names an argument out of range: the tensile strength is no less than the proof
    /// strength, the elongation greater than the elastic strain at the tensile strength.
    pub fn of_tensile_test(
        proof_strength_mpa: f64,
        tensile_strength_mpa: f64,
        elongation: f64,
        youngs_modulus_mpa: f64,
    ) -> Result<Self, Failure> {
        let proof = failure::positive("proof strength", proof_strength_mpa)?;
        let tensile = failure::within("tensile strength", tensile_strength_mpa, proof, f64::MAX)?;
        let elastic = tensile / failure::positive("Young's modulus", youngs_modulus_mpa)?;
        let elongation = failure::within("elongation", elongation, elastic, 10.0)?;
        let modulus_mpa = failure::number("hardening", (tensile - proof) / (elongation - elastic))?;
        Ok(Self { proof_strength_mpa: proof, modulus_mpa, strain_at_break: Some(elongation) })
    }
}

/// What acts on the left edge of an adherend at the load factor 1, as resultants of its section.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Edge {
    /// Axial force, N/mm, tension positive.
    pub axial_n_mm: f64,
    /// Moment M = (E' t³/12) w'', N·mm/mm; positive bends the edge upward.
    pub moment_n: f64,
    /// Force across, N/mm; positive pulls the edge upward.
    pub across_n_mm: f64,
}

/// A strip with what it does when it gives. The loads of the strip are those at the load factor 1;
/// all of them grow together. The temperature acts from the beginning.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint {
    /// Geometry, elastic parts and loads.
    pub strip: Strip,
    /// The law of the adhesive.
    pub law: Law,
    /// Stretches without bond, from left to right, mm from the left end of the overlap.
    pub unbonded_mm: Vec<[f64; 2]>,
    /// Rows of rivets.
    pub rows: Vec<Row>,
    /// Beyond the proof strength, upper and lower; without, an adherend is elastic.
    pub hardening: [Option<Hardening>; 2],
    /// Holds the lower adherend flat: half of a double lap by its plane of symmetry.
    pub lower_held_flat: bool,
    /// Loads both adherends at their left edges and holds both at their right ones, in place of the
    /// strip's own supports and loads: the arrangement of fracture tests.
    pub left_edges: Option<[Edge; 2]>,
}

impl Joint {
    /// A joint of elastic adherends without rivets and voids.
    #[must_use]
    pub fn new(strip: Strip, law: Law) -> Self {
        Self {
            strip,
            law,
            unbonded_mm: Vec::new(),
            rows: Vec::new(),
            hardening: [None; 2],
            lower_held_flat: false,
            left_edges: None,
        }
    }

    /// Refuses what is no joint.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range.
    pub fn check(&self) -> Result<(), Failure> {
        self.strip.check()?;
        let thicknesses: Vec<f64> = match &self.strip.bondline {
            Bondline::Constant(h) => vec![*h],
            Bondline::Along(stations) => stations.iter().map(|station| station.1).collect(),
        };
        for h in thicknesses {
            self.law.check(self.stiffness(h))?;
        }
        let mut end = 0.0;
        for [from, to] in &self.unbonded_mm {
            failure::within("beginning of an unbonded stretch", *from, end, self.strip.overlap_mm)?;
            end = failure::within("end of an unbonded stretch", *to, *from, self.strip.overlap_mm)?;
        }
        for row in &self.rows {
            row.check(self.strip.overlap_mm)?;
        }
        for edge in self.left_edges.iter().flatten() {
            failure::finite("axial force at an edge", edge.axial_n_mm)?;
            failure::finite("moment at an edge", edge.moment_n)?;
            failure::finite("force across an edge", edge.across_n_mm)?;
        }
        for hardening in self.hardening.iter().flatten() {
            hardening.check()?;
        }
        Ok(())
    }

    /// Stiffness of the layer where it is h thick.
    pub(super) fn stiffness(&self, h: f64) -> Stiffness {
        Stiffness {
            shear: self.strip.adhesive.shear_modulus_mpa / h,
            opening: self.strip.adhesive.peel_modulus_mpa / h,
            thickness_mm: h,
        }
    }

    pub(super) fn bonded_at(&self, x: f64) -> bool {
        !self.unbonded_mm.iter().any(|[from, to]| x > *from && x < *to)
    }
}
