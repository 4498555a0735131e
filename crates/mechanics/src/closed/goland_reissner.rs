//! Goland and Reissner's lap: equal adherends that stretch and bend, cement flexible.

use super::lap::Lap;
use super::ratio::{cosh_by_sinh, damped_waves};
use crate::failure::{self, Failure};
use crate::peak::Peak;

const NAME: &str = "Goland and Reissner's solution";

/// What acts on the loaded adherend at each end of the overlap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeLoad {
    /// Moment M₀, N·mm/mm, positive where it opens the bond.
    pub moment_n: f64,
    /// Rate V₀ at which the moment grows into the overlap, N/mm: the shear force normal to the
    /// bent adherend.
    pub shear_n_mm: f64,
}

/// Edge moment factor k of a lap whose free adherends are long.
///
/// ```text
/// u₂ c = sqrt(3 (1 − ν²)/2) (c/t) sqrt(P/(t E))        k = 1/(1 + 2√2 tanh(u₂ c))
/// ```
///
/// c half the overlap (mm), t adherend thickness (mm), E, ν of the adherends (MPa, –), P load per
/// width (N/mm, tension). M₀ = k P t/2.
///
/// Equal adherends, bondline thin against them (its thickness is left out), overlap bending as one
/// solid piece 2 t thick. Some 2 to 19 % above a second-order beam solution that keeps the bond's
/// thickness and flexibility.
///
/// After Goland and Reissner 1944, J. Appl. Mech. 11, A17–A27 (published).
///
/// # Errors
///
/// [`Failure::UnequalAdherends`], [`Failure::Negative`] for a compressive load, or a [`Failure`]
/// that names an argument out of range.
pub fn edge_factor(lap: &Lap, load_n_mm: f64) -> Result<f64, Failure> {
    edge_factor_with_arm(lap, load_n_mm, f64::INFINITY)
}

/// Edge moment factor k of a lap whose free adherends have the length l to a pinned end.
///
/// ```text
/// k = 1/(1 + 2√2 tanh(u₂ c)/tanh(u₁ l))        u₁ = 2√2 u₂
/// ```
///
/// l free length (mm, may be infinite); else as [`edge_factor`], of the same source.
///
/// # Errors
///
/// As [`edge_factor`], and for a free length that is not positive.
pub fn edge_factor_with_arm(lap: &Lap, load_n_mm: f64, arm_mm: f64) -> Result<f64, Failure> {
    lap.balanced(NAME)?;
    failure::not_negative("load", load_n_mm)?;
    // Not `positive`: an endless arm is the case of the paper.
    if arm_mm.is_nan() || arm_mm <= 0.0 {
        return Err(Failure::NotPositive { argument: "free length", found: arm_mm });
    }
    let root8 = libm::sqrt(8.0);
    let rate = rate_per_mm(lap, load_n_mm);
    if rate == 0.0 {
        // tanh(u₂ c)/tanh(u₁ l) tends to c/(2√2 l).
        return failure::number("k", 1.0 / (1.0 + 0.5 * lap.overlap_mm / arm_mm));
    }
    let overlap = libm::tanh(0.5 * rate * lap.overlap_mm);
    let arm = libm::tanh(root8 * rate * arm_mm);
    failure::number("k", 1.0 / (1.0 + root8 * overlap / arm))
}

/// u₂ = sqrt(P/D₂), D₂ = 8 E t³/(12 (1 − ν²)), 1/mm.
fn rate_per_mm(lap: &Lap, load_n_mm: f64) -> f64 {
    let plate = &lap.upper;
    let t = plate.thickness_mm;
    let flat = 1.0 - plate.poissons_ratio * plate.poissons_ratio;
    libm::sqrt(1.5 * flat * load_n_mm / (plate.youngs_modulus_mpa * t)) / t
}

/// Edge moment and shear of the lap with long free adherends.
///
/// ```text
/// M₀ = k P t/2        V₀ = k' P t/c        k' = k (c/t) sqrt(3 (1 − ν²) P/(t E))
/// ```
///
/// Symbols, validity, source and errors as [`edge_factor`].
///
/// # Errors
///
/// As [`edge_factor`].
pub fn edge_load(lap: &Lap, load_n_mm: f64) -> Result<EdgeLoad, Failure> {
    let k = edge_factor(lap, load_n_mm)?;
    let moment_n = 0.5 * k * load_n_mm * lap.upper.thickness_mm;
    // In a long arm the moment falls off as exp(−u₁ x): V₀ = u₁ M₀.
    let shear_n_mm = libm::sqrt(8.0) * rate_per_mm(lap, load_n_mm) * moment_n;
    Ok(EdgeLoad { moment_n, shear_n_mm: failure::number("V₀", shear_n_mm)? })
}

