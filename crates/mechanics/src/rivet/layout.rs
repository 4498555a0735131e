//! Where rivets may sit: edge distances, spacings, grip and head room, rule by rule.
//!
//! A rule that is not met is a finding, no failure: every rule gives its limit, what was found and
//! where the limit comes from.

use crate::failure::{self, Failure};

/// What a rule is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// e₁: from the rivet to the end, in the direction of the force.
    EndDistance,
    /// e₂: from the rivet to the edge, across the force.
    EdgeDistance,
    /// p₁: between rivets, along the force.
    SpacingAlong,
    /// p₂: between rivets, across the force.
    SpacingAcross,
    /// Diameter of the rivet.
    Diameter,
    /// Thickness that the rivet clamps.
    Grip,
    /// From the rivet's axis to what its head would meet: a corner's fillet, a step, a rib.
    HeadRoom,
    /// Between two heads' axes.
    HeadSpacing,
}

/// What a rule allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// No less than this, mm.
    Least(f64),
    /// From the one to the other, mm.
    Between(f64, f64),
}

/// How a limit is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// Read in its source, or in a summary of it.
    Published,
    /// It follows from the geometry.
    Formula,
    /// From memory of the source.
    Memory,
}

/// One rule applied to one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// The rule.
    pub rule: Rule,
    /// What it allows.
    pub limit: Limit,
    /// What was found, mm.
    pub found_mm: f64,
    /// Whether the one fits the other.
    pub met: bool,
    /// Source of the limit.
    pub source: &'static str,
    /// How it is known.
    pub how: How,
}

impl Check {
    fn new(rule: Rule, limit: Limit, found_mm: f64, source: &'static str, how: How) -> Self {
        // Limits are multiples of converted figures (3 × 6.4 is a little over 19.2): 1e-9 is
        // rounding, not leave.
        let met = match limit {
            Limit::Least(least) => found_mm >= least * (1.0 - 1e-9),
            Limit::Between(least, most) => {
                found_mm >= least * (1.0 - 1e-9) && found_mm <= most * (1.0 + 1e-9)
            }
        };
        Self { rule, limit, found_mm, met, source, how }
    }
}

/// A set of rules for distances.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Code {
    /// Least distances of EN 1993-1-8, below which its bearing formula does not hold: e₁, e₂ ≥ 1.2
    /// d₀, p₁ ≥ 2.2 d₀, p₂ ≥ 2.4 d₀.
    Minima,
    /// Regular distances of EN 1999-1-1: e₁ ≥ 2.0 d₀, e₂ ≥ 1.5 d₀, p₁ ≥ 2.5 d₀, p₂ ≥ 3.0 d₀.
    Regular,
    /// Range of the bearing formula for blind rivets in sheet: e₁, e₂ ≥ 1.5 d, p₁, p₂ ≥ 3 d, d from
    /// 2.6 to 6.4 mm.
    BlindInSheet,
    /// Aircraft repair: edges ≥ 2 d, spacing in a single row ≥ 3 d.
    Aircraft,
    /// Solid rivets: the thickest sheet ≤ d ≤ three times it, pitch ≥ 3 d. A blind rivet is chosen
    /// by its grip instead.
    Solid,
}

/// Rivets in their place; a distance that does not exist (a single row, a closed face) is `None`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Riveting {
    /// Diameter d of the rivet, mm.
    pub diameter_mm: f64,
    /// Diameter d₀ of the hole, mm.
    pub hole_mm: f64,
    /// Thickness of the thickest sheet or wall, mm.
    pub thickest_mm: f64,
    /// e₁ to the end in the direction of the force, mm.
    pub end_mm: Option<f64>,
    /// e₂ to the edge across the force, mm.
    pub edge_mm: Option<f64>,
    /// p₁ to the next rivet along the force, mm.
    pub along_mm: Option<f64>,
    /// p₂ to the next rivet across the force, mm.
    pub across_mm: Option<f64>,
}

impl Riveting {
    fn check(&self) -> Result<(), Failure> {
        failure::positive("rivet diameter", self.diameter_mm)?;
        failure::positive("hole diameter", self.hole_mm)?;
        failure::positive("thickness of the thickest sheet", self.thickest_mm)?;
        for (name, distance) in [
            ("end distance", self.end_mm),
            ("edge distance", self.edge_mm),
            ("spacing along the force", self.along_mm),
            ("spacing across the force", self.across_mm),
        ] {
            if let Some(mm) = distance {
                failure::positive(name, mm)?;
            }
        }
        Ok(())
    }
}

