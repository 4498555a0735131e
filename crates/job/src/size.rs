//! How much a job may ask for: a slip of a script, or a file that is no job, must not become an hour.

use crate::problem::Problem;
use crate::tables::{Joint, Tables};

/// The most joints: one repair has a few.
const MOST_JOINTS: usize = 50;

/// The most joints times load cases: each is at least one solution of a strip.
const MOST_CASES: usize = 500;

/// Refuses a job that asks for more than any repair needs.
pub(crate) fn check(tables: &Tables, problems: &mut Vec<Problem>) {
    if let Some((name, _)) = tables.joints.items.get(MOST_JOINTS) {
        problems.push(Problem {
            place: name.place.clone(),
            key: format!("{}.{}", tables.joints.key, name.value),
            what: format!("the job has {} joints", tables.joints.items.len()),
            expected: format!("at most {MOST_JOINTS}; a job is one repair on one vehicle"),
            mend: Some("give each repair a job of its own".to_owned()),
        });
        return;
    }
    let mut count = 0;
    for (name, joint) in &tables.joints.items {
        count += cases(joint, tables);
        if count > MOST_CASES {
            problems.push(Problem {
                place: name.place.clone(),
                key: format!("{}.{}", tables.joints.key, name.value),
                what: "up to this joint there are too many load cases to compute".to_owned(),
                expected: format!("at most {MOST_CASES} load cases, counted for each joint"),
                mend: Some("keep the cases that may govern".to_owned()),
            });
            return;
        }
    }
}

/// The load cases of a joint: its own, and those of the member that it belongs to.
fn cases(joint: &Joint, tables: &Tables) -> usize {
    let of_member = tables.cases.items.len();
    match joint {
        Joint::Lap(lap) => lap.loads.items.len(),
        Joint::DoubleLap(lap) => lap.loads.items.len(),
        Joint::Socket(socket) => {
            socket.loads.items.len() + if socket.member.get().is_some() { of_member } else { 0 }
        }
        Joint::Sleeve(sleeve) => {
            sleeve.loads.items.len() + if sleeve.member.get().is_some() { of_member } else { 0 }
        }
        Joint::Tube(tube) => tube.loads.items.len(),
        Joint::Disc(disc) => disc.loads.items.len(),
    }
}