/// Shear and peel along the bond for a given edge moment and shear, alike at both ends.
///
/// ```text
/// τ(x) = (β/8t) (P + 6 M₀/t) cosh(β ξ/t)/sinh(β c/t) + (3/8c) (P − 2 M₀/t)        ξ = x − c
///
/// β² = 8 (G_a/E) (t/h)        γ⁴ = 6 (E_a/E) (t/h)        λ = γ c/t
///
/// σ(x) = (1/Δ) [(R₂ M₀ λ²/c² + λ V₀/c · cosh λ cos λ) cosh(λ ξ/c) cos(λ ξ/c)
///             + (R₁ M₀ λ²/c² + λ V₀/c · sinh λ sin λ) sinh(λ ξ/c) sin(λ ξ/c)]
///
/// Δ = (sinh 2λ + sin 2λ)/2    R₁ = cosh λ sin λ + sinh λ cos λ    R₂ = sinh λ cos λ − cosh λ sin λ
/// ```
///
/// With M₀ = k P t/2 the peak shear is (P/8c) ((β c/t) (1 + 3k) coth(β c/t) + 3 (1 − k)). E Young's
/// modulus of the adherends (MPa; E here, though k uses E/(1 − ν²)), t their thickness, h bondline,
/// c half the overlap (mm), E_a, G_a moduli of the adhesive (MPa), P load (N/mm). Both terms of the
/// peel pull where the end opens: with the sign of V₀ turned the peak would come out too low.
///
/// Equal adherends; the lever arm of the shear is t/2, without the bondline; the shear takes the
/// transverse force that balances M₀ over the overlap, V = (P t − 2 M₀)/2c, not V₀.
///
/// After Goland and Reissner 1944, J. Appl. Mech. 11, A17–A27, flexible cement (from memory; as
/// collected by Adams and Wake 1984).
///
/// # Errors
///
/// [`Failure::UnequalAdherends`], or a [`Failure`] that names an argument out of range.
pub fn layer_stresses(lap: &Lap, load_n_mm: f64, edge: EdgeLoad) -> Result<LayerStresses, Failure> {
    let plate = lap.balanced(NAME)?;
    failure::finite("load", load_n_mm)?;
    let m0 = failure::finite("edge moment", edge.moment_n)?;
    let v0 = failure::finite("edge shear", edge.shear_n_mm)?;
    let (e, t) = (plate.youngs_modulus_mpa, plate.thickness_mm);
    let slender = t / lap.layer.thickness_mm;
    let beta = libm::sqrt(8.0 * lap.layer.shear_modulus_mpa / e * slender);
    let gamma = libm::sqrt(libm::sqrt(6.0 * lap.layer.youngs_modulus_mpa / e * slender));
    let half_mm = 0.5 * lap.overlap_mm;
    let stresses = LayerStresses {
        half_mm,
        shear_rate_per_mm: beta / t,
        peel_rate_per_mm: gamma / t,
        shear_wave_mpa: beta / (8.0 * t) * (load_n_mm + 6.0 * m0 / t),
        shear_even_mpa: 3.0 / (8.0 * half_mm) * (load_n_mm - 2.0 * m0 / t),
        moment_part_mpa: m0 * (gamma / t) * (gamma / t),
        shear_part_mpa: v0 * gamma / t,
    };
    failure::number("shear stress", stresses.shear_mpa(0.0))?;
    failure::number("peel stress", stresses.peel_mpa(0.0))?;
    Ok(stresses)
}

/// Stresses of the layer; see [`layer_stresses`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayerStresses {
    half_mm: f64,
    shear_rate_per_mm: f64,
    peel_rate_per_mm: f64,
    shear_wave_mpa: f64,
    shear_even_mpa: f64,
    /// M₀ λ²/c².
    moment_part_mpa: f64,
    /// λ V₀/c.
    shear_part_mpa: f64,
}

impl LayerStresses {
    /// β/t, 1/mm.
    #[must_use]
    pub fn shear_rate_per_mm(&self) -> f64 {
        self.shear_rate_per_mm
    }

    /// γ/t, 1/mm.
    #[must_use]
    pub fn peel_rate_per_mm(&self) -> f64 {
        self.peel_rate_per_mm
    }

    /// Shear at x from the left end of the overlap, MPa.
    #[must_use]
    pub fn shear_mpa(&self, x_mm: f64) -> f64 {
        let rate = self.shear_rate_per_mm;
        self.shear_wave_mpa * cosh_by_sinh(rate * (x_mm - self.half_mm), rate * self.half_mm)
            + self.shear_even_mpa
    }

    /// Peel at x from the left end of the overlap, MPa.
    #[must_use]
    pub fn peel_mpa(&self, x_mm: f64) -> f64 {
        let rate = self.peel_rate_per_mm;
        let [of_moment, of_shear] = damped_waves(rate * (x_mm - self.half_mm), rate * self.half_mm);
        self.moment_part_mpa * of_moment + self.shear_part_mpa * of_shear
    }

    /// Shear at the ends, where it is greatest in a lap under tension.
    #[must_use]
    pub fn end_shear(&self) -> Peak {
        Peak { value_mpa: self.shear_mpa(0.0), x_mm: 0.0 }
    }

