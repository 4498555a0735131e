//! The blocks of a document as chunks of lines.

use drawing::figure::Pen;
use drawing::lettering::{Lettering, width_mm};
use drawing::look::{Colour, GRID_MM};

use super::super::document::{Block, Document, Drawing, Item, Run};
use super::flow::Chunk;
use super::set::{Line, Placed, lines, plain, text, verdict, verdict_width};
use super::{Room, rule, table};

/// Width of the column in which verdicts stand beside findings.
const VERDICTS: f64 = 16.0 * GRID_MM;

/// All chunks of a document.
pub(super) fn of_document(document: &Document, room: Room) -> Vec<Chunk<'_>> {
    let mut chunks = vec![chunk(0.0, plain(&document.title, room.width, Lettering::Stage), true)];
    let line = Line {
        height: Lettering::Figure.line_mm(),
        shapes: verdict(document.verdict, 0.0, Lettering::Figure),
        drawing: None,
    };
    chunks.push(chunk(GRID_MM, vec![line], true));
    for block in &document.opening {
        of_block(block, room, &mut chunks);
    }
    for section in &document.sections {
        let mut heading = vec![ruled(Pen::Edge, 0.0, room.width, GRID_MM)];
        heading.extend(plain(&section.title, room.width, Lettering::Stage));
        chunks.push(chunk(5.0 * GRID_MM, heading, true));
        for block in &section.blocks {
            of_block(block, room, &mut chunks);
        }
    }
    // The closing lines do not stand on a page alone.
    if let Some(last) = chunks.last_mut() {
        last.with_next = true;
    }
    let mut closing = vec![ruled(Pen::Edge, 0.0, room.width, GRID_MM)];
    for paragraph in &document.closing {
        closing.extend(lines(paragraph, 0.0, room.width));
    }
    chunks.push(chunk(4.0 * GRID_MM, closing, false));
    chunks
}

fn chunk(before: f64, lines: Vec<Line<'_>>, with_next: bool) -> Chunk<'_> {
    Chunk { before, lines, with_next, head: None }
}

/// A line that is a rule, with room below it.
fn ruled<'d>(pen: Pen, from: f64, to: f64, below: f64) -> Line<'d> {
    Line { height: below, shapes: vec![rule(pen, 0.0, from, to)], drawing: None }
}

fn of_block<'d>(block: &'d Block, room: Room, chunks: &mut Vec<Chunk<'d>>) {
    match block {
        Block::Question { words, verdict } => chunks.push(question(words, *verdict, room)),
        Block::Step(runs) => {
            let mut all = vec![ruled(Pen::Rule, 0.0, room.width, GRID_MM)];
            all.extend(lines(runs, 0.0, room.width));
            all.push(Line::blank(GRID_MM));
            all.push(ruled(Pen::Rule, 0.0, room.width, 0.0));
            chunks.push(chunk(GRID_MM, all, false));
        }
        Block::Heading(words) => {
            chunks.push(chunk(3.0 * GRID_MM, plain(words, room.width, Lettering::Figure), true));
        }
        Block::Paragraph(runs) => chunks.push(chunk(GRID_MM, lines(runs, 0.0, room.width), false)),
        Block::Finding(item) => chunks.push(finding(item, room)),
        Block::Drawing(drawing) => chunks.push(drawn(drawing, room)),
        Block::Table(table) => chunks.extend(table::of(table, room)),
        Block::List(items) => {
            // The items of a list are few and short: they stay together.
            let mut list = Vec::new();
            for item in items {
                let mut all = lines(item, 2.0 * GRID_MM, room.width - 2.0 * GRID_MM);
                if let Some(first) = all.first_mut() {
                    let base = super::set::baseline(Lettering::Text);
                    let dot = "•".to_owned();
                    let start = drawing::figure::Anchor::Start;
                    first.shapes.push(text([0.0, base], start, Lettering::Text, Colour::Ink, dot));
                }
                list.push(Line::blank(GRID_MM));
                list.append(&mut all);
            }
            chunks.push(chunk(0.0, list, false));
        }
    }
}

/// The question of a stage with its verdict on the last line, or on one of its own where it has no room there.
fn question<'d>(words: &str, worst: assessment::Verdict, room: Room) -> Chunk<'d> {
    let mut all = lines(&[Run::plain(words)], 0.0, room.width);
    let end =
        all.last().and_then(|line| line.shapes.iter().map(|shape| shape.bounds_mm()[2]).reduce(f64::max));
    let left = end.map_or(0.0, |end| end + 2.0 * GRID_MM);
    let fits = left + verdict_width(worst, Lettering::Strong) <= room.width;
    if !fits {
        all.push(Line::blank(Lettering::Text.line_mm()));
    }
    if let Some(last) = all.last_mut() {
        last.shapes.extend(verdict(worst, if fits { left } else { 0.0 }, Lettering::Strong));
    }
    all.push(Line::blank(GRID_MM));
    chunk(GRID_MM, all, true)
}

fn finding<'d>(item: &Item, room: Room) -> Chunk<'d> {
    let width = room.width - VERDICTS;
    let mut all = vec![ruled(Pen::Rule, 0.0, room.width, GRID_MM)];
    for paragraph in item.paragraphs.iter().chain(std::iter::once(&item.aside)) {
        all.extend(lines(paragraph, VERDICTS, width));
    }
    if let Some(first) = all.get_mut(1) {
        first.shapes.extend(verdict(item.verdict, 0.0, Lettering::Strong));
    }
    all.push(Line::blank(GRID_MM));
    chunk(0.0, all, false)
}

/// A drawing in the column: as large as its lettering asks, smaller only where it would not fit.
fn drawn(drawing: &Drawing, room: Room) -> Chunk<'_> {
    let [width, height] = drawing.figure.size_mm;
    let line = Lettering::Text.line_mm();
    let caption = if drawing.full_scale { line } else { 0.0 };
    let scale = (room.width / width).min((room.height - caption) / height).min(1.0);
    let figure = Placed { figure: &drawing.figure, at: [0.0, 0.0], scale };
    let mut all = vec![Line { height: height * scale, shapes: Vec::new(), drawing: Some(figure) }];
    if drawing.full_scale {
        let words = scale_words(super::SCALE * scale);
        all.extend(lines(&[Run::aside(&words)], 2.0 * GRID_MM, room.width));
    }
    chunk(2.0 * GRID_MM, all, false)
}

/// At which scale a sheet is printed, in words.
pub(super) fn scale_words(scale: f64) -> String {
    format!("Scale 1 : {:.2}: not to measure from or to drill by.", 1.0 / scale)
}

/// Width of words as a table sets them.
pub(super) fn word_width(words: &str) -> f64 {
    width_mm(words, Lettering::Text)
}
