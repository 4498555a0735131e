//! What a section is made of.

use crate::failure::Failure;
use crate::section::Fault;

/// A point of the section: y and z, mm.
pub type Point = [f64; 2];

/// An isotropic elastic material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Isotropic {
    /// Young's modulus E, MPa.
    pub youngs_modulus_mpa: f64,
    /// Poisson's ratio ν.
    pub poissons_ratio: f64,
}

impl Isotropic {
    /// G = E/(2 (1 + ν)), MPa.
    #[must_use]
    pub fn shear_modulus_mpa(&self) -> f64 {
        self.youngs_modulus_mpa / (2.0 * (1.0 + self.poissons_ratio))
    }
}

/// What shape a wall is part of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Form {
    /// A flat wall, or part of one.
    Flat,
    /// A chord of a circular arc, which the wall stands for.
    Arc {
        /// Radius of the arc's centreline, mm.
        radius_mm: f64,
    },
    /// A rigid link: it hands shear flow from one centreline to another inside a thick joint, has
    /// no area and does not deform. Its thickness and material mean nothing.
    Link,
}

/// A straight wall between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Node at which the wall starts, by its place in the list of nodes.
    pub from: usize,
    /// Node at which it ends. The wall's own coordinate s runs from the first to the second.
    pub to: usize,
    /// Thickness t, mm, half on each side of the line between the nodes.
    pub thickness_mm: f64,
    /// What it is made of.
    pub material: Isotropic,
    /// What shape it is part of.
    pub form: Form,
}

impl Wall {
    /// Whether the wall is a link without area.
    pub(super) fn is_link(&self) -> bool {
        self.form == Form::Link
    }

    /// Refuses what is no wall; `wall` is its place in the list.
    pub(super) fn check(&self, wall: usize) -> Result<(), Failure> {
        let refuse = |property, found| Err(Fault::WallProperty { wall, property, found }.into());
        if self.is_link() {
            return Ok(());
        }
        let Isotropic { youngs_modulus_mpa, poissons_ratio } = self.material;
        for (property, value) in [("thickness", self.thickness_mm), ("Young's modulus", youngs_modulus_mpa)] {
            if !(value.is_finite() && value > 0.0) {
                return refuse(property, value);
            }
        }
        if !(poissons_ratio > -1.0 && poissons_ratio < 0.5) {
            return refuse("Poisson's ratio", poissons_ratio);
        }
        match self.form {
            Form::Arc { radius_mm } if !(radius_mm.is_finite() && radius_mm > 0.0) => {
                refuse("radius", radius_mm)
            }
            _ => Ok(()),
        }
    }
}

/// The centreline of a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Centreline {
    pub(super) start: Point,
    pub(super) length: f64,
    /// Unit vector from start to end.
    pub(super) along: Point,
}

impl Centreline {
    pub(super) fn between(start: Point, end: Point) -> Self {
        let [dy, dz] = [end[0] - start[0], end[1] - start[1]];
        let length = libm::hypot(dy, dz);
        Self { start, length, along: [dy / length, dz / length] }
    }

    /// Unit vector to the left of the wall's direction.
    pub(super) fn left(&self) -> Point {
        [-self.along[1], self.along[0]]
    }

    /// The point at s from the start and `offset` to the left.
    pub(super) fn point(&self, s: f64, offset: f64) -> Point {
        let left = self.left();
        [0, 1].map(|k| self.start[k] + s * self.along[k] + offset * left[k])
    }

    /// Distance of the line from `pole`, positive where the direction turns counterclockwise (from y
    /// to z) about it.
    pub(super) fn lever(&self, pole: Point) -> f64 {
        (self.start[0] - pole[0]) * self.along[1] - (self.start[1] - pole[1]) * self.along[0]
    }
}
