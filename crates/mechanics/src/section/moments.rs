//! Area and moments of plane figures.

use super::model::tidy;
use super::wall::{Centreline, Point};

/// Area, first and second moments about the origin, each weighted with a factor such as E/E_ref.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Sums {
    area: f64,
    /// ∫ y dA, ∫ z dA.
    first: Point,
    /// ∫ y² dA, ∫ z² dA, ∫ y z dA.
    second: [f64; 3],
}

impl Sums {
    /// Adds a polygon, counterclockwise from y to z; clockwise takes it away.
    ///
    /// ```text
    /// c = y₁z₂ − y₂z₁ per edge:   A = Σ c/2    ∫y = Σ c (y₁+y₂)/6    ∫y² = Σ c (y₁²+y₁y₂+y₂²)/12
    ///                             ∫yz = Σ c (2y₁z₁ + y₁z₂ + y₂z₁ + 2y₂z₂)/24
    /// ```
    pub(super) fn add_polygon(&mut self, corners: &[Point], factor: f64) {
        for (&[y1, z1], &[y2, z2]) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            let c = factor * (y1 * z2 - y2 * z1);
            self.area += c / 2.0;
            self.first[0] += c * (y1 + y2) / 6.0;
            self.first[1] += c * (z1 + z2) / 6.0;
            self.second[0] += c * (y1 * y1 + y1 * y2 + y2 * y2) / 12.0;
            self.second[1] += c * (z1 * z1 + z1 * z2 + z2 * z2) / 12.0;
            self.second[2] += c * (2.0 * y1 * z1 + y1 * z2 + y2 * z1 + 2.0 * y2 * z2) / 24.0;
        }
    }

    /// Adds the rectangle of a wall, square at both ends.
    pub(super) fn add_strip(&mut self, line: &Centreline, thickness: f64, factor: f64) {
        let area = factor * line.length * thickness;
        let middle = line.point(line.length / 2.0, 0.0);
        let (lengthwise, across) =
            (area * line.length * line.length / 12.0, area * thickness * thickness / 12.0);
        let (along, left) = (line.along, line.left());
        self.area += area;
        for (k, (i, j)) in [(0, 0), (1, 1), (0, 1)].into_iter().enumerate() {
            self.second[k] +=
                area * middle[i] * middle[j] + lengthwise * along[i] * along[j] + across * left[i] * left[j];
        }
        for k in [0, 1] {
            self.first[k] += area * middle[k];
        }
    }

    /// Area, and first moment of one coordinate.
    pub(super) fn area_and_first(&self, k: usize) -> (f64, f64) {
        (self.area, self.first[k])
    }

    /// The same about the centroid.
    pub(super) fn central(&self) -> Central {
        let [y, z] = self.first.map(|first| first / self.area);
        Central {
            area: self.area,
            centroid: [y, z],
            i_y: self.second[1] - z * self.first[1],
            i_z: self.second[0] - y * self.first[0],
            i_yz: self.second[2] - y * self.first[1],
        }
    }
}

/// Area, centroid, and second moments about the axes through it: i_y = ∫ z² dA, i_z = ∫ y² dA,
/// i_yz = ∫ y z dA.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Central {
    pub(super) area: f64,
    pub(super) centroid: Point,
    pub(super) i_y: f64,
    pub(super) i_z: f64,
    pub(super) i_yz: f64,
}

impl Central {
    /// How the axial stress grows along y and z, N/mm³ at the reference modulus.
    ///
    /// ```text
    /// σ = N/A + g_y y + g_z z,   g_z =  (M_y I_z + M_z I_yz)/D,   D = I_y I_z − I_yz²
    ///                            g_y = −(M_z I_y + M_y I_yz)/D
    /// ```
    ///
    /// from M_y = ∫ z σ dA and M_z = −∫ y σ dA.
    pub(super) fn gradient(&self, moment_y: f64, moment_z: f64) -> Point {
        let d = self.i_y * self.i_z - self.i_yz * self.i_yz;
        [-(moment_z * self.i_y + moment_y * self.i_yz) / d, (moment_y * self.i_z + moment_z * self.i_yz) / d]
    }

    /// Second moment about the line through the centroid along `axis`, a unit vector.
    pub(super) fn about(&self, axis: Point) -> f64 {
        let [c, s] = axis;
        self.i_y * c * c + self.i_z * s * s - 2.0 * self.i_yz * c * s
    }

    /// Angle from the y axis to the axis of the greatest second moment, towards z, in −π/2 to π/2;
    /// zero where all axes are equal.
    pub(super) fn principal_angle(&self) -> f64 {
        let sum = self.i_y + self.i_z;
        let (difference, product) = (self.i_y - self.i_z, tidy(-2.0 * self.i_yz, sum));
        // Rounding alone must not turn the axes of a tube or a square box.
        if libm::hypot(difference, product) <= 1e-9 * sum {
            return 0.0;
        }
        0.5 * libm::atan2(product, difference)
    }
}
