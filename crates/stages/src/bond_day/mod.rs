//! Bond day: how much adhesive, how long have I got, when may it be moved, driven, loaded?

mod clocks;
mod history;
mod volume;

use assessment::{Known, Lack, names};
use job::Job;

use crate::Results;

/// What the bond day tells the other stages.
pub(crate) struct BondDay {
    /// The temperature of the cure, °C: the constant one, or the mean of the log.
    pub(crate) cured_at_c: Known<f64>,
}

/// Assesses the bond day, if the job has one.
pub(crate) fn run(job: &Job, results: &mut Results) -> BondDay {
    let Some(day) = job.tables.bond_day.get() else {
        return BondDay {
            cured_at_c: Err(Lack::Missing { keys: vec![format!("{}.temperature", job.tables.bond_day.key)] }),
        };
    };
    let history = history::of(day, job.temperature_log.as_deref(), results);
    if let Ok(history) = &history {
        results.series.put(
            &names::TEMPERATURE_CURVE,
            &[],
            ("time from first mix", "s"),
            &history::points(history),
        );
    }
    let joints: Vec<&str> = match day.joints.get() {
        Some(joints) => joints.iter().map(|joint| joint.value.as_str()).collect(),
        None => job.tables.joints.iter().map(|(name, _)| name).collect(),
    };
    for name in &joints {
        clocks::run(job, day, name, &history, results);
    }
    volume::run(job, day, &joints, results);
    BondDay { cured_at_c: history.as_ref().map_err(Lack::clone).and_then(history::mean_c) }
}
