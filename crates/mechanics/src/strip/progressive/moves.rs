//! The motions that residual and load cause, and what a step makes of them.

use super::blocks::Singular;
use super::system::{BUBBLES, State, System, dot};

impl<const N: usize, const M: usize> System<N, M> {
    /// Solves for the motions that residual and load cause; the stiffness is spent.
    pub(super) fn solve(&mut self) -> Result<(), Singular> {
        for (to, from) in self.residual.iter_mut().zip(&self.right) {
            *to = from.map(|pair| pair[0]);
        }
        let solved = self.matrix.solve(&mut self.right);
        let nodes = self.residual.iter().zip(&self.right);
        let works = nodes.flat_map(|(forces, moved)| forces.iter().zip(moved).map(|(f, m)| f * m[0]));
        self.correction_energy = works.sum::<f64>().abs();
        solved?;
        for span in 0..self.spans.len() {
            let mut local = [[0.0; 2]; M];
            local[..N].copy_from_slice(&self.right[span]);
            local[N..2 * N].copy_from_slice(&self.right[span + 1]);
            for b in 2 * N..M {
                let mut moved = self.bubble_right[span][b - 2 * N];
                for (entry, before) in self.bubble_rows[span][b - 2 * N].iter().zip(&local).take(b) {
                    moved[0] -= entry * before[0];
                    moved[1] -= entry * before[1];
                }
                local[b] = moved;
                self.bubble_right[span][b - 2 * N] = moved;
            }
        }
        Ok(())
    }

    /// Solves for the motions that the load causes at the last balance, and keeps them for every try from there.
    pub(super) fn foresee(&mut self) -> Result<(), Singular> {
        self.solve()?;
        self.ahead.clone_from(&self.right);
        self.bubbles_ahead.clone_from(&self.bubble_right);
        Ok(())
    }

    /// Makes what was tried the last balance. What the load did in the last solution is kept for every try from
    /// there: the stiffness has hardly changed since.
    pub(super) fn keep_now(&mut self) {
        std::mem::swap(&mut self.before, &mut self.last.motion);
        std::mem::swap(&mut self.bubbles_before, &mut self.last.bubbles);
        self.factor_before = self.last.factor;
        self.last.take(&self.now);
        let own = self.right.iter_mut().flatten().chain(self.bubble_right.iter_mut().flatten());
        own.for_each(|moved| moved[0] = 0.0);
        self.ahead.clone_from(&self.right);
        self.bubbles_ahead.clone_from(&self.bubble_right);
    }

    /// Gives up what was tried.
    pub(super) fn return_to_last(&mut self) {
        self.now.take(&self.last);
        self.right.clone_from(&self.ahead);
        self.bubble_right.clone_from(&self.bubbles_ahead);
    }

    /// Moves by `share` of the residual's motions and of `change` of the load factor.
    pub(super) fn advance(&mut self, change: f64, share: f64) {
        for (motion, moved) in self.now.motion.iter_mut().zip(&self.right) {
            for (to, [own, load]) in motion.iter_mut().zip(moved) {
                *to += share * (own + change * load);
            }
        }
        for (bubbles, moved) in self.now.bubbles.iter_mut().zip(&self.bubble_right) {
            for (to, [own, load]) in bubbles.iter_mut().zip(moved) {
                *to += share * (own + change * load);
            }
        }
        self.now.factor += share * change;
    }

    /// Bends the move foreseen, `change` of the load factor along the load's motions, toward where the last two
    /// balances point: by `share` of how far the balance before the last lies off the same move taken back, which
    /// takes `back` of the load factor.
    pub(super) fn bend_toward(&mut self, share: f64, back: f64) {
        let off = |last: f64, before: f64, load: f64| share * (before - last + back * load);
        let State { motion, bubbles, factor, .. } = &mut self.now;
        let balances = self.last.motion.iter().zip(&self.before);
        for (to, ((last, before), moved)) in motion.iter_mut().zip(balances.zip(&self.ahead)) {
            for k in 0..N {
                to[k] += off(last[k], before[k], moved[k][1]);
            }
        }
        let balances = self.last.bubbles.iter().zip(&self.bubbles_before);
        for (to, ((last, before), moved)) in bubbles.iter_mut().zip(balances.zip(&self.bubbles_ahead)) {
            for k in 0..BUBBLES {
                to[k] += off(last[k], before[k], moved[k][1]);
            }
        }
        *factor += off(self.last.factor, self.factor_before, 1.0);
    }

    /// How far the slips of a point moved from the balance before the last to the last.
    pub(super) fn came_slip(&self, bond: usize, g: usize) -> [f64; 3] {
        let span = self.first + bond;
        let of = |motion: &[[f64; N]], bubbles: &[[f64; BUBBLES]], i: usize| -> f64 {
            let all = motion[span].iter().chain(&motion[span + 1]).chain(&bubbles[span]);
            self.gauss[bond][g].rows[i].iter().zip(all).map(|(b, moved)| b * moved).sum()
        };
        std::array::from_fn(|i| {
            of(&self.last.motion, &self.last.bubbles, i) - of(&self.before, &self.bubbles_before, i)
        })
    }

    /// The same of a rivet row.
    pub(super) fn came_row(&self, index: usize) -> [f64; 3] {
        let placed = &self.rows[index];
        std::array::from_fn(|i| {
            dot(&placed.rows[i], &self.last.motion[placed.node])
                - dot(&placed.rows[i], &self.before[placed.node])
        })
    }

    /// What the two motions last solved for do to the slips of a point: residual's, load's.
    pub(super) fn moved_slip(&self, bond: usize, g: usize) -> [[f64; 3]; 2] {
        let span = self.first + bond;
        let gauss = &self.gauss[bond][g];
        std::array::from_fn(|side| {
            std::array::from_fn(|i| {
                let nodes = self.right[span].iter().chain(&self.right[span + 1]);
                let all = nodes.chain(&self.bubble_right[span]);
                gauss.rows[i].iter().zip(all).map(|(b, moved)| b * moved[side]).sum()
            })
        })
    }

    /// The same of a rivet row.
    pub(super) fn moved_row(&self, index: usize) -> [[f64; 3]; 2] {
        let placed = &self.rows[index];
        std::array::from_fn(|side| {
            std::array::from_fn(|i| {
                placed.rows[i].iter().zip(&self.right[placed.node]).map(|(b, moved)| b * moved[side]).sum()
            })
        })
    }
}
