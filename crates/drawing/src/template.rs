//! Templates: a figure at full scale on sheets of office paper, to be joined, cut and drilled from.
//!
//! The figure runs on from page to page with a strip that neighbours share. In the strip stand
//! crosses at the same places of the figure on both pages; each has a letter for its seam and a
//! number along it. At the foot of every page stand its row and column and a rule of 100 mm: paper
//! feeds and "fit to page" change the scale, and only a measurement shows it.

use std::borrow::Cow;

use thiserror::Error;

use crate::figure::{Anchor, Figure, Pen, Point, Shape, Text};
use crate::lettering::{CAPITAL_EM, Lettering, shortened, width_mm};
use crate::look::Colour;
use crate::page::{Page, Placed};

/// A sheet of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216:2007).
    A4,
    /// 8½ × 11 in (ANSI/ASME Y14.1, size A).
    Letter,
}

impl Paper {
    /// Width and height upright, mm.
    pub const fn size_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
        }
    }
}

/// Why a figure cannot be laid on pages.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum TemplateError {
    /// Width or height is not a positive number.
    #[error("figure {figure:?} has no size")]
    NoSize {
        /// Name of the figure.
        figure: String,
    },
    /// More than [`MOST_PAGES`] would be needed.
    #[error("figure {figure:?} is too large for a template of {MOST_PAGES} pages")]
    TooManyPages {
        /// Name of the figure.
        figure: String,
    },
}

/// Greatest number of pages; beyond it a template is no help at the bench.
pub const MOST_PAGES: usize = 200;
/// Unprinted edge of a sheet, mm; office printers leave out some 4 to 6 mm (common practice).
pub const MARGIN_MM: f64 = 10.0;
/// Width of the strip that two neighbours share, mm.
pub const OVERLAP_MM: f64 = 10.0;
/// Length of the check rule, mm.
pub const RULE_MM: f64 = 100.0;
/// Layer of all that is on the page and not of the figure.
pub const LAYER: &str = "page";
/// Name of the check rule's line.
pub const RULE_NAME: &str = "rule-100-mm";

/// Height of the foot with title, place and check rule, mm.
const FOOT_MM: f64 = 24.0;
/// Half the length of a cross's arm, mm; fits the strip.
const ARM_MM: f64 = 4.0;

/// Lays a figure on pages at full scale, row by row, on the paper upright or across, whichever takes
/// fewer pages.
///
/// # Errors
/// See [`TemplateError`].
pub fn tiled<'a>(figure: &'a Figure, paper: Paper, title: &str) -> Result<Vec<Page<'a>>, TemplateError> {
    if !figure.size_mm.iter().all(|side| side.is_finite() && *side > 0.0) {
        return Err(TemplateError::NoSize { figure: figure.name.clone() });
    }
    let [width, height] = paper.size_mm();
    let upright = Grid::of(figure, [width, height]);
    let across = Grid::of(figure, [height, width]);
    let fewest = match (upright, across) {
        (Some(upright), Some(across)) if across.pages() < upright.pages() => Some(across),
        (upright, across) => upright.or(across),
    };
    let grid = fewest.ok_or_else(|| TemplateError::TooManyPages { figure: figure.name.clone() })?;
    let mut pages = Vec::with_capacity(grid.pages());
    for row in 0..grid.rows {
        for column in 0..grid.columns {
            let [left, top] = grid.origin_mm(row, column);
            let shown = Placed {
                figure: Cow::Borrowed(figure),
                offset_mm: [MARGIN_MM - left, MARGIN_MM - top],
                window_mm: Some(grid.window_mm()),
                scale: 1.0,
            };
            let own = Placed {
                figure: Cow::Owned(furniture(&grid, row, column, title)),
                offset_mm: [0.0; 2],
                window_mm: None,
                scale: 1.0,
            };
            pages.push(Page { size_mm: grid.sheet_mm, placed: vec![shown, own] });
        }
    }
    Ok(pages)
}

/// How a figure is divided.
#[derive(Clone, Copy, Debug)]
struct Grid {
    sheet_mm: [f64; 2],
    columns: usize,
    rows: usize,
}

