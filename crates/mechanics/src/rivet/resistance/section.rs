//! Walls weakened by holes: net section and block tearing (EN 1999-1-1).

use super::{Mode, Resistance};
use crate::failure::{self, Failure};

/// A zigzag step of a tear line between two holes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stagger {
    /// Distance s of the two holes along the force, mm.
    pub along_mm: f64,
    /// Distance p of the two holes across the force, mm.
    pub across_mm: f64,
}

/// Area left along a line of tear through holes.
///
/// ```text
/// A_net = A − t (n d₀ − Σ s²/(4 p))
/// ```
///
/// A gross area (mm²), t wall thickness, d₀ hole diameter (mm), n holes on the line, s and p of each
/// [`Stagger`]. A straight row has none. Of all lines the one with the least area counts.
///
/// Cochrane's rule, as in EN 1993-1-1, 6.2.2.2, and EN 1999-1-1, 6.2.2.2 (from memory).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range; [`Failure::OutOfRange`] if nothing is left.
pub fn net_area_mm2(
    gross_mm2: f64,
    thickness_mm: f64,
    hole_mm: f64,
    holes: u32,
    staggers: &[Stagger],
) -> Result<f64, Failure> {
    failure::positive("gross area", gross_mm2)?;
    failure::positive("wall thickness", thickness_mm)?;
    failure::positive("hole diameter", hole_mm)?;
    let mut width = f64::from(holes) * hole_mm;
    for stagger in staggers {
        let s = failure::finite("stagger along the force", stagger.along_mm)?;
        width -= s * s / (4.0 * failure::positive("stagger across the force", stagger.across_mm)?);
    }
    // A zigzag longer than its holes is no weaker than the gross section.
    let lost_mm2 = failure::number("area of the holes", thickness_mm * width.max(0.0))?;
    failure::within("area of the holes", lost_mm2, 0.0, gross_mm2 * (1.0 - f64::EPSILON))?;
    Ok(gross_mm2 - lost_mm2)
}

/// Tension resistance of a section at its holes.
///
/// ```text
/// N_u,Rk = 0.9 A_net f_u
/// ```
///
/// A_net by [`net_area_mm2`], f_u tensile strength (MPa). The gross section beside the holes has its
/// own limit A f_o/γ_M1. EN 1999-1-1:2007, 6.2.3 (from memory).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn net_tension(
    net_area_mm2: f64,
    tensile_strength_mpa: f64,
    gamma_m2: f64,
) -> Result<Resistance, Failure> {
    let area = failure::positive("net area", net_area_mm2)?;
    let f_u = failure::positive("tensile strength of the wall", tensile_strength_mpa)?;
    Resistance::new(Mode::NetSection, 0.9 * area * f_u, gamma_m2)
}

/// A block of wall around a group of holes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// Net area A_nt of the face in tension, mm².
    pub tension_mm2: f64,
    /// Net area A_nv of the faces in shear, mm².
    pub shear_mm2: f64,
    /// Tensile strength f_u, MPa.
    pub tensile_strength_mpa: f64,
    /// Proof strength f_o, MPa.
    pub proof_strength_mpa: f64,
}

/// How the force meets the group of holes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pull {
    /// A symmetric group, the force through its middle: V_eff,1.
    Centred,
    /// An eccentric force: the face in tension counts by half, V_eff,2.
    Eccentric,
}

