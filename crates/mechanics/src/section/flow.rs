//! Shear flow of transverse force and of torsion in the centrelines.

use super::graph::{Cycle, Graph};
use super::moments::Central;
use super::wall::{Centreline, Isotropic, Point, Wall};
use crate::failure::Failure;

/// Centrelines, tree and cells: what the flows are computed from.
#[derive(Debug, Clone)]
pub(super) struct Network {
    pub(super) lines: Vec<Centreline>,
    pub(super) graph: Graph,
    pub(super) cycles: Vec<Cycle>,
    /// Per wall E t/E_ref, mm; zero in a link.
    pub(super) axial: Vec<f64>,
    /// Per wall E t³/(12 E_ref), mm³; zero in a link.
    pub(super) bending: Vec<f64>,
    /// Per wall G_ref/(G t), 1/mm; zero in a link.
    pub(super) give: Vec<f64>,
    /// Per wall what the flow saves of its way at the start and at the end by cutting a corner, mm.
    cuts: Vec<[f64; 2]>,
    /// Poisson's ratio ν of the reference.
    poissons_ratio: f64,
}

/// What a transverse force does in one wall.
///
/// The flow q = a + b s + c s² (N/mm) along the wall, positive in its direction on the face that looks
/// along +x; and the transverse force v (N/mm) to its left, which is the change along x of the bending
/// moment in the wall.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct WallShear {
    pub(super) flow: [f64; 3],
    pub(super) transverse: f64,
}

impl WallShear {
    pub(super) fn at(&self, s: f64) -> f64 {
        self.flow[0] + s * (self.flow[1] + s * self.flow[2])
    }

    /// ∫ q ds over a wall.
    fn integral(&self, length: f64) -> f64 {
        length * (self.flow[0] + length * (self.flow[1] / 2.0 + length * self.flow[2] / 3.0))
    }

    /// ∫ q² ds over a wall.
    fn square(&self, length: f64) -> f64 {
        let [a, b, c] = [self.flow[0], self.flow[1] * length, self.flow[2] * length * length];
        length * (a * a + a * b + (b * b + 2.0 * a * c) / 3.0 + b * c / 2.0 + c * c / 5.0)
    }
}

impl Network {
    pub(super) fn new(nodes: &[Point], walls: &[Wall], reference: Isotropic) -> Self {
        let (modulus, shear_modulus) = (reference.youngs_modulus_mpa, reference.shear_modulus_mpa());
        let graph = Graph::new(nodes.len(), walls);
        let cycles = graph.cycles(walls);
        let solid = |value: f64, wall: &Wall| if wall.is_link() { 0.0 } else { value };
        let ratio = |wall: &Wall| wall.material.youngs_modulus_mpa / modulus;
        let lines: Vec<Centreline> =
            walls.iter().map(|w| Centreline::between(nodes[w.from], nodes[w.to])).collect();
        Self {
            cuts: cuts(walls, &lines, &graph),
            lines,
            graph,
            cycles,
            axial: walls.iter().map(|w| solid(ratio(w) * w.thickness_mm, w)).collect(),
            bending: walls.iter().map(|w| solid(ratio(w) * w.thickness_mm.powi(3) / 12.0, w)).collect(),
            give: walls
                .iter()
                .map(|w| solid(shear_modulus / (w.material.shear_modulus_mpa() * w.thickness_mm), w))
                .collect(),
            poissons_ratio: reference.poissons_ratio,
        }
    }

    /// The flow of the transverse force (V_y, V_z), N, through the shear centre.
    ///
    /// The axial stress changes along x as M_y' = V_z and M_z' = −V_y want it; each piece of wall is in
    /// equilibrium along x:
    ///
    /// ```text
    /// dq/ds = −∂(σ t)/∂x         Σ q leaving a node = Σ q arriving
    /// ∮ q/(G t) ds = (2 ν/E) ∫ (∂g_z y − ∂g_y z) dA      around each cell
    /// ```
    ///
    /// with ∂g the change along x of the stress gradient, y and z from the centroid, and the integral over
    /// the area that the cell encloses. The right side is lateral contraction: a bent section takes an
    /// anticlastic shape, and where bending grows along x this turns each point about x
    /// by ν (∂g_z y − ∂g_y z)/E per mm. The section as a whole does not twist, as the mean of that over its
    /// area is zero; a cell whose middle is not the centroid does. With ν = 0 the cross-section keeps its
    /// shape, as in most books. Derived from Saint-Venant's displacements of bending; finite elements of the
    /// solid agree. One Poisson's ratio, the reference's, stands for all walls.
    pub(super) fn transverse(&self, line: &Central, force: Point) -> Result<Vec<WallShear>, Failure> {
        let change = line.gradient(force[1], -force[0]);
        let mut walls: Vec<WallShear> = self
            .lines
            .iter()
            .enumerate()
            .map(|(wall, cl)| {
                let at_start: f64 = (0..2).map(|k| change[k] * (cl.start[k] - line.centroid[k])).sum();
                let along: f64 = (0..2).map(|k| change[k] * cl.along[k]).sum();
                let across: f64 = (0..2).map(|k| change[k] * cl.left()[k]).sum();
                WallShear {
                    flow: [0.0, -self.axial[wall] * at_start, -self.axial[wall] * along / 2.0],
                    transverse: self.bending[wall] * across,
                }
            })
            .collect();
        self.balance(&mut walls);
        // G_ref 2 ν/E_ref = ν/(1 + ν)
        let contraction = self.poissons_ratio / (1.0 + self.poissons_ratio);
        let open = |cycle: &Cycle| {
            let [y, z] = self.enclosed(cycle, line.centroid);
            contraction * (change[1] * y - change[0] * z) - self.slip(cycle, &walls)
        };
        let mut slip: Vec<f64> = self.cycles.iter().map(open).collect();
        self.circulate(&mut slip, Corners::Followed)?;
        for (wall, around) in self.around(&slip).into_iter().enumerate() {
            walls[wall].flow[0] += around;
        }
        Ok(walls)
    }

