//! Strain, curvature and turn of a beam element at one place, and what they add to its equations.

use super::super::element::{self, BEAM};
use super::beam::Forces;

/// How strain and curvature of a beam at one place follow from its unknowns.
pub(super) struct Rows {
    strain_row: [f64; BEAM],
    curvature_row: [f64; BEAM],
    turn_row: [f64; BEAM],
    pub(super) strain: f64,
    pub(super) curvature: f64,
    bends: bool,
}

impl Rows {
    #[inline]
    pub(super) fn at(s: f64, l: f64, d: &[f64; BEAM], bends: bool, second_order: bool) -> Self {
        let bubble = 4.0 * (1.0 - 2.0 * s) / l;
        let mut rows = Self {
            strain_row: [-1.0 / l, 0.0, 0.0, bubble, 1.0 / l, 0.0, 0.0],
            curvature_row: [0.0; BEAM],
            turn_row: [0.0; BEAM],
            strain: (d[4] - d[0]) / l + bubble * d[3],
            curvature: 0.0,
            bends,
        };
        if bends {
            let h = element::slope(s, l);
            rows.turn_row = [0.0, h[0], h[1], 0.0, 0.0, h[2], h[3]];
            let (a, b) = ((12.0 * s - 6.0) / (l * l), 6.0 * s / l);
            rows.curvature_row = [0.0, a, b - 4.0 / l, 0.0, 0.0, -a, b - 2.0 / l];
            // By the turns against the chord: differences of deflections lose digits in short beams.
            let chord = (d[5] - d[1]) / l;
            rows.curvature = (b - 4.0 / l) * (d[2] - chord) + (b - 2.0 / l) * (d[6] - chord);
            if second_order {
                let turn = rows.turn_row.iter().zip(d).map(|(h, d)| h * d).sum::<f64>();
                rows.strain += 0.5 * turn * turn;
                for (to, h) in rows.strain_row.iter_mut().zip(rows.turn_row) {
                    *to += turn * h;
                }
            }
        }
        rows
    }

    #[inline]
    pub(super) fn add<const M: usize>(
        &self,
        map: &[usize; BEAM],
        area: f64,
        answer: &Forces,
        second_order: bool,
        stiffness: &mut [[f64; M]; M],
        forces: &mut [f64; M],
    ) {
        let [stretch, both, bend] = answer.stiffness.map(|stiff| stiff * area);
        let pulled = if second_order { area * answer.axial } else { 0.0 };
        let used: &[usize] = if self.bends { &[0, 1, 2, 3, 4, 5, 6] } else { &[0, 3, 4] };
        for &i in used {
            let (b, c, g) = (self.strain_row[i], self.curvature_row[i], self.turn_row[i]);
            forces[map[i]] += area * (answer.axial * b + answer.moment * c);
            let (on_strain, on_curvature, on_turn) =
                (stretch * b + both * c, both * b + bend * c, pulled * g);
            let row = &mut stiffness[map[i]];
            for &j in used {
                row[map[j]] += on_strain * self.strain_row[j]
                    + on_curvature * self.curvature_row[j]
                    + on_turn * self.turn_row[j];
            }
        }
    }
}
