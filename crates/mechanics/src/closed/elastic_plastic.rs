//! Hart-Smith's double lap: adhesive elastic, then perfectly plastic up to its failure strain.

use super::double_lap::DoubleLap;
use crate::failure::{self, Failure};

/// The adhesive's shear stress against strain: elastic to the strength, level to the failure strain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plastic {
    /// Shear strength τ_p, MPa.
    pub shear_strength_mpa: f64,
    /// Shear strain at failure γ_f, elastic and plastic part together.
    pub strain_at_failure: f64,
}

/// Loads at which the failure strain is reached at either end, N/mm of inner load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndLoads {
    /// Where the inner plate is loaded.
    pub inner_n_mm: f64,
    /// Where the outer plates are loaded.
    pub outer_n_mm: f64,
}

impl EndLoads {
    /// The load that the joint carries: the lesser, and none where the temperature alone is too
    /// much for an end, N/mm.
    #[must_use]
    pub fn capacity_n_mm(&self) -> f64 {
        f64::max(0.0, f64::min(self.inner_n_mm, self.outer_n_mm))
    }
}

/// The quantities of the equation γ'' = (Λ/h) τ(γ).
struct Field {
    /// γ_e = τ_p/G.
    yield_strain: f64,
    failure_strain: f64,
    /// Λ = 2/(E_i t_i) + 1/(E_o t_o), mm/N.
    flexibility: f64,
    /// λ² = G Λ/h, 1/mm².
    rate_squared: f64,
    /// (α_i − α_o) ΔT.
    mismatch: f64,
}

impl Field {
    fn new(joint: &DoubleLap, plastic: &Plastic, temperature_change_k: f64) -> Result<Self, Failure> {
        joint.check()?;
        failure::positive("shear strength", plastic.shear_strength_mpa)?;
        failure::finite("temperature change", temperature_change_k)?;
        let yield_strain = plastic.shear_strength_mpa / joint.layer.shear_modulus_mpa;
        // Below the strain at which the strength is reached there is no such adhesive.
        failure::within("shear strain at failure", plastic.strain_at_failure, yield_strain, f64::MAX)?;
        let flexibility = 2.0 / joint.inner_stiffness() + 2.0 / joint.outer_stiffness();
        Ok(Self {
            yield_strain,
            failure_strain: plastic.strain_at_failure,
            flexibility,
            rate_squared: joint.layer.shear_modulus_mpa * flexibility / joint.layer.thickness_mm,
            mismatch: joint.mismatch(temperature_change_k),
        })
    }
}

/// Capacity of a double lap whose overlap is long, at either end.
///
/// ```text
/// P_i = E_i t_i   (sqrt(2 h Λ U) − (α_i − α_o) ΔT)        U = τ_p (γ_e/2 + γ_p)
/// P_o = 2 E_o t_o (sqrt(2 h Λ U) + (α_i − α_o) ΔT)        Λ = 2/(E_i t_i) + 1/(E_o t_o)
///
/// without temperature: P_i = sqrt(2 h U · 2 E_i t_i (1 + E_i t_i/(2 E_o t_o)))
///                      P_o = sqrt(2 h U · 4 E_o t_o (1 + 2 E_o t_o/(E_i t_i)))
/// ```
///
/// P whole load of the inner plate (N/mm), on two bondlines; τ_p shear strength (MPa), γ_e = τ_p/G
/// elastic and γ_p plastic strain, h bondline (mm), E, t, α of the inner (i) and each outer (o)
/// plate. The lesser counts. The thermal part changes sign between the ends.
///
/// Plates elastic and only stretching; the middle of the overlap unstressed. A thicker bondline
/// comes out stronger in this model, and is not.
///
/// After Hart-Smith 1973, Adhesive-bonded double-lap joints, NASA CR-112235 (from memory, re-derived
/// from the first integral of γ'' = (Λ/h) τ).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn long_overlap(
    joint: &DoubleLap,
    plastic: &Plastic,
    temperature_change_k: f64,
) -> Result<EndLoads, Failure> {
    let field = Field::new(joint, plastic, temperature_change_k)?;
    let energy = plastic.shear_strength_mpa * (field.failure_strain - 0.5 * field.yield_strain);
    let strain = libm::sqrt(2.0 * joint.layer.thickness_mm * field.flexibility * energy);
    let inner_n_mm = joint.inner_stiffness() * (strain - field.mismatch);
    let outer_n_mm = joint.outer_stiffness() * (strain + field.mismatch);
    Ok(EndLoads {
        inner_n_mm: failure::number("capacity", inner_n_mm)?,
        outer_n_mm: failure::number("capacity", outer_n_mm)?,
    })
}

