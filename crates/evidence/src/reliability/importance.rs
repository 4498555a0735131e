//! Samples on lines in the direction of the design point.

use super::design_point::{FAR, dot};
use super::generator::Draws;
use super::{DesignPoint, Ended, Estimate, Method, Settings, Task, Variables, at, beyond, each};
use crate::error::finite;
use crate::{EvidenceError, normal, student};

/// More samples without an answer than this share leave the chance unknown.
const MOST_UNTOLD: f64 = 0.1;

/// Lines that are drawn before it is asked whether they are enough, and the fewest of which an interval is made.
const ENOUGH: usize = 48;

/// Lines that are drawn together.
const BATCH: usize = 16;

/// As many lines must carry the sum before sampling ends early: one that hangs on a few has an interval that cannot be
/// trusted.
const ENOUGH_CARRYING: f64 = 20.0;

/// Of Student's distribution, two-sided 99 %, for intervals that are told as 95 %: when to stop is decided by looking at
/// them, and sums of a few lines lean to one side. Both cost a few per cent of coverage, which this gives back.
const LEVEL: f64 = 0.995;

/// Evaluations on one line.
const MOST_STEPS: usize = 8;

/// How far it is gone back from where there is no answer, in standard deviations.
const BACK: f64 = 0.5;

/// Chances below this may have an interval three times as wide.
const RARE: f64 = 1e-7;

/// How much wider the lines lie than the quantities scatter.
const WIDER: f64 = 1.25;

/// A step of this many standard deviations along a line is the last one, and is not evaluated.
const LAST_STEP: f64 = 0.05;

/// The chance of failure as the mean over lines that run toward the design point.
///
/// ```text
/// p = Σ w_k Φ(−c_k) / Σ w_k        g(v_k + c_k α) = 0,  v_k ⟂ α normal, deviation σ
/// w_k = exp(−|v_k|² (1 − 1/σ²)/2)
/// ```
///
/// The lines lie at random across the direction α of the design point and are integrated exactly along it: importance
/// sampling orthogonal to an axis. Where the limit state is a plane each line gives the whole answer. Any direction
/// serves, if the limit state is crossed once on each line; that of the design point scatters least. Lines lie wider than
/// the quantities scatter, so that a limit state that bends toward the origin does not hang on a few lines far out.
///
/// The interval is p exp(±t s/p), s the standard error of the ratio and t Student's 99.5 %, so that it does not fall
/// below zero. It includes what is left open of where the crossings stand, and lines on which none can be told.
///
/// Sources, from memory: Hohenbichler and Rackwitz 1988, Improvement of second-order reliability estimates by importance
/// sampling; Koutsourelakis, Pradlwarter and Schuëller 2004, Reliability of structures in high dimensions (line
/// sampling).
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] where too few lines can be drawn, [`EvidenceError::Untold`] where on too many no
/// crossing can be told, [`EvidenceError::Stopped`] where it was stopped before there were enough of them.
pub(super) fn sample(
    variables: &Variables,
    settings: &Settings,
    point: &DesignPoint,
    task: &Task<'_>,
) -> Result<Estimate, EvidenceError> {
    let draws = Draws::new(settings.seed, 0);
    let mut lines: Vec<Line> = Vec::new();
    let mut spent = 0;
    // Looked at after 48, 72, 108, .. lines: one who looks at every batch ends where it happens to look narrow.
    let mut look = ENOUGH;
    let ended = loop {
        if lines.len() >= look
            && let Ok(summed) = Summed::of(&lines)
            && summed.is_precise(settings.precision)
        {
            break Ended::Precise;
        }
        if lines.len() >= look {
            look += look / 2;
        }
        let wanted = BATCH.min((settings.evaluations - spent) / MOST_STEPS);
        if wanted == 0 {
            break Ended::UsedUp;
        }
        let before = lines.len();
        let one = |number: usize| {
            let number = (before + number) as u64;
            Line::draw(variables, point, task, &draws, number).transpose()
        };
        let drawn: Vec<Line> = each(wanted, settings.threads, &one).into_iter().collect::<Result<_, _>>()?;
        spent += drawn.iter().map(|line| line.spent).sum::<usize>();
        lines.extend(drawn);
        if lines.len() < before + wanted {
            break Ended::Stopped;
        }
    };
    if lines.len() < ENOUGH {
        return Err(match ended {
            Ended::Stopped => EvidenceError::Stopped,
            Ended::Precise | Ended::UsedUp => {
                EvidenceError::NotConverged { what: "importance sampling", limit: settings.evaluations }
            }
        });
    }
    let untold = lines.iter().map(|line| line.untold).sum();
    let summed = Summed::of(&lines)?;
    if summed.probability <= 0.0 {
        return Ok(Estimate { evaluations: spent, untold, ended, ..beyond(None, false) });
    }
    Ok(Estimate {
        probability: finite("failure probability", summed.probability)?,
        interval: summed.interval,
        method: Method::ImportanceSampling,
        ended,
        design_point: None,
        evaluations: spent,
        untold,
    })
}

