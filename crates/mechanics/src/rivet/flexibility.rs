//! The slip of one fastener under its load.

use crate::failure::{self, Failure};

/// What clamps what: the kinds of joint for which Huth measured his constants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fastening {
    /// Rivets in metal: a = 2/5, b = 2.2.
    RivetedMetal,
    /// Bolts in metal: a = 2/3, b = 3.0.
    BoltedMetal,
    /// Bolts in carbon-fibre laminate: a = 2/3, b = 4.2.
    BoltedLaminate,
}

impl Fastening {
    /// Huth's exponent a and factor b.
    const fn constants(self) -> (f64, f64) {
        match self {
            Self::RivetedMetal => (2.0 / 5.0, 2.2),
            Self::BoltedMetal => (2.0 / 3.0, 3.0),
            Self::BoltedLaminate => (2.0 / 3.0, 4.2),
        }
    }
}

/// In how many planes a fastener is sheared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShearPlanes {
    /// Two plates, one plane.
    One,
    /// A middle plate between two outer ones.
    Two,
}

impl ShearPlanes {
    /// Their number.
    #[must_use]
    pub const fn count(self) -> f64 {
        match self {
            Self::One => 1.0,
            Self::Two => 2.0,
        }
    }
}

/// A plate that a fastener goes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// Thickness t, mm.
    pub thickness_mm: f64,
    /// Young's modulus E, MPa.
    pub youngs_modulus_mpa: f64,
}

/// One fastener in its plates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fastened {
    /// Plate 1; in double shear the middle plate.
    pub first: Plate,
    /// Plate 2; in double shear each of the two outer plates.
    pub second: Plate,
    /// Shank diameter d, mm.
    pub diameter_mm: f64,
    /// Young's modulus E_f of the fastener, MPa.
    pub youngs_modulus_mpa: f64,
}

impl Fastened {
    fn check(&self) -> Result<(), Failure> {
        failure::positive("thickness of plate 1", self.first.thickness_mm)?;
        failure::positive("thickness of plate 2", self.second.thickness_mm)?;
        failure::positive("Young's modulus of plate 1", self.first.youngs_modulus_mpa)?;
        failure::positive("Young's modulus of plate 2", self.second.youngs_modulus_mpa)?;
        failure::positive("fastener diameter", self.diameter_mm)?;
        failure::positive("Young's modulus of the fastener", self.youngs_modulus_mpa)?;
        Ok(())
    }
}

/// Slip between the plates for each newton that the fastener transfers, mm/N, after Huth.
///
/// ```text
/// C = ((t₁ + t₂)/(2 d))ᵃ (b/n) [1/(t₁ E₁) + 1/(n t₂ E₂) + 1/(2 t₁ E_f) + 1/(2 n t₂ E_f)]
/// ```
///
/// t thickness (mm), E Young's modulus (MPa), d shank diameter (mm), E_f modulus of the fastener
/// (MPa), n number of shear planes, a and b constants of the [`Fastening`]. In double shear plate 1
/// is the middle plate, and C belongs to its whole load.
///
/// Empirical, elastic, from load-displacement tests of aircraft joints; tight holes. A blind rivet
/// with a hollow or loose stem gives more. In single shear the form is symmetric in the plates; the
/// English print has n in place of 2 in the third term, which spoils that.
///
/// After Huth 1984 (LBF report FB-172) and 1986 (ASTM STP 927, 221–250); form, constants and the
/// middle plate read in a secondary source, the papers themselves not seen. Sources disagree on
/// which plate is 1 in double shear; the middle one is consistent.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn huth_mm_n(fastening: Fastening, planes: ShearPlanes, fastened: &Fastened) -> Result<f64, Failure> {
    fastened.check()?;
    let (a, b) = fastening.constants();
    let n = planes.count();
    let Fastened { first, second, diameter_mm: d, youngs_modulus_mpa: ef } = *fastened;
    let (t1, t2) = (first.thickness_mm, second.thickness_mm);
    let (e1, e2) = (first.youngs_modulus_mpa, second.youngs_modulus_mpa);
    let slip = 1.0 / (t1 * e1) + 1.0 / (n * t2 * e2) + 1.0 / (2.0 * t1 * ef) + 1.0 / (2.0 * n * t2 * ef);
    flexibility(libm::pow((t1 + t2) / (2.0 * d), a) * b / n * slip)
}

