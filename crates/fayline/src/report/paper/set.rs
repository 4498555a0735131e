//! Setting: runs of words into lines of a width.

use assessment::Verdict;
use drawing::figure::{Anchor, Pen, Shape, Text};
use drawing::lettering::{ASCENT_EM, DESCENT_EM, Lettering, width_mm, wrap};
use drawing::look::{Colour, MARK_SIZE_PX, PX_MM, mark_lines_px};

use super::super::charts::look_of;
use super::super::document::{Run, Style};

/// Between the mark of a verdict and its word.
const MARK_GAP: f64 = 8.0 * PX_MM;

/// One line of text with what stands on it; heights are measured down from its top.
pub(super) struct Line<'d> {
    /// Its height.
    pub(super) height: f64,
    /// What stands on it.
    pub(super) shapes: Vec<Shape>,
    /// A drawing that is the line.
    pub(super) drawing: Option<Placed<'d>>,
}

/// A drawing in a line or on a sheet.
pub(super) struct Placed<'d> {
    /// The drawing.
    pub(super) figure: &'d drawing::Figure,
    /// Its top left corner.
    pub(super) at: [f64; 2],
    /// Laid-out length over its own.
    pub(super) scale: f64,
}

impl Line<'_> {
    /// An empty line of a height.
    pub(super) fn blank(height: f64) -> Self {
        Self { height, shapes: Vec::new(), drawing: None }
    }
}

/// One text.
pub(super) fn text(
    at: [f64; 2],
    anchor: Anchor,
    lettering: Lettering,
    colour: Colour,
    words: String,
) -> Shape {
    Shape::Text(Text { at, anchor, turn_deg: 0.0, lettering, colour, words })
}

/// The baseline in a line of a lettering, measured down from its top.
pub(super) fn baseline(lettering: Lettering) -> f64 {
    let size = lettering.size_mm();
    (lettering.line_mm() - (ASCENT_EM + DESCENT_EM) * size) / 2.0 + ASCENT_EM * size
}

fn look(style: Style) -> (Lettering, Colour) {
    match style {
        Style::Plain | Style::Name => (Lettering::Text, Colour::Ink),
        Style::Strong => (Lettering::Strong, Colour::Ink),
        Style::Aside => (Lettering::Text, Colour::Aside),
    }
}

/// Sets runs into lines from `left` on, none wider than `width`. Words of all styles are equally wide, so the lines
/// break as those of one plain text; each then gets its styles back.
pub(super) fn lines<'d>(runs: &[Run], left: f64, width: f64) -> Vec<Line<'d>> {
    let whole: String = runs.iter().map(|run| run.words.as_str()).collect();
    let mut styles = runs.iter().flat_map(|run| {
        let signs = run.words.chars().filter(|sign| !is_break(*sign));
        signs.map(move |_| run.style)
    });
    wrap(&whole, width, Lettering::Text)
        .into_iter()
        .map(|words| {
            let mut line = Line::blank(Lettering::Text.line_mm());
            let mut x = left;
            for (style, words) in styled(&words, &mut styles) {
                let (lettering, colour) = look(style);
                let wide = width_mm(&words, lettering);
                line.shapes.push(text([x, baseline(lettering)], Anchor::Start, lettering, colour, words));
                x += wide;
            }
            line
        })
        .collect()
}

/// Where a line may break, as [`wrap`] sees it.
fn is_break(sign: char) -> bool {
    sign.is_whitespace() && sign != '\u{a0}'
}

/// A line in pieces of one style each; a space goes with what stands before it.
fn styled(words: &str, styles: &mut impl Iterator<Item = Style>) -> Vec<(Style, String)> {
    let mut pieces: Vec<(Style, String)> = Vec::new();
    for sign in words.chars() {
        let style = if is_break(sign) { None } else { styles.next() };
        match (pieces.last_mut(), style) {
            (Some((_, piece)), None) => piece.push(sign),
            (Some((last, piece)), Some(style)) if *last == style => piece.push(sign),
            (_, style) => pieces.push((style.unwrap_or(Style::Plain), sign.to_string())),
        }
    }
    pieces
}

/// Lines of one lettering.
pub(super) fn plain<'d>(words: &str, width: f64, lettering: Lettering) -> Vec<Line<'d>> {
    wrap(words, width, lettering)
        .into_iter()
        .map(|words| Line {
            height: lettering.line_mm(),
            shapes: vec![text([0.0, baseline(lettering)], Anchor::Start, lettering, Colour::Ink, words)],
            drawing: None,
        })
        .collect()
}

/// Width of a verdict's mark and word.
pub(super) fn verdict_width(verdict: Verdict, lettering: Lettering) -> f64 {
    MARK_SIZE_PX[0] * PX_MM + MARK_GAP + width_mm(verdict.word(), lettering)
}

/// The mark and the word of a verdict, from `left` on, in a line of a lettering.
pub(super) fn verdict(verdict: Verdict, left: f64, lettering: Lettering) -> Vec<Shape> {
    let look = look_of(verdict);
    let base = baseline(lettering);
    // The mark has its middle at half the height of a small letter, as it stands in a line of text.
    let top = base - 0.3 * lettering.size_mm() - MARK_SIZE_PX[1] / 2.0 * PX_MM;
    let mut shapes: Vec<Shape> = mark_lines_px(look)
        .iter()
        .map(|[from, to, y]| Shape::Line {
            from: [left + from * PX_MM, top + y * PX_MM],
            to: [left + to * PX_MM, top + y * PX_MM],
            pen: Pen::Verdict(look),
        })
        .collect();
    let x = left + MARK_SIZE_PX[0] * PX_MM + MARK_GAP;
    shapes.push(text([x, base], Anchor::Start, lettering, look.colour(), verdict.word().to_owned()));
    shapes
}
