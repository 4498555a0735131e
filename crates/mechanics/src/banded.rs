//! Symmetric, positive definite band matrices: factorisation L D Lᵀ in place.

/// A pivot that is not positive: the matrix is not positive definite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BadPivot {
    /// Row of the pivot.
    pub row: usize,
    /// Its value: zero, negative or not a number.
    pub value: f64,
}

/// A symmetric matrix whose entries vanish further than `B − 1` rows from the diagonal.
///
/// Column j holds the diagonal entry and the `B − 1` entries below it. The width is part of the
/// type so that the compiler can unroll the elimination; the number of rows changes freely and the
/// storage is reused.
#[derive(Debug, Clone, Default)]
pub struct Banded<const B: usize> {
    /// The columns, and B − 1 spare ones at the end so that the elimination needs no special case
    /// for the last rows.
    columns: Vec<[f64; B]>,
    rows: usize,
}

impl<const B: usize> Banded<B> {
    /// Makes the matrix zero, with the given number of rows.
    pub fn reset(&mut self, rows: usize) {
        self.columns.clear();
        self.columns.resize(rows + B - 1, [0.0; B]);
        self.rows = rows;
    }

    /// Number of rows.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// Adds `value` to the entry (row, column) of the lower triangle, `column ≤ row < column + B`.
    ///
    /// # Panics
    ///
    /// If the entry lies outside the band.
    #[inline]
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        self.columns[column][row - column] += value;
    }

    /// The columns from `first` on, for assembly of a block: entry (j, k) is row j + k of column j.
    #[inline]
    pub(crate) fn block(&mut self, first: usize) -> &mut [[f64; B]] {
        &mut self.columns[first..]
    }

    /// Cuts row and column `index` off the rest and puts `1` on its diagonal: the unknown is held.
    pub fn hold(&mut self, index: usize) {
        for offset in 1..B.min(index + 1) {
            self.columns[index - offset][offset] = 0.0;
        }
        self.columns[index] = [0.0; B];
        self.columns[index][0] = 1.0;
    }

    /// Replaces the matrix by its factors: D on the diagonal, L (whose own diagonal is 1) below.
    ///
    /// # Errors
    ///
    /// [`BadPivot`] at the first pivot that is not positive; the matrix is then spoilt.
    pub fn factor(&mut self) -> Result<(), BadPivot> {
        for j in 0..self.rows {
            let (head, tail) = self.columns.split_at_mut(j + 1);
            let column = &mut head[j];
            let pivot = column[0];
            // Written so that a pivot that is not a number fails too.
            if !(pivot > 0.0 && pivot.is_finite()) {
                return Err(BadPivot {
                    row: j,
                    value: pivot,
                });
            }
            let inverse = 1.0 / pivot;
            for k in 1..B {
                let factor = column[k] * inverse;
                if factor != 0.0 {
                    let target = &mut tail[k - 1];
                    for m in k..B {
                        target[m - k] -= factor * column[m];
                    }
                }
            }
            for entry in &mut column[1..] {
                *entry *= inverse;
            }
        }
        Ok(())
    }

    /// Solves L D Lᵀ x = b in place, after [`Banded::factor`], and gives the energy bᵀ x.
    ///
    /// # Panics
    ///
    /// If `b` has not as many entries as the matrix has rows.
    pub fn solve(&self, b: &mut [f64]) -> f64 {
        assert_eq!(b.len(), self.rows, "one entry for each row");
        for j in 0..self.rows {
            let (head, tail) = b.split_at_mut(j + 1);
            let known = head[j];
            for (entry, below) in tail.iter_mut().zip(&self.columns[j][1..]) {
                *entry -= below * known;
            }
        }
        // bᵀ A⁻¹ b = yᵀ D⁻¹ y with L y = b: a sum of squares, however close to singular A is.
        let mut energy = 0.0;
        for j in (0..self.rows).rev() {
            let (head, tail) = b.split_at_mut(j + 1);
            let column = &self.columns[j];
            let below: f64 = tail.iter().zip(&column[1..]).map(|(x, l)| x * l).sum();
            let scaled = head[j] / column[0];
            energy += head[j] * scaled;
            head[j] = scaled - below;
        }
        energy
    }
}
