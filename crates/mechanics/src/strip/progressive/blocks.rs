//! Block tridiagonal systems, neither symmetric nor definite: a softening bond leaves them neither.

/// Why a system could not be solved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Singular {
    /// The node at which nothing was left to divide by.
    pub(super) node: usize,
}

/// One block.
pub(super) type Block<const N: usize> = [[f64; N]; N];

/// A matrix of blocks on the diagonal and on both sides of it.
#[derive(Debug, Clone, Default)]
pub(super) struct Tridiagonal<const N: usize> {
    pub(super) diagonal: Vec<Block<N>>,
    /// Row j + 1, column j.
    pub(super) below: Vec<Block<N>>,
    /// Row j, column j + 1.
    pub(super) above: Vec<Block<N>>,
}

impl<const N: usize> Tridiagonal<N> {
    /// Makes the matrix zero, with the given number of nodes.
    pub(super) fn reset(&mut self, nodes: usize) {
        for (blocks, count) in
            [(&mut self.diagonal, nodes), (&mut self.below, nodes - 1), (&mut self.above, nodes - 1)]
        {
            blocks.clear();
            blocks.resize(count, [[0.0; N]; N]);
        }
    }

    /// Cuts an unknown off the rest and puts 1 on its diagonal.
    pub(super) fn hold(&mut self, node: usize, k: usize) {
        let diagonal = &mut self.diagonal[node];
        for row in diagonal.iter_mut() {
            row[k] = 0.0;
        }
        diagonal[k] = [0.0; N];
        diagonal[k][k] = 1.0;
        if let Some(above) = self.above.get_mut(node) {
            above[k] = [0.0; N];
        }
        if let Some(below) = self.below.get_mut(node) {
            for row in below.iter_mut() {
                row[k] = 0.0;
            }
        }
        if node > 0 {
            self.below[node - 1][k] = [0.0; N];
            for row in &mut self.above[node - 1] {
                row[k] = 0.0;
            }
        }
    }

    /// Solves for two right sides at once, in place; the matrix is spent.
    ///
    /// Block elimination from the first node to the last. Within a block rows are exchanged only where they must be:
    /// a bond that is whole needs none, and of one that softens few.
    pub(super) fn solve(&mut self, right: &mut [[[f64; 2]; N]]) -> Result<(), Singular> {
        let nodes = self.diagonal.len();
        for j in 0..nodes {
            let own: [f64; N] = std::array::from_fn(|k| self.diagonal[j][k][k].abs());
            if j > 0 {
                let (before, here) = right.split_at_mut(j);
                let (below, upper) = (&self.below[j - 1], &self.above[j - 1]);
                let (diagonal, last) = (&mut self.diagonal[j], &before[j - 1]);
                for i in 0..N {
                    let (mut row, mut sides) = (diagonal[i], here[0][i]);
                    for k in 0..N {
                        let factor = below[i][k];
                        for (to, from) in row.iter_mut().zip(&upper[k]) {
                            *to -= factor * from;
                        }
                        sides[0] -= factor * last[k][0];
                        sides[1] -= factor * last[k][1];
                    }
                    (diagonal[i], here[0][i]) = (row, sides);
                }
            }
            let mut none = [[0.0; N]; N];
            let above = self.above.get_mut(j).unwrap_or(&mut none);
            divide_in_order(&self.diagonal[j], &own, above, &mut right[j])
                .or_else(|| divide(&mut self.diagonal[j], above, &mut right[j]))
                .ok_or(Singular { node: j })?;
        }
        for j in (0..nodes - 1).rev() {
            let (here, after) = right.split_at_mut(j + 1);
            let (above, next) = (&self.above[j], &after[0]);
            for i in 0..N {
                for k in 0..N {
                    here[j][i][0] -= above[i][k] * next[k][0];
                    here[j][i][1] -= above[i][k] * next[k][1];
                }
            }
        }
        Ok(())
    }
}

/// Replaces `above` and `right` by what `diagonal` makes of them, in the order of its rows; gives up, and changes
/// nothing, where a row would have to be exchanged.
///
/// Entries are compared by the roots of what stood on the diagonal in the beginning, `own`, for their units differ. Of
/// a symmetric positive matrix none of what is taken off is then greater than 1, however small the pivot.
#[inline]
fn divide_in_order<const N: usize>(
    diagonal: &Block<N>,
    own: &[f64; N],
    above: &mut Block<N>,
    right: &mut [[f64; 2]; N],
) -> Option<()> {
    const MOST: f64 = 4.0;
    let (mut left, mut tail, mut sides) = (*diagonal, *above, *right);
    let mut over = [0.0; N];
    let scale = own.map(|entry| 1.0 / libm::sqrt(entry));
    for p in 0..N {
        let (mut column, mut line) = (0.0, 0.0);
        for i in p + 1..N {
            column = f64::max(column, scale[i] * left[i][p].abs());
            line = f64::max(line, scale[i] * left[p][i].abs());
        }
        // Not a number where nothing stood on the diagonal.
        let taken_off = column * line;
        if taken_off.is_nan() || taken_off >= MOST * left[p][p].abs() {
            return None;
        }
        over[p] = 1.0 / left[p][p];
        let (row, rest, side) = (left[p], tail[p], sides[p]);
        for i in p + 1..N {
            let factor = left[i][p] * over[p];
            // What lies left of the pivot is not asked again.
            for (to, from) in left[i].iter_mut().zip(&row) {
                *to -= factor * from;
            }
            for (to, from) in tail[i].iter_mut().zip(&rest) {
                *to -= factor * from;
            }
            sides[i][0] -= factor * side[0];
            sides[i][1] -= factor * side[1];
        }
    }
    for p in (0..N).rev() {
        for entry in &mut tail[p] {
            *entry *= over[p];
        }
        sides[p] = sides[p].map(|entry| entry * over[p]);
        let (rest, side) = (tail[p], sides[p]);
        for i in 0..p {
            let factor = left[i][p];
            for (to, from) in tail[i].iter_mut().zip(&rest) {
                *to -= factor * from;
            }
            sides[i][0] -= factor * side[0];
            sides[i][1] -= factor * side[1];
        }
    }
    (*above, *right) = (tail, sides);
    Some(())
}