    /// Peel at the ends, where it is greatest in a lap under tension.
    #[must_use]
    pub fn end_peel(&self) -> Peak {
        Peak { value_mpa: self.peel_mpa(0.0), x_mm: 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::coupon;
    use super::*;

    fn near(found: f64, expected: f64) {
        assert!((found / expected - 1.0).abs() < 1e-9, "{found} for {expected}");
    }

    /// GR-K-1: Goland and Reissner 1944, formula; the figures recomputed from the exact beam-column
    /// solution with 500 mm arms, and with 60 mm arms.
    #[test]
    fn val_edge_moment_of_a_25_mm_overlap() {
        let lap = coupon();
        near(rate_per_mm(&lap, 200.0) * 12.5, 0.273_111_412_705_511_04);
        near(edge_factor(&lap, 200.0).unwrap(), 0.570_182_091_197_243_3);
        near(edge_load(&lap, 200.0).unwrap().moment_n, 114.036_418_239_448_65);
        assert!((edge_factor_with_arm(&lap, 200.0, 60.0).unwrap() - 0.569_887).abs() < 1e-6);
    }

    /// GR-SHEAR-1: Goland and Reissner 1944, formula from memory, recomputed.
    #[test]
    fn val_peak_shear_of_a_25_mm_overlap() {
        let lap = coupon();
        let stresses = layer_stresses(&lap, 200.0, edge_load(&lap, 200.0).unwrap()).unwrap();
        near(stresses.shear_rate_per_mm() * 2.0, 1.014_185_105_674_22);
        near(stresses.shear_rate_per_mm() * 12.5, 6.338_656_910_463_874);
        near(stresses.end_shear().value_mpa, 36.941_567_689_622_96);
        near(stresses.end_shear().value_mpa / 8.0, 4.617_695_961_202_87);
    }

    /// GR-PEEL-1: Goland and Reissner 1944 as collected by Adams and Wake 1984; from memory, the
    /// figures recomputed and met by a numerical solution of the boundary-value problem.
    #[test]
    fn val_peak_peel_of_a_25_mm_overlap() {
        let lap = coupon();
        let edge = edge_load(&lap, 200.0).unwrap();
        let stresses = layer_stresses(&lap, 200.0, edge).unwrap();
        near(stresses.peel_rate_per_mm() * 12.5, 7.561_854_593_902_749);
        near(edge.shear_n_mm * 12.5 / (200.0 * 2.0), 0.220_225_912_930_651_25);
        near(stresses.end_peel().value_mpa, 45.996_237_555_426_13);
    }

    /// The shear carries the load; the peel hands the edge's transverse force from one adherend to
    /// the other, half of it in each half of the overlap.
    #[test]
    fn law_stresses_balance_load_and_transverse_force() {
        let lap = coupon();
        for k in [0.2, 0.57, 1.0] {
            let moment_n = 0.5 * k * 200.0 * 2.0;
            let shear_n_mm = (200.0 * 2.0 - 2.0 * moment_n) / 25.0;
            let stresses = layer_stresses(&lap, 200.0, EdgeLoad { moment_n, shear_n_mm }).unwrap();
            // Simpson's rule on 20 000 intervals: good to 1e-12 on these smooth functions.
            let n = 20_000_u32;
            let (mut load, mut half) = (0.0, 0.0);
            for j in 0..=n {
                let s = f64::from(j) / f64::from(n);
                let ends = if j == 0 || j == n { 1.0 } else { f64::from(2 + 2 * (j % 2)) };
                let weight = ends / f64::from(3 * n);
                load += weight * 25.0 * stresses.shear_mpa(25.0 * s);
                half += weight * 12.5 * stresses.peel_mpa(12.5 * s);
            }
            near(load, 200.0);
            assert!((half - 0.5 * shear_n_mm).abs() < 1e-9, "{half} {shear_n_mm}");
        }
    }

    #[test]
    fn unit_long_overlaps_do_not_overflow() {
        let lap = Lap { overlap_mm: 1e5, ..coupon() };
        let edge = edge_load(&lap, 200.0).unwrap();
        let stresses = layer_stresses(&lap, 200.0, edge).unwrap();
        let short = Lap { overlap_mm: 100.0, ..lap };
        let close = layer_stresses(&short, 200.0, edge).unwrap();
        near(stresses.end_peel().value_mpa, close.end_peel().value_mpa);
        assert!(stresses.peel_mpa(5e4).abs() < 1e-12);
    }

    #[test]
    fn unit_refuses_unequal_adherends_and_compression() {
        let mut lap = coupon();
        assert!(matches!(edge_factor(&lap, -1.0), Err(Failure::Negative { .. })));
        lap.lower.thickness_mm = 2.5;
        let refused = edge_load(&lap, 200.0);
        let property = "thickness";
        let (upper, lower) = (2.0, 2.5);
        assert_eq!(refused, Err(Failure::UnequalAdherends { formula: NAME, property, upper, lower }));
    }
}
