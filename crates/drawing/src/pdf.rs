//! The PDF writer: pages at exact or stated scale, outlines of the typeface embedded.
//!
//! The same pages and [`Meta`] give the same bytes: there is a date only if one is given, and the
//! file's id is made from its content. Colours are those of [`Room::Print`]; a figure brings no
//! ground with it, the paper is its ground. Signs that the typeface lacks are replaced by
//! [`lettering::covered`].

use std::ops::RangeInclusive;

use krilla::color::rgb;
use krilla::error::KrillaError;
use krilla::geom::{Path, PathBuilder, Point as PdfPoint, Rect, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};
use skrifa::charmap::Charmap;
use skrifa::{FontRef, MetadataProvider};
use thiserror::Error;

use crate::figure::{Anchor, Pen, Point, Shape, Text};
use crate::fonts::Cut;
use crate::lettering;
use crate::look::{Colour, Room};
use crate::page::{Page, Placed};

/// Points in one millimetre: PDF counts 72 to the inch (ISO 32000-1:2008, 8.3.2.3; published).
pub const PT_MM: f64 = 72.0 / 25.4;

/// Greatest side of a page, mm: 14 400 pt (ISO 32000-1:2008, Annex C.2, Table C.1; from memory).
pub const GREATEST_PAGE_MM: f64 = 5080.0;

/// Greatest distance of a mark from the corner of its page, mm. The format's numbers are single
/// precision: at this distance they are 2⁻⁵ pt apart, so that a place is true to 0.006 mm; on a page
/// of a metre it is true to a ten-thousandth.
pub const GREATEST_MM: f64 = 1e5;

/// The scales at which a figure can be placed; beyond them single precision tells places apart no more.
pub const SCALES: RangeInclusive<f64> = 1e-3..=1e3;

/// What the file says about itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Meta {
    /// Title.
    pub title: String,
    /// What it is about, in a line or two; empty for nothing.
    pub description: String,
    /// Who made it.
    pub authors: Vec<String>,
    /// When it was made; none leaves the date out, so that equal content is an equal file.
    pub made: Option<Moment>,
}

/// A moment, in universal time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment {
    /// Year.
    pub year: u16,
    /// Month, from 1.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
    /// Hour, from 0.
    pub hour: u8,
    /// Minute.
    pub minute: u8,
    /// Second.
    pub second: u8,
}

/// Why pages could not be written.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum PdfError {
    /// There is no page; the format asks for one.
    #[error("there is no page to write")]
    NoPage,
    /// A side of a page is no positive number or beyond [`GREATEST_PAGE_MM`].
    #[error("page {page} of {size_mm:?} mm has no size that a PDF can have")]
    PageSize {
        /// Which page, from 1.
        page: usize,
        /// Its size, mm.
        size_mm: [f64; 2],
    },
    /// A window is no rectangle, the place of a figure is no number, or its scale is none of [`SCALES`].
    #[error("figure {figure:?} has no place on page {page}")]
    NoPlace {
        /// Which page, from 1.
        page: usize,
        /// Name of the figure.
        figure: String,
    },
    /// A coordinate or size of a mark is no number, or is out of reach.
    #[error(
        "mark {index} on layer {layer:?} of figure {figure:?} has a size that is no number, or lies \
         more than 100 m from page {page}"
    )]
    OutOfReach {
        /// Which page, from 1.
        page: usize,
        /// Name of the figure.
        figure: String,
        /// Layer of the mark.
        layer: &'static str,
        /// Place of the mark among the figure's marks, from 0.
        index: usize,
    },
    /// The file of the typeface cannot be read.
    #[error("the typeface's {cut:?} cut cannot be read")]
    Typeface {
        /// Which cut.
        cut: Cut,
    },
    /// The writer of the format refused.
    #[error("the PDF could not be put together: {0}")]
    Refused(#[source] Box<KrillaError>),
}

/// Writes pages as a PDF file.
///
/// # Errors
/// See [`PdfError`].
pub fn pdf(pages: &[Page], meta: &Meta) -> Result<Vec<u8>, PdfError> {
    write(pages, meta, true)
}

