//! Cure kinetics of an aerospace epoxy after Lee, Loos and Springer: a law whose rate jumps, held against the same
//! integration as that of Kamal and Sourour.

use crate::arrhenius::GAS_CONSTANT_J_MOL_K;

/// Above this conversion another reaction governs.
const CHANGE: f64 = 0.3;

/// dα/dt at a temperature and a conversion, 1/s.
///
/// ```text
/// dα/dt = (K₁ + K₂ α) (1 − α) (B − α)    up to α = 0.3
/// dα/dt = K₃ (1 − α)                     above             K_i = A_i exp(−E_i/(R T))
/// A₁ = 2.101e9, A₂ = −2.014e9, A₃ = 1.960e5 /min   E = 80.7, 77.8, 56.6 kJ/mol   B = 0.47
/// ```
///
/// Valid for that resin, which is cured between about 110 and 180 °C. Source: Lee, Loos and Springer 1982, Journal of
/// Composite Materials 16, 510-520: law and constants from memory, and the same in two open programs that were
/// read (one writes 2.102e9); the paper was not at hand.
pub fn rate_per_s(temperature_k: f64, conversion: f64) -> f64 {
    let k = |rate_per_min: f64, activation_j_mol: f64| {
        rate_per_min / 60.0 * libm::exp(-activation_j_mol / (GAS_CONSTANT_J_MOL_K * temperature_k))
    };
    if conversion <= CHANGE {
        (k(2.101e9, 80.7e3) + k(-2.014e9, 77.8e3) * conversion) * (1.0 - conversion) * (0.47 - conversion)
    } else {
        k(1.960e5, 56.6e3) * (1.0 - conversion)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand at 177 °C, R T = 3742.76 J/mol: K₁ = 0.9085, K₂ = −1.8900, K₃ = 0.05304 /min.
    #[test]
    fn unit_rates_by_hand() {
        let at = |conversion| 60.0 * rate_per_s(450.15, conversion);
        for (conversion, by_hand) in
            [(0.0, 0.9085 * 0.47), (0.2, (0.9085 - 0.2 * 1.8900) * 0.8 * 0.27), (0.5, 0.5 * 0.05304)]
        {
            // Four figures are given by hand.
            assert!(
                (at(conversion) / by_hand - 1.0).abs() < 1e-4,
                "{conversion}: {} {by_hand}",
                at(conversion)
            );
        }
    }
}
