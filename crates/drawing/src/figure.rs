//! A drawing as marks in millimetres.
//!
//! The origin is the top left corner of the figure; x runs to the right, **y runs down**, as on a
//! page. A writer whose format has y up (DXF, PDF) turns it once: `y_up = size_mm[1] − y`. One
//! millimetre in the figure is one millimetre on paper.

use crate::lettering::{ASCENT_EM, DESCENT_EM, Lettering, width_mm};
use crate::look::{Colour, PX_MM, Verdict};

/// A point, mm.
pub type Point = [f64; 2];

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Short name, the root of every id in the file; two figures on a page need two names.
    pub name: String,
    /// One line that says what is drawn; the accessible name.
    pub title: String,
    /// What a reader who cannot see the figure should know.
    pub desc: String,
    /// Width and height, mm.
    pub size_mm: [f64; 2],
    /// What is drawn, from the back to the front.
    pub marks: Vec<Mark>,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Layer, by a name that every format can bear (lower-case ASCII letters and hyphens).
    pub layer: &'static str,
    /// Marks one after another with the same group belong together.
    pub group: Option<String>,
    /// Name of this mark, to find it by.
    pub name: Option<String>,
    /// What it looks like.
    pub shape: Shape,
}

/// The kinds of marks.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A straight line.
    Line {
        /// Start.
        from: Point,
        /// End.
        to: Point,
        /// How it is drawn.
        pen: Pen,
    },
    /// An open chain of straight lines.
    Polyline {
        /// Its corners in order.
        points: Vec<Point>,
        /// How it is drawn.
        pen: Pen,
    },
    /// A closed area; rings within rings are holes (even-odd rule).
    Area {
        /// Closed rings; the last point joins the first by itself.
        rings: Vec<Vec<Point>>,
        /// How it is filled.
        fill: Option<Colour>,
        /// How its edge is drawn.
        pen: Option<Pen>,
    },
    /// A circle.
    Circle {
        /// Centre.
        centre: Point,
        /// Radius, mm.
        radius: f64,
        /// How it is filled.
        fill: Option<Colour>,
        /// How its edge is drawn.
        pen: Option<Pen>,
    },
    /// One line of text.
    Text(Text),
}

/// One line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// A point on the baseline.
    pub at: Point,
    /// Where on the line of text that point lies.
    pub anchor: Anchor,
    /// Turned about that point, degrees, anticlockwise as seen.
    pub turn_deg: f64,
    /// Size and cut.
    pub lettering: Lettering,
    /// Colour.
    pub colour: Colour,
    /// The words.
    pub words: String,
}

/// Which point of a line of text is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// The closed set of pens, so that every format draws the same line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pen {
    /// A real edge: 2 px ink.
    Edge,
    /// Any other line: 1 px ink.
    Thin,
    /// A dividing line: 1 px rule.
    Rule,
    /// A gridline, the quietest: 1 px hair.
    Grid,
    /// A fold or a hidden edge: 1 px ink, dashed.
    Fold,
    /// A cut or a centre line: 2 px ink, chain-dotted.
    Cut,
    /// A reference: 1 px ink, dotted.
    Dotted,
    /// What matters: 2 px accent.
    Accent,
    /// Its companion: 2 px accent, dashed.
    AccentDashed,
    /// Verdict: 2 px in its colour.
    Verdict(Verdict),
}

/// How a pen draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Colour.
    pub colour: Colour,
    /// Width, mm.
    pub width_mm: f64,
    /// Lengths of dash and gap in turn, mm; none for a full line.
    pub dash_mm: &'static [f64],
}

const DASHED: &[f64] = &[8.0 * PX_MM, 5.0 * PX_MM];
const DOTTED: &[f64] = &[2.0 * PX_MM, 4.0 * PX_MM];
const CHAIN: &[f64] = &[20.0 * PX_MM, 4.0 * PX_MM, 3.0 * PX_MM, 4.0 * PX_MM];

impl Pen {
    /// Every pen.
    pub const ALL: [Self; 13] = [
        Self::Edge,
        Self::Thin,
        Self::Rule,
        Self::Grid,
        Self::Fold,
        Self::Cut,
        Self::Dotted,
        Self::Accent,
        Self::AccentDashed,
        Self::Verdict(Verdict::Met),
        Self::Verdict(Verdict::NotMet),
        Self::Verdict(Verdict::Unknown),
        Self::Verdict(Verdict::Note),
    ];

