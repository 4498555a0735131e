//! The DXF writer: release 2000 (AC1015) as text, millimetres, y up.
//!
//! R2000 is the oldest release whose header states the unit, and every later program reads it. Marks
//! keep their layers. A DXF is for cutting and drilling, so it carries edges, places and words:
//! areas that are only painted are left out, a circle is always written.
//!
//! Group codes and the order of sections follow the published DXF reference of the release (from
//! memory); a reader that is not ours checks the files in `.ci/drawings`.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use thiserror::Error;

use crate::figure::{Anchor, Figure, Mark, Pen, Point, Shape, Text};
use crate::lettering::CAPITAL_EM;
use crate::look::Colour;

/// Why a figure could not be written.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum DxfError {
    /// Width or height is not a positive number.
    #[error("figure {figure:?} has no size")]
    NoSize {
        /// Name of the figure.
        figure: String,
    },
    /// A coordinate is no number, or a radius is negative.
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

/// Handles of the objects that others point to; those of the rest are counted on from here.
mod handle {
    pub(super) const BLOCK_RECORDS: u32 = 1;
    pub(super) const MODEL: u32 = 2;
    pub(super) const PAPER: u32 = 3;
    pub(super) const ROOT: u32 = 4;
    pub(super) const GROUPS: u32 = 5;
    pub(super) const FIRST_FREE: u32 = 16;
}

/// Writes a figure as a DXF file; the lower left corner of the figure is the origin.
///
/// # Errors
/// See [`DxfError`].
pub fn dxf(figure: &Figure) -> Result<String, DxfError> {
    let [width, height] = figure.size_mm;
    if ![width, height].iter().all(|side| side.is_finite() && *side > 0.0) {
        return Err(DxfError::NoSize { figure: figure.name.clone() });
    }
    let mut body = Out { text: String::new(), next: handle::FIRST_FREE };
    body.tables(figure);
    body.blocks();
    body.section("ENTITIES");
    for (index, mark) in figure.marks.iter().enumerate() {
        body.entity(mark, height).ok_or_else(|| DxfError::NotFinite {
            figure: figure.name.clone(),
            layer: mark.layer,
            index,
        })?;
    }
    body.word(0, "ENDSEC");
    body.objects();
    // The header names the next free handle, so it is made last and stands first.
    let mut file = Out { text: String::new(), next: 0 };
    file.header(width, height, body.next);
    file.text.push_str(&body.text);
    file.word(0, "EOF");
    Ok(file.text)
}

struct Out {
    text: String,
    next: u32,
}

impl Out {
    /// One pair of group code and value. Writing to a String cannot fail.
    fn word(&mut self, code: u16, value: &str) {
        let _ = write!(self.text, "{code}\n{value}\n");
    }

    fn whole(&mut self, code: u16, value: i64) {
        let _ = write!(self.text, "{code}\n{value}\n");
    }

    /// A length or an angle to a millionth; none if it is no number.
    fn real(&mut self, code: u16, value: f64) -> Option<()> {
        value.is_finite().then_some(())?;
        // Adding zero turns −0 into 0.
        let value = (value * 1e6).round() / 1e6 + 0.0;
        value.is_finite().then_some(())?;
        let _ = write!(self.text, "{code}\n{value:?}\n");
        Some(())
    }

    /// A point by its first group code; z is left at 0.
    fn point(&mut self, code: u16, [x, y]: Point) -> Option<()> {
        self.real(code, x)?;
        self.real(code + 10, y)
    }

    fn owned(&mut self, handle: u32, owner: u32) {
        let _ = write!(self.text, "5\n{handle:X}\n330\n{owner:X}\n");
    }

    fn new_handle(&mut self) -> u32 {
        self.next += 1;
        self.next - 1
    }

    fn section(&mut self, name: &str) {
        self.word(0, "SECTION");
        self.word(2, name);
    }

