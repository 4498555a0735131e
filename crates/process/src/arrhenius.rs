//! Activation energy and equivalent time: what an hour at one temperature is worth at another.

use crate::ProcessError;
use crate::error::{finite, positive};
use crate::temperature::{History, Reach, checked_k};

/// The molar gas constant, J/(mol K): the product of Avogadro's and Boltzmann's
/// constants, exact in the SI since 2019.
pub const GAS_CONSTANT_J_MOL_K: f64 = 8.314_462_618_153_24;

/// A data-sheet time at a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimeAt {
    /// Temperature, K.
    pub temperature_k: f64,
    /// Time, s.
    pub time_s: f64,
}

impl TimeAt {
    /// The same values, checked: a temperature and a positive time.
    pub(crate) fn checked(self) -> Result<Self, ProcessError> {
        checked_k(self.temperature_k)?;
        positive("time at a temperature", self.time_s)?;
        Ok(self)
    }
}

/// Activation energy with which a rate doubles from 20 to 30 °C, J/mol.
///
/// ```text
/// E = R ln 2 / (1/T₁ − 1/T₂)          T₁ = 293.15 K, T₂ = 303.15 K: 51 216 J/mol
/// ```
///
/// "Each 10 K halves the time" is common practice without a source; it holds near room
/// temperature only (the same rule between 60 and 70 °C would need 65.9 kJ/mol) and then promises
/// too much when carried on to a hot cure. Amine-cured epoxies: 44 to 57 kJ/mol (Barral and others
/// 1995), 55 to 60 kJ/mol (Thermochimica Acta 447 (2006) 167-177).
pub fn doubling_activation_j_mol() -> f64 {
    GAS_CONSTANT_J_MOL_K * core::f64::consts::LN_2 / (1.0 / 293.15 - 1.0 / 303.15)
}

/// Activation energy from two times to the same state of cure, J/mol.
///
/// ```text
/// E = R ln(t₁/t₂) / (1/T₁ − 1/T₂)
/// R  gas constant   t₁, t₂  times to the same cure (s)   T₁, T₂  their temperatures (K)
/// ```
///
/// Valid: one reaction governs at both temperatures, no vitrification between them. A maker's
/// round figures ("7 d", "16 h") carry over: 10 % on either time moves E by about 2 kJ/mol
/// between 23 and 60 °C. Source: Arrhenius 1889, textbook kinetics (formula).
///
/// # Errors
///
/// [`ProcessError::SameTemperature`], [`ProcessError::HotterNotFaster`], and values that are no
/// temperature or not positive.
pub fn activation_from_times_j_mol(a: TimeAt, b: TimeAt) -> Result<f64, ProcessError> {
    let (a, b) = (a.checked()?, b.checked()?);
    let (cold, hot) = if a.temperature_k < b.temperature_k { (a, b) } else { (b, a) };
    let inverse = 1.0 / cold.temperature_k - 1.0 / hot.temperature_k;
    if inverse <= 0.0 {
        return Err(ProcessError::SameTemperature { temperature_k: a.temperature_k });
    }
    if hot.time_s >= cold.time_s {
        return Err(ProcessError::HotterNotFaster {
            hot_k: hot.temperature_k,
            hot_time_s: hot.time_s,
            cold_k: cold.temperature_k,
            cold_time_s: cold.time_s,
        });
    }
    finite("activation energy", GAS_CONSTANT_J_MOL_K * libm::log(cold.time_s / hot.time_s) / inverse)
}

/// A rate relative to the one at a reference temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrhenius {
    reference_k: f64,
    activation_j_mol: f64,
}

impl Arrhenius {
    /// The rate law with this activation energy, 1 at the reference temperature.
    ///
    /// # Errors
    ///
    /// [`ProcessError::NotATemperature`], [`ProcessError::NotPositive`].
    pub fn new(reference_k: f64, activation_j_mol: f64) -> Result<Self, ProcessError> {
        Ok(Self {
            reference_k: checked_k(reference_k)?,
            activation_j_mol: positive("activation energy", activation_j_mol)?,
        })
    }

    /// The reference temperature, K.
    pub fn reference_k(&self) -> f64 {
        self.reference_k
    }

    /// The activation energy, J/mol.
    pub fn activation_j_mol(&self) -> f64 {
        self.activation_j_mol
    }

    /// How much faster than at the reference temperature.
    ///
    /// ```text
    /// r(T) = exp(−(E/R) (1/T − 1/T_ref))
    /// E  activation energy (J/mol)   R  gas constant   T, T_ref  temperatures (K)
    /// ```
    ///
    /// Source: Arrhenius 1889 (formula).
    pub fn rate(&self, temperature_k: f64) -> f64 {
        libm::exp(
            -self.activation_j_mol / GAS_CONSTANT_J_MOL_K * (1.0 / temperature_k - 1.0 / self.reference_k),
        )
    }

