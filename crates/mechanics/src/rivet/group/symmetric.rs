//! Eigenvalues of a small symmetric matrix, and equations solved with them.

/// A symmetric matrix taken apart: A = Σ λ v vᵀ.
#[derive(Debug, Clone, Copy)]
pub(super) struct Symmetric<const M: usize> {
    /// Eigenvalues λ, in no order.
    pub(super) values: [f64; M],
    /// Unit eigenvectors v, one for each value.
    pub(super) vectors: [[f64; M]; M],
}

/// Scalar product.
pub(super) fn dot<const M: usize>(a: &[f64; M], b: &[f64; M]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Adds `factor` times the dyad `row rowᵀ` to a matrix.
pub(super) fn add_dyad<const M: usize>(matrix: &mut [[f64; M]; M], row: &[f64; M], factor: f64) {
    for (line, a) in matrix.iter_mut().zip(row) {
        for (entry, b) in line.iter_mut().zip(row) {
            *entry += factor * a * b;
        }
    }
}

impl<const M: usize> Symmetric<M> {
    /// By Jacobi's rotations: each turns a pair of axes until their entry off the diagonal is gone.
    #[expect(clippy::needless_range_loop, reason = "the rotation's indices are those of the method")]
    pub(super) fn new(mut a: [[f64; M]; M]) -> Self {
        let mut vectors: [[f64; M]; M] =
            std::array::from_fn(|i| std::array::from_fn(|j| if i == j { 1.0 } else { 0.0 }));
        let size: f64 = a.iter().flatten().map(|entry| entry * entry).sum();
        // The method converges quadratically; six rows take about eight sweeps.
        for _ in 0..40 {
            let off: f64 =
                (0..M).flat_map(|i| (0..i).map(move |j| (i, j))).map(|(i, j)| a[i][j] * a[i][j]).sum();
            if off <= 1e-34 * size {
                break;
            }
            for p in 0..M {
                for q in p + 1..M {
                    let Some((c, s)) = rotation(a[p][p], a[q][q], a[p][q]) else { continue };
                    for k in 0..M {
                        let (kp, kq) = (a[k][p], a[k][q]);
                        a[k][p] = c * kp - s * kq;
                        a[k][q] = s * kp + c * kq;
                    }
                    for k in 0..M {
                        let (pk, qk) = (a[p][k], a[q][k]);
                        a[p][k] = c * pk - s * qk;
                        a[q][k] = s * pk + c * qk;
                        let (vp, vq) = (vectors[p][k], vectors[q][k]);
                        vectors[p][k] = c * vp - s * vq;
                        vectors[q][k] = s * vp + c * vq;
                    }
                }
            }
        }
        Self { values: std::array::from_fn(|i| a[i][i]), vectors }
    }

    /// The greatest eigenvalue.
    pub(super) fn greatest(&self) -> f64 {
        self.values.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// The least eigenvalue and its vector.
    pub(super) fn least(&self) -> (f64, [f64; M]) {
        let mut least = (f64::INFINITY, [0.0; M]);
        for (value, vector) in self.values.iter().zip(&self.vectors) {
            if *value < least.0 {
                least = (*value, *vector);
            }
        }
        least
    }

    /// A⁻¹ b, with no eigenvalue taken for less than `floor`.
    pub(super) fn solve(&self, b: &[f64; M], floor: f64) -> [f64; M] {
        let mut x = [0.0; M];
        for (value, vector) in self.values.iter().zip(&self.vectors) {
            let part = dot(vector, b) / value.max(floor);
            for (entry, v) in x.iter_mut().zip(vector) {
                *entry += part * v;
            }
        }
        x
    }
}

/// Cosine and sine that take the entry `pq` off the diagonal; none where it is zero already.
fn rotation(pp: f64, qq: f64, pq: f64) -> Option<(f64, f64)> {
    if pq.abs() <= f64::MIN_POSITIVE {
        return None;
    }
    let theta = 0.5 * (qq - pp) / pq;
    let t = 1.0_f64.copysign(theta) / (theta.abs() + (theta * theta + 1.0).sqrt());
    let c = 1.0 / (t * t + 1.0).sqrt();
    Some((c, t * c))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_eigenvalues_of_a_known_matrix() {
        let parts = Symmetric::new([[2.0, 1.0, 0.0], [1.0, 2.0, 0.0], [0.0, 0.0, 5.0]]);
        let mut values = parts.values;
        values.sort_by(f64::total_cmp);
        for (found, exact) in values.iter().zip([1.0, 3.0, 5.0]) {
            assert!((found - exact).abs() < 1e-14);
        }
        assert!((parts.greatest() - 5.0).abs() < 1e-14);
        let (least, vector) = parts.least();
        assert!((least - 1.0).abs() < 1e-14);
        assert!((vector[0] + vector[1]).abs() < 1e-14 && vector[2].abs() < 1e-14);
        let x = parts.solve(&[3.0, 0.0, 5.0], 0.0);
        for (found, exact) in x.iter().zip([2.0, -1.0, 1.0]) {
            assert!((found - exact).abs() < 1e-14);
        }
    }

    proptest! {
        /// A = Σ λ v vᵀ, and the vectors are orthonormal.
        #[test]
        fn law_the_parts_make_up_the_matrix(rows in prop::array::uniform6(prop::array::uniform6(-1.0..1.0_f64))) {
            let mut a = [[0.0; 6]; 6];
            for row in &rows {
                add_dyad(&mut a, row, row[0]);
            }
            let parts = Symmetric::new(a);
            for (value, vector) in parts.values.iter().zip(&parts.vectors) {
                add_dyad(&mut a, vector, -value);
            }
            prop_assert!(a.iter().flatten().all(|rest| rest.abs() < 1e-13));
            for (i, u) in parts.vectors.iter().enumerate() {
                for (j, v) in parts.vectors.iter().enumerate() {
                    let unit = if i == j { 1.0 } else { 0.0 };
                    prop_assert!((dot(u, v) - unit).abs() < 1e-14);
                }
            }
        }
    }
}
