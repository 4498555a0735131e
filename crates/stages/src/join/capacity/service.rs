//! The bond loaded until it gives way hot, cold and wet.

use assessment::{Finding, Known, Lack, Measure, Next, Verdict};
use quantity::Kind;

use super::super::condition::{Condition, End, Served};
use super::super::subject::{Case, Subject};
use super::words::reserve_factor;
use super::{Judged, basis};
use crate::Results;

/// What became of a bond in a condition.
pub(in super::super) struct Found {
    /// Multiple of the case's load at the capacity, characteristic values.
    pub(in super::super) characteristic: f64,
    /// What governs and what happens, in sentences.
    pub(in super::super) because: String,
}

/// A bond that can be loaded until it gives way in any condition.
pub(in super::super) struct Tried<'a> {
    /// Loads it.
    pub(in super::super) load: &'a mut dyn FnMut(&Condition, &Results) -> Known<Found>,
    /// What would mend it in a condition that it does not meet.
    pub(in super::super) next: &'a mut dyn FnMut(&Condition, &Results) -> Option<Next>,
}

/// Judges a bond in each condition beside 23 °C, dry, as it was judged there.
pub(in super::super) fn find(
    subject: &Subject<'_>,
    case: &Case<'_>,
    room: (&Judged, Condition),
    served: Vec<Served>,
    tried: Tried<'_>,
    results: &mut Results,
) {
    let Tried { load, next } = tried;
    for served in served {
        let finding = subject.under(case, &format!("bond_to_failure_{}", served.end.word()), basis());
        let found = served
            .condition
            .clone()
            .and_then(|condition| Ok((condition, ordered(room, &condition, &mut *load, results)?)));
        if served.end == End::Wet && found.is_ok() {
            wet_toughness(subject, results);
        }
        results.findings.push(match found {
            Ok((condition, found)) => {
                let told = told(finding, (room.0, &found), &served.when, &condition, results);
                // What mends it at 23 °C is said there.
                let asked = told.verdict == Verdict::NotMet && room.0.reserve() >= 1.0;
                Finding { next: if asked { next(&condition, results) } else { None }, ..told }
            }
            Err(lack) => unknown(finding, &served, lack),
        });
    }
}

fn unknown(finding: Finding, served: &Served, lack: Lack) -> Finding {
    let statement =
        format!("At what load the bond of {} gives way {} cannot be told.", finding.about, served.end.when());
    finding.unknown(statement, lack)
}

/// What a bond bears in a condition, and never more than at 23 °C, dry, where the data give it no more: the peak of a
/// way may be missed by half a per cent, and of a layer that softens sooner the model may make a longer overlap bear.
fn ordered(
    room: (&Judged, Condition),
    condition: &Condition,
    load: &mut dyn FnMut(&Condition, &Results) -> Known<Found>,
    results: &Results,
) -> Known<Found> {
    let most = room.0.characteristic;
    if *condition == room.1 {
        let because = "Nothing is other than at 23 °C, dry.".to_owned();
        return Ok(Found { characteristic: most, because });
    }
    if condition.strength_share == 0.0 {
        return Ok(Found { characteristic: 0.0, because: "Nothing of its strength is left.".to_owned() });
    }
    let found = load(condition, results)?;
    if found.characteristic > most && condition.gives_no_more_than(&room.1) {
        let because = format!(
            "{} The model gives {:.2} there; no more is counted than at 23 °C, dry.",
            found.because, found.characteristic
        );
        return Ok(Found { characteristic: most, because });
    }
    Ok(found)
}

fn told(
    finding: Finding,
    (room, found): (&Judged, &Found),
    when: &str,
    condition: &Condition,
    results: &Results,
) -> Finding {
    let change_k = condition.change_k;
    let strained = if change_k == 0.0 { String::new() } else { format!(" {}", strained(change_k, results)) };
    let here = Judged { characteristic: found.characteristic, ..*room };
    let asked = here.load_factor.0 * here.gamma;
    let reserve = here.reserve();
    Finding {
        statement: format!(
            "Loaded until it fails, the bond of {} has a reserve factor of {} {when}.",
            finding.about,
            reserve_factor(reserve)
        ),
        value: Some(Measure { value: here.characteristic, unit: "-", kind: None }),
        limit: Some(Measure { value: asked, unit: "-", kind: None }),
        reserve: Some(reserve),
        verdict: Verdict::of_reserve(reserve),
        because: format!(
            "It gives way at {:.2} times the load with characteristic strengths, {:.2} at 23 °C, dry; {:.2} × {:.2} is asked. It has {:.0} % of its strength and {:.0} % of its toughness.{} {}",
            here.characteristic,
            room.characteristic,
            here.load_factor.0,
            here.gamma,
            100.0 * condition.strength_share,
            100.0 * condition.toughness_share,
            strained,
            found.because
        ),
        ..finding
    }
}

/// What the temperature does to the parts, in words.
pub(in super::super) fn strained(change_k: f64, results: &Results) -> String {
    let side = if change_k > 0.0 { "above" } else { "below" };
    let change = results.print(change_k.abs(), Kind::TemperatureDifference);
    format!("Its parts strain each other, {change} {side} the temperature at which they are free of stress.")
}

/// Says what the toughness is taken for where only the strength is known wet.
fn wet_toughness(subject: &Subject<'_>, results: &mut Results) {
    let Ok(adhesive) = subject.adhesive() else { return };
    let (Some(share), None) = (adhesive.wet_strength.get(), adhesive.wet_toughness.get()) else { return };
    let name = subject.adhesive.get().map_or("", String::as_str);
    let statement =
        format!("Wet, the adhesive {name} is taken to keep {share:.2} of its toughness, as of its strength.");
    let basis = assessment::Basis::CommonPractice("one share for strength and toughness where one is given");
    results.assume(&adhesive.wet_toughness.key, statement, basis);
}