/// What one line says of the chance of failure.
#[derive(Debug, Clone, Copy)]
struct Line {
    weight: f64,
    /// Its chance at the least, at the most, and the best guess, if there is one.
    low: f64,
    high: f64,
    middle: Option<f64>,
    /// Evaluations, and those without an answer.
    spent: usize,
    untold: usize,
}

impl Line {
    /// The line of a number; nothing where it was stopped.
    fn draw(
        variables: &Variables,
        point: &DesignPoint,
        task: &Task<'_>,
        draws: &Draws,
        number: u64,
    ) -> Result<Option<Self>, EvidenceError> {
        let z = draws.normals(number, variables.count())?;
        let along = dot(&z, &point.toward);
        let foot: Vec<f64> = z.iter().zip(&point.toward).map(|(z, t)| WIDER * (z - along * t)).collect();
        let weight = libm::exp(-0.5 * dot(&foot, &foot) * (1.0 - 1.0 / (WIDER * WIDER)));
        let (mut safe, mut failed): (Option<Stop>, Option<Stop>) = (None, None);
        let (mut c, mut untold) = (point.index.clamp(-FAR, FAR), 0);
        for spent in 1..=MOST_STEPS {
            if (task.stopped)() {
                return Ok(None);
            }
            let u: Vec<f64> = foot.iter().zip(&point.toward).map(|(foot, t)| foot + c * t).collect();
            let Some(g) = at(variables, task, &u)? else {
                // Nearer to the origin there may be an answer, and with it at least an end to what is possible.
                untold += 1;
                c = (c - BACK).max(-FAR);
                continue;
            };
            let here = Stop { c, g };
            let last = if g < 0.0 { failed.replace(here).or(safe) } else { safe.replace(here).or(failed) };
            if g >= 0.0 && c >= FAR {
                return Ok(Some(Self {
                    weight,
                    low: 0.0,
                    high: chance(FAR),
                    middle: Some(0.0),
                    spent,
                    untold,
                }));
            }
            if g < 0.0 && c <= -FAR {
                return Ok(Some(Self {
                    weight,
                    low: chance(-FAR),
                    high: 1.0,
                    middle: Some(1.0),
                    spent,
                    untold,
                }));
            }
            let next = next(here, last, safe, failed, point.fall).clamp(-FAR, FAR);
            let step = (next - c).abs();
            if step <= LAST_STEP {
                // A tenth of a step is what the slope may be wrong; a thousandth of a deviation is for rounding.
                let open = 0.1 * step + 1e-3;
                let (low, high, middle) = (chance(next + open), chance(next - open), Some(chance(next)));
                return Ok(Some(Self { weight, low, high, middle, spent, untold }));
            }
            c = next;
        }
        // The crossing is not pinned down: it is known between two stops, or to lie beyond one.
        let low = failed.map_or(0.0, |failed| chance(failed.c));
        let high = safe.map_or(1.0, |safe| chance(safe.c));
        let middle = (safe.is_some() && failed.is_some()).then_some(0.5 * (low + high));
        Ok(Some(Self { weight, low, high, middle, spent: MOST_STEPS, untold }))
    }
}

