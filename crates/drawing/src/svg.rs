//! The SVG writer.
//!
//! Colours are written twice: as presentation attributes with the daylight values, so that a file
//! is right on its own, and as class names, so that the style sheet of [`crate::look::css`]
//! overrules them on a page.
//!
//! A mark or a group with a name has the id that [`id`] tells, and its name as `data-name`; it takes
//! a tap over its whole inside, also where it is not filled.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use thiserror::Error;

use crate::figure::{Anchor, Figure, Mark, Pen, Point, Shape, Text};
use crate::fonts::{self, Cut};
use crate::look::{Colour, Room};

/// Why a figure could not be written.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum SvgError {
    /// Width or height is not a positive number.
    #[error("figure {figure:?} has no size")]
    NoSize {
        /// Name of the figure.
        figure: String,
    },
    /// A coordinate is infinite or not a number.
    #[error("mark {index} on layer {layer:?} of figure {figure:?} has a coordinate that is no number")]
    NotFinite {
        /// Name of the figure.
        figure: String,
        /// Layer of the mark.
        layer: &'static str,
        /// Place of the mark among the figure's marks, from 0.
        index: usize,
    },
}

/// Writes a figure to stand in a page that has the style sheet and the typeface.
///
/// # Errors
/// See [`SvgError`].
pub fn in_page(figure: &Figure) -> Result<String, SvgError> {
    document(figure, "")
}

/// Writes a figure as a file of its own, with the cuts of the typeface that it uses.
///
/// # Errors
/// See [`SvgError`].
pub fn alone(figure: &Figure) -> Result<String, SvgError> {
    let cuts: BTreeSet<Cut> = figure
        .marks
        .iter()
        .filter_map(|mark| match &mark.shape {
            Shape::Text(text) => Some(text.lettering.cut()),
            _ => None,
        })
        .collect();
    let cuts: Vec<Cut> = cuts.into_iter().collect();
    let style = format!("<style>{}</style>\n", fonts::face_css(&cuts));
    document(figure, if cuts.is_empty() { "" } else { &style })
}

/// The id of the first mark or group of a name in a figure of a name; a further one of the same name
/// has `-2` after it, and so on.
pub fn id(figure: &str, name: &str) -> String {
    Ids::new(figure).give(name)
}

fn document(figure: &Figure, style: &str) -> Result<String, SvgError> {
    let [width, height] = figure.size_mm;
    let sized = |length: f64| Some(length).filter(|l| *l > 0.0).and_then(number);
    let (Some(width), Some(height)) = (sized(width), sized(height)) else {
        return Err(SvgError::NoSize { figure: figure.name.clone() });
    };
    let mut ids = Ids::new(&figure.name);
    let (title_id, desc_id) = (format!("{}-{TITLE}", ids.root), format!("{}-{DESC}", ids.root));
    let mut svg = String::new();
    // Writing to a String cannot fail.
    let _ = write!(
        svg,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"figure\" id=\"{}\" \
         width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
         aria-labelledby=\"{title_id} {desc_id}\">\n\
         <title id=\"{title_id}\">{}</title>\n<desc id=\"{desc_id}\">{}</desc>\n{style}",
        ids.root,
        escaped(&figure.title),
        escaped(&figure.desc),
    );
    let _ = writeln!(
        svg,
        "<rect class=\"fill-sheet\" width=\"{width}\" height=\"{height}\" fill=\"{}\"/>",
        Colour::Sheet.hex(Room::Light)
    );
    let mut group: Option<&str> = None;
    for (index, mark) in figure.marks.iter().enumerate() {
        if mark.group.as_deref() != group {
            if group.is_some() {
                svg.push_str("</g>\n");
            }
            group = mark.group.as_deref();
            if let Some(name) = group {
                let _ = writeln!(svg, "<g{}>", ids.named(name));
            }
        }
        element(&mut svg, mark, &mut ids).ok_or_else(|| SvgError::NotFinite {
            figure: figure.name.clone(),
            layer: mark.layer,
            index,
        })?;
    }
    if group.is_some() {
        svg.push_str("</g>\n");
    }
    svg.push_str("</svg>\n");
    Ok(svg)
}

