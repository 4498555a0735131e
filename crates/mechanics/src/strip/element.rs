//! Shape functions and stiffness of the elements.
//!
//! A beam element has the unknowns (u, w, θ) at its left node, the axial bubble b, and (u, w, θ) at
//! its right node; s runs from 0 to 1 over its length l.
//!
//! ```text
//! u(s) = (1 − s) u_L + s u_R + 4 s (1 − s) b          w(s) cubic in w_L, θ_L, w_R, θ_R
//! ```
//!
//! u and θ = w' are both quadratic, so that the slip between the beams has no spurious part.

use super::model::Section;

/// Unknowns of a beam element.
pub(super) const BEAM: usize = 7;

/// Unknowns of a bonded pair of beam elements:
/// (u₁, w₁, θ₁, u₂, w₂, θ₂) left, the bubbles (b₁, b₂), (u₁, w₁, θ₁, u₂, w₂, θ₂) right.
pub(super) const PAIR: usize = 14;

/// Which unknowns of a pair belong to the upper beam and which to the lower.
pub(super) const OF_BEAM: [[usize; BEAM]; 2] = [[0, 1, 2, 6, 8, 9, 10], [3, 4, 5, 7, 11, 12, 13]];

/// Unknowns of a beam that stands alone.
pub(super) const ALONE: [usize; BEAM] = [0, 1, 2, 3, 4, 5, 6];

/// Gauss's rule with three points on 0..1: exact for the quartic shear energy; enough for the peel
/// energy, whose sixth-degree part is of higher order than the element.
pub(super) const THREE_POINTS: [(f64, f64); 3] =
    [(0.112_701_665_379_258_31, 5.0 / 18.0), (0.5, 8.0 / 18.0), (0.887_298_334_620_741_7, 5.0 / 18.0)];

/// Gauss's rule with two points on 0..1. The axial strain is taken at these points only: there the
/// linear u' can match any w'²/2, so that a beam bends without stretching (no membrane locking).
pub(super) const TWO_POINTS: [(f64, f64); 2] =
    [(0.211_324_865_405_187_13, 0.5), (0.788_675_134_594_812_9, 0.5)];

/// Cubic shape functions of w for (w_L, θ_L, w_R, θ_R).
#[inline]
pub(super) fn deflection(s: f64, l: f64) -> [f64; 4] {
    let r = 1.0 - s;
    [r * r * (1.0 + 2.0 * s), l * s * r * r, s * s * (1.0 + 2.0 * r), -l * s * s * r]
}

/// Their slopes dw/dx.
#[inline]
pub(super) fn slope(s: f64, l: f64) -> [f64; 4] {
    let r = 1.0 - s;
    let bow = 6.0 * s * r / l;
    [-bow, r * (1.0 - 3.0 * s), bow, s * (3.0 * s - 2.0)]
}

/// w' at s of a beam with the unknowns d.
#[inline]
pub(super) fn slope_of(d: &[f64; BEAM], s: f64, l: f64) -> f64 {
    let h = slope(s, l);
    h[0] * d[1] + h[1] * d[2] + h[2] * d[5] + h[3] * d[6]
}

/// u' at s of a beam with the unknowns d.
#[inline]
pub(super) fn stretch_of(d: &[f64; BEAM], s: f64, l: f64) -> f64 {
    (d[4] - d[0] + 4.0 * (1.0 - 2.0 * s) * d[3]) / l
}

/// N = E' t (u' + w'²/2 − ε_T) at s.
#[inline]
pub(super) fn axial_force(section: &Section, l: f64, d: &[f64; BEAM], s: f64) -> f64 {
    let turn = slope_of(d, s, l);
    section.axial * (stretch_of(d, s, l) + 0.5 * turn * turn - section.thermal_strain)
}

/// Lower triangle of a beam's stiffness in first order, by rows.
#[inline]
pub(super) fn stiffness(section: &Section, l: f64) -> [[f64; BEAM]; BEAM] {
    let mut k = bending_stiffness(section, l);
    let ea = section.axial / l;
    k[0][0] = ea;
    k[4][0] = -ea;
    k[4][4] = ea;
    k[3][3] = 16.0 / 3.0 * ea;
    k
}

