//! The equations of a strip that gives: internal forces and their change at the present motions.

use super::super::element::TWO_POINTS;
use super::super::model::Section;
use super::beam::{Layers, Yielding};
use super::blocks::Tridiagonal;
use super::law::{Law, Point, Stiffness};
use super::layout::{self, Layout, SlipRows};
use super::rivets::Held;
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
    pub(super) matrix: Tridiagonal<N>,
    /// Out of balance, and load at the factor 1; after solving, the motions that they cause.
    pub(super) right: Vec<[[f64; 2]; N]>,
    /// Out of balance before solving.
    pub(super) residual: Vec<[f64; N]>,
    /// The same of the bubbles.
    pub(super) bubble_right: Vec<[[f64; 2]; BUBBLES]>,
    pub(super) bubble_rows: Vec<[[f64; M]; BUBBLES]>,
    /// What the load does at the last balance.
    pub(super) ahead: Vec<[[f64; 2]; N]>,
    pub(super) bubbles_ahead: Vec<[[f64; 2]; BUBBLES]>,
    /// The motions and the load factor at the balance before the last.
    pub(super) before: Vec<[f64; N]>,
    pub(super) bubbles_before: Vec<[f64; BUBBLES]>,
    pub(super) factor_before: f64,
    /// Energy of the residual over its own correction, from the last solution.
    pub(super) correction_energy: f64,
}

impl<const N: usize, const M: usize> System<N, M> {
    /// Which unknowns a node has.
    pub(super) const LAYOUT: Layout = layout::of(N);

    pub(super) fn new(law: Law) -> Self {
        Self {
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

    pub(super) fn local(&self, span: usize) -> [f64; M] {
        let mut local = [0.0; M];
        local[..N].copy_from_slice(&self.now.motion[span]);
        local[N..2 * N].copy_from_slice(&self.now.motion[span + 1]);
        local[2 * N..].copy_from_slice(&self.now.bubbles[span][..M - 2 * N]);
        local
    }

    /// Load at the factor 1 times the motions of a state: the displacement at which the load works, N·mm/mm.
    pub(super) fn work_of_load(&self, state: &State<N>) -> f64 {
        self.loads.iter().map(|(node, k, load)| load * state.motion[*node][*k]).sum()
    }

    /// Axial displacement of the right end less that of the left, mm.
    pub(super) fn end_displacement_mm(&self) -> f64 {
        let last = self.x_mm.len() - 1;
        self.now.motion[last][Self::LAYOUT.u[1]] - self.now.motion[0][Self::LAYOUT.u[0]]
    }

    /// Elastic energy and work spent of the adherends at `now`, N·mm/mm.
    pub(super) fn adherend_energy(&mut self) -> [f64; 2] {
        let (mut stored, mut spent) = (0.0, 0.0);
        for span in 0..self.spans.len() {
            let Span { length, has, .. } = self.spans[span];
            let local = self.local(span);
            for adherend in (0..2).filter(|a| has[*a]) {
                let map = Self::LAYOUT.beam::<N>(adherend);
                let d = map.map(|k| local[k]);
                for (place, (s, weight)) in TWO_POINTS.into_iter().enumerate() {
                    let rows = Rows::at(s, length, &d, Self::LAYOUT.w.is_some(), self.second_order);
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
                if let Some(v) = Self::LAYOUT.v {
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

pub(super) fn dot<const K: usize>(a: &[f64; K], b: &[f64; K]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
