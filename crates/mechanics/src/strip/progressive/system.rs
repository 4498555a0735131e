//! The equations of a strip that gives: internal forces and their change at the present motions.

use super::super::element::TWO_POINTS;
use super::super::model::Section;
use super::beam::{self, Forces, Layers, Yielding};
use super::blocks::{Singular, Tridiagonal};
use super::law::{Law, Point, Response, Stiffness};
use super::layout::{Layout, SlipRows};
use super::rivets::{self, Held};
use super::stretch::Rows;
use crate::rivet::share::Row;

/// Most bubbles of an element.
pub(super) const BUBBLES: usize = 4;

/// An element between two neighbouring nodes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    pub(super) length: f64,
    /// Which adherends it has.
    pub(super) has: [bool; 2],
    /// Its place among the bonded ones.
    pub(super) bond: Option<usize>,
}

/// A point of the layer at which it is asked.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gauss<const M: usize> {
    /// mm from the left end of the overlap.
    pub(super) x_mm: f64,
    pub(super) rows: SlipRows<M>,
    pub(super) stiffness: Stiffness,
    /// Length that it stands for, mm.
    pub(super) length_mm: f64,
    pub(super) bonded: bool,
}

impl<const M: usize> Gauss<M> {
    /// Adds a stiffness of the layer at this point.
    #[inline]
    pub(super) fn add(&self, tangent: &[[f64; 3]; 3], carries: [bool; 3], stiffness: &mut [[f64; M]; M]) {
        for i in (0..3).filter(|i| carries[*i]) {
            // Row i of the point's stiffness on the unknowns.
            let mut change = [0.0; M];
            for j in (0..3).filter(|j| carries[*j]) {
                let c = self.length_mm * tangent[i][j];
                if c != 0.0 {
                    for (to, b) in change.iter_mut().zip(&self.rows[j]) {
                        *to += c * b;
                    }
                }
            }
            for (row, b) in stiffness.iter_mut().zip(&self.rows[i]) {
                if *b != 0.0 {
                    for (to, from) in row.iter_mut().zip(&change) {
                        *to += b * from;
                    }
                }
            }
        }
    }
}

/// A rivet row in the strip.
#[derive(Debug, Clone, Copy)]
pub(super) struct Placed<const N: usize> {
    pub(super) row: Row,
    pub(super) node: usize,
    pub(super) rows: [[f64; N]; 3],
}

/// All that changes on the way.
#[derive(Debug, Clone)]
pub(super) struct State<const N: usize> {
    /// Motions of the nodes.
    pub(super) motion: Vec<[f64; N]>,
    pub(super) bubbles: Vec<[f64; BUBBLES]>,
    pub(super) points: Vec<[Point; 3]>,
    pub(super) held: Vec<Held>,
    /// By span, adherend and place; empty where both are elastic.
    pub(super) layers: Vec<[[Layers; 2]; 2]>,
    /// Load factor.
    pub(super) factor: f64,
}

impl<const N: usize> Default for State<N> {
    fn default() -> Self {
        Self {
            motion: Vec::new(),
            bubbles: Vec::new(),
            points: Vec::new(),
            held: Vec::new(),
            layers: Vec::new(),
            factor: 0.0,
        }
    }
}

impl<const N: usize> State<N> {
    /// Takes over another state in the memory that is there.
    pub(super) fn take(&mut self, other: &Self) {
        self.motion.clone_from(&other.motion);
        self.bubbles.clone_from(&other.bubbles);
        self.points.clone_from(&other.points);
        self.held.clone_from(&other.held);
        self.layers.clone_from(&other.layers);
        self.factor = other.factor;
    }
}

