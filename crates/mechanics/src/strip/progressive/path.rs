//! The way through the peak and beyond: one point of the bond leads, the load follows.
//!
//! A softening bond has loads that fall, and displacements that go back. What goes on growing is how far
//! the points that give are strained. So each step moves one of them by a given amount, the one that moves
//! most, and finds the load factor that belongs to it:
//!
//! ```text
//! K du_r = r        K du_f = f        du = du_r + dλ du_f        a · (u + du − u_last) = Δκ
//! ```
//!
//! r out of balance, f loads at the factor 1, a how the leading point's κ grows with the motions. After the
//! local control of May and Duan 1997 and of Alfano and Crisfield 2003 (both from memory).

use super::law::Law;
use super::outcome::{End, Outcome};
use super::record::Recorder;
use super::system::System;

/// How far to go, and how finely.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Control {
    /// The most that the leading point moves in one step, as a share of its way from giving to spent.
    pub step: f64,
    /// The most that the load is to change in one step, as a share of the greatest so far, once something gives.
    pub load_step: f64,
    /// How far the load may come out of a step from where it was foreseen, as a share of the greatest so
    /// far. What a parabola between three balances misses of a peak is a small part of that.
    pub bend: f64,
    /// Balances allowed.
    pub most_steps: u32,
    /// Solutions allowed for one balance.
    pub most_solutions: u32,
    /// Whether to go on until nothing holds. Without, the way ends once the load has fallen to 0.9 of its
    /// greatest and the rivets alone cannot take it higher.
    pub to_the_end: bool,
}

impl Default for Control {
    fn default() -> Self {
        Self {
            step: 0.1,
            load_step: 0.08,
            bend: 0.01,
            most_steps: 600,
            most_solutions: 14,
            to_the_end: false,
        }
    }
}

/// A balance is found when the energy of the last correction is this share of the work of the load.
const BALANCED: f64 = 1e-9;

/// And when it moved the load by no more than this share: where hardly anything holds, energies say little.
const SETTLED: f64 = 1e-5;

/// Corrections whose energy is not below this share of the last but one hunt, and only a part of them is taken.
const HUNTS: f64 = 0.5;
const PART: f64 = 0.5;

/// Smaller moves of a leader's κ are not tried. Against κ = 1, where it begins to give, and not against its whole way,
/// which a very tough layer makes very long.
const LEAST_MOVE: f64 = 1e-6;

/// The load has fallen: the peak is passed.
const FALLEN: f64 = 0.9;

/// A whole joint may bend its way this many times more: no peak hides there.
const WHOLE: f64 = 5.0;

/// A step that is taken without foresight moves its leader by this share of its way at most.
const BLIND: f64 = 5e-3;

/// Who leads a step.
#[derive(Debug, Clone, Copy)]
enum Leader {
    Point { bond: usize, g: usize },
    Row(usize),
}

/// The leader, how its κ grows with its slips, where it starts and by how much it is to move.
#[derive(Debug, Clone, Copy)]
struct Lead {
    leader: Leader,
    growth: [f64; 3],
    start: [f64; 3],
    amount: f64,
    /// The way of the leader from giving to spent.
    scale: f64,
    /// Change of the load factor foreseen.
    change: f64,
    /// Whether nothing gives yet.
    whole: bool,
}

impl Lead {
    /// Shortens the step so that the load is not foreseen to change by more than `most`, if that is any load.
    fn shorten(&mut self, most: f64) {
        if most > 0.0 && self.change.abs() > most {
            self.take(most / self.change.abs());
        }
    }

    /// Takes a share of the step.
    fn take(&mut self, share: f64) {
        self.amount *= share;
        self.change *= share;
    }
}

