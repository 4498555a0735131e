//! A plot: curves, points, levels, flags and bands over two axes.

mod draw;
mod layout;

use super::drawable;
use super::scale::Range;
use crate::figure::{Figure, Pen, Point};

/// What is plotted.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// Name of the figure; two figures on a page need two names.
    pub name: String,
    /// Title, drawn above the plot.
    pub title: String,
    /// What a reader who cannot see the plot should know.
    pub desc: String,
    /// The axis to the right.
    pub x: Axis,
    /// The axis upward.
    pub y: Axis,
    /// Curves.
    pub curves: Vec<Curve>,
    /// Single points.
    pub dots: Vec<Dot>,
    /// Horizontal reference lines.
    pub levels: Vec<Level>,
    /// Places along x, with words on a flag above the plot.
    pub flags: Vec<Flag>,
    /// Shaded stretches of x.
    pub bands: Vec<Band>,
    /// Places along x at which a surface folds, drawn as dashed lines.
    pub folds: Vec<f64>,
    /// Names of the left and the right end.
    pub ends: Option<[String; 2]>,
    /// Sentences below the plot.
    pub remarks: Vec<String>,
}

/// An axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What and in which unit, at the axis's end.
    pub label: String,
    /// Values that the axis must hold whatever the data.
    pub include: Vec<f64>,
    /// Which steps are named.
    pub ticks: Ticks,
    /// Whether equal steps are drawn equal.
    pub growth: Growth,
}

/// Steps of an axis.
#[derive(Clone, Debug, PartialEq)]
pub enum Ticks {
    /// Steps of 1, 2, 5; the axis ends at whole steps.
    Rounded,
    /// Steps of 1, 2, 5; the axis ends where the data ends.
    Tight,
    /// Sets of steps: the first whose words all find room is taken; of the last set those are left
    /// out that find none, the ones that matter most standing first.
    Given(Vec<Vec<Tick>>),
}

/// A named step.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Its value.
    pub at: f64,
    /// Its words, one below the other.
    pub lines: Vec<String>,
}

/// How an axis grows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Growth {
    /// Equal steps are equal.
    Even,
    /// Nearly equal up to `bend` from the start of the axis, like a logarithm beyond it.
    Slowing {
        /// Where the growth changes, in the axis's unit.
        bend: f64,
    },
}

/// A curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Its name, written at its right end; may be empty.
    pub words: String,
    /// How it is drawn.
    pub pen: Pen,
    /// Its points in order; one that cannot be drawn interrupts it.
    pub points: Vec<Point>,
}

/// A single point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// Where.
    pub at: Point,
    /// What it looks like.
    pub kind: DotKind,
    /// Its line and, if filled, its colour.
    pub pen: Pen,
}

/// Looks of a point, different without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum DotKind {
    /// A full circle.
    Filled,
    /// An empty circle.
    Open,
    /// Two crossed lines.
    Crossed,
}

/// A horizontal reference line.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Its name with its value, written at its right end.
    pub words: String,
    /// Its height.
    pub y: f64,
    /// How it is drawn.
    pub pen: Pen,
}

/// Words for a place along x.
#[derive(Clone, Debug, PartialEq)]
pub struct Flag {
    /// Where.
    pub x: f64,
    /// How far down the staff reaches; none: to the foot of the plot.
    pub y: Option<f64>,
    /// The words.
    pub words: String,
}

/// A shaded stretch of x.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Where it starts.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Its name, written below the plot.
    pub words: String,
}

impl Plot {
    /// Draws it.
    pub fn figure(&self) -> Figure {
        let (plot, left_out) = self.drawable();
        layout::Layout::of(&plot, left_out).draw(&plot)
    }

    /// Only what can be drawn, and how many values cannot.
    fn drawable(&self) -> (Self, usize) {
        let mut plot = self.clone();
        let mut left_out = 0;
        let mut keep = |good: bool| {
            left_out += usize::from(!good);
            good
        };
        plot.dots.retain(|dot| keep(is_point(dot.at)));
        plot.levels.retain(|level| keep(drawable(level.y)));
        plot.flags.retain(|flag| keep(drawable(flag.x) && flag.y.is_none_or(drawable)));
        plot.folds.retain(|fold| keep(drawable(*fold)));
        plot.bands.retain(|band| keep(drawable(band.from) && drawable(band.to)));
        for curve in &self.curves {
            for point in &curve.points {
                keep(is_point(*point));
            }
        }
        for axis in [&mut plot.x, &mut plot.y] {
            axis.include.retain(|value| drawable(*value));
            if let Ticks::Given(sets) = &mut axis.ticks {
                for set in sets {
                    set.retain(|tick| drawable(tick.at));
                }
            }
        }
        (plot, left_out)
    }

    /// Whether there is anything to see.
    fn is_bare(&self) -> bool {
        self.dots.is_empty()
            && self.levels.is_empty()
            && self.flags.is_empty()
            && self.bands.is_empty()
            && self.folds.is_empty()
            && self.curves.iter().all(|curve| curve.pieces().is_empty())
    }

    /// The stretch of x that holds everything.
    fn range_x(&self) -> Range {
        let values = self
            .curves
            .iter()
            .flat_map(|curve| curve.points.iter().filter(|p| is_point(**p)).map(|p| p[0]))
            .chain(self.dots.iter().map(|dot| dot.at[0]))
            .chain(self.flags.iter().map(|flag| flag.x))
            .chain(self.bands.iter().flat_map(|band| [band.from, band.to]))
            .chain(self.folds.iter().copied())
            .chain(self.x.include.iter().copied());
        Range::of(values).unwrap_or(Range { lo: 0.0, hi: 1.0 }).opened()
    }

    /// The stretch of y that holds everything.
    fn range_y(&self) -> Range {
        let values = self
            .curves
            .iter()
            .flat_map(|curve| curve.points.iter().filter(|p| is_point(**p)).map(|p| p[1]))
            .chain(self.dots.iter().map(|dot| dot.at[1]))
            .chain(self.levels.iter().map(|level| level.y))
            .chain(self.flags.iter().filter_map(|flag| flag.y))
            .chain(self.y.include.iter().copied());
        Range::of(values).unwrap_or(Range { lo: 0.0, hi: 1.0 }).opened()
    }
}

impl Curve {
    /// The stretches between points that cannot be drawn.
    fn pieces(&self) -> Vec<&[Point]> {
        self.points.split(|point| !is_point(*point)).filter(|piece| !piece.is_empty()).collect()
    }
}

fn is_point(point: Point) -> bool {
    drawable(point[0]) && drawable(point[1])
}
