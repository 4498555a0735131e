//! The ladder of reserves: each finding's reserve factor against the line of exactly enough.

use super::WIDTH_MM;
use super::place::Block;
use super::scale::{Print, Range, Scale, multiples, step};
use crate::figure::{Anchor, Figure, Pen, Shape};
use crate::lettering::Lettering;
use crate::look::{Colour, GRID_MM, MARK_SIZE_PX, PX_MM, Verdict, mark_lines_px};

const AXES: &str = "chart-axes";
const GRID: &str = "chart-grid";
const BARS: &str = "chart-bars";
const TEXT: &str = "chart-text";

const EDGE: f64 = 2.0 * GRID_MM;
/// Columns, from the left: names, bars, figures, verdicts.
const NAMES: f64 = 30.0 * GRID_MM;
const BARS_LEFT: f64 = EDGE + NAMES + GRID_MM;
const BARS_RIGHT: f64 = BARS_LEFT + 32.0 * GRID_MM;
const FIGURES_RIGHT: f64 = BARS_RIGHT + 11.0 * GRID_MM;
const VERDICTS: f64 = FIGURES_RIGHT + 2.0 * GRID_MM;
/// Half the thickness of a bar.
const HALF_BAR: f64 = GRID_MM / 2.0;
/// The axis shows at least this much, and nothing beyond the other.
const LEAST_END: f64 = 1.5;
const GREATEST_END: f64 = 3.0;

/// One rung: a finding with its reserve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rung<'a> {
    /// What was judged.
    pub words: &'a str,
    /// Reserve factor; none where there is none.
    pub reserve: Option<f64>,
    /// Verdict.
    pub verdict: Verdict,
    /// Said below the name: "no load", or what is missing.
    pub remark: Option<&'a str>,
}

/// Reserves in the order given, one below the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ladder<'a> {
    /// Name of the figure.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// The rungs.
    pub rungs: &'a [Rung<'a>],
}

impl Ladder<'_> {
    /// Draws it. A bar ends at the reserve; what lacks to 1.00 is an empty frame, so that a short
    /// bar is seen without its colour. A bar beyond the axis is broken.
    pub fn figure(&self) -> Figure {
        let mut figure = Figure {
            name: self.name.into(),
            title: self.title.into(),
            desc: self.desc(),
            size_mm: [WIDTH_MM, 0.0],
            marks: Vec::new(),
        };
        let title = Block::new(self.title, WIDTH_MM - 2.0 * EDGE, Lettering::Strong);
        title.write(&mut figure, TEXT, EDGE, EDGE, Anchor::Start, Colour::Ink);
        let top = EDGE + title.height() + GRID_MM;
        if self.rungs.is_empty() {
            let words = Block::new("There is nothing to draw.", NAMES * 2.0, Lettering::Text);
            words.write(&mut figure, TEXT, EDGE, top, Anchor::Start, Colour::Aside);
            figure.size_mm[1] = top + words.height() + EDGE;
            return figure;
        }

        let line = Lettering::Text.line_mm();
        let enough = Block::new("1.00 is exactly enough", NAMES * 2.0, Lettering::Text);
        let axis = self.axis();
        let one = axis.at(1.0);
        enough.write(&mut figure, TEXT, one, top, Anchor::Middle, Colour::Ink);
        let first = top + line + GRID_MM;
        let texts: Vec<[Block; 2]> = self
            .rungs
            .iter()
            .map(|rung| {
                [rung.words, rung.remark.unwrap_or("")].map(|words| Block::new(words, NAMES, Lettering::Text))
            })
            .collect();
        let mut tops = Vec::with_capacity(texts.len());
        let mut free = first;
        for [name, remark] in &texts {
            tops.push(free);
            let height = name.height() + remark.height();
            free += height.max(Lettering::Figure.line_mm()) + GRID_MM;
        }
        let foot = free;
        steps(&mut figure, &axis, first - GRID_MM, foot);
        for ((rung, blocks), (k, top)) in self.rungs.iter().zip(&texts).zip(tops.iter().enumerate()) {
            let from = figure.marks.len();
            draw(&mut figure, rung, blocks, *top, &axis);
            for mark in figure.marks.iter_mut().skip(from) {
                mark.group = Some(format!("rung-{}", k + 1));
            }
        }
        figure.line(AXES, Pen::Edge, [one, top + line], [one, foot]);
        figure.size_mm[1] = foot + GRID_MM / 2.0 + line + EDGE;
        figure
    }

    fn desc(&self) -> String {
        let rungs: Vec<String> = self
            .rungs
            .iter()
            .map(|rung| {
                let remark = rung.remark.map_or(String::new(), |r| format!(" ({r})"));
                format!("{}: {}, {}{remark}", rung.words, words(rung.reserve), rung.verdict.word())
            })
            .collect();
        if rungs.is_empty() {
            "No reserves are given.".into()
        } else {
            format!("Reserve factors: {}.", rungs.join("; "))
        }
    }

    fn axis(&self) -> Scale {
        let greatest = self
            .rungs
            .iter()
            .filter_map(|rung| finite(rung.reserve))
            .fold(LEAST_END, f64::max)
            .min(GREATEST_END);
        let hi = (greatest * 2.0).ceil() / 2.0;
        Scale { range: Range { lo: 0.0, hi }, ends_mm: [BARS_LEFT, BARS_RIGHT], bend: None }
    }
}

