//! The point of the limit state nearest to the origin.

use super::{Settings, Task, Variables, evaluate};
use crate::EvidenceError;
use crate::error::finite;

/// Half the span of a difference quotient, in standard deviations: wide enough for a limit state that is only
/// known to two or three digits, narrow enough for one that bends, of which a central difference misses the third order.
const SPAN: f64 = 0.25;

/// Slopes that are taken at most.
const LIMIT: usize = 6;

/// Lengths of a step that are tried at most.
const TRIES: usize = 6;

/// Standard deviations beyond which the limit state is not looked for: Φ(−8) = 6e-16.
pub const FAR: f64 = 8.0;

/// How near to the point the search ends, in standard deviations. What is sampled around it does not care, and at three
/// deviations and more the shares of what matters change by less than 7 % of the whole.
const NEAR: f64 = 0.2;

/// Where failure is most likely.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignPoint {
    /// The point in the space of independent standard normal U.
    pub u: Vec<f64>,
    /// The direction in which the limit state is approached fastest there, of length 1.
    pub toward: Vec<f64>,
    /// How fast, per standard deviation.
    pub fall: f64,
    /// How far along the direction the limit state stands, to first order; negative where the origin itself has
    /// failed: reliability index β.
    pub index: f64,
    /// Share of each quantity in the distance, summing to 1: α² of independent quantities.
    pub shares: Vec<f64>,
    /// Whether the search settled. Where it did not, the point is where it came to rest.
    pub settled: bool,
}

/// What a search came to.
pub(super) enum Nearest {
    /// A point, or a good guess at it.
    Point { point: DesignPoint, spent: usize, untold: usize },
    /// Farther away than [`FAR`]; whether what lies within fails.
    Beyond { point: DesignPoint, fails: bool, spent: usize, untold: usize },
    /// The limit state has no slope at the origin, or cannot be told there.
    Level { spent: usize },
}

/// Searches the design point by the method of Hasofer and Lind 1974 and Rackwitz and Fiessler 1978 with the line
/// search of Zhang and Der Kiureghian 1995 (all from memory).
///
/// ```text
/// u' = ∇g (∇g·u − g)/|∇g|²          merit ½|u|² + c |g|,  c > |u|/|∇g|
/// ```
///
/// At most half of the evaluations allowed are used.
///
/// # Errors
///
/// [`EvidenceError::NotConverged`] where the evaluations allowed do not reach for one slope,
/// [`EvidenceError::Stopped`].
pub(super) fn search(
    variables: &Variables,
    settings: &Settings,
    task: &Task<'_>,
) -> Result<Nearest, EvidenceError> {
    let mut walk = Walk { variables, settings, task, spent: 0, untold: 0 };
    let allowed = settings.evaluations / 2;
    let slope_costs = 2 * walk.moving().count();
    if allowed <= slope_costs + TRIES {
        return Err(EvidenceError::NotConverged { what: "search of the design point", limit: allowed });
    }
    let mut u = vec![0.0; variables.count()];
    let Some(mut g) = walk.one(&u)? else { return Ok(Nearest::Level { spent: walk.spent }) };
    let at_origin = g;
    let mut steepest = 0.0_f64;
    let mut best: Option<DesignPoint> = None;
    for _ in 0..LIMIT {
        if walk.spent + slope_costs + TRIES > allowed {
            break;
        }
        let slope = walk.slope(&u, g)?;
        let fall = dot(&slope, &slope).sqrt();
        steepest = steepest.max(fall);
        if fall <= 1e-12 * (at_origin.abs() + steepest) {
            break;
        }
        let mut point = variables.point(&u, &slope, g)?;
        let step: Vec<f64> = point.toward.iter().zip(&u).map(|(t, u)| point.index * t - u).collect();
        point.settled = dot(&step, &step).sqrt() < NEAR;
        let (settled, index) = (point.settled, point.index);
        let fails = at_origin < 0.0;
        if (if fails { -index } else { index }) >= FAR && dot(&u, &u).sqrt() >= FAR - NEAR {
            let Walk { spent, untold, .. } = walk;
            return Ok(Nearest::Beyond { point, fails, spent, untold });
        }
        best = Some(point);
        if settled {
            break;
        }
        match walk.down(&u, g, &step, index, fall)? {
            Some(next) => (u, g) = next,
            None => break,
        }
    }
    let Walk { spent, untold, .. } = walk;
    Ok(match best {
        None => Nearest::Level { spent },
        Some(point) => Nearest::Point { point, spent, untold },
    })
}

