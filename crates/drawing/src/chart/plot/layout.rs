//! Where everything of a plot stands, mm from the figure's top left corner.

use super::{Axis, Flag, Growth, Plot, Tick, Ticks};
use crate::chart::place::{Block, column, rows, stairs};
use crate::chart::scale::{Print, Range, Scale, extended, multiples, step};
use crate::chart::words::raised;
use crate::chart::{WIDTH_MM, count};
use crate::figure::{Pen, Point};
use crate::lettering::Lettering;
use crate::look::GRID_MM;

/// Free edge around the figure.
pub(super) const EDGE: f64 = 2.0 * GRID_MM;
/// Half a line of text: what the name of the topmost and lowest step reaches beyond the plot.
pub(super) const HALF_LINE: f64 = 1.5 * GRID_MM;
/// From the plot to the names on its right, bridged by a sample of the pen.
pub(super) const NAME_GAP: f64 = 3.0 * GRID_MM;
/// From a flag's staff to its words.
pub(super) const FLAG_GAP: f64 = 0.75 * GRID_MM;
/// Least height of a plot.
const HEIGHT: f64 = 30.0 * GRID_MM;
/// Longest lines of the several texts.
const NAME_LIMIT: f64 = 22.0 * GRID_MM;
/// A flag far to the right has at least this much; the plot gives way.
const FLAG_LIMIT: f64 = 26.0 * GRID_MM;
const BAND_LIMIT: f64 = 24.0 * GRID_MM;
const STEP_LIMIT: f64 = 16.0 * GRID_MM;
const LABEL_LIMIT: f64 = 12.0 * GRID_MM;
const UP_LABEL_LIMIT: f64 = 9.0 * GRID_MM;
/// Numbers of steps to try along x, until their words find room.
const STEPS_X: [usize; 8] = [10, 8, 6, 5, 4, 3, 2, 1];
const STEPS_Y: usize = 6;

/// A named step of an axis.
#[derive(Clone, Debug)]
pub(super) struct Step {
    pub(super) at: f64,
    pub(super) words: Block,
}

/// The name of a curve or level.
#[derive(Clone, Debug)]
pub(super) struct Name {
    pub(super) words: Block,
    pub(super) pen: Pen,
    /// Where what it names ends.
    pub(super) end: Point,
    /// Whether that is the right edge of the plot.
    pub(super) at_edge: bool,
    pub(super) top: f64,
}

/// The name of a band.
#[derive(Clone, Debug)]
pub(super) struct BandName {
    pub(super) words: Block,
    pub(super) middle: f64,
    pub(super) top: f64,
}

/// The places.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) size: [f64; 2],
    pub(super) title: Block,
    pub(super) x: Scale,
    pub(super) y: Scale,
    pub(super) steps_x: Vec<Step>,
    pub(super) steps_y: Vec<Step>,
    pub(super) label_x: Block,
    pub(super) label_x_left: f64,
    pub(super) label_y: Block,
    pub(super) names: Vec<Name>,
    /// Words and top of each flag.
    pub(super) flags: Vec<(Block, f64)>,
    pub(super) ends: Option<[Block; 2]>,
    pub(super) ends_top: f64,
    /// Names of the bands, in their order.
    pub(super) bands: Vec<BandName>,
    pub(super) remarks: Block,
    pub(super) remarks_top: f64,
}

fn text(words: &str, limit: f64) -> Block {
    Block::new(words, limit, Lettering::Text)
}

/// The next whole step of the grid.
fn on_grid(length: f64) -> f64 {
    (length / GRID_MM - 1e-6).ceil() * GRID_MM
}