    /// Chooses the flow at the start of each wall of the tree so that every node is in equilibrium;
    /// outside the tree it starts from zero.
    fn balance(&self, walls: &mut [WallShear]) {
        for &node in self.graph.order().iter().rev() {
            let Some(parent) = self.graph.parent(node) else { continue };
            let mut leaving = 0.0;
            for end in self.graph.ends(node).iter().filter(|end| end.wall != parent.wall) {
                let s = if end.sign > 0.0 { 0.0 } else { self.lines[end.wall].length };
                leaving += end.sign * walls[end.wall].at(s);
            }
            let wall = &mut walls[parent.wall];
            if parent.sign > 0.0 {
                wall.flow[0] = -leaving;
            } else {
                wall.flow[0] = leaving - wall.at(self.lines[parent.wall].length);
            }
        }
    }

    /// ∮ q G_ref/(G t) ds around a cycle.
    fn slip(&self, cycle: &Cycle, walls: &[WallShear]) -> f64 {
        cycle
            .iter()
            .map(|&(wall, sign)| sign * self.give[wall] * walls[wall].integral(self.lines[wall].length))
            .sum()
    }

    /// First moments ∫ y dA, ∫ z dA about a pole of the area that a cycle encloses.
    fn enclosed(&self, cycle: &Cycle, pole: Point) -> Point {
        cycle.iter().fold([0.0, 0.0], |sum, &(wall, sign)| {
            let line = &self.lines[wall];
            // The triangle of the wall and the pole: its centroid lies at two thirds of the wall's middle.
            let area = sign * line.lever(pole) * line.length / 2.0;
            let middle = line.point(line.length / 2.0, 0.0);
            [0, 1].map(|k| sum[k] + area * 2.0 / 3.0 * (middle[k] - pole[k]))
        })
    }

    /// The flow around each cycle at unit G_ref θ' (1/mm: N/mm per MPa/mm), and the area it encloses:
    /// ∮ q/(G t) ds = 2 A θ' for every cell (Bredt, Batho).
    pub(super) fn torsion(&self, corners: Corners) -> Result<CellTorsion, Failure> {
        let pole = self.lines.first().map_or([0.0, 0.0], |line| line.start);
        let areas: Vec<f64> = self
            .cycles
            .iter()
            .map(|cycle| {
                let twice = |&(wall, sign): &(usize, f64)| {
                    sign * self.lines[wall].lever(pole) * self.lines[wall].length
                };
                cycle.iter().map(twice).sum::<f64>() / 2.0
            })
            .collect();
        let mut flows: Vec<f64> = areas.iter().map(|area| 2.0 * area).collect();
        self.circulate(&mut flows, corners)?;
        let constant = areas.iter().zip(&flows).map(|(area, flow)| 2.0 * area * flow).sum();
        Ok(CellTorsion { constant, flows: self.around(&flows) })
    }

    /// Solves for the flow around each cycle from the slip that it has to close, in place.
    fn circulate(&self, slips: &mut [f64], corners: Corners) -> Result<(), Failure> {
        let cells = self.cycles.len();
        let mut shares = vec![Vec::new(); self.lines.len()];
        for (cycle, walls) in self.cycles.iter().enumerate() {
            for &(wall, sign) in walls {
                shares[wall].push((cycle, sign));
            }
        }
        let mut matrix = vec![vec![0.0; cells]; cells];
        for (wall, members) in shares.iter().enumerate() {
            let saved = match corners {
                Corners::Cut => self.cuts[wall][0] + self.cuts[wall][1],
                Corners::Followed => 0.0,
            };
            let give = self.give[wall] * (self.lines[wall].length - saved);
            for &(i, sign_i) in members {
                for &(j, sign_j) in members {
                    matrix[i][j] += sign_i * sign_j * give;
                }
            }
        }
        solve(&mut matrix, slips)
    }