/// The strip made ready; N unknowns at a node, M of a pair with its bubbles.
#[derive(Debug, Clone)]
pub(super) struct System<const N: usize, const M: usize> {
    pub(super) layout: Layout,
    pub(super) law: Law,
    pub(super) sections: [Section; 2],
    pub(super) yielding: [Option<Yielding>; 2],
    pub(super) second_order: bool,
    /// Nodes, mm from the left end of the overlap, arms included.
    pub(super) x_mm: Vec<f64>,
    pub(super) spans: Vec<Span>,
    pub(super) gauss: Vec<[Gauss<M>; 3]>,
    /// Stiffness of each bonded element's layer as long as it is whole.
    pub(super) whole: Vec<[[f64; M]; M]>,
    /// First node of the overlap.
    pub(super) first: usize,
    pub(super) rows: Vec<Placed<N>>,
    pub(super) held: Vec<(usize, usize)>,
    /// Node, unknown, load at the factor 1.
    pub(super) loads: Vec<(usize, usize, f64)>,
    /// The state at the last balance, and the one that is tried.
    pub(super) last: State<N>,
    pub(super) now: State<N>,
    matrix: Tridiagonal<N>,
    /// Out of balance, and load at the factor 1; after solving, the motions that they cause.
    pub(super) right: Vec<[[f64; 2]; N]>,
    /// Out of balance before solving.
    pub(super) residual: Vec<[f64; N]>,
    /// The same of the bubbles.
    pub(super) bubble_right: Vec<[[f64; 2]; BUBBLES]>,
    pub(super) bubble_rows: Vec<[[f64; M]; BUBBLES]>,
    /// What the load does at the last balance.
    ahead: Vec<[[f64; 2]; N]>,
    bubbles_ahead: Vec<[[f64; 2]; BUBBLES]>,
    /// The motions and the load factor at the balance before the last.
    pub(super) before: Vec<[f64; N]>,
    pub(super) bubbles_before: Vec<[f64; BUBBLES]>,
    pub(super) factor_before: f64,
    /// Energy of the residual over its own correction, from the last solution.
    pub(super) correction_energy: f64,
}

impl<const N: usize, const M: usize> System<N, M> {
    pub(super) fn new(layout: Layout, law: Law) -> Self {
        Self {
            layout,
            law,
            sections: [Section::default(); 2],
            yielding: [None; 2],
            second_order: false,
            x_mm: Vec::new(),
            spans: Vec::new(),
            gauss: Vec::new(),
            whole: Vec::new(),
            first: 0,
            rows: Vec::new(),
            held: Vec::new(),
            loads: Vec::new(),
            last: State::default(),
            now: State::default(),
            matrix: Tridiagonal::default(),
            right: Vec::new(),
            residual: Vec::new(),
            bubble_right: Vec::new(),
            bubble_rows: Vec::new(),
            ahead: Vec::new(),
            bubbles_ahead: Vec::new(),
            before: Vec::new(),
            bubbles_before: Vec::new(),
            factor_before: 0.0,
            correction_energy: 0.0,
        }
    }

    /// Last node of the overlap.
    pub(super) fn right_overlap_node(&self) -> usize {
        self.first + self.gauss.len()
    }

    /// Forces out of balance and stiffness at the motions of `now`, whose points, rivets and layers follow.
    pub(super) fn weigh(&mut self) {
        self.matrix.reset(self.x_mm.len());
        for node in &mut self.right {
            *node = [[0.0; 2]; N];
        }
        for &(node, k, load) in &self.loads {
            self.right[node][k] = [load * self.now.factor, load];
        }
        for span in 0..self.spans.len() {
            let (mut stiffness, mut forces) = ([[0.0; M]; M], [0.0; M]);
            let local = self.local(span);
            self.add_adherends(span, &local, &mut stiffness, &mut forces);
            if let Some(bond) = self.spans[span].bond {
                self.add_bond(bond, &local, &mut stiffness, &mut forces);
            }
            self.condense_and_scatter(span, &mut stiffness, &mut forces);
        }
        self.add_rows();
        for &(node, k) in &self.held {
            self.matrix.hold(node, k);
            self.right[node][k] = [0.0; 2];
        }
    }

