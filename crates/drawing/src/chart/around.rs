//! What the bond carries around the perimeter of a section.

use quantity::{Kind, Scale, System};

use super::distribution::peaks;
use super::plot::{Axis, Band, Curve, Dot, DotKind, Flag, Growth, Plot, Ticks};
use super::{drawable, rounded};
use crate::figure::{Figure, Pen};

/// A face of the section on the way around.
#[derive(Clone, Debug, PartialEq)]
pub struct Side<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its width from fold to fold, mm.
    pub width_mm: f64,
    /// What is bonded of it, from its beginning on the way around, mm.
    pub bonded_mm: Vec<[f64; 2]>,
}

/// One curve around the perimeter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Round<'a> {
    /// Its name.
    pub words: &'a str,
    /// How it is drawn.
    pub pen: Pen,
    /// Distances around the perimeter, mm.
    pub at_mm: &'a [f64],
    /// Values there, in the base unit of the chart's kind.
    pub values: &'a [f64],
}

/// Values around a section, with its folds and the names of its faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Around<'a> {
    /// Name of the figure.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// The faces in the order of the way around.
    pub sides: &'a [Side<'a>],
    /// The curves.
    pub curves: &'a [Round<'a>],
    /// Of what kind all values are.
    pub kind: Kind,
    /// Sentences below the plot.
    pub remarks: &'a [&'a str],
    /// In which units it is drawn.
    pub system: System,
}

impl Around<'_> {
    /// Draws it: each curve from the first fold once around to the same fold, its greatest magnitude flagged, the
    /// bonded stretches shaded and named.
    pub fn figure(&self) -> Figure {
        let values = self.curves.iter().flat_map(|curve| curve.values);
        let scale = Scale::of(greatest(values.copied()), self.kind, self.system);
        let whole: f64 = self.sides.iter().map(|side| side.width_mm).sum();
        let length = Scale::of(whole, Kind::Length, self.system);
        let (mut dots, mut flags, mut told, mut curves) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for curve in self.curves {
            let places = curve.at_mm.iter().zip(curve.values);
            let points: Vec<[f64; 2]> = places.map(|(at, y)| [length.value(*at), scale.value(*y)]).collect();
            if let Some(peak) = peaks(&points).first() {
                let kind = if curve.pen == Pen::Accent { DotKind::Filled } else { DotKind::Open };
                dots.push(Dot { at: *peak, kind, pen: curve.pen.whole() });
                let words = format!("{}: {}\u{a0}{}", curve.words, rounded(peak[1], 3), scale.unit());
                told.push(words.clone());
                flags.push(Flag { x: peak[0], y: Some(peak[1]), words });
            }
            curves.push(Curve { words: curve.words.to_owned(), pen: curve.pen, points });
        }
        let (folds, bands) = self.faces(length);
        let axis = |unit: &str, include, ticks| Axis {
            label: unit.to_owned(),
            include,
            ticks,
            growth: Growth::Even,
        };
        Plot {
            name: self.name.into(),
            title: self.title.into(),
            desc: if told.is_empty() {
                "Nothing is carried anywhere.".to_owned()
            } else {
                format!("Greatest around the perimeter: {}.", told.join(", "))
            },
            x: axis(length.unit(), vec![0.0, length.value(whole)], Ticks::Tight),
            y: axis(scale.unit(), vec![0.0], Ticks::Rounded),
            curves,
            dots,
            levels: Vec::new(),
            flags,
            bands,
            folds,
            ends: None,
            remarks: self.remarks.iter().map(|words| (*words).to_owned()).collect(),
        }
        .figure()
    }

    /// The folds, and the bonded stretches with the names of their faces.
    fn faces(&self, length: Scale) -> (Vec<f64>, Vec<Band>) {
        let (mut folds, mut bands) = (vec![0.0], Vec::new());
        let mut edge = 0.0;
        for side in self.sides {
            let band = |[from, to]: [f64; 2], words: String| Band {
                from: length.value(edge + from),
                to: length.value(edge + to),
                words,
            };
            bands.extend(side.bonded_mm.iter().map(|bonded| band(*bonded, side.name.to_owned())));
            if side.bonded_mm.is_empty() {
                let middle = side.width_mm / 2.0;
                bands.push(band([middle, middle], format!("{}, not bonded", side.name)));
            }
            edge += side.width_mm;
            folds.push(length.value(edge));
        }
        (folds, bands)
    }
}

/// The greatest magnitude that can be drawn.
pub(super) fn greatest(values: impl Iterator<Item = f64>) -> f64 {
    values.filter(|value| drawable(*value)).map(f64::abs).fold(0.0, f64::max)
}
