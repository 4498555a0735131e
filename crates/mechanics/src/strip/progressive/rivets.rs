//! A row of rivets in the strip: elastic, then level, then broken.

use crate::rivet::share::{Hold, Row};

/// Over this share of the slip at which it breaks a rivet lets go, so that its load has a path down.
const LETTING_GO: f64 = 0.05;

/// What is left of the stiffness of a row that yields: rows that yield all together would leave none, and
/// their load would not be defined.
const HARDENING: f64 = 1e-6;

/// A row as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Held {
    pub(super) slip: [f64; 3],
    /// Forces along, across, and against opening, N/mm.
    pub(super) force: [f64; 3],
    /// Slip that stays.
    pub(super) stays: [f64; 3],
    /// Work done on it, N/mm of width.
    pub(super) work_n_mm: f64,
    /// Slip over that at its strength: shear, opening.
    pub(super) kappa: [f64; 2],
    pub(super) broken: bool,
}

/// Forces of a row and their change.
pub(super) struct Answer {
    pub(super) force: [f64; 3],
    pub(super) tangent: [[f64; 3]; 3],
    pub(super) after: Held,
}

/// Elastic to its strength, then level; beyond the slip at which it breaks its strength falls to nothing.
pub(super) fn respond(row: &Row, before: &Held, slip: [f64; 3]) -> Answer {
    let mut after = Held { slip, ..*before };
    let mut force = [0.0; 3];
    let mut tangent = [[0.0; 3]; 3];
    if !before.broken {
        shear(row, before, slip, &mut after, &mut force, &mut tangent);
        opening(row, before, slip[2], &mut after, &mut force, &mut tangent);
    }
    after.force = force;
    after.work_n_mm +=
        (0..3).map(|i| 0.5 * (before.force[i] + force[i]) * (slip[i] - before.slip[i])).sum::<f64>();
    Answer { force, tangent, after }
}

/// What is left of the strength at a slip, and its slope; nothing left means broken.
fn left(hold: &Hold, slip: f64) -> (f64, f64) {
    let Some(last) = hold.break_mm.filter(|last| slip > *last) else { return (1.0, 0.0) };
    let share = 1.0 - (slip - last) / (LETTING_GO * last);
    if share > 0.0 { (share, -1.0 / (LETTING_GO * last)) } else { (0.0, 0.0) }
}

fn shear(
    row: &Row,
    before: &Held,
    slip: [f64; 3],
    after: &mut Held,
    force: &mut [f64; 3],
    tangent: &mut [[f64; 3]; 3],
) {
    let (k, full) = (row.shear_n_mm2(), row.shear_strength_n_mm());
    if k <= 0.0 {
        return;
    }
    let way = libm::hypot(slip[0], slip[1]);
    let (share, fall) = left(&row.shear, way);
    let level = share * full;
    let trial: [f64; 2] = std::array::from_fn(|i| k * (slip[i] - before.stays[i]));
    let size = libm::hypot(trial[0], trial[1]);
    after.kappa[0] = way * k / full;
    after.broken |= share <= 0.0;
    for i in 0..2 {
        force[i] = trial[i];
        tangent[i][i] = k;
    }
    if size > level {
        let turn = [trial[0] / size, trial[1] / size];
        for i in 0..2 {
            force[i] = level * turn[i];
            after.stays[i] = slip[i] - force[i] / k;
            for j in 0..2 {
                let same = f64::from(u8::from(i == j));
                let falling = if way > 0.0 { full * fall * turn[i] * slip[j] / way } else { 0.0 };
                tangent[i][j] = k * (level / size * (same - turn[i] * turn[j]) + HARDENING * same) + falling;
            }
        }
    }
}

/// A rivet is pulled, not pressed: the plates press on each other.
fn opening(
    row: &Row,
    before: &Held,
    opening: f64,
    after: &mut Held,
    force: &mut [f64; 3],
    tangent: &mut [[f64; 3]; 3],
) {
    let (k, full) = (row.opening_n_mm2(), row.opening_strength_n_mm());
    if k <= 0.0 {
        return;
    }
    let (share, fall) = left(&row.opening, opening);
    let trial = k * (opening - before.stays[2]);
    after.kappa[1] = opening * k / full;
    after.broken |= share <= 0.0;
    if trial > share * full {
        force[2] = share * full;
        tangent[2][2] = full * fall + HARDENING * k;
        after.stays[2] = opening - force[2] / k;
    } else if trial > 0.0 {
        force[2] = trial;
        tangent[2][2] = k;
    }
}

impl Held {
    /// Work that will not come back, N/mm of width.
    pub(super) fn spent(&self, row: &Row) -> f64 {
        let back = |force: f64, k: f64| if k > 0.0 { 0.5 * force * force / k } else { 0.0 };
        let shear = back(self.force[0], row.shear_n_mm2()) + back(self.force[1], row.shear_n_mm2());
        self.work_n_mm - shear - back(self.force[2], row.opening_n_mm2())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row() -> Row {
        let hold = Hold { stiffness_n_mm: 30e3, strength_n: 3e3, break_mm: Some(0.5) };
        Row { x_mm: 5.0, pitch_mm: 20.0, shear: hold, opening: hold }
    }

    #[test]
    fn unit_elastic_level_broken() {
        let row = row();
        let mut held = Held::default();
        for (slip, force) in
            [(0.05, 75.0), (0.1, 150.0), (0.3, 150.0), (0.25, 75.0), (0.4, 150.0), (0.53, 0.0)]
        {
            let answer = respond(&row, &held, [slip, 0.0, 0.0]);
            held = answer.after;
            assert!((answer.force[0] - force).abs() < 1e-9, "{slip}: {:?}", answer.force);
        }
        assert!(held.broken);
    }

    /// Across is as along, and pressing is nothing.
    #[test]
    fn unit_by_the_length_of_the_slip() {
        let answer = respond(&row(), &Held::default(), [0.3, 0.4, -0.2]);
        assert!((answer.force[0] - 90.0).abs() < 1e-9 && (answer.force[1] - 120.0).abs() < 1e-9);
        assert!(answer.force[2].abs() < 1e-12);
    }
}
