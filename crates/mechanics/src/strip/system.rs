//! The strip as a system of equations: numbering, assembly, supports and loads.
//!
//! Unknowns are numbered from left to right, so that those of every element follow one another:
//! left arm (u, w, θ)(b)(u, w, θ)(b)…, overlap (u₁, w₁, θ₁, u₂, w₂, θ₂)(b₁, b₂)(u₁, …)…, right arm
//! (b)(u, w, θ)…. No element has more than [`PAIR`] unknowns, and this is the band.

use super::element::{self, ALONE, BEAM, Beam, OF_BEAM, PAIR, THREE_POINTS, TWO_POINTS};
use super::mesh;
use super::model::{Ends, Geometry, Section, Strip, Supports};
use crate::banded::{BadPivot, Banded};

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
        let layer = if strip.lever_arm_includes_bondline {
            h
        } else {
            0.0
        };
        let point = Self {
            shear: strip.adhesive.shear_modulus_mpa / h,
            peel: strip.adhesive.peel_modulus_mpa / h,
            arms: [
                0.5 * (strip.upper.thickness_mm + layer),
                0.5 * (strip.lower.thickness_mm + layer),
            ],
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
    pub(super) matrix: Banded<PAIR>,
    pub(super) displacement: Vec<f64>,
    /// Load minus internal forces.
    pub(super) out_of_balance: Vec<f64>,
    /// Axial forces at two points of each beam element as the last solution foresaw them:
    /// left arm, then upper and lower of each bonded pair, then right arm.
    foreseen: Vec<[f64; 2]>,
    held: Vec<usize>,
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
        self.nodes
            .extend(self.x.iter().map(|&x| BondPoint::at(strip, x)));
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
                self.loads.push((right, strip.axial_n_mm));
            }
            Supports::EdgeResultants {
                moment_n,
                shear_n_mm,
            } => {
                self.held.extend([right, right + 1, right + 2]);
                // On the left edge the section's positive face belongs to what was cut away.
                self.loads.extend([
                    (left, -strip.axial_n_mm),
                    (left + 1, -shear_n_mm),
                    (left + 2, -moment_n),
                ]);
            }
        }
    }

    fn hold_all_transverse(&mut self) {
        let arms = [self.arm_elements(0), self.arm_elements(1)];
        let overlap = self.node(0);
        let last = self.node(self.x.len() - 1);
        let held = &mut self.held;
        held.extend((0..arms[0]).flat_map(|j| [4 * j + 1, 4 * j + 2]));
        held.extend(
            (overlap..=last)
                .step_by(8)
                .flat_map(|n| [n + 1, n + 2, n + 4, n + 5]),
        );
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
    pub(super) fn right_end(&self) -> usize {
        self.displacement.len() - 3
    }

    /// Where an unknown stands, mm from the left end of the overlap.
    pub(super) fn position_mm(&self, unknown: usize) -> f64 {
        let first = self.node(0);
        let last = self.node(self.x.len() - 1);
        if unknown < first {
            -self.arms[0]
                .get(self.arm_elements(0) - unknown / 4)
                .copied()
                .unwrap_or(0.0)
        } else if unknown < last + 6 {
            self.x
                .get((unknown - first) / 8)
                .copied()
                .unwrap_or(f64::NAN)
        } else {
            let end = self.x.last().copied().unwrap_or(f64::NAN);
            end + self.arms[1]
                .get((unknown - last - 3) / 4)
                .copied()
                .unwrap_or(0.0)
        }
    }

    /// Calls `visit` for each beam element with its number.
    fn each_beam(&self, mut visit: impl FnMut(usize, Place)) {
        let mut number = 0;
        let mut next = |place| {
            visit(number, place);
            number += 1;
        };
        for (j, ends) in self.arms[0].windows(2).rev().enumerate() {
            let length = ends[1] - ends[0];
            next(Place {
                first: 4 * j,
                map: &ALONE,
                adherend: 0,
                length,
            });
        }
        for (j, ends) in self.x.windows(2).enumerate() {
            let length = ends[1] - ends[0];
            for (adherend, map) in OF_BEAM.iter().enumerate() {
                next(Place {
                    first: self.node(j),
                    map,
                    adherend,
                    length,
                });
            }
        }
        let last = self.node(self.x.len() - 1) + 3;
        for (j, ends) in self.arms[1].windows(2).enumerate() {
            let length = ends[1] - ends[0];
            next(Place {
                first: last + 4 * j,
                map: &ALONE,
                adherend: 1,
                length,
            });
        }
    }

    /// Stiffness and out-of-balance forces at the present displacements, supports put in.
    pub(super) fn assemble(&mut self) {
        let mut matrix = std::mem::take(&mut self.matrix);
        let mut forces = std::mem::take(&mut self.out_of_balance);
        matrix.reset(self.displacement.len());
        forces.clear();
        forces.resize(self.displacement.len(), 0.0);

        self.each_beam(|number, place| {
            let section = &self.sections[place.adherend];
            let d = place.pick(&self.displacement);
            let beam = if self.second_order {
                element::deflected(section, place.length, &d, self.foreseen[number])
            } else {
                element::straight(section, place.length, &d)
            };
            place.add(&beam, &mut matrix, &mut forces);
        });
        for (j, (ends, points)) in self.x.windows(2).zip(&self.gauss).enumerate() {
            let first = self.node(j);
            add_bond(
                ends[1] - ends[0],
                points,
                &self.displacement[first..first + PAIR],
                &mut matrix.block(first)[..PAIR],
                &mut forces[first..first + PAIR],
            );
        }
        for force in &mut forces {
            *force = -*force;
        }
        for &(unknown, load) in &self.loads {
            forces[unknown] += load;
        }
        for &unknown in &self.held {
            matrix.hold(unknown);
            forces[unknown] = 0.0;
        }
        self.matrix = matrix;
        self.out_of_balance = forces;
    }

    /// Solves for the correction, adds it to the displacements and leaves it in `out_of_balance`.
    /// Gives the correction's energy, (correction)ᵀ K (correction).
    pub(super) fn correct(&mut self) -> Result<f64, BadPivot> {
        self.matrix.factor()?;
        let mut correction = std::mem::take(&mut self.out_of_balance);
        let energy = self.matrix.solve(&mut correction);
        if self.second_order {
            let mut foreseen = std::mem::take(&mut self.foreseen);
            self.each_beam(|number, place| {
                let d = place.pick(&self.displacement);
                let change = place.pick(&correction);
                foreseen[number] =
                    foresee(&self.sections[place.adherend], place.length, &d, &change);
            });
            self.foreseen = foreseen;
        }
        for (d, change) in self.displacement.iter_mut().zip(&correction) {
            *d += change;
        }
        self.out_of_balance = correction;
        Ok(energy)
    }

    /// Axial displacement of the right end when only the temperature acts, in first order; the
    /// matrix must be factored at zero displacement. Leaves the displacements alone.
    pub(super) fn thermal_end_displacement(&mut self) -> f64 {
        let mut rhs = std::mem::take(&mut self.out_of_balance);
        rhs.clear();
        rhs.resize(self.displacement.len(), 0.0);
        self.each_beam(|_, place| {
            let section = &self.sections[place.adherend];
            let push = section.axial * section.thermal_strain;
            rhs[place.first + place.map[0]] -= push;
            rhs[place.first + place.map[4]] += push;
        });
        for &unknown in &self.held {
            rhs[unknown] = 0.0;
        }
        self.matrix.solve(&mut rhs);
        let apart = rhs[self.right_end()] - rhs[0];
        self.out_of_balance = rhs;
        apart
    }
}