/// Capacity of a double lap of any overlap, at either end: the load at which the end strains to
/// failure.
///
/// ```text
/// γ'' = (Λ/h) τ(γ)        γ'(0) = −(P/(E_i t_i) + (α_i − α_o) ΔT)/h
///                         γ'(L) =  (P/(2 E_o t_o) − (α_i − α_o) ΔT)/h
/// ```
///
/// with γ = γ_f at one end, solved piece by piece (parabola where plastic, hyperbolic functions
/// where elastic) and by bisection for P, which never exceeds 2 τ_p L. Symbols, assumptions and
/// source as [`long_overlap`], to which it tends.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn any_overlap(
    joint: &DoubleLap,
    plastic: &Plastic,
    temperature_change_k: f64,
) -> Result<EndLoads, Failure> {
    let field = Field::new(joint, plastic, temperature_change_k)?;
    let most = 2.0 * plastic.shear_strength_mpa * joint.overlap_mm;
    let h = joint.layer.thickness_mm;
    let (inner, outer) = (joint.inner_stiffness(), joint.outer_stiffness());
    // From the end that fails, with the stiffness loaded there, to the other one.
    let end_load = |near: f64, far: f64, mismatch: f64| {
        bisect(-most, most, |load| {
            let start = [field.failure_strain, -(load / near + mismatch) / h];
            let [_, slope] = field.march(start, joint.overlap_mm);
            slope - (load / far - mismatch) / h
        })
    };
    Ok(EndLoads {
        inner_n_mm: failure::number("capacity", end_load(inner, outer, field.mismatch))?,
        outer_n_mm: failure::number("capacity", end_load(outer, inner, -field.mismatch))?,
    })
}

impl Field {
    /// (γ, γ') at the distance `length` from where they are `state`.
    fn march(&self, mut state: [f64; 2], mut length: f64) -> [f64; 2] {
        // Plastic, elastic, plastic: once left, the elastic strains do not come back.
        for _ in 0..3 {
            let (gone, next) = if state[0].abs() >= self.yield_strain && state[0] * state[1] < 0.0 {
                self.plastic(state, length)
            } else if state[0].abs() >= self.yield_strain {
                return self.plastic(state, length).1;
            } else {
                self.elastic(state, length)
            };
            state = next;
            length -= gone;
            if length <= 0.0 {
                break;
            }
        }
        state
    }

    /// Goes on while plastic, at most over `length`; gives the distance gone.
    fn plastic(&self, [strain, slope]: [f64; 2], length: f64) -> (f64, [f64; 2]) {
        let sign = strain.signum();
        let (excess, fall) = (strain.abs() - self.yield_strain, -sign * slope);
        let curve = self.rate_squared * self.yield_strain;
        let root = fall * fall - 2.0 * curve * excess;
        let reach =
            if fall > 0.0 && root >= 0.0 { 2.0 * excess / (fall + libm::sqrt(root)) } else { f64::INFINITY };
        if reach < length {
            // Just inside: the next stretch is elastic.
            let inside = sign * self.yield_strain * (1.0 - f64::EPSILON);
            (reach, [inside, slope + sign * curve * reach])
        } else {
            let strain = strain + slope * length + 0.5 * sign * curve * length * length;
            (length, [strain, slope + sign * curve * length])
        }
    }