/// The axis at the foot, with quiet lines through the rungs.
fn steps(figure: &mut Figure, axis: &Scale, top: f64, foot: f64) {
    let step = step(axis.range, 6);
    let print = Print::of(axis.range, step);
    for value in multiples(axis.range, step) {
        let x = axis.at(value);
        figure.line(GRID, Pen::Grid, [x, top], [x, foot]);
        let words = Block::new(&print.words(value), NAMES, Lettering::Text);
        let below = foot + GRID_MM / 2.0;
        words.write(figure, TEXT, x, below, Anchor::Middle, Colour::Ink);
    }
    figure.line(AXES, Pen::Thin, [BARS_LEFT, foot], [BARS_RIGHT, foot]);
    let label = Block::new("reserve factor", NAMES, Lettering::Text);
    let left = BARS_RIGHT + 3.0 * GRID_MM;
    label.write(figure, TEXT, left, foot + GRID_MM / 2.0, Anchor::Start, Colour::Aside);
}

/// Draws one rung below `top`.
fn draw(figure: &mut Figure, rung: &Rung<'_>, [name, remark]: &[Block; 2], top: f64, axis: &Scale) {
    let colour = rung.verdict.colour();
    let line = Lettering::Text.line_mm();
    // The first line of the name, the bar, the figure and the verdict share one middle.
    let middle = top + Lettering::Figure.line_mm() / 2.0;
    let name_top = middle - line / 2.0;
    name.write(figure, TEXT, EDGE, name_top, Anchor::Start, Colour::Ink);
    let remark_top = name_top + name.height();
    remark.write(figure, TEXT, EDGE, remark_top, Anchor::Start, Colour::Aside);

    if let Some(reserve) = finite(rung.reserve) {
        bar(figure, reserve, rung.verdict, middle, axis);
    }
    Block::new(&words(rung.reserve), NAMES, Lettering::Figure).write(
        figure,
        TEXT,
        FIGURES_RIGHT,
        top,
        Anchor::End,
        Colour::Ink,
    );
    let [mark_width, mark_height] = MARK_SIZE_PX.map(|px| px * PX_MM);
    for [from, to, y] in mark_lines_px(rung.verdict) {
        let y = middle - mark_height / 2.0 + y * PX_MM;
        let [from, to] = [from, to].map(|x| VERDICTS + x * PX_MM);
        figure.line(BARS, Pen::Verdict(rung.verdict), [from, y], [to, y]);
    }
    Block::new(rung.verdict.word(), NAMES, Lettering::Text).write(
        figure,
        TEXT,
        VERDICTS + mark_width + GRID_MM / 2.0,
        middle - line / 2.0,
        Anchor::Start,
        colour,
    );
}

fn bar(figure: &mut Figure, reserve: f64, verdict: Verdict, middle: f64, axis: &Scale) {
    let rectangle = |from: f64, to: f64| {
        vec![
            [from, middle - HALF_BAR],
            [to, middle - HALF_BAR],
            [to, middle + HALF_BAR],
            [from, middle + HALF_BAR],
        ]
    };
    let (zero, end, one) = (axis.at(0.0), axis.at(reserve), axis.at(1.0));
    if reserve < 1.0 {
        figure.add(
            BARS,
            Shape::Area { rings: vec![rectangle(end, one)], fill: None, pen: Some(Pen::Verdict(verdict)) },
        );
    }
    if reserve > 0.0 {
        figure.add(
            BARS,
            Shape::Area { rings: vec![rectangle(zero, end)], fill: Some(verdict.colour()), pen: None },
        );
    }
    if reserve > axis.range.hi {
        // A break: a slanted gap shortly before the end of the axis.
        let [a, b] = [end - 3.0 * GRID_MM, end - 2.0 * GRID_MM];
        let (high, low) = (middle - GRID_MM, middle + GRID_MM);
        figure.add(
            BARS,
            Shape::Area {
                rings: vec![vec![
                    [a + HALF_BAR, high],
                    [b + HALF_BAR, high],
                    [b - HALF_BAR, low],
                    [a - HALF_BAR, low],
                ]],
                fill: Some(Colour::Sheet),
                pen: None,
            },
        );
        for x in [a, b] {
            figure.line(BARS, Pen::Thin, [x + HALF_BAR, high], [x - HALF_BAR, low]);
        }
    }
}

fn finite(reserve: Option<f64>) -> Option<f64> {
    reserve.filter(|r| r.is_finite())
}

/// A reserve as printed: two decimals, and 1.00 only where it is reached.
fn words(reserve: Option<f64>) -> String {
    let Some(reserve) = finite(reserve) else {
        return "–".into();
    };
    let text = if reserve > 99.0 {
        "> 99".into()
    } else if reserve < -9.0 {
        "< −9".into()
    } else if (0.99..1.0).contains(&reserve) {
        "0.99".into()
    } else {
        format!("{reserve:.2}")
    };
    text.replace("-0.00", "0.00").replace('-', "−")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_one_is_printed_only_where_it_is_reached() {
        assert_eq!(words(Some(0.9999)), "0.99");
        assert_eq!(words(Some(1.0)), "1.00");
        assert_eq!(words(Some(1.5e9)), "> 99");
        assert_eq!(words(Some(-0.001)), "0.00");
        assert_eq!(words(Some(f64::NAN)), "–");
        assert_eq!(words(None), "–");
    }

    #[test]
    fn unit_a_short_bar_has_its_missing_part_framed() {
        let rung = Rung { words: "bond, hot", reserve: Some(0.75), verdict: Verdict::NotMet, remark: None };
        let ladder = Ladder { name: "l", title: "Reserves", rungs: &[rung] };
        let framed = ladder.figure().marks.iter().any(|mark| {
            matches!(&mark.shape, Shape::Area { fill: None, pen: Some(Pen::Verdict(v)), .. }
                if *v == Verdict::NotMet)
        });
        assert!(framed);
    }
}