impl Layout {
    pub(super) fn of(plot: &Plot, left_out: usize) -> Self {
        let right_edge = WIDTH_MM - EDGE;
        let title = Block::new(&plot.title, right_edge - EDGE, Lettering::Strong);
        let bare = plot.is_bare();

        // Across: the steps of y decide the left edge, the texts on the right and on the flags the
        // right edge of the plot.
        let (range_y, steps_y, label_y) = upright(plot, bare);
        let tick_width = steps_y.iter().map(|s| s.words.width()).fold(0.0, f64::max);
        let left = EDGE + on_grid(tick_width.max(label_y.width()) + GRID_MM);
        let range_x = plot.range_x();
        let bend = bend(plot.x.growth, range_x);
        let x_between = |from, to| Scale { range: range_x, ends_mm: [from, to], bend };
        let candidates = candidates(&plot.x, range_x, bare);
        let power = candidates.first().map_or(0, |(_, power)| *power);
        let label_x = text(&with_power(&plot.x.label, power), LABEL_LIMIT);
        let half_step =
            candidates.iter().flat_map(|(steps, _)| steps).map(|s| s.words.width() / 2.0).fold(0.0, f64::max);
        let mut names = names(plot);
        let names_width = names.iter().map(|n| n.words.width()).fold(0.0, f64::max);
        let margin = (NAME_GAP + names_width).max(half_step + GRID_MM + label_x.width());
        let widest = right_edge - margin - left;
        let part_of = |flag: &Flag| x_between(0.0, 1.0).at(flag.x);
        let flag_words: Vec<Block> = plot
            .flags
            .iter()
            .map(|flag| {
                let room = right_edge - FLAG_GAP - left - part_of(flag) * widest;
                text(&flag.words, room.max(FLAG_LIMIT))
            })
            .collect();
        let mut width = widest;
        for (flag, words) in plot.flags.iter().zip(&flag_words) {
            let part = part_of(flag);
            let room = right_edge - FLAG_GAP - words.width() - left;
            if part * width > room {
                width = room / part;
            }
        }
        let x = x_between(left, left + (width / GRID_MM).floor() * GRID_MM);
        let right = x.ends_mm[1];

        // Down: title, flags, plot, steps, ends, bands, remarks.
        let places: Vec<f64> = plot.flags.iter().map(|flag| x.at(flag.x)).collect();
        let widths: Vec<f64> = flag_words.iter().map(|b| b.width() + FLAG_GAP).collect();
        let heights: Vec<f64> = flag_words.iter().map(Block::height).collect();
        let feet = stairs(&places, &widths, &heights);
        let flags_height = feet.iter().zip(&heights).map(|(foot, height)| foot + height).fold(0.0, f64::max);
        let above = flags_height.max(label_y.height());
        let flags_base = EDGE + title.height() + GRID_MM + above;
        let top = flags_base + HALF_LINE;
        let names_height: f64 = names.iter().map(|n| n.words.height()).sum();
        let bottom = top + on_grid(names_height).max(HEIGHT);
        let y = Scale { range: range_y, ends_mm: [bottom, top], bend: None };
        place_names(&mut names, &x, &y);
        let steps_x = fitting(candidates, &x, right_edge);
        let steps_height = steps_x.iter().map(|s| s.words.height()).fold(0.0, f64::max);
        let last_step = steps_x.iter().map(|s| x.at(s.at) + s.words.width() / 2.0).fold(right, f64::max);
        let ends_top = bottom + HALF_LINE + steps_height;
        let half = (right - left - GRID_MM) / 2.0;
        let ends = plot.ends.as_ref().map(|[a, b]| [text(a, half), text(b, half)]);
        let ends_height = ends.iter().flatten().map(Block::height).fold(0.0, f64::max);
        let (bands, bands_bottom) = band_names(plot, &x, ends_top + ends_height);
        let label_bottom = bottom + HALF_LINE + label_x.height();
        let remarks_top = bands_bottom.max(label_bottom) + GRID_MM;
        let remarks = remarks(plot, left_out, bare, right_edge - EDGE);
        let foot = if remarks.is_empty() { remarks_top - GRID_MM } else { remarks_top + remarks.height() };
        Self {
            size: [WIDTH_MM, on_grid(foot + EDGE)],
            title,
            x,
            y,
            steps_x,
            steps_y,
            label_x,
            label_x_left: last_step + GRID_MM,
            label_y,
            names,
            flags: flag_words
                .into_iter()
                .zip(feet.iter().zip(&heights))
                .map(|(words, (foot, height))| (words, flags_base - foot - height))
                .collect(),
            ends,
            ends_top,
            bands,
            remarks,
            remarks_top,
        }
    }
}

