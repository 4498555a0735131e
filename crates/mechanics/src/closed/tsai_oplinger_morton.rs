//! Tsai, Oplinger and Morton's lap: members that stretch and shear.

use super::lap::Lap;
use super::shear_lag::ShearLag;
use super::volkersen;
use crate::failure::Failure;

/// Volkersen's lap with the adherends' own shear, which falls off linearly through each of them.
///
/// ```text
/// h/G_a   becomes   h/G_a + t₁/(3 G₁) + t₂/(3 G₂)
///
/// ω_TOM² = ω² / (1 + (G_a/h) (t₁/G₁ + t₂/G₂)/3)
/// ```
///
/// G₁, G₂ shear moduli of the adherends (MPa), E/(2 (1 + ν)); the other symbols as in
/// [`volkersen::solve`]. It lowers Volkersen's peak, the more so the stiffer the bond; like it, it
/// knows no bending.
///
/// After Tsai, Oplinger and Morton 1998, Int. J. Solids Structures 35, 1163–1185 (from memory; the
/// third re-derived as the mean displacement of a linearly falling shear).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn solve(lap: &Lap, load_n_mm: f64, temperature_change_k: f64) -> Result<ShearLag, Failure> {
    let own = |thickness_mm: f64, modulus_mpa: f64| thickness_mm / (3.0 * modulus_mpa);
    let flexibility_mm_mpa = lap.layer.thickness_mm / lap.layer.shear_modulus_mpa
        + own(lap.upper.thickness_mm, lap.upper.shear_modulus_mpa())
        + own(lap.lower.thickness_mm, lap.lower.shear_modulus_mpa());
    volkersen::with_slip_flexibility(lap, flexibility_mm_mpa, load_n_mm, temperature_change_k)
}

#[cfg(test)]
mod tests {
    use super::super::tests::willberg;
    use super::*;

    /// TOM-1: Tsai, Oplinger and Morton 1998 on VOLK-BAL-1's lap; formula, recomputed.
    #[test]
    fn val_tsai_oplinger_morton_lowers_the_peak_of_willbergs_lap() {
        let lag = solve(&willberg(), 240.0, 0.0).unwrap();
        assert!((lag.bond_number() - 8.555_148_540_452_137).abs() < 1e-5);
        assert!((lag.peak().value_mpa - 34.233_775_131_774_32).abs() < 1e-4);
    }

    #[test]
    fn law_stiff_adherends_meet_volkersen() {
        let mut lap = willberg();
        lap.layer.shear_modulus_mpa = 0.8;
        let plain = volkersen::solve(&lap, 240.0, 40.0).unwrap();
        let sheared = solve(&lap, 240.0, 40.0).unwrap();
        // (G_a/h) (2 t/G)/3 = 4e-4 here: the peaks differ by no more than half of it.
        assert!((sheared.peak().value_mpa / plain.peak().value_mpa - 1.0).abs() < 2e-4);
    }
}