    /// The time at the reference temperature that cures as far as the history does until `until_s`.
    ///
    /// ```text
    /// t_eq = ∫ r(T(t)) dt          from first mix (0) to `until_s`
    /// ```
    ///
    /// Source: textbook kinetics (formula); valid while one activation energy governs.
    ///
    /// # Errors
    ///
    /// [`ProcessError::OutsideHistory`], [`ProcessError::NotFinite`].
    pub fn equivalent_time_s(&self, history: &History, until_s: f64) -> Result<f64, ProcessError> {
        history.integrate(0.0, until_s, |k| self.rate(k))
    }

    /// When the history has given the equivalent time `equivalent_s`, from first mix: the inverse
    /// of [`equivalent_time_s`](Self::equivalent_time_s). In [`Reach::NotWithin`] the amount is
    /// the equivalent time given until the end.
    ///
    /// # Errors
    ///
    /// [`ProcessError::Negative`], [`ProcessError::NotFinite`].
    pub fn clock_time(&self, history: &History, equivalent_s: f64) -> Result<Reach, ProcessError> {
        history.time_to_accumulate(0.0, equivalent_s, |k| self.rate(k))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::temperature::{Sample, ZERO_CELSIUS_K};
    use proptest::prelude::*;

    const HOUR_S: f64 = 3600.0;

    fn at_c(temperature_c: f64, time_s: f64) -> TimeAt {
        TimeAt { temperature_k: temperature_c + ZERO_CELSIUS_K, time_s }
    }

    /// ARRH-10K: activation energies for halving per 10 K, and the ratios between 20 and 30 °C.
    /// Barral and others 1995; Thermochimica Acta 447 (2006) 167-177 (read); numbers by formula.
    #[test]
    fn val_doubling_rule() -> Result<(), ProcessError> {
        // Half a unit of the last stored digit.
        assert!((doubling_activation_j_mol() - 51_216.172_22).abs() < 5e-5);
        let hot = activation_from_times_j_mol(at_c(60.0, 2.0), at_c(70.0, 1.0))?;
        assert!((hot - 65_884.532_24).abs() < 5e-5, "{hot}");
        for (e, ratio) in
            [(44e3, 1.813_910_961), (57e3, 2.162_844_157), (55e3, 2.105_086_550), (60e3, 2.252_465_430)]
        {
            let found = Arrhenius::new(293.15, e)?.rate(303.15);
            assert!((found - ratio).abs() < 1e-9, "{e}: {found}");
        }
        Ok(())
    }

    #[test]
    fn unit_refuses_data_that_say_nothing() {
        assert!(matches!(
            activation_from_times_j_mol(at_c(23.0, 10.0), at_c(23.0, 5.0)),
            Err(ProcessError::SameTemperature { .. })
        ));
        assert!(matches!(
            activation_from_times_j_mol(at_c(23.0, 10.0), at_c(60.0, 10.0)),
            Err(ProcessError::HotterNotFaster { .. })
        ));
        assert!(activation_from_times_j_mol(at_c(23.0, 0.0), at_c(60.0, 10.0)).is_err());
        assert!(Arrhenius::new(296.15, 0.0).is_err());
        assert!(Arrhenius::new(f64::NAN, 5e4).is_err());
    }

    #[test]
    fn unit_constant_temperature_is_closed_form() -> Result<(), ProcessError> {
        let law = Arrhenius::new(296.15, 52e3)?;
        let history = History::constant(289.15, Some(14.0 * HOUR_S))?;
        let equivalent = law.equivalent_time_s(&history, 14.0 * HOUR_S)?;
        assert!((equivalent - 14.0 * HOUR_S * law.rate(289.15)).abs() < 1e-9);
        assert!(matches!(
            law.clock_time(&history, 24.0 * HOUR_S)?,
            Reach::NotWithin { amount, .. } if (amount - equivalent).abs() < 1e-9
        ));
        let endless = History::constant(289.15, None)?;
        assert!(matches!(
            law.clock_time(&endless, 24.0 * HOUR_S)?,
            Reach::At { time_s } if (time_s - 24.0 * HOUR_S / law.rate(289.15)).abs() < 1e-6
        ));
        // So cold that the time is no number any more.
        assert!(law.clock_time(&History::constant(1.0, None)?, 1.0).is_err());
        Ok(())
    }

    proptest! {
        /// Colder at every moment never gives more equivalent time.
        #[test]
        fn law_colder_gives_less_equivalent_time(
            readings in prop::collection::vec((-10.0..70.0_f64, 0.0..30.0_f64), 2..10),
            activation in 30e3..90e3_f64,
        ) {
            let log = |drop: f64| History::sampled(
                readings.iter().zip(0_u32..)
                    .map(|(&(c, d), i)| Sample::celsius(f64::from(i) * 900.0, c - drop * d))
                    .collect(),
            );
            let law = Arrhenius::new(296.15, activation)?;
            let (warm, cold) = (log(0.0)?, log(1.0)?);
            let end_s = warm.end_s().unwrap_or(0.0);
            let warm_s = law.equivalent_time_s(&warm, end_s)?;
            let cold_s = law.equivalent_time_s(&cold, end_s)?;
            // Equal histories may differ by rounding.
            prop_assert!(cold_s <= warm_s * (1.0 + 1e-12));
        }
    }
}
