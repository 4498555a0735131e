//! How much adhesive, and how many cartridges.

use crate::ProcessError;
use crate::error::{finite, not_negative, positive, within};

/// One bonded face: the area that meets, and the thickness of the adhesive on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Area, mm².
    pub area_mm2: f64,
    /// Bondline thickness, mm.
    pub bondline_mm: f64,
}

/// What is pressed out of the joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SqueezeOut {
    /// A share of the bondline's volume.
    Fraction(f64),
    /// A fillet of triangular section along the edges.
    Fillet {
        /// Leg of the triangle, mm.
        leg_mm: f64,
        /// Length of all edges, mm.
        length_mm: f64,
    },
}

/// What is added to the bondline. What is `None` is taken by common practice.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Allowances {
    /// Thickness of the coat scraped onto each of the two faces, mm.
    pub coat_mm: Option<f64>,
    /// What is pressed out.
    pub squeeze_out: Option<SqueezeOut>,
    /// Thrown away with the nozzle of each cartridge, mm³.
    pub purge_mm3: Option<f64>,
    /// Cartridges kept in hand.
    pub spare_cartridges: Option<u32>,
}

/// Coat scraped onto each face so that it is wet before the bead: common practice, no source.
pub const COMMON_COAT_MM: f64 = 0.1;
/// Share of the bondline pressed out, so that it shows all round: common practice, no source.
pub const COMMON_SQUEEZE_OUT: f64 = 0.2;
/// Content of a mixing nozzle and the first bead out of it: common practice, no source.
pub const COMMON_PURGE_MM3: f64 = 10_000.0;
/// Cartridges kept in hand: common practice, no source.
pub const COMMON_SPARES: u32 = 1;

/// Most cartridges of one account: beyond it a size or a unit is wrong.
pub const MOST_CARTRIDGES: u32 = 10_000;

/// Where an item's size comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// From the joint itself.
    Geometry,
    /// Given by the caller.
    Given,
    /// Common practice, no source.
    CommonPractice,
}

/// What an item of the account is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ItemKind {
    /// The bondline itself.
    Bondline,
    /// The coats on both faces.
    Coat,
    /// What is pressed out.
    SqueezeOut,
    /// What goes with the nozzles.
    Purge,
}

/// One line of the account.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// What it is.
    pub kind: ItemKind,
    /// Volume, mm³.
    pub volume_mm3: f64,
    /// Where its size comes from.
    pub basis: Basis,
}

/// How much adhesive a joint takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Account {
    /// The items, in the order bondline, coat, squeeze-out, purge.
    pub items: Vec<Item>,
    /// Their sum, mm³.
    pub volume_mm3: f64,
    /// Cartridges that are used up or begun.
    pub cartridges_used: u32,
    /// Cartridges to have in hand: with the spares.
    pub cartridges: u32,
    /// Where the number of spares comes from.
    pub spares_basis: Basis,
}

