//! A second solution of the bent joint that shares nothing with the elements: three beam-columns,
//! the middle one of both adherends without slip, by the exact solution of each.

use super::super::*;

/// One stretch of the joint.
struct Segment {
    length: f64,
    axial: f64,
    bending: f64,
    /// Height of its axis over that of the first.
    height: f64,
}

/// The solution of the differential equation
///
/// ```text
/// D w'' = M_A − Q s + P (z + w)        w = A f(μ s) + B g(μ s) − (M_A − Q s + P z)/P
/// ```
///
/// with f, g = cosh, sinh and μ² = P/D in tension, cos, sin and μ² = −P/D in compression, s from
/// the left grip, and w, w' continuous. Unknown are A, B of each stretch, M_A and Q.
pub(super) struct BeamColumn {
    segments: [Segment; 3],
    load: f64,
    x: [f64; 8],
}

impl BeamColumn {
    pub(super) fn solve(strip: &Strip, ends: Ends) -> Self {
        let (matrix, rhs, segments) = equations(strip, ends);
        Self { segments, load: strip.axial_n_mm, x: gauss(matrix, rhs) }
    }

    /// Moment at the left end of the overlap, N·mm/mm: D w'' = P (A f + B g).
    pub(super) fn edge_moment(&self) -> f64 {
        let arm = &self.segments[0];
        let (f, g) = waves(self.load, arm.bending, arm.length);
        self.load * (self.x[0] * f[0] + self.x[1] * g[0])
    }

    /// w' of stretch i at its own station.
    fn slope(&self, i: usize, station: f64) -> f64 {
        let (f, g) = waves(self.load, self.segments[i].bending, station);
        self.x[2 * i] * f[1] + self.x[2 * i + 1] * g[1] + self.x[7] / self.load
    }

    /// Axial displacement of the right grip: stretching, less the shortening w'²/2 of the bent axes,
    /// and what the turns at the steps between the axes add.
    pub(super) fn end_displacement(&self) -> f64 {
        let mut apart = 0.0;
        for (i, segment) in self.segments.iter().enumerate() {
            apart += self.load * segment.length / segment.axial;
            // Simpson's rule on 2000 intervals: far below the tolerance of the comparison.
            let n = 2000_u32;
            for j in 0..=n {
                let ends = if j == 0 || j == n { 1.0 } else { f64::from(2 + 2 * (j % 2)) };
                let step = segment.length / f64::from(n);
                let slope = self.slope(i, step * f64::from(j));
                apart -= 0.5 * slope * slope * ends * step / 3.0;
            }
        }
        let [a, o, b] = &self.segments;
        apart - self.slope(1, 0.0) * (o.height - a.height) - self.slope(2, 0.0) * (b.height - o.height)
    }
}

/// The least compressive line load at which the equations have no single solution, N/mm.
pub(super) fn buckling_load(strip: &Strip, ends: Ends) -> f64 {
    let at = |load: f64| determinant(equations(&Strip { axial_n_mm: -load, ..strip.clone() }, ends).0);
    // The thinner arm held at both ends over its own length buckles later than this; go up in small
    // steps from a small share of the softest Euler load over the whole length.
    let all = segments(strip);
    let length: f64 = all.iter().map(|s| s.length).sum();
    let softest = all.iter().map(|s| s.bending).fold(f64::INFINITY, f64::min);
    let euler = std::f64::consts::PI.powi(2) * softest / (length * length);
    let (mut below, mut above) = (0.05 * euler, 0.1 * euler);
    while at(below).signum() == at(above).signum() {
        (below, above) = (above, above + 0.05 * euler);
    }
    for _ in 0..60 {
        let middle = 0.5 * (below + above);
        if at(middle).signum() == at(below).signum() {
            below = middle;
        } else {
            above = middle;
        }
    }
    0.5 * (below + above)
}

fn determinant(mut matrix: Matrix) -> f64 {
    let mut product = 1.0;
    for k in 0..8 {
        let pivot = (k..8).max_by(|&a, &b| matrix[a][k].abs().total_cmp(&matrix[b][k].abs()));
        let pivot = pivot.unwrap();
        if pivot != k {
            matrix.swap(k, pivot);
            product = -product;
        }
        product *= matrix[k][k];
        let row = matrix[k];
        for below in matrix.iter_mut().skip(k + 1) {
            let factor = below[k] / row[k];
            for (entry, value) in below.iter_mut().zip(row) {
                *entry -= factor * value;
            }
        }
    }
    product
}

type Matrix = [[f64; 8]; 8];