    fn local(&self, span: usize) -> [f64; M] {
        let mut local = [0.0; M];
        local[..N].copy_from_slice(&self.now.motion[span]);
        local[N..2 * N].copy_from_slice(&self.now.motion[span + 1]);
        local[2 * N..].copy_from_slice(&self.now.bubbles[span][..M - 2 * N]);
        local
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
                if self.layout.v.is_some() {
                    stiffness[bubble + 2][bubble + 2] = 1.0;
                }
                continue;
            }
            let map = self.layout.beam::<N>(adherend);
            let d = map.map(|k| local[k]);
            for (place, (s, weight)) in TWO_POINTS.into_iter().enumerate() {
                let rows = Rows::at(s, length, &d, self.layout.w.is_some(), self.second_order);
                let answer = self.section(span, adherend, place, rows.strain, rows.curvature);
                rows.add(&map, weight * length, &answer, self.second_order, stiffness, forces);
            }
            if let Some(v) = self.layout.v {
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

    fn section(&mut self, span: usize, adherend: usize, place: usize, strain: f64, curvature: f64) -> Forces {
        let Some(yielding) = &self.yielding[adherend] else {
            return beam::elastic(&self.sections[adherend], strain, curvature);
        };
        let before = &self.last.layers[span][adherend][place];
        let (forces, after) = yielding.respond(before, strain, curvature);
        self.now.layers[span][adherend][place] = after;
        forces
    }

    /// Asks the three points of a bonded element, which follow.
    #[inline]
    fn answer(&mut self, bond: usize, local: &[f64; M]) -> [Response; 3] {
        let answers: [Response; 3] = std::array::from_fn(|g| {
            let gauss = &self.gauss[bond][g];
            let slip: [f64; 3] = std::array::from_fn(|i| dot(&gauss.rows[i], local));
            let before = &self.last.points[bond][g];
            if gauss.bonded {
                self.law.respond(gauss.stiffness, before, slip)
            } else {
                unbonded(gauss.stiffness, before, slip)
            }
        });
        for (point, answer) in self.now.points[bond].iter_mut().zip(&answers) {
            *point = answer.after;
        }
        answers
    }

    fn add_bond(
        &mut self,
        bond: usize,
        local: &[f64; M],
        stiffness: &mut [[f64; M]; M],
        forces: &mut [f64; M],
    ) {
        let answers = self.answer(bond, local);
        if answers.iter().all(|answer| answer.after.is_whole()) {
            for (row, (force, known)) in stiffness.iter_mut().zip(forces.iter_mut().zip(&self.whole[bond])) {
                *force += dot(known, local);
                for (to, from) in row.iter_mut().zip(known) {
                    *to += from;
                }
            }
            return;
        }
        let carries = [true, self.layout.v.is_some(), self.layout.w.is_some()];
        for (gauss, answer) in self.gauss[bond].iter().zip(&answers) {
            for i in (0..3).filter(|i| carries[*i]) {
                let pull = gauss.length_mm * answer.traction[i];
                for (force, b) in forces.iter_mut().zip(&gauss.rows[i]) {
                    *force += pull * b;
                }
            }
            gauss.add(&answer.tangent, carries, stiffness);
        }
    }

    /// Eliminates the bubbles and adds what is left to the nodes.
    fn condense_and_scatter(&mut self, span: usize, stiffness: &mut [[f64; M]; M], forces: &mut [f64; M]) {
        for b in (2 * N..M).rev() {
            let over = 1.0 / stiffness[b][b];
            let mut pivot = stiffness[b];
            for entry in &mut pivot {
                *entry *= over;
            }
            let right = -forces[b] * over;
            for i in 0..b {
                let factor = stiffness[i][b];
                if factor != 0.0 {
                    for (to, from) in stiffness[i].iter_mut().zip(&pivot).take(b) {
                        *to -= factor * from;
                    }
                    forces[i] += factor * right;
                }
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

    /// Solves for the motions that residual and load cause; the stiffness is spent.
    pub(super) fn solve(&mut self) -> Result<(), Singular> {
        for (to, from) in self.residual.iter_mut().zip(&self.right) {
            *to = from.map(|pair| pair[0]);
        }
        let solved = self.matrix.solve(&mut self.right);
        let nodes = self.residual.iter().zip(&self.right);
        let works = nodes.flat_map(|(forces, moved)| forces.iter().zip(moved).map(|(f, m)| f * m[0]));
        self.correction_energy = works.sum::<f64>().abs();
        solved?;
        for span in 0..self.spans.len() {
            let mut local = [[0.0; 2]; M];
            local[..N].copy_from_slice(&self.right[span]);
            local[N..2 * N].copy_from_slice(&self.right[span + 1]);
            for b in 2 * N..M {
                let mut moved = self.bubble_right[span][b - 2 * N];
                for (entry, before) in self.bubble_rows[span][b - 2 * N].iter().zip(&local).take(b) {
                    moved[0] -= entry * before[0];
                    moved[1] -= entry * before[1];
                }
                local[b] = moved;
                self.bubble_right[span][b - 2 * N] = moved;
            }
        }
        Ok(())
    }

    /// Solves for the motions that the load causes at the last balance, and keeps them for every try from there.
    pub(super) fn foresee(&mut self) -> Result<(), Singular> {
        self.solve()?;
        self.ahead.clone_from(&self.right);
        self.bubbles_ahead.clone_from(&self.bubble_right);
        Ok(())
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
            let d = self.layout.beam::<N>(adherend).map(|k| local[k]);
            for (place, (s, _)) in TWO_POINTS.into_iter().enumerate() {
                let rows = Rows::at(s, length, &d, self.layout.w.is_some(), self.second_order);
                self.section(span, adherend, place, rows.strain, rows.curvature);
            }
        }
    }

    /// Makes what was tried the last balance. What the load did in the last solution is kept for every try from
    /// there: the stiffness has hardly changed since.
    pub(super) fn keep_now(&mut self) {
        std::mem::swap(&mut self.before, &mut self.last.motion);
        std::mem::swap(&mut self.bubbles_before, &mut self.last.bubbles);
        self.factor_before = self.last.factor;
        self.last.take(&self.now);
        let own = self.right.iter_mut().flatten().chain(self.bubble_right.iter_mut().flatten());
        own.for_each(|moved| moved[0] = 0.0);
        self.ahead.clone_from(&self.right);
        self.bubbles_ahead.clone_from(&self.bubble_right);
    }

    /// Gives up what was tried.
    pub(super) fn return_to_last(&mut self) {
        self.now.take(&self.last);
        self.right.clone_from(&self.ahead);
        self.bubble_right.clone_from(&self.bubbles_ahead);
    }

    /// Moves by the residual's motions and `change` of the load factor.
    pub(super) fn advance(&mut self, change: f64) {
        for (motion, moved) in self.now.motion.iter_mut().zip(&self.right) {
            for (to, [own, load]) in motion.iter_mut().zip(moved) {
                *to += own + change * load;
            }
        }
        for (bubbles, moved) in self.now.bubbles.iter_mut().zip(&self.bubble_right) {
            for (to, [own, load]) in bubbles.iter_mut().zip(moved) {
                *to += own + change * load;
            }
        }
        self.now.factor += change;
    }

    /// Bends the move foreseen, `change` of the load factor along the load's motions, toward where the last two
    /// balances point: by `share` of how far the balance before the last lies off the same move taken back, which
    /// takes `back` of the load factor.
    pub(super) fn bend_toward(&mut self, share: f64, back: f64) {
        let off = |last: f64, before: f64, load: f64| share * (before - last + back * load);
        let State { motion, bubbles, factor, .. } = &mut self.now;
        let balances = self.last.motion.iter().zip(&self.before);
        for (to, ((last, before), moved)) in motion.iter_mut().zip(balances.zip(&self.ahead)) {
            for k in 0..N {
                to[k] += off(last[k], before[k], moved[k][1]);
            }
        }
        let balances = self.last.bubbles.iter().zip(&self.bubbles_before);
        for (to, ((last, before), moved)) in bubbles.iter_mut().zip(balances.zip(&self.bubbles_ahead)) {
            for k in 0..BUBBLES {
                to[k] += off(last[k], before[k], moved[k][1]);
            }
        }
        *factor += off(self.last.factor, self.factor_before, 1.0);
    }

    /// How far the slips of a point moved from the balance before the last to the last.
    pub(super) fn came_slip(&self, bond: usize, g: usize) -> [f64; 3] {
        let span = self.first + bond;
        let of = |motion: &[[f64; N]], bubbles: &[[f64; BUBBLES]], i: usize| -> f64 {
            let all = motion[span].iter().chain(&motion[span + 1]).chain(&bubbles[span]);
            self.gauss[bond][g].rows[i].iter().zip(all).map(|(b, moved)| b * moved).sum()
        };
        std::array::from_fn(|i| {
            of(&self.last.motion, &self.last.bubbles, i) - of(&self.before, &self.bubbles_before, i)
        })
    }

    /// The same of a rivet row.
    pub(super) fn came_row(&self, index: usize) -> [f64; 3] {
        let placed = &self.rows[index];
        std::array::from_fn(|i| {
            dot(&placed.rows[i], &self.last.motion[placed.node])
                - dot(&placed.rows[i], &self.before[placed.node])
        })
    }

    /// What the two motions last solved for do to the slips of a point: residual's, load's.
    pub(super) fn moved_slip(&self, bond: usize, g: usize) -> [[f64; 3]; 2] {
        let span = self.first + bond;
        let gauss = &self.gauss[bond][g];
        std::array::from_fn(|side| {
            std::array::from_fn(|i| {
                let nodes = self.right[span].iter().chain(&self.right[span + 1]);
                let all = nodes.chain(&self.bubble_right[span]);
                gauss.rows[i].iter().zip(all).map(|(b, moved)| b * moved[side]).sum()
            })
        })
    }

    /// The same of a rivet row.
    pub(super) fn moved_row(&self, index: usize) -> [[f64; 3]; 2] {
        let placed = &self.rows[index];
        std::array::from_fn(|side| {
            std::array::from_fn(|i| {
                placed.rows[i].iter().zip(&self.right[placed.node]).map(|(b, moved)| b * moved[side]).sum()
            })
        })
    }

    /// Load at the factor 1 times the motions of a state: the displacement at which the load works, N·mm/mm.
    pub(super) fn work_of_load(&self, state: &State<N>) -> f64 {
        self.loads.iter().map(|(node, k, load)| load * state.motion[*node][*k]).sum()
    }

    /// Axial displacement of the right end less that of the left, mm.
    pub(super) fn end_displacement_mm(&self) -> f64 {
        let last = self.x_mm.len() - 1;
        self.now.motion[last][self.layout.u[1]] - self.now.motion[0][self.layout.u[0]]
    }

    /// Elastic energy and work spent of the adherends at `now`, N·mm/mm.
    pub(super) fn adherend_energy(&mut self) -> [f64; 2] {
        let (mut stored, mut spent) = (0.0, 0.0);
        for span in 0..self.spans.len() {
            let Span { length, has, .. } = self.spans[span];
            let local = self.local(span);
            for adherend in (0..2).filter(|a| has[*a]) {
                let map = self.layout.beam::<N>(adherend);
                let d = map.map(|k| local[k]);
                for (place, (s, weight)) in TWO_POINTS.into_iter().enumerate() {
                    let rows = Rows::at(s, length, &d, self.layout.w.is_some(), self.second_order);
                    let area = weight * length;
                    let section = self.sections[adherend];
                    if self.yielding[adherend].is_some() {
                        let layers = self.now.layers[span][adherend][place];
                        spent += area * layers.spent_n;
                        let yielding = self.yielding[adherend].as_ref();
                        stored +=
                            area * yielding.map_or(0.0, |y| y.stored(&layers, rows.strain, rows.curvature));
                    } else {
                        let strain = rows.strain - section.thermal_strain;
                        stored += 0.5
                            * area
                            * (section.axial * strain * strain
                                + section.bending * rows.curvature * rows.curvature);
                    }
                }
                if let Some(v) = self.layout.v {
                    let k = self.sections[adherend].antiplane / length;
                    let stretch = local[N + v[adherend]] - local[v[adherend]];
                    let bubble = local[2 * N + 2 + adherend];
                    stored += 0.5 * k * (stretch * stretch + 16.0 / 3.0 * bubble * bubble);
                }
            }
        }
        [stored, spent]
    }

    /// Whether an adherend yields, and its greatest strain over that at which it breaks.
    pub(super) fn adherend_state(&self, adherend: usize) -> (bool, f64) {
        let Some(yielding) = &self.yielding[adherend] else { return (false, 0.0) };
        let places = || self.now.layers.iter().flat_map(move |span| span[adherend].iter());
        let strain = places().map(|layers| layers.greatest_strain).fold(0.0, f64::max);
        (places().any(Layers::yielded), strain / yielding.strain_at_break())
    }
}

fn dot<const K: usize>(a: &[f64; K], b: &[f64; K]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Where nothing is bonded the plates touch once they have closed the layer's thickness.
fn unbonded(stiffness: Stiffness, before: &Point, slip: [f64; 3]) -> Response {
    let closed = f64::min(slip[2] + stiffness.thickness_mm, 0.0);
    let traction = [0.0, 0.0, stiffness.opening * closed];
    let mut tangent = [[0.0; 3]; 3];
    if closed < 0.0 {
        tangent[2][2] = stiffness.opening;
    }
    Response { traction, tangent, after: Point { slip, traction, keep: 0.0, ..*before } }
}