/// Loads the joint until it fails; the system is prepared and at rest.
pub(super) fn walk<const N: usize, const M: usize>(
    system: &mut System<N, M>,
    control: &Control,
    heated: bool,
    recorder: &mut Recorder,
    out: &mut Outcome,
) {
    *out = Outcome::default();
    if heated && !settle(system, control, out) {
        out.end = End::Stalled { factor: 0.0, residual: system.correction_energy };
        return;
    }
    system.weigh();
    recorder.record(system, 0.0, out);
    if system.foresee().is_err() {
        out.end = End::Stalled { factor: 0.0, residual: f64::INFINITY };
        return;
    }
    let mut step = control.step;
    while out.effort.steps < control.most_steps {
        let Some(mut lead) = lead(system, step) else {
            out.end = if recorder.nothing_holds(system) { End::Spent } else { End::NothingGives };
            break;
        };
        if !lead.whole {
            lead.shorten(control.load_step * recorder.greatest());
            step = f64::min(step, lead.amount / lead.scale);
            lead.take(share_to_last(system, &lead));
        }
        let solutions = balance(system, control, &lead, out);
        let greatest = f64::max(recorder.greatest(), system.now.factor.abs());
        let bend = (system.now.factor - system.last.factor - lead.change).abs()
            / (if lead.whole { WHOLE } else { 1.0 } * control.bend * greatest);
        let strained = f64::max(system.adherend_state(0).1, system.adherend_state(1).1);
        // What heat alone has made give foresees nothing: the first step shows how it goes on, and is kept small.
        let blind = system.last.factor.abs() <= 0.0 && lead.amount <= BLIND * lead.scale;
        let too_far = (bend > 1.0 && !blind)
            || strained > 1.0 + control.bend
            || moved_most(system) > 3.0 * led(system, &lead);
        let Some(solutions) = solutions.filter(|_| !too_far) else {
            out.effort.rejected += 1;
            step *=
                if solutions.is_some() { f64::clamp(0.8 * libm::sqrt(1.0 / bend), 0.2, 0.5) } else { 0.3 };
            system.return_to_last();
            if lead.amount <= LEAST_MOVE {
                out.end = End::Stalled { factor: system.last.factor, residual: system.correction_energy };
                break;
            }
            continue;
        };
        out.effort.steps += 1;
        let by_bend = if bend > 0.0 { f64::clamp(0.8 * libm::sqrt(1.0 / bend), 0.5, 3.0) } else { 3.0 };
        let by_effort = if solutions <= 5 { 3.0 } else { 5.0 / f64::from(solutions) };
        step = f64::min(step * f64::min(by_bend, by_effort), control.step);
        recorder.record(system, lead.amount / lead.scale, out);
        let end = recorder.ended(system, control.to_the_end, FALLEN, out);
        system.keep_now();
        if let Some(end) = end {
            out.end = end;
            break;
        }
    }
    if out.effort.steps >= control.most_steps && matches!(out.end, End::LimitReached { .. }) {
        out.end = End::LimitReached { steps: out.effort.steps };
    }
    recorder.conclude(out);
}

/// Balance under the temperature alone.
fn settle<const N: usize, const M: usize>(
    system: &mut System<N, M>,
    control: &Control,
    out: &mut Outcome,
) -> bool {
    let mut first = None;
    for _ in 0..control.most_solutions {
        system.weigh();
        if system.solve().is_err() {
            return false;
        }
        out.effort.solutions += 1;
        let energy = system.correction_energy;
        let reference = *first.get_or_insert(energy);
        system.advance(0.0, 1.0);
        if energy <= BALANCED * reference {
            system.weigh();
            system.keep_now();
            return true;
        }
    }
    false
}

/// Chooses who leads from where the strip stands.
fn lead<const N: usize, const M: usize>(system: &System<N, M>, step: f64) -> Option<Lead> {
    giving(system, step, |point| point.gives)
        .or_else(|| giving(system, step, |_| true))
        .or_else(|| whole(system, step))
}

/// What share of a step may be taken before a point of a law that ends at its last strain is foreseen there: it is met,
/// not passed, whoever leads.
fn share_to_last<const N: usize, const M: usize>(system: &System<N, M>, lead: &Lead) -> f64 {
    let Law::Plastic(plastic) = system.law else { return 1.0 };
    let mut share: f64 = 1.0;
    for (bond, points) in system.last.points.iter().enumerate() {
        for (g, point) in points.iter().enumerate() {
            let gauss = &system.gauss[bond][g];
            if gauss.bonded && point.onset_share > 0.0 {
                let last = plastic.last(gauss.stiffness);
                let growth = system.law.growth(gauss.stiffness, point);
                let most = f64::max(last - point.kappa, 0.0) + 1e-9 * last;
                let foreseen = lead.change * along(&growth, &system.moved_slip(bond, g)[1]);
                share = f64::min(share, if foreseen > most { most / foreseen } else { 1.0 });
            }
        }
    }
    share
}