/// The adhesive for some faces out of cartridges of one size.
///
/// ```text
/// V = Σ A h + 2 c Σ A + squeeze-out          cartridges = ⌈V / (V_c − p)⌉, and the spares
/// A  area (mm²)   h  bondline (mm)   c  coat (mm)   V_c  cartridge (mm³)   p  purge (mm³)
/// ```
///
/// The coat is counted on top of the bondline, although part of it ends up there: too much can be
/// wiped off, too little cannot be added once the joint is closed.
///
/// # Errors
///
/// No faces, areas or thicknesses that are not positive, allowances out of range, a cartridge no
/// larger than its purge, more than [`MOST_CARTRIDGES`].
pub fn account(faces: &[Face], allowances: &Allowances, cartridge_mm3: f64) -> Result<Account, ProcessError> {
    positive("cartridge", cartridge_mm3)?;
    if faces.is_empty() {
        return Err(ProcessError::NoRows { what: "list of faces" });
    }
    let mut area_mm2 = 0.0;
    let mut bondline_mm3 = 0.0;
    for face in faces {
        area_mm2 += positive("area of a face", face.area_mm2)?;
        bondline_mm3 += face.area_mm2 * positive("bondline", face.bondline_mm)?;
    }
    let (coat_mm, coat_basis) = given_or(allowances.coat_mm, COMMON_COAT_MM);
    not_negative("coat", coat_mm)?;
    let (squeeze_out, squeeze_basis) =
        given_or(allowances.squeeze_out, SqueezeOut::Fraction(COMMON_SQUEEZE_OUT));
    let (purge_mm3, purge_basis) = given_or(allowances.purge_mm3, COMMON_PURGE_MM3);
    not_negative("purge", purge_mm3)?;
    let (spares, spares_basis) = given_or(allowances.spare_cartridges, COMMON_SPARES);

    let coat_mm3 = 2.0 * coat_mm * area_mm2;
    let squeeze_mm3 = squeeze_out.volume_mm3(bondline_mm3)?;
    let needed_mm3 = finite("adhesive volume", bondline_mm3 + coat_mm3 + squeeze_mm3)?;
    let used = cartridges(needed_mm3, cartridge_mm3, purge_mm3)?;
    let items = vec![
        item(ItemKind::Bondline, bondline_mm3, Basis::Geometry),
        item(ItemKind::Coat, coat_mm3, coat_basis),
        item(ItemKind::SqueezeOut, squeeze_mm3, squeeze_basis),
        item(ItemKind::Purge, f64::from(used) * purge_mm3, purge_basis),
    ];
    let volume_mm3 = items.iter().map(|item| item.volume_mm3).sum();
    Ok(Account {
        items,
        volume_mm3: finite("adhesive volume", volume_mm3)?,
        cartridges_used: used,
        cartridges: used.saturating_add(spares),
        spares_basis,
    })
}

impl SqueezeOut {
    fn volume_mm3(&self, bondline_mm3: f64) -> Result<f64, ProcessError> {
        match *self {
            // More than three times the bondline pressed out is a slip for a percentage.
            Self::Fraction(share) => Ok(bondline_mm3 * within("squeeze-out", share, 0.0, 3.0)?),
            Self::Fillet { leg_mm, length_mm } => {
                let leg = not_negative("fillet leg", leg_mm)?;
                Ok(0.5 * leg * leg * not_negative("fillet length", length_mm)?)
            }
        }
    }
}

fn item(kind: ItemKind, volume_mm3: f64, basis: Basis) -> Item {
    Item { kind, volume_mm3, basis }
}

fn given_or<T>(given: Option<T>, common: T) -> (T, Basis) {
    match given {
        Some(given) => (given, Basis::Given),
        None => (common, Basis::CommonPractice),
    }
}

