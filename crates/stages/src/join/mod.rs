//! Join: does the joint carry what the original carried?

mod adhesive;
mod capacity;
mod chance;
mod condition;
mod data_agree;
mod disc;
mod double_lap;
mod ends;
mod environment;
mod fatigue;
mod galvanic;
mod heat;
mod lap;
pub(crate) mod lap_shear;
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

pub(crate) use adhesive::{CHARACTERISTIC_AT, bondline_share, bondline_toughness_share};
pub(crate) use capacity::{ARM_ELEMENTS, ELEMENTS, hardening, peak};
pub(crate) use ends::{Range, range, range_of_any};

use job::Job;
use job::tables::Joint;

use self::ends::AllEnds;
use self::subject::{Case, Subject};
use crate::bond_day::BondDay;
use crate::{Ask, Results};

/// Assesses every joint.
pub(crate) fn run(job: &Job, bond_day: &BondDay, ask: &Ask, results: &mut Results) {
    let ask = &chance::shared(job, ask);
    member::loads::diagrams(job, results);
    let ends = AllEnds::of(job, ask, results);
    for (name, joint) in job.tables.joints.iter() {
        match joint {
            Joint::Lap(lap) => lap::run(job, name, lap, &ends, bond_day, ask, results),
            Joint::DoubleLap(lap) => double_lap::run(job, name, lap, &ends, bond_day, ask, results),
            Joint::Tube(tube) => tube::run(job, name, tube, &ends, bond_day, results),
            Joint::Disc(disc) => disc::run(job, name, disc, &ends, bond_day, results),
            Joint::Socket(socket) => member::run_socket(job, name, socket, &ends, bond_day, ask, results),
            Joint::Sleeve(sleeve) => member::run_sleeve(job, name, sleeve, &ends, bond_day, ask, results),
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
        heat::glass_transition(subject, bond_day, results);
        heat::later(subject, bond_day, results);
    }
}