fn write(pages: &[Page], meta: &Meta, compressed: bool) -> Result<Vec<u8>, PdfError> {
    if pages.is_empty() {
        return Err(PdfError::NoPage);
    }
    let faces = Faces::read()?;
    let mut document = Document::new_with(SerializeSettings {
        compress_content_streams: compressed,
        enable_tagging: false,
        ..SerializeSettings::default()
    });
    document.set_metadata(metadata(meta));
    for (place, page) in pages.iter().enumerate() {
        let number = place + 1;
        let bad_size = || PdfError::PageSize { page: number, size_mm: page.size_mm };
        let side = |mm: f64| Some(mm).filter(|mm| *mm > 0.0 && *mm <= GREATEST_PAGE_MM).and_then(points);
        let [Some(width), Some(height)] = page.size_mm.map(side) else {
            return Err(bad_size());
        };
        let settings = PageSettings::from_wh(width, height).ok_or_else(bad_size)?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        let laid = page.placed.iter().try_for_each(|placed| lay(&mut surface, placed, number, &faces));
        surface.finish();
        sheet.finish();
        laid?;
    }
    document.finish().map_err(|error| PdfError::Refused(Box::new(error)))
}

fn metadata(meta: &Meta) -> Metadata {
    // The metadata are also written as XML, which cannot bear control signs.
    let plain = |text: &String| text.replace(|sign: char| sign.is_control(), " ");
    let about = Metadata::new()
        .title(plain(&meta.title))
        .description(plain(&meta.description))
        .authors(meta.authors.iter().map(plain).collect())
        .language("en".into());
    match meta.made {
        None => about,
        Some(moment) => about.creation_date(
            DateTime::new(moment.year)
                .month(moment.month)
                .day(moment.day)
                .hour(moment.hour)
                .minute(moment.minute)
                .second(moment.second),
        ),
    }
}

/// Draws one figure on its page.
fn lay(surface: &mut Surface, placed: &Placed, page: usize, faces: &Faces) -> Result<(), PdfError> {
    let figure = &placed.figure;
    let no_place = || PdfError::NoPlace { page, figure: figure.name.clone() };
    if !placed.offset_mm.iter().all(|mm| mm.is_finite()) || !SCALES.contains(&placed.scale) {
        return Err(no_place());
    }
    let window = placed.window_mm.map(|window| frame(window).ok_or_else(no_place)).transpose()?;
    // At full scale the numbers in the file are those of the page.
    let scale =
        ((placed.scale - 1.0).abs() > 0.0).then(|| about_offset(placed).ok_or_else(no_place)).transpose()?;
    if let Some(window) = &window {
        surface.push_clip_path(window, &FillRule::NonZero);
    }
    if let Some(scale) = &scale {
        surface.push_transform(scale);
    }
    let mut drawn = Ok(());
    for (index, mark) in figure.marks.iter().enumerate() {
        if draw(surface, &mark.shape, placed, faces).is_none() {
            drawn = Err(PdfError::OutOfReach { page, figure: figure.name.clone(), layer: mark.layer, index });
            break;
        }
    }
    // What was pushed must be taken off on every way out: the library asserts it.
    if scale.is_some() {
        surface.pop();
    }
    if window.is_some() {
        surface.pop();
    }
    drawn
}

/// The scale of a figure, about the corner at which it lies: marks come with that offset added.
#[expect(clippy::cast_possible_truncation, reason = "the format's own precision")]
fn about_offset(placed: &Placed) -> Option<Transform> {
    let stays = |mm: f64| points(mm * (1.0 - placed.scale));
    let [x, y] = placed.offset_mm;
    let scale = placed.scale as f32;
    Some(Transform::from_row(scale, 0.0, 0.0, scale, stays(x)?, stays(y)?))
}

fn frame([left, top, right, bottom]: [f64; 4]) -> Option<Path> {
    let rect = Rect::from_ltrb(points(left)?, points(top)?, points(right)?, points(bottom)?)?;
    let mut path = PathBuilder::new();
    path.push_rect(rect);
    path.finish()
}

