//! Sizes of lettering and the width of a line of text, measured with the font's own advance widths.

mod widths;

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

/// Length of a line of text, mm. A sign that the font lacks counts one em, so that it is not cut.
pub fn width_mm(text: &str, lettering: Lettering) -> f64 {
    let em: f64 = text.chars().map(|s| advance(s).unwrap_or(1.0)).sum();
    em * lettering.size_mm()
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

    proptest! {
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