    fn header(&mut self, width: f64, height: f64, seed: u32) {
        self.section("HEADER");
        for (name, code, value) in [
            ("$ACADVER", 1, "AC1015".to_owned()),
            ("$DWGCODEPAGE", 3, "ANSI_1252".into()),
            ("$HANDSEED", 5, format!("{seed:X}")),
            // 4 is the millimetre; 1 picks metric line types and hatches.
            ("$INSUNITS", 70, "4".into()),
            ("$MEASUREMENT", 70, "1".into()),
            ("$LTSCALE", 40, "1.0".into()),
        ] {
            self.word(9, name);
            self.word(code, &value);
        }
        for (name, corner) in [("$EXTMIN", [0.0; 2]), ("$EXTMAX", [width, height])] {
            self.word(9, name);
            // The size was found to be a number.
            let _ = self.point(10, corner);
            self.word(30, "0.0");
        }
        self.word(0, "ENDSEC");
        self.section("CLASSES");
        self.word(0, "ENDSEC");
    }

    fn tables(&mut self, figure: &Figure) {
        self.section("TABLES");
        let [width, height] = figure.size_mm;
        self.table("VPORT", None, &["*ACTIVE".to_owned()], |out, _| {
            for (code, value) in
                [(10, 0.0), (20, 0.0), (11, 1.0), (21, 1.0), (12, width / 2.0), (22, height / 2.0)]
            {
                let _ = out.real(code, value);
            }
            let _ = out.real(40, height);
            let _ = out.real(41, width / height);
        });
        let names: Vec<String> = ["ByBlock", "ByLayer", "Continuous"]
            .map(str::to_owned)
            .into_iter()
            .chain(line_types().map(line_type))
            .collect();
        self.table("LTYPE", None, &names, |out, name| {
            let dashes =
                line_types().find(|pen| line_type(*pen) == name).map_or(&[][..], |pen| pen.stroke().dash_mm);
            out.word(3, "");
            out.word(72, "65");
            out.whole(73, i64::try_from(dashes.len()).unwrap_or_default());
            let _ = out.real(40, dashes.iter().sum());
            for (place, length) in dashes.iter().enumerate() {
                let _ = out.real(49, if place % 2 == 0 { *length } else { -length });
                out.word(74, "0");
            }
        });
        let layers: BTreeSet<String> =
            figure.marks.iter().map(|mark| layer_name(mark.layer)).chain(["0".to_owned()]).collect();
        let layers: Vec<String> = layers.into_iter().collect();
        self.table("LAYER", None, &layers, |out, _| {
            out.word(62, "7");
            out.word(6, "Continuous");
        });
        self.table("STYLE", None, &["Standard".to_owned()], |out, _| {
            for (code, value) in
                [(40, "0.0"), (41, "1.0"), (50, "0.0"), (71, "0"), (42, "2.5"), (3, "txt"), (4, "")]
            {
                out.word(code, value);
            }
        });
        self.table("VIEW", None, &[], |_, _| ());
        self.table("UCS", None, &[], |_, _| ());
        self.table("APPID", None, &["ACAD".to_owned()], |_, _| ());
        self.table("DIMSTYLE", None, &["Standard".to_owned()], |_, _| ());
        let blocks = [("*Model_Space", handle::MODEL), ("*Paper_Space", handle::PAPER)];
        let names = blocks.map(|(name, _)| name.to_owned());
        self.table("BLOCK_RECORD", Some(handle::BLOCK_RECORDS), &names, |out, _| {
            out.word(340, "0");
        });
        self.word(0, "ENDSEC");
    }