    /// Goes on while elastic, at most over `length`; gives the distance gone.
    fn elastic(&self, [strain, slope]: [f64; 2], length: f64) -> (f64, [f64; 2]) {
        let rate = libm::sqrt(self.rate_squared);
        // γ = a exp(λ x) + b exp(−λ x)
        let (a, b) = (0.5 * (strain + slope / rate), 0.5 * (strain - slope / rate));
        let root = libm::sqrt(f64::max(0.0, self.yield_strain * self.yield_strain - 4.0 * a * b));
        let growth = (self.yield_strain + root) / (2.0 * a.abs());
        let reach = libm::log(growth) / rate;
        if reach < length {
            let slope = rate * (a * growth - b / growth);
            (reach, [self.yield_strain.copysign(a), slope])
        } else {
            // Within reach of the yield strain: a exp(λ x) does not overflow.
            let up = if a == 0.0 { 0.0 } else { a * libm::exp(rate * length) };
            let down = b * libm::exp(-rate * length);
            (length, [up + down, rate * (up - down)])
        }
    }
}

/// The root of a falling function between two bounds, to the last digit.
fn bisect(mut below: f64, mut above: f64, f: impl Fn(f64) -> f64) -> f64 {
    loop {
        let middle = 0.5 * (below + above);
        if middle <= below || middle >= above {
            return middle;
        }
        if f(middle) > 0.0 {
            below = middle;
        } else {
            above = middle;
        }
    }
}

/// The overlap that a load needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OverlapNeeded {
    /// Both plastic zones by the rule, P/(2 τ_p), mm.
    pub plastic_mm: f64,
    /// Elastic trough between them, 6/λ, mm.
    pub trough_mm: f64,
    /// The least overlap with such a trough, whose own share of the load is counted, mm.
    pub least_mm: f64,
    /// Shear in the middle of the trough, τ_p/cosh 3, MPa: little enough not to creep.
    pub trough_shear_mpa: f64,
}

impl OverlapNeeded {
    /// The overlap by the rule, mm.
    #[must_use]
    pub fn total_mm(&self) -> f64 {
        self.plastic_mm + self.trough_mm
    }
}

/// Hart-Smith's overlap for a load: two plastic zones and an elastic trough.
///
/// ```text
/// L = P/(2 τ_p) + 6/λ        λ² = (G/h) (2/(E_i t_i) + 1/(E_o t_o))
///
/// least: L = 6/λ + max(0, P/(2 τ_p) − (2/λ) tanh 3)
/// ```
///
/// Symbols as [`long_overlap`]. The rule leaves out what the trough carries; the least does not, and
/// is exact for members of equal stiffness. Whether the ends stand the load is another question:
/// [`long_overlap`].
///
/// After Hart-Smith 1973, NASA CR-112235, and 1983; as in MIL-HDBK-17-3F chapter 6 (from memory).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn overlap_needed(
    joint: &DoubleLap,
    plastic: &Plastic,
    load_n_mm: f64,
) -> Result<OverlapNeeded, Failure> {
    let field = Field::new(joint, plastic, 0.0)?;
    failure::not_negative("load", load_n_mm)?;
    let rate = libm::sqrt(field.rate_squared);
    let plastic_mm = load_n_mm / (2.0 * plastic.shear_strength_mpa);
    let trough_mm = 6.0 / rate;
    let carried_mm = 2.0 / rate * libm::tanh(3.0);
    Ok(OverlapNeeded {
        plastic_mm: failure::number("plastic zones", plastic_mm)?,
        trough_mm: failure::number("elastic trough", trough_mm)?,
        least_mm: trough_mm + f64::max(0.0, plastic_mm - carried_mm),
        trough_shear_mpa: plastic.shear_strength_mpa / libm::cosh(3.0),
    })
}

/// Peel at the ends of a double lap's outer plates when the bond there is plastic, MPa.
///
/// ```text
/// σ = τ_p (3 E_c (1 − ν²) t_o/(E_o h))^(1/4)
/// ```
///
/// τ_p shear strength, E_c Young's modulus of the adhesive (MPa), h bondline, t_o, E_o, ν of an
/// outer plate (mm, MPa, –). The end shear on the plate's face bends it, like a beam on an elastic
/// bed. Grows with the outer thickness: hence tapered ends.
///
/// After Hart-Smith 1973, NASA CR-112235 (from memory, re-derived).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn end_peel_mpa(joint: &DoubleLap, plastic: &Plastic) -> Result<f64, Failure> {
    Field::new(joint, plastic, 0.0)?;
    let outer = &joint.outer;
    let flat = 1.0 - outer.poissons_ratio * outer.poissons_ratio;
    let ratio = 3.0 * joint.layer.youngs_modulus_mpa * flat * outer.thickness_mm
        / (outer.youngs_modulus_mpa * joint.layer.thickness_mm);
    failure::number("peel", plastic.shear_strength_mpa * libm::sqrt(libm::sqrt(ratio)))
}