    /// The flow in each wall from the flows around the cycles.
    fn around(&self, cycles: &[f64]) -> Vec<f64> {
        let mut walls = vec![0.0; self.lines.len()];
        for (cycle, flow) in self.cycles.iter().zip(cycles) {
            for &(wall, sign) in cycle {
                walls[wall] += sign * flow;
            }
        }
        walls
    }

    /// Torque of a transverse force's flow about a pole, N·mm.
    pub(super) fn torque(&self, walls: &[WallShear], pole: Point) -> f64 {
        walls
            .iter()
            .zip(&self.lines)
            .map(|(wall, line)| {
                let middle = line.point(line.length / 2.0, 0.0);
                // (r × left)_x = r · along
                let arm = (middle[0] - pole[0]) * line.along[0] + (middle[1] - pole[1]) * line.along[1];
                line.lever(pole) * wall.integral(line.length) + wall.transverse * line.length * arm
            })
            .sum()
    }

    /// ∫ q²/(G t) ds + 6/5 ∫ v²/(G t) ds with corners cut, times G_ref: twice the energy of the flow per mm of member.
    pub(super) fn energy(&self, walls: &[WallShear]) -> f64 {
        walls
            .iter()
            .enumerate()
            .map(|(wall, flow)| {
                let (length, [start, end]) = (self.lines[wall].length, self.cuts[wall]);
                let saved = start * flow.at(0.0).powi(2) + end * flow.at(length).powi(2);
                let across = 1.2 * flow.transverse * flow.transverse * length;
                self.give[wall] * (flow.square(length) - saved + across)
            })
            .sum()
    }
}

/// Which way the flow takes at a right-angled corner of two walls of one thickness and material.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Corners {
    /// Along the centrelines.
    Followed,
    /// Shorter by 2 ln 2/π of the thickness: see [`cuts`].
    Cut,
}

/// What the flow saves of its way at either end of each wall.
///
/// The flow through a right-angled bend of a strip of thickness t is harmonic but for its slow change
/// along the strip: by conformal mapping it gives as much as a straight strip that is shorter than the
/// centreline by 2 ln 2/π t = 0.441 t (the bend of a conducting strip counts 0.559 squares; from memory).
/// Each of the two walls takes half.
fn cuts(walls: &[Wall], lines: &[Centreline], graph: &Graph) -> Vec<[f64; 2]> {
    let mut cuts = vec![[0.0; 2]; walls.len()];
    for &node in graph.order() {
        let &[a, b] = graph.ends(node) else { continue };
        let (wall, other) = (&walls[a.wall], &walls[b.wall]);
        let [p, q] = [a, b].map(|end| lines[end.wall].along);
        let t = wall.thickness_mm;
        let alike = (t - other.thickness_mm).abs() <= 1e-9 * t && wall.material == other.material;
        let solid = !wall.is_link() && !other.is_link();
        if alike && solid && (p[0] * q[0] + p[1] * q[1]).abs() < 1e-6 {
            for end in [a, b] {
                // Walls no longer than they are thick are no bend of a strip.
                let cut =
                    (std::f64::consts::LN_2 / std::f64::consts::PI * t).min(lines[end.wall].length / 4.0);
                cuts[end.wall][usize::from(end.sign < 0.0)] = cut;
            }
        }
    }
    cuts
}

/// Torsion carried by the cells alone.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct CellTorsion {
    /// Share of the cells in the torsion constant, mm⁴.
    pub(super) constant: f64,
    /// Flow in each wall at unit G_ref θ'.
    pub(super) flows: Vec<f64>,
}

/// Solves a symmetric, positive definite system by Cholesky's factorisation, in place.
fn solve(matrix: &mut [Vec<f64>], b: &mut [f64]) -> Result<(), Failure> {
    let n = b.len();
    for j in 0..n {
        let pivot = matrix[j][j] - (0..j).map(|k| matrix[j][k] * matrix[j][k]).sum::<f64>();
        // A cell of rigid links, or numbers too far apart.
        if !(pivot > 0.0 && pivot.is_finite()) {
            return Err(Failure::NoNumber { what: "shear flow around a cell", found: pivot });
        }
        let root = pivot.sqrt();
        matrix[j][j] = root;
        for i in j + 1..n {
            let dot: f64 = (0..j).map(|k| matrix[i][k] * matrix[j][k]).sum();
            matrix[i][j] = (matrix[i][j] - dot) / root;
        }
    }
    for i in 0..n {
        let dot: f64 = (0..i).map(|k| matrix[i][k] * b[k]).sum();
        b[i] = (b[i] - dot) / matrix[i][i];
    }
    for i in (0..n).rev() {
        let dot: f64 = (i + 1..n).map(|k| matrix[k][i] * b[k]).sum();
        b[i] = (b[i] - dot) / matrix[i][i];
    }
    Ok(())
}
