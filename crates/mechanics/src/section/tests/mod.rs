mod handbook;
mod laws;
mod panels;
mod refusals;
mod shapes;

use super::{Form, Isotropic, Point, Section, Wall};

pub(super) const ALLOY: Isotropic = Isotropic { youngs_modulus_mpa: 70_000.0, poissons_ratio: 0.33 };

/// A flat wall of one material.
pub(super) fn flat(from: usize, to: usize, thickness_mm: f64) -> Wall {
    Wall { from, to, thickness_mm, material: ALLOY, form: Form::Flat }
}

/// A section of flat walls, each from one node to another with its thickness.
pub(super) fn section(nodes: &[Point], walls: &[(usize, usize, f64)]) -> Section {
    Section::new(nodes.to_vec(), walls.iter().map(|&(a, b, t)| flat(a, b, t)).collect(), ALLOY).unwrap()
}

/// Whether two numbers agree to a share of a scale.
pub(super) fn near(found: f64, expected: f64, tolerance: f64) -> bool {
    (found - expected).abs() <= tolerance
}