impl Grid {
    /// None if there are more than [`MOST_PAGES`].
    fn of(figure: &Figure, sheet_mm: [f64; 2]) -> Option<Self> {
        let mut grid = Self { sheet_mm, columns: 1, rows: 1 };
        let [width, height] = grid.shown_mm();
        grid.columns = tiles(figure.size_mm[0], width)?;
        grid.rows = tiles(figure.size_mm[1], height)?;
        (grid.pages() <= MOST_PAGES).then_some(grid)
    }

    const fn pages(&self) -> usize {
        self.rows * self.columns
    }

    /// Width and height of the part of a figure that one page shows, mm.
    fn shown_mm(&self) -> [f64; 2] {
        [self.sheet_mm[0] - 2.0 * MARGIN_MM, self.sheet_mm[1] - 2.0 * MARGIN_MM - FOOT_MM]
    }

    /// Where on the page the figure shows: left, top, right, bottom, mm.
    fn window_mm(&self) -> [f64; 4] {
        let [width, height] = self.shown_mm();
        [MARGIN_MM, MARGIN_MM, MARGIN_MM + width, MARGIN_MM + height]
    }

    /// The corner of the figure's part on a page, in the figure, mm.
    fn origin_mm(&self, row: usize, column: usize) -> Point {
        let [width, height] = self.shown_mm();
        [number(column) * (width - OVERLAP_MM), number(row) * (height - OVERLAP_MM)]
    }

    /// Letters of the seam to the right of a page: seams between columns first, row by row.
    fn right_seam(&self, row: usize, column: usize) -> String {
        letters(row * (self.columns - 1) + column)
    }

    /// Letters of the seam below a page.
    fn lower_seam(&self, row: usize, column: usize) -> String {
        letters(self.rows * (self.columns - 1) + row * self.columns + column)
    }
}

/// How many tiles of one length, each sharing the strip with the next, cover another length; none
/// if more than [`MOST_PAGES`].
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a whole number between 1 and MOST_PAGES by then"
)]
fn tiles(length_mm: f64, tile_mm: f64) -> Option<usize> {
    // A millionth of a millimetre, so that what fits but for rounding takes no further page.
    let beyond = (length_mm - tile_mm - 1e-6).max(0.0);
    let tiles = 1.0 + (beyond / (tile_mm - OVERLAP_MM)).ceil();
    (tiles <= number(MOST_PAGES)).then_some(tiles as usize)
}

#[expect(clippy::cast_precision_loss, reason = "counts of pages are far below 2^52")]
const fn number(count: usize) -> f64 {
    count as f64
}

/// A to Z, then AA, AB and so on.
fn letters(place: usize) -> String {
    let mut rest = place + 1;
    let mut letters = Vec::new();
    while rest > 0 {
        rest -= 1;
        letters.push(char::from(b'A' + u8::try_from(rest % 26).unwrap_or_default()));
        rest /= 26;
    }
    letters.iter().rev().collect()
}

/// What a page has beside the figure: its seams and its foot.
fn furniture(grid: &Grid, row: usize, column: usize, title: &str) -> Figure {
    let mut page = Figure {
        name: format!("page-{}-{}", row + 1, column + 1),
        title: title.to_owned(),
        desc: String::new(),
        size_mm: grid.sheet_mm,
        marks: Vec::new(),
    };
    let [left, top, right, bottom] = grid.window_mm();
    let half = OVERLAP_MM / 2.0;
    if column > 0 {
        let label = grid.right_seam(row, column - 1);
        seam(&mut page, [left + half, top], [left + half, bottom], &label, Side::Right);
    }
    if column + 1 < grid.columns {
        let label = grid.right_seam(row, column);
        seam(&mut page, [right - half, top], [right - half, bottom], &label, Side::Left);
    }
    if row > 0 {
        let label = grid.lower_seam(row - 1, column);
        seam(&mut page, [left, top + half], [right, top + half], &label, Side::Right);
    }
    if row + 1 < grid.rows {
        let label = grid.lower_seam(row, column);
        seam(&mut page, [left, bottom - half], [right, bottom - half], &label, Side::Right);
    }
    foot(&mut page, grid, row, column, title);
    page
}