/// The same by Gauss-Jordan with row exchange.
#[cold]
fn divide<const N: usize>(
    diagonal: &mut Block<N>,
    above: &mut Block<N>,
    right: &mut [[f64; 2]; N],
) -> Option<()> {
    for p in 0..N {
        let best = (p..N).max_by(|a, b| diagonal[*a][p].abs().total_cmp(&diagonal[*b][p].abs()))?;
        if best != p {
            diagonal.swap(p, best);
            above.swap(p, best);
            right.swap(p, best);
        }
        let over = 1.0 / diagonal[p][p];
        if !over.is_finite() {
            return None;
        }
        for entry in diagonal[p].iter_mut().skip(p) {
            *entry *= over;
        }
        for entry in &mut above[p] {
            *entry *= over;
        }
        right[p][0] *= over;
        right[p][1] *= over;
        let (row, tail, sides) = (diagonal[p], above[p], right[p]);
        for i in 0..N {
            let factor = diagonal[i][p];
            if i != p && factor != 0.0 {
                for (to, from) in diagonal[i].iter_mut().zip(&row).skip(p) {
                    *to -= factor * from;
                }
                for (to, from) in above[i].iter_mut().zip(&tail) {
                    *to -= factor * from;
                }
                right[i][0] -= factor * sides[0];
                right[i][1] -= factor * sides[1];
            }
        }
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// What is solved gives back its right side: within the rounding of blocks whose diagonal leads.
        #[test]
        fn law_the_solution_meets_both_right_sides(
            entries in prop::collection::vec(-1.0..1.0_f64, 5 * 3 * 9),
            sides in prop::collection::vec(-1.0..1.0_f64, 5 * 3 * 2),
        ) {
            const N: usize = 3;
            let nodes = 5;
            let mut matrix = Tridiagonal::<N>::default();
            matrix.reset(nodes);
            let mut next = entries.iter().copied();
            for j in 0..nodes {
                for i in 0..N {
                    for k in 0..N {
                        // Off the diagonal of the block the greatest: rows must be exchanged.
                        let lead = if (i + 1) % N == k { 8.0 } else { 0.0 };
                        matrix.diagonal[j][i][k] = next.next().unwrap() + lead;
                        if j + 1 < nodes {
                            matrix.below[j][i][k] = next.next().unwrap();
                            matrix.above[j][i][k] = next.next().unwrap();
                        }
                    }
                }
            }
            let mut right = vec![[[0.0; 2]; N]; nodes];
            for (j, node) in right.iter_mut().enumerate() {
                for (i, row) in node.iter_mut().enumerate() {
                    *row = [sides[2 * (j * N + i)], sides[2 * (j * N + i) + 1]];
                }
            }
            let mut solved = right.clone();
            matrix.clone().solve(&mut solved).unwrap();
            let row = |line: &[f64; N], moved: &[[f64; 2]; N], side: usize| -> f64 {
                line.iter().zip(moved).map(|(entry, moved)| entry * moved[side]).sum()
            };
            for (j, node) in right.iter().enumerate() {
                for (i, expected) in node.iter().enumerate() {
                    for (side, expected) in expected.iter().enumerate() {
                        let mut sum = row(&matrix.diagonal[j][i], &solved[j], side);
                        if j > 0 {
                            sum += row(&matrix.below[j - 1][i], &solved[j - 1], side);
                        }
                        if j + 1 < nodes {
                            sum += row(&matrix.above[j][i], &solved[j + 1], side);
                        }
                        prop_assert!((sum - expected).abs() < 1e-12);
                    }
                }
            }
        }
    }

    #[test]
    fn unit_a_held_unknown_takes_its_own_right_side() {
        let mut matrix = Tridiagonal::<2>::default();
        matrix.reset(3);
        for j in 0..3 {
            matrix.diagonal[j] = [[4.0, 1.0], [1.0, 3.0]];
            if j < 2 {
                matrix.below[j] = [[1.0, 0.5], [0.0, 1.0]];
                matrix.above[j] = [[1.0, 0.0], [0.5, 1.0]];
            }
        }
        matrix.hold(1, 0);
        let mut right = vec![[[1.0, 2.0]; 2]; 3];
        right[1][0] = [0.0, 0.0];
        matrix.solve(&mut right).unwrap();
        assert!(right[1][0][0].abs() < 1e-15 && right[1][1][0].abs() > 0.01);
    }

    #[test]
    fn unit_nothing_to_divide_by_is_named() {
        let mut matrix = Tridiagonal::<2>::default();
        matrix.reset(2);
        matrix.diagonal[0] = [[1.0, 0.0], [0.0, 1.0]];
        assert_eq!(matrix.solve(&mut [[[1.0; 2]; 2]; 2]), Err(Singular { node: 1 }));
    }
}
