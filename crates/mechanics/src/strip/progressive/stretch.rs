//! What a beam element adds to the equations: by strain and curvature at its two places where it may yield, in
//! closed form where it is elastic.

use super::super::element::{self, BEAM, TWO_POINTS};
use super::super::model::Section;
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

/// An elastic beam element.
///
/// At both of Gauss's places s r = 1/6, so that the shape functions' slopes there are (−1/l, ±γ, 1/l, ∓γ) and the
/// bubble's ±c: sums over the places are sums and differences of two turns.
pub(super) struct Elastic<'a> {
    section: &'a Section,
    l: f64,
    second_order: bool,
}

/// Slope of w at the first place for a turn of the left end.
const GAMMA: f64 = {
    let s = TWO_POINTS[0].0;
    (1.0 - s) * (1.0 - 3.0 * s)
};

/// l u' at the first place for the bubble.
const BUBBLE: f64 = 4.0 * (1.0 - 2.0 * TWO_POINTS[0].0);

impl<'a> Elastic<'a> {
    #[inline]
    pub(super) fn new(section: &'a Section, l: f64, second_order: bool) -> Self {
        Self { section, l, second_order }
    }

    /// Adds stiffness and forces at the motions d, whose places among the unknowns are `map`.
    #[inline]
    pub(super) fn add<const M: usize>(
        &self,
        map: &[usize; BEAM],
        d: &[f64; BEAM],
        bends: bool,
        stiffness: &mut [[f64; M]; M],
        forces: &mut [f64; M],
    ) {
        let &Self { section, l, .. } = self;
        let ea = section.axial / l;
        let [u_left, _, _, bubble, u_right, ..] = *map;
        stiffness[u_left][u_left] += ea;
        stiffness[u_left][u_right] -= ea;
        stiffness[u_right][u_left] -= ea;
        stiffness[u_right][u_right] += ea;
        stiffness[bubble][bubble] += BUBBLE * BUBBLE * ea;
        // Of both places: l/2 times N.
        let (mean, bow) = (d[4] - d[0] - section.thermal_strain * l, BUBBLE * d[3]);
        let mut pulls = [0.5 * section.axial * (mean + bow), 0.5 * section.axial * (mean - bow)];
        if bends {
            for (place, force) in map.iter().zip(element::bending_forces(section, l, d)) {
                forces[*place] += force;
            }
            self.add_bending(map, stiffness);
            if self.second_order {
                let chord = (d[5] - d[1]) / l;
                let turns = [chord + GAMMA * (d[2] - d[6]), chord - GAMMA * (d[2] - d[6])];
                let half = 0.5 * l * section.axial;
                for (pull, turn) in pulls.iter_mut().zip(turns) {
                    *pull += 0.5 * half * turn * turn;
                }
                self.add_turned(map, turns, pulls, stiffness, forces);
            }
        }
        let pull = (pulls[0] + pulls[1]) / l;
        forces[u_left] -= pull;
        forces[u_right] += pull;
        forces[bubble] += BUBBLE * (pulls[0] - pulls[1]) / l;
    }

    #[inline]
    fn add_bending<const M: usize>(&self, map: &[usize; BEAM], stiffness: &mut [[f64; M]; M]) {
        let ei = self.section.bending / self.l;
        let (k2, k3) = (6.0 * ei / self.l, 12.0 * ei / (self.l * self.l));
        let own = [
            [k3, k2, -k3, k2],
            [k2, 4.0 * ei, -k2, 2.0 * ei],
            [-k3, -k2, k3, -k2],
            [k2, 2.0 * ei, -k2, 4.0 * ei],
        ];
        add_deflections(map, &own, stiffness);
    }

