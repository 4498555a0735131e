//! Shear and peel along an overlap.

use quantity::{Kind, Scale, System};

use super::around::greatest;
use super::plot::{Axis, Curve, Dot, DotKind, Flag, Growth, Level, Plot, Ticks};
use super::{drawable, rounded};
use crate::figure::{Figure, Pen};

/// Peaks within this part of the greatest are one peak at several places, such as the two ends of a
/// balanced joint; half of the last of three printed digits.
const SAME: f64 = 0.0005;

/// Stress along the bondline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Distribution<'a> {
    /// Name of the figure.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// Places along the overlap, mm.
    pub x_mm: &'a [f64],
    /// Shear at these places, MPa.
    pub shear_mpa: &'a [f64],
    /// Peel at these places, MPa, tension positive; may be empty.
    pub peel_mpa: &'a [f64],
    /// Mean shear, load over area, MPa.
    pub mean_shear_mpa: Option<f64>,
    /// Name of the end where x is least.
    pub left_end: &'a str,
    /// Name of the other end.
    pub right_end: &'a str,
    /// In which units it is drawn.
    pub system: System,
}

impl Distribution<'_> {
    /// Draws it: both curves from zero, their greatest magnitudes flagged, the mean as a level.
    pub fn figure(&self) -> Figure {
        let length = Scale::of(greatest(self.x_mm.iter().copied()), Kind::Length, self.system);
        let stresses = self.shear_mpa.iter().chain(self.peel_mpa).copied().chain(self.mean_shear_mpa);
        let stress = Scale::of(greatest(stresses), Kind::Stress, self.system);
        let mut curves = Vec::new();
        let mut dots = Vec::new();
        let mut flags = Vec::new();
        let mut told = Vec::new();
        let both = [
            ("shear", self.shear_mpa, Pen::Accent, DotKind::Filled),
            ("peel", self.peel_mpa, Pen::AccentDashed, DotKind::Open),
        ];
        for (words, values, pen, kind) in both {
            let points: Vec<[f64; 2]> = self
                .x_mm
                .iter()
                .zip(values)
                .map(|(x, value)| [length.value(*x), stress.value(*value)])
                .collect();
            let peaks = peaks(&points);
            if let Some([_, value]) = peaks.first() {
                let places: Vec<String> =
                    peaks.iter().map(|[x, _]| format!("{}\u{a0}{}", rounded(*x, 3), length.unit())).collect();
                let value = format!("{}\u{a0}{}", rounded(*value, 3), stress.unit());
                let at = places.join(" and ");
                for (peak, place) in peaks.iter().zip(&places) {
                    dots.push(Dot { at: *peak, kind, pen: Pen::Accent });
                    flags.push(Flag {
                        x: peak[0],
                        y: Some(peak[1]),
                        words: format!("peak {words} {value} at\u{a0}{place}"),
                    });
                }
                told.push(format!("peak {words} {value} at {at}"));
            }
            curves.push(Curve { words: words.into(), pen, points });
        }
        let levels: Vec<Level> = self
            .mean_shear_mpa
            .iter()
            .map(|mean| Level {
                words: format!("mean shear {}\u{a0}{}", rounded(stress.value(*mean), 3), stress.unit()),
                y: stress.value(*mean),
                pen: Pen::Fold,
            })
            .collect();
        told.extend(levels.iter().map(|level| level.words.clone()));
        let desc = if told.is_empty() {
            "No stresses are given.".to_owned()
        } else {
            format!("Along the overlap: {}.", told.join(", "))
        };
        Plot {
            name: self.name.into(),
            title: self.title.into(),
            desc,
            x: Axis {
                label: length.unit().into(),
                include: Vec::new(),
                ticks: Ticks::Tight,
                growth: Growth::Even,
            },
            y: Axis {
                label: stress.unit().into(),
                include: vec![0.0],
                ticks: Ticks::Rounded,
                growth: Growth::Even,
            },
            curves,
            dots,
            levels,
            flags,
            bands: Vec::new(),
            folds: Vec::new(),
            ends: Some([self.left_end.into(), self.right_end.into()]),
            remarks: Vec::new(),
        }
        .figure()
    }
}

/// Places of the greatest magnitude: the first, and the last if it is as great and of the same
/// sign. A field without any stress has none.
pub(super) fn peaks(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let drawn = || points.iter().filter(|p| p.iter().all(|v| drawable(*v)));
    let greatest = drawn().map(|p| p[1].abs()).fold(0.0, f64::max);
    if greatest == 0.0 {
        return Vec::new();
    }
    let is_peak = |p: &&&[f64; 2]| p[1].abs() >= greatest * (1.0 - SAME);
    let first = drawn().find(|p| is_peak(&p));
    let last = drawn().rev().find(|p| is_peak(&p));
    match (first, last) {
        (Some(first), Some(last)) => {
            // A plateau is one peak; two need a valley between them.
            let valley = drawn()
                .any(|p| p[0] > first[0] && p[0] < last[0] && p[1].abs() < greatest * (1.0 - 2.0 * SAME));
            if valley && (first[1] > 0.0) == (last[1] > 0.0) { vec![*first, *last] } else { vec![*first] }
        }
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_both_ends_of_a_balanced_joint_are_peaks() {
        let points = [[0.0, 9.0], [5.0, 2.0], [10.0, 9.001]];
        assert_eq!(peaks(&points), [[0.0, 9.0], [10.0, 9.001]]);
    }

    #[test]
    fn unit_a_plateau_is_one_peak_and_nothing_is_none() {
        assert_eq!(peaks(&[[0.0, 4.0], [1.0, 4.0], [2.0, 4.0]]).len(), 1);
        assert!(peaks(&[[0.0, 0.0], [1.0, f64::NAN]]).is_empty());
        assert!(peaks(&[]).is_empty());
    }

    #[test]
    fn unit_the_greatest_may_be_negative() {
        assert_eq!(peaks(&[[0.0, 3.0], [1.0, -8.0], [2.0, 3.0]]), [[1.0, -8.0]]);
    }
}