/// No farther out than [`FAR`].
fn within(u: Vec<f64>) -> Vec<f64> {
    let length = dot(&u, &u).sqrt();
    if length <= FAR { u } else { u.into_iter().map(|u| u * FAR / length).collect() }
}

/// Evaluations on the way, and how many they were.
struct Walk<'a> {
    variables: &'a Variables,
    settings: &'a Settings,
    task: &'a Task<'a>,
    spent: usize,
    untold: usize,
}

impl Walk<'_> {
    fn all(&mut self, points: &[Vec<f64>]) -> Result<Vec<Option<f64>>, EvidenceError> {
        let answers = evaluate(self.variables, self.settings.threads, self.task, points)?;
        self.spent += answers.len();
        self.untold += answers.iter().filter(|answer| answer.is_none()).count();
        Ok(answers)
    }

    fn one(&mut self, u: &[f64]) -> Result<Option<f64>, EvidenceError> {
        Ok(self.all(&[u.to_vec()])?.into_iter().next().flatten())
    }

    /// The directions of U that move anything.
    fn moving(&self) -> impl Iterator<Item = usize> + use<'_> {
        (0..self.variables.count()).filter(|direction| self.variables.moves(*direction))
    }

    /// Along a step, shortened until the merit falls: where it leads and how far the limit state is there.
    fn down(
        &mut self,
        u: &[f64],
        g: f64,
        step: &[f64],
        index: f64,
        fall: f64,
    ) -> Result<Option<(Vec<f64>, f64)>, EvidenceError> {
        let reach = index.abs().min(FAR).max(dot(u, u).sqrt()).max(1.0);
        let penalty = 2.0 * reach / fall;
        let merit = |u: &[f64], g: f64| 0.5 * dot(u, u) + penalty * g.abs();
        let (before, falls) = (merit(u, g), dot(u, step) - penalty * g.abs());
        let mut length = 1.0;
        for _ in 0..TRIES {
            let next = within(u.iter().zip(step).map(|(u, s)| u + length * s).collect());
            if let Some(there) = self.one(&next)?
                && merit(&next, there) <= before + 1e-4 * length * falls.min(0.0) + 1e-9
            {
                return Ok(Some((next, there)));
            }
            length *= 0.5;
        }
        Ok(None)
    }

    /// The slope by central differences; by one side where the other has no answer, none where both have none.
    fn slope(&mut self, u: &[f64], here: f64) -> Result<Vec<f64>, EvidenceError> {
        let moving: Vec<usize> = self.moving().collect();
        let around = moving.iter().flat_map(|direction| {
            [-SPAN, SPAN].map(|side| {
                let mut moved = u.to_vec();
                moved[*direction] += side;
                moved
            })
        });
        let around: Vec<Vec<f64>> = around.collect();
        let answers = self.all(&around)?;
        let mut slope = vec![0.0; u.len()];
        for (direction, pair) in moving.iter().zip(answers.chunks_exact(2)) {
            slope[*direction] = match (pair[0], pair[1]) {
                (Some(before), Some(after)) => (after - before) / (2.0 * SPAN),
                (Some(before), None) => (here - before) / SPAN,
                (None, Some(after)) => (after - here) / SPAN,
                (None, None) => 0.0,
            };
        }
        Ok(slope)
    }
}

impl Variables {
    /// The design point as it looks from a point with its slope and distance.
    fn point(&self, u: &[f64], slope: &[f64], g: f64) -> Result<DesignPoint, EvidenceError> {
        let fall = dot(slope, slope).sqrt();
        let toward: Vec<f64> = slope.iter().map(|s| -s / fall).collect();
        let index = finite("reliability index", dot(u, &toward) + g / fall)?;
        let shares = self.shares(&toward);
        Ok(DesignPoint { u: u.to_vec(), fall, index, shares, toward, settled: false })
    }
}

pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