/// A length in points; none if it is no number or out of reach.
#[expect(clippy::cast_possible_truncation, reason = "the format's own precision; the size is checked")]
fn points(mm: f64) -> Option<f32> {
    (mm.abs() <= GREATEST_MM).then_some((mm * PT_MM) as f32)
}

/// Draws one mark; none if a coordinate is out of reach.
fn draw(surface: &mut Surface, shape: &Shape, placed: &Placed, faces: &Faces) -> Option<()> {
    let on_page = |[x, y]: Point| Some((points(x + placed.offset_mm[0])?, points(y + placed.offset_mm[1])?));
    let mut path = PathBuilder::new();
    let (fill, pen, join) = match shape {
        Shape::Line { from, to, pen } => {
            chain(&mut path, &[*from, *to], on_page)?;
            (None, Some(*pen), LineJoin::Miter)
        }
        Shape::Polyline { points, pen } => {
            chain(&mut path, points, on_page)?;
            (None, Some(*pen), LineJoin::Round)
        }
        Shape::Area { rings, fill, pen } => {
            for ring in rings.iter().filter(|ring| !ring.is_empty()) {
                chain(&mut path, ring, on_page)?;
                path.close();
            }
            (*fill, *pen, LineJoin::Miter)
        }
        Shape::Circle { centre, radius, fill, pen } => {
            circle(&mut path, *centre, *radius, on_page)?;
            (*fill, *pen, LineJoin::Miter)
        }
        Shape::Text(text) => {
            let at = on_page(text.at)?;
            text.turn_deg.is_finite().then_some(())?;
            if shows(shape, placed) {
                lettered(surface, text, at, faces);
            }
            return Some(());
        }
    };
    // A path without extent draws nothing.
    if let Some(path) = path.finish().filter(|_| shows(shape, placed) && (fill.is_some() || pen.is_some())) {
        surface.set_fill(fill.map(filled));
        surface.set_stroke(pen.map(|pen| stroked(pen, join)));
        surface.draw_path(&path);
    }
    Some(())
}

/// Whether any of a shape lies in the window, with room for the width of its lines.
fn shows(shape: &Shape, placed: &Placed) -> bool {
    const ROOM_MM: f64 = 5.0;
    let Some(window) = placed.window_mm else {
        return true;
    };
    let bounds = shape.bounds_mm().map(|mm| mm * placed.scale);
    let [x, y] = placed.offset_mm;
    bounds[0] + x <= window[2] + ROOM_MM
        && bounds[2] + x >= window[0] - ROOM_MM
        && bounds[1] + y <= window[3] + ROOM_MM
        && bounds[3] + y >= window[1] - ROOM_MM
}

fn chain(
    path: &mut PathBuilder,
    corners: &[Point],
    on_page: impl Fn(Point) -> Option<(f32, f32)>,
) -> Option<()> {
    for (place, corner) in corners.iter().enumerate() {
        let (x, y) = on_page(*corner)?;
        if place == 0 {
            path.move_to(x, y);
        } else {
            path.line_to(x, y);
        }
    }
    Some(())
}

/// A circle as eight cubic arcs whose ends and middles lie on it. The control points stand off along
/// the tangent by k·r with
///
/// ```text
/// k = 4/3 · tan(φ/4),   φ = 45°
/// ```
///
/// which leaves the curve out of round by some 4·10⁻⁶ of the radius: 2 µm at a radius of half a metre.
/// (Common practice.)
fn circle(
    path: &mut PathBuilder,
    [x, y]: Point,
    radius: f64,
    on_page: impl Fn(Point) -> Option<(f32, f32)>,
) -> Option<()> {
    if !(radius.is_finite() && radius >= 0.0) {
        return None;
    }
    let eighth = std::f64::consts::FRAC_PI_4;
    let reach = 4.0 / 3.0 * libm::tan(eighth / 4.0);
    let at = |turn: f64, along: f64| {
        let (sin, cos) = (libm::sin(turn), libm::cos(turn));
        on_page([x + radius * (cos - along * sin), y + radius * (sin + along * cos)])
    };
    let (start_x, start_y) = at(0.0, 0.0)?;
    path.move_to(start_x, start_y);
    for arc in 0..8_u8 {
        let from = f64::from(arc) * eighth;
        let to = from + eighth;
        let ((ax, ay), (bx, by), (ex, ey)) = (at(from, reach)?, at(to, -reach)?, at(to, 0.0)?);
        path.cubic_to(ax, ay, bx, by, ex, ey);
    }
    path.close();
    Some(())
}

