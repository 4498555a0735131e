//! Symmetric, positive definite band matrices: factorisation L D Lᵀ in place.

/// A pivot that is not positive: the matrix is not positive definite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BadPivot {
    /// Row of the pivot.
    pub row: usize,
    /// Its value: zero, negative or not a number.
    pub value: f64,
}

/// Two neighbouring columns, 2p and 2p + 1. Entry m of either stands in row 2p + m; the first of
/// the second column, above the diagonal, means nothing.
type Pair<const W: usize> = [[f64; W]; 2];

/// A symmetric matrix whose entries vanish further than W − 2 rows from the diagonal, W even.
///
/// Only the lower triangle is kept, column by column. Columns go in pairs with a common first row:
/// the elimination then works on two by two columns, and always moves by whole pairs of numbers,
/// as the processor does. The width is part of the type so that the compiler can unroll the loops;
/// the number of rows changes freely, and the memory is used again.
#[derive(Debug, Clone, Default)]
pub struct Banded<const W: usize> {
    /// The columns, and as many pairs more as the last ones reach beyond the end.
    pairs: Vec<Pair<W>>,
    rows: usize,
}

impl<const W: usize> Banded<W> {
    /// Makes the matrix zero, with the given number of rows.
    pub fn reset(&mut self, rows: usize) {
        self.rows = rows;
        self.pairs.clear();
        self.pairs.resize(rows.div_ceil(2) + W / 2, [[0.0; W]; 2]);
        if !rows.is_multiple_of(2) {
            self.pairs[rows / 2][1][1] = 1.0;
        }
    }

    /// Number of rows.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// Adds `value` to the entry (row, column), column ≤ row ≤ column + W − 2.
    ///
    /// # Panics
    ///
    /// If the entry lies outside the lower half of the band.
    #[inline]
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        self.pairs[column / 2][column % 2][row - (column & !1)] += value;
    }

    /// Adds the lower triangle of `block`, given column by column, from row and column `first` on.
    ///
    /// # Panics
    ///
    /// If the block is wider than the band or reaches beyond the last row.
    #[inline]
    pub fn add_block<const N: usize>(&mut self, first: usize, block: &[[f64; N]; N]) {
        for (j, entries) in block.iter().enumerate() {
            let column = first + j;
            let lanes = &mut self.pairs[column / 2][column % 2][column % 2..];
            for (lane, entry) in lanes[..N - j].iter_mut().zip(&entries[j..]) {
                *lane += entry;
            }
        }
    }

    /// Cuts row and column `index` off the rest and puts 1 on its diagonal: the unknown is held.
    ///
    /// # Panics
    ///
    /// If there is no such row.
    pub fn hold(&mut self, index: usize) {
        let base = index & !1;
        for column in base.saturating_sub(W - 2)..base {
            let row = index - (column & !1);
            if let Some(entry) = self.pairs[column / 2][column % 2].get_mut(row) {
                *entry = 0.0;
            }
        }
        let [first, second] = &mut self.pairs[index / 2];
        if index == base {
            *first = [0.0; W];
            first[0] = 1.0;
        } else {
            first[1] = 0.0;
            *second = [0.0; W];
            second[1] = 1.0;
        }
    }

    /// Replaces the matrix by its factors: D on the diagonal, L (whose own diagonal is 1) below.
    ///
    /// # Errors
    ///
    /// [`BadPivot`] at the first pivot that is not positive; the matrix is then spoilt.
    pub fn factor(&mut self) -> Result<(), BadPivot> {
        for p in 0..self.rows.div_ceil(2) {
            let (done, later) = self.pairs.split_at_mut(p + 1);
            let [a, b] = &mut done[p];
            let over_first = 1.0 / positive(a[0], 2 * p)?;
            let factor = a[1] * over_first;
            for m in 1..W {
                b[m] -= factor * a[m];
            }
            let over_second = 1.0 / positive(b[1], 2 * p + 1)?;
            // Only as far as the columns reach: less than the band except at the start of a node.
            let reach = (2..W).rev().find(|&m| a[m] != 0.0 || b[m] != 0.0).unwrap_or(0) / 2;
            for (k, [target_a, target_b]) in (1..=reach).zip(later) {
                let k = 2 * k;
                let (a_a, b_a) = (a[k] * over_first, b[k] * over_second);
                let (a_b, b_b) = (a[k + 1] * over_first, b[k + 1] * over_second);
                for (m, (to_a, to_b)) in (k..2 * reach + 2).zip(target_a.iter_mut().zip(target_b.iter_mut()))
                {
                    *to_a -= a_a * a[m] + b_a * b[m];
                    *to_b -= a_b * a[m] + b_b * b[m];
                }
            }
            for (first, second) in a[1..].iter_mut().zip(&mut b[1..]) {
                *first *= over_first;
                *second *= over_second;
            }
            b[1] = 1.0 / over_second;
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
        let pairs = &self.pairs[..self.rows.div_ceil(2)];
        let at = |b: &[f64], row: usize| b.get(row).copied().unwrap_or(0.0);
        // The entries that two columns touch move along in a window of their own: were they written
        // back and read again, every row would wait for memory.
        let mut window: [f64; W] = std::array::from_fn(|row| at(b, row));
        for (p, [first, second]) in pairs.iter().enumerate() {
            let v0 = window[0];
            let v1 = window[1] - first[1] * v0;
            for m in 2..W {
                window[m - 2] = window[m] - first[m] * v0 - second[m] * v1;
            }
            window[W - 2] = at(b, 2 * p + W);
            window[W - 1] = at(b, 2 * p + W + 1);
            put(b, p, [v0, v1]);
        }
        // bᵀ A⁻¹ b = yᵀ D⁻¹ y with L y = b: a sum of squares, however close to singular A is.
        let mut energy = 0.0;
        window = [0.0; W];
        for (p, [first, second]) in pairs.iter().enumerate().rev() {
            let (mut below0, mut below1) = (0.0, 0.0);
            for m in (2..W).rev() {
                window[m] = window[m - 2];
                below0 += first[m] * window[m];
                below1 += second[m] * window[m];
            }
            let (y0, y1) = (at(b, 2 * p), at(b, 2 * p + 1));
            let (z0, z1) = (y0 / first[0], y1 / second[1]);
            energy += y0 * z0 + y1 * z1;
            window[1] = z1 - below1;
            window[0] = z0 - below0 - first[1] * window[1];
            put(b, p, [window[0], window[1]]);
        }
        energy
    }
}

