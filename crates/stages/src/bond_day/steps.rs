//! The plan of the day: the clocks of a joint and its stages of heat as steps from first mix.

use assessment::{Known, Lack, Name, Plan, Step, Verdict, When, names};
use job::tables::BondDay;
use quantity::{Kind, Time};

use super::history::{Temperatures, ZERO_CELSIUS_K};
use crate::Results;

/// Puts the plan of a joint, from the clocks that were read before.
pub(super) fn put(day: &BondDay, joint: &str, temperatures: &Known<Temperatures>, results: &mut Results) {
    let at = |name: &Name| -> Known<f64> {
        let known = results.quantities.get(&name.fill(&[joint]));
        known.map_or_else(
            || Err(Lack::Missing { keys: vec![day.key.clone()] }),
            |known| known.as_ref().map(|measure| measure.value).map_err(Lack::clone),
        )
    };
    let verdict = |what: &str| verdict_of(joint, what, results);
    let mut steps = vec![step("First mix", Ok(When::At(0.0)), None, String::new())];
    let working = at(&names::WORKING_TIME);
    let takes = day.closing_takes.get();
    let closing = takes.map_or(String::new(), |takes| {
        format!("Planned to take {}.", results.print(takes.seconds(), Kind::Time))
    });
    steps.push(Step {
        verdict: verdict("closing").or_else(|| verdict("working")).unwrap_or(Verdict::Note),
        ..step("Last joint closed", working.map(When::By), None, closing)
    });
    let each = "From each time that it is left idle.";
    steps.push(step("Mixing nozzle idle", at(&names::NOZZLE_TIME).map(When::For), None, each.to_owned()));
    let each = "From each time that a bead is spread.";
    steps.push(step("Bead open", at(&names::OPEN_TIME).map(When::For), None, each.to_owned()));
    for stage in temperatures.as_ref().map_or(&[][..], |temperatures| &temperatures.stages) {
        let celsius = results.print(stage.temperature_k - ZERO_CELSIUS_K, Kind::Temperature);
        let remark = format!("Warming up takes {} of it.", results.print(stage.ramp_s, Kind::Time));
        let when = Ok(When::Between(stage.from_s, stage.until_s));
        steps.push(step(&format!("Heat at {celsius}"), when, None, remark));
    }
    let share = |share: Option<&f64>| {
        share.map_or(String::new(), |share| format!("{:.0} % of the full strength.", share * 100.0))
    };
    for (what, id, name, by, remark) in [
        ("Part may be moved", "handling", &names::HANDLING_AT, day.moved_by.get(), share(day.handling.get())),
        (
            "Vehicle may be driven",
            "driving",
            &names::DRIVING_AT,
            day.driven_by.get(),
            share(day.driving.get()),
        ),
        ("Full strength", "full", &names::FULL_AT, None, String::new()),
    ] {
        let verdict = verdict(id).unwrap_or(Verdict::Note);
        steps.push(Step { verdict, ..step(what, at(name).map(When::At), by, remark) });
    }
    results.plans.push(Plan { joint: joint.to_owned(), steps });
}

fn step(what: &str, when: Known<When>, asked: Option<&Time>, remark: String) -> Step {
    let asked_s = asked.map(|asked| asked.seconds());
    let verdict = if when.is_ok() { Verdict::Note } else { Verdict::Unknown };
    Step { what: what.to_owned(), when, asked_s, verdict, remark }
}

/// The verdict of a joint's finding, so that plan and findings never differ; a note where there is none.
fn verdict_of(joint: &str, what: &str, results: &Results) -> Option<Verdict> {
    let id = format!("bond_day.{joint}.{what}");
    results.findings.iter().find(|finding| finding.id == id).map(|finding| finding.verdict)
}