impl Place {
    fn pick(&self, all: &[f64]) -> [f64; BEAM] {
        self.map.map(|k| all[self.first + k])
    }

    fn add(&self, beam: &Beam, matrix: &mut Banded<PAIR>, forces: &mut [f64]) {
        let block = &mut matrix.block(self.first)[..PAIR];
        let forces = &mut forces[self.first..];
        for i in 0..BEAM {
            let row = self.map[i];
            forces[row] += beam.forces[i];
            for j in 0..=i {
                let column = self.map[j];
                block[column][row - column] += beam.stiffness[i][j];
            }
        }
    }
}

/// Axial forces at the two points after a correction, by the strain linearised at d.
fn foresee(section: &Section, l: f64, d: &[f64; BEAM], change: &[f64; BEAM]) -> [f64; 2] {
    TWO_POINTS.map(|(s, _)| {
        let strain = element::stretch_of(change, s, l)
            + element::slope_of(d, s, l) * element::slope_of(change, s, l);
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
        b, //
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
    let slip: f64 = slip_row(point, s, l)
        .iter()
        .zip(d)
        .map(|(t, d)| t * d)
        .sum();
    let h = element::deflection(s, l);
    let opening = h[0] * (d[1] - d[4])
        + h[1] * (d[2] - d[5])
        + h[2] * (d[9] - d[12])
        + h[3] * (d[10] - d[13]);
    (point.shear * slip, point.peel * opening)
}

/// Adds the layer between a pair of beam elements: δ_t and δ_n = w₁ − w₂ at three points.
#[inline]
fn add_bond(
    l: f64,
    points: &[BondPoint; 3],
    d: &[f64],
    block: &mut [[f64; PAIR]],
    forces: &mut [f64],
) {
    // Unknowns on which the opening depends, upper beam and lower beam.
    const OPENING: [(usize, usize); 4] = [(1, 4), (2, 5), (9, 12), (10, 13)];
    for (point, (s, weight)) in points.iter().zip(THREE_POINTS) {
        let t = slip_row(point, s, l);
        let h = element::deflection(s, l);
        let (shear, peel) = tractions(point, s, l, d);
        let area = weight * l;
        for (force, t) in forces.iter_mut().zip(t) {
            *force += area * shear * t;
        }
        let stiff = area * point.shear;
        for j in 0..PAIR {
            let scaled = stiff * t[j];
            for i in j..PAIR {
                block[j][i - j] += scaled * t[i];
            }
        }
        let stiff = area * point.peel;
        for (j, (upper_j, lower_j)) in OPENING.into_iter().enumerate() {
            forces[upper_j] += area * peel * h[j];
            forces[lower_j] -= area * peel * h[j];
            for (i, (upper_i, lower_i)) in OPENING.into_iter().enumerate() {
                let k = stiff * h[i] * h[j];
                if i >= j {
                    block[upper_j][upper_i - upper_j] += k;
                    block[lower_j][lower_i - lower_j] += k;
                }
                // Upper and lower, each pair once, in the lower triangle.
                let (row, column) = (upper_i.max(lower_j), upper_i.min(lower_j));
                block[column][row - column] -= k;
            }
        }
    }
}