    /// What the turns w' add: N H' in the forces; E' t w' H' beside u', and (E' t w'² + N) H' H'ᵀ, in the stiffness.
    #[inline]
    fn add_turned<const M: usize>(
        &self,
        map: &[usize; BEAM],
        turns: [f64; 2],
        pulls: [f64; 2],
        stiffness: &mut [[f64; M]; M],
        forces: &mut [f64; M],
    ) {
        let &Self { section, l, .. } = self;
        let half = 0.5 * l * section.axial;
        let [u_left, _, _, bubble, u_right, ..] = *map;
        let at = [map[1], map[2], map[5], map[6]];
        // a H'₀ + b H'₁ of the two places.
        let of = |a: f64, b: f64| {
            let (sum, turn) = ((a + b) / l, GAMMA * (a - b));
            [-sum, turn, sum, -turn]
        };
        let lift = of(pulls[0] * turns[0], pulls[1] * turns[1]);
        let along = of(half * turns[0] / l, half * turns[1] / l);
        let bowed = of(BUBBLE * half * turns[0] / l, -BUBBLE * half * turns[1] / l);
        for k in 0..4 {
            forces[at[k]] += lift[k];
            for (u, entry) in [(u_left, -along[k]), (u_right, along[k]), (bubble, bowed[k])] {
                stiffness[u][at[k]] += entry;
                stiffness[at[k]][u] += entry;
            }
        }
        let stiff = [0, 1].map(|p| half * turns[p] * turns[p] + pulls[p]);
        let (sum, difference) = (stiff[0] + stiff[1], stiff[0] - stiff[1]);
        let (k3, k2, k1) = (sum / (l * l), GAMMA * difference / l, GAMMA * GAMMA * sum);
        let own = [[k3, -k2, -k3, k2], [-k2, k1, k2, -k1], [-k3, k2, k3, -k2], [k2, -k1, -k2, k1]];
        add_deflections(map, &own, stiffness);
    }
}

/// Adds a stiffness on (w, θ) left and right.
#[inline]
fn add_deflections<const M: usize>(map: &[usize; BEAM], own: &[[f64; 4]; 4], stiffness: &mut [[f64; M]; M]) {
    let at = [map[1], map[2], map[5], map[6]];
    for (row, entries) in at.into_iter().zip(own) {
        for (column, entry) in at.into_iter().zip(entries) {
            stiffness[row][column] += entry;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::adherend::Adherend;
    use crate::strip::Plane;
    use crate::strip::progressive::beam;
    use proptest::prelude::*;

    proptest! {
        /// The closed form is the sum over both places, with and without bending and turns: within the rounding of
        /// entries that differ by l² in size.
        #[test]
        fn law_closed_form_is_the_sum_over_the_places(
            d in prop::array::uniform7(-1e-2..1e-2_f64), l in 0.05..10.0_f64, heated in -80.0..80.0_f64,
            bends in any::<bool>(), turned in any::<bool>(),
        ) {
            let adherend = Adherend {
                youngs_modulus_mpa: 70e3, poissons_ratio: 0.33, thickness_mm: 1.6, thermal_expansion_per_k: 23e-6,
            };
            let section = Section::of(&adherend, Plane::Strain, heated);
            let second_order = bends && turned;
            // Without bending the places of w and θ are those of u.
            let map = if bends { [0, 1, 2, 3, 4, 5, 6] } else { [0, 0, 0, 3, 4, 4, 4] };
            let d = map.map(|k| d[k]);
            let (mut stiffness, mut forces) = ([[0.0; BEAM]; BEAM], [0.0; BEAM]);
            Elastic::new(&section, l, second_order).add(&map, &d, bends, &mut stiffness, &mut forces);
            let (mut sum, mut pulled) = ([[0.0; BEAM]; BEAM], [0.0; BEAM]);
            for (s, weight) in TWO_POINTS {
                let rows = Rows::at(s, l, &d, bends, second_order);
                let answer = beam::elastic(&section, rows.strain, rows.curvature);
                rows.add(&map, weight * l, &answer, second_order, &mut sum, &mut pulled);
            }
            let scale = |k: usize| if [2, 6].contains(&k) { f64::max(l, 1.0) } else { 1.0 };
            let size = section.axial / l + 12.0 * section.bending / (l * l * l);
            for i in 0..BEAM {
                prop_assert!((forces[i] - pulled[i]).abs() < 1e-12 * size * scale(i), "{i}");
                for k in 0..BEAM {
                    let off = (stiffness[i][k] - sum[i][k]).abs();
                    prop_assert!(off < 1e-12 * size * scale(i) * scale(k), "{i} {k}: {off}");
                }
            }
        }
    }
}
