//! Tables: columns by what they hold, rows that are not torn, heads that are repeated.

use drawing::figure::{Anchor, Pen};
use drawing::lettering::{Lettering, width_mm};
use drawing::look::{Colour, GRID_MM};

use super::super::document::{Cell, Ranged, Run, Table};
use super::chunk::word_width;
use super::flow::{Chunk, Head};
use super::set::{Line, baseline, lines, text, verdict, verdict_width};
use super::{Room, rule};

/// Between two columns.
const GAP: f64 = 2.0 * GRID_MM;
/// Above and below the words of a row.
const PADDING: f64 = GRID_MM / 2.0;
/// The part of the width that columns of numbers, names and verdicts may take together.
const KEPT: f64 = 0.6;
/// A rounding of sums, so that what was measured to fit is not wrapped.
const SLACK: f64 = 1e-6;

/// The chunks of a table: its head, then each row.
pub(super) fn of<'d>(table: &Table, room: Room) -> Vec<Chunk<'d>> {
    let columns = columns(table, room.width);
    let head = head(table, &columns, room.width);
    let mut chunks = vec![Chunk {
        before: 2.0 * GRID_MM,
        lines: vec![Line { height: head.height, shapes: head.shapes.clone(), drawing: None }],
        with_next: true,
        head: None,
    }];
    chunks.extend(table.rows.iter().map(|cells| Chunk {
        before: 0.0,
        lines: row(cells, table, &columns, room.width),
        with_next: false,
        head: Some(head.clone()),
    }));
    chunks
}

/// Where a column begins, and how wide it is.
#[derive(Debug, Clone, Copy)]
struct Column {
    left: f64,
    width: f64,
}

impl Column {
    /// Where words are held, and by which end.
    fn held(self, ranged: Ranged) -> (f64, Anchor) {
        match ranged {
            Ranged::Left => (self.left, Anchor::Start),
            Ranged::Right => (self.left + self.width, Anchor::End),
        }
    }
}

/// Each column gets what its widest cell needs. Where that is more than there is, the widest columns of words give
/// way first; numbers, names and verdicts keep theirs up to their part of the width.
fn columns(table: &Table, width: f64) -> Vec<Column> {
    let wanted: Vec<f64> = table
        .columns
        .iter()
        .enumerate()
        .map(|(index, (head, _))| {
            let cells = table.rows.iter().filter_map(|row| row.get(index)).map(|cell| match cell {
                Cell::Words(words) | Cell::Name(words) => word_width(words),
                Cell::Verdict(found) => verdict_width(*found, Lettering::Strong),
            });
            cells.fold(width_mm(head, Lettering::Strong), f64::max) + SLACK
        })
        .collect();
    let gaps = GAP * f64::from(u32::try_from(wanted.len().saturating_sub(1)).unwrap_or(u32::MAX));
    let room = width - gaps;
    let kept: Vec<bool> = (0..wanted.len()).map(|index| is_kept(table, index)).collect();
    let pick = |which: bool| -> Vec<f64> {
        wanted.iter().zip(&kept).filter(|(_, kept)| **kept == which).map(|(wanted, _)| *wanted).collect()
    };
    let of_kept = level(&pick(true), KEPT * room);
    let taken: f64 = pick(true).into_iter().map(|wanted| wanted.min(of_kept)).sum();
    let of_words = level(&pick(false), room - taken);
    let mut left = 0.0;
    wanted
        .iter()
        .zip(&kept)
        .map(|(wanted, kept)| {
            let column = Column { left, width: wanted.min(if *kept { of_kept } else { of_words }) };
            left += column.width + GAP;
            column
        })
        .collect()
}

/// Whether a column holds nothing but numbers, names and verdicts, which are not to be broken.
fn is_kept(table: &Table, index: usize) -> bool {
    let ranged = table.columns.get(index).map(|(_, ranged)| *ranged);
    let mut cells = table.rows.iter().filter_map(|row| row.get(index));
    ranged == Some(Ranged::Right) || cells.all(|cell| !matches!(cell, Cell::Words(_)))
}

/// The greatest width of a column at which all of them fit.
fn level(wanted: &[f64], room: f64) -> f64 {
    let mut sorted = wanted.to_vec();
    sorted.sort_by(f64::total_cmp);
    let (mut left, mut number) = (room, f64::from(u32::try_from(sorted.len()).unwrap_or(u32::MAX)));
    for narrow in sorted {
        if narrow * number > left {
            return (left / number).max(0.0);
        }
        left -= narrow;
        number -= 1.0;
    }
    f64::INFINITY
}

fn head(table: &Table, columns: &[Column], width: f64) -> Head {
    let strong = Lettering::Strong;
    let mut shapes: Vec<_> = table
        .columns
        .iter()
        .zip(columns)
        .map(|((words, ranged), column)| {
            let (x, anchor) = column.held(*ranged);
            text([x, PADDING + baseline(strong)], anchor, strong, Colour::Ink, (*words).to_owned())
        })
        .collect();
    shapes.push(rule(Pen::Rule, 0.0, 0.0, width));
    Head { height: strong.line_mm() + 2.0 * PADDING, shapes }
}

/// The lines of a row, with a rule above it.
fn row<'d>(cells: &[Cell], table: &Table, columns: &[Column], width: f64) -> Vec<Line<'d>> {
    let line = Lettering::Text.line_mm();
    let mut all =
        vec![Line { height: PADDING, shapes: vec![rule(Pen::Rule, 0.0, 0.0, width)], drawing: None }];
    for ((cell, column), (_, ranged)) in cells.iter().zip(columns).zip(&table.columns) {
        let words: Vec<Vec<_>> = match cell {
            Cell::Verdict(found) => vec![verdict(*found, column.left, Lettering::Strong)],
            Cell::Words(words) | Cell::Name(words) => {
                let set = lines(&[Run::plain(words)], column.left, column.width);
                set.into_iter().map(|line| line.shapes).collect()
            }
        };
        for (index, mut shapes) in words.into_iter().enumerate() {
            if *ranged == Ranged::Right {
                shift_to(column.left + column.width, &mut shapes);
            }
            if all.len() == index + 1 {
                all.push(Line::blank(line));
            }
            all[index + 1].shapes.extend(shapes);
        }
    }
    if all.len() == 1 {
        all.push(Line::blank(line));
    }
    all.push(Line::blank(PADDING));
    all
}

/// Moves the shapes of one line so that they end at a place.
fn shift_to(right: f64, shapes: &mut [drawing::figure::Shape]) {
    let end = shapes.iter().map(|shape| shape.bounds_mm()[2]).fold(f64::NEG_INFINITY, f64::max);
    for shape in shapes {
        if let drawing::figure::Shape::Text(text) = shape {
            text.at[0] += right - end;
        }
    }
}
