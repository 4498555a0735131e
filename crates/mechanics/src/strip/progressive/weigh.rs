//! Forces out of balance and stiffness of a strip at its present motions.

use super::super::element::TWO_POINTS;
use super::law::{Point, Response, Stiffness};
use super::rivets;
use super::stretch::{Elastic, Rows};
use super::system::{Gauss, Span, System, dot};

impl<const N: usize, const M: usize> System<N, M> {
    /// Forces out of balance and stiffness at the motions of `now`, whose points, rivets and layers follow.
    pub(super) fn weigh(&mut self) {
        self.matrix.reset(self.x_mm.len());
        self.right.fill([[0.0; 2]; N]);
        for &(node, k, load) in &self.loads {
            self.right[node][k] = [load * self.now.factor, load];
        }
        for span in 0..self.spans.len() {
            let local = self.local(span);
            let (mut stiffness, mut forces) = ([[0.0; M]; M], [0.0; M]);
            if let Some(bond) = self.spans[span].bond {
                self.add_bond(bond, &local, &mut stiffness, &mut forces);
            }
            self.add_adherends(span, &local, &mut stiffness, &mut forces);
            self.condense_and_scatter(span, &mut stiffness, &mut forces);
        }
        self.add_rows();
        for &(node, k) in &self.held {
            self.matrix.hold(node, k);
            self.right[node][k] = [0.0; 2];
        }
    }

    fn add_adherends(
        &mut self,
        span: usize,
        local: &[f64; M],
        stiffness: &mut [[f64; M]; M],
        forces: &mut [f64; M],
    ) {
        let Span { length, has, .. } = self.spans[span];
        for adherend in 0..2 {
            if !has[adherend] {
                // Its bubbles have nothing to hold them.
                let bubble = 2 * N + adherend;
                stiffness[bubble][bubble] = 1.0;
                if Self::LAYOUT.v.is_some() {
                    stiffness[bubble + 2][bubble + 2] = 1.0;
                }
                continue;
            }
            let map = Self::LAYOUT.beam::<N>(adherend);
            let d = map.map(|k| local[k]);
            let bends = Self::LAYOUT.w.is_some();
            if let Some(yielding) = &self.yielding[adherend] {
                for (place, (s, weight)) in TWO_POINTS.into_iter().enumerate() {
                    let rows = Rows::at(s, length, &d, bends, self.second_order);
                    let before = &self.last.layers[span][adherend][place];
                    let (answer, after) = yielding.respond(before, rows.strain, rows.curvature);
                    self.now.layers[span][adherend][place] = after;
                    rows.add(&map, weight * length, &answer, self.second_order, stiffness, forces);
                }
            } else {
                let elastic = Elastic::new(&self.sections[adherend], length, self.second_order);
                elastic.add(&map, &d, bends, stiffness, forces);
            }
            if let Some(v) = Self::LAYOUT.v {
                let places = [v[adherend], N + v[adherend], 2 * N + 2 + adherend];
                let k = self.sections[adherend].antiplane / length;
                let own = [[k, -k, 0.0], [-k, k, 0.0], [0.0, 0.0, 16.0 / 3.0 * k]];
                for (row, entries) in places.into_iter().zip(own) {
                    for (column, entry) in places.into_iter().zip(entries) {
                        stiffness[row][column] += entry;
                        forces[row] += entry * local[column];
                    }
                }
            }
        }
    }

    /// Asks the three points of a bonded element, which follow, for the change of their stresses.
    #[inline]
    fn answer(&mut self, bond: usize, local: &[f64; M]) -> [[[f64; 3]; 3]; 3] {
        let mut tangents = [[[0.0; 3]; 3]; 3];
        for (g, tangent) in tangents.iter_mut().enumerate() {
            let gauss = &self.gauss[bond][g];
            let before = &self.last.points[bond][g];
            let mut slip = [0.0; 3];
            for i in (0..3).filter(|i| Self::CARRIES[*i]) {
                slip[i] = dot(&gauss.rows[i], local);
            }
            let answer = if gauss.bonded {
                self.law.respond(gauss.stiffness, before, slip)
            } else {
                unbonded(gauss.stiffness, before, slip)
            };
            self.now.points[bond][g] = answer.after;
            *tangent = answer.tangent;
        }
        tangents
    }

    fn add_bond(
        &mut self,
        bond: usize,
        local: &[f64; M],
        stiffness: &mut [[f64; M]; M],
        forces: &mut [f64; M],
    ) {
        let tangents = self.answer(bond, local);
        let (places, points) = (&self.gauss[bond], &self.now.points[bond]);
        for (gauss, point) in places.iter().zip(points) {
            for i in (0..3).filter(|i| Self::CARRIES[*i]) {
                let pull = gauss.length_mm * point.traction[i];
                for (force, b) in forces.iter_mut().zip(&gauss.rows[i]) {
                    *force += pull * b;
                }
            }
        }
        if points.iter().all(Point::is_whole) {
            *stiffness = self.whole[bond];
        } else {
            Self::add_layer(places, &tangents, stiffness);
        }
    }

    /// Whether slip along, slip across and opening are there at all.
    const CARRIES: [bool; 3] = [true, Self::LAYOUT.v.is_some(), Self::LAYOUT.w.is_some()];