/// The rules of a code, each for a distance that exists.
///
/// Sources: EN 1993-1-8:2005 Table 3.3 (minima read); EN 1999-1-1:2007 Table 8.2 (regular values
/// from memory); EN 1993-1-3:2006 Table 8.1 (from memory); FAA AC 43.13-1B, 4-57c (read in a
/// summary; an edge of 1.5 d, as one sometimes hears, is not in it); NAVEDTRA 14018, chapter 13
/// (read).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn distances(code: Code, riveting: &Riveting) -> Result<Vec<Check>, Failure> {
    riveting.check()?;
    let Riveting { diameter_mm: d, hole_mm: d0, thickest_mm: t, .. } = *riveting;
    let (unit, multiples, source, how) = match code {
        Code::Minima => (d0, [1.2, 1.2, 2.2, 2.4], "EN 1993-1-8:2005, Table 3.3", How::Published),
        Code::Regular => (d0, [2.0, 1.5, 2.5, 3.0], "EN 1999-1-1:2007, Table 8.2", How::Memory),
        Code::BlindInSheet => (d, [1.5, 1.5, 3.0, 3.0], "EN 1993-1-3:2006, Table 8.1", How::Memory),
        Code::Aircraft => (d, [2.0, 2.0, 3.0, 3.0], "FAA AC 43.13-1B, 4-57c", How::Published),
        Code::Solid => (d, [0.0, 0.0, 3.0, 3.0], "NAVEDTRA 14018, ch. 13", How::Published),
    };
    let places = [
        (Rule::EndDistance, riveting.end_mm),
        (Rule::EdgeDistance, riveting.edge_mm),
        (Rule::SpacingAlong, riveting.along_mm),
        (Rule::SpacingAcross, riveting.across_mm),
    ];
    let mut checks: Vec<Check> = places
        .into_iter()
        .zip(multiples)
        .filter(|(_, multiple)| *multiple > 0.0)
        .filter_map(|((rule, found), multiple)| {
            found.map(|mm| Check::new(rule, Limit::Least(multiple * unit), mm, source, how))
        })
        .collect();
    match code {
        Code::BlindInSheet => {
            checks.push(Check::new(Rule::Diameter, Limit::Between(2.6, 6.4), d, source, how));
        }
        Code::Solid => {
            checks.push(Check::new(Rule::Diameter, Limit::Between(t, 3.0 * t), d, source, how));
        }
        Code::Minima | Code::Regular | Code::Aircraft => {}
    }
    Ok(checks)
}

/// Whether the walls, with the bondline between them, lie in the grip range of a blind rivet.
///
/// The range is the maker's. Outside it the formed head sits loose or tears its shank.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn grip(stack_mm: f64, range_mm: [f64; 2]) -> Result<Check, Failure> {
    failure::positive("thickness clamped", stack_mm)?;
    let [least, most] = range_mm;
    failure::positive("least grip", least)?;
    failure::within("greatest grip", most, least, f64::MAX)?;
    Ok(Check::new(
        Rule::Grip,
        Limit::Between(least, most),
        stack_mm,
        "the rivet's grip range",
        How::Published,
    ))
}

/// Whether a head lies flat beside a corner's fillet, a step or a rib.
///
/// ```text
/// distance of the axis from the obstacle ≥ d_head/2
/// ```
///
/// Geometry only: the nose of the setting tool wants more, by its own size.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn head_room(head_diameter_mm: f64, to_obstacle_mm: f64) -> Result<Check, Failure> {
    let radius = 0.5 * failure::positive("head diameter", head_diameter_mm)?;
    // An axis beyond the obstacle has a negative distance: not met, but a number.
    failure::finite("distance to the obstacle", to_obstacle_mm)?;
    Ok(Check::new(Rule::HeadRoom, Limit::Least(radius), to_obstacle_mm, "geometry", How::Formula))
}

