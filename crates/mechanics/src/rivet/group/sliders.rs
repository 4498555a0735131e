//! Rigid-plastic fasteners between two rigid parts: the greatest load they can carry together.

use super::springs::{self, Spring};
use super::symmetric::{Symmetric, add_dyad, dot};
use crate::failure::{self, Failure};

/// A fastener that slips in a plane by `rows · q` in the motion q, and holds with its strength
/// against the direction of the slip.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slider<const M: usize> {
    pub(super) rows: [[f64; M]; 2],
    pub(super) strength: f64,
}

/// A capacity between its two bounds.
#[derive(Debug, Clone)]
pub(super) struct Capacity<const M: usize> {
    /// Forces in equilibrium with this multiple of the load exist within all strengths.
    pub(super) factor: f64,
    /// Beyond this multiple the motion below dissipates less than the load works.
    pub(super) bound: f64,
    /// Those forces.
    pub(super) forces: Vec<[f64; 2]>,
    /// That motion.
    pub(super) motion: [f64; M],
}

/// Relative distance of the bounds at which the search ends.
const TIGHT: f64 = 1e-9;
/// Relative distance of the bounds that is still an answer: rivet strengths are known to 1 in 100.
const LOOSE: f64 = 1e-6;

/// Greatest multiple of a load that sliders carry.
///
/// ```text
/// max λ:  Σ Bᵀ f = λ W,  |f| ≤ s        =        min over q with W·q = 1:  Σ s |B q|
/// ```
///
/// B rows and s strength of each slider, W load, q motion. The right side is convex, with a kink
/// where a slider stands still (the instantaneous centre on a rivet). It is minimised by Newton's
/// method with |u| replaced by √(u² + ε²), and ε is lowered step by step. At each step the forces
/// s B q/√(|B q|² + ε²) obey every strength and are in equilibrium but for the iteration's rest,
/// which is then taken out: so each step gives a lower bound from forces and an upper bound from
/// its motion, and the answer carries both.
pub(super) fn capacity<const M: usize>(
    sliders: &[Slider<M>],
    load: &[f64; M],
    motions: &[&'static str; M],
) -> Result<Capacity<M>, Failure> {
    // By its greatest part first: the square of a small or a great one is no number.
    let peak = load.iter().fold(0.0_f64, |peak, part| peak.max(part.abs()));
    let unit = load.map(|part| part / peak);
    let length = dot(&unit, &unit).sqrt();
    let size = failure::positive("load on the group", peak * length)?;
    let strongest = sliders.iter().map(|slider| slider.strength).fold(0.0, f64::max);
    // Unit load and unit strength: every tolerance below is a plain number.
    let problem = Problem {
        sliders: sliders
            .iter()
            .map(|slider| Slider { strength: slider.strength / strongest, ..*slider })
            .collect(),
        load: unit.map(|part| part / length),
    };
    let springs: Vec<Spring<M>> = problem
        .sliders
        .iter()
        .flat_map(|slider| slider.rows.map(|row| Spring { row, stiffness: slider.strength }))
        .collect();
    let weights = springs::stiffness(&springs, motions)?;
    let mut motion = problem.scaled(&weights.solve(&problem.load, 0.0));
    let mut blur = problem.sliders.iter().map(|slider| norm(slip(slider, &motion))).fold(0.0, f64::max);
    let mut best = Capacity { factor: 0.0, bound: f64::INFINITY, forces: Vec::new(), motion };
    for _ in 0..LEVELS {
        motion = problem.descend(motion, blur);
        let bound = problem.dissipation(&motion, 0.0);
        if bound < best.bound {
            (best.bound, best.motion) = (bound, motion);
        }
        let (factor, forces) = problem.balanced(&motion, blur, &weights);
        if factor > best.factor {
            (best.factor, best.forces) = (factor, forces);
        }
        if best.bound - best.factor <= TIGHT * best.bound {
            break;
        }
        blur *= 0.2;
    }
    let gap = (best.bound - best.factor) / best.bound;
    if gap.is_nan() || gap > LOOSE {
        return Err(Failure::NotConverged {
            what: "plastic capacity of the group",
            iterations: LEVELS,
            residual: gap,
            tolerance: LOOSE,
        });
    }
    let scale = failure::number("plastic capacity", strongest / size)?;
    best.factor = failure::number("plastic capacity", best.factor * scale)?;
    best.bound = failure::number("plastic capacity", best.bound * scale)?;
    best.forces.iter_mut().flatten().for_each(|force| *force *= strongest);
    Ok(best)
}

/// ε falls to 0.2¹⁵ = 3e-11 of the greatest slip: there the bounds are as near as rounding lets them.
const LEVELS: u32 = 15;

struct Problem<const M: usize> {
    sliders: Vec<Slider<M>>,
    load: [f64; M],
}

fn slip<const M: usize>(slider: &Slider<M>, motion: &[f64; M]) -> [f64; 2] {
    [dot(&slider.rows[0], motion), dot(&slider.rows[1], motion)]
}

fn norm(u: [f64; 2]) -> f64 {
    (u[0] * u[0] + u[1] * u[1]).sqrt()
}

impl<const M: usize> Problem<M> {
    /// The motion at the size at which the load works 1 on it.
    fn scaled(&self, motion: &[f64; M]) -> [f64; M] {
        let work = dot(&self.load, motion);
        motion.map(|part| part / work)
    }

    /// Σ s √(|B q|² + ε²).
    fn dissipation(&self, motion: &[f64; M], blur: f64) -> f64 {
        self.sliders
            .iter()
            .map(|slider| {
                let [a, b] = slip(slider, motion);
                slider.strength * (a * a + b * b + blur * blur).sqrt()
            })
            .sum()
    }

    /// Newton's method for the least dissipation, from a motion, at a given ε.
    fn descend(&self, mut motion: [f64; M], blur: f64) -> [f64; M] {
        for _ in 0..60 {
            let value = self.dissipation(&motion, blur);
            let (slope, step) = self.step(&motion, blur);
            // As low as rounding lets it come.
            if slope.is_nan() || slope >= -1e-18 * value {
                break;
            }
            let mut length = 1.0;
            let next = loop {
                let trial: [f64; M] = std::array::from_fn(|k| motion[k] + length * step[k]);
                if self.dissipation(&trial, blur) <= value + 1e-4 * length * slope {
                    break Some(trial);
                }
                length *= 0.5;
                if length < 1e-9 {
                    break None;
                }
            };
            let Some(trial) = next else { break };
            motion = self.scaled(&trial);
        }
        motion
    }

    /// Newton's step within W·q = 1, and the slope of the dissipation along it.
    fn step(&self, motion: &[f64; M], blur: f64) -> (f64, [f64; M]) {
        let mut gradient = [0.0; M];
        let mut hessian = [[0.0; M]; M];
        for slider in &self.sliders {
            let rows = slider.rows.map(|row| self.across(&row));
            let [a, b] = slip(slider, motion);
            let root = (a * a + b * b + blur * blur).sqrt();
            let along: [f64; M] = std::array::from_fn(|k| (rows[0][k] * a + rows[1][k] * b) / root);
            for (total, part) in gradient.iter_mut().zip(along) {
                *total += slider.strength * part;
            }
            let weight = slider.strength / root;
            for row in &rows {
                add_dyad(&mut hessian, row, weight);
            }
            add_dyad(&mut hessian, &along, -weight);
        }
        let trace: f64 = (0..M).map(|k| hessian[k][k]).sum();
        // The load's own direction is closed to the step: any stiffness will do there.
        add_dyad(&mut hessian, &self.load, trace);
        let parts = Symmetric::new(hessian);
        let downhill = gradient.map(|part| -part);
        let step = self.across(&parts.solve(&downhill, f64::EPSILON * parts.greatest()));
        (dot(&gradient, &step), step)
    }

    /// What of a vector is normal to the load.
    fn across(&self, vector: &[f64; M]) -> [f64; M] {
        let along = dot(&self.load, vector);
        std::array::from_fn(|k| vector[k] - along * self.load[k])
    }

    /// Forces near those of a motion, in equilibrium with a multiple of the load and as great as
    /// the strengths allow, with that multiple.
    fn balanced(&self, motion: &[f64; M], blur: f64, weights: &Symmetric<M>) -> (f64, Vec<[f64; 2]>) {
        let mut forces: Vec<[f64; 2]> = self
            .sliders
            .iter()
            .map(|slider| {
                let [a, b] = slip(slider, motion);
                let root = (a * a + b * b + blur * blur).sqrt();
                [slider.strength * a / root, slider.strength * b / root]
            })
            .collect();
        let mut factor = 0.0;
        // The second pass takes out the rounding of the first.
        for _ in 0..2 {
            let mut sum = [0.0; M];
            for (slider, force) in self.sliders.iter().zip(&forces) {
                for (total, (along, across)) in sum.iter_mut().zip(slider.rows[0].iter().zip(&slider.rows[1]))
                {
                    *total += along * force[0] + across * force[1];
                }
            }
            factor = dot(&self.load, &sum);
            let rest: [f64; M] = std::array::from_fn(|k| factor * self.load[k] - sum[k]);
            let spread = weights.solve(&rest, 0.0);
            for (slider, force) in self.sliders.iter().zip(&mut forces) {
                let share = slip(slider, &spread);
                force[0] += slider.strength * share[0];
                force[1] += slider.strength * share[1];
            }
        }
        let worst = self
            .sliders
            .iter()
            .zip(&forces)
            .map(|(slider, force)| norm(*force) / slider.strength)
            .fold(0.0, f64::max);
        forces.iter_mut().flatten().for_each(|force| *force /= worst);
        (factor / worst, forces)
    }
}