/// Writes one mark; none if a coordinate is no number.
fn element(svg: &mut String, mark: &Mark, ids: &mut Ids) -> Option<()> {
    let id = mark.name.as_ref().map_or(String::new(), |name| ids.named(name));
    let layer = mark.layer;
    match &mark.shape {
        Shape::Line { from, to, pen } => {
            let (class, attributes) = stroke(Some(*pen));
            let _ = writeln!(
                svg,
                "<line{id} class=\"{layer}{class}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"{attributes}/>",
                number(from[0])?,
                number(from[1])?,
                number(to[0])?,
                number(to[1])?,
            );
        }
        Shape::Polyline { points, pen } => {
            let (class, attributes) = stroke(Some(*pen));
            let _ = writeln!(
                svg,
                "<path{id} class=\"{layer}{class}\" d=\"{}\" fill=\"none\"{attributes} stroke-linejoin=\"round\"/>",
                path(points)?,
            );
        }
        Shape::Area { rings, fill, pen } => {
            let (fill_class, fill_attribute) = filled(*fill);
            let (class, attributes) = stroke(*pen);
            let mut d = String::new();
            for ring in rings {
                d.push_str(&path(ring)?);
                d.push('Z');
            }
            let _ = writeln!(
                svg,
                "<path{id} class=\"{layer}{fill_class}{class}\" d=\"{d}\" fill-rule=\"evenodd\"{fill_attribute}{attributes}/>",
            );
        }
        Shape::Circle { centre, radius, fill, pen } => {
            let (fill_class, fill_attribute) = filled(*fill);
            let (class, attributes) = stroke(*pen);
            let _ = writeln!(
                svg,
                "<circle{id} class=\"{layer}{fill_class}{class}\" cx=\"{}\" cy=\"{}\" r=\"{}\"{fill_attribute}{attributes}/>",
                number(centre[0])?,
                number(centre[1])?,
                number(*radius)?,
            );
        }
        Shape::Text(text) => lettered(svg, layer, &id, text)?,
    }
    Some(())
}

fn lettered(svg: &mut String, layer: &str, id: &str, text: &Text) -> Option<()> {
    let (x, y) = (number(text.at[0])?, number(text.at[1])?);
    let turn = number(-text.turn_deg)?;
    let turn = if turn == "0" { String::new() } else { format!(" transform=\"rotate({turn} {x} {y})\"") };
    let anchor = match text.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let _ = writeln!(
        svg,
        "<text{id} class=\"{layer} fill-{}\" x=\"{x}\" y=\"{y}\"{anchor}{turn} \
         font-family=\"{}\" font-size=\"{}\" font-weight=\"{}\" fill=\"{}\">{}</text>",
        text.colour.name(),
        fonts::FAMILIES,
        number(text.lettering.size_mm())?,
        text.lettering.cut().weight(),
        text.colour.hex(Room::Light),
        escaped(&text.words),
    );
    Some(())
}

/// Class name and attributes of a pen.
fn stroke(pen: Option<Pen>) -> (String, String) {
    let Some(pen) = pen else {
        return (String::new(), String::new());
    };
    let stroke = pen.stroke();
    let lengths: Option<Vec<String>> = stroke.dash_mm.iter().copied().map(number).collect();
    let dash = lengths
        .filter(|lengths| !lengths.is_empty())
        .map_or(String::new(), |lengths| format!(" stroke-dasharray=\"{}\"", lengths.join(" ")));
    let attributes = format!(
        " stroke=\"{}\" stroke-width=\"{}\"{dash}",
        stroke.colour.hex(Room::Light),
        number(stroke.width_mm).unwrap_or_default(),
    );
    (format!(" pen-{}", pen.name()), attributes)
}

