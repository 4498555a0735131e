//! The strip as a system of equations: numbering, assembly, supports and loads.
//!
//! Unknowns are numbered from left to right, so that those of every element follow one another:
//! left arm (u, w, θ)(b)(u, w, θ)(b)…, overlap (u₁, w₁, θ₁, u₂, w₂, θ₂)(b₁, b₂)(u₁, …)…, right arm
//! (b)(u, w, θ)…. No element has more than [`PAIR`] unknowns, and this is the band.

use super::element::{self, ALONE, BEAM, OF_BEAM, PAIR, THREE_POINTS, TWO_POINTS};
use super::mesh;
use super::model::{Ends, Geometry, Section, Strip, Supports};
use crate::banded::{BadPivot, Banded};

/// Lanes of the band matrix: the unknowns of a pair, and one for columns that go in pairs, even.
const LANES: usize = PAIR + 2;

/// The springs of the layer at a Gauss point.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct BondPoint {
    /// G/h, MPa/mm.
    pub(super) shear: f64,
    /// Peel modulus over h, MPa/mm.
    pub(super) peel: f64,
    /// Distances of the midplanes of adherends 1 and 2 from the plane on which the slip is taken, mm.
    pub(super) arms: [f64; 2],
}

impl BondPoint {
    fn at(strip: &Strip, x_mm: f64) -> (Self, f64) {
        let h = strip.bondline.thickness_mm(x_mm);
        let layer = if strip.lever_arm_includes_bondline { h } else { 0.0 };
        let point = Self {
            shear: strip.adhesive.shear_modulus_mpa / h,
            peel: strip.adhesive.peel_modulus_mpa / h,
            arms: [0.5 * (strip.upper.thickness_mm + layer), 0.5 * (strip.lower.thickness_mm + layer)],
        };
        (point, h)
    }
}

/// The strip made ready for solving; its memory is used again for the next one.
#[derive(Debug, Clone, Default)]
pub(super) struct System {
    pub(super) sections: [Section; 2],
    /// Nodes of the overlap, mm.
    pub(super) x: Vec<f64>,
    /// Distances of the arms' nodes from the overlap, mm; empty where there is no arm.
    arms: [Vec<f64>; 2],
    /// Layer at the Gauss points of each bonded element.
    pub(super) gauss: Vec<[BondPoint; 3]>,
    /// Layer and its thickness at the nodes of the overlap.
    pub(super) nodes: Vec<(BondPoint, f64)>,
    pub(super) matrix: Banded<LANES>,
    pub(super) displacement: Vec<f64>,
    /// Load minus internal forces.
    pub(super) out_of_balance: Vec<f64>,
    /// Axial forces at two points of each beam element as the last solution foresaw them: upper and
    /// lower of each bonded pair, then left arm, then right arm.
    foreseen: Vec<[f64; 2]>,
    /// Unknowns held at zero.
    held: Vec<usize>,
    /// The unknown on which the axial load acts, and its direction.
    pulled: (usize, f64),
    /// What else acts, and on which unknown.
    loads: Vec<(usize, f64)>,
    second_order: bool,
}

/// A beam element: where it stands and which unknowns are its own.
#[derive(Debug, Clone, Copy)]
struct Place {
    first: usize,
    map: &'static [usize; BEAM],
    adherend: usize,
    length: f64,
}

impl System {
    /// Builds mesh, numbering, supports and loads of a checked strip; all unknowns zero.
    pub(super) fn prepare(&mut self, strip: &Strip) {
        let [left_mm, right_mm] = strip.arms_mm();
        self.sections = [&strip.upper, &strip.lower]
            .map(|adherend| Section::of(adherend, strip.plane, strip.temperature_change_k));
        mesh::overlap_nodes(&mut self.x, strip.overlap_mm, &strip.mesh);
        mesh::arm_nodes(&mut self.arms[0], left_mm, &strip.mesh);
        mesh::arm_nodes(&mut self.arms[1], right_mm, &strip.mesh);
        self.second_order = strip.geometry == Geometry::SecondOrder && !strip.hold_transverse;

        self.nodes.clear();
        self.nodes.extend(self.x.iter().map(|&x| BondPoint::at(strip, x)));
        self.gauss.clear();
        self.gauss.extend(self.x.windows(2).map(|ends| {
            THREE_POINTS.map(|(s, _)| BondPoint::at(strip, ends[0] + s * (ends[1] - ends[0])).0)
        }));

        let unknowns = 4 * (self.arm_elements(0) + self.arm_elements(1)) + 8 * self.x.len() - 2;
        self.displacement.clear();
        self.displacement.resize(unknowns, 0.0);
        self.foreseen.clear();
        let beams = self.arm_elements(0) + self.arm_elements(1) + 2 * (self.x.len() - 1);
        self.foreseen.resize(beams, [0.0; 2]);
        self.support_and_load(strip);
    }

