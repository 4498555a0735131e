//! Cure kinetics after Kamal and Sourour on a temperature history.

use crate::ProcessError;
use crate::arrhenius::GAS_CONSTANT_J_MOL_K;
use crate::error::{not_negative, positive};
use crate::glass::Stall;
use crate::kinetics;
use crate::temperature::{History, Reach};

/// The constants of the Kamal-Sourour model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameters {
    /// Pre-exponential factor of the first rate, 1/s.
    pub rate_1_per_s: f64,
    /// Activation energy of the first rate, J/mol.
    pub activation_1_j_mol: f64,
    /// Pre-exponential factor of the autocatalytic rate, 1/s.
    pub rate_2_per_s: f64,
    /// Activation energy of the autocatalytic rate, J/mol.
    pub activation_2_j_mol: f64,
    /// Exponent of the conversion.
    pub m: f64,
    /// Exponent of what is left to react.
    pub n: f64,
}

/// Kamal-Sourour kinetics, with or without the stall of vitrification.
///
/// ```text
/// dα/dt = (k₁ + k₂ α^m) (1 − α)^n f_d          k_i = A_i exp(−E_i/(R T))
/// α  conversion   A_i  rates (1/s)   E_i  activation energies (J/mol)   f_d  stall, 1 without
/// ```
///
/// Valid inside the temperatures at which the constants were fitted; without the stall it
/// overstates what a cure near or below the cured glass transition reaches. Source: Kamal and
/// Sourour 1973, Polymer Engineering and Science 13, 59-64 (from memory); stall: [`Stall`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KamalSourour {
    parameters: Parameters,
    stall: Option<Stall>,
}

impl KamalSourour {
    /// # Errors
    ///
    /// Negative rates, activation energies or m; n not positive; both rates zero.
    pub fn new(parameters: Parameters, stall: Option<Stall>) -> Result<Self, ProcessError> {
        let p = parameters;
        not_negative("rate 1", p.rate_1_per_s)?;
        not_negative("rate 2", p.rate_2_per_s)?;
        not_negative("activation energy 1", p.activation_1_j_mol)?;
        not_negative("activation energy 2", p.activation_2_j_mol)?;
        not_negative("exponent m", p.m)?;
        positive("exponent n", p.n)?;
        positive("sum of the rates", p.rate_1_per_s + p.rate_2_per_s)?;
        Ok(Self { parameters, stall })
    }

    /// dα/dt at a temperature and a conversion, 1/s.
    pub fn rate_per_s(&self, temperature_k: f64, conversion: f64) -> f64 {
        let p = &self.parameters;
        let rt = GAS_CONSTANT_J_MOL_K * temperature_k;
        let k1 = p.rate_1_per_s * libm::exp(-p.activation_1_j_mol / rt);
        let k2 = p.rate_2_per_s * libm::exp(-p.activation_2_j_mol / rt);
        // The inner stages of a long step may leave 0 to 1, where the powers have no value.
        let reacted = conversion.clamp(0.0, 1.0);
        let reaction = (k1 + k2 * libm::pow(reacted, p.m)) * libm::pow(1.0 - reacted, p.n);
        match &self.stall {
            Some(stall) => reaction * stall.factor(temperature_k, conversion),
            None => reaction,
        }
    }

    /// The conversion at each of some rising times from first mix, starting from `initial` at
    /// first mix.
    ///
    /// # Errors
    ///
    /// As [`kinetics::conversions`]; [`ProcessError::NeverStarts`].
    pub fn conversions(
        &self,
        history: &History,
        initial: f64,
        times_s: &[f64],
    ) -> Result<Vec<f64>, ProcessError> {
        self.can_start(initial)?;
        kinetics::conversions(&|k, conversion| self.rate_per_s(k, conversion), history, initial, times_s)
    }

    /// The conversion at a time from first mix, starting from `initial` at first mix.
    ///
    /// # Errors
    ///
    /// As [`conversions`](Self::conversions).
    pub fn conversion_at(&self, history: &History, initial: f64, time_s: f64) -> Result<f64, ProcessError> {
        let conversions = self.conversions(history, initial, &[time_s])?;
        conversions.first().copied().ok_or(ProcessError::NotFinite { what: "conversion" })
    }

    /// When a conversion is reached.
    ///
    /// # Errors
    ///
    /// As [`kinetics::time_to_conversion`]; [`ProcessError::NeverStarts`].
    pub fn time_to_conversion(
        &self,
        history: &History,
        initial: f64,
        target: f64,
    ) -> Result<Reach, ProcessError> {
        if target > initial {
            self.can_start(initial)?;
        }
        kinetics::time_to_conversion(
            &|k, conversion| self.rate_per_s(k, conversion),
            history,
            initial,
            target,
        )
    }