/// Writes the two rows of a pair, or the one that there is.
#[inline]
fn put(b: &mut [f64], pair: usize, values: [f64; 2]) {
    for (entry, value) in b[2 * pair..].iter_mut().zip(values) {
        *entry = value;
    }
}

/// The pivot, if it is positive and finite.
#[inline]
fn positive(pivot: f64, row: usize) -> Result<f64, BadPivot> {
    if pivot > 0.0 && pivot.is_finite() { Ok(pivot) } else { Err(BadPivot { row, value: pivot }) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A matrix with dominant diagonal, all of it, by rows.
    fn dominant(rows: usize, half_band: usize, entries: &[f64]) -> Vec<Vec<f64>> {
        let mut next = entries.iter().cycle();
        let mut dense = vec![vec![0.0; rows]; rows];
        for (i, row) in dense.iter_mut().enumerate() {
            row[i] = 12.0;
            for (entry, value) in row[i.saturating_sub(half_band)..i].iter_mut().zip(&mut next) {
                *entry = *value;
            }
        }
        let lower = dense.clone();
        for (j, row) in lower.iter().enumerate() {
            for (i, value) in row.iter().enumerate().take(j) {
                dense[i][j] = *value;
            }
        }
        dense
    }

    proptest! {
        #[test]
        fn law_solution_satisfies_the_equations(
            rows in 1_usize..40,
            half_band in 0_usize..5,
            entries in proptest::collection::vec(-1.0..1.0_f64, 50),
            held in proptest::option::of(0_usize..40),
        ) {
            let mut dense = dominant(rows, half_band, &entries);
            let mut banded = Banded::<6>::default();
            banded.reset(rows);
            for (i, row) in dense.iter().enumerate() {
                for (j, value) in row.iter().enumerate().take(i + 1).skip(i.saturating_sub(4)) {
                    banded.add(i, j, *value);
                }
            }
            if let Some(held) = held.filter(|&held| held < rows) {
                banded.hold(held);
                for row in &mut dense {
                    row[held] = 0.0;
                }
                dense[held].fill(0.0);
                dense[held][held] = 1.0;
            }
            let b: Vec<f64> = entries.iter().take(rows).copied().collect();
            let mut x = b.clone();
            banded.factor().unwrap();
            let energy = banded.solve(&mut x);
            for (row, b) in dense.iter().zip(&b) {
                let product: f64 = row.iter().zip(&x).map(|(a, x)| a * x).sum();
                // The matrix is diagonally dominant: rounding is not amplified.
                prop_assert!((product - b).abs() < 1e-13);
            }
            let work: f64 = b.iter().zip(&x).map(|(b, x)| b * x).sum();
            prop_assert!((energy - work).abs() < 1e-13);
        }
    }

    #[test]
    fn unit_blocks_and_entries_add_up_alike() {
        let mut one = Banded::<4>::default();
        let mut other = Banded::<4>::default();
        one.reset(5);
        other.reset(5);
        let block = [[4.0, 1.0, 0.5], [f64::NAN, 3.0, 1.0], [f64::NAN, f64::NAN, 2.0]];
        for first in 0..3 {
            one.add_block(first, &block);
            for (j, column) in block.iter().enumerate() {
                for (i, value) in column.iter().enumerate().skip(j) {
                    other.add(first + i, first + j, *value);
                }
            }
        }
        let mut x = [1.0, 2.0, 3.0, 4.0, 5.0];
        let mut y = x;
        one.factor().unwrap();
        other.factor().unwrap();
        one.solve(&mut x);
        other.solve(&mut y);
        assert_eq!(x.map(f64::to_bits), y.map(f64::to_bits));
    }

    #[test]
    fn unit_refuses_what_is_not_positive_definite_and_names_the_row() {
        for row in 0..5 {
            let mut banded = Banded::<4>::default();
            banded.reset(5);
            for j in 0..5 {
                banded.add(j, j, if j == row { -1.0 } else { 1.0 });
            }
            assert_eq!(banded.factor(), Err(BadPivot { row, value: -1.0 }));
        }
        let mut banded = Banded::<4>::default();
        banded.reset(2);
        banded.add(0, 0, f64::NAN);
        assert!(banded.factor().is_err_and(|bad| bad.row == 0 && bad.value.is_nan()));
    }
}
