//! Several quantities that scatter, together.

use super::Marginal;
use crate::EvidenceError;
use crate::error::between;

/// Quantities that scatter, tied to each other by a Gaussian copula.
#[derive(Debug, Clone, PartialEq)]
pub struct Variables {
    marginals: Vec<Marginal>,
    /// L of R = L Lᵀ, by rows.
    lower: Vec<Vec<f64>>,
}

impl Variables {
    /// Quantities and the correlations of pairs of them, by their indices; the others are independent.
    ///
    /// The correlation is that of the normal scores Z_i = Φ⁻¹(F_i(X_i)). It is the correlation of the quantities
    /// themselves where they are normal, of their logarithms where they are lognormal, and near to it otherwise
    /// (the difference is the factor of Nataf's model, Liu and Der Kiureghian 1986, from memory, and is not applied).
    ///
    /// # Errors
    ///
    /// [`EvidenceError::OutOfRange`] where a correlation is not between −1 and 1, an index leads nowhere, or the
    /// correlations contradict each other.
    pub fn new(
        marginals: Vec<Marginal>,
        correlations: &[(usize, usize, f64)],
    ) -> Result<Self, EvidenceError> {
        let n = marginals.len();
        let mut matrix = vec![vec![0.0; n]; n];
        for (i, row) in matrix.iter_mut().enumerate() {
            row[i] = 1.0;
        }
        for &(i, j, rho) in correlations {
            between("correlation", rho, -1.0, 1.0)?;
            if i >= n || j >= n || i == j {
                return Err(EvidenceError::TooFew { what: "a correlation", needed: i.max(j) + 1, found: n });
            }
            matrix[i][j] = rho;
            matrix[j][i] = rho;
        }
        Ok(Self { marginals, lower: cholesky(&matrix)? })
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.marginals.len()
    }

    /// Whether a direction of U moves any of them.
    pub(super) fn moves(&self, direction: usize) -> bool {
        let rows = self.lower.iter().zip(&self.marginals);
        rows.into_iter()
            .any(|(row, marginal)| row.get(direction).is_some_and(|l| l.abs() > 0.0) && !marginal.is_fixed())
    }

    /// The values at a point of the space of independent standard normal U, each in its own unit.
    ///
    /// # Errors
    ///
    /// [`EvidenceError::NotFinite`] where a value leaves the range of numbers.
    pub fn at(&self, u: &[f64]) -> Result<Vec<f64>, EvidenceError> {
        let scores = self.lower.iter().map(|row| row.iter().zip(u).map(|(l, u)| l * u).sum::<f64>());
        self.marginals
            .iter()
            .zip(scores)
            .map(|(marginal, z)| crate::error::finite("a drawn value", marginal.value(z)))
            .collect()
    }

    /// What each quantity has in a direction of U: the direction seen by the scores, L⁻ᵀ α, its squares made to
    /// sum to 1. Of independent quantities that is α².
    pub(super) fn shares(&self, alpha: &[f64]) -> Vec<f64> {
        let n = alpha.len();
        let mut seen = alpha.to_vec();
        for i in (0..n).rev() {
            let below: f64 = (i + 1..n).map(|k| self.lower[k][i] * seen[k]).sum();
            seen[i] = (seen[i] - below) / self.lower[i][i];
        }
        let sum: f64 = seen.iter().map(|x| x * x).sum();
        seen.iter().map(|x| x * x / sum).collect()
    }
}

fn cholesky(matrix: &[Vec<f64>]) -> Result<Vec<Vec<f64>>, EvidenceError> {
    let n = matrix.len();
    let mut lower = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..=i {
            let before: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
            let rest: f64 = matrix[i][j] - before;
            lower[i][j] = if i == j {
                between("what the correlations leave", rest, 1e-10, 2.0)?.sqrt()
            } else {
                rest / lower[j][j]
            };
        }
    }
    Ok(lower)
}