/// Of the points and rivets that give, the one that moves most when the load moves on.
fn giving<const N: usize, const M: usize>(
    system: &System<N, M>,
    step: f64,
    counts: impl Fn(&super::law::Point) -> bool,
) -> Option<Lead> {
    let mut sum = 0.0;
    let mut best: [Option<(f64, Lead)>; 2] = [None, None];
    let mut offer = |rate: f64, weight: f64, leader, growth, start, scale: f64| {
        sum += weight * rate / scale;
        for (side, sign) in [1.0, -1.0].into_iter().enumerate() {
            let measure = sign * rate / scale;
            if measure > best[side].map_or(0.0, |(most, _)| most) {
                let amount = step * scale;
                let lead = Lead { leader, growth, start, amount, scale, change: amount / rate, whole: false };
                best[side] = Some((measure, lead));
            }
        }
    };
    for (bond, points) in system.last.points.iter().enumerate() {
        for (g, point) in points.iter().enumerate() {
            let gauss = &system.gauss[bond][g];
            let last = system.law.last(gauss.stiffness, point);
            if !gauss.bonded || point.onset_share <= 0.0 || point.keep <= 0.0 || !counts(point) {
                continue;
            }
            let growth = system.law.growth(gauss.stiffness, point);
            let rate = along(&growth, &system.moved_slip(bond, g)[1]);
            offer(rate, gauss.length_mm, Leader::Point { bond, g }, growth, point.slip, last);
        }
    }
    for (index, (placed, held)) in system.rows.iter().zip(&system.last.held).enumerate() {
        if held.broken || f64::max(held.kappa[0], held.kappa[1]) < 1.0 {
            continue;
        }
        let (growth, scale) = of_row(&placed.row, held);
        let rate = along(&growth, &system.moved_row(index)[1]);
        let weight = placed.row.shear_n_mm2().recip();
        offer(rate, weight, Leader::Row(index), growth, held.slip, scale);
    }
    // From rest the load grows, though heat may have made give what it relieves.
    let side = usize::from(sum < 0.0 && system.last.factor.abs() > 0.0);
    best[side].map(|(_, lead)| lead)
}

/// Of the points and rivets that are whole, the one that gives first when the load grows; it is taken most
/// of the way, then a little beyond.
fn whole<const N: usize, const M: usize>(system: &System<N, M>, step: f64) -> Option<Lead> {
    const NEAR: f64 = 0.9;
    /// By the usual step, all of it at once.
    const MOST_WHOLE: f64 = 5.0;
    let mut first: Option<(f64, Lead)> = None;
    let mut offer = |kappa: f64, rate: f64, leader, growth, start, scale: f64| {
        if rate <= 0.0 {
            return;
        }
        let beyond = 1.0 + 0.2 * step * f64::max(scale - 1.0, 0.0) + 1e-6;
        let target = if kappa < NEAR - 0.05 { NEAR } else { beyond };
        let amount = f64::max(f64::min(target - kappa, MOST_WHOLE * step), LEAST_MOVE);
        let change = (1.0 - kappa) / rate;
        if first.is_none_or(|(least, _)| change < least) {
            let lead = Lead { leader, growth, start, amount, scale, change: amount / rate, whole: true };
            first = Some((change, lead));
        }
    };
    for (bond, points) in system.last.points.iter().enumerate() {
        for (g, point) in points.iter().enumerate() {
            let gauss = &system.gauss[bond][g];
            if !gauss.bonded || point.onset_share > 0.0 || point.keep < 1.0 {
                continue;
            }
            let moved = system.moved_slip(bond, g)[1];
            let growth = if point.kappa > 1e-9 {
                system.law.growth(gauss.stiffness, point)
            } else {
                // At rest it will grow the way it is about to move.
                let ahead = super::law::Point { slip: moved, ..*point };
                system.law.growth(gauss.stiffness, &ahead)
            };
            let last = system.law.last(gauss.stiffness, point);
            offer(point.kappa, along(&growth, &moved), Leader::Point { bond, g }, growth, point.slip, last);
        }
    }
    for (index, (placed, held)) in system.rows.iter().zip(&system.last.held).enumerate() {
        let kappa = f64::max(held.kappa[0], held.kappa[1]);
        if held.broken || kappa >= 1.0 {
            continue;
        }
        let moved = system.moved_row(index)[1];
        let ahead = super::rivets::Held { slip: moved, ..*held };
        let (growth, scale) = of_row(&placed.row, if kappa > 1e-9 { held } else { &ahead });
        offer(kappa, along(&growth, &moved), Leader::Row(index), growth, held.slip, scale);
    }
    first.map(|(_, lead)| lead)
}

/// How κ of a rivet row grows with its slips, and the κ at which it breaks.
fn of_row(row: &crate::rivet::share::Row, held: &super::rivets::Held) -> ([f64; 3], f64) {
    /// Where no break is known, yielding this many times the slip at the strength is a long way.
    const LONG: f64 = 10.0;
    let way = libm::hypot(held.slip[0], held.slip[1]);
    let per = row.shear_n_mm2() / row.shear_strength_n_mm();
    let turn = if way > 0.0 { [held.slip[0] / way, held.slip[1] / way] } else { [1.0, 0.0] };
    let scale = row.shear.break_mm.map_or(LONG, |last| last * per);
    ([per * turn[0], per * turn[1], 0.0], scale)
}