    /// One table of named records; the block records alone have handles that others know.
    fn table(
        &mut self,
        kind: &str,
        known: Option<u32>,
        names: &[String],
        mut content: impl FnMut(&mut Self, &str),
    ) {
        let own = known.unwrap_or_else(|| self.new_handle());
        self.word(0, "TABLE");
        self.word(2, kind);
        self.owned(own, 0);
        self.word(100, "AcDbSymbolTable");
        self.whole(70, i64::try_from(names.len()).unwrap_or_default());
        if kind == "DIMSTYLE" {
            self.word(100, "AcDbDimStyleTable");
        }
        let class = match kind {
            "VPORT" => "AcDbViewportTableRecord",
            "LTYPE" => "AcDbLinetypeTableRecord",
            "LAYER" => "AcDbLayerTableRecord",
            "STYLE" => "AcDbTextStyleTableRecord",
            "APPID" => "AcDbRegAppTableRecord",
            "DIMSTYLE" => "AcDbDimStyleTableRecord",
            _ => "AcDbBlockTableRecord",
        };
        for name in names {
            self.word(0, kind);
            let record = match (known, name.as_str()) {
                (Some(_), "*Model_Space") => handle::MODEL,
                (Some(_), _) => handle::PAPER,
                (None, _) => self.new_handle(),
            };
            // Dimension styles have their handle under another code, because 5 is taken there.
            if kind == "DIMSTYLE" {
                let _ = write!(self.text, "105\n{record:X}\n330\n{own:X}\n");
            } else {
                self.owned(record, own);
            }
            self.word(100, "AcDbSymbolTableRecord");
            self.word(100, class);
            self.word(2, name);
            if known.is_none() {
                self.word(70, "0");
            }
            content(self, name);
        }
        self.word(0, "ENDTAB");
    }

    fn blocks(&mut self) {
        self.section("BLOCKS");
        for (name, record) in [("*Model_Space", handle::MODEL), ("*Paper_Space", handle::PAPER)] {
            let (begin, end) = (self.new_handle(), self.new_handle());
            self.word(0, "BLOCK");
            self.owned(begin, record);
            self.word(100, "AcDbEntity");
            self.word(8, "0");
            self.word(100, "AcDbBlockBegin");
            self.word(2, name);
            for (code, value) in [(70, "0"), (10, "0.0"), (20, "0.0"), (30, "0.0")] {
                self.word(code, value);
            }
            self.word(3, name);
            self.word(1, "");
            self.word(0, "ENDBLK");
            self.owned(end, record);
            self.word(100, "AcDbEntity");
            self.word(8, "0");
            self.word(100, "AcDbBlockEnd");
        }
        self.word(0, "ENDSEC");
    }

    /// The root of the named objects, with the list of groups that every file has.
    fn objects(&mut self) {
        self.section("OBJECTS");
        for (own, owner, entry) in
            [(handle::ROOT, 0, Some(("ACAD_GROUP", handle::GROUPS))), (handle::GROUPS, handle::ROOT, None)]
        {
            self.word(0, "DICTIONARY");
            self.owned(own, owner);
            self.word(100, "AcDbDictionary");
            self.word(281, "1");
            if let Some((name, object)) = entry {
                self.word(3, name);
                self.word(350, &format!("{object:X}"));
            }
        }
        self.word(0, "ENDSEC");
    }

    /// Writes one mark; none if a coordinate is no number.
    fn entity(&mut self, mark: &Mark, height: f64) -> Option<()> {
        let up = |[x, y]: Point| [x, height - y];
        match &mark.shape {
            Shape::Line { from, to, pen } => {
                self.begin("LINE", mark.layer, Some(*pen), "AcDbLine");
                self.point(10, up(*from))?;
                self.point(11, up(*to))
            }
            Shape::Polyline { points, pen } => self.chain(mark.layer, points, *pen, false, height),
            Shape::Area { rings, pen, .. } => {
                // Without a pen nothing is written, but what is no number is still refused.
                let sound = rings.iter().flatten().flatten().all(|coordinate| coordinate.is_finite());
                sound.then_some(())?;
                let Some(pen) = *pen else { return Some(()) };
                rings.iter().try_for_each(|ring| self.chain(mark.layer, ring, pen, true, height))
            }
            Shape::Circle { centre, radius, pen, .. } => {
                if *radius == 0.0 {
                    return Some(());
                }
                (*radius > 0.0).then_some(())?;
                self.begin("CIRCLE", mark.layer, *pen, "AcDbCircle");
                self.point(10, up(*centre))?;
                self.real(40, *radius)
            }
            Shape::Text(text) => self.words(mark.layer, text, up(text.at)),
        }
    }

