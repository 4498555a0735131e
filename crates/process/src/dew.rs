//! The dew point of the air: below it a surface gets wet.

use crate::ProcessError;
use crate::error::{finite, within};
use crate::temperature::ZERO_CELSIUS_K;

/// Magnus constants for water between −45 and 60 °C, without and with °C.
const A: f64 = 17.62;
const B_C: f64 = 243.12;

/// The dew point of air.
///
/// ```text
/// T_d = b γ/(a − γ)          γ = ln φ + a T/(b + T)          a = 17.62, b = 243.12 °C
/// T  temperature of the air (°C)   φ  relative humidity, 1 saturated   T_d  dew point (°C)
/// ```
///
/// Valid for air of −45 to 60 °C over water, to about 0.35 K; below freezing hoar comes a little earlier.
/// Source: Magnus 1844 with the constants of Sonntag 1990, as in the World Meteorological Organization's
/// guide to instruments, WMO-No. 8, annex 4.B (from memory). Kelvin in, kelvin out.
///
/// # Errors
///
/// Air outside the range, a relative humidity outside 0.01 to 1.
pub fn dew_point_k(air_k: f64, relative_humidity: f64) -> Result<f64, ProcessError> {
    let air_c = within("temperature of the air in °C", air_k - ZERO_CELSIUS_K, -45.0, 60.0)?;
    within("relative humidity", relative_humidity, 0.01, 1.0)?;
    let gamma = libm::log(relative_humidity) + A * air_c / (B_C + air_c);
    finite("dew point", B_C * gamma / (A - gamma) + ZERO_CELSIUS_K)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn dew_point_c(air_c: f64, humidity: f64) -> Result<f64, ProcessError> {
        Ok(dew_point_k(air_c + ZERO_CELSIUS_K, humidity)? - ZERO_CELSIUS_K)
    }

    /// Psychrometric tables (from memory): 20 °C and 50 % give 9.3 °C; 25 °C and 60 % give 16.7 °C;
    /// 10 °C and 80 % give 6.7 °C. Half of the last digit.
    #[test]
    fn val_psychrometric_tables() -> Result<(), ProcessError> {
        for (air, humidity, expected) in [(20.0, 0.5, 9.3), (25.0, 0.6, 16.7), (10.0, 0.8, 6.7)] {
            let found = dew_point_c(air, humidity)?;
            assert!((found - expected).abs() <= 0.05, "{air} {humidity}: {found}");
        }
        Ok(())
    }

    #[test]
    fn unit_refusals() {
        assert!(dew_point_c(61.0, 0.5).is_err());
        assert!(dew_point_c(20.0, 0.0).is_err());
        assert!(dew_point_c(20.0, 1.1).is_err());
        assert!(dew_point_c(f64::NAN, 0.5).is_err());
    }

    proptest! {
        /// Never above the air's own temperature, which it reaches when the air is saturated; and it rises
        /// with both.
        #[test]
        fn law_dew_point(air in -45.0..55.0_f64, humidity in 0.02..1.0_f64, more in 0.0..5.0_f64) {
            let dew = dew_point_c(air, humidity)?;
            prop_assert!(dew <= air + 1e-9);
            prop_assert!((dew_point_c(air, 1.0)? - air).abs() < 1e-9);
            prop_assert!(dew_point_c(air + more, humidity)? >= dew);
            prop_assert!(dew_point_c(air, humidity / 1.1)? < dew);
        }
    }
}