/// Where an axis begins to slow down. A millionth of the axis is the least: earlier, its start would
/// take all the room, and the quotients of the scale might overflow.
fn bend(growth: Growth, range: Range) -> Option<f64> {
    let width = range.hi - range.lo;
    match growth {
        Growth::Even => None,
        Growth::Slowing { bend } if bend > 0.0 => Some(bend.clamp(1e-6 * width, width)),
        Growth::Slowing { .. } => Some(width / 10.0),
    }
}

/// Range, steps and label of the upward axis.
fn upright(plot: &Plot, bare: bool) -> (Range, Vec<Step>, Block) {
    let range = plot.range_y();
    let numbered = |range: Range, step: f64| {
        let print = Print::of(range, step);
        let steps = multiples(range, step)
            .into_iter()
            .map(|at| Step { at, words: text(&print.words(at), f64::INFINITY) })
            .collect();
        (steps, print.power)
    };
    let (range, (steps, power)) = match &plot.y.ticks {
        Ticks::Rounded => {
            let step = step(range, STEPS_Y);
            let range = extended(range, step);
            (range, numbered(range, step))
        }
        Ticks::Tight => (range, numbered(range, step(range, STEPS_Y))),
        Ticks::Given(sets) => {
            let set = sets.first().map_or(&[][..], Vec::as_slice);
            (range, (given(set, range), 0))
        }
    };
    let label = text(&with_power(&plot.y.label, power), UP_LABEL_LIMIT);
    (range, if bare { Vec::new() } else { steps }, label)
}

fn with_power(label: &str, power: i32) -> String {
    if power == 0 { label.to_owned() } else { format!("{label} ×\u{a0}10{}", raised(power)) }
}

/// Given steps inside the range.
fn given(ticks: &[Tick], range: Range) -> Vec<Step> {
    ticks
        .iter()
        .filter(|tick| tick.at >= range.lo && tick.at <= range.hi)
        .map(|tick| Step { at: tick.at, words: Block::stacked(&tick.lines, STEP_LIMIT, Lettering::Text) })
        .collect()
}

/// Sets of steps along x with the power of ten taken out of them, the best set first.
fn candidates(axis: &Axis, range: Range, bare: bool) -> Vec<(Vec<Step>, i32)> {
    if bare {
        return Vec::new();
    }
    match &axis.ticks {
        Ticks::Given(sets) => sets.iter().map(|set| (given(set, range), 0)).collect(),
        Ticks::Rounded | Ticks::Tight => {
            // One power for all sets, as the label is written before a set is chosen.
            let power = Print::of(range, step(range, STEPS_X[0])).power;
            STEPS_X
                .into_iter()
                .map(|most| {
                    let step = step(range, most);
                    let print = Print::of(range, step);
                    let steps = multiples(range, step)
                        .into_iter()
                        .map(|at| Step { at, words: text(&print.words(at), f64::INFINITY) })
                        .collect();
                    (steps, print.power)
                })
                .filter(|(_, own)| *own == power)
                .collect()
        }
    }
}

/// The first set whose words all find room; else of the last set those that find room, in order.
fn fitting(sets: Vec<(Vec<Step>, i32)>, x: &Scale, right_edge: f64) -> Vec<Step> {
    let span = |step: &Step| {
        let (middle, half) = (x.at(step.at), step.words.width() / 2.0);
        [middle - half, middle + half]
    };
    let mut best = Vec::new();
    for (steps, _) in sets {
        let all = steps.len();
        let mut taken: Vec<[f64; 2]> = Vec::new();
        best = steps;
        best.retain(|step| {
            let [from, to] = span(step);
            let free = from >= 0.0
                && to <= right_edge
                && taken.iter().all(|other| to + GRID_MM <= other[0] || other[1] + GRID_MM <= from);
            if free {
                taken.push([from, to]);
            }
            free
        });
        if best.len() == all {
            break;
        }
    }
    best
}