/// Whether two heads find room beside each other: spacing ≥ d_head.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn head_spacing(head_diameter_mm: f64, spacing_mm: f64) -> Result<Check, Failure> {
    let least = failure::positive("head diameter", head_diameter_mm)?;
    failure::positive("spacing", spacing_mm)?;
    Ok(Check::new(Rule::HeadSpacing, Limit::Least(least), spacing_mm, "geometry", How::Formula))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Rivets at the given multiples of d = d₀ from ends, edges and each other.
    fn at(multiples: [f64; 4]) -> Riveting {
        let d = 6.4;
        Riveting {
            diameter_mm: d,
            hole_mm: d,
            thickest_mm: 4.0,
            end_mm: Some(multiples[0] * d),
            edge_mm: Some(multiples[1] * d),
            along_mm: Some(multiples[2] * d),
            across_mm: Some(multiples[3] * d),
        }
    }

    fn missed(code: Code, riveting: &Riveting) -> Vec<Rule> {
        let checks = distances(code, riveting).unwrap();
        checks.iter().filter(|check| !check.met).map(|check| check.rule).collect()
    }

    const PLACES: [Rule; 4] =
        [Rule::EndDistance, Rule::EdgeDistance, Rule::SpacingAlong, Rule::SpacingAcross];

    /// At its multiples a code is met, 0.1 % below each it is not: so the multiples are these.
    fn limits_are(code: Code, multiples: [f64; 4]) {
        assert_eq!(missed(code, &at(multiples)), []);
        for (place, rule) in PLACES.into_iter().enumerate() {
            let mut less = multiples;
            less[place] *= 0.999;
            assert_eq!(missed(code, &at(less)), [rule], "{code:?}");
        }
    }

    /// EC-DIST: EN 1993-1-8 Table 3.3 (read), EN 1999-1-1 Table 8.2 (memory).
    #[test]
    fn val_distances_of_the_eurocodes() {
        limits_are(Code::Minima, [1.2, 1.2, 2.2, 2.4]);
        limits_are(Code::Regular, [2.0, 1.5, 2.5, 3.0]);
    }

    /// EC3-BLIND-1: range of validity of EN 1993-1-3 Table 8.1 (memory).
    #[test]
    fn val_range_of_blind_rivets_in_sheet() {
        limits_are(Code::BlindInSheet, [1.5, 1.5, 3.0, 3.0]);
        for (d, met) in [(2.6, true), (6.4, true), (2.5, false), (6.5, false)] {
            let riveting = Riveting { diameter_mm: d, ..at([9.0; 4]) };
            let expected: &[Rule] = if met { &[] } else { &[Rule::Diameter] };
            assert_eq!(missed(Code::BlindInSheet, &riveting), expected);
        }
    }

    /// AC43-RULES: FAA AC 43.13-1B, 4-57c, as summarised.
    #[test]
    fn val_distances_of_aircraft_repair() {
        limits_are(Code::Aircraft, [2.0, 2.0, 3.0, 3.0]);
    }

    /// NAVY-RULES: NAVEDTRA 14018, chapter 13 (read): pitch and diameter.
    #[test]
    fn val_rules_of_solid_rivets() {
        assert_eq!(missed(Code::Solid, &at([0.1, 0.1, 3.0, 3.0])), []);
        assert_eq!(missed(Code::Solid, &at([0.1, 0.1, 2.9, 3.0])), [Rule::SpacingAlong]);
        for (thickest_mm, met) in [(6.4, true), (6.4 / 3.0, true), (6.5, false), (2.1, false)] {
            let riveting = Riveting { thickest_mm, ..at([9.0; 4]) };
            assert_eq!(missed(Code::Solid, &riveting).is_empty(), met, "{thickest_mm}");
        }
    }

    /// The demo of the design page: 6.4 mm rivets, 35 mm apart, 30 mm from the cut, heads of 13 mm
    /// on flats of 56 mm, walls of 4 and 3 mm with 0.5 mm between.
    #[test]
    fn unit_the_demo_sits_well() {
        let riveting = Riveting {
            diameter_mm: 6.4,
            hole_mm: 6.6,
            thickest_mm: 4.0,
            end_mm: Some(30.0),
            edge_mm: None,
            along_mm: Some(40.0),
            across_mm: Some(35.0),
        };
        for code in [Code::Minima, Code::Regular, Code::BlindInSheet, Code::Aircraft] {
            assert_eq!(missed(code, &riveting), []);
        }
        assert!(grip(7.5, [4.0, 8.0]).unwrap().met);
        assert!(head_room(13.0, 28.0 - 17.5).unwrap().met);
        assert!(head_spacing(13.0, 35.0).unwrap().met);
    }

    #[test]
    fn unit_grip_and_head_room_end_where_they_say() {
        for (stack, met) in [(4.0, true), (8.0, true), (3.9, false), (8.1, false)] {
            assert_eq!(grip(stack, [4.0, 8.0]).unwrap().met, met);
        }
        assert!(!head_room(13.0, 6.4).unwrap().met);
        assert!(!head_room(13.0, -2.0).unwrap().met);
        assert!(!head_spacing(13.0, 12.9).unwrap().met);
        assert!(grip(5.0, [8.0, 4.0]).is_err());
        assert!(head_room(13.0, f64::INFINITY).is_err());
    }

    #[test]
    fn unit_refuses_and_names_what_is_out_of_range() {
        let riveting = Riveting { along_mm: Some(-3.0), ..at([3.0; 4]) };
        assert_eq!(
            distances(Code::Regular, &riveting),
            Err(Failure::NotPositive { argument: "spacing along the force", found: -3.0 })
        );
    }

    proptest! {
        /// Rules are multiples: a layout drawn larger or in another unit keeps every verdict.
        #[test]
        fn law_verdicts_do_not_depend_on_the_scale(
            multiples in prop::array::uniform4(0.5..5.0_f64), scale in 0.5..2.0_f64,
        ) {
            let plain = at(multiples);
            let larger = Riveting {
                diameter_mm: scale * plain.diameter_mm,
                hole_mm: scale * plain.hole_mm,
                thickest_mm: scale * plain.thickest_mm,
                end_mm: plain.end_mm.map(|mm| scale * mm),
                edge_mm: plain.edge_mm.map(|mm| scale * mm),
                along_mm: plain.along_mm.map(|mm| scale * mm),
                across_mm: plain.across_mm.map(|mm| scale * mm),
            };
            for code in [Code::Minima, Code::Regular, Code::Aircraft, Code::Solid] {
                prop_assert_eq!(missed(code, &plain), missed(code, &larger));
            }
        }
    }
}