fn paint(colour: Colour) -> rgb::Color {
    let [red, green, blue] = colour.rgb(Room::Print);
    rgb::Color::new(red, green, blue)
}

fn filled(colour: Colour) -> Fill {
    Fill { paint: paint(colour).into(), opacity: NormalizedF32::ONE, rule: FillRule::EvenOdd }
}

fn stroked(pen: Pen, line_join: LineJoin) -> Stroke {
    let stroke = pen.stroke();
    let array: Vec<f32> = stroke.dash_mm.iter().copied().filter_map(points).collect();
    Stroke {
        paint: paint(stroke.colour).into(),
        width: points(stroke.width_mm).unwrap_or_default(),
        // As in SVG, where no other is said.
        miter_limit: 4.0,
        line_join,
        dash: (!array.is_empty()).then_some(StrokeDash { array, offset: 0.0 }),
        ..Stroke::default()
    }
}

/// One cut of the typeface, ready to be embedded.
struct Face {
    font: Font,
    glyphs: Charmap<'static>,
}

struct Faces {
    regular: Face,
    bold: Face,
}

impl Faces {
    fn read() -> Result<Self, PdfError> {
        let face = |cut: Cut| {
            let font = Font::new(cut.otf().into(), 0).ok_or(PdfError::Typeface { cut })?;
            let file = FontRef::new(cut.otf()).map_err(|_| PdfError::Typeface { cut })?;
            Ok(Face { font, glyphs: file.charmap() })
        };
        Ok(Self { regular: face(Cut::Regular)?, bold: face(Cut::Bold)? })
    }

    const fn of(&self, cut: Cut) -> &Face {
        match cut {
            Cut::Regular => &self.regular,
            Cut::Bold => &self.bold,
        }
    }
}

/// Sets one line of text, sign by sign by the table of widths: the typeface comes without kerning.
#[expect(clippy::cast_possible_truncation, reason = "the format's own precision")]
fn lettered(surface: &mut Surface, text: &Text, (x, y): (f32, f32), faces: &Faces) {
    let face = faces.of(text.lettering.cut());
    let words = lettering::covered(&text.words);
    let glyphs: Vec<KrillaGlyph> = words
        .char_indices()
        .filter_map(|(start, sign)| {
            let id = face.glyphs.map(sign)?.to_u32();
            let advance = lettering::advance(sign)? as f32;
            let said = start..start + sign.len_utf8();
            Some(KrillaGlyph::new(GlyphId::new(id), advance, 0.0, 0.0, 0.0, said, None))
        })
        .collect();
    if glyphs.is_empty() {
        return;
    }
    let width = lettering::width_mm(&words, text.lettering) * PT_MM;
    let start = match text.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => -width / 2.0,
        Anchor::End => -width,
    };
    let turn = text.turn_deg.to_radians();
    let (sin, cos) = (libm::sin(turn) as f32, libm::cos(turn) as f32);
    // Anticlockwise as seen, with y down.
    surface.push_transform(&Transform::from_row(cos, -sin, sin, cos, x, y));
    surface.set_fill(Some(filled(text.colour)));
    surface.set_stroke(None);
    let size = (text.lettering.size_mm() * PT_MM) as f32;
    surface.draw_glyphs(
        PdfPoint::from_xy(start as f32, 0.0),
        &glyphs,
        face.font.clone(),
        &words,
        size,
        false,
    );
    surface.pop();
}

#[cfg(test)]
mod tests;