/// Resistance of a block against being torn out.
///
/// ```text
/// V_eff,1,Rd = f_u A_nt/γ_M2 + f_o A_nv/(√3 γ_M1)        V_eff,2,Rd = 0.5 f_u A_nt/γ_M2 + f_o A_nv/(√3 γ_M1)
/// ```
///
/// Symbols as in [`Block`]: the face in tension tears, those in shear flow. The characteristic
/// resistance is the same with both factors 1. EN 1999-1-1:2007, 8.5.2.2 (from memory), of the form
/// of EN 1993-1-8:2005, 3.10.2.
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn block_tearing(block: &Block, pull: Pull, gamma_m1: f64, gamma_m2: f64) -> Result<Resistance, Failure> {
    let f_u = failure::positive("tensile strength of the wall", block.tensile_strength_mpa)?;
    let f_o = failure::positive("proof strength of the wall", block.proof_strength_mpa)?;
    let torn_mm2 = failure::not_negative("net area in tension", block.tension_mm2)?;
    let slid_mm2 = failure::not_negative("net area in shear", block.shear_mm2)?;
    failure::positive("net area of the block", torn_mm2 + slid_mm2)?;
    failure::positive("partial factor", gamma_m1)?;
    failure::positive("partial factor", gamma_m2)?;
    let share = match pull {
        Pull::Centred => 1.0,
        Pull::Eccentric => 0.5,
    };
    let (torn_n, slid_n) = (share * f_u * torn_mm2, f_o * slid_mm2 / 3.0_f64.sqrt());
    Ok(Resistance {
        mode: Mode::BlockTearing,
        characteristic_n: failure::number("resistance", torn_n + slid_n)?,
        design_n: failure::number("design resistance", torn_n / gamma_m2 + slid_n / gamma_m1)?,
    })
}

#[cfg(test)]
mod tests {
    use super::super::{GAMMA_M1, GAMMA_M2};
    use super::*;

    #[test]
    fn unit_a_zigzag_gives_back_part_of_its_holes() {
        let straight = net_area_mm2(400.0, 4.0, 6.6, 3, &[]).unwrap();
        assert!((straight - (400.0 - 3.0 * 6.6 * 4.0)).abs() < 1e-12);
        let step = Stagger { along_mm: 20.0, across_mm: 25.0 };
        let zigzag = net_area_mm2(400.0, 4.0, 6.6, 3, &[step, step]).unwrap();
        assert!((zigzag - straight - 2.0 * 4.0 * 4.0).abs() < 1e-12);
        let far = Stagger { along_mm: 200.0, across_mm: 25.0 };
        assert!((net_area_mm2(400.0, 4.0, 6.6, 3, &[far]).unwrap() - 400.0).abs() < 1e-12);
        let net = net_tension(straight, 220.0, GAMMA_M2).unwrap();
        assert!((net.design_n - 0.9 * 320.8 * 220.0 / 1.25).abs() < 1e-9);
    }

    #[test]
    fn unit_a_block_tears_in_front_and_slides_at_its_sides() {
        let block = Block {
            tension_mm2: 100.0,
            shear_mm2: 3.0_f64.sqrt() * 200.0,
            tensile_strength_mpa: 220.0,
            proof_strength_mpa: 150.0,
        };
        let centred = block_tearing(&block, Pull::Centred, GAMMA_M1, GAMMA_M2).unwrap();
        assert!((centred.characteristic_n - 52_000.0).abs() < 1e-9);
        assert!((centred.design_n - (22_000.0 / 1.25 + 30_000.0 / 1.1)).abs() < 1e-9);
        let eccentric = block_tearing(&block, Pull::Eccentric, GAMMA_M1, GAMMA_M2).unwrap();
        assert!((centred.design_n - eccentric.design_n - 11_000.0 / 1.25).abs() < 1e-9);
    }

    #[test]
    fn unit_refuses_holes_that_leave_nothing() {
        assert!(matches!(
            net_area_mm2(70.0, 4.0, 6.6, 3, &[]),
            Err(Failure::OutOfRange { argument: "area of the holes", .. })
        ));
        let none = Block {
            tension_mm2: 0.0,
            shear_mm2: 0.0,
            tensile_strength_mpa: 220.0,
            proof_strength_mpa: 150.0,
        };
        assert!(block_tearing(&none, Pull::Centred, GAMMA_M1, GAMMA_M2).is_err());
        let lost = Block { tension_mm2: f64::NAN, ..none };
        assert!(block_tearing(&lost, Pull::Centred, GAMMA_M1, GAMMA_M2).is_err());
    }
}
