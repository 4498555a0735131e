//! Keeps what happens on the way: balances, events, the peak, and whether the energies agree.

use super::law::Law;
use super::outcome::{End, Event, Moment, Outcome, Place, Side, Spent, Step, What};
use super::system::System;

/// What has been seen so far.
#[derive(Debug, Clone, Default)]
pub(super) struct Recorder {
    /// How far the leaders have come, summed, at each step.
    way: Vec<f64>,
    /// First-seen flags: bond gives and is spent, in the left and the right half.
    gives: [bool; 2],
    spent: [bool; 2],
    gone: bool,
    rows_yield: Vec<bool>,
    rows_break: Vec<bool>,
    adherends: [[bool; 2]; 2],
    /// Greatest κ at the last balance.
    kappa: f64,
    /// Work of the load at the factor 1, and stored energy at the beginning.
    moved_n: f64,
    stored_n: f64,
    greatest: f64,
    axial_n_mm: f64,
}

/// Once the load has fallen by this share, the peak is known though the way went no further.
const CLEARLY_FALLEN: f64 = 0.95;

impl Recorder {
    pub(super) fn new(axial_n_mm: f64, rows: usize) -> Self {
        Self { rows_yield: vec![false; rows], rows_break: vec![false; rows], axial_n_mm, ..Self::default() }
    }

    /// The greatest load factor so far.
    pub(super) fn greatest(&self) -> f64 {
        self.greatest
    }

    /// Takes down the balance at `now`; the points before it are those of `last`.
    pub(super) fn record<const N: usize, const M: usize>(
        &mut self,
        system: &mut System<N, M>,
        gone: f64,
        out: &mut Outcome,
    ) {
        let at = Moment { factor: system.now.factor, displacement_mm: system.end_displacement_mm() };
        let [mut stored, adherends_n] = system.adherend_energy();
        let mut step = Step { at, spent: Spent { adherends_n, ..Spent::default() }, ..Step::default() };
        for (points, gauss) in system.now.points.iter().zip(&system.gauss) {
            for (point, gauss) in points.iter().zip(gauss) {
                let length = gauss.length_mm;
                if !gauss.bonded {
                    stored += 0.5 * length * point.traction[2] * point.traction[2] / gauss.stiffness.opening;
                    continue;
                }
                let [opening, shear] = point.spent();
                step.spent.opening_n += length * opening;
                step.spent.shear_n += length * shear;
                let stays = [point.stays[0], point.stays[1], 0.0];
                let back: f64 = (0..3).map(|i| point.traction[i] * (point.slip[i] - stays[i])).sum();
                stored += 0.5 * length * back;
                step.damaged_mm += if point.onset_share > 0.0 { length } else { 0.0 };
                step.lost_mm += if point.keep <= 0.0 { length } else { 0.0 };
            }
        }
        let mut rivets = 0.0;
        for (placed, held) in system.rows.iter().zip(&system.now.held) {
            let spent = held.spent(&placed.row);
            step.spent.rivets_n += spent;
            stored += held.work_n_mm - spent;
            rivets += held.force[0];
        }
        let load = at.factor * self.axial_n_mm;
        step.rivet_share = if load == 0.0 { 0.0 } else { rivets / load };
        step.stored_n = stored;
        let moved = system.work_of_load(&system.now);
        match out.steps.last() {
            Some(last) => {
                step.work_n = last.work_n + 0.5 * (last.at.factor + at.factor) * (moved - self.moved_n);
            }
            None => self.stored_n = stored,
        }
        self.moved_n = moved;
        self.way.push(self.way.last().copied().unwrap_or(0.0) + gone);
        self.events(system, at, out);
        if out.steps.is_empty() || at.factor > self.greatest {
            out.peak_step = out.steps.len();
            self.greatest = f64::max(at.factor, 0.0);
            bond(system, &mut out.at_peak);
        }
        out.steps.push(step);
    }

    fn events<const N: usize, const M: usize>(
        &mut self,
        system: &System<N, M>,
        at: Moment,
        out: &mut Outcome,
    ) {
        let step = out.steps.len();
        let mut say = |what| out.events.push(Event { what, at, step });
        let middle = 0.5 * system.x_mm[system.right_overlap_node()];
        let mut kappa: f64 = 0.0;
        let mut left_over = false;
        let mut bonded = false;
        for (points, gauss) in system.now.points.iter().zip(&system.gauss) {
            for (point, gauss) in points.iter().zip(gauss).filter(|(_, gauss)| gauss.bonded) {
                bonded = true;
                let half = usize::from(gauss.x_mm > middle);
                kappa = f64::max(kappa, point.kappa);
                left_over |= point.keep > 0.0;
                if point.onset_share > 0.0 && !std::mem::replace(&mut self.gives[half], true) {
                    say(What::BondGives { x_mm: gauss.x_mm });
                }
                if point.keep <= 0.0 && !std::mem::replace(&mut self.spent[half], true) {
                    say(What::BondSpent { x_mm: gauss.x_mm });
                }
            }
        }
        if bonded && !left_over && !std::mem::replace(&mut self.gone, true) {
            say(What::BondGone);
        }
        for (row, held) in system.now.held.iter().enumerate() {
            if held.kappa.iter().any(|kappa| *kappa >= 1.0)
                && !std::mem::replace(&mut self.rows_yield[row], true)
            {
                say(What::RowYields { row });
            }
            if held.broken && !std::mem::replace(&mut self.rows_break[row], true) {
                say(What::RowBreaks { row });
            }
        }
        for (adherend, side) in [Side::Upper, Side::Lower].into_iter().enumerate() {
            let (yields, strained) = system.adherend_state(adherend);
            if yields && !std::mem::replace(&mut self.adherends[adherend][0], true) {
                say(What::AdherendYields(side));
            }
            if strained >= 1.0 && !std::mem::replace(&mut self.adherends[adherend][1], true) {
                say(What::AdherendBreaks(side));
            }
        }
        if out.onset.is_none() && kappa >= 1.0 {
            out.onset = Some(onset(out.steps.last().map(|step| step.at), self.kappa, at, kappa));
        }
        self.kappa = kappa;
    }