/// Names of curves and levels, not yet placed.
fn names(plot: &Plot) -> Vec<Name> {
    let curves = plot.curves.iter().filter_map(|curve| {
        let end = *curve.pieces().last()?.last()?;
        Some((&curve.words, curve.pen, end))
    });
    let levels = plot.levels.iter().map(|level| (&level.words, level.pen, [f64::INFINITY, level.y]));
    curves
        .chain(levels)
        .map(|(words, pen, end)| Name { words: text(words, NAME_LIMIT), pen, end, at_edge: false, top: 0.0 })
        .filter(|name| !name.words.is_empty())
        .collect()
}

/// Turns the ends from values into places and spreads the names.
fn place_names(names: &mut [Name], x: &Scale, y: &Scale) {
    for name in names.iter_mut() {
        name.end = [x.at(name.end[0]), y.at(name.end[1])];
        name.at_edge = x.ends_mm[1] - name.end[0] < GRID_MM / 8.0;
    }
    let wanted: Vec<f64> = names.iter().map(|name| name.end[1]).collect();
    let heights: Vec<f64> = names.iter().map(|name| name.words.height()).collect();
    let [bottom, top] = y.ends_mm;
    let tops = column(&wanted, &heights, top - HALF_LINE, bottom + HALF_LINE);
    for (name, top) in names.iter_mut().zip(tops) {
        name.top = top;
    }
}

/// Names of the bands in rows from `top` down, and where the rows end.
fn band_names(plot: &Plot, x: &Scale, top: f64) -> (Vec<BandName>, f64) {
    let [left, right] = x.ends_mm;
    let blocks: Vec<Block> =
        plot.bands.iter().map(|band| text(&band.words, BAND_LIMIT.min(right - left))).collect();
    let mut middles = Vec::new();
    let mut spans = Vec::new();
    for (band, block) in plot.bands.iter().zip(&blocks) {
        let (from, to) = (x.at(band.from.min(band.to)), x.at(band.from.max(band.to)));
        let half = block.width() / 2.0;
        let middle = f64::midpoint(from, to).clamp(left + half, (right - half).max(left + half));
        middles.push(middle);
        spans.push([from.min(middle - half), to.max(middle + half)]);
    }
    let rows = rows(&spans);
    let count_rows = rows.iter().map(|row| row + 1).max().unwrap_or(0);
    let mut row_tops = Vec::with_capacity(count_rows);
    let mut free = top;
    for row in 0..count_rows {
        row_tops.push(free);
        let tallest = rows
            .iter()
            .zip(&blocks)
            .filter(|(own, _)| **own == row)
            .map(|(_, block)| block.height())
            .fold(0.0, f64::max);
        free += GRID_MM + tallest;
    }
    let names = blocks
        .into_iter()
        .zip(middles)
        .zip(&rows)
        .map(|((words, middle), row)| BandName {
            words,
            middle,
            top: row_tops.get(*row).copied().unwrap_or(top),
        })
        .collect();
    (names, free)
}

fn remarks(plot: &Plot, left_out: usize, bare: bool, limit: f64) -> Block {
    let mut remarks = Vec::new();
    if bare {
        remarks.push("There is nothing to draw.".to_owned());
    }
    remarks.extend(plot.remarks.iter().cloned());
    if left_out > 0 {
        let (values, are) = if left_out == 1 { ("value", "is") } else { ("values", "are") };
        remarks
            .push(format!("{} {values} {are} no number or too great and {are} not drawn.", count(left_out)));
    }
    Block::stacked(&remarks, limit, Lettering::Text)
}
