//! Springs between two rigid parts.

use super::symmetric::{Symmetric, add_dyad, dot};
use crate::failure::{self, Failure};

/// A spring that stretches by `row · q` in the motion q.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spring<const M: usize> {
    pub(super) row: [f64; M],
    pub(super) stiffness: f64,
}

/// Below this ratio of the softest to the stiffest motion the soft one is free: the ratio of a true
/// mechanism is rounding, some 1e-16, that of rivets on a wall never below about 1e-8.
const FREE: f64 = 1e-12;

/// The stiffness of a set of springs against each motion.
///
/// Errors: [`Failure::FreeMotion`] names a motion that no spring hinders.
pub(super) fn stiffness<const M: usize>(
    springs: &[Spring<M>],
    motions: &[&'static str; M],
) -> Result<Symmetric<M>, Failure> {
    let mut matrix = [[0.0; M]; M];
    for spring in springs {
        add_dyad(&mut matrix, &spring.row, spring.stiffness);
    }
    for entry in matrix.iter().flatten() {
        failure::number("stiffness of the group", *entry)?;
    }
    let parts = Symmetric::new(matrix);
    let (softest, vector) = parts.least();
    let stiffest = parts.greatest();
    if softest > FREE * stiffest {
        return Ok(parts);
    }
    let mut motion = "";
    let mut most = -1.0;
    for (name, share) in motions.iter().zip(vector) {
        if share.abs() > most {
            (motion, most) = (name, share.abs());
        }
    }
    Err(Failure::FreeMotion { motion })
}

/// Forces of springs under a load, and the motion.
///
/// ```text
/// (Σ k b bᵀ) q = W        f = k b·q
/// ```
///
/// b row and k stiffness of each spring, W load.
pub(super) fn forces<const M: usize>(
    springs: &[Spring<M>],
    load: &[f64; M],
    motions: &[&'static str; M],
) -> Result<(Vec<f64>, [f64; M]), Failure> {
    let parts = stiffness(springs, motions)?;
    let mut motion = [0.0; M];
    let mut forces = vec![0.0; springs.len()];
    // The second pass takes out what the first left by rounding.
    for _ in 0..2 {
        let mut missing = *load;
        for (spring, force) in springs.iter().zip(&forces) {
            for (part, row) in missing.iter_mut().zip(&spring.row) {
                *part -= force * row;
            }
        }
        for (total, part) in motion.iter_mut().zip(parts.solve(&missing, 0.0)) {
            *total += part;
        }
        for (force, spring) in forces.iter_mut().zip(springs) {
            *force = failure::number("force in the group", spring.stiffness * dot(&spring.row, &motion))?;
        }
    }
    Ok((forces, motion))
}