    fn chain(&mut self, layer: &str, points: &[Point], pen: Pen, closed: bool, height: f64) -> Option<()> {
        if points.len() < 2 {
            return points.iter().flatten().all(|coordinate| coordinate.is_finite()).then_some(());
        }
        self.begin("LWPOLYLINE", layer, Some(pen), "AcDbPolyline");
        self.whole(90, i64::try_from(points.len()).ok()?);
        self.word(70, if closed { "1" } else { "0" });
        points.iter().try_for_each(|[x, y]| self.point(10, [*x, height - y]))
    }

    fn words(&mut self, layer: &str, text: &Text, at: Point) -> Option<()> {
        self.begin("TEXT", layer, None, "AcDbText");
        self.point(10, at)?;
        self.real(40, text.lettering.size_mm() * CAPITAL_EM)?;
        self.word(1, &escaped(&text.words));
        self.real(50, text.turn_deg)?;
        let across = match text.anchor {
            Anchor::Start => None,
            Anchor::Middle => Some("1"),
            Anchor::End => Some("2"),
        };
        if let Some(across) = across {
            self.word(72, across);
            self.point(11, at)?;
        }
        self.word(100, "AcDbText");
        Some(())
    }

    /// What every entity begins with.
    fn begin(&mut self, kind: &str, layer: &str, pen: Option<Pen>, class: &str) {
        let own = self.new_handle();
        self.word(0, kind);
        self.owned(own, handle::MODEL);
        self.word(100, "AcDbEntity");
        self.word(8, &layer_name(layer));
        if let Some(pen) = pen {
            let stroke = pen.stroke();
            self.word(6, &line_type(pen));
            self.whole(62, colour_number(stroke.colour));
            // The widths of the pens, 0.265 and 0.529 mm, by the format's steps of hundredths.
            self.word(370, if stroke.width_mm > 0.4 { "53" } else { "25" });
        }
        self.word(100, class);
    }
}

/// The first pen of each sort of dashes.
fn line_types() -> impl Iterator<Item = Pen> {
    Pen::ALL.into_iter().filter(|pen| {
        !pen.stroke().dash_mm.is_empty()
            && Pen::ALL.iter().find(|other| other.stroke().dash_mm == pen.stroke().dash_mm) == Some(pen)
    })
}

/// Name of a pen's line type: that of the first pen with the same dashes.
fn line_type(pen: Pen) -> String {
    line_types()
        .find(|first| first.stroke().dash_mm == pen.stroke().dash_mm)
        .map_or_else(|| "Continuous".into(), |first| first.name().to_ascii_uppercase())
}

/// The nearest of the format's numbered colours; 7 is black on white and white on black.
const fn colour_number(colour: Colour) -> i64 {
    match colour {
        Colour::Accent => 5,
        Colour::Met => 3,
        Colour::NotMet => 1,
        Colour::Unknown => 30,
        Colour::Note | Colour::Aside | Colour::Rule => 8,
        Colour::Hair => 9,
        _ => 7,
    }
}

/// A layer's name in signs that the format allows; what has none is layer 0.
fn layer_name(layer: &str) -> String {
    if layer.is_empty() {
        return "0".into();
    }
    let safe = |sign: char| if sign.is_ascii_alphanumeric() || sign == '_' { sign } else { '-' };
    layer.chars().map(|sign| safe(sign).to_ascii_lowercase()).collect()
}

/// Text in one line of printable ASCII: other signs as `\U+XXXX`, as are those by which the format
/// marks other signs.
fn escaped(words: &str) -> String {
    let mut safe = String::with_capacity(words.len());
    for sign in words.chars() {
        match sign {
            sign if sign.is_control() => safe.push(' '),
            '\\' | '^' | '%' => {
                let _ = write!(safe, "\\U+{:04X}", u32::from(sign));
            }
            ' '..='~' => safe.push(sign),
            // Four digits are all that the release has.
            sign if u32::from(sign) > 0xFFFF => safe.push('?'),
            sign => {
                let _ = write!(safe, "\\U+{:04X}", u32::from(sign));
            }
        }
    }
    safe
}

#[cfg(test)]
mod tests;
