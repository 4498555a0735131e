//! Witness coupons: every value in order, and what is made of them.

use quantity::{Kind, Scale, System};

use super::around::greatest;
use super::plot::{Axis, Dot, DotKind, Flag, Growth, Level, Plot, Tick, Ticks};
use super::scale::Range;
use super::{count, drawable, rounded};
use crate::figure::{Figure, Pen};

/// One coupon.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coupon<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its strength, MPa.
    pub strength_mpa: f64,
    /// What is notable about its faces, such as "40 % adhesion failure".
    pub notable: Option<&'a str>,
}

/// A strength with its name, such as the mean or a bound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NamedStrength<'a> {
    /// Its name.
    pub words: &'a str,
    /// Its value, MPa.
    pub strength_mpa: f64,
}

/// A set of coupons.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coupons<'a> {
    /// Name of the figure.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// The coupons in the order of testing.
    pub coupons: &'a [Coupon<'a>],
    /// Mean; a full line.
    pub mean: Option<NamedStrength<'a>>,
    /// One-sided bound; a dashed line.
    pub bound: Option<NamedStrength<'a>>,
    /// Characteristic value; a dotted line.
    pub characteristic: Option<NamedStrength<'a>>,
    /// In which units it is drawn.
    pub system: System,
}

impl Coupons<'_> {
    /// Draws it. A notable coupon is an open circle with a flag that says why. The strength axis
    /// need not start at zero: the points are compared with each other and the lines.
    pub fn figure(&self) -> Figure {
        let place = |k: usize| count(k + 1);
        let stress = self.scale();
        let printed = |mpa: f64| rounded(stress.value(mpa), 3);
        let mut dots = Vec::new();
        let mut flags = Vec::new();
        for (k, coupon) in self.coupons.iter().enumerate() {
            let at = [place(k), stress.value(coupon.strength_mpa)];
            dots.push(Dot {
                at,
                kind: if coupon.notable.is_some() { DotKind::Open } else { DotKind::Filled },
                pen: Pen::Edge,
            });
            if let Some(notable) = coupon.notable {
                flags.push(Flag {
                    x: at[0],
                    y: Some(at[1]).filter(|s| drawable(*s)),
                    words: format!("{}: {notable}", coupon.name),
                });
            }
        }
        let lines = [(self.mean, Pen::Thin), (self.bound, Pen::Fold), (self.characteristic, Pen::Dotted)];
        let levels: Vec<Level> = lines
            .into_iter()
            .filter_map(|(named, pen)| {
                let named = named?;
                Some(Level {
                    words: format!("{} {}\u{a0}{}", named.words, printed(named.strength_mpa), stress.unit()),
                    y: stress.value(named.strength_mpa),
                    pen,
                })
            })
            .collect();
        // No line on the foot of the plot, where it could not be told from the axis.
        let drawn = dots.iter().map(|dot| dot.at[1]);
        let drawn = drawn.chain(levels.iter().map(|level| level.y));
        let room = Range::of(drawn.filter(|value| drawable(*value)))
            .map(|range| range.padded(0.05))
            .map_or_else(Vec::new, |range| vec![range.lo, range.hi]);
        let values: Vec<String> = self.coupons.iter().map(|coupon| printed(coupon.strength_mpa)).collect();
        let mut told = vec![if values.is_empty() {
            "No coupons".to_owned()
        } else {
            format!("Coupons {} {}", values.join(", "), stress.unit())
        }];
        told.extend(levels.iter().map(|level| level.words.clone()));
        told.extend(flags.iter().map(|flag| flag.words.clone()));
        Plot {
            name: self.name.into(),
            title: self.title.into(),
            desc: format!("{}.", told.join("; ")),
            x: Axis {
                label: "coupon".into(),
                // Half a place free on either side.
                include: vec![0.5, count(self.coupons.len().max(1)) + 0.5],
                ticks: Ticks::Given(self.steps()),
                growth: Growth::Even,
            },
            y: Axis {
                label: stress.unit().into(),
                include: room,
                ticks: Ticks::Rounded,
                growth: Growth::Even,
            },
            curves: Vec::new(),
            dots,
            levels,
            flags,
            bands: Vec::new(),
            folds: Vec::new(),
            ends: None,
            remarks: Vec::new(),
        }
        .figure()
    }

    /// The unit of the greatest strength.
    fn scale(&self) -> Scale {
        let lines = [self.mean, self.bound, self.characteristic].into_iter().flatten();
        let strengths = self.coupons.iter().map(|coupon| coupon.strength_mpa);
        let strengths = strengths.chain(lines.map(|line| line.strength_mpa));
        Scale::of(greatest(strengths), Kind::Stress, self.system)
    }

    /// Under each coupon its name and strength; where that is too much only names, then every
    /// second, fifth, tenth … name.
    fn steps(&self) -> Vec<Vec<Tick>> {
        let stress = self.scale();
        let every = |stride: usize, with_values: bool| {
            let coupons = self.coupons.iter().enumerate().step_by(stride);
            coupons
                .map(|(k, coupon)| {
                    let mut lines = vec![coupon.name.to_owned()];
                    if with_values {
                        lines.push(rounded(stress.value(coupon.strength_mpa), 3));
                    }
                    Tick { at: count(k + 1), lines }
                })
                .collect()
        };
        let mut sets = vec![every(1, true), every(1, false)];
        let mut decade = 1;
        while decade < self.coupons.len() {
            for stride in [2, 5, 10] {
                sets.push(every(stride * decade, false));
            }
            decade *= 10;
        }
        sets
    }
}
