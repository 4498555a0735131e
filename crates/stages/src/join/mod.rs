//! Join: does the joint carry what the original carried?

mod adhesive;
mod capacity;
mod chance;
mod data_agree;
mod disc;
mod double_lap;
mod environment;
mod fatigue;
mod galvanic;
mod lap;
mod member;
mod nominal;
mod overlap;
mod parted;
mod plate_rivets;
mod plates;
mod stresses;
mod subject;
mod surface;
mod sustained;
mod taken;
mod tube;

#[cfg(test)]
pub(crate) use capacity::peak as peak_of;

use job::Job;
use job::tables::Joint;

use self::subject::{Case, Subject};
use crate::bond_day::BondDay;
use crate::{Ask, Results};

/// Assesses every joint.
pub(crate) fn run(job: &Job, bond_day: &BondDay, ask: &Ask, results: &mut Results) {
    let ask = &chance::shared(job, ask);
    member::loads::diagrams(job, results);
    for (name, joint) in job.tables.joints.iter() {
        match joint {
            Joint::Lap(lap) => lap::run(job, name, lap, bond_day, ask, results),
            Joint::DoubleLap(lap) => double_lap::run(job, name, lap, bond_day, ask, results),
            Joint::Tube(tube) => tube::run(job, name, tube, bond_day, results),
            Joint::Disc(disc) => disc::run(job, name, disc, bond_day, results),
            Joint::Socket(socket) => member::run_socket(job, name, socket, bond_day, ask, results),
            Joint::Sleeve(sleeve) => member::run_sleeve(job, name, sleeve, bond_day, ask, results),
        }
    }
}

/// What is found out about every form of joint before its loads.
fn about(subject: &Subject<'_>, cases: &[&Case<'_>], bond_day: &BondDay, results: &mut Results) {
    taken::of_subject(subject, cases, results);
    surface::find(subject, results);
    data_agree::find(subject, results);
    if cases.is_empty() {
        results.findings.push(subject.without_load());
    }
    if cases.iter().any(|case| case.is_required()) {
        environment::glass_transition(subject, bond_day, results);
    }
}