/// Slip between two plates for each newton that a fastener in single shear transfers, mm/N, after
/// Swift: to compare with [`huth_mm_n`].
///
/// ```text
/// C = 5/(d E_f) + 0.8 (1/(t₁ E₁) + 1/(t₂ E₂))
/// ```
///
/// Symbols as there. Empirical, for metal aircraft joints.
///
/// After Swift 1971 (ASTM STP 486), the Douglas formula (read in secondary sources).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn swift_mm_n(fastened: &Fastened) -> Result<f64, Failure> {
    fastened.check()?;
    let plate = |plate: Plate| 1.0 / (plate.thickness_mm * plate.youngs_modulus_mpa);
    flexibility(
        5.0 / (fastened.diameter_mm * fastened.youngs_modulus_mpa)
            + 0.8 * (plate(fastened.first) + plate(fastened.second)),
    )
}

/// Stiffness of a row of fasteners for each millimetre of its width, N/mm².
///
/// ```text
/// k = 1/(C p)
/// ```
///
/// C flexibility of one fastener (mm/N), p pitch along the row (mm). It acts on the slip at the
/// interface. Formula.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn per_width_n_mm2(flexibility_mm_n: f64, pitch_mm: f64) -> Result<f64, Failure> {
    failure::positive("fastener flexibility", flexibility_mm_n)?;
    failure::positive("pitch", pitch_mm)?;
    failure::number("stiffness per width", 1.0 / (flexibility_mm_n * pitch_mm))
}

/// Greatest stiffness that a fastener can have against opening of its plates, N/mm: a solid shank
/// that stretches over the grip.
///
/// ```text
/// k ≤ E_f (π d²/4)/g
/// ```
///
/// E_f Young's modulus (MPa), d shank diameter, g grip (mm). Heads that bend, a hollow shank and
/// walls that give under the head make it softer, a blind rivet several times so. Formula.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, or [`Failure::NoNumber`].
pub fn greatest_axial_n_mm(youngs_modulus_mpa: f64, diameter_mm: f64, grip_mm: f64) -> Result<f64, Failure> {
    failure::positive("Young's modulus of the fastener", youngs_modulus_mpa)?;
    failure::positive("fastener diameter", diameter_mm)?;
    failure::positive("grip", grip_mm)?;
    let area_mm2 = 0.25 * std::f64::consts::PI * diameter_mm * diameter_mm;
    failure::number("axial stiffness", youngs_modulus_mpa * area_mm2 / grip_mm)
}

