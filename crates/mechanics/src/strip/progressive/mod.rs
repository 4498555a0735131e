//! The strip to failure: bond, rivets and adherends give one after another, and the load is followed
//! through its peak and down.
//!
//! [`Joint`] says what is loaded, [`Walker`] loads it and keeps its memory for the next one, [`Outcome`] is
//! what came of it; [`run`] does it once.

mod beam;
mod blocks;
mod cohesive;
mod law;
mod layout;
mod many;
mod model;
mod moves;
mod outcome;
mod path;
mod plastic;
mod record;
mod rivets;
mod scatter;
mod setting;
mod stretch;
mod system;
mod weigh;

pub use cohesive::{Cohesive, Mixing};
pub use law::Law;
pub use many::many;
pub use model::{Edge, Hardening, Joint};
pub use outcome::{Effort, End, Event, Moment, Outcome, Place, Side, Spent, Step, What};
pub use path::Control;
pub use plastic::Plastic;
pub use scatter::Scatter;

use crate::failure::Failure;
use record::Recorder;
use system::System;

/// Loads joints one after another in the same memory.
#[derive(Debug, Clone, Default)]
pub struct Walker {
    axial: Option<System<2, 6>>,
    flat: Option<System<4, 12>>,
    bending: Option<System<6, 14>>,
    full: Option<System<8, 20>>,
    outcome: Outcome,
}

impl Walker {
    /// A walker with no memory yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Loads the joint until it fails.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names an argument out of range. That no balance is found is no error but an
    /// [`End`] without a capacity.
    pub fn run(&mut self, joint: &Joint, control: &Control) -> Result<&Outcome, Failure> {
        joint.check()?;
        let bends = !joint.strip.hold_transverse;
        let sheared = joint.strip.shear_flow_n_mm != 0.0;
        let out = &mut self.outcome;
        match (bends, sheared) {
            (false, false) => load(&mut self.axial, joint, control, out),
            (false, true) => load(&mut self.flat, joint, control, out),
            (true, false) => load(&mut self.bending, joint, control, out),
            (true, true) => load(&mut self.full, joint, control, out),
        }
        Ok(&self.outcome)
    }
}

fn load<const N: usize, const M: usize>(
    system: &mut Option<System<N, M>>,
    joint: &Joint,
    control: &Control,
    out: &mut Outcome,
) {
    /// Shares of the steps asked for. Where points give and are relieved in turn no balance may be found from one place,
    /// and one be found from another: a way that stalls is gone again with other steps before it is given up.
    const AGAIN: [f64; 3] = [1.0, 0.6, 0.25];
    let system = system.get_or_insert_with(|| System::new(joint.law));
    let heated = joint.strip.temperature_change_k != 0.0;
    let mut effort = Effort::default();
    for share in AGAIN {
        system.prepare(joint);
        let mut recorder = Recorder::new(joint.strip.axial_n_mm, joint.rows.len());
        let control = Control { step: share * control.step, bend: share * control.bend, ..*control };
        path::walk(system, &control, heated, &mut recorder, out);
        effort = effort.and(&out.effort);
        if !matches!(out.end, End::Stalled { .. }) {
            break;
        }
    }
    out.effort = effort;
}

/// Loads one joint in memory of its own; see [`Walker::run`].
///
/// # Errors
///
/// As [`Walker::run`].
pub fn run(joint: &Joint, control: &Control) -> Result<Outcome, Failure> {
    let mut walker = Walker::new();
    walker.run(joint, control)?;
    Ok(walker.outcome)
}

#[cfg(test)]
mod tests;
