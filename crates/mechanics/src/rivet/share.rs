//! What rivets carry while the bond beside them holds.
//!
//! A bond is so stiff that it leaves the rivets a few hundredths of the load: they clamp, they stop
//! peel, and they carry when the bond is lost. These estimates say how few; the strip with its rivets
//! says more.

use crate::closed::{Lap, volkersen};
use crate::failure::{self, Failure};

/// What one rivet does in one direction: elastic up to its strength, then on with that force until
/// it breaks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Stiffness, N/mm: in shear that of [`flexibility`](super::flexibility).
    pub stiffness_n_mm: f64,
    /// Strength, N: in shear the least of the shank's and of its walls' in bearing.
    pub strength_n: f64,
    /// Slip or opening at which it breaks, mm; `None` where it is not known.
    pub break_mm: Option<f64>,
}

impl Hold {
    fn check(&self) -> Result<(), Failure> {
        failure::not_negative("stiffness of a rivet", self.stiffness_n_mm)?;
        failure::positive("strength of a rivet", self.strength_n)?;
        if let Some(break_mm) = self.break_mm {
            // It cannot break before it has reached its strength.
            let least = self.strength_n / self.stiffness_n_mm;
            failure::within("slip or opening at which a rivet breaks", break_mm, least, f64::MAX)?;
        }
        Ok(())
    }
}

/// A row of rivets across a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Where it sits, from the left end of the overlap, mm.
    pub x_mm: f64,
    /// Pitch of the rivets along the row, mm.
    pub pitch_mm: f64,
    /// Against slip of the interface.
    pub shear: Hold,
    /// Against opening of the interface.
    pub opening: Hold,
}

impl Row {
    /// Refuses what is no row of an overlap.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range.
    pub fn check(&self, overlap_mm: f64) -> Result<(), Failure> {
        failure::positive("overlap", overlap_mm)?;
        failure::within("place of a rivet row", self.x_mm, 0.0, overlap_mm)?;
        failure::positive("pitch", self.pitch_mm)?;
        self.shear.check()?;
        self.opening.check()
    }

    /// Stiffness against slip for each millimetre of width, N/mm².
    #[must_use]
    pub fn shear_n_mm2(&self) -> f64 {
        self.shear.stiffness_n_mm / self.pitch_mm
    }

    /// Stiffness against opening for each millimetre of width, N/mm².
    #[must_use]
    pub fn opening_n_mm2(&self) -> f64 {
        self.opening.stiffness_n_mm / self.pitch_mm
    }

    /// Strength in shear for each millimetre of width, N/mm.
    #[must_use]
    pub fn shear_strength_n_mm(&self) -> f64 {
        self.shear.strength_n / self.pitch_mm
    }

    /// Strength against opening for each millimetre of width, N/mm.
    #[must_use]
    pub fn opening_strength_n_mm(&self) -> f64 {
        self.opening.strength_n / self.pitch_mm
    }
}

/// Share of the load that all rows carry if the slip is the same everywhere.
///
/// ```text
/// share = Σ k/(Σ k + G L/h)
/// ```
///
/// k stiffness of a row for each millimetre of width (N/mm²), G shear modulus of the adhesive (MPa),
/// h bondline, L overlap (mm): springs in parallel. Exact where the adherends are rigid; where they
/// stretch, the slip is greatest at the ends and a row inside carries less: [`in_lap`]. Elastic,
/// formula.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn at_even_slip(
    shear_modulus_mpa: f64,
    bondline_mm: f64,
    overlap_mm: f64,
    rows: &[Row],
) -> Result<f64, Failure> {
    let bond = failure::positive("adhesive shear modulus", shear_modulus_mpa)?
        / failure::positive("bondline", bondline_mm)?
        * failure::positive("overlap", overlap_mm)?;
    for row in rows {
        row.check(overlap_mm)?;
    }
    let rivets: f64 = rows.iter().map(Row::shear_n_mm2).sum();
    failure::number("share of the rivets", rivets / (rivets + bond))
}