    fn support_and_load(&mut self, strip: &Strip) {
        let left = 0;
        let right = self.right_end();
        self.held.clear();
        self.loads.clear();
        if strip.hold_transverse {
            self.hold_all_transverse();
        }
        match strip.supports {
            Supports::Gripped { ends, .. } => {
                self.held.extend([left, left + 1, right + 1]);
                if ends == Ends::Clamped {
                    self.held.extend([left + 2, right + 2]);
                }
                self.pulled = (right, 1.0);
            }
            Supports::EdgeResultants { moment_n, shear_n_mm } => {
                self.held.extend([right, right + 1, right + 2]);
                // On the left edge the section's positive face belongs to what was cut away.
                self.pulled = (left, -1.0);
                self.loads.extend([(left + 1, -shear_n_mm), (left + 2, -moment_n)]);
            }
        }
    }

    fn hold_all_transverse(&mut self) {
        let arms = [self.arm_elements(0), self.arm_elements(1)];
        let overlap = self.node(0);
        let last = self.node(self.x.len() - 1);
        let held = &mut self.held;
        held.extend((0..arms[0]).flat_map(|j| [4 * j + 1, 4 * j + 2]));
        held.extend((overlap..=last).step_by(8).flat_map(|n| [n + 1, n + 2, n + 4, n + 5]));
        held.extend((1..=arms[1]).flat_map(|j| [last + 3 + 4 * j + 1, last + 3 + 4 * j + 2]));
    }

    pub(super) fn second_order(&self) -> bool {
        self.second_order
    }

    fn arm_elements(&self, arm: usize) -> usize {
        self.arms[arm].len().saturating_sub(1)
    }

    /// First unknown, u₁, of a node of the overlap.
    pub(super) fn node(&self, j: usize) -> usize {
        4 * self.arm_elements(0) + 8 * j
    }

    /// u at the right end of adherend 2.
    fn right_end(&self) -> usize {
        self.displacement.len() - 3
    }

    /// Where an unknown stands, mm from the left end of the overlap.
    pub(super) fn position_mm(&self, unknown: usize) -> f64 {
        let first = self.node(0);
        let last = self.node(self.x.len() - 1);
        if unknown < first {
            -self.arms[0].get(self.arm_elements(0) - unknown / 4).copied().unwrap_or(0.0)
        } else if unknown < last + 6 {
            self.x.get((unknown - first) / 8).copied().unwrap_or(f64::NAN)
        } else {
            let end = self.x.last().copied().unwrap_or(f64::NAN);
            end + self.arms[1].get((unknown - last - 3) / 4).copied().unwrap_or(0.0)
        }
    }

    /// The two beams of the bonded element j, with their numbers.
    #[inline]
    fn pair(&self, j: usize) -> [(usize, Place); 2] {
        let length = self.x[j + 1] - self.x[j];
        let first = self.node(j);
        [0, 1].map(|adherend| {
            let map = &OF_BEAM[adherend];
            (2 * j + adherend, Place { first, map, adherend, length })
        })
    }

    /// The beams of the arms, with their numbers.
    fn free_beams(&self) -> impl Iterator<Item = (usize, Place)> {
        let starts = [0, self.node(self.x.len() - 1) + 3];
        let numbers = [2 * (self.x.len() - 1), 2 * (self.x.len() - 1) + self.arm_elements(0)];
        (0..2).flat_map(move |adherend| {
            let elements = self.arm_elements(adherend);
            self.arms[adherend].windows(2).enumerate().map(move |(outward, ends)| {
                // The left arm is numbered toward the overlap, the right one away from it.
                let j = if adherend == 0 { elements - 1 - outward } else { outward };
                let length = ends[1] - ends[0];
                let first = starts[adherend] + 4 * j;
                (numbers[adherend] + j, Place { first, map: &ALONE, adherend, length })
            })
        })
    }

    /// All beams, with their numbers.
    fn beams(&self) -> impl Iterator<Item = (usize, Place)> {
        (0..self.x.len() - 1).flat_map(|j| self.pair(j)).chain(self.free_beams())
    }