#[cfg(test)]
mod tests {
    use super::super::double_lap::elastic;
    use super::super::lap::Layer;
    use super::*;
    use crate::Adherend;
    use proptest::prelude::*;

    fn plate(thickness_mm: f64, alpha: f64) -> Adherend {
        Adherend {
            youngs_modulus_mpa: 70_000.0,
            poissons_ratio: 0.33,
            thickness_mm,
            thermal_expansion_per_k: alpha,
        }
    }

    /// The double lap of HS-DLJ-1; E_c as in HS-PEEL-DLJ-1.
    fn balanced() -> (DoubleLap, Plastic) {
        let layer = Layer { youngs_modulus_mpa: 2500.0, shear_modulus_mpa: 800.0, thickness_mm: 0.25 };
        let joint = DoubleLap { inner: plate(4.0, 23e-6), outer: plate(2.0, 23e-6), layer, overlap_mm: 60.0 };
        (joint, Plastic { shear_strength_mpa: 30.0, strain_at_failure: 0.1375 })
    }

    fn near(found: f64, expected: f64, share: f64) {
        assert!((found - expected).abs() <= share * expected.abs(), "{found} for {expected}");
    }

    /// HS-DLJ-1: Hart-Smith 1973, NASA CR-112235; formula from memory, re-derived from the first
    /// integral and met by a numerical solution (γ = 0.1375 at the end at 1412.4 N/mm).
    #[test]
    fn val_balanced_long_overlap() {
        let (joint, plastic) = balanced();
        let ends = long_overlap(&joint, &plastic, 0.0).unwrap();
        near(ends.inner_n_mm, 1_412.444_689_182_553_5, 1e-12);
        near(ends.outer_n_mm, 1_412.444_689_182_553_5, 1e-12);
        let brittle = Plastic { strain_at_failure: 0.0375, ..plastic };
        let elastic_only = long_overlap(&joint, &brittle, 0.0).unwrap().capacity_n_mm();
        near(elastic_only, 561.248_608_016_091_2, 1e-12);
        let rate = elastic(&joint, 1.0, 0.0).unwrap().rate_per_mm();
        near(rate, 0.213_808_993_529_939_5, 1e-12);
    }

    /// HS-OVERLAP-1: Hart-Smith 1973 and 1983, MIL-HDBK-17-3F chapter 6; formula from memory.
    #[test]
    fn val_overlap_for_the_full_capacity() {
        let (joint, plastic) = balanced();
        let needed = overlap_needed(&joint, &plastic, 1_412.444_689_182_553_5).unwrap();
        near(needed.plastic_mm, 23.540_744_819_709_225, 1e-12);
        near(needed.trough_mm, 28.062_430_400_804_56, 1e-12);
        near(needed.total_mm(), 51.603_175_220_513_78, 1e-12);
        near(needed.least_mm, 42.295_290_297_072_58, 1e-12);
        near(needed.trough_shear_mpa / 30.0, 0.099_327_927_419_433_2, 1e-12);
    }

    /// HS-PEEL-DLJ-1: Hart-Smith 1973, NASA CR-112235; formula from memory, re-derived.
    #[test]
    fn val_peel_of_the_outer_plates() {
        let (joint, plastic) = balanced();
        near(end_peel_mpa(&joint, &plastic).unwrap(), 28.045_692_514_036_304, 1e-12);
    }

