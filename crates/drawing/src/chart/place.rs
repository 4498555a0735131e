//! Where text stands: lines of text in blocks, and blocks that keep out of each other's way.

use crate::figure::{Anchor, Figure, Shape, Text};
use crate::lettering::{ASCENT_EM, DESCENT_EM, Lettering, widest_mm, wrap};
use crate::look::{Colour, GRID_MM};

use super::count;

/// Some lines of text that stand together.
#[derive(Clone, Debug)]
pub(crate) struct Block {
    lines: Vec<String>,
    lettering: Lettering,
}

impl Block {
    /// Breaks the words into lines no longer than the limit.
    pub(crate) fn new(words: &str, limit_mm: f64, lettering: Lettering) -> Self {
        Self { lines: wrap(words, limit_mm, lettering), lettering }
    }

    /// Several texts below each other, each broken as above.
    pub(crate) fn stacked(texts: &[String], limit_mm: f64, lettering: Lettering) -> Self {
        Self { lines: texts.iter().flat_map(|words| wrap(words, limit_mm, lettering)).collect(), lettering }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.lines.is_empty()
    }

    pub(crate) fn width(&self) -> f64 {
        widest_mm(&self.lines, self.lettering)
    }

    pub(crate) fn height(&self) -> f64 {
        count(self.lines.len()) * self.lettering.line_mm()
    }

    /// Writes the lines below `top`; `x` is their start, middle or end.
    pub(crate) fn write(
        &self,
        figure: &mut Figure,
        layer: &'static str,
        x: f64,
        top: f64,
        anchor: Anchor,
        colour: Colour,
    ) {
        let line = self.lettering.line_mm();
        // Centred in the line; the tallest and the lowest sign together are 1.2 em, no line is less.
        let size = self.lettering.size_mm();
        let baseline = (line - (ASCENT_EM + DESCENT_EM) * size) / 2.0 + ASCENT_EM * size;
        for (k, words) in self.lines.iter().enumerate() {
            figure.add(
                layer,
                Shape::Text(Text {
                    at: [x, top + count(k) * line + baseline],
                    anchor,
                    turn_deg: 0.0,
                    lettering: self.lettering,
                    colour,
                    words: words.clone(),
                }),
            );
        }
    }
}

/// Tops of blocks in a column, each as near as may be to where it wants its middle, none over
/// another, all between `top` and `bottom` if they fit there. The answer is in the order given.
pub(crate) fn column(wanted: &[f64], heights: &[f64], top: f64, bottom: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len().min(heights.len())).collect();
    order.sort_by(|a, b| wanted[*a].total_cmp(&wanted[*b]).then(a.cmp(b)));
    let mut tops = vec![top; wanted.len()];
    // Downward: none above the one before.
    let mut free = top;
    for &i in &order {
        tops[i] = (wanted[i] - heights[i] / 2.0).max(free);
        free = tops[i] + heights[i];
    }
    // Upward again: none below the end.
    let mut free = bottom;
    for &i in order.iter().rev() {
        tops[i] = tops[i].min(free - heights[i]);
        free = tops[i];
    }
    tops
}

/// Heights of the lower edges of flags above their base, so that no text lies on another nor on
/// another's staff. Each flag has its staff at `x` and flies to the right; the further right a
/// staff, the lower its flag: like stairs.
pub(crate) fn stairs(x: &[f64], widths: &[f64], heights: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..x.len().min(widths.len()).min(heights.len())).collect();
    order.sort_by(|a, b| x[*a].total_cmp(&x[*b]).then(a.cmp(b)));
    let mut feet = vec![0.0; x.len()];
    for (place, &i) in order.iter().enumerate().rev() {
        feet[i] = order
            .iter()
            .skip(place + 1)
            .filter(|&&j| x[j] <= x[i] + widths[i] + GRID_MM)
            .map(|&j| feet[j] + heights[j])
            .fold(0.0, f64::max);
    }
    feet
}

/// Rows for spans along a line, the first row that is free for each; spans in the order given.
pub(crate) fn rows(spans: &[[f64; 2]]) -> Vec<usize> {
    let mut taken: Vec<Vec<[f64; 2]>> = Vec::new();
    let mut rows = Vec::with_capacity(spans.len());
    for span in spans {
        let free = taken.iter().position(|row| {
            row.iter().all(|other| span[1] + GRID_MM <= other[0] || other[1] + GRID_MM <= span[0])
        });
        let row = free.unwrap_or(taken.len());
        if row == taken.len() {
            taken.push(Vec::new());
        }
        taken[row].push(*span);
        rows.push(row);
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn law_a_column_does_not_overlap(
            blocks in proptest::collection::vec((0.0..100.0_f64, 1.0..20.0_f64), 0..8),
        ) {
            let wanted: Vec<f64> = blocks.iter().map(|b| b.0).collect();
            let heights: Vec<f64> = blocks.iter().map(|b| b.1).collect();
            // 8 blocks of 20 at most fit into 160.
            let tops = column(&wanted, &heights, 0.0, 160.0);
            for i in 0..tops.len() {
                prop_assert!(tops[i] >= -1e-9 && tops[i] + heights[i] <= 160.0 + 1e-9);
                for j in 0..i {
                    let apart = tops[i] >= tops[j] + heights[j] - 1e-9
                        || tops[j] >= tops[i] + heights[i] - 1e-9;
                    prop_assert!(apart);
                }
            }
        }

        /// No flag on a flag, no flag on a staff.
        #[test]
        fn law_stairs_are_clear(
            flags in proptest::collection::vec((0.0..100.0_f64, 1.0..60.0_f64, 1.0..9.0_f64), 0..8),
        ) {
            let x: Vec<f64> = flags.iter().map(|f| f.0).collect();
            let widths: Vec<f64> = flags.iter().map(|f| f.1).collect();
            let heights: Vec<f64> = flags.iter().map(|f| f.2).collect();
            let feet = stairs(&x, &widths, &heights);
            for i in 0..x.len() {
                for j in 0..x.len() {
                    if i == j || x[j] <= x[i] || x[j] > x[i] + widths[i] {
                        continue;
                    }
                    // The staff of j crosses the width of flag i: it must end below it.
                    prop_assert!(feet[j] + heights[j] <= feet[i] + 1e-9);
                }
            }
        }
    }
}