    /// Lower triangle of a beam's stiffness, by rows.
    #[inline]
    fn beam_stiffness(&self, number: usize, place: &Place) -> [[f64; BEAM]; BEAM] {
        let section = &self.sections[place.adherend];
        if self.second_order {
            let d = place.pick(&self.displacement);
            element::tangent(section, place.length, &d, self.foreseen[number])
        } else {
            element::stiffness(section, place.length)
        }
    }

    /// Takes a beam's internal forces off `forces`.
    #[inline]
    fn subtract_beam_forces(&self, place: &Place, forces: &mut [f64]) {
        let section = &self.sections[place.adherend];
        let d = place.pick(&self.displacement);
        let internal = if self.second_order {
            element::deflected_forces(section, place.length, &d)
        } else {
            element::forces(section, place.length, &d)
        };
        for (k, force) in place.map.iter().zip(internal) {
            forces[place.first + k] -= force;
        }
    }

    /// Stiffness at the present displacements, factored.
    pub(super) fn stiffen(&mut self) -> Result<(), BadPivot> {
        let mut matrix = std::mem::take(&mut self.matrix);
        matrix.reset(self.displacement.len());
        for (j, points) in self.gauss.iter().enumerate() {
            let mut block = bond_stiffness(self.x[j + 1] - self.x[j], points);
            for (number, place) in self.pair(j) {
                place.scatter(&self.beam_stiffness(number, &place), &mut block);
            }
            matrix.add_block(self.node(j), &block);
        }
        for (number, place) in self.free_beams() {
            let mut block = [[0.0; BEAM]; BEAM];
            place.scatter(&self.beam_stiffness(number, &place), &mut block);
            matrix.add_block(place.first, &block);
        }
        for &unknown in &self.held {
            matrix.hold(unknown);
        }
        self.matrix = matrix;
        self.matrix.factor()
    }

    /// Loads less internal forces at the present displacements, into `out_of_balance`.
    pub(super) fn weigh(&mut self, axial_n_mm: f64) {
        let mut forces = std::mem::take(&mut self.out_of_balance);
        forces.clear();
        forces.resize(self.displacement.len(), 0.0);
        for (j, points) in self.gauss.iter().enumerate() {
            let unknowns = self.node(j)..self.node(j) + PAIR;
            let length = self.x[j + 1] - self.x[j];
            let d = &self.displacement[unknowns.clone()];
            subtract_bond_forces(length, points, d, &mut forces[unknowns]);
            for (_, place) in self.pair(j) {
                self.subtract_beam_forces(&place, &mut forces);
            }
        }
        for (_, place) in self.free_beams() {
            self.subtract_beam_forces(&place, &mut forces);
        }
        let (pulled, sign) = self.pulled;
        forces[pulled] += sign * axial_n_mm;
        for &(unknown, load) in &self.loads {
            forces[unknown] += load;
        }
        for &unknown in &self.held {
            forces[unknown] = 0.0;
        }
        self.out_of_balance = forces;
    }

    /// Adds the displacements that the out-of-balance forces cause on the factored stiffness. Gives
    /// the energy of this correction.
    pub(super) fn correct(&mut self) -> f64 {
        let mut correction = std::mem::take(&mut self.out_of_balance);
        let energy = self.matrix.solve(&mut correction);
        if self.second_order {
            let mut foreseen = std::mem::take(&mut self.foreseen);
            for (number, place) in self.beams() {
                let section = &self.sections[place.adherend];
                let d = place.pick(&self.displacement);
                let change = place.pick(&correction);
                foreseen[number] = foresee(section, place.length, &d, &change);
            }
            self.foreseen = foreseen;
        }
        for (d, change) in self.displacement.iter_mut().zip(&correction) {
            *d += change;
        }
        self.out_of_balance = correction;
        energy
    }

    /// Puts all displacements back to zero.
    pub(super) fn rest(&mut self) {
        self.displacement.fill(0.0);
        self.foreseen.fill([0.0; 2]);
    }

    /// Axial displacement of the right end less that of the left, mm.
    pub(super) fn end_displacement_mm(&self) -> f64 {
        self.displacement[self.right_end()] - self.displacement[0]
    }
}

impl Place {
    #[inline]
    fn pick(&self, all: &[f64]) -> [f64; BEAM] {
        self.map.map(|k| all[self.first + k])
    }

    /// Adds a beam's lower triangle, by rows, to a block's, by columns.
    #[inline]
    fn scatter<const N: usize>(&self, stiffness: &[[f64; BEAM]; BEAM], block: &mut [[f64; N]; N]) {
        for (i, (&row, entries)) in self.map.iter().zip(stiffness).enumerate() {
            for (&column, entry) in self.map.iter().zip(entries).take(i + 1) {
                block[column][row] += entry;
            }
        }
    }
}