/// Class name and attribute of a fill.
fn filled(fill: Option<Colour>) -> (String, String) {
    fill.map_or_else(
        || (String::new(), " fill=\"none\"".into()),
        |colour| (format!(" fill-{}", colour.name()), format!(" fill=\"{}\"", colour.hex(Room::Light))),
    )
}

fn path(points: &[Point]) -> Option<String> {
    let mut d = String::new();
    for (place, point) in points.iter().enumerate() {
        let command = if place == 0 { 'M' } else { 'L' };
        let _ = write!(d, "{command}{} {}", number(point[0])?, number(point[1])?);
    }
    Some(d)
}

/// A number in plain digits with at most three decimals (a thousandth of a millimetre); none if it
/// is infinite or not a number.
fn number(value: f64) -> Option<String> {
    if !value.is_finite() {
        return None;
    }
    let digits = format!("{value:.3}");
    let short = digits.trim_end_matches('0').trim_end_matches('.');
    Some(match short {
        "-0" | "" => "0".into(),
        short => short.into(),
    })
}

/// Text for an element or an attribute; a sign that XML 1.0 forbids becomes U+FFFD.
fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            '\t' | '\n' | '\r' => safe.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => safe.push('\u{fffd}'),
            sign => safe.push(sign),
        }
    }
    safe
}

const TITLE: &str = "title";
const DESC: &str = "desc";

/// Gives ids that no other mark of the figure has.
struct Ids {
    root: String,
    given: BTreeSet<String>,
}

impl Ids {
    fn new(name: &str) -> Self {
        let mut ids = Self { root: format!("figure-{}", plain(name)), given: BTreeSet::new() };
        // The figure's own title and description have theirs before any mark.
        for own in [TITLE, DESC] {
            ids.give(own);
        }
        ids
    }

    /// The attributes of what has a name.
    fn named(&mut self, name: &str) -> String {
        format!(" id=\"{}\" data-name=\"{}\" pointer-events=\"all\"", self.give(name), escaped(name))
    }

    fn give(&mut self, name: &str) -> String {
        let wanted = format!("{}-{}", self.root, plain(name));
        let mut id = wanted.clone();
        let mut again = 2_u32;
        while !self.given.insert(id.clone()) {
            id = format!("{wanted}-{again}");
            again += 1;
        }
        id
    }
}