/// Share of the load that each row carries beside the bond of a lap whose adherends only stretch.
///
/// ```text
/// F_i/k_i + Σ_j g(x_i, x_j) F_j = δ₀(x_i)        share_i = F_i/P
///
/// g(x, ξ) = (ω h/G) cosh(ω x_<) cosh(ω (L − x_>))/sinh(ω L)
/// ```
///
/// δ₀ slip under the bond alone (mm), by [`volkersen::solve`]; g slip at x under a unit force that a
/// row at ξ takes from the one adherend to the other, x_< and x_> the lesser and the greater of the
/// two; k stiffness of a row for each millimetre of width (N/mm²), ω rate of Volkersen's solution,
/// G, h, L shear modulus (MPa), bondline and overlap (mm), P load. Exact within Volkersen's model;
/// a lap that bends slips otherwise. Elastic, without thermal strain. Formula.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn in_lap(lap: &Lap, rows: &[Row]) -> Result<Vec<f64>, Failure> {
    let unit = volkersen::solve(lap, 1.0, 0.0)?;
    let give = lap.layer.thickness_mm / lap.layer.shear_modulus_mpa;
    let (rate, overlap) = (unit.rate_per_mm(), lap.overlap_mm);
    // cosh a cosh b/sinh c without overflow, a + b ≤ c.
    let wave = |a: f64, b: f64, c: f64| {
        let fold = |x: f64| 1.0 + libm::exp(-2.0 * x);
        libm::exp(a + b - c) * fold(a) * fold(b) / (-2.0 * libm::expm1(-2.0 * c))
    };
    let mut system = Vec::with_capacity(rows.len());
    for row in rows {
        row.check(overlap)?;
        // Multiplied by k: a row without stiffness carries nothing.
        let k = row.shear_n_mm2();
        let mut line: Vec<f64> = rows
            .iter()
            .map(|other| {
                let (near, far) = (row.x_mm.min(other.x_mm), row.x_mm.max(other.x_mm));
                k * give * rate * wave(rate * near, rate * (overlap - far), rate * overlap)
            })
            .collect();
        line.push(k * give * unit.shear_mpa(row.x_mm));
        system.push(line);
    }
    for (i, line) in system.iter_mut().enumerate() {
        if let Some(own) = line.get_mut(i) {
            *own += 1.0;
        }
    }
    solve(system)
}