    /// Whether the way is at its end.
    pub(super) fn ended<const N: usize, const M: usize>(
        &self,
        system: &System<N, M>,
        to_the_end: bool,
        fallen: f64,
        out: &Outcome,
    ) -> Option<End> {
        if self.adherends.iter().any(|adherend| adherend[1]) {
            return Some(End::AdherendBreaks);
        }
        if let Law::Plastic(_) = system.law {
            for (points, gauss) in system.now.points.iter().zip(&system.gauss) {
                for (point, gauss) in points.iter().zip(gauss) {
                    if gauss.bonded && point.kappa >= system.law.last(gauss.stiffness, point) {
                        return Some(End::BondBreaks);
                    }
                }
            }
        }
        if self.nothing_holds(system) {
            return Some(End::Spent);
        }
        let now = out.steps.last().map_or(0.0, |step| step.at.factor);
        let least = if to_the_end { 1e-3 } else { fallen };
        let holds: f64 = system
            .rows
            .iter()
            .zip(&system.now.held)
            .filter(|(_, held)| !held.broken)
            .map(|(placed, _)| placed.row.shear_strength_n_mm())
            .sum();
        let may_rise = holds > self.greatest * self.axial_n_mm.abs() || (to_the_end && holds > 0.0);
        (now < least * self.greatest && !may_rise).then_some(End::PastPeak)
    }

    /// Whether the bond is gone, or never was, and every rivet has let go.
    pub(super) fn nothing_holds<const N: usize, const M: usize>(&self, system: &System<N, M>) -> bool {
        let bonded = system.gauss.iter().flatten().any(|gauss| gauss.bonded);
        (self.gone || !bonded) && system.now.held.iter().all(|held| held.broken)
    }

    /// Onset, peak and energies once the way is done.
    pub(super) fn conclude(&self, out: &mut Outcome) {
        let last = out.steps.last().map_or(0.0, |step| step.at.factor);
        let fell = self.rows_yield.is_empty() && last < CLEARLY_FALLEN * self.greatest;
        if fell && matches!(out.end, End::Stalled { .. } | End::LimitReached { .. }) {
            out.end = End::PastPeak;
        }
        let known = matches!(out.end, End::PastPeak | End::Spent | End::BondBreaks | End::AdherendBreaks);
        out.capacity = known.then(|| self.peak(out)).flatten();
        let most = out.steps.iter().map(|step| step.work_n.abs()).fold(0.0, f64::max);
        let error = |step: &Step| (step.work_n - (step.stored_n - self.stored_n) - step.spent.sum_n()).abs();
        let worst = out.steps.iter().map(error).fold(0.0, f64::max);
        out.energy_error = if most > 0.0 { worst / most } else { 0.0 };
    }

    /// The greatest load: the top of the parabola through the greatest balance and its neighbours.
    fn peak(&self, out: &Outcome) -> Option<Moment> {
        let best = (0..out.steps.len())
            .max_by(|a, b| out.steps[*a].at.factor.total_cmp(&out.steps[*b].at.factor))?;
        let top = out.steps[best].at;
        let (Some(before), Some(after)) = (best.checked_sub(1), out.steps.get(best + 1)) else {
            return Some(top);
        };
        let x = [self.way[before] - self.way[best], self.way[best + 1] - self.way[best]];
        let y = [out.steps[before].at.factor - top.factor, after.at.factor - top.factor];
        // y = a x² + b x through both neighbours.
        let b = (y[0] * x[1] * x[1] - y[1] * x[0] * x[0]) / (x[0] * x[1] * (x[1] - x[0]));
        let a = (y[1] * x[0] - y[0] * x[1]) / (x[0] * x[1] * (x[1] - x[0]));
        let rise = -b * b / (4.0 * a);
        // A kink is no parabola: never more than half of the lesser fall beside it.
        let most = -0.5 * f64::max(y[0], y[1]);
        let factor = if a < 0.0 && rise > 0.0 { top.factor + f64::min(rise, most) } else { top.factor };
        Some(Moment { factor, ..top })
    }
}

/// Where κ passed 1 between two balances.
fn onset(before: Option<Moment>, kappa_before: f64, at: Moment, kappa: f64) -> Moment {
    let Some(before) = before else { return at };
    let share = (1.0 - kappa_before) / (kappa - kappa_before);
    let between = |a: f64, b: f64| a + share * (b - a);
    Moment {
        factor: between(before.factor, at.factor),
        displacement_mm: between(before.displacement_mm, at.displacement_mm),
    }
}

fn bond<const N: usize, const M: usize>(system: &System<N, M>, places: &mut Vec<Place>) {
    places.clear();
    for (points, gauss) in system.now.points.iter().zip(&system.gauss) {
        for (point, gauss) in points.iter().zip(gauss) {
            let damage = match system.law {
                _ if !gauss.bonded => 1.0,
                Law::Cohesive(_) => 1.0 - point.keep,
                Law::Plastic(_) => {
                    let last = system.law.last(gauss.stiffness, point);
                    f64::clamp((point.kappa - 1.0) / (last - 1.0), 0.0, 1.0)
                }
            };
            let [shear_mpa, across_mpa, peel_mpa] = point.traction;
            places.push(Place { x_mm: gauss.x_mm, shear_mpa, across_mpa, peel_mpa, damage });
        }
    }
}
