//! Rigid motions of one part against another, and the load that works on them.

/// A point and a length to which motions are referred: rotations count as the displacement they
/// cause at that length, so that all components of a motion are of one size.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    pub(super) centre_mm: [f64; 3],
    pub(super) length_mm: f64,
}

/// A force and a moment about a point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wrench {
    pub(super) at_mm: [f64; 3],
    pub(super) force_n: [f64; 3],
    pub(super) moment_nmm: [f64; 3],
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

impl Frame {
    /// At the centroid of some points, with their radius of gyration as the length.
    pub(super) fn around(points_mm: impl Iterator<Item = [f64; 3]> + Clone) -> Self {
        let mut count = 0.0_f64;
        let mut sum = [0.0; 3];
        for point in points_mm.clone() {
            count += 1.0;
            for (total, coordinate) in sum.iter_mut().zip(point) {
                *total += coordinate;
            }
        }
        let centre_mm = sum.map(|total| total / count.max(1.0));
        let mut square = 0.0;
        for point in points_mm {
            square += point.iter().zip(&centre_mm).map(|(p, c)| (p - c) * (p - c)).sum::<f64>();
        }
        let radius = (square / count.max(1.0)).sqrt();
        // Points that all coincide have no radius and resist no rotation, whatever the length.
        Self { centre_mm, length_mm: if radius > 0.0 { radius } else { 1.0 } }
    }

    fn arm(&self, point_mm: [f64; 3]) -> [f64; 3] {
        std::array::from_fn(|k| point_mm[k] - self.centre_mm[k])
    }

    /// Displacement of a point in a direction, for a unit of each motion: three translations, then
    /// three rotations.
    pub(super) fn row(&self, point_mm: [f64; 3], direction: [f64; 3]) -> [f64; 6] {
        let [x, y, z] = direction;
        let turn = cross(self.arm(point_mm), direction).map(|arm| arm / self.length_mm);
        [x, y, z, turn[0], turn[1], turn[2]]
    }

    /// The load as it works on the same motions.
    pub(super) fn load(&self, wrench: &Wrench) -> [f64; 6] {
        let [x, y, z] = wrench.force_n;
        let carried = cross(self.arm(wrench.at_mm), wrench.force_n);
        let [mx, my, mz]: [f64; 3] =
            std::array::from_fn(|k| (wrench.moment_nmm[k] + carried[k]) / self.length_mm);
        [x, y, z, mx, my, mz]
    }
}