/// A name in lower-case ASCII letters, digits and `_`; every other sign becomes a hyphen.
fn plain(name: &str) -> String {
    name.chars()
        .map(|sign| if sign.is_ascii_alphanumeric() || sign == '_' { sign.to_ascii_lowercase() } else { '-' })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lettering::Lettering;
    use proptest::prelude::*;

    fn figure() -> Figure {
        Figure {
            name: "cut line".into(),
            title: "A < B".into(),
            desc: "x & y".into(),
            size_mm: [20.0, 10.0],
            marks: Vec::new(),
        }
    }

    #[test]
    fn unit_a_small_figure_reads_as_it_should() {
        let mut figure = figure();
        figure.line("edges", Pen::Cut, [1.0, -0.0001], [2.5, 1.0 / 3.0]);
        let svg = in_page(&figure).unwrap();
        assert_eq!(
            svg,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"figure\" id=\"figure-cut-line\" \
             width=\"20mm\" height=\"10mm\" viewBox=\"0 0 20 10\" role=\"img\" \
             aria-labelledby=\"figure-cut-line-title figure-cut-line-desc\">\n\
             <title id=\"figure-cut-line-title\">A &lt; B</title>\n\
             <desc id=\"figure-cut-line-desc\">x &amp; y</desc>\n\
             <rect class=\"fill-sheet\" width=\"20\" height=\"10\" fill=\"#FBF9F2\"/>\n\
             <line class=\"edges pen-cut\" x1=\"1\" y1=\"0\" x2=\"2.5\" y2=\"0.333\" \
             stroke=\"#1B2426\" stroke-width=\"0.529\" stroke-dasharray=\"5.292 1.058 0.794 1.058\"/>\n\
             </svg>\n"
        );
    }

    #[test]
    fn unit_groups_open_and_close() {
        let mut figure = figure();
        for group in [Some("row 1"), Some("row 1"), None, Some("row 1")] {
            figure.line("a", Pen::Thin, [0.0; 2], [1.0; 2]).group = group.map(String::from);
        }
        let svg = in_page(&figure).unwrap();
        assert_eq!(svg.matches("<g ").count(), 2);
        assert_eq!(svg.matches("</g>").count(), 2);
        assert!(svg.contains("figure-cut-line-row-1-2"));
    }

    #[test]
    fn unit_a_named_mark_can_be_found_and_tapped() {
        let mut figure = figure();
        for name in ["hole 1", "hole 1", "title", "Ø \"7\""] {
            let shape = Shape::Circle { centre: [5.0; 2], radius: 2.4, fill: None, pen: Some(Pen::Edge) };
            figure.add("holes", shape).name = Some(name.into());
        }
        let svg = in_page(&figure).unwrap();
        let first = id("cut line", "hole 1");
        assert_eq!(first, "figure-cut-line-hole-1");
        let tap = format!("<circle id=\"{first}\" data-name=\"hole 1\" pointer-events=\"all\" class=\"holes");
        assert!(svg.contains(&tap), "{svg}");
        assert!(svg.contains("id=\"figure-cut-line-hole-1-2\" data-name=\"hole 1\""));
        assert_eq!(id("cut line", "title"), "figure-cut-line-title-2");
        assert!(svg.contains("id=\"figure-cut-line-title-2\" data-name=\"title\""));
        assert!(svg.contains("id=\"figure-cut-line----7-\" data-name=\"Ø &quot;7&quot;\""), "{svg}");
    }

    #[test]
    fn unit_what_is_no_number_is_refused() {
        let mut figure = figure();
        figure.line("a", Pen::Thin, [0.0; 2], [1.0; 2]);
        figure.line("b", Pen::Thin, [0.0, f64::NAN], [1.0; 2]);
        let error = in_page(&figure).unwrap_err();
        assert!(matches!(error, SvgError::NotFinite { layer: "b", index: 1, .. }));
        figure.size_mm = [f64::INFINITY, 1.0];
        assert!(matches!(in_page(&figure), Err(SvgError::NoSize { .. })));
    }

    #[test]
    fn unit_a_file_carries_the_cuts_that_it_uses() {
        let mut figure = figure();
        assert!(!alone(&figure).unwrap().contains("@font-face"));
        figure.add(
            "text",
            Shape::Text(Text {
                at: [1.0, 8.0],
                anchor: Anchor::Start,
                turn_deg: 0.0,
                lettering: Lettering::Strong,
                colour: Colour::Ink,
                words: "\u{7}≤".into(),
            }),
        );
        let svg = alone(&figure).unwrap();
        assert!(svg.contains("font-weight:700") && !svg.contains("font-weight:400"));
        assert!(svg.contains("\u{fffd}≤"));
    }

    proptest! {
        /// Numbers are plain: digits, one point, a sign; and within half a thousandth.
        #[test]
        fn law_numbers_are_plain(value in -1e9..1e9_f64) {
            let text = number(value).unwrap();
            prop_assert!(text.chars().all(|c| c.is_ascii_digit() || c == '.' || c == '-'));
            let read: f64 = text.parse().unwrap();
            // Half of the last digit, and the rounding of the value itself (1e9 × 2⁻⁵³).
            prop_assert!((read - value).abs() <= 0.000_5 + 2e-7);
        }

        /// No text breaks the markup.
        #[test]
        fn law_text_cannot_leave_its_element(words in any::<String>()) {
            let safe = escaped(&words);
            prop_assert!(!safe.contains(['<', '>', '"']));
            let mut figure = figure();
            figure.name = words.clone();
            let svg = in_page(&figure).unwrap();
            prop_assert_eq!(svg.matches('<').count(), svg.matches('>').count());
        }
    }
}
