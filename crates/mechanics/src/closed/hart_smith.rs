//! Hart-Smith's edge moment of a single lap.

use super::lap::Lap;
use crate::failure::{self, Failure};

/// Edge moment factor k of a single lap in tension.
///
/// ```text
/// ξ = sqrt(12 (1 − ν²) P/(E t³))        k = 1/(1 + ξ c + (ξ c)²/6)
/// ```
///
/// c half the overlap (mm), t adherend thickness (mm), E, ν of the adherends (MPa, –), P load per
/// width (N/mm, tension). M₀ = k P (t + h)/2, h the bondline (mm).
///
/// Equal adherends with long free lengths; the upper and lower adherend bend side by side in the
/// overlap. Always below Goland and Reissner's k.
///
/// After Hart-Smith 1973, Adhesive-bonded single-lap joints, NASA CR-112236 (from memory).
///
/// # Errors
///
/// [`Failure::UnequalAdherends`], [`Failure::Negative`] for a compressive load, or a [`Failure`]
/// that names an argument out of range.
pub fn edge_factor(lap: &Lap, load_n_mm: f64) -> Result<f64, Failure> {
    let plate = lap.balanced("Hart-Smith's edge moment")?;
    failure::not_negative("load", load_n_mm)?;
    let t = plate.thickness_mm;
    let flat = 1.0 - plate.poissons_ratio * plate.poissons_ratio;
    let rate = libm::sqrt(12.0 * flat * load_n_mm / (plate.youngs_modulus_mpa * t)) / t;
    let xi_c = 0.5 * rate * lap.overlap_mm;
    failure::number("k", 1.0 / (1.0 + xi_c + xi_c * xi_c / 6.0))
}

#[cfg(test)]
mod tests {
    use super::super::goland_reissner;
    use super::super::tests::coupon;
    use super::*;

    /// HS-K-1: Hart-Smith 1973, NASA CR-112236; formula from memory, recomputed.
    #[test]
    fn val_edge_moment_of_a_25_mm_overlap() {
        let k = edge_factor(&coupon(), 200.0).unwrap();
        assert!((k - 0.534_208_337_308_384_4).abs() < 1e-12);
    }

    #[test]
    fn law_lies_below_goland_and_reissner() {
        for load in [1.0, 10.0, 100.0, 1000.0] {
            let lap = coupon();
            let theirs = goland_reissner::edge_factor(&lap, load).unwrap();
            assert!(edge_factor(&lap, load).unwrap() < theirs, "{load}");
        }
    }
}