    fn can_start(&self, initial: f64) -> Result<(), ProcessError> {
        let p = &self.parameters;
        if initial <= 0.0 && p.rate_1_per_s <= 0.0 && p.m > 0.0 {
            return Err(ProcessError::NeverStarts);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glass::DiBenedetto;
    use crate::temperature::{Sample, ZERO_CELSIUS_K};
    use proptest::prelude::*;

    /// Rates that do not depend on temperature: the isothermal checks.
    fn isothermal(k1: f64, k2: f64, m: f64, n: f64) -> Result<KamalSourour, ProcessError> {
        KamalSourour::new(
            Parameters {
                rate_1_per_s: k1,
                activation_1_j_mol: 0.0,
                rate_2_per_s: k2,
                activation_2_j_mol: 0.0,
                m,
                n,
            },
            None,
        )
    }

    fn room() -> Result<History, ProcessError> {
        History::constant(296.15, None)
    }

    /// CURE-KAMAL-EXACT: closed form for m = n = 1 (derived):
    /// α = (e^((k₁+k₂)t) − 1)/(e^((k₁+k₂)t) + k₂/k₁).
    #[test]
    fn val_closed_form() -> Result<(), ProcessError> {
        let model = isothermal(0.001, 0.01, 1.0, 1.0)?;
        for (t, expected) in [
            (60.0, 0.078_324_976_942),
            (120.0, 0.199_617_060_552),
            (300.0, 0.703_605_016_514),
            (600.0, 0.985_236_785_636),
        ] {
            let e = libm::exp(0.011 * t);
            let exact = (e - 1.0) / (e + 10.0);
            let found = model.conversion_at(&room()?, 0.0, t)?;
            // A hundred steps of 1e-11 each.
            assert!((found - exact).abs() < 1e-9, "{t}: {found} {exact}");
            assert!((found - expected).abs() < 1e-9, "{t}: {found} {expected}");
        }
        Ok(())
    }

    /// CURE-KAMAL-NUM: m = 0.5, n = 1.5; expected from t = ∫ dα/f(α) in 30-digit arithmetic.
    #[test]
    fn val_numerical() -> Result<(), ProcessError> {
        let model = isothermal(0.001, 0.01, 0.5, 1.5)?;
        let times = [60.0, 120.0, 300.0, 600.0, 1200.0];
        let expected =
            [0.186_345_921_788, 0.410_366_704_980, 0.773_735_231_821, 0.924_937_230_133, 0.978_931_640_974];
        let found = model.conversions(&room()?, 0.0, &times)?;
        for (found, expected) in found.iter().zip(expected) {
            // The square root of the conversion has no slope at the start: the first steps there
            // make most of the error that TOLERANCE allows.
            assert!((found - expected).abs() < 1e-8, "{found} {expected}");
        }
        Ok(())
    }

    /// CURE-NTH: n = 2 gives kt/(1+kt), n = 1 gives 1 − e^(−kt) (textbook).
    #[test]
    fn val_nth_order() -> Result<(), ProcessError> {
        let second = isothermal(1.0, 0.0, 0.0, 2.0)?;
        assert!((second.conversion_at(&room()?, 0.0, 1.0)? - 0.5).abs() < 1e-9);
        assert!((second.conversion_at(&room()?, 0.0, 3.0)? - 0.75).abs() < 1e-9);
        let first = isothermal(1.0, 0.0, 0.0, 1.0)?;
        let exact = -libm::expm1(-1.0);
        assert!((first.conversion_at(&room()?, 0.0, 1.0)? - exact).abs() < 1e-9);
        Ok(())
    }

    #[test]
    fn unit_long_after_the_end_it_is_complete() -> Result<(), ProcessError> {
        // A century of time constants, and an order below one that ends in finite time.
        for n in [0.5, 1.0, 1.5, 2.0] {
            let model = isothermal(1.0, 10.0, 1.0, n)?;
            let end = model.conversion_at(&room()?, 0.0, 1e9)?;
            assert!(end <= 1.0 && end > 1.0 - 1e-6, "{n}: {end}");
        }
        Ok(())
    }

    #[test]
    fn unit_refusals() -> Result<(), ProcessError> {
        assert!(isothermal(-1.0, 0.0, 1.0, 1.0).is_err());
        assert!(isothermal(0.0, 0.0, 1.0, 1.0).is_err());
        assert!(isothermal(1.0, 0.0, 1.0, 0.0).is_err());
        assert!(isothermal(f64::NAN, 0.0, 1.0, 1.0).is_err());
        let autocatalytic = isothermal(0.0, 1.0, 1.0, 1.0)?;
        assert!(matches!(autocatalytic.conversion_at(&room()?, 0.0, 1.0), Err(ProcessError::NeverStarts)));
        assert!(autocatalytic.conversion_at(&room()?, 0.01, 1.0).is_ok());
        let short = History::constant(296.15, Some(10.0))?;
        assert!(isothermal(1.0, 0.0, 0.0, 1.0)?.conversion_at(&short, 0.0, 11.0).is_err());
        Ok(())
    }

    #[test]
    fn unit_never_reached_is_an_answer() -> Result<(), ProcessError> {
        let short = History::constant(296.15, Some(60.0))?;
        let model = isothermal(0.001, 0.01, 1.0, 1.0)?;
        assert!(matches!(
            model.time_to_conversion(&short, 0.0, 0.5)?,
            Reach::NotWithin { amount, .. } if (amount - 0.078_324_976_9).abs() < 1e-9
        ));
        // Inverse of the closed form at one half: t = ln(2 + k₂/k₁)/(k₁ + k₂).
        let Reach::At { time_s } = model.time_to_conversion(&room()?, 0.0, 0.5)? else {
            panic!("reached");
        };
        let exact = libm::log(12.0) / 0.011;
        assert!((time_s - exact).abs() < 1e-6, "{time_s} {exact}");
        Ok(())
    }

    /// An epoxy of the order of the demo's (invented constants).
    fn epoxy(stalls: bool) -> Result<KamalSourour, ProcessError> {
        let glass = DiBenedetto::new(ZERO_CELSIUS_K - 40.0, ZERO_CELSIUS_K + 95.0, 0.4)?;
        let stall = stalls.then(|| Stall::new(glass, Stall::COMMON_STEEPNESS)).transpose()?;
        KamalSourour::new(
            Parameters {
                rate_1_per_s: 1e4,
                activation_1_j_mol: 55e3,
                rate_2_per_s: 1e5,
                activation_2_j_mol: 52e3,
                m: 0.8,
                n: 1.6,
            },
            stall,
        )
    }

    /// Slow at the start, so that the first step spans the whole warming: its inner stages leave
    /// 0 to 1.
    #[test]
    fn regress_long_first_step() -> Result<(), ProcessError> {
        let history = History::sampled(vec![Sample::celsius(0.0, 0.0), Sample::celsius(15_840.0, 64.0)])?;
        let end = epoxy(false)?.conversion_at(&history, 0.0, 15_840.0)?;
        assert!((0.0..=1.0).contains(&end), "{end}");
        Ok(())
    }

    #[test]
    fn unit_stalls_near_the_cure_temperature() -> Result<(), ProcessError> {
        let week_s = 7.0 * 86_400.0;
        let glass = DiBenedetto::new(ZERO_CELSIUS_K - 40.0, ZERO_CELSIUS_K + 95.0, 0.4)?;
        let cold = History::constant(ZERO_CELSIUS_K + 16.0, None)?;
        let with = epoxy(true)?.conversion_at(&cold, 0.0, week_s)?;
        let without = epoxy(false)?.conversion_at(&cold, 0.0, week_s)?;
        assert!(with < without, "{with} {without}");
        // It creeps past the cure temperature by some degrees, not by many tens.
        let above_k = glass.glass_transition_k(with) - (ZERO_CELSIUS_K + 16.0);
        assert!((0.0..40.0).contains(&above_k), "{above_k}");
        // Heat releases it.
        let heated = History::sampled(vec![
            Sample::celsius(0.0, 16.0),
            Sample::celsius(week_s, 16.0),
            Sample::celsius(week_s + 3600.0, 60.0),
            Sample::celsius(week_s + 60_000.0, 60.0),
        ])?;
        let later = epoxy(true)?.conversion_at(&heated, 0.0, week_s + 60_000.0)?;
        assert!(later > with + 0.05, "{later} {with}");
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        /// Colder at every moment never gives more conversion, nor an earlier one.
        #[test]
        fn law_colder_never_cures_faster(
            readings in prop::collection::vec((0.0..70.0_f64, 0.0..20.0_f64), 2..6),
            step_s in 600.0..20_000.0_f64, target in 0.05..0.9_f64, stalls: bool,
        ) {
            let log = |drop: f64| History::sampled(
                readings.iter().zip(0_u32..)
                    .map(|(&(c, d), i)| Sample::celsius(f64::from(i) * step_s, c - drop * d))
                    .collect(),
            );
            let model = epoxy(stalls)?;
            let (warm, cold) = (log(0.0)?, log(1.0)?);
            let end_s = warm.end_s().unwrap_or(0.0);
            let at_end = |history| model.conversion_at(history, 0.0, end_s);
            // Twice the error of an integration.
            prop_assert!(at_end(&cold)? <= at_end(&warm)? + 2e-8);
            let when = |history| model.time_to_conversion(history, 0.0, target).map(|reach| match reach {
                Reach::At { time_s } => time_s,
                Reach::NotWithin { .. } => f64::INFINITY,
            });
            prop_assert!(when(&cold)? >= when(&warm)? - 1e-3);
        }

        /// Stopping and going on is the same as going through.
        #[test]
        fn law_conversion_may_be_resumed(first in 100.0..5e4_f64, second in 100.0..5e4_f64) {
            let model = epoxy(true)?;
            let warm = History::constant(ZERO_CELSIUS_K + 30.0, None)?;
            let through = model.conversion_at(&warm, 0.0, first + second)?;
            let half = model.conversion_at(&warm, 0.0, first)?;
            let resumed = model.conversion_at(&warm, half, second)?;
            prop_assert!((through - resumed).abs() < 1e-8, "{through} {resumed}");
        }
    }
}