/// A flexibility whose reciprocal is a number, too.
fn flexibility(mm_n: f64) -> Result<f64, Failure> {
    failure::number("fastener stiffness", 1.0 / mm_n)?;
    failure::number("fastener flexibility", mm_n)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn sheets() -> Fastened {
        let plate = Plate { thickness_mm: 2.0, youngs_modulus_mpa: 70e3 };
        Fastened { first: plate, second: plate, diameter_mm: 4.8, youngs_modulus_mpa: 70e3 }
    }

    fn riveted(fastened: &Fastened) -> f64 {
        huth_mm_n(Fastening::RivetedMetal, ShearPlanes::One, fastened).unwrap()
    }

    /// FAST-HUTH: the formula evaluated elsewhere to 16 digits; single shear, rivets in metal.
    #[test]
    fn val_huths_flexibility() {
        let mut joint = sheets();
        assert!((riveted(&joint) / 3.321_478_175_645_929e-5 - 1.0).abs() < 1e-13);
        assert!((1.0 / riveted(&joint) - 30_107.077_244_472_024).abs() < 1e-8);
        joint.second.thickness_mm = 3.0;
        assert!((1.0 / riveted(&joint) - 33_043.484_454_391_94).abs() < 1e-8);
        joint.second.thickness_mm = 2.0;
        joint.youngs_modulus_mpa = 205e3;
        assert!((1.0 / riveted(&joint) - 38_574.692_719_479_8).abs() < 1e-8);
    }

    /// FAST-SWIFT: a worked sheet in inches and pounds, printed to four digits, and its metric
    /// twin evaluated elsewhere. The formula has no unit of its own.
    #[test]
    fn val_swifts_flexibility() {
        let skin = Plate { thickness_mm: 0.09, youngs_modulus_mpa: 10.5e6 };
        let sheet = Fastened { first: skin, second: skin, diameter_mm: 0.15625, youngs_modulus_mpa: 29e6 };
        let flexibility = swift_mm_n(&sheet).unwrap();
        assert!((flexibility - 2.797e-6).abs() < 0.5e-9);
        assert!((1.0 / flexibility - 357_581.0).abs() < 0.5);
        assert!((1.0 / swift_mm_n(&sheets()).unwrap() - 38_009.049_773_755_66).abs() < 1e-8);
    }

    /// Double shear: every term of the bracket that belongs to the outer plates, and b, are halved.
    #[test]
    fn unit_huth_in_double_shear_takes_plate_1_as_the_middle_one() {
        let mut joint = sheets();
        joint.first.thickness_mm = 5.0;
        let double = huth_mm_n(Fastening::BoltedMetal, ShearPlanes::Two, &joint).unwrap();
        let bracket = 1.0 / (5.0 * 70e3) + 1.0 / (4.0 * 70e3) + 1.0 / (10.0 * 70e3) + 1.0 / (8.0 * 70e3);
        let by_hand = libm::pow(7.0 / 9.6, 2.0 / 3.0) * 1.5 * bracket;
        assert!((double / by_hand - 1.0).abs() < 1e-14);
        std::mem::swap(&mut joint.first, &mut joint.second);
        let swapped = huth_mm_n(Fastening::BoltedMetal, ShearPlanes::Two, &joint).unwrap();
        assert!(swapped > 1.05 * double);
        let laminate = huth_mm_n(Fastening::BoltedLaminate, ShearPlanes::Two, &joint).unwrap();
        assert!((laminate / swapped - 4.2 / 3.0).abs() < 1e-14);
    }

    #[test]
    fn unit_stiffness_per_width_and_of_the_shank() {
        // 1/(2.5e-5 · 40) = 1000
        assert!((per_width_n_mm2(2.5e-5, 40.0).unwrap() - 1000.0).abs() < 1e-10);
        // 70 000 · π · 2²/4 / 7 = 10 000 π
        assert!((greatest_axial_n_mm(70e3, 2.0, 7.0).unwrap() - 31_415.926_535_897_93).abs() < 1e-9);
    }

    #[test]
    fn unit_refuses_and_names_what_is_out_of_range() {
        let thin = Plate { thickness_mm: 0.0, youngs_modulus_mpa: 70e3 };
        let joint = Fastened { second: thin, ..sheets() };
        let refused = Err(Failure::NotPositive { argument: "thickness of plate 2", found: 0.0 });
        assert_eq!(swift_mm_n(&joint), refused);
        let tiny = Fastened { youngs_modulus_mpa: f64::MIN_POSITIVE, diameter_mm: 1e-9, ..sheets() };
        assert!(matches!(
            huth_mm_n(Fastening::RivetedMetal, ShearPlanes::One, &tiny),
            Err(Failure::NoNumber { .. })
        ));
        assert!(matches!(per_width_n_mm2(1e-300, 1e-300), Err(Failure::NoNumber { .. })));
    }

    fn joint() -> impl Strategy<Value = Fastened> {
        let plate = || {
            (0.5..8.0_f64, 40e3..210e3_f64)
                .prop_map(|(thickness_mm, youngs_modulus_mpa)| Plate { thickness_mm, youngs_modulus_mpa })
        };
        (plate(), plate(), 2.0..10.0_f64, 40e3..210e3_f64).prop_map(
            |(first, second, diameter_mm, youngs_modulus_mpa)| Fastened {
                first,
                second,
                diameter_mm,
                youngs_modulus_mpa,
            },
        )
    }

    proptest! {
        /// In single shear it does not matter which plate is called 1.
        #[test]
        fn law_single_shear_is_symmetric_in_the_plates(joint in joint()) {
            let turned = Fastened { first: joint.second, second: joint.first, ..joint };
            prop_assert!((riveted(&joint) / riveted(&turned) - 1.0).abs() < 1e-13);
            prop_assert!(
                (swift_mm_n(&joint).unwrap() / swift_mm_n(&turned).unwrap() - 1.0).abs() < 1e-13
            );
        }

        /// Lengths times c leave E d C as it is: C scales with 1/c, with 1/E for all moduli.
        #[test]
        fn law_flexibility_scales_with_size_and_modulus(joint in joint(), c in 0.1..10.0_f64, e in 0.1..10.0_f64) {
            let scaled = |plate: Plate| Plate {
                thickness_mm: c * plate.thickness_mm,
                youngs_modulus_mpa: e * plate.youngs_modulus_mpa,
            };
            let larger = Fastened {
                first: scaled(joint.first),
                second: scaled(joint.second),
                diameter_mm: c * joint.diameter_mm,
                youngs_modulus_mpa: e * joint.youngs_modulus_mpa,
            };
            prop_assert!((riveted(&joint) / riveted(&larger) / (c * e) - 1.0).abs() < 1e-12);
        }
    }
}
