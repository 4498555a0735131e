//! The line of stress against cycles.

use crate::failure::{self, Failure};

/// A straight line in logarithms, in ranges of stress (MPa) or of force (N): whatever the line and the loads share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// The range that is borne for [`at_cycles`](Self::at_cycles).
    pub range: f64,
    /// The cycles at that range.
    pub at_cycles: f64,
    /// The exponent m: the life falls with its power of the range.
    pub slope: f64,
    /// A range at and below which no cycle counts, where the tests show one.
    pub cut_off: Option<f64>,
}

impl Line {
    /// Refuses what is no line.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range.
    pub fn check(&self) -> Result<(), Failure> {
        failure::positive("range of the line", self.range)?;
        failure::positive("cycles of the line", self.at_cycles)?;
        failure::positive("slope of the line", self.slope)?;
        failure::not_negative("cut-off of the line", self.cut_off.unwrap_or(0.0))?;
        Ok(())
    }

    /// The damage of one cycle: one over its life.
    ///
    /// ```text
    /// N = N_C (Δ_C/Δ)^m        1/N, and none for Δ ≤ Δ_L
    /// Δ  range   Δ_C  range borne for N_C cycles   m  slope   Δ_L  cut-off
    /// ```
    ///
    /// Valid where the tests of the line reach; one range, at the mean of those tests. Below about 10³ cycles, where
    /// parts yield, the line promises too much.
    ///
    /// Source: Basquin, "The exponential law of endurance tests", Proc. ASTM 10, 1910 (memory).
    ///
    /// # Errors
    ///
    /// A [`Failure`] where the line is none, where the range is negative, or where the life leaves the numbers.
    pub fn damage(&self, range: f64) -> Result<f64, Failure> {
        self.check()?;
        let range = failure::not_negative("range", range)?;
        if self.cut_off.is_some_and(|cut_off| range <= cut_off) {
            return Ok(0.0);
        }
        failure::number("damage of a cycle", libm::pow(range / self.range, self.slope) / self.at_cycles)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// A line through one point of τ_max/τ_b = 1.71 N^-0.12: single laps, epoxy-polyamide, J. Soc. Mat. Sci. Japan
    /// 34(386), 1985, abstract.
    fn of_laps() -> Line {
        Line { range: 1.71, at_cycles: 1.0, slope: 1.0 / 0.12, cut_off: None }
    }

    #[test]
    fn val_lap_joints_of_1985() {
        for (ratio, cycles) in
            [(0.566_234, 1e4), (0.429_533, 1e5), (0.325_834, 1e6), (0.247_17, 1e7), (0.5, 28_198.0)]
        {
            let life = 1.0 / of_laps().damage(ratio).expect("a damage");
            // The ratios are given to six figures, half a unit of the last is 1e-6 of them; the life has its power m.
            assert!((life / cycles - 1.0).abs() < 2e-5, "{ratio}: {life} against {cycles}");
        }
    }

    #[test]
    fn unit_cut_off_ends_the_damage_and_bad_lines_are_refused() {
        let line = Line { range: 8.0, at_cycles: 1e6, slope: 8.0, cut_off: Some(3.0) };
        assert_eq!(line.damage(3.0), Ok(0.0));
        assert!(line.damage(3.1).expect("a damage") > 0.0);
        assert_eq!(line.damage(8.0), Ok(1e-6));
        assert!(matches!(Line { slope: 0.0, ..line }.damage(4.0), Err(Failure::NotPositive { .. })));
        assert!(matches!(Line { range: f64::NAN, ..line }.damage(4.0), Err(Failure::NotPositive { .. })));
        assert!(matches!(line.damage(-1.0), Err(Failure::Negative { .. })));
        assert!(matches!(line.damage(1e300), Err(Failure::NoNumber { .. })));
    }

    proptest! {
        #[test]
        fn law_twice_the_range_takes_the_power_of_the_slope(range in 0.1_f64..50.0, slope in 1.0_f64..15.0) {
            let line = Line { range: 8.0, at_cycles: 1e6, slope, cut_off: None };
            let ratio = line.damage(2.0 * range).unwrap() / line.damage(range).unwrap();
            // Three powers, each true to a few units of its last digit.
            prop_assert!((ratio / libm::pow(2.0, slope) - 1.0).abs() < 1e-12);
        }
    }
}
