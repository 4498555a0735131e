//! Bearing of blind rivets in sheet.

use super::{Mode, Resistance};
use crate::failure::{self, Failure};

/// The code after which the sheet is judged: its two figures differ by the metal, not by taste.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// Steel sheet: EN 1993-1-3:2006 Table 8.1.
    En1993,
    /// Aluminium sheet: EN 1999-1-4:2007, 8.2.
    En1999,
}

/// A blind rivet through two sheets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RivetedSheet {
    /// Thickness t of the thinner sheet, mm.
    pub thinner_mm: f64,
    /// Thickness t₁ of the thicker sheet or support, mm.
    pub thicker_mm: f64,
    /// Tensile strength f_u of the thinner sheet; after EN 1999-1-4 the lower of the two, MPa.
    pub tensile_strength_mpa: f64,
    /// Nominal diameter d, mm.
    pub diameter_mm: f64,
    /// Distance e₁ from the rivet to the end of the sheet in the direction of the force, mm.
    pub end_distance_mm: f64,
}

/// Bearing factor α of a blind rivet in sheet.
///
/// ```text
/// t₁ = t:        α = min(3.6 √(t/d), 2.1)        EN 1993-1-3     min(2.5 √(t/d), 1.5)   EN 1999-1-4
/// t₁ ≥ 2.5 t:    α = 2.1                                         1.5
/// ```
///
/// t thinner, t₁ thicker sheet, d rivet diameter (mm); linear in t₁/t between. The factors 3.2 of
/// EN 1993-1-3 belong to screws, Table 8.2. Source as in [`bearing`].
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn bearing_factor(
    rule: Rule,
    thinner_mm: f64,
    thicker_mm: f64,
    diameter_mm: f64,
) -> Result<f64, Failure> {
    let t = failure::positive("thickness of the thinner sheet", thinner_mm)?;
    let ratio = failure::positive("thickness of the thicker sheet", thicker_mm)? / t;
    let d = failure::positive("rivet diameter", diameter_mm)?;
    failure::within("thickness of the thicker sheet over the thinner", ratio, 1.0, f64::INFINITY)?;
    let (slope, most) = match rule {
        Rule::En1993 => (3.6, 2.1),
        Rule::En1999 => (2.5, 1.5),
    };
    let alike = (slope * libm::sqrt(t / d)).min(most);
    let supported = ((ratio - 1.0) / 1.5).min(1.0);
    failure::number("bearing factor", alike + (most - alike) * supported)
}

/// Bearing resistance of a blind rivet in sheet.
///
/// ```text
/// F_b,Rk = α f_u d t        EN 1993-1-3 also: F_b,Rk ≤ f_u e₁ t/1.2
/// ```
///
/// α by [`bearing_factor`], f_u tensile strength (MPa; after EN 1999-1-4 no more than 260 counts),
/// d rivet diameter, t thinner sheet, e₁ end distance (mm). Valid for 2.6 ≤ d ≤ 6.4 mm and e₁ ≥
/// 1.5 d, spacing and edge by [`layout`](crate::rivet::layout). The aluminium figures are 0.7 of
/// the steel ones: an aluminium sheet judged by the steel table looks 40 % stronger than its code
/// has it.
///
/// EN 1993-1-3:2006 Table 8.1 (from memory). EN 1999-1-4:2007: the same clause read for screws,
/// equation (8.9); that 8.2 for blind rivets has the same figures, and the limits of d, from memory.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range, also of the rule's range of validity.
pub fn bearing(rule: Rule, sheet: &RivetedSheet, gamma_m2: f64) -> Result<Resistance, Failure> {
    let RivetedSheet { thinner_mm: t, diameter_mm: d, end_distance_mm: e1, .. } = *sheet;
    let alpha = bearing_factor(rule, t, sheet.thicker_mm, d)?;
    let given = failure::positive("tensile strength of the sheet", sheet.tensile_strength_mpa)?;
    // The limits are multiples of converted figures: 1e-9 is rounding, not leave.
    failure::within("rivet diameter", d, 2.6 * (1.0 - 1e-9), 6.4 * (1.0 + 1e-9))?;
    failure::within("end distance over rivet diameter", e1 / d, 1.5 * (1.0 - 1e-9), f64::MAX)?;
    let characteristic_n = match rule {
        Rule::En1993 => (alpha * given * d * t).min(given * e1 * t / 1.2),
        Rule::En1999 => alpha * given.min(260.0) * d * t,
    };
    Resistance::new(Mode::Bearing, characteristic_n, gamma_m2)
}

#[cfg(test)]
mod tests {
    use super::super::GAMMA_M2;
    use super::*;
    use proptest::prelude::*;

    fn sheet() -> RivetedSheet {
        RivetedSheet {
            thinner_mm: 1.0,
            thicker_mm: 1.0,
            tensile_strength_mpa: 240.0,
            diameter_mm: 4.8,
            end_distance_mm: 14.4,
        }
    }

