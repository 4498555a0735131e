//! Volkersen's lap: members that only stretch.

use super::lap::Lap;
use super::shear_lag::{Members, ShearLag};
use crate::failure::{self, Failure};

/// Shear along a single lap whose adherends stretch but do not bend.
///
/// ```text
/// ω² = (G_a/h) (1/(E₁ t₁) + 1/(E₂ t₂))        ψ = E₁ t₁/(E₂ t₂)
///
/// τ_max/τ_mean = (ω L/2) [coth(ω L/2) + ((1 − ψ)/(1 + ψ)) tanh(ω L/2)]        ψ ≤ 1, at x = 0
///
/// thermal part: τ(x) = (ε₂ − ε₁) ω/(1/(E₁ t₁) + 1/(E₂ t₂)) · sinh(ω (x − L/2))/cosh(ω L/2)
/// ```
///
/// E Young's modulus (MPa; E, not E/(1 − ν²)), t thickness (mm), G_a shear modulus of the adhesive
/// (MPa), h bondline (mm), L overlap (mm), ε = α ΔT free thermal strain. The peak stands where the
/// less stiff adherend carries the full load.
///
/// Elastic, no bending: a single lap bends, and its true peak is well above this one. Of the
/// thermal part: a bar model doubles the edge shear where plates may bend.
///
/// After Volkersen 1938, Luftfahrtforschung 15, 41–47 (published); the thermal term from the same
/// equation with free strains (formula).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn solve(lap: &Lap, load_n_mm: f64, temperature_change_k: f64) -> Result<ShearLag, Failure> {
    with_slip_flexibility(
        lap,
        lap.layer.thickness_mm / lap.layer.shear_modulus_mpa,
        load_n_mm,
        temperature_change_k,
    )
}

/// The lap with its slip per unit of shear given, mm/MPa.
pub(super) fn with_slip_flexibility(
    lap: &Lap,
    flexibility_mm_mpa: f64,
    load_n_mm: f64,
    temperature_change_k: f64,
) -> Result<ShearLag, Failure> {
    lap.check()?;
    failure::finite("load", load_n_mm)?;
    failure::finite("temperature change", temperature_change_k)?;
    ShearLag::new(&Members {
        first_n_mm: lap.upper.axial_stiffness_n_mm(),
        second_n_mm: lap.lower.axial_stiffness_n_mm(),
        layer_mpa_mm: 1.0 / flexibility_mm_mpa,
        overlap_mm: lap.overlap_mm,
        load_n_mm,
        mismatch: (lap.lower.thermal_expansion_per_k - lap.upper.thermal_expansion_per_k)
            * temperature_change_k,
    })
}

/// Overlap beyond which a longer one carries no more: ω L = 5, mm.
///
/// ```text
/// l_lim = 5 sqrt(E₁ t₁ h/(G_a (1 + ψ)))
/// ```
///
/// Symbols as in [`solve`]. At this length the two ends no longer feel each other (peak within 1 %
/// of that of the endless overlap). Common practice with Volkersen's solution (as in Willberg,
/// Krafteinleitung und Fügetechniken, seminar, HS Magdeburg-Stendal).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn limit_overlap_mm(lap: &Lap) -> Result<f64, Failure> {
    Ok(5.0 / solve(lap, 0.0, 0.0)?.rate_per_mm())
}

#[cfg(test)]
mod tests {
    use super::super::tests::willberg;
    use super::*;

    /// VOLK-BAL-1: Volkersen 1938; Willberg's worked example 3, as printed and recomputed.
    #[test]
    fn val_willbergs_worked_example() {
        let lag = solve(&willberg(), 6000.0 / 25.0, 0.0).unwrap();
        assert!((lag.bond_number() - 10.141_851_056_742_2).abs() < 1e-12);
        assert!((limit_overlap_mm(&willberg()).unwrap() - 14.790_199_457_749_04).abs() < 1e-12);
        assert!((lag.mean_mpa() - 8.0).abs() < 1e-12);
        assert!((lag.peak().value_mpa - 40.570_600_724_509_92).abs() < 1e-10);
        // As printed.
        assert!((lag.peak().value_mpa - 40.6).abs() < 0.05);
    }

