//! Reserve factors at other overlaps.

use quantity::{Kind, Scale, System};

use super::around::greatest;
use super::plot::{Axis, Band, Curve, Dot, DotKind, Flag, Growth, Level, Plot, Ticks};
use super::rounded;
use crate::figure::{Figure, Pen};

/// Reserve factors in one condition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reserves<'a> {
    /// The condition: "23 °C, dry".
    pub words: &'a str,
    /// How it is drawn.
    pub pen: Pen,
    /// Overlaps, mm.
    pub overlap_mm: &'a [f64],
    /// Reserve factors there.
    pub reserve: &'a [f64],
}

/// How the reserve of a bond goes with its overlap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByOverlap<'a> {
    /// Name of the figure.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// The curves; the first is the one that the planned overlap is flagged on.
    pub curves: &'a [Reserves<'a>],
    /// The overlap that is flagged, mm, and the reserve there.
    pub planned: Option<(f64, f64)>,
    /// What the flagged overlap is: "planned".
    pub flagged: &'a str,
    /// The reserve factor that is asked for, where it is not 1.00 alone.
    pub target: Option<f64>,
    /// Least reserve of the parts beside the bond, which the overlap does not change.
    pub parts: Option<f64>,
    /// The overlap beyond which the peak of shear falls no further, mm.
    pub helps_to_mm: Option<f64>,
    /// In which units it is drawn.
    pub system: System,
}

impl ByOverlap<'_> {
    /// Draws it: the planned overlap flagged, 1.00 and the parts as levels, shaded where more overlap stops helping.
    pub fn figure(&self) -> Figure {
        let overlaps = || self.curves.iter().flat_map(|curve| curve.overlap_mm.iter().copied());
        let longest = greatest(overlaps());
        let length = Scale::of(longest, Kind::Length, self.system);
        let curves: Vec<Curve> = self
            .curves
            .iter()
            .map(|curve| Curve {
                words: curve.words.to_owned(),
                pen: curve.pen,
                points: curve
                    .overlap_mm
                    .iter()
                    .zip(curve.reserve)
                    .map(|(x, y)| [length.value(*x), *y])
                    .collect(),
            })
            .collect();
        let print = |mm: f64| format!("{}\u{a0}{}", rounded(length.value(mm), 3), length.unit());
        let mut levels = vec![Level { words: "1.00, exactly enough".to_owned(), y: 1.0, pen: Pen::Edge }];
        levels.extend(self.target.map(|target| Level {
            words: format!("{target:.2}, asked for"),
            y: target,
            pen: Pen::Edge,
        }));
        levels.extend(self.parts.map(|parts| Level {
            words: format!("weakest part beside the bond, {parts:.2}"),
            y: parts,
            pen: Pen::Dotted,
        }));
        let flags: Vec<Flag> = self
            .planned
            .iter()
            .map(|(at, reserve)| Flag {
                x: length.value(*at),
                y: Some(*reserve),
                words: format!("{} {}: {reserve:.2}", self.flagged, print(*at)),
            })
            .collect();
        let dots = self.planned.iter().map(|(at, reserve)| Dot {
            at: [length.value(*at), *reserve],
            kind: DotKind::Filled,
            pen: Pen::Accent,
        });
        let bands = self.helps_to_mm.filter(|from| *from < longest).map(|from| Band {
            from: length.value(from),
            to: length.value(longest),
            words: format!("beyond {} the peak of the shear falls by less than 1\u{a0}% more", print(from)),
        });
        let mut told: Vec<String> = flags.iter().map(|flag| flag.words.clone()).collect();
        told.extend(levels.iter().map(|level| level.words.clone()));
        let mut remarks = Vec::new();
        if self.parts.is_some() {
            remarks.push(
                "Above the level of the weakest part a longer overlap makes the joint no stronger."
                    .to_owned(),
            );
        }
        let axis = |label: &str, include, ticks| Axis {
            label: label.to_owned(),
            include,
            ticks,
            growth: Growth::Even,
        };
        Plot {
            name: self.name.into(),
            title: self.title.into(),
            desc: format!("Reserve factor of the bond against its overlap: {}.", told.join(", ")),
            x: axis(&format!("{} of overlap", length.unit()), Vec::new(), Ticks::Tight),
            y: axis("reserve factor", vec![0.0], Ticks::Rounded),
            curves,
            dots: dots.collect(),
            levels,
            flags,
            bands: bands.into_iter().collect(),
            folds: Vec::new(),
            ends: None,
            remarks,
        }
        .figure()
    }
}
