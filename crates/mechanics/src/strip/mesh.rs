//! Nodes along the strip, drawn together toward the ends of the overlap.

use crate::failure::{self, Failure};

/// How finely the strip is divided.
///
/// The nodes are images of equally spaced ones under a smooth map that does not depend on their
/// number, so that doubling the number halves every element and results can be extrapolated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mesh {
    /// Elements in the overlap.
    pub elements: u32,
    /// Elements in each arm that has a length.
    pub arm_elements: u32,
    /// Length of the mean element over that of the element at the end of the overlap; 1 is an even
    /// division.
    pub grading: f64,
}

impl Default for Mesh {
    /// 160 elements, six times finer at the ends of the overlap: a Hermite beam loses digits when
    /// refined much further.
    fn default() -> Self {
        Self { elements: 160, arm_elements: 16, grading: 6.0 }
    }
}

impl Mesh {
    /// The most elements allowed: beyond, a cubic beam's digits are lost and time is wasted.
    pub const MOST_ELEMENTS: u32 = 20_000;

    /// The strongest grading allowed.
    pub const MOST_GRADING: f64 = 1000.0;

    pub(super) fn check(&self) -> Result<(), Failure> {
        let most = f64::from(Self::MOST_ELEMENTS);
        failure::within("elements", f64::from(self.elements), 2.0, most)?;
        failure::within("arm elements", f64::from(self.arm_elements), 1.0, most)?;
        failure::within("grading", self.grading, 1.0, Self::MOST_GRADING)?;
        Ok(())
    }
}

/// Fills `x` with the n + 1 nodes of the overlap, from 0 to L, finer at both ends.
///
/// ```text
/// x(s) = (L/2) (1 + tanh(δ (2 s − 1)) / tanh δ)        sinh(2δ)/(2δ) = grading
/// ```
///
/// The right half mirrors the left to the last bit, so that a symmetric joint stays one.
pub(super) fn overlap_nodes(x: &mut Vec<f64>, length: f64, mesh: &Mesh) {
    let n = mesh.elements;
    let delta = 0.5 * sinhc_inverse(mesh.grading);
    let half = 0.5 * length;
    x.clear();
    for j in 0..=n {
        // From 0 at the middle to 1 at the end; the sign is put back below.
        let from_middle = f64::from(n.abs_diff(2 * j)) / f64::from(n);
        let stretched =
            if delta > 0.0 { libm::tanh(delta * from_middle) / libm::tanh(delta) } else { from_middle };
        x.push(if 2 * j < n { half - half * stretched } else { half + half * stretched });
    }
}

/// Moves the nearest node to a station, or sets one there where moving would squeeze an element.
pub(super) fn move_to(x: &mut Vec<f64>, station: f64) {
    let after = x.partition_point(|node| *node < station);
    let (Some(&right), Some(&left)) = (x.get(after), after.checked_sub(1).and_then(|j| x.get(j))) else {
        return;
    };
    let (near, j) = if station - left < right - station { (left, after - 1) } else { (right, after) };
    let off = (station - near).abs();
    if off <= 1e-9 * (right - left) {
        return;
    }
    // The ends stay; a node that was set for another station does not move twice, for it is hit within a hair.
    if j > 0 && j + 1 < x.len() && off < 0.25 * (right - left) {
        x[j] = station;
    } else {
        x.insert(after, station);
    }
}

/// Fills `x` with the n + 1 distances of an arm's nodes from the overlap, from 0 to the arm's
/// length, finer at the overlap; empty for an arm of no length.
///
/// ```text
/// x(s) = a sinh(δ s) / sinh δ        sinh(δ)/δ = grading
/// ```
pub(super) fn arm_nodes(x: &mut Vec<f64>, length: f64, mesh: &Mesh) {
    x.clear();
    if length <= 0.0 {
        return;
    }
    let n = mesh.arm_elements;
    let delta = sinhc_inverse(mesh.grading);
    for j in 0..=n {
        let s = f64::from(j) / f64::from(n);
        let stretched = if delta > 0.0 { libm::sinh(delta * s) / libm::sinh(delta) } else { s };
        x.push(length * stretched);
    }
}

/// The y ≥ 0 with sinh(y)/y = ratio, for ratios from 1 on; 0 for a ratio indistinguishable from 1.
fn sinhc_inverse(ratio: f64) -> f64 {
    // sinh(y)/y ≈ 1 + y²/6 near zero.
    let excess = ratio - 1.0;
    if excess < 1e-9 {
        return 0.0;
    }
    // sinh(y)/y is convex: from the right Newton's method falls monotonically onto the root.
    let mut y = f64::min(libm::sqrt(6.0 * excess), 2.0 + 2.0 * libm::log(ratio));
    for _ in 0..60 {
        let sinhc = libm::sinh(y) / y;
        let step = (sinhc - ratio) / ((libm::cosh(y) - sinhc) / y);
        y -= step;
        if step.abs() < 1e-14 * y {
            break;
        }
    }
    y
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_nodes_are_symmetric_and_graded() {
        let mut x = Vec::new();
        for (elements, grading) in [(40, 1.0), (41, 6.0), (200, 6.0), (64, 1000.0)] {
            let mesh = Mesh { elements, grading, ..Mesh::default() };
            overlap_nodes(&mut x, 12.5, &mesh);
            let n = x.len() - 1;
            assert_eq!(n, elements as usize);
            assert!(x[0].abs() < f64::EPSILON && (x[n] - 12.5).abs() < f64::EPSILON * 12.5);
            for j in 0..n {
                assert!(x[j + 1] > x[j]);
                assert!((x[j] + x[n - j] - 12.5).abs() <= 2.0 * f64::EPSILON * 12.5);
            }
        }
        // The slope of the map at its end is 1/grading; the first element is a little longer than
        // that slope times its share, because the map steepens within it.
        let mesh = Mesh { elements: 2000, ..Mesh::default() };
        overlap_nodes(&mut x, 1.0, &mesh);
        assert!((x[1] * 2000.0 * 6.0 - 1.0).abs() < 3e-3, "{}", x[1] * 12000.0);
        arm_nodes(&mut x, 1.0, &Mesh { arm_elements: 2000, ..mesh });
        assert!((x[1] * 2000.0 * 6.0 - 1.0).abs() < 3e-3, "{}", x[1] * 12000.0);
        arm_nodes(&mut x, 0.0, &mesh);
        assert!(x.is_empty());
    }

    #[test]
    fn unit_grading_is_inverted() {
        for ratio in [1.0 + 1e-6, 1.5, 6.0, 1000.0] {
            let y = sinhc_inverse(ratio);
            assert!((libm::sinh(y) / y / ratio - 1.0).abs() < 1e-12, "{ratio}");
        }
    }
}
