//! Join: does the joint carry what the original carried?

mod adhesive;
mod data_agree;
mod demand;
mod environment;
mod lap;
mod nominal;
mod plates;
mod stresses;
mod surface;

use job::Job;
use job::tables::Joint;

use crate::bond_day::BondDay;
use crate::{Ask, Results};

/// Assesses every joint.
pub(crate) fn run(job: &Job, bond_day: &BondDay, ask: &Ask, results: &mut Results) {
    for (name, joint) in job.tables.joints.iter() {
        match joint {
            Joint::Lap(lap) => lap::run(job, name, lap, bond_day, ask, results),
        }
    }
}