/// On which side of its cross a letter stands.
#[derive(Clone, Copy)]
enum Side {
    Left,
    Right,
}

/// The middle of the strip that two pages share, with a cross at a quarter and at three quarters.
fn seam(page: &mut Figure, from: Point, to: Point, label: &str, side: Side) {
    page.line(LAYER, Pen::Grid, from, to);
    for (place, part) in [(1, 0.25), (2, 0.75)] {
        let [x, y] = [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])];
        let name = format!("{label}{place}");
        page.line(LAYER, Pen::Thin, [x - ARM_MM, y], [x + ARM_MM, y]).name = Some(format!("{name}-across"));
        page.line(LAYER, Pen::Thin, [x, y - ARM_MM], [x, y + ARM_MM]).name = Some(format!("{name}-down"));
        let (at_x, anchor) = match side {
            Side::Left => (x - ARM_MM - 1.0, Anchor::End),
            Side::Right => (x + ARM_MM + 1.0, Anchor::Start),
        };
        let low = y + CAPITAL_EM * Lettering::Strong.size_mm() / 2.0;
        text(page, [at_x, low], anchor, Lettering::Strong, name);
    }
}

/// Title, place among the pages, how to print, and the check rule.
fn foot(page: &mut Figure, grid: &Grid, row: usize, column: usize, title: &str) {
    let [left, _, right, bottom] = grid.window_mm();
    let line = Lettering::Text.line_mm();
    let place = format!("row {} of {}, column {} of {}", row + 1, grid.rows, column + 1, grid.columns);
    let room = right - left - width_mm(&place, Lettering::Strong) - line;
    let title = shortened(title, room, Lettering::Strong).into_owned();
    let mut y = bottom + line;
    text(page, [left, y], Anchor::Start, Lettering::Strong, title);
    text(page, [right, y], Anchor::End, Lettering::Strong, place);
    y += line;
    let advice = "Print at 100 %, not fitted to the page. Measure the rule before use.";
    text(page, [left, y], Anchor::Start, Lettering::Text, advice.into());

    let y = bottom + FOOT_MM - 3.0;
    let end = left + RULE_MM;
    page.line(LAYER, Pen::Thin, [left, y], [end, y]).name = Some(RULE_NAME.into());
    for step in 0..=10_u8 {
        let x = left + f64::from(step) * RULE_MM / 10.0;
        let (up, down) = if step % 10 == 0 { (4.0, 2.0) } else { (1.5, 0.0) };
        page.line(LAYER, Pen::Thin, [x, y - up], [x, y + down]);
    }
    let low = y + 1.0;
    text(page, [end + 3.0, low], Anchor::Start, Lettering::Text, "100 mm".into());
    if grid.pages() > 1 {
        text(page, [right, low], Anchor::End, Lettering::Text, "Lay A1 on A1, and so on.".into());
    }
}

