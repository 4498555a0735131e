//! Puts the marks of a plot where its layout says, from the back to the front.

use super::layout::{EDGE, FLAG_GAP, HALF_LINE, Layout, NAME_GAP};
use super::{Dot, DotKind, Plot};
use crate::figure::{Anchor, Figure, Pen, Point, Shape};
use crate::look::{Colour, GRID_MM, PX_MM};

/// Layers of a chart.
const BANDS: &str = "chart-bands";
const GRID: &str = "chart-grid";
const AXES: &str = "chart-axes";
const LEVELS: &str = "chart-levels";
const CURVES: &str = "chart-curves";
const DOTS: &str = "chart-dots";
const FLAGS: &str = "chart-flags";
const TEXT: &str = "chart-text";

/// Radius of a point.
const DOT: f64 = 4.0 * PX_MM;
/// Length of a step's line outside the plot.
const STEP: f64 = 4.0 * PX_MM;

impl Layout {
    pub(super) fn draw(&self, plot: &Plot) -> Figure {
        let mut figure = Figure {
            name: plot.name.clone(),
            title: plot.title.clone(),
            desc: plot.desc.clone(),
            size_mm: self.size,
            marks: Vec::new(),
        };
        self.title.write(&mut figure, TEXT, EDGE, EDGE, Anchor::Start, Colour::Ink);
        self.bands(&mut figure, plot);
        self.axes(&mut figure);
        for fold in &plot.folds {
            let x = self.x.at(*fold);
            let [bottom, top] = self.y.ends_mm;
            figure.line(LEVELS, Pen::Fold, [x, bottom], [x, top]);
        }
        for level in &plot.levels {
            let y = self.y.at(level.y);
            let [left, right] = self.x.ends_mm;
            figure.line(LEVELS, level.pen, [left, y], [right, y]);
        }
        self.curves(&mut figure, plot);
        self.flags(&mut figure, plot);
        for dot in &plot.dots {
            self.dot(&mut figure, dot);
        }
        self.names(&mut figure);
        self.words_below(&mut figure);
        figure
    }

    fn at(&self, point: Point) -> Point {
        [self.x.at(point[0]), self.y.at(point[1])]
    }

    fn bands(&self, figure: &mut Figure, plot: &Plot) {
        let [bottom, top] = self.y.ends_mm;
        for (band, name) in plot.bands.iter().zip(&self.bands) {
            let (from, to) = (self.x.at(band.from), self.x.at(band.to));
            figure.add(
                BANDS,
                Shape::Area {
                    rings: vec![vec![[from, top], [to, top], [to, bottom], [from, bottom]]],
                    fill: Some(Colour::Band),
                    pen: None,
                },
            );
            let bracket = name.top + GRID_MM / 2.0;
            let hook = bracket - GRID_MM / 2.0;
            figure.add(
                BANDS,
                Shape::Polyline {
                    points: vec![[from, hook], [from, bracket], [to, bracket], [to, hook]],
                    pen: Pen::Rule,
                },
            );
            let words = &name.words;
            let top = name.top + GRID_MM;
            words.write(figure, TEXT, name.middle, top, Anchor::Middle, Colour::Ink);
        }
    }

    fn axes(&self, figure: &mut Figure) {
        let [left, right] = self.x.ends_mm;
        let [bottom, top] = self.y.ends_mm;
        for step in &self.steps_y {
            let y = self.y.at(step.at);
            // The zero line of a signed quantity is a line, not a gridline.
            let pen = if step.at == 0.0 { Pen::Thin } else { Pen::Grid };
            figure.line(GRID, pen, [left, y], [right, y]);
            figure.line(AXES, Pen::Thin, [left - STEP, y], [left, y]);
            step.words.write(figure, TEXT, left - GRID_MM, y - HALF_LINE, Anchor::End, Colour::Ink);
        }
        for step in &self.steps_x {
            let x = self.x.at(step.at);
            figure.line(AXES, Pen::Thin, [x, bottom], [x, bottom + STEP]);
            step.words.write(figure, TEXT, x, bottom + HALF_LINE, Anchor::Middle, Colour::Ink);
        }
        figure.line(AXES, Pen::Thin, [left, top], [left, bottom]);
        figure.line(AXES, Pen::Thin, [left, bottom], [right, bottom]);
        self.label_y.write(
            figure,
            TEXT,
            left - GRID_MM,
            top - HALF_LINE - self.label_y.height(),
            Anchor::End,
            Colour::Aside,
        );
        self.label_x.write(figure, TEXT, self.label_x_left, bottom + HALF_LINE, Anchor::Start, Colour::Aside);
    }

    fn curves(&self, figure: &mut Figure, plot: &Plot) {
        for curve in &plot.curves {
            for piece in curve.pieces() {
                if let [point] = piece {
                    let dot = Dot { at: *point, kind: DotKind::Filled, pen: curve.pen };
                    self.dot(figure, &dot);
                    continue;
                }
                let mark = figure.add(
                    CURVES,
                    Shape::Polyline {
                        points: piece.iter().map(|point| self.at(*point)).collect(),
                        pen: curve.pen,
                    },
                );
                mark.name = Some(curve.words.clone()).filter(|words| !words.is_empty());
            }
        }
    }

    fn dot(&self, figure: &mut Figure, dot: &Dot) {
        let centre = self.at(dot.at);
        let (fill, pen) = match dot.kind {
            DotKind::Filled => (dot.pen.stroke().colour, None),
            DotKind::Open => (Colour::Sheet, Some(dot.pen)),
            DotKind::Crossed => {
                for slant in [-DOT, DOT] {
                    let from = [centre[0] - DOT, centre[1] - slant];
                    let to = [centre[0] + DOT, centre[1] + slant];
                    figure.line(DOTS, dot.pen, from, to);
                }
                return;
            }
        };
        figure.add(DOTS, Shape::Circle { centre, radius: DOT, fill: Some(fill), pen });
    }

    fn flags(&self, figure: &mut Figure, plot: &Plot) {
        for (flag, (words, top)) in plot.flags.iter().zip(&self.flags) {
            let x = self.x.at(flag.x);
            let foot = flag.y.map_or(self.y.ends_mm[0], |y| self.y.at(y));
            figure.line(FLAGS, Pen::Rule, [x, *top], [x, foot]);
            words.write(figure, TEXT, x + FLAG_GAP, *top, Anchor::Start, Colour::Ink);
        }
    }

    fn names(&self, figure: &mut Figure) {
        let right = self.x.ends_mm[1];
        for name in &self.names {
            let middle = name.top + name.words.height() / 2.0;
            // A sample of the pen leads to the word; from within the plot a thin line does.
            let pen = if name.at_edge { name.pen } else { Pen::Rule };
            let to = [right + NAME_GAP - GRID_MM / 2.0, middle];
            figure.line(LEVELS, pen, name.end, to);
            name.words.write(figure, TEXT, right + NAME_GAP, name.top, Anchor::Start, Colour::Ink);
        }
    }

    fn words_below(&self, figure: &mut Figure) {
        let [left, right] = self.x.ends_mm;
        if let Some([start, end]) = &self.ends {
            let top = self.ends_top;
            start.write(figure, TEXT, left, top, Anchor::Start, Colour::Ink);
            end.write(figure, TEXT, right, top, Anchor::End, Colour::Ink);
        }
        self.remarks.write(figure, TEXT, EDGE, self.remarks_top, Anchor::Start, Colour::Aside);
    }
}
