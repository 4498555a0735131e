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
