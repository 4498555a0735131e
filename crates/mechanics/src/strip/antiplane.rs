//! Shear out of the plane of the strip: the displacements v₁, v₂ along its width.
//!
//! With a linear adhesive they stand apart from all others, and are Volkersen's equations with G t
//! in place of E t:
//!
//! ```text
//! G_i t_i v_i'' = ∓ τ_s        τ_s = (G/h) (v₂ − v₁)        q = G₁ t₁ v₁' at the left edge
//! ```

use super::element::THREE_POINTS;
use super::system::System;
use crate::banded::{BadPivot, Banded};

/// Unknowns of a bonded pair: (v₁, v₂) left, bubbles (b₁, b₂), (v₁, v₂) right.
const PAIR: usize = 6;

/// The anti-plane system; its memory is used again.
#[derive(Debug, Clone, Default)]
pub(super) struct Antiplane {
    matrix: Banded<{ PAIR + 2 }>,
    displacement: Vec<f64>,
}

impl Antiplane {
    /// Solves for the shear flow q entering adherend 1 at the left edge and leaving adherend 2 at
    /// the right, v₁ held at the left edge.
    pub(super) fn solve(&mut self, system: &System, shear_flow: f64) -> Result<(), BadPivot> {
        let unknowns = 4 * system.x.len() - 2;
        self.displacement.clear();
        self.displacement.resize(unknowns, 0.0);
        if shear_flow == 0.0 {
            return Ok(());
        }
        self.matrix.reset(unknowns);
        for (j, (ends, points)) in system.x.windows(2).zip(&system.gauss).enumerate() {
            let l = ends[1] - ends[0];
            let mut block = [[0.0; PAIR]; PAIR];
            for (adherend, section) in system.sections.iter().enumerate() {
                let k = section.antiplane / l;
                block[adherend][adherend] += k;
                block[adherend][adherend + 4] -= k;
                block[adherend + 4][adherend + 4] += k;
                block[adherend + 2][adherend + 2] += 16.0 / 3.0 * k;
            }
            for (point, (s, weight)) in points.iter().zip(THREE_POINTS) {
                let row = slip_row(s);
                let stiff = weight * l * point.shear;
                for (column, a) in block.iter_mut().zip(row) {
                    for (entry, b) in column.iter_mut().zip(row) {
                        *entry += stiff * a * b;
                    }
                }
            }
            self.matrix.add_block(4 * j, &block);
        }
        self.matrix.hold(0);
        self.displacement[unknowns - 1] = shear_flow;
        self.matrix.factor()?;
        self.matrix.solve(&mut self.displacement);
        Ok(())
    }

    /// Slip v₂ − v₁ at the node j of the overlap, mm.
    pub(super) fn slip(&self, j: usize) -> f64 {
        self.displacement[4 * j + 1] - self.displacement[4 * j]
    }

    /// v₂ at the right edge over v₁ at the left, mm.
    pub(super) fn overlap_displacement(&self) -> f64 {
        self.displacement.last().copied().unwrap_or(0.0)
    }
}

/// Row of the slip v₂ − v₁.
fn slip_row(s: f64) -> [f64; PAIR] {
    let (r, b) = (1.0 - s, 4.0 * s * (1.0 - s));
    [-r, r, -b, b, -s, s]
}