    /// Adds the stiffness of the layer at the three points of an element.
    #[inline]
    pub(super) fn add_layer(
        points: &[Gauss<M>; 3],
        tangents: &[[[f64; 3]; 3]; 3],
        stiffness: &mut [[f64; M]; M],
    ) {
        // Row i of each point's stiffness on the unknowns.
        let mut changes = [[[0.0; M]; 3]; 3];
        for ((gauss, tangent), changes) in points.iter().zip(tangents).zip(&mut changes) {
            for i in (0..3).filter(|i| Self::CARRIES[*i]) {
                for j in (0..3).filter(|j| Self::CARRIES[*j]) {
                    let c = gauss.length_mm * tangent[i][j];
                    for (to, b) in changes[i].iter_mut().zip(&gauss.rows[j]) {
                        *to += c * b;
                    }
                }
            }
        }
        for (m, row) in stiffness.iter_mut().enumerate() {
            let mut sum = *row;
            for (gauss, changes) in points.iter().zip(&changes) {
                for i in (0..3).filter(|i| Self::CARRIES[*i]) {
                    let b = gauss.rows[i][m];
                    for (to, from) in sum.iter_mut().zip(&changes[i]) {
                        *to += b * from;
                    }
                }
            }
            *row = sum;
        }
    }

    /// Eliminates the bubbles and adds what is left to the nodes.
    fn condense_and_scatter(&mut self, span: usize, stiffness: &mut [[f64; M]; M], forces: &mut [f64; M]) {
        for b in (2 * N..M).rev() {
            let over = 1.0 / stiffness[b][b];
            let pivot = stiffness[b].map(|entry| entry * over);
            let right = -forces[b] * over;
            for i in 0..b {
                let factor = stiffness[i][b];
                for (to, from) in stiffness[i].iter_mut().zip(&pivot) {
                    *to -= factor * from;
                }
                forces[i] += factor * right;
            }
            self.bubble_rows[span][b - 2 * N] = pivot;
            self.bubble_right[span][b - 2 * N] = [right, 0.0];
        }
        for i in 0..N {
            for k in 0..N {
                self.matrix.diagonal[span][i][k] += stiffness[i][k];
                self.matrix.above[span][i][k] += stiffness[i][N + k];
                self.matrix.below[span][i][k] += stiffness[N + i][k];
                self.matrix.diagonal[span + 1][i][k] += stiffness[N + i][N + k];
            }
            self.right[span][i][0] -= forces[i];
            self.right[span + 1][i][0] -= forces[N + i];
        }
    }

    fn add_rows(&mut self) {
        for (placed, (before, now)) in self.rows.iter().zip(self.last.held.iter().zip(&mut self.now.held)) {
            let motion = &self.now.motion[placed.node];
            let slip: [f64; 3] = std::array::from_fn(|i| dot(&placed.rows[i], motion));
            let answer = rivets::respond(&placed.row, before, slip);
            let block = &mut self.matrix.diagonal[placed.node];
            for i in 0..3 {
                for (k, b) in placed.rows[i].iter().enumerate() {
                    self.right[placed.node][k][0] -= answer.force[i] * b;
                    for j in 0..3 {
                        for (m, c) in placed.rows[j].iter().enumerate() {
                            block[k][m] += b * answer.tangent[i][j] * c;
                        }
                    }
                }
            }
            *now = answer.after;
        }
    }

    /// Points, rivets and layers at the motions of `now`, without forces or stiffness.
    pub(super) fn follow(&mut self) {
        for span in 0..self.spans.len() {
            let local = self.local(span);
            if self.yielding.iter().any(Option::is_some) {
                self.follow_layers(span, &local);
            }
            if let Some(bond) = self.spans[span].bond {
                self.answer(bond, &local);
            }
        }
        for (placed, (before, now)) in self.rows.iter().zip(self.last.held.iter().zip(&mut self.now.held)) {
            let motion = &self.now.motion[placed.node];
            let slip: [f64; 3] = std::array::from_fn(|i| dot(&placed.rows[i], motion));
            *now = rivets::respond(&placed.row, before, slip).after;
        }
    }

    fn follow_layers(&mut self, span: usize, local: &[f64; M]) {
        let Span { length, has, .. } = self.spans[span];
        for adherend in (0..2).filter(|a| has[*a]) {
            let Some(yielding) = &self.yielding[adherend] else { continue };
            let d = Self::LAYOUT.beam::<N>(adherend).map(|k| local[k]);
            for (place, (s, _)) in TWO_POINTS.into_iter().enumerate() {
                let rows = Rows::at(s, length, &d, Self::LAYOUT.w.is_some(), self.second_order);
                let before = &self.last.layers[span][adherend][place];
                self.now.layers[span][adherend][place] =
                    yielding.respond(before, rows.strain, rows.curvature).1;
            }
        }
    }
}

/// Where nothing is bonded the plates touch once they have closed the layer's thickness.
fn unbonded(stiffness: Stiffness, before: &Point, slip: [f64; 3]) -> Response {
    let closed = f64::min(slip[2] + stiffness.thickness_mm, 0.0);
    let traction = [0.0, 0.0, stiffness.opening * closed];
    let mut tangent = [[0.0; 3]; 3];
    if closed < 0.0 {
        tangent[2][2] = stiffness.opening;
    }
    Response { tangent, after: Point { slip, traction, keep: 0.0, ..*before } }
}