    /// VOLK-LIMITS: Volkersen 1938; formula.
    #[test]
    fn val_limits_of_short_and_long_overlaps() {
        let short = Lap { overlap_mm: 1e-3, ..willberg() };
        let lag = solve(&short, 240.0, 0.0).unwrap();
        // (ω L/2) coth(ω L/2) = 1 + (ω L)²/12 + …
        assert!((lag.peak().value_mpa / lag.mean_mpa() - 1.0).abs() < 1e-7);
        let long = Lap { overlap_mm: 1e4, ..willberg() };
        let lag = solve(&long, 240.0, 0.0).unwrap();
        assert!((lag.peak().value_mpa - 40.567_404_226_968_79).abs() < 1e-10);
    }

    /// The less stiff adherend carries the full load at its own loaded end: there is the peak.
    #[test]
    fn unit_peak_stands_where_the_less_stiff_adherend_is_loaded() {
        let mut lap = willberg();
        lap.upper.thickness_mm = 1.0;
        let lag = solve(&lap, 240.0, 0.0).unwrap();
        assert!(lag.peak().x_mm.abs() < f64::EPSILON);
        // ψ = 1/2: τ_max/τ_mean = (ω L/2) [coth(ω L/2) + tanh(ω L/2)/3].
        let half = 0.5 * lag.bond_number();
        let ratio = half * (1.0 / libm::tanh(half) + libm::tanh(half) / 3.0);
        assert!((lag.peak().value_mpa / lag.mean_mpa() / ratio - 1.0).abs() < 1e-13);
        std::mem::swap(&mut lap.upper, &mut lap.lower);
        let turned = solve(&lap, 240.0, 0.0).unwrap();
        assert!((turned.peak().x_mm - 30.0).abs() < f64::EPSILON);
        assert!((turned.shear_mpa(4.0) - lag.shear_mpa(26.0)).abs() < 1e-12);
    }

    /// Satisfies τ'' = ω² τ and its end conditions: τ' = (G/h) (ε₂ − ε₁) at each end.
    #[test]
    fn law_end_slopes_are_the_difference_of_strains() {
        let mut lap = willberg();
        lap.upper.thickness_mm = 1.2;
        lap.lower.thermal_expansion_per_k = 12e-6;
        let (load, dt) = (150.0, -60.0);
        let lag = solve(&lap, load, dt).unwrap();
        let stiff = lap.layer.shear_modulus_mpa / lap.layer.thickness_mm;
        let mismatch = (lap.lower.thermal_expansion_per_k - lap.upper.thermal_expansion_per_k) * dt;
        // One-sided differences of fourth order, step 1e-3 mm: truncation below 1e-9 of the slope.
        let slope = |x: f64, step: f64| {
            let f = |k: f64| lag.shear_mpa(x + k * step);
            (-25.0 * f(0.0) + 48.0 * f(1.0) - 36.0 * f(2.0) + 16.0 * f(3.0) - 3.0 * f(4.0)) / (12.0 * step)
        };
        let left = stiff * (mismatch - load / lap.upper.axial_stiffness_n_mm());
        let right = stiff * (mismatch + load / lap.lower.axial_stiffness_n_mm());
        assert!((slope(0.0, 1e-3) / left - 1.0).abs() < 1e-7);
        assert!((slope(30.0, -1e-3) / right - 1.0).abs() < 1e-7);
    }

    #[test]
    fn unit_refuses_and_names_what_is_out_of_range() {
        let lap = Lap { overlap_mm: -1.0, ..willberg() };
        let refused = Err(Failure::NotPositive { argument: "overlap", found: -1.0 });
        assert_eq!(solve(&lap, 240.0, 0.0), refused);
        assert!(matches!(
            solve(&willberg(), f64::NAN, 0.0),
            Err(Failure::NotFinite { argument: "load", .. })
        ));
        let mut rubber = willberg();
        rubber.upper.poissons_ratio = 0.5;
        assert!(matches!(solve(&rubber, 240.0, 0.0), Err(Failure::OutOfRange { .. })));
        let short = Lap { overlap_mm: 1e-3, ..willberg() };
        assert!(matches!(solve(&short, f64::MAX, 0.0), Err(Failure::NoNumber { .. })));
    }
}