/// Lower triangle of a beam's tangent stiffness with moderate rotations, by rows, at the unknowns d.
///
/// ```text
/// K = K_bending + ∫ (E' t B Bᵀ + N̂ H' H'ᵀ) dx        B = u' + w' H'
/// ```
///
/// N̂ are the axial forces at the two points as the last linear solution foresaw them. With them in
/// place of N, whose w'²/2 is far out after the first step, Newton's method needs a few steps only
/// where it would wander.
#[inline]
pub(super) fn tangent(section: &Section, l: f64, d: &[f64; BEAM], foreseen: [f64; 2]) -> [[f64; BEAM]; BEAM] {
    let mut k = bending_stiffness(section, l);
    for ((s, weight), foreseen) in TWO_POINTS.into_iter().zip(foreseen) {
        let h = slope(s, l);
        let b = strain_row(h, slope_of(d, s, l), s, l);
        let g = [0.0, h[0], h[1], 0.0, 0.0, h[2], h[3]];
        let (stiff, pulled) = (weight * l * section.axial, weight * l * foreseen);
        for i in 0..BEAM {
            for j in 0..=i {
                k[i][j] += stiff * b[i] * b[j] + pulled * g[i] * g[j];
            }
        }
    }
    k
}

/// Internal forces of a beam in first order, temperature included.
#[inline]
pub(super) fn forces(section: &Section, l: f64, d: &[f64; BEAM]) -> [f64; BEAM] {
    let mut forces = bending_forces(section, l, d);
    let ea = section.axial / l;
    let pull = ea * (d[4] - d[0]) - section.axial * section.thermal_strain;
    forces[0] = -pull;
    forces[3] = 16.0 / 3.0 * ea * d[3];
    forces[4] = pull;
    forces
}

/// Internal forces of a beam with moderate rotations, temperature included.
#[inline]
pub(super) fn deflected_forces(section: &Section, l: f64, d: &[f64; BEAM]) -> [f64; BEAM] {
    let mut forces = bending_forces(section, l, d);
    for (s, weight) in TWO_POINTS {
        let b = strain_row(slope(s, l), slope_of(d, s, l), s, l);
        let pull = weight * l * axial_force(section, l, d, s);
        for (force, b) in forces.iter_mut().zip(b) {
            *force += pull * b;
        }
    }
    forces
}

/// Row B of the axial strain's change, u' + w' H', at the slope w'.
#[inline]
fn strain_row(h: [f64; 4], turn: f64, s: f64, l: f64) -> [f64; BEAM] {
    let bubble = 4.0 * (1.0 - 2.0 * s) / l;
    [-1.0 / l, turn * h[0], turn * h[1], bubble, 1.0 / l, turn * h[2], turn * h[3]]
}

#[inline]
fn bending_stiffness(section: &Section, l: f64) -> [[f64; BEAM]; BEAM] {
    let ei = section.bending / l;
    let (k2, k3) = (6.0 * ei / l, 12.0 * ei / (l * l));
    let mut k = [[0.0; BEAM]; BEAM];
    k[1][1] = k3;
    k[2][1] = k2;
    k[2][2] = 4.0 * ei;
    k[5][1] = -k3;
    k[5][2] = -k2;
    k[5][5] = k3;
    k[6][1] = k2;
    k[6][2] = 2.0 * ei;
    k[6][5] = -k2;
    k[6][6] = 4.0 * ei;
    k
}

/// By the turns against the chord and not by the products of stiffness and deflection, whose
/// differences lose the digits of a short beam.
#[inline]
pub(super) fn bending_forces(section: &Section, l: f64, d: &[f64; BEAM]) -> [f64; BEAM] {
    let ei = section.bending / l;
    let chord = (d[5] - d[1]) / l;
    let (left, right) = (d[2] - chord, d[6] - chord);
    let (ml, mr) = (ei * (4.0 * left + 2.0 * right), ei * (2.0 * left + 4.0 * right));
    let shear = (ml + mr) / l;
    [0.0, shear, ml, 0.0, 0.0, -shear, mr]
}
