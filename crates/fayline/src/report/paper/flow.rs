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
pub(super) fn flow(chunks: Vec<Chunk<'_>>, room: Room) -> Vec<Sheet<'_>> {
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

#[cfg(test)]
mod tests {
    use drawing::figure::Anchor;
    use drawing::lettering::Lettering;
    use drawing::look::Colour;
    use proptest::prelude::*;

    use super::*;
    use crate::report::paper::set::text;

    const ROOM: Room = Room { width: 100.0, height: 100.0 };

    /// A chunk whose lines bear its number and theirs.
    fn chunk<'d>(number: usize, (heights, with_next, head): (Vec<f64>, bool, bool)) -> Chunk<'d> {
        let word = |words: String| text([0.0, 0.0], Anchor::Start, Lettering::Text, Colour::Ink, words);
        let lines = heights.into_iter().enumerate().map(|(line, height)| Line {
            height,
            shapes: vec![word(format!("{number}.{line}"))],
            drawing: None,
        });
        let head = head.then(|| Head { height: 5.0, shapes: vec![word("head".to_owned())] });
        Chunk { before: 3.0, lines: lines.collect(), with_next, head }
    }

    fn said(sheet: &Sheet<'_>) -> Vec<(String, f64)> {
        let texts = sheet.shapes.iter().filter_map(|shape| match shape {
            Shape::Text(text) => Some((text.words.clone(), text.at[1])),
            _ => None,
        });
        texts.collect()
    }

    fn chunks() -> impl Strategy<Value = Vec<(Vec<f64>, bool, bool)>> {
        let heights = proptest::collection::vec(0.5..30.0_f64, 1..8);
        proptest::collection::vec((heights, any::<bool>(), any::<bool>()), 1..12)
    }

    proptest! {
        /// Every line stands once, in its order, inside a sheet; what fits a sheet is not torn; what does not stand
        /// without the next one stands on its sheet, where both fit one; a part of a table has its head above it.
        #[test]
        fn law_nothing_is_lost_torn_or_left_behind(given in chunks()) {
            let sheets = flow(given.iter().cloned().enumerate().map(|(n, it)| chunk(n, it)).collect(), ROOM);
            let mut order = Vec::new();
            let mut places = vec![Vec::new(); given.len()];
            for (number, sheet) in sheets.iter().enumerate() {
                let said = said(sheet);
                prop_assert!(!said.is_empty(), "no sheet is empty");
                for (words, y) in &said {
                    prop_assert!(*y <= ROOM.height);
                    if let Some((chunk, line)) = words.split_once('.') {
                        let (chunk, line): (usize, usize) = (chunk.parse().unwrap(), line.parse().unwrap());
                        prop_assert!(y + given[chunk].0[line] <= ROOM.height + 1e-6);
                        order.push((chunk, line));
                        places[chunk].push(number);
                    }
                }
                if number > 0 {
                    let first = said.iter().find_map(|(words, _)| words.split_once('.')).unwrap();
                    let has_head = given[first.0.parse::<usize>().unwrap()].2;
                    prop_assert_eq!(said[0].0 == "head", has_head);
                }
            }
            let asked: Vec<(usize, usize)> =
                given.iter().enumerate().flat_map(|(n, it)| (0..it.0.len()).map(move |line| (n, line))).collect();
            prop_assert_eq!(order, asked);
            let height = |n: usize| given[n].0.iter().sum::<f64>();
            for n in 0..given.len() {
                if height(n) + 5.0 <= ROOM.height {
                    prop_assert!(places[n].iter().all(|place| *place == places[n][0]), "chunk {} is torn", n);
                }
                let chained = n + 1 < given.len() && given[n].1 && !given[n + 1].1;
                if chained && height(n) + 3.0 + height(n + 1) + 5.0 <= ROOM.height {
                    prop_assert_eq!(places[n].last(), places[n + 1].first(), "chunk {} is left behind", n);
                }
            }
        }
    }
}