    /// The trough of a 60 mm overlap leaves τ_p/cosh(λ L_e/2) in the middle, of which the square,
    /// 2e-4, is missing in the long overlap's energy.
    #[test]
    fn cross_any_overlap_tends_to_the_long_one() {
        let (mut joint, plastic) = balanced();
        let long = long_overlap(&joint, &plastic, 0.0).unwrap();
        near(any_overlap(&joint, &plastic, 0.0).unwrap().inner_n_mm, long.inner_n_mm, 1e-4);
        for overlap_mm in [120.0, 1e4, 1e6] {
            joint.overlap_mm = overlap_mm;
            joint.outer = plate(1.7, 12e-6);
            let long = long_overlap(&joint, &plastic, -60.0).unwrap();
            let any = any_overlap(&joint, &plastic, -60.0).unwrap();
            near(any.inner_n_mm, long.inner_n_mm, 1e-9);
            near(any.outer_n_mm, long.outer_n_mm, 1e-9);
        }
    }

    #[test]
    fn unit_short_overlap_is_plastic_all_along() {
        let (joint, plastic) = balanced();
        let short = DoubleLap { overlap_mm: 4.0, ..joint };
        near(any_overlap(&short, &plastic, 0.0).unwrap().capacity_n_mm(), 240.0, 1e-12);
    }

    #[test]
    fn unit_temperature_alone_may_use_up_the_bond() {
        let (mut joint, plastic) = balanced();
        joint.outer = plate(2.0, 12e-6);
        assert!(long_overlap(&joint, &plastic, -3000.0).unwrap().capacity_n_mm() == 0.0);
        assert!(any_overlap(&joint, &plastic, -3000.0).unwrap().capacity_n_mm() == 0.0);
    }

    #[test]
    fn unit_refuses_a_failure_strain_below_yield() {
        let (joint, plastic) = balanced();
        let brittle = Plastic { strain_at_failure: 0.03, ..plastic };
        assert!(matches!(
            long_overlap(&joint, &brittle, 0.0),
            Err(Failure::OutOfRange { argument: "shear strain at failure", .. })
        ));
    }

    proptest! {
        /// An adhesive that breaks when it yields is elastic: its capacity is that of the elastic
        /// joint, any lengths, stiffnesses and temperature.
        #[test]
        fn cross_brittle_adhesive_meets_the_elastic_joint(
            t_i in 1.0..8.0_f64, t_o in 1.0..8.0_f64, overlap_mm in 2.0..150.0_f64, dt in -80.0..40.0_f64,
        ) {
            let (joint, plastic) = balanced();
            let inner = plate(t_i, 23e-6);
            let joint = DoubleLap { inner, outer: plate(t_o, 12e-6), overlap_mm, ..joint };
            let brittle = Plastic { strain_at_failure: 0.0375, ..plastic };
            let ends = any_overlap(&joint, &brittle, dt).unwrap();
            for (load, end) in [(ends.inner_n_mm, 0), (ends.outer_n_mm, 1)] {
                // At that load the end bears the strength, where no other place is plastic before.
                let shear = elastic(&joint, load, dt).unwrap();
                if shear.ends_mpa()[1 - end].abs() < 30.0 {
                    near(shear.ends_mpa()[end], 30.0, 1e-9);
                }
            }
        }

        /// Longer never carries less; nothing carries more than plastic all along or than an
        /// endless overlap.
        #[test]
        fn law_capacity_grows_with_the_overlap_to_its_limit(
            t_i in 1.0..8.0_f64, t_o in 1.0..8.0_f64, overlap_mm in 2.0..150.0_f64, longer in 1.0..3.0_f64,
        ) {
            let (joint, plastic) = balanced();
            let inner = plate(t_i, 23e-6);
            let joint = DoubleLap { inner, outer: plate(t_o, 23e-6), overlap_mm, ..joint };
            let stretched = DoubleLap { overlap_mm: longer * overlap_mm, ..joint };
            let here = any_overlap(&joint, &plastic, 0.0).unwrap().capacity_n_mm();
            let there = any_overlap(&stretched, &plastic, 0.0).unwrap().capacity_n_mm();
            let limit = long_overlap(&joint, &plastic, 0.0).unwrap().capacity_n_mm();
            prop_assert!(there >= here * (1.0 - 1e-12));
            prop_assert!(here <= 60.0 * overlap_mm * (1.0 + 1e-12));
            prop_assert!(here <= limit * (1.0 + 1e-9));
        }
    }
}
