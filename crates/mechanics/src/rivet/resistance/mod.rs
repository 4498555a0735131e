//! What one fastener, its walls and its section carry, mode by mode.
//!
//! - [`tested`]: a blind rivet's shear and tension, from its maker's tests;
//! - [`sheet`]: bearing of blind rivets in sheet (EN 1993-1-3, EN 1999-1-4);
//! - [`wall`]: solid rivets, bearing and pull-through of walls (EN 1999-1-1, 8.5);
//! - [`section`]: net section and block tearing (EN 1999-1-1);
//! - [`Interaction`]: shear and tension together.
//!
//! No resistance may stand alone: [`governing`] finds the least of those that apply.

mod interaction;
pub mod section;
pub mod sheet;
pub mod wall;

pub use interaction::Interaction;

use crate::failure::{self, Failure};

/// γ_M2 recommended for fasteners and for net sections in tension (EN 1993-1-8 Table 2.1, EN
/// 1999-1-1 Table 8.1; from memory). The γ_M3 of EN 1999-1-4 has the same value (from memory).
pub const GAMMA_M2: f64 = 1.25;

/// γ_M1 recommended for the proof strength of aluminium members (EN 1999-1-1, 6.1.3, from memory).
pub const GAMMA_M1: f64 = 1.10;

/// The way in which a riveted joint gives way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// The shank is sheared.
    RivetShear,
    /// The shank, its stem or its formed head gives way in tension.
    RivetTension,
    /// The wall is crushed or torn out before the shank.
    Bearing,
    /// The wall is torn across its holes.
    NetSection,
    /// A block of the wall is torn out around a group of holes.
    BlockTearing,
    /// The head is pulled through the wall.
    PullThrough,
}

/// A resistance in one mode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Resistance {
    /// The mode.
    pub mode: Mode,
    /// Characteristic resistance, N.
    pub characteristic_n: f64,
    /// Design resistance: the characteristic one over its partial factor, N.
    pub design_n: f64,
}

impl Resistance {
    /// A characteristic resistance with its partial factor.
    pub(crate) fn new(mode: Mode, characteristic_n: f64, gamma: f64) -> Result<Self, Failure> {
        failure::positive("partial factor", gamma)?;
        let characteristic_n = failure::number("resistance", characteristic_n)?;
        let design_n = failure::number("design resistance", characteristic_n / gamma)?;
        Ok(Self { mode, characteristic_n, design_n })
    }
}

/// The least of some design resistances; none of an empty list.
#[must_use]
pub fn governing(resistances: &[Resistance]) -> Option<Resistance> {
    resistances.iter().copied().min_by(|a, b| a.design_n.total_cmp(&b.design_n))
}

/// The resistance of a blind rivet from its maker's tests.
///
/// ```text
/// F_Rd = F_Rk/γ_M2
/// ```
///
/// F_Rk shear or tension strength of one rivet in single shear (N), from tests after ISO 14589, as
/// a characteristic value; γ_M2 its partial factor. The test plates of the standard are thick and
/// hard: the strength is the rivet's own, the walls are judged beside it. It holds for the grip
/// range of the rivet and for the stem it was tested with; a stem that is not locked may fall out,
/// and with it part of the shear strength.
///
/// EN 1999-1-4 and EN 1993-1-3 leave both resistances to tests (common ground of both, from
/// memory).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn tested(mode: Mode, strength_n: f64, gamma: f64) -> Result<Resistance, Failure> {
    failure::positive("tested strength", strength_n)?;
    Resistance::new(mode, strength_n, gamma)
}

/// Whether the wall yields well before the shank shears, so that a group can share its load out.
///
/// ```text
/// F_v,Rd ≥ 1.2 F_b,Rd
/// ```
///
/// The condition under which EN 1993-1-3 Table 8.1 counts a riveted connection as deformable (from
/// memory; read for the screws of Table 8.2). A plastic capacity of a group means something only
/// where it is met.
#[must_use]
pub fn wall_yields_first(shear: &Resistance, bearing: &Resistance) -> bool {
    shear.design_n >= 1.2 * bearing.design_n
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_the_least_design_resistance_governs_whatever_is_characteristic() {
        let shear = tested(Mode::RivetShear, 7600.0, GAMMA_M2).unwrap();
        assert!((shear.design_n - 6080.0).abs() < 1e-9);
        let tearing = Resistance::new(Mode::BlockTearing, 7000.0, GAMMA_M1).unwrap();
        assert_eq!(governing(&[shear, tearing]), Some(shear));
        assert_eq!(governing(&[]), None);
    }

    #[test]
    fn unit_a_wall_yields_first_from_a_fifth_below_the_shear_strength() {
        let of = |mode, strength| tested(mode, strength, GAMMA_M2).unwrap();
        let shear = of(Mode::RivetShear, 6.0e3);
        assert!(wall_yields_first(&shear, &of(Mode::Bearing, 4.9e3)));
        assert!(!wall_yields_first(&shear, &of(Mode::Bearing, 5.1e3)));
    }

    #[test]
    fn unit_refuses_and_names_what_is_out_of_range() {
        assert_eq!(
            tested(Mode::RivetShear, 0.0, GAMMA_M2),
            Err(Failure::NotPositive { argument: "tested strength", found: 0.0 })
        );
        assert!(matches!(
            tested(Mode::RivetShear, 7600.0, f64::NAN),
            Err(Failure::NotPositive { argument: "partial factor", .. })
        ));
    }
}