/// Cartridges for a volume, each less its purge.
fn cartridges(needed_mm3: f64, cartridge_mm3: f64, purge_mm3: f64) -> Result<u32, ProcessError> {
    let usable_mm3 = cartridge_mm3 - purge_mm3;
    if usable_mm3 <= 0.0 {
        return Err(ProcessError::NothingLeftAfterPurge { cartridge_mm3, purge_mm3 });
    }
    // Counted rather than rounded up: a product that misses by rounding shows as one too many only
    // where the last cartridge would be empty to the drop.
    (1..=MOST_CARTRIDGES).find(|&count| f64::from(count) * usable_mm3 >= needed_mm3).ok_or(
        ProcessError::OutOfRange {
            what: "number of cartridges",
            value: needed_mm3 / usable_mm3,
            least: 1.0,
            greatest: f64::from(MOST_CARTRIDGES),
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The demo's sleeve (invented): flats 56 and 96 mm, twice each, 100 mm on both sides of the
    /// cut, 0.5 mm thick.
    fn sleeve() -> Vec<Face> {
        [56.0, 96.0, 56.0, 96.0]
            .iter()
            .map(|flat| Face { area_mm2: 2.0 * 100.0 * flat, bondline_mm: 0.5 })
            .collect()
    }

    #[test]
    fn unit_demo_takes_one_cartridge_and_a_spare() -> Result<(), ProcessError> {
        let account = account(&sleeve(), &Allowances::default(), 200_000.0)?;
        let volumes: Vec<f64> = account.items.iter().map(|item| item.volume_mm3).collect();
        // 60 800 mm²: 30.4 mL of bondline, 12.16 mL of coat, a fifth of 30.4, 10 mL of purge.
        for (found, expected) in volumes.iter().zip([30_400.0, 12_160.0, 6_080.0, 10_000.0]) {
            assert!((found - expected).abs() < 1e-6, "{volumes:?}");
        }
        assert!((account.volume_mm3 - 58_640.0).abs() < 1e-6);
        assert_eq!((account.cartridges_used, account.cartridges), (1, 2));
        let bases: Vec<Basis> = account.items.iter().map(|item| item.basis).collect();
        assert_eq!(bases.first(), Some(&Basis::Geometry));
        assert!(bases.iter().skip(1).all(|basis| *basis == Basis::CommonPractice));
        Ok(())
    }

    #[test]
    fn unit_given_allowances_are_marked() -> Result<(), ProcessError> {
        let given = Allowances {
            coat_mm: Some(0.0),
            squeeze_out: Some(SqueezeOut::Fillet { leg_mm: 2.0, length_mm: 1000.0 }),
            purge_mm3: Some(0.0),
            spare_cartridges: Some(0),
        };
        // 30 400 + 2 000 mm³ out of cartridges of 16 200: exactly two.
        let account = account(&sleeve(), &given, 16_200.0)?;
        assert_eq!((account.cartridges_used, account.cartridges), (2, 2));
        assert!(account.items.iter().skip(1).all(|item| item.basis == Basis::Given));
        assert_eq!(account.spares_basis, Basis::Given);
        Ok(())
    }

    #[test]
    fn unit_refusals() {
        let none = Allowances::default();
        assert!(account(&[], &none, 200_000.0).is_err());
        assert!(matches!(
            account(&sleeve(), &none, 10_000.0),
            Err(ProcessError::NothingLeftAfterPurge { .. })
        ));
        assert!(matches!(account(&sleeve(), &none, 10_000.1), Err(ProcessError::OutOfRange { .. })));
        let percent = Allowances { squeeze_out: Some(SqueezeOut::Fraction(20.0)), ..none };
        assert!(account(&sleeve(), &percent, 200_000.0).is_err());
        let nan = [Face { area_mm2: f64::NAN, bondline_mm: 0.5 }];
        assert!(account(&nan, &none, 200_000.0).is_err());
    }

    proptest! {
        /// More area, thickness or allowance never takes less, and the cartridges hold it all.
        #[test]
        fn law_more_never_takes_less(
            area in 100.0..1e6_f64, bondline in 0.1..3.0_f64, more in 1.0..2.0_f64, coat in 0.0..0.5_f64, squeeze in 0.0..1.0_f64,
        ) {
            let allowances = Allowances {
                coat_mm: Some(coat),
                squeeze_out: Some(SqueezeOut::Fraction(squeeze)),
                ..Allowances::default()
            };
            let face = |area_mm2, bondline_mm| [Face { area_mm2, bondline_mm }];
            let base = account(&face(area, bondline), &allowances, 200_000.0)?;
            for faces in [face(area * more, bondline), face(area, bondline * more)] {
                let other = account(&faces, &allowances, 200_000.0)?;
                prop_assert!(other.volume_mm3 >= base.volume_mm3);
                prop_assert!(other.cartridges >= base.cartridges);
            }
            prop_assert!(base.volume_mm3 <= f64::from(base.cartridges_used) * 200_000.0 * (1.0 + 1e-12));
            prop_assert_eq!(base.cartridges, base.cartridges_used + 1);
        }
    }
}
