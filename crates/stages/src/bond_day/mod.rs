//! Bond day: how much adhesive, how long have I got, when may it be moved, driven, loaded?

mod answer;
mod batch;
mod clocks;
mod conversion;
mod dew;
mod history;
mod plan;
mod steps;
mod taken;
mod volume;

use assessment::{Known, Lack, names};
use job::Job;
use job::tables::Adhesive;

use crate::Results;
use history::{Temperatures, ZERO_CELSIUS_K};

/// What the bond day tells the other stages.
pub(crate) struct BondDay {
    temperatures: Known<Temperatures>,
}

impl BondDay {
    /// The temperature at which an adhesive cures, °C, by which its glass transition is looked up.
    ///
    /// A data sheet gives the glass transition of an adhesive that was cured out at one temperature. So a stage
    /// of heat counts only if its hold alone, without what the shop does before and after, reaches the full
    /// strength by the cure table; of several such stages the warmest, for a later cooler one takes nothing
    /// back. Less heat raises the glass transition by something that the table does not say; then the
    /// temperature of the shop counts, which promises the lower one: the constant temperature, or the mean of
    /// the log.
    pub(crate) fn cured_at_c(&self, adhesive: &Adhesive) -> Known<f64> {
        let temperatures = self.temperatures.as_ref().map_err(Lack::clone)?;
        let shop_c = history::mean_c(&temperatures.shop)?;
        let full = temperatures
            .stages
            .iter()
            .filter(|stage| clocks::cures_fully(adhesive, stage.temperature_k, stage.hold_s()))
            .map(|stage| stage.temperature_k - ZERO_CELSIUS_K);
        Ok(full.fold(shop_c, f64::max))
    }
}

/// Assesses the bond day, if the job has one.
pub(crate) fn run(job: &Job, results: &mut Results) -> BondDay {
    let Some(day) = job.tables.bond_day.get() else {
        let keys = vec![format!("{}.temperature", job.tables.bond_day.key)];
        return BondDay { temperatures: Err(Lack::Missing { keys }) };
    };
    let temperatures = history::of(day, job.temperature_log.as_ref(), results);
    if let Ok(temperatures) = &temperatures {
        let points = history::points(temperatures);
        results.series.put(&names::TEMPERATURE_CURVE, &[], ("time from first mix", "s"), &points);
    }
    dew::run(day, &temperatures, results);
    taken::of_day(job, day, results);
    let joints: Vec<&str> = match day.joints.get() {
        Some(joints) => joints.iter().map(|joint| joint.value.as_str()).collect(),
        None => job.tables.joints.iter().map(|(name, _)| name).collect(),
    };
    for name in &joints {
        clocks::run(job, day, name, &temperatures, results);
    }
    volume::run(job, day, &joints, results);
    BondDay { temperatures }
}

#[cfg(test)]
mod tests;
