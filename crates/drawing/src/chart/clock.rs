//! The cure clock: strength and milestones over the time from first mix.

use super::plot::{Axis, Band, Curve, Dot, DotKind, Flag, Growth, Plot, Tick, Ticks};
use super::{GREATEST, drawable, duration, rounded};
use crate::figure::{Figure, Pen};

const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;

/// Where the axis begins to slow down, as a part of the whole time: not earlier, so that the end
/// keeps a readable stretch.
const LEAST_BEND: f64 = 1e-3;

/// What happens when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Milestone<'a> {
    /// A word or two: "nozzle", "working", "driving".
    pub words: &'a str,
    /// Time from first mix, s; none if it is not known.
    pub at_s: Option<f64>,
    /// Strength at that time as a fraction of full strength, where the milestone means one.
    pub strength: Option<f64>,
}

/// Strength over time, with milestones.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CureClock<'a> {
    /// Name of the figure.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// Times from first mix, s.
    pub time_s: &'a [f64],
    /// Strength at these times as a fraction of full strength.
    pub strength: &'a [f64],
    /// Milestones.
    pub milestones: &'a [Milestone<'a>],
    /// Stretches of time to shade, from and to in s from first mix, with their names.
    pub bands: &'a [(f64, f64, &'a str)],
}

impl CureClock<'_> {
    /// Draws it. The time axis slows down like a logarithm, so that 20 min and 7 d both read well,
    /// yet it starts at first mix.
    pub fn figure(&self) -> Figure {
        let percent = |fraction: f64| 100.0 * fraction;
        let points: Vec<[f64; 2]> = self
            .time_s
            .iter()
            .zip(self.strength)
            .map(|(time, strength)| [*time, percent(*strength)])
            .collect();
        let mut flags = Vec::new();
        let mut dots = Vec::new();
        let mut unknown = Vec::new();
        let mut told = Vec::new();
        for milestone in self.milestones {
            let Some(at) = milestone.at_s else {
                unknown.push(milestone.words);
                continue;
            };
            let words = format!("{} {}", milestone.words, duration(at));
            told.push(words.clone());
            flags.push(Flag { x: at, y: None, words });
            if let Some(strength) = milestone.strength {
                dots.push(Dot { at: [at, percent(strength)], kind: DotKind::Filled, pen: Pen::Accent });
            }
        }
        let mut remarks = Vec::new();
        if !unknown.is_empty() {
            remarks.push(format!("Not known: {}.", unknown.join(", ")));
        }
        let curve_start = points.iter().find(|p| p.iter().all(|v| drawable(*v)));
        if curve_start.is_some() || !flags.is_empty() {
            remarks.push("Later times are drawn closer together.".into());
        }
        let desc = match (told.is_empty(), unknown.is_empty()) {
            (true, true) => "No milestones are given.".to_owned(),
            (true, false) => remarks[0].clone(),
            (false, true) => format!("From first mix: {}.", told.join(", ")),
            (false, false) => format!("From first mix: {}. {}", told.join(", "), remarks[0]),
        };
        let longest = self.longest();
        Plot {
            name: self.name.into(),
            title: self.title.into(),
            desc,
            x: Axis {
                label: "from first mix".into(),
                include: vec![0.0],
                ticks: Ticks::Given(vec![steps(longest)]),
                growth: Growth::Slowing { bend: self.bend(longest) },
            },
            y: Axis {
                label: "%".into(),
                include: vec![0.0, 100.0],
                ticks: Ticks::Rounded,
                growth: Growth::Even,
            },
            curves: vec![Curve { words: "share of full strength".into(), pen: Pen::Accent, points }],
            dots,
            levels: Vec::new(),
            flags,
            bands: self
                .bands
                .iter()
                .map(|(from, to, words)| Band { from: *from, to: *to, words: (*words).into() })
                .collect(),
            folds: Vec::new(),
            ends: None,
            remarks,
        }
        .figure()
    }

    fn times(&self) -> impl Iterator<Item = f64> {
        let milestones = self.milestones.iter().filter_map(|m| m.at_s);
        let bands = self.bands.iter().flat_map(|(from, to, _)| [*from, *to]);
        self.time_s.iter().copied().chain(milestones).chain(bands).filter(|time| drawable(*time))
    }

    fn longest(&self) -> f64 {
        self.times().fold(0.0, f64::max)
    }

    /// Half of the first milestone, so that it has room before it and all later ones keep theirs.
    fn bend(&self, longest: f64) -> f64 {
        let first =
            self.milestones.iter().filter_map(|m| m.at_s).filter(|at| *at > 0.0).fold(longest, f64::min);
        (first / 2.0).max(LEAST_BEND * longest)
    }
}

/// Times worth naming up to the longest, the ones that matter most first.
fn steps(longest: f64) -> Vec<Tick> {
    let mut times = vec![
        0.0,
        HOUR,
        DAY,
        7.0 * DAY,
        8.0 * HOUR,
        10.0 * MINUTE,
        30.0 * MINUTE,
        2.0 * HOUR,
        2.0 * DAY,
        4.0 * HOUR,
        14.0 * DAY,
        4.0 * DAY,
        20.0 * MINUTE,
        MINUTE,
        10.0,
    ];
    // For what lasts longer or goes faster than any adhesive on the shelf, decades do.
    let mut far = 30.0 * DAY;
    while far <= longest && far < GREATEST {
        times.push(far);
        far *= 10.0;
    }
    let mut near = 1.0;
    while near > 1e-6 * longest && near > 1e-12 {
        times.push(near);
        near /= 10.0;
    }
    times
        .into_iter()
        .filter(|time| *time <= longest)
        .map(|time| Tick { at: time, lines: vec![step_words(time)] })
        .collect()
}

/// A whole number of one unit: 24 h as a step reads "1 d".
fn step_words(time: f64) -> String {
    let whole = |unit: f64| time >= unit && (time % unit).abs() < 1e-6 * unit;
    if whole(DAY) {
        let days = time / DAY;
        let digits = if days < 1e6 { format!("{days:.0}") } else { rounded(days, 1) };
        format!("{digits}\u{a0}d")
    } else if whole(HOUR) {
        format!("{:.0}\u{a0}h", time / HOUR)
    } else {
        duration(time)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_steps_read_as_whole_units() {
        let words: Vec<String> = steps(8.0 * DAY).into_iter().flat_map(|tick| tick.lines).collect();
        for wanted in ["0", "1\u{a0}d", "7\u{a0}d", "1\u{a0}h", "8\u{a0}h"] {
            assert!(words.iter().any(|w| w == wanted), "{wanted} in {words:?}");
        }
    }
}
