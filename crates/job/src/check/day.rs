//! What contradicts itself in the heat of a bond day and in the kinetics of a cure.

use quantity::{Quantity, Time};

use super::{print, refuse};
use crate::problem::Problem;
use crate::tables::{BondDay, Kinetics};

/// Stages of heat in the order of time, each with a time to hold, warmer than the shop, within its end.
pub(super) fn check_heating(day: &BondDay, problems: &mut Vec<Problem>) {
    let stages = day.heating.get().map_or(&[][..], Vec::as_slice);
    for stage in stages {
        let (Some(from), Some(until)) = (stage.from.get(), stage.until.get()) else { continue };
        if until.seconds() <= from.seconds() {
            let expected = format!("later than {}, when it begins", print(*from));
            refuse(&stage.until, "the heating ends before it begins", expected, problems);
        } else if stage.ramp_or_default().seconds() > until.seconds() - from.seconds() {
            let length = Time::from_base(until.seconds() - from.seconds());
            let what = format!("warming up takes {}, longer than the stage", print(stage.ramp_or_default()));
            let expected = format!("at most the stage's length, {}", print(length));
            match stage.ramp.get() {
                Some(_) => refuse(&stage.ramp, what, expected, problems),
                None => refuse(&stage.until, what, "a longer stage, or a \"ramp\" of its own", problems),
            }
        }
        if let Some(end) = day.until.get().filter(|end| until.seconds() > end.seconds()) {
            let expected = format!("at most {}, the end of the temperature given", print(*end));
            refuse(&stage.until, "the heating goes on after the temperature ends", expected, problems);
        }
        if let (Some(shop), Some(warm)) = (day.temperature.get(), stage.temperature.get())
            && warm.celsius() <= shop.celsius()
        {
            let expected = format!("more than {}, the temperature of the day", print(*shop));
            refuse(&stage.temperature, "this heating does not warm", expected, problems);
        }
    }
    for pair in stages.windows(2) {
        if let [before, after] = pair
            && let (Some(end), Some(start)) = (before.until.get(), after.from.get())
            && start.seconds() < end.seconds()
        {
            let expected = format!("at least {}, when the stage before it ends", print(*end));
            refuse(&after.from, "this stage begins before the one before it ends", expected, problems);
        }
    }
}

/// Cure raises the glass transition.
pub(super) fn check_kinetics(kinetics: &Kinetics, problems: &mut Vec<Problem>) {
    if let (Some(fresh), Some(cured)) = (kinetics.tg_uncured.get(), kinetics.tg_cured.get())
        && cured.celsius() <= fresh.celsius()
    {
        let expected = format!("more than {}, that of the fresh mix", print(*fresh));
        refuse(&kinetics.tg_cured, "the glass transition does not rise with the cure", expected, problems);
    }
}
