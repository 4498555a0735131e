//! Which unknowns a node has, and how slips, strains and turns follow from them.
//!
//! Of the eight motions of a node, (u, w, θ, v) of either adherend, only those are carried that the
//! strip needs: no w and θ where the plates are held flat, no v without shear along the bond.
//! A bonded pair of elements has the unknowns of its left node, of its right node, then the bubbles
//! (b_u1, b_u2) and (b_v1, b_v2), which are eliminated within the element.

use super::super::element::{self, deflection, slope};

/// Places of the motions of the two adherends within a node.
#[derive(Debug, Clone, Copy)]
pub(super) struct Layout {
    pub(super) u: [usize; 2],
    /// w; θ follows.
    pub(super) w: Option<[usize; 2]>,
    pub(super) v: Option<[usize; 2]>,
}

/// u alone.
const AXIAL: Layout = Layout { u: [0, 1], w: None, v: None };
/// u and v.
const FLAT: Layout = Layout { u: [0, 1], w: None, v: Some([2, 3]) };
/// u, w, θ.
const BENDING: Layout = Layout { u: [0, 3], w: Some([1, 4]), v: None };
/// All.
const FULL: Layout = Layout { u: [0, 4], w: Some([1, 5]), v: Some([3, 7]) };

/// The layout that goes with a number of unknowns at a node: known when the code is made, so that the places are too.
pub(super) const fn of(unknowns: usize) -> Layout {
    match unknowns {
        2 => AXIAL,
        4 => FLAT,
        6 => BENDING,
        _ => FULL,
    }
}

/// Slip along, slip across and opening from the unknowns of a bonded pair.
pub(super) type SlipRows<const M: usize> = [[f64; M]; 3];

impl Layout {
    /// Rows of the slips at s of a pair of length l, as [`super::super::system::slip_row`].
    pub(super) fn slips<const N: usize, const M: usize>(
        &self,
        s: f64,
        l: f64,
        arms: [f64; 2],
    ) -> SlipRows<M> {
        let mut rows = [[0.0; M]; 3];
        let ends = [1.0 - s, s];
        let bubble = 4.0 * s * (1.0 - s);
        for adherend in 0..2 {
            let sign = [-1.0, 1.0][adherend];
            for (end, share) in ends.into_iter().enumerate() {
                rows[0][end * N + self.u[adherend]] = sign * share;
                if let Some(v) = self.v {
                    rows[1][end * N + v[adherend]] = sign * share;
                }
                if let Some(w) = self.w {
                    let (turn, lift) = (slope(s, l), deflection(s, l));
                    let at = end * N + w[adherend];
                    for k in 0..2 {
                        rows[0][at + k] = -arms[adherend] * turn[2 * end + k];
                        rows[2][at + k] = -sign * lift[2 * end + k];
                    }
                }
            }
            rows[0][2 * N + adherend] = sign * bubble;
            if self.v.is_some() {
                rows[1][2 * N + 2 + adherend] = sign * bubble;
            }
        }
        rows
    }

    /// Slips of a node itself, on its own unknowns.
    pub(super) fn slips_at_node<const N: usize>(&self, arms: [f64; 2]) -> [[f64; N]; 3] {
        let mut rows = [[0.0; N]; 3];
        for adherend in 0..2 {
            let sign = [-1.0, 1.0][adherend];
            rows[0][self.u[adherend]] = sign;
            if let Some(v) = self.v {
                rows[1][v[adherend]] = sign;
            }
            if let Some(w) = self.w {
                rows[0][w[adherend] + 1] = -arms[adherend];
                rows[2][w[adherend]] = -sign;
            }
        }
        rows
    }

    /// Unknowns of one beam within a pair, in the order of [`element`]: (u, w, θ) left, bubble, (u, w, θ)
    /// right. Without bending the places of w and θ are those of u, and must be passed over.
    pub(super) fn beam<const N: usize>(&self, adherend: usize) -> [usize; element::BEAM] {
        let u = self.u[adherend];
        let w = self.w.map_or(u, |w| w[adherend]);
        let turn = self.w.map_or(u, |w| w[adherend] + 1);
        [u, w, turn, 2 * N + adherend, N + u, N + w, N + turn]
    }
}
