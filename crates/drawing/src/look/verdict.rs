//! A verdict is its word, then two short lines, then colour.

use std::fmt::Write as _;

use super::{Colour, Room};

/// What was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// The lines touch.
    Met,
    /// The lines are apart and have slipped.
    NotMet,
    /// The lower line is dashed.
    Unknown,
    /// One line.
    Note,
}

impl Verdict {
    /// The word that always stands beside the mark.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::NotMet => "not met",
            Self::Unknown => "unknown",
            Self::Note => "note",
        }
    }

    /// Its colour, the last of the three signs.
    pub const fn colour(self) -> Colour {
        match self {
            Self::Met => Colour::Met,
            Self::NotMet => Colour::NotMet,
            Self::Unknown => Colour::Unknown,
            Self::Note => Colour::Note,
        }
    }
}

/// Width and height of a verdict's mark, px.
pub const MARK_SIZE_PX: [f64; 2] = [32.0, 16.0];

/// Width of the mark's lines, px.
const LINE_PX: f64 = 3.0;

/// The mark as lines from (x₁, y) to (x₂, y), px from the mark's top left corner, each
/// [`MARK_SIZE_PX`] at most; dashes are lines of their own, so that every writer shows the same.
///
/// The two lines are the two surfaces of a lap, seen from the edge.
pub const fn mark_lines_px(verdict: Verdict) -> &'static [[f64; 3]] {
    // x₁, x₂, y
    match verdict {
        Verdict::Met => &[[2.0, 20.0, 6.5], [12.0, 30.0, 9.5]],
        Verdict::NotMet => &[[1.0, 17.0, 3.5], [15.0, 31.0, 12.5]],
        Verdict::Unknown => &[[2.0, 20.0, 5.0], [12.0, 16.0, 11.0], [19.0, 23.0, 11.0], [26.0, 30.0, 11.0]],
        Verdict::Note => &[[2.0, 30.0, 8.0]],
    }
}

/// The mark as a small SVG to stand in a line of text; hidden from screen readers, as the word
/// stands beside it.
pub fn mark_svg(verdict: Verdict) -> String {
    let [width, height] = MARK_SIZE_PX;
    let colour = verdict.colour();
    let name = colour.name();
    let mut path = String::new();
    for [from, to, y] in mark_lines_px(verdict) {
        let _ = write!(path, "M{from} {y}H{to}");
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"verdict-mark\" width=\"{width}\" \
         height=\"{height}\" viewBox=\"0 0 {width} {height}\" aria-hidden=\"true\">\
         <path class=\"pen-{name}\" d=\"{path}\" fill=\"none\" stroke=\"{}\" \
         stroke-width=\"{LINE_PX}\"/></svg>",
        colour.hex(Room::Light)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Verdict; 4] = [Verdict::Met, Verdict::NotMet, Verdict::Unknown, Verdict::Note];

    #[test]
    fn law_the_lines_stay_inside_the_mark() {
        for verdict in ALL {
            for [from, to, y] in mark_lines_px(verdict) {
                assert!(*from >= 0.0 && from < to && *to <= MARK_SIZE_PX[0]);
                assert!(y - LINE_PX / 2.0 >= 0.0 && y + LINE_PX / 2.0 <= MARK_SIZE_PX[1]);
            }
        }
    }

    /// The marks must differ without colour: touching, apart, dashed, single.
    #[test]
    fn unit_the_marks_say_what_they_mean() {
        let gap = |verdict| {
            let lines = mark_lines_px(verdict);
            lines[1][2] - lines[0][2] - LINE_PX
        };
        assert!(gap(Verdict::Met).abs() < 1e-9);
        assert!(gap(Verdict::NotMet) > LINE_PX);
        assert_eq!(mark_lines_px(Verdict::Unknown).len(), 4);
        assert_eq!(mark_lines_px(Verdict::Note).len(), 1);
        assert!(mark_svg(Verdict::NotMet).contains("pen-not-met"));
    }
}