fn segments(strip: &Strip) -> [Segment; 3] {
    let stiffness = |adherend: &crate::Adherend| {
        let modulus = match strip.plane {
            Plane::Stress => adherend.youngs_modulus_mpa,
            Plane::Strain => adherend.youngs_modulus_mpa / (1.0 - adherend.poissons_ratio.powi(2)),
        };
        let t = adherend.thickness_mm;
        (modulus * t, modulus * t.powi(3) / 12.0)
    };
    let (ea1, ei1) = stiffness(&strip.upper);
    let (ea2, ei2) = stiffness(&strip.lower);
    let h = strip.bondline.thickness_mm(0.0);
    let apart = 0.5 * (strip.upper.thickness_mm + strip.lower.thickness_mm) + h;
    let [left, right] = strip.arms_mm();
    [
        Segment { length: left, axial: ea1, bending: ei1, height: 0.0 },
        Segment {
            length: strip.overlap_mm,
            axial: ea1 + ea2,
            bending: ei1 + ei2 + apart * apart * ea1 * ea2 / (ea1 + ea2),
            height: -apart * ea2 / (ea1 + ea2),
        },
        Segment { length: right, axial: ea2, bending: ei2, height: -apart },
    ]
}

/// (f, f'), (g, g') at s.
fn waves(load: f64, bending: f64, s: f64) -> ([f64; 2], [f64; 2]) {
    let mu = libm::sqrt(load.abs() / bending);
    let a = mu * s;
    if load > 0.0 {
        let (cosh, sinh) = (libm::cosh(a), libm::sinh(a));
        ([cosh, mu * sinh], [sinh, mu * cosh])
    } else {
        let (cos, sin) = (libm::cos(a), libm::sin(a));
        ([cos, -mu * sin], [sin, mu * cos])
    }
}

fn equations(strip: &Strip, ends: Ends) -> (Matrix, [f64; 8], [Segment; 3]) {
    let load = strip.axial_n_mm;
    let segments = segments(strip);
    let mut matrix = [[0.0; 8]; 8];
    let mut rhs = [0.0; 8];
    // w (order 0) or w' (order 1) of stretch i at its own station, which is `from_grip` from the
    // left grip, added to an equation with a sign.
    let mut put = |row: usize, i: usize, station: f64, from_grip: f64, order: usize, sign: f64| {
        let (f, g) = waves(load, segments[i].bending, station);
        matrix[row][2 * i] += sign * f[order];
        matrix[row][2 * i + 1] += sign * g[order];
        if order == 0 {
            matrix[row][6] -= sign / load;
            matrix[row][7] += sign * from_grip / load;
            rhs[row] += sign * segments[i].height;
        } else {
            matrix[row][7] += sign / load;
        }
    };
    let [a, b, c] = [0, 1, 2].map(|i: usize| segments[i].length);
    put(0, 0, 0.0, 0.0, 0, 1.0);
    put(1, 2, c, a + b + c, 0, 1.0);
    for order in 0..2 {
        put(2 + order, 0, a, a, order, 1.0);
        put(2 + order, 1, 0.0, a, order, -1.0);
        put(4 + order, 1, b, a + b, order, 1.0);
        put(4 + order, 2, 0.0, a + b, order, -1.0);
    }
    if ends == Ends::Clamped {
        put(6, 0, 0.0, 0.0, 1, 1.0);
        put(7, 2, c, a + b + c, 1, 1.0);
    } else {
        // M = P (A f + B g) vanishes.
        matrix[6][0] = 1.0;
        let (f, g) = waves(load, segments[2].bending, c);
        matrix[7][4] = f[0];
        matrix[7][5] = g[0];
    }
    (matrix, rhs, segments)
}

fn gauss(mut matrix: Matrix, mut rhs: [f64; 8]) -> [f64; 8] {
    for k in 0..8 {
        let pivot = (k..8).max_by(|&a, &b| matrix[a][k].abs().total_cmp(&matrix[b][k].abs()));
        let pivot = pivot.unwrap();
        matrix.swap(k, pivot);
        rhs.swap(k, pivot);
        let row = matrix[k];
        for below in k + 1..8 {
            let factor = matrix[below][k] / row[k];
            for (entry, value) in matrix[below].iter_mut().zip(row) {
                *entry -= factor * value;
            }
            rhs[below] -= factor * rhs[k];
        }
    }
    let mut x = [0.0; 8];
    for k in (0..8).rev() {
        let known: f64 = (k + 1..8).map(|j| matrix[k][j] * x[j]).sum();
        x[k] = (rhs[k] - known) / matrix[k][k];
    }
    x
}
