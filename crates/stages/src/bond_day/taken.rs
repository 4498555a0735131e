//! What a bond day takes for granted where the file is silent.

use assessment::{Basis, Known};
use job::tables::{Adhesive, BondDay};
use job::{Entry, Job};
use process::glass::Stall;
use process::volume::{COMMON_COAT_MM, COMMON_PURGE_MM3, COMMON_SPARES, COMMON_SQUEEZE_OUT};
use quantity::{Kind, Time};

use super::clocks::{STANDARD_K, doubles_each_10_k};
use super::history::{LONGEST_GAP_S, Temperatures, ZERO_CELSIUS_K};
use super::volume::MM3_PER_ML;
use crate::Results;

const STEADY: &str = "a workshop that is kept at its temperature";

/// What the day takes for granted of its temperatures.
pub(super) fn of_day(job: &Job, day: &BondDay, results: &mut Results) {
    let basis = Basis::CommonPractice("one mix for all joints of the job");
    results.assume_silent(&day.joints, basis, |_| "All joints of the job are closed on this day.".to_owned());
    if job.temperature_log.is_some() {
        let basis = Basis::CommonPractice("loggers write degrees Celsius where they say nothing");
        results.assume_silent(&day.temperature_unit, basis, |_| {
            "The temperatures of the log are in °C.".to_owned()
        });
        let basis = Basis::CommonPractice("a shop does not change much within an hour");
        results.assume_silent(&day.longest_gap, basis, |results| {
            let gap = results.print(LONGEST_GAP_S, Kind::Time);
            format!("Samples of the log up to {gap} apart are joined by straight lines.")
        });
    } else if let Some(temperature) = day.temperature.get() {
        let at = results.print(temperature.celsius(), Kind::Temperature);
        results.assume_silent(&day.until, Basis::CommonPractice(STEADY), |_| {
            format!("The temperature stays at {at} from first mix on, without an end.")
        });
        if let Some(parts) = day.parts.get().filter(|parts| *parts != temperature) {
            let came = results.print(parts.celsius(), Kind::Temperature);
            let statement = format!(
                "The parts come in at {came}; for all clocks they are taken to be at {at} from first mix on."
            );
            let basis = Basis::CommonPractice("parts are left to warm up before the adhesive is mixed");
            results.assume(&day.parts.key, statement, basis);
        }
    }
    if day.air.get().is_some() {
        let basis = Basis::CommonPractice("parts that have stood in the shop overnight");
        results.assume_silent(&day.parts, basis, |_| {
            "The metal is taken to have the temperature of the day at first mix.".to_owned()
        });
    }
    for stage in day.heating.get().map_or(&[][..], Vec::as_slice) {
        let ramp = results.print(stage.ramp_or_default().seconds(), Kind::Time);
        let basis = Basis::CommonPractice("a lamp or an oven on a thin-walled part");
        results.assume_silent(&stage.ramp, basis, |_| {
            format!("Parts have the temperature of a stage of heat after {ramp}.")
        });
        let statement = "When a stage of heat ends, parts are at once back on the day's temperature.";
        let basis = Basis::CommonPractice("the cooling down is given away: it would only add cure");
        results.assume(&day.heating.key, statement.to_owned(), basis);
    }
}

/// What the clocks of an adhesive take for granted.
pub(super) fn of_adhesive(
    name: &str,
    adhesive: &Adhesive,
    temperatures: &Known<Temperatures>,
    results: &mut Results,
) {
    let standard = results.print(STANDARD_K - ZERO_CELSIUS_K, Kind::Temperature);
    let mut at_standard = |entry: &Entry<Time>, what: &str| {
        if let Some(time) = entry.get() {
            let time = results.print(time.seconds(), Kind::Time);
            let statement = format!("The {what} of {name}, {time}, is taken to hold at {standard}.");
            let basis = Basis::Memory("ISO 291:2008, standard atmosphere 23/50");
            results.assume(&entry.key, statement, basis);
        }
    };
    at_standard(&adhesive.nozzle_time, "nozzle time");
    at_standard(&adhesive.open_time, "open time");
    if temperatures.is_ok() && doubles_each_10_k(adhesive) {
        let statement = format!("The cure of {name} is taken to go twice as fast for each 10 K.");
        let basis = Basis::CommonPractice("the rate doubles each 10 K where data are for one temperature");
        results.assume(&adhesive.cure.key, statement, basis);
    }
    let basis = Basis::CommonPractice("no limit where the data sheet states none");
    results.assume_silent(&adhesive.least_cure_temperature, basis, |_| {
        format!("{name} is taken to cure at any temperature by the same law.")
    });
    if let Some(kinetics) = adhesive
        .kinetics
        .get()
        .filter(|_| temperatures.as_ref().is_ok_and(|temperatures| temperatures.parts.end_s().is_some()))
    {
        let statement = format!("At first mix nothing of {name} has cured: a conversion of 0 %.");
        results.assume(
            &kinetics.key,
            statement,
            Basis::CommonPractice("a batch that was stored as its maker says"),
        );
        if kinetics.tg_uncured.get().is_some() {
            let statement = format!("The stall of {name} has a steepness of {:.0}.", Stall::COMMON_STEEPNESS);
            results.assume(&kinetics.key, statement, Basis::Memory("Chern and Poehlein 1987"));
        } else {
            let statement = format!("The cure of {name} is taken not to stall.");
            results.assume(
                &kinetics.tg_uncured.key,
                statement,
                Basis::CommonPractice("kinetics alone, without glass transitions"),
            );
        }
    }
}

/// What the account of the adhesive takes for granted.
pub(super) fn of_account(day: &BondDay, results: &mut Results) {
    let basis =
        || Basis::CommonPractice("wet both faces, press out all round, throw the first of a nozzle away");
    results.assume_silent(&day.wetting_coat, basis(), |results| {
        format!(
            "Both faces are coated {} thick before the bead.",
            results.print(COMMON_COAT_MM, Kind::Length)
        )
    });
    results.assume_silent(&day.squeeze_out, basis(), |_| {
        format!("{:.0} % of the bondline is pressed out.", COMMON_SQUEEZE_OUT * 100.0)
    });
    results.assume_silent(&day.purge, basis(), |results| {
        let purge = results.print(COMMON_PURGE_MM3 / MM3_PER_ML, Kind::Volume);
        format!("{purge} are thrown away with each new nozzle.")
    });
    let statement = format!("{COMMON_SPARES} cartridge is kept to spare.");
    results.assume(&day.key, statement, Basis::CommonPractice("one cartridge to spare"));
}