/// A place on a line, and how far from the limit state it is.
#[derive(Debug, Clone, Copy)]
struct Stop {
    c: f64,
    g: f64,
}

/// The chance that lies beyond a place on a line.
fn chance(c: f64) -> f64 {
    normal::cdf(-c)
}

/// The next place to look at: by the secant where it points into the bracket, else by halving it; without a bracket by
/// the slope, no farther than two standard deviations.
fn next(here: Stop, last: Option<Stop>, safe: Option<Stop>, failed: Option<Stop>, fall: f64) -> f64 {
    const STRIDE: f64 = 2.0;
    // Stops close to each other tell a slope only of a limit state without noise.
    const APART: f64 = 0.2;
    let last = last.filter(|last| (here.c - last.c).abs() >= APART);
    let secant = last.map(|last| (last.g - here.g) / (here.c - last.c)).filter(|slope| *slope > 0.1 * fall);
    let to = here.c + here.g / secant.unwrap_or(fall);
    match (safe, failed) {
        (Some(safe), Some(failed)) if safe.c < failed.c => {
            if to > safe.c && to < failed.c {
                to
            } else {
                0.5 * (safe.c + failed.c)
            }
        }
        _ => to.clamp(here.c - STRIDE, here.c + STRIDE),
    }
}

/// Lines taken together.
struct Summed {
    probability: f64,
    interval: [f64; 2],
    /// How many lines carry the sum: as many equal ones would scatter as it does.
    carrying: f64,
}

impl Summed {
    fn of(lines: &[Line]) -> Result<Self, EvidenceError> {
        let told: Vec<(f64, f64)> =
            lines.iter().filter_map(|line| Some((line.weight, line.middle?))).collect();
        let n = count(told.len());
        if n < (1.0 - MOST_UNTOLD) * count(lines.len()) || told.len() < 2 {
            return Err(EvidenceError::Untold { untold: lines.len() - told.len(), drawn: lines.len() });
        }
        let weights: f64 = told.iter().map(|(weight, _)| weight).sum();
        let sum: f64 = told.iter().map(|(weight, p)| weight * p).sum();
        let mean = sum / weights;
        if mean <= 0.0 {
            return Ok(Self { probability: 0.0, interval: [0.0, chance(FAR)], carrying: 1.0 });
        }
        let squares: f64 = told.iter().map(|(weight, p)| weight * (p - mean)).map(|r| r * r).sum();
        let error = (squares * n / (n - 1.0)).sqrt() / weights;
        let parts: f64 = told.iter().map(|(weight, p)| weight * p).map(|part| part * part).sum();
        let carrying = sum * sum / parts;
        let spread = libm::exp(student::quantile(LEVEL, f64::max(carrying - 1.0, 1.0))? * error / mean);
        let all: f64 = lines.iter().map(|line| line.weight).sum();
        let end = |of: fn(&Line) -> f64| lines.iter().map(|line| line.weight * of(line)).sum::<f64>() / all;
        Ok(Self {
            probability: mean,
            interval: [end(|line| line.low) / spread, (end(|line| line.high) * spread).min(1.0)],
            carrying,
        })
    }

    /// Whether the interval is narrow enough, and rests on enough lines.
    fn is_precise(&self, precision: f64) -> bool {
        let [low, high] = self.interval;
        let wide = 1.0 + if high < RARE { 3.0 * precision } else { precision };
        high <= wide * wide * low && self.carrying >= ENOUGH_CARRYING
    }
}

#[expect(clippy::cast_precision_loss, reason = "numbers of samples are far below 2⁵²")]
pub(super) fn count(n: usize) -> f64 {
    n as f64
}