/// Axial forces at the two points after a correction, by the strain linearised at d.
fn foresee(section: &Section, l: f64, d: &[f64; BEAM], change: &[f64; BEAM]) -> [f64; 2] {
    TWO_POINTS.map(|(s, _)| {
        let strain =
            element::stretch_of(change, s, l) + element::slope_of(d, s, l) * element::slope_of(change, s, l);
        element::axial_force(section, l, d, s) + section.axial * strain
    })
}

/// Row T of the slip, δ_t = T d.
///
/// ```text
/// δ_t = (u₂ − c₂ θ₂) − (u₁ + c₁ θ₁)        c_i = (t_i + h)/2
/// ```
#[inline]
pub(super) fn slip_row(point: &BondPoint, s: f64, l: f64) -> [f64; PAIR] {
    let [c1, c2] = point.arms;
    let h = element::slope(s, l);
    let (r, b) = (1.0 - s, 4.0 * s * (1.0 - s));
    [
        -r,
        -c1 * h[0],
        -c1 * h[1],
        r,
        -c2 * h[0],
        -c2 * h[1],
        -b,
        b,
        -s,
        -c1 * h[2],
        -c1 * h[3],
        s,
        -c2 * h[2],
        -c2 * h[3],
    ]
}

/// Shear τ and peel σ at s of a bonded pair, MPa.
#[inline]
pub(super) fn tractions(point: &BondPoint, s: f64, l: f64, d: &[f64]) -> (f64, f64) {
    let slip: f64 = slip_row(point, s, l).iter().zip(d).map(|(t, d)| t * d).sum();
    let h = element::deflection(s, l);
    let opening =
        h[0] * (d[1] - d[4]) + h[1] * (d[2] - d[5]) + h[2] * (d[9] - d[12]) + h[3] * (d[10] - d[13]);
    (point.shear * slip, point.peel * opening)
}

/// Unknowns on which the opening depends: upper beam, lower beam.
const OPENING: [(usize, usize); 4] = [(1, 4), (2, 5), (9, 12), (10, 13)];

/// Lower triangle, by columns, of the layer's stiffness between a pair of beam elements.
#[inline]
fn bond_stiffness(l: f64, points: &[BondPoint; 3]) -> [[f64; PAIR]; PAIR] {
    let mut block = [[0.0; PAIR]; PAIR];
    let mut opening = [[0.0; 4]; 4];
    // The three points at once: an entry is then written once.
    let mut slip = [[0.0; PAIR]; 3];
    let mut stiff = [0.0; 3];
    for (g, (point, (s, weight))) in points.iter().zip(THREE_POINTS).enumerate() {
        slip[g] = slip_row(point, s, l);
        stiff[g] = weight * l * point.shear;
        let h = element::deflection(s, l);
        let stiff = weight * l * point.peel;
        for (column, a) in opening.iter_mut().zip(h) {
            for (entry, b) in column.iter_mut().zip(h) {
                *entry += stiff * a * b;
            }
        }
    }
    let [t0, t1, t2] = slip;
    for (j, column) in block.iter_mut().enumerate() {
        let (a0, a1, a2) = (stiff[0] * t0[j], stiff[1] * t1[j], stiff[2] * t2[j]);
        for i in j & !1..PAIR {
            column[i] = a0 * t0[i] + a1 * t1[i] + a2 * t2[i];
        }
    }
    for ((upper_j, lower_j), column) in OPENING.into_iter().zip(opening) {
        for ((upper_i, lower_i), k) in OPENING.into_iter().zip(column) {
            if upper_i >= upper_j {
                block[upper_j][upper_i] += k;
                block[lower_j][lower_i] += k;
            }
            // Upper against lower: every such pair once.
            block[upper_j.min(lower_i)][upper_j.max(lower_i)] -= k;
        }
    }
    block
}

/// Takes the layer's forces on a pair of beam elements off `forces`.
#[inline]
fn subtract_bond_forces(l: f64, points: &[BondPoint; 3], d: &[f64], forces: &mut [f64]) {
    for (point, (s, weight)) in points.iter().zip(THREE_POINTS) {
        let (shear, peel) = tractions(point, s, l, d);
        let area = weight * l;
        for (force, t) in forces.iter_mut().zip(slip_row(point, s, l)) {
            *force -= area * shear * t;
        }
        for ((upper, lower), h) in OPENING.into_iter().zip(element::deflection(s, l)) {
            forces[upper] -= area * peel * h;
            forces[lower] += area * peel * h;
        }
    }
}
