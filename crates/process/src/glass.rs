//! Glass transition against conversion, and the stall it brings.

use crate::ProcessError;
use crate::error::{positive, within};
use crate::temperature::checked_k;

/// Glass transition temperature as a function of conversion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiBenedetto {
    uncured_k: f64,
    cured_k: f64,
    lambda: f64,
}

impl DiBenedetto {
    /// From the glass transition of the fresh mix and of the fully cured adhesive, and the shape λ
    /// (the ratio of the heat-capacity steps, cured over uncured).
    ///
    /// # Errors
    ///
    /// Values that are no temperature, a cured one not above the uncured one, λ outside 0 to 1.
    pub fn new(uncured_k: f64, cured_k: f64, lambda: f64) -> Result<Self, ProcessError> {
        checked_k(uncured_k)?;
        checked_k(cured_k)?;
        positive("rise of the glass transition by cure", cured_k - uncured_k)?;
        within("lambda", lambda, f64::MIN_POSITIVE, 1.0)?;
        Ok(Self { uncured_k, cured_k, lambda })
    }

    /// Glass transition at a conversion from 0 to 1, K.
    ///
    /// ```text
    /// T_g = T_g0 + (T_g∞ − T_g0) λ α / (1 − (1 − λ) α)
    /// T_g0, T_g∞  uncured, cured (K)   α  conversion   λ  shape
    /// ```
    ///
    /// Source: DiBenedetto 1987 in the form of Pascault and Williams 1990 (from memory).
    pub fn glass_transition_k(&self, conversion: f64) -> f64 {
        let rise = self.cured_k - self.uncured_k;
        self.uncured_k + rise * self.lambda * conversion / (1.0 - (1.0 - self.lambda) * conversion)
    }

    /// The conversion at which the glass transition reaches a temperature.
    ///
    /// Above 1 where no conversion does, and below 0 under the uncured glass transition, where the
    /// curve goes on along its first tangent; both ends are continuous and rise with temperature.
    pub fn conversion_at(&self, temperature_k: f64) -> f64 {
        let above = temperature_k - self.uncured_k;
        let rise = self.cured_k - self.uncured_k;
        let straight = self.lambda * rise;
        above / (straight + (1.0 - self.lambda) * above.max(0.0))
    }
}

/// The slowing of the cure as the glass transition catches up with the cure temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stall {
    glass: DiBenedetto,
    steepness: f64,
}

impl Stall {
    /// The steepness taken where none is measured. Fitted values for epoxy-amines are of the order
    /// of 20 to 50 (from memory, no source at hand): common practice.
    pub const COMMON_STEEPNESS: f64 = 30.0;

    /// # Errors
    ///
    /// [`ProcessError::NotPositive`] for the steepness.
    pub fn new(glass: DiBenedetto, steepness: f64) -> Result<Self, ProcessError> {
        positive("steepness of the stall", steepness)?;
        Ok(Self { glass, steepness })
    }

    /// By how much diffusion slows the reaction, between 0 and 1.
    ///
    /// ```text
    /// f_d = 1 / (1 + exp(C (α − α_c)))          T_g(α_c) = T
    /// C  steepness   α  conversion   α_c  conversion at which the adhesive vitrifies at T
    /// ```
    ///
    /// One half when T_g reaches the cure temperature, near zero a little later: the cure then
    /// creeps on with the logarithm of time, so that T_g ends some degrees above the temperature
    /// of cure. It rises with temperature at every conversion. Source: Chern and Poehlein 1987,
    /// Polymer Engineering and Science 27, 788-795, with α_c from [`DiBenedetto`] (from memory).
    pub fn factor(&self, temperature_k: f64, conversion: f64) -> f64 {
        let critical = self.glass.conversion_at(temperature_k);
        1.0 / (1.0 + libm::exp(self.steepness * (conversion - critical)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::temperature::ZERO_CELSIUS_K;
    use proptest::prelude::*;

    fn sample() -> Result<DiBenedetto, ProcessError> {
        DiBenedetto::new(ZERO_CELSIUS_K - 20.0, ZERO_CELSIUS_K + 220.0, 0.5)
    }

    /// DIBEN-1: DiBenedetto 1987; Pascault and Williams 1990 (from memory; numbers by formula).
    #[test]
    fn val_dibenedetto() -> Result<(), ProcessError> {
        for (conversion, celsius) in
            [(0.0, -20.0), (0.5, 60.0), (0.8, 140.0), (0.9, 176.363_636_363_636), (1.0, 220.0)]
        {
            let found = sample()?.glass_transition_k(conversion) - ZERO_CELSIUS_K;
            assert!((found - celsius).abs() < 1e-9, "{conversion}: {found}");
        }
        Ok(())
    }

    #[test]
    fn unit_refusals() {
        assert!(DiBenedetto::new(300.0, 300.0, 0.5).is_err());
        assert!(DiBenedetto::new(250.0, 400.0, 0.0).is_err());
        assert!(DiBenedetto::new(250.0, 400.0, 1.1).is_err());
        assert!(DiBenedetto::new(250.0, f64::NAN, 0.5).is_err());
    }

    #[test]
    fn unit_half_speed_where_it_vitrifies() -> Result<(), ProcessError> {
        let stall = Stall::new(sample()?, Stall::COMMON_STEEPNESS)?;
        // T_g is 60 °C at half conversion.
        assert!((stall.factor(ZERO_CELSIUS_K + 60.0, 0.5) - 0.5).abs() < 1e-12);
        assert!(stall.factor(ZERO_CELSIUS_K + 60.0, 0.7) < 0.01);
        assert!(stall.factor(ZERO_CELSIUS_K + 60.0, 0.2) > 0.99);
        Ok(())
    }

    proptest! {
        #[test]
        fn law_conversion_inverts_glass_transition(
            conversion in 0.0..1.0_f64, lambda in 0.1..1.0_f64, uncured in 220.0..280.0_f64, rise in 20.0..250.0_f64,
        ) {
            let glass = DiBenedetto::new(uncured, uncured + rise, lambda)?;
            let back = glass.conversion_at(glass.glass_transition_k(conversion));
            prop_assert!((back - conversion).abs() < 1e-10, "{back}");
        }

        #[test]
        fn law_hotter_never_slows(k in 200.0..500.0_f64, dk in 0.0..50.0_f64, conversion in 0.0..1.0_f64) {
            let stall = Stall::new(sample()?, Stall::COMMON_STEEPNESS)?;
            prop_assert!(stall.factor(k, conversion) <= stall.factor(k + dk, conversion));
        }
    }
}