    /// Name, as in class names and line types.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Edge => "edge",
            Self::Thin => "thin",
            Self::Rule => "rule",
            Self::Grid => "grid",
            Self::Fold => "fold",
            Self::Cut => "cut",
            Self::Dotted => "dotted",
            Self::Accent => "accent",
            Self::AccentDashed => "accent-dashed",
            Self::Verdict(Verdict::Met) => "met",
            Self::Verdict(Verdict::NotMet) => "not-met",
            Self::Verdict(Verdict::Unknown) => "unknown",
            Self::Verdict(Verdict::Note) => "note",
        }
    }

    /// The pen of a point on a line of this pen: the same without its dashes.
    #[must_use]
    pub const fn whole(self) -> Self {
        match self {
            Self::AccentDashed => Self::Accent,
            Self::Fold | Self::Dotted => Self::Thin,
            Self::Cut => Self::Edge,
            other => other,
        }
    }

    /// Colour, width and dashes.
    pub const fn stroke(self) -> Stroke {
        let (colour, width_px, dash_mm): (_, _, &[f64]) = match self {
            Self::Edge => (Colour::Ink, 2.0, &[]),
            Self::Thin => (Colour::Ink, 1.0, &[]),
            Self::Rule => (Colour::Rule, 1.0, &[]),
            Self::Grid => (Colour::Hair, 1.0, &[]),
            Self::Fold => (Colour::Ink, 1.0, DASHED),
            Self::Cut => (Colour::Ink, 2.0, CHAIN),
            Self::Dotted => (Colour::Ink, 1.0, DOTTED),
            Self::Accent => (Colour::Accent, 2.0, &[]),
            Self::AccentDashed => (Colour::Accent, 2.0, DASHED),
            Self::Verdict(verdict) => (verdict.colour(), 2.0, &[]),
        };
        Stroke { colour, width_mm: width_px * PX_MM, dash_mm }
    }
}

impl Figure {
    /// Puts a mark in front of all others; the returned mark may be given a name or a group.
    pub fn add(&mut self, layer: &'static str, shape: Shape) -> &mut Mark {
        self.marks.push(Mark { layer, group: None, name: None, shape });
        let last = self.marks.len() - 1;
        &mut self.marks[last]
    }

    /// Puts a straight line in front.
    pub fn line(&mut self, layer: &'static str, pen: Pen, from: Point, to: Point) -> &mut Mark {
        self.add(layer, Shape::Line { from, to, pen })
    }
}

impl Shape {
    /// The room that the shape takes without the width of its lines: left, top, right, bottom, mm.
    /// A shape without points has an infinite negative extent.
    pub fn bounds_mm(&self) -> [f64; 4] {
        match self {
            Self::Line { from, to, .. } => around([from, to]),
            Self::Polyline { points, .. } => around(points),
            Self::Area { rings, .. } => around(rings.iter().flatten()),
            Self::Circle { centre: [x, y], radius, .. } => [x - radius, y - radius, x + radius, y + radius],
            Self::Text(text) => text.bounds_mm(),
        }
    }
}

/// The smallest upright rectangle around some points: left, top, right, bottom.
fn around<'a>(points: impl IntoIterator<Item = &'a Point>) -> [f64; 4] {
    let nothing = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    points.into_iter().fold(nothing, |[left, top, right, bottom], [x, y]| {
        [left.min(*x), top.min(*y), right.max(*x), bottom.max(*y)]
    })
}

impl Text {
    /// The room that the line takes, left, top, right, bottom, mm, by the font's own measures.
    pub fn bounds_mm(&self) -> [f64; 4] {
        let width = width_mm(&self.words, self.lettering);
        let size = self.lettering.size_mm();
        let left = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -width / 2.0,
            Anchor::End => -width,
        };
        let turn = self.turn_deg.to_radians();
        let (sin, cos) = (libm::sin(turn), libm::cos(turn));
        // Anticlockwise as seen, with y down.
        let turned = |x: f64, y: f64| [self.at[0] + x * cos + y * sin, self.at[1] - x * sin + y * cos];
        let (right, top, bottom) = (left + width, -ASCENT_EM * size, DESCENT_EM * size);
        around(&[turned(left, top), turned(right, top), turned(left, bottom), turned(right, bottom)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_a_turned_text_reads_upward() {
        let mut text = Text {
            at: [10.0, 50.0],
            anchor: Anchor::Start,
            turn_deg: 0.0,
            lettering: Lettering::Text,
            colour: Colour::Ink,
            words: "1234".into(),
        };
        let flat = text.bounds_mm();
        assert!(flat[0] >= 10.0 - 1e-9 && flat[2] > 20.0 && flat[1] < 50.0);
        text.turn_deg = 90.0;
        let turned = text.bounds_mm();
        assert!((turned[3] - 50.0).abs() < 1e-9);
        assert!(((turned[3] - turned[1]) - (flat[2] - flat[0])).abs() < 1e-9);
    }

    #[test]
    fn unit_pens_have_names_of_their_own() {
        let names: std::collections::BTreeSet<_> = Pen::ALL.iter().map(|pen| pen.name()).collect();
        assert_eq!(names.len(), Pen::ALL.len());
    }
}