fn text(page: &mut Figure, at: Point, anchor: Anchor, lettering: Lettering, words: String) {
    let colour = Colour::Ink;
    page.add(LAYER, Shape::Text(Text { at, anchor, turn_deg: 0.0, lettering, colour, words }));
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use proptest::prelude::*;

    use super::*;

    fn figure(size_mm: [f64; 2]) -> Figure {
        Figure {
            name: "sheet".into(),
            title: "Sheet".into(),
            desc: String::new(),
            size_mm,
            marks: Vec::new(),
        }
    }

    fn own<'a>(page: &'a Page) -> &'a Figure {
        &page.placed[1].figure
    }

    /// Named lines of a page, on the page.
    fn named(page: &Page) -> BTreeMap<String, [Point; 2]> {
        own(page)
            .marks
            .iter()
            .filter_map(|mark| match (&mark.name, &mark.shape) {
                (Some(name), Shape::Line { from, to, .. }) => Some((name.clone(), [*from, *to])),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn unit_a_small_figure_takes_one_page_without_seams() {
        let figure = figure([190.0, 253.0]);
        let pages = tiled(&figure, Paper::A4, "Sill").unwrap();
        assert_eq!(pages.len(), 1);
        assert!(pages[0].size_mm[0] < pages[0].size_mm[1]);
        assert_eq!(named(&pages[0]).len(), 1);
        assert_eq!(tiled(&figure, Paper::Letter, "Sill").unwrap().len(), 2);
    }

    #[test]
    fn unit_a_wide_figure_is_laid_across() {
        let wide = figure([270.0, 150.0]);
        let pages = tiled(&wide, Paper::A4, "Sill").unwrap();
        assert_eq!(pages.len(), 1);
        assert!(pages[0].size_mm[0] > pages[0].size_mm[1]);
    }

    #[test]
    fn unit_seams_go_on_after_z() {
        let found: Vec<String> = [0, 25, 26, 51, 52, 701, 702].map(letters).to_vec();
        assert_eq!(found, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }

    #[test]
    fn unit_what_has_no_size_or_is_huge_is_refused() {
        for size in [[0.0, 1.0], [1.0, f64::NAN], [f64::INFINITY, 1.0], [-1.0, 1.0]] {
            assert!(matches!(tiled(&figure(size), Paper::A4, ""), Err(TemplateError::NoSize { .. })));
        }
        for size in [[1e300, 1.0], [4000.0, 4000.0]] {
            let refused = tiled(&figure(size), Paper::A4, "").unwrap_err();
            assert!(matches!(refused, TemplateError::TooManyPages { .. }));
        }
    }

    proptest! {
        /// Every place of the figure shows on a page; a cross is at one place of the figure on both
        /// of its pages and inside the strip; the rule is 100 mm; all that is printed is on the paper
        /// inside the margin.
        #[test]
        fn law_the_pages_make_the_figure(
            width in 1.0..1500.0_f64,
            height in 1.0..1500.0_f64,
            x in 0.0..1.0_f64,
            y in 0.0..1.0_f64,
            paper in proptest::sample::select(vec![Paper::A4, Paper::Letter]),
            title in ".{0,80}",
        ) {
            // Sums of lengths of some metres in double precision.
            let slack = 1e-6;
            let figure = figure([width, height]);
            let pages = tiled(&figure, paper, &title).unwrap();
            let shown = pages.iter().any(|page| {
                let [left, top, right, bottom] = page.placed[0].window_mm.unwrap();
                let offset = page.placed[0].offset_mm;
                let (px, py) = (x * width + offset[0], y * height + offset[1]);
                px >= left - slack && px <= right + slack && py >= top - slack && py <= bottom + slack
            });
            prop_assert!(shown);

            let mut crosses: BTreeMap<String, Vec<[Point; 2]>> = BTreeMap::new();
            for page in &pages {
                for (name, line) in named(page) {
                    let offset = page.placed[0].offset_mm;
                    if name == RULE_NAME {
                        let length = (line[1][0] - line[0][0]).hypot(line[1][1] - line[0][1]);
                        prop_assert!((length - 100.0).abs() < slack);
                    } else {
                        let back = line.map(|[x, y]| [x - offset[0], y - offset[1]]);
                        crosses.entry(name).or_default().push(back);
                    }
                }
                for mark in &own(page).marks {
                    let [left, top, right, bottom] = mark.shape.bounds_mm();
                    prop_assert!(left >= MARGIN_MM - slack && top >= MARGIN_MM - slack);
                    prop_assert!(right <= page.size_mm[0] - MARGIN_MM + slack, "{:?}", mark);
                    prop_assert!(bottom <= page.size_mm[1] - MARGIN_MM + slack, "{:?}", mark);
                }
            }
            for (name, places) in crosses {
                prop_assert_eq!(places.len(), 2, "{}", name);
                for (a, b) in places[0].iter().flatten().zip(places[1].iter().flatten()) {
                    prop_assert!((a - b).abs() < slack, "{}", name);
                }
            }
        }
    }
}