fn along(growth: &[f64; 3], slip: &[f64; 3]) -> f64 {
    growth.iter().zip(slip).map(|(a, b)| a * b).sum()
}

/// Finds the balance in which the leader has moved as asked. Gives the number of solutions it took.
fn balance<const N: usize, const M: usize>(
    system: &mut System<N, M>,
    control: &Control,
    lead: &Lead,
    out: &mut Outcome,
) -> Option<u32> {
    // The first move is along the load's motions last solved for; what was left out of balance is small.
    system.advance(lead.change, 1.0);
    bend(system, lead);
    let mut first = None;
    // Energies of the corrections before the last and of the last.
    let mut seen = [f64::INFINITY; 2];
    for solutions in 1..=control.most_solutions {
        system.weigh();
        system.solve().ok()?;
        out.effort.solutions += 1;
        let (now, moved) = match lead.leader {
            Leader::Point { bond, g } => (system.now.points[bond][g].slip, system.moved_slip(bond, g)),
            Leader::Row(index) => (system.now.held[index].slip, system.moved_row(index)),
        };
        let gone: [f64; 3] = std::array::from_fn(|i| now[i] - lead.start[i]);
        let lacks = lead.amount - along(&lead.growth, &gone) - along(&lead.growth, &moved[0]);
        let change = lacks / along(&lead.growth, &moved[1]);
        let energy = system.correction_energy;
        if !change.is_finite() || !energy.is_finite() {
            return None;
        }
        let reference = *first.get_or_insert(energy);
        // Points that give in one solution and are relieved in the next may go on so for ever: part of the way then.
        let share = if energy > HUNTS * seen[0] { PART } else { 1.0 };
        seen = [seen[1], energy];
        system.advance(change, share);
        let work = (system.now.factor * system.work_of_load(&system.now)).abs();
        if share >= 1.0 && energy <= BALANCED * work && change.abs() <= SETTLED * system.now.factor.abs() {
            system.follow();
            return Some(solutions);
        }
        if solutions > 3 && energy > 1e4 * f64::max(reference, work) {
            return None;
        }
    }
    None
}

/// Bends the first move by the parabola through the balance before, whose slope at the last is foreseen; not beyond
/// where it means anything.
fn bend<const N: usize, const M: usize>(system: &mut System<N, M>, lead: &Lead) {
    const FARTHEST: f64 = 3.0;
    let came = match lead.leader {
        Leader::Point { bond, g } => system.came_slip(bond, g),
        Leader::Row(index) => system.came_row(index),
    };
    let ratio = lead.amount / along(&lead.growth, &came);
    if ratio > 0.0 && ratio < FARTHEST {
        system.bend_toward(ratio * ratio, lead.change / ratio);
    }
}

/// The most that any point moved in the step that was tried, as a share of its way from giving to spent.
fn moved_most<const N: usize, const M: usize>(system: &System<N, M>) -> f64 {
    let places = (0..system.last.points.len()).flat_map(|bond| (0..3).map(move |g| (bond, g)));
    places.map(|(bond, g)| moved(system, bond, g)).fold(0.0, f64::max)
}

/// How far the leader was to move as such a share. One that begins to give in this step learns its way only then: it
/// hangs on the modes in which it gives.
fn led<const N: usize, const M: usize>(system: &System<N, M>, lead: &Lead) -> f64 {
    let way = match lead.leader {
        Leader::Point { bond, g } => {
            system.law.last(system.gauss[bond][g].stiffness, &system.now.points[bond][g])
        }
        Leader::Row(_) => lead.scale,
    };
    lead.amount / f64::min(way, lead.scale)
}

/// How far a point moved in the step that was tried, as a share of its way from giving to spent.
fn moved<const N: usize, const M: usize>(system: &System<N, M>, bond: usize, g: usize) -> f64 {
    let (was, is) = (&system.last.points[bond][g], &system.now.points[bond][g]);
    let gauss = &system.gauss[bond][g];
    if !gauss.bonded || is.keep <= 0.0 && was.keep <= 0.0 || is.onset_share <= 0.0 {
        return 0.0;
    }
    let last = system.law.last(gauss.stiffness, is);
    (f64::min(is.kappa, last) - f64::max(f64::min(was.kappa, last), 1.0)) / last
}