/// Gauss-Jordan on lines that end in their right side. The matrix is 1 + K G with K diagonal and G
/// symmetric, none of them negative: its pivots are no less than 1.
fn solve(mut system: Vec<Vec<f64>>) -> Result<Vec<f64>, Failure> {
    for i in 0..system.len() {
        let pivot = system[i].clone();
        for (j, line) in system.iter_mut().enumerate() {
            if j != i {
                let factor = line[i] / pivot[i];
                for (entry, part) in line.iter_mut().zip(&pivot) {
                    *entry -= factor * part;
                }
            }
        }
    }
    system
        .iter()
        .enumerate()
        .map(|(i, line)| failure::number("share of a rivet row", line[system.len()] / line[i]))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Adherend;
    use crate::closed::Layer;
    use proptest::prelude::*;

    fn lap(youngs_modulus_mpa: f64, lower_mm: f64, overlap_mm: f64) -> Lap {
        let plate = |thickness_mm| Adherend {
            youngs_modulus_mpa,
            poissons_ratio: 0.33,
            thickness_mm,
            thermal_expansion_per_k: 23e-6,
        };
        let layer = Layer { youngs_modulus_mpa: 2500.0, shear_modulus_mpa: 900.0, thickness_mm: 0.2 };
        Lap { upper: plate(2.0), lower: plate(lower_mm), layer, overlap_mm }
    }

    fn row(x_mm: f64) -> Row {
        let hold = Hold { stiffness_n_mm: 30e3, strength_n: 3e3, break_mm: Some(0.5) };
        Row { x_mm, pitch_mm: 20.0, shear: hold, opening: hold }
    }

    /// 1500 N/mm² of rivets beside 900 · 25/0.2 = 112 500 N/mm² of bond.
    #[test]
    fn unit_springs_in_parallel() {
        let share = at_even_slip(900.0, 0.2, 25.0, &[row(10.0)]).unwrap();
        assert!((share - 1500.0 / 114_000.0).abs() < 1e-15);
        assert!(at_even_slip(900.0, 0.2, 25.0, &[]).unwrap().abs() < 1e-15);
    }

    /// Rigid adherends slip evenly: within 1e-6, since ω L = 1e-3 there.
    #[test]
    fn cross_a_lap_that_does_not_stretch_slips_evenly() {
        let rows = [row(3.0), row(12.0), row(25.0)];
        let shares = in_lap(&lap(7e13, 3.0, 25.0), &rows).unwrap();
        let even = at_even_slip(900.0, 0.2, 25.0, &rows).unwrap();
        assert!((shares.iter().sum::<f64>() / even - 1.0).abs() < 1e-6);
        for share in shares {
            assert!((3.0 * share / even - 1.0).abs() < 1e-6);
        }
    }

    /// The slip of Volkersen's lap with its rows as point springs by finite differences, 4000 steps:
    /// a kink at a node costs first order of the step, some 1e-4 of a share.
    #[test]
    fn cross_rows_in_a_lap_and_finite_differences() {
        let lap = lap(70e3, 3.0, 40.0);
        let rows = [row(0.0), row(10.0), row(30.0)];
        let (n, p) = (4000_usize, 1.0);
        let step = lap.overlap_mm / 4000.0;
        let (s1, s2) = (70e3 * 2.0, 70e3 * 3.0);
        let flexibility = 1.0 / s1 + 1.0 / s2;
        // Balance of a node's share of the length: S δ'' = (G/h) δ + point springs, with the free
        // ends' strains −P/S₁ at the left, P/S₂ at the right.
        let mut diagonal = vec![2.0 / step; n + 1];
        diagonal[0] = 1.0 / step;
        diagonal[n] = 1.0 / step;
        let mut right = vec![0.0; n + 1];
        right[0] = p / s1;
        right[n] = p / s2;
        let layer = flexibility * lap.layer.shear_modulus_mpa / lap.layer.thickness_mm;
        for (i, entry) in diagonal.iter_mut().enumerate() {
            let length = if i == 0 || i == n { 0.5 * step } else { step };
            *entry += layer * length;
        }
        for (node, row) in [0_usize, 1000, 3000].into_iter().zip(&rows) {
            diagonal[node] += flexibility * row.shear_n_mm2();
        }
        let side = -1.0 / step;
        for i in 1..=n {
            let factor = side / diagonal[i - 1];
            diagonal[i] -= factor * side;
            right[i] -= factor * right[i - 1];
        }
        let mut slip = vec![0.0; n + 1];
        slip[n] = right[n] / diagonal[n];
        for i in (0..n).rev() {
            slip[i] = (right[i] - side * slip[i + 1]) / diagonal[i];
        }
        let shares = in_lap(&lap, &rows).unwrap();
        for ((node, row), share) in [0_usize, 1000, 3000].into_iter().zip(&rows).zip(&shares) {
            let expected = row.shear_n_mm2() * slip[node];
            assert!((share / expected - 1.0).abs() < 1e-4, "{share} {expected}");
        }
    }

    /// A stiff bond of 0.2 mm leaves 1 to 4 % to the rivets (found with an independent model): here
    /// with one row 5 mm from the end of a coupon, and less in the middle.
    #[test]
    fn unit_a_stiff_bond_leaves_the_rivets_little() {
        let coupon = lap(70e3, 2.0, 25.0);
        let of = |x| in_lap(&coupon, &[row(x)]).unwrap()[0];
        assert!(of(0.0) > 0.01 && of(0.0) < 0.04, "{}", of(0.0));
        assert!(of(12.5) < of(5.0) && of(5.0) < of(0.0));
    }

    #[test]
    fn unit_refuses_and_names_what_is_out_of_range() {
        let coupon = lap(70e3, 2.0, 25.0);
        assert!(matches!(
            in_lap(&coupon, &[row(25.1)]),
            Err(Failure::OutOfRange { argument: "place of a rivet row", .. })
        ));
        let brittle = Hold { break_mm: Some(0.09), ..row(5.0).shear };
        let early = Row { shear: brittle, ..row(5.0) };
        assert!(matches!(
            in_lap(&coupon, &[early]),
            Err(Failure::OutOfRange { argument: "slip or opening at which a rivet breaks", .. })
        ));
        assert!(at_even_slip(900.0, 0.0, 25.0, &[]).is_err());
        assert_eq!(in_lap(&coupon, &[]), Ok(Vec::new()));
    }

    #[test]
    fn unit_a_row_spreads_its_rivets_over_the_width() {
        let row = row(5.0);
        assert!((row.shear_n_mm2() - 1500.0).abs() < 1e-12);
        assert!((row.shear_strength_n_mm() - 150.0).abs() < 1e-12);
        let soft = Hold { stiffness_n_mm: 3e3, strength_n: 1e3, break_mm: None };
        let row = Row { opening: soft, ..row };
        assert!((row.opening_n_mm2() - 150.0).abs() < 1e-12);
        assert!((row.opening_strength_n_mm() - 50.0).abs() < 1e-12);
    }

    proptest! {
        /// Shares lie between none and all; a row more raises the sum and lowers each other share;
        /// a lap turned end for end keeps them.
        #[test]
        fn law_shares_are_fractions_and_a_row_more_relieves_the_others(
            places in prop::collection::vec(0.0..1.0_f64, 1..6), more in 0.0..1.0_f64,
            overlap in 10.0..200.0_f64, lower in 1.0..6.0_f64, stiff in 1e2..1e6_f64,
        ) {
            let lap = lap(70e3, lower, overlap);
            let of = |x: f64| {
                let base = row(x * overlap);
                Row { shear: Hold { stiffness_n_mm: stiff, break_mm: None, ..base.shear }, ..base }
            };
            let rows: Vec<Row> = places.iter().copied().map(of).collect();
            let few = in_lap(&lap, &rows).unwrap();
            prop_assert!(few.iter().all(|share| *share > 0.0) && few.iter().sum::<f64>() < 1.0);
            let mut with = rows.clone();
            with.push(of(more));
            let many = in_lap(&lap, &with).unwrap();
            prop_assert!(many.iter().sum::<f64>() >= few.iter().sum::<f64>());
            for (a, b) in few.iter().zip(&many) {
                prop_assert!(b <= &(a * (1.0 + 1e-12)));
            }
            let turned_lap = Lap { upper: lap.lower, lower: lap.upper, ..lap };
            let turned: Vec<Row> = places.iter().map(|x| of(1.0 - x)).collect();
            for (a, b) in few.iter().zip(&in_lap(&turned_lap, &turned).unwrap()) {
                prop_assert!((a / b - 1.0).abs() < 1e-9);
            }
        }
    }
}