    /// EC3-BLIND-1: EN 1993-1-3 Table 8.1 evaluated elsewhere to 16 digits; and with the factor 3.2
    /// of the screws in place of 3.6.
    #[test]
    fn val_bearing_factor_of_a_blind_rivet() {
        let alpha = bearing_factor(Rule::En1993, 1.0, 1.0, 4.8).unwrap();
        assert!((alpha - 1.643_167_672_515_498_4).abs() < 1e-15);
        assert!((alpha * 3.2 / 3.6 - 1.460_593_486_680_443).abs() < 1e-15);
    }

    #[test]
    fn unit_a_thick_support_brings_the_full_factor_and_between_it_is_a_line() {
        let of = |rule, thick| bearing_factor(rule, 1.0, thick, 4.8).unwrap();
        for (rule, most) in [(Rule::En1993, 2.1), (Rule::En1999, 1.5)] {
            assert!((of(rule, 2.5) - most).abs() < 1e-15);
            assert!((of(rule, 9.0) - most).abs() < 1e-15);
            let middle = 0.5 * (of(rule, 1.0) + most);
            assert!((of(rule, 1.75) - middle).abs() < 1e-15);
        }
        // 2.5 √(1/4.8) = 1.141 089
        assert!((of(Rule::En1999, 1.0) - 1.141_088_661_469_096).abs() < 1e-14);
    }

    #[test]
    fn unit_a_near_end_is_torn_out_before_the_wall_is_crushed() {
        let near = RivetedSheet { end_distance_mm: 7.2, ..sheet() };
        let torn = bearing(Rule::En1993, &near, GAMMA_M2).unwrap();
        assert!((torn.characteristic_n - 240.0 * 7.2 / 1.2).abs() < 1e-9);
        assert!((torn.design_n - 1152.0).abs() < 1e-9);
        let crushed = bearing(Rule::En1993, &sheet(), GAMMA_M2).unwrap();
        assert!((crushed.characteristic_n - 1.643_167_672_515_498_4 * 240.0 * 4.8).abs() < 1e-9);
    }

    #[test]
    fn unit_aluminium_counts_no_more_than_260_mpa() {
        let at = |strength| {
            let hard = RivetedSheet { tensile_strength_mpa: strength, thicker_mm: 2.5, ..sheet() };
            bearing(Rule::En1999, &hard, GAMMA_M2).unwrap().characteristic_n
        };
        assert!((at(220.0) - 1.5 * 220.0 * 4.8).abs() < 1e-9);
        assert!((at(310.0) - 1.5 * 260.0 * 4.8).abs() < 1e-9);
    }

    #[test]
    fn unit_refuses_what_the_rule_does_not_cover() {
        let thick = RivetedSheet { diameter_mm: 7.0, end_distance_mm: 20.0, ..sheet() };
        assert!(matches!(
            bearing(Rule::En1999, &thick, GAMMA_M2),
            Err(Failure::OutOfRange { argument: "rivet diameter", .. })
        ));
        let near = RivetedSheet { end_distance_mm: 7.1, ..sheet() };
        assert!(matches!(
            bearing(Rule::En1993, &near, GAMMA_M2),
            Err(Failure::OutOfRange { argument: "end distance over rivet diameter", .. })
        ));
        let turned = RivetedSheet { thicker_mm: 0.9, ..sheet() };
        assert!(matches!(bearing(Rule::En1993, &turned, GAMMA_M2), Err(Failure::OutOfRange { .. })));
        let lost = RivetedSheet { end_distance_mm: f64::NAN, ..sheet() };
        assert!(bearing(Rule::En1993, &lost, GAMMA_M2).is_err());
    }

    proptest! {
        /// More metal never carries less, and steel's table is never below aluminium's.
        #[test]
        fn law_bearing_grows_with_every_thickness(
            t in 0.4..4.0_f64, ratio in 1.0..4.0_f64, more in 1.0..1.5_f64, d in 2.6..6.4_f64,
        ) {
            let base = RivetedSheet {
                thinner_mm: t, thicker_mm: ratio * t, diameter_mm: d, end_distance_mm: 3.0 * d, ..sheet()
            };
            let of = |rule, sheet| bearing(rule, &sheet, GAMMA_M2).unwrap().design_n;
            for rule in [Rule::En1993, Rule::En1999] {
                let support = RivetedSheet { thicker_mm: more * base.thicker_mm, ..base };
                prop_assert!(of(rule, support) >= of(rule, base) * (1.0 - 1e-12));
                let both = RivetedSheet { thinner_mm: more * t, ..support };
                prop_assert!(of(rule, both) >= of(rule, base) * (1.0 - 1e-12));
            }
            prop_assert!(of(Rule::En1993, base) >= of(Rule::En1999, base));
        }
    }
}
