//! Sizes of lettering and the width of a line of text, measured with the font's own advance widths.

mod stand_in;
mod widths;

use std::borrow::Cow;

use crate::fonts::Cut;
use crate::look::PX_MM;
use widths::{ADVANCES, UNITS_PER_EM};

/// The few sizes of lettering.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lettering {
    /// Running text and labels, 18/24 px.
    Text,
    /// The same, bold: titles and names.
    Strong,
    /// A result, 24/32 px bold, ranged right.
    Figure,
    /// A stage's name, 40/48 px.
    Stage,
}

impl Lettering {
    /// Height of the em, mm.
    pub const fn size_mm(self) -> f64 {
        PX_MM
            * match self {
                Self::Text | Self::Strong => 18.0,
                Self::Figure => 24.0,
                Self::Stage => 40.0,
            }
    }

    /// Distance from one baseline to the next, mm; a multiple of the 8 px grid.
    pub const fn line_mm(self) -> f64 {
        PX_MM
            * match self {
                Self::Text | Self::Strong => 24.0,
                Self::Figure => 32.0,
                Self::Stage => 48.0,
            }
    }

    /// Which cut of the typeface.
    pub const fn cut(self) -> Cut {
        match self {
            Self::Text | Self::Stage => Cut::Regular,
            Self::Strong | Self::Figure => Cut::Bold,
        }
    }
}

/// From the baseline to the top of the tallest sign (Å: 1879/2000), in em.
pub const ASCENT_EM: f64 = 0.94;
/// From the baseline to the bottom of the lowest sign (g: 517/2000), in em.
pub const DESCENT_EM: f64 = 0.26;
/// Height of a capital or a digit, in em (1500/2000).
pub const CAPITAL_EM: f64 = 0.75;

/// Advance width of a sign in em, the same in Regular and Bold; none for a sign that the font lacks.
pub fn advance(sign: char) -> Option<f64> {
    let place = ADVANCES.binary_search_by_key(&sign, |&(s, _)| s).ok()?;
    ADVANCES.get(place).map(|&(_, units)| f64::from(units) / UNITS_PER_EM)
}

/// Length of a line of text, mm. A sign that the font lacks counts one em, or what stands in for it
/// if that is longer, so that it is not cut.
pub fn width_mm(text: &str, lettering: Lettering) -> f64 {
    let em: f64 = text.chars().map(|sign| advance(sign).unwrap_or_else(|| stand_in_em(sign).max(1.0))).sum();
    em * lettering.size_mm()
}

fn stand_in_em(sign: char) -> f64 {
    stand_in::for_sign(sign).chars().filter_map(advance).sum()
}

/// The same text in signs that the font has, for writers that cannot fall back to another face: ρ is
/// spelled rho, a letter with an accent that the font lacks loses the accent, whitespace is a space,
/// and what cannot be said is a question mark.
pub fn covered(text: &str) -> Cow<'_, str> {
    if text.chars().all(|sign| advance(sign).is_some()) {
        return Cow::Borrowed(text);
    }
    let mut said = String::with_capacity(text.len());
    for sign in text.chars() {
        match advance(sign) {
            Some(_) => said.push(sign),
            None => said.push_str(stand_in::for_sign(sign)),
        }
    }
    Cow::Owned(said)
}

/// The text, or as much of its beginning as has room with an ellipsis after it.
pub fn shortened(text: &str, width_limit_mm: f64, lettering: Lettering) -> Cow<'_, str> {
    if width_mm(text, lettering) <= width_limit_mm {
        return Cow::Borrowed(text);
    }
    let mut short = String::new();
    for sign in text.chars() {
        short.push(sign);
        if width_mm(&short, lettering) + width_mm("…", lettering) > width_limit_mm {
            short.pop();
            break;
        }
    }
    short.truncate(short.trim_end().len());
    short.push('…');
    Cow::Owned(short)
}

/// Breaks a text into lines no longer than `width_mm`, at spaces where it can, within a word where
/// it must. A no-break space (U+00A0) holds a figure and its unit together. A line holds one sign at
/// least; an empty text has no line.
pub fn wrap(text: &str, width_limit_mm: f64, lettering: Lettering) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let words = text.split(|s: char| s.is_whitespace() && s != '\u{a0}');
    for word in words.filter(|word| !word.is_empty()) {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if width_mm(&longer, lettering) <= width_limit_mm {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for sign in word.chars() {
            line.push(sign);
            if width_mm(&line, lettering) > width_limit_mm {
                line.pop();
                if !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                }
                line.push(sign);
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// Length of the longest of some lines, mm.
pub(crate) fn widest_mm(lines: &[String], lettering: Lettering) -> f64 {
    lines.iter().map(|line| width_mm(line, lettering)).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_the_table_is_in_order() {
        assert!(ADVANCES.windows(2).all(|pair| pair[0].0 < pair[1].0));
    }

    #[test]
    fn unit_digits_have_one_width() {
        let widths: Vec<_> = "0123456789".chars().map(advance).collect();
        assert!(widths.iter().all(|w| *w == Some(0.65)));
    }

    #[test]
    fn unit_a_text_of_spaces_has_no_line() {
        assert!(wrap("  \n ", 100.0, Lettering::Text).is_empty());
    }

    #[test]
    fn unit_a_figure_stays_with_its_unit() {
        let width = width_mm("peak 17.3", Lettering::Text);
        let lines = wrap("peak 17.3\u{a0}MPa", width, Lettering::Text);
        assert_eq!(lines, ["peak", "17.3\u{a0}MPa"]);
    }

    #[test]
    fn unit_what_the_font_lacks_is_said_otherwise() {
        assert_eq!(covered("τ ≤ 20 MPa"), "τ ≤ 20 MPa");
        assert_eq!(covered("ρ = 2.7"), "rho = 2.7");
        assert_eq!(covered("Łukasz Dvořak\t漢e\u{301}"), "Lukasz Dvorak ?e");
        assert!(width_mm("ρ", Lettering::Text) >= width_mm("rho", Lettering::Text));
    }

    #[test]
    fn unit_a_long_text_is_cut_with_an_ellipsis() {
        // A tenth of a millimetre for the rounding of the sums.
        let room = width_mm("Sill, left…", Lettering::Text) + 0.1;
        assert_eq!(shortened("Sill, left", room, Lettering::Text), "Sill, left");
        assert_eq!(shortened("Sill, left side", room, Lettering::Text), "Sill, left…");
        assert_eq!(shortened("Sill", 0.0, Lettering::Text), "…");
    }

    proptest! {
        /// Whatever stands in is in the font and takes no more room than was measured.
        #[test]
        fn law_every_text_can_be_said(text in any::<String>()) {
            let said = covered(&text);
            prop_assert!(said.chars().all(|sign| advance(sign).is_some()));
            // Sums of some hundred widths of the order of one.
            let slack = 1e-9;
            prop_assert!(width_mm(&said, Lettering::Text) <= width_mm(&text, Lettering::Text) + slack);
        }

        /// Wrapping loses no sign but spaces, and no line is too long unless it is a single sign.
        #[test]
        fn law_wrapping_keeps_every_sign(text in ".{0,60}", width in 0.0..80.0_f64) {
            let lines = wrap(&text, width, Lettering::Text);
            let all: String = lines.concat().split_whitespace().collect();
            let asked: String = text.split_whitespace().collect();
            prop_assert_eq!(all, asked);
            for line in &lines {
                prop_assert!(
                    line.chars().count() == 1 || width_mm(line, Lettering::Text) <= width
                );
            }
        }
    }
}
