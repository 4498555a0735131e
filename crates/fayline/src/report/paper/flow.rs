//! Chunks flow over sheets: what belongs together stays together wherever it fits.

use drawing::figure::Shape;

use super::Room;
use super::set::{Line, Placed};

/// Some lines that are not torn apart where they fit a sheet.
pub(super) struct Chunk<'d> {
    /// Room above, left out at the top of a sheet.
    pub(super) before: f64,
    /// Its lines.
    pub(super) lines: Vec<Line<'d>>,
    /// Whether it does not stand at the foot of a sheet without the next chunk.
    pub(super) with_next: bool,
    /// What is repeated above it where it is the first on a sheet: the head of its table.
    pub(super) head: Option<Head>,
}

/// The head of a table.
#[derive(Clone)]
pub(super) struct Head {
    /// Its height.
    pub(super) height: f64,
    /// What stands in it.
    pub(super) shapes: Vec<Shape>,
}

impl Chunk<'_> {
    pub(super) fn height(&self) -> f64 {
        self.lines.iter().map(|line| line.height).sum()
    }
}

/// What stands on one sheet.
#[derive(Default)]
pub(super) struct Sheet<'d> {
    /// Text and rules.
    pub(super) shapes: Vec<Shape>,
    /// Drawings.
    pub(super) drawings: Vec<Placed<'d>>,
}

/// Rounding of sums of lengths.
const SLACK: f64 = 1e-6;

/// Lays chunks on sheets.
pub(super) fn flow<'d>(chunks: Vec<Chunk<'d>>, room: Room) -> Vec<Sheet<'d>> {
    let needs = needs(&chunks, room);
    let mut stack = Stack { room, sheets: vec![Sheet::default()], y: 0.0 };
    for (chunk, needed) in chunks.into_iter().zip(needs) {
        let head = chunk.head.as_ref().map_or(0.0, |head| head.height);
        if stack.y > 0.0 && stack.y + chunk.before + needed > room.height + SLACK {
            stack.turn(chunk.head.as_ref());
        } else if stack.y > 0.0 {
            stack.y += chunk.before;
        }
        for line in chunk.lines {
            // Only a chunk longer than a sheet gets here with a line that does not fit.
            if stack.y > head + SLACK && stack.y + line.height > room.height + SLACK {
                stack.turn(chunk.head.as_ref());
            }
            stack.put(line);
        }
    }
    stack.sheets
}

/// What each chunk needs below it on its sheet: its own height, and that of the chunks that it does not stand
/// without; of a chunk longer than a sheet a part is enough.
fn needs(chunks: &[Chunk<'_>], room: Room) -> Vec<f64> {
    const PART: f64 = 0.25;
    let mut needs = vec![0.0; chunks.len()];
    let mut below = 0.0;
    for (need, chunk) in needs.iter_mut().zip(chunks).rev() {
        let own = chunk.height();
        let head = chunk.head.as_ref().map_or(0.0, |head| head.height);
        let own = if own + head > room.height { PART * room.height } else { own };
        let whole = own + if chunk.with_next { below } else { 0.0 };
        // A chain longer than a sheet has to break somewhere.
        *need = if whole > room.height { own } else { whole };
        below = chunk.before + *need;
    }
    needs
}

struct Stack<'d> {
    room: Room,
    sheets: Vec<Sheet<'d>>,
    y: f64,
}

impl<'d> Stack<'d> {
    /// Goes on to a new sheet.
    fn turn(&mut self, head: Option<&Head>) {
        self.sheets.push(Sheet::default());
        self.y = 0.0;
        if let Some(head) = head {
            self.put(Line { height: head.height, shapes: head.shapes.clone(), drawing: None });
        }
    }

    fn put(&mut self, line: Line<'d>) {
        debug_assert!(line.height <= self.room.height + SLACK, "no line is higher than a sheet");
        let y = self.y;
        if let Some(sheet) = self.sheets.last_mut() {
            sheet.shapes.extend(line.shapes.into_iter().map(|shape| lowered(shape, y)));
            sheet.drawings.extend(
                line.drawing.map(|drawing| Placed { at: [drawing.at[0], drawing.at[1] + y], ..drawing }),
            );
        }
        self.y += line.height;
    }
}

/// A shape further down.
fn lowered(shape: Shape, by: f64) -> Shape {
    match shape {
        Shape::Line { from, to, pen } => {
            Shape::Line { from: [from[0], from[1] + by], to: [to[0], to[1] + by], pen }
        }
        Shape::Text(mut text) => {
            text.at[1] += by;
            Shape::Text(text)
        }
        // Text is set in these two only; drawings move as a whole.
        other => other,
    }
}
