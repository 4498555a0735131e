//! The document on pages of paper.
//!
//! Text and drawings are laid out in the millimetres of the drawings, whose lettering is made for a screen, and the
//! whole is printed at [`SCALE`]: so lettering has one size throughout a page.

mod chunk;
mod flow;
mod set;
mod table;

use std::borrow::Cow;

use drawing::Figure;
use drawing::figure::{Anchor, Pen, Shape};
use drawing::lettering::{Lettering, shortened, width_mm};
use drawing::look::Colour;
use drawing::page::{Page, Placed};
use drawing::pdf::{Meta, PdfError, pdf};
use drawing::template::Paper;

use self::flow::Sheet;
use super::document::Document;

/// Printed length over laid-out length: running text of 13.5 pt becomes one of 9.5 pt.
const SCALE: f64 = 0.7;

/// Unprinted edge, mm on paper, left and right; the binding and the thumb need more than the printer does.
const SIDE_MM: f64 = 18.0;
/// Above the text, mm on paper.
const HEAD_MM: f64 = 16.0;
/// Below the text, mm on paper; the foot stands in it.
const FOOT_MM: f64 = 22.0;

/// Layer of text and rules.
const LAYER: &str = "text";

/// Room for the text, in laid-out millimetres.
#[derive(Debug, Clone, Copy)]
struct Room {
    /// Width of the column.
    width: f64,
    /// Height of the column.
    height: f64,
}

/// The room of a paper.
fn room(paper: Paper) -> Room {
    let [width, height] = paper.size_mm();
    Room { width: (width - 2.0 * SIDE_MM) / SCALE, height: (height - HEAD_MM - FOOT_MM) / SCALE }
}

/// Prints the document.
pub(super) fn print(document: &Document, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let sheets = laid(document, paper);
    let count = sheets.len();
    let pages: Vec<Page<'_>> = sheets
        .into_iter()
        .enumerate()
        .map(|(index, sheet)| page(sheet, paper, document, &format!("{} of {count}", index + 1)))
        .collect();
    let meta = Meta {
        title: document.title.clone(),
        description: format!("Report: {}. {}.", document.verdict.word(), document.mark),
        ..Meta::default()
    };
    pdf(&pages, &meta)
}

/// The document as sheets, without their feet.
fn laid(document: &Document, paper: Paper) -> Vec<Sheet<'_>> {
    let room = room(paper);
    flow::flow(chunk::of_document(document, room), room)
}

fn page<'d>(sheet: Sheet<'d>, paper: Paper, document: &Document, number: &str) -> Page<'d> {
    let room = room(paper);
    let size_mm = paper.size_mm();
    let mut text = Figure {
        name: format!("page {number}"),
        title: document.title.clone(),
        desc: String::new(),
        size_mm: [room.width, room.height],
        marks: Vec::new(),
    };
    for shape in sheet.shapes {
        text.add(LAYER, shape);
    }
    foot(&mut text, room, document, number);
    let mut placed = vec![Placed {
        figure: Cow::Owned(text),
        offset_mm: [SIDE_MM, HEAD_MM],
        window_mm: None,
        scale: SCALE,
    }];
    placed.extend(sheet.drawings.into_iter().map(|drawing| Placed {
        figure: Cow::Borrowed(drawing.figure),
        offset_mm: [SIDE_MM + SCALE * drawing.at[0], HEAD_MM + SCALE * drawing.at[1]],
        window_mm: None,
        scale: SCALE * drawing.scale,
    }));
    Page { size_mm, placed }
}

/// Title at the left, job, program and page at the right.
fn foot(text: &mut Figure, room: Room, document: &Document, number: &str) {
    let line = Lettering::Text.line_mm();
    let top = room.height + line / 2.0;
    text.line(LAYER, Pen::Rule, [0.0, top], [room.width, top]);
    let baseline = top + line;
    let right = format!("{}, page {number}", document.mark);
    let left = room.width - width_mm(&right, Lettering::Text) - line;
    let title = shortened(&document.title, left, Lettering::Text).into_owned();
    for (x, anchor, words) in [(0.0, Anchor::Start, title), (room.width, Anchor::End, right)] {
        text.add(LAYER, set::text([x, baseline], anchor, Lettering::Text, Colour::Aside, words));
    }
}

/// A horizontal rule across a width.
fn rule(pen: Pen, y: f64, from: f64, to: f64) -> Shape {
    Shape::Line { from: [from, y], to: [to, y], pen }
}

#[cfg(test)]
mod tests;
