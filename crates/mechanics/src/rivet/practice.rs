//! Rules of thumb of riveters, to set beside the computed number.

use crate::failure::{self, Failure};

/// Rivet diameter for a sheet: three times its thickness, mm.
///
/// For solid rivets in aircraft sheet; the next size of the trade is taken. FAA AC 43.13-1B Chg 1,
/// 4-58g (read).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn diameter_for_sheet_mm(thickness_mm: f64) -> Result<f64, Failure> {
    failure::number("rivet diameter", 3.0 * failure::positive("sheet thickness", thickness_mm)?)
}

/// Length of a solid rivet before driving: grip and one and a half diameters, mm.
///
/// ```text
/// L = G + 1.5 d
/// ```
///
/// For solid rivets only: a blind rivet is chosen by its grip range. NAVEDTRA 14018, chapter 13
/// (read).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn solid_length_mm(grip_mm: f64, diameter_mm: f64) -> Result<f64, Failure> {
    let grip_mm = failure::positive("grip", grip_mm)?;
    failure::number("rivet length", grip_mm + 1.5 * failure::positive("rivet diameter", diameter_mm)?)
}

/// Pitch usual for solid rivets, from 4 to 8 diameters, mm (NAVEDTRA 14018, chapter 13, read).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn usual_pitch_mm(diameter_mm: f64) -> Result<[f64; 2], Failure> {
    let d = failure::positive("rivet diameter", diameter_mm)?;
    Ok([4.0 * d, failure::number("pitch", 8.0 * d)?])
}

/// Rivets on each side of a sheet splice, laid out in equal rows.
///
/// ```text
/// n = ⌈W n₁ c⌉        in r rows: r ⌈n/r⌉
/// ```
///
/// W width of the splice, n₁ rivets for each unit of width that make up for the sheet's strength (of
/// a table for its thickness, its alloy and the rivet), c share of it that is asked for. The AC
/// tables for n₁ list the same alloys with different counts: give the table with the number. FAA AC
/// 43.13-1B Chg 1, 4-58g (read).
///
/// # Errors
///
/// A [`Failure`] that names an argument out of range.
pub fn splice_rivets(width: f64, per_width: f64, share: f64, rows: u32) -> Result<u32, Failure> {
    failure::positive("width of the splice", width)?;
    failure::positive("rivets per width", per_width)?;
    failure::positive("share of the sheet's strength", share)?;
    failure::positive("rows", f64::from(rows))?;
    // Rounding of a converted figure does not ask for one rivet more.
    let needed = (width * per_width * share * (1.0 - 1e-9)).ceil();
    let in_row = (needed / f64::from(rows)).ceil();
    let count = failure::within("rivets of the splice", in_row * f64::from(rows), 1.0, 1e6)?;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number from 1 to a million"
    )]
    Ok(count as u32)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// AC43-SPLICE-1: the worked splice of FAA AC 43.13-1B Chg 1, 4-58g, printed: 0.032 in clad
    /// sheet, 10 in wide, 4.9 rivets of 1/8 in to the inch, 75 %. The AC rounds 3.675 to 3.7 before
    /// it multiplies; the whole count is the same.
    #[test]
    fn val_worked_sheet_splice() {
        assert!((diameter_for_sheet_mm(0.032).unwrap() - 0.096).abs() < 1e-15);
        assert_eq!(splice_rivets(10.0, 4.9, 0.75, 1), Ok(37));
        assert_eq!(splice_rivets(10.0, 4.9, 0.75, 2), Ok(38));
    }

    /// NAVY-RULES: NAVEDTRA 14018, chapter 13: length and usual pitch.
    #[test]
    fn val_length_and_pitch_of_solid_rivets() {
        assert!((solid_length_mm(4.0, 4.8).unwrap() - 11.2).abs() < 1e-12);
        let [low, high] = usual_pitch_mm(4.8).unwrap();
        assert!((low - 19.2).abs() < 1e-12 && (high - 38.4).abs() < 1e-12);
    }

    #[test]
    fn unit_a_whole_count_gains_no_rivet_by_rounding() {
        // In floating point 12.5 · 1.1 · 0.8 is a little over 11.
        assert_eq!(splice_rivets(12.5, 1.1, 0.8, 1), Ok(11));
        assert_eq!(splice_rivets(12.5, 1.101, 0.8, 1), Ok(12));
    }

    #[test]
    fn unit_refuses_and_names_what_is_out_of_range() {
        assert!(splice_rivets(10.0, 4.9, 0.75, 0).is_err());
        assert!(splice_rivets(1e9, 4.9, 0.75, 1).is_err());
        assert!(splice_rivets(f64::MAX, f64::MAX, 1.0, 1).is_err());
        assert!(solid_length_mm(f64::NAN, 4.8).is_err());
        assert!(usual_pitch_mm(-1.0).is_err());
    }
}
