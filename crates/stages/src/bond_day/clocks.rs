//! The clocks of one joint's adhesive at the temperature given.

use assessment::{Basis, Finding, Known, Lack, Measure, Name, Stage, Verdict, names};
use job::Job;
use job::tables::{Adhesive, BondDay};
use process::arrhenius::TimeAt;
use process::clocks::{AdhesiveTimes, Clock, StrengthAtEnd};
use process::strength::{ActivationBasis, Row, Strength, StrengthTable};
use process::temperature::History;
use quantity::{Kind, Time};

use super::history::refused;
use crate::Results;

/// The temperature at which data sheets state times without one: 23 °C, the standard atmosphere 23/50 of
/// ISO 291:2008 (from memory).
const STANDARD_K: f64 = 296.15;

/// What a clock of the bond day means.
struct Meaning {
    /// Under which name its time goes.
    name: &'static Name,
    /// The last part of its finding's name.
    id: &'static str,
    /// What it is, as the start of a sentence.
    what: &'static str,
    /// What happens when it is reached, as the start of a sentence.
    reached: &'static str,
    /// What its data are called, for the basis.
    basis: &'static str,
}

const NOZZLE: Meaning = Meaning {
    name: &names::NOZZLE_TIME,
    id: "nozzle",
    what: "The idle time of a nozzle",
    reached: "A mixing nozzle may stand idle for",
    basis: "nozzle time of the adhesive, equivalent time",
};
const OPEN: Meaning = Meaning {
    name: &names::OPEN_TIME,
    id: "open",
    what: "The open time",
    reached: "A bead must be closed within",
    basis: "open time of the adhesive, equivalent time",
};
const WORKING: Meaning = Meaning {
    name: &names::WORKING_TIME,
    id: "working",
    what: "The working time",
    reached: "From first mix to last closing there are",
    basis: "working time of the adhesive, equivalent time",
};
const HANDLING: Meaning = Meaning {
    name: &names::HANDLING_AT,
    id: "handling",
    what: "When the part may be moved",
    reached: "The part may be moved",
    basis: "cure table of the adhesive, equivalent time",
};
const DRIVING: Meaning = Meaning {
    name: &names::DRIVING_AT,
    id: "driving",
    what: "When the vehicle may be driven",
    reached: "The vehicle may be driven",
    basis: "cure table of the adhesive, equivalent time",
};
const FULL: Meaning = Meaning {
    name: &names::FULL_AT,
    id: "full",
    what: "When full strength is reached",
    reached: "Full strength is reached",
    basis: "cure table of the adhesive, equivalent time",
};

/// Reads the clocks of one joint.
pub(super) fn run(job: &Job, day: &BondDay, joint: &str, history: &Known<History>, results: &mut Results) {
    let Some(adhesive) = adhesive_of(job, joint) else {
        // The joint names no adhesive; every clock of it lacks that one key.
        let lack = Lack::Missing { keys: vec![format!("joints.{joint}.adhesive")] };
        for meaning in [&NOZZLE, &OPEN, &WORKING, &HANDLING, &DRIVING, &FULL] {
            results.quantities.put(meaning.name, &[joint], Err(lack.clone()));
        }
        results
            .findings
            .push(started(&WORKING, joint, day).unknown(format!("No clock of {joint} can be told."), lack));
        return;
    };
    let clock = Clockwork { day, joint, adhesive, history, times: times(adhesive) };
    clock.limit(
        &NOZZLE,
        adhesive.nozzle_time.key.as_str(),
        |times| times.nozzle_time.as_slice().to_vec(),
        results,
    );
    clock.limit(&OPEN, adhesive.open_time.key.as_str(), |times| times.open_time.as_slice().to_vec(), results);
    clock.limit(&WORKING, adhesive.working_time.key.as_str(), |times| times.working_time.clone(), results);
    clock.strength(&HANDLING, day.handling.need().copied().map_err(Lack::from), day.moved_by.get(), results);
    clock.strength(&DRIVING, day.driving.need().copied().map_err(Lack::from), day.driven_by.get(), results);
    clock.strength(&FULL, Ok(1.0), None, results);
    clock.at_end(results);
    clock.curve(results);
}

fn adhesive_of<'j>(job: &'j Job, joint: &str) -> Option<&'j Adhesive> {
    job.tables.adhesives.referred(job.tables.joints.get(joint)?.adhesive()).ok()
}

fn started(meaning: &Meaning, joint: &str, day: &BondDay) -> Finding {
    Finding {
        place: Some(day.place.clone()),
        ..Finding::new(
            Stage::BondDay,
            format!("bond_day.{joint}.{}", meaning.id),
            joint,
            Basis::YourData(meaning.basis),
        )
    }
}

/// The adhesive's data in the form that the process takes.
fn times(adhesive: &Adhesive) -> Known<AdhesiveTimes> {
    let at_standard = |time: &Time| TimeAt { temperature_k: STANDARD_K, time_s: time.seconds() };
    let working = adhesive.working_time.get().map_or(&[][..], Vec::as_slice);
    let cure = adhesive.cure.get().map_or(&[][..], Vec::as_slice);
    let rows: Vec<Row> = cure
        .iter()
        .filter_map(|row| {
            Some(Row {
                temperature_k: row.at.get()?.kelvin(),
                time_s: row.time.get()?.seconds(),
                fraction: *row.strength.get()?,
            })
        })
        .collect();
    let strength = if rows.is_empty() {
        None
    } else {
        Some(StrengthTable::new(&rows, None).map_err(|error| refused(&error, &adhesive.cure.key))?)
    };
    Ok(AdhesiveTimes {
        nozzle_time: adhesive.nozzle_time.get().map(at_standard),
        open_time: adhesive.open_time.get().map(at_standard),
        working_time: working
            .iter()
            .filter_map(|row| {
                Some(TimeAt { temperature_k: row.at.get()?.kelvin(), time_s: row.time.get()?.seconds() })
            })
            .collect(),
        strength,
        least_cure_temperature_k: adhesive.least_cure_temperature.get().map(|least| least.kelvin()),
    })
}

/// One joint's adhesive on the day's temperature.
struct Clockwork<'j> {
    day: &'j BondDay,
    joint: &'j str,
    adhesive: &'j Adhesive,
    history: &'j Known<History>,
    times: Known<AdhesiveTimes>,
}

impl Clockwork<'_> {
    fn parts(&self) -> Known<(&AdhesiveTimes, &History)> {
        Ok((self.times.as_ref().map_err(Lack::clone)?, self.history.as_ref().map_err(Lack::clone)?))
    }

    /// A limit that runs out.
    fn limit(
        &self,
        meaning: &Meaning,
        key: &str,
        rows: impl Fn(&AdhesiveTimes) -> Vec<TimeAt>,
        results: &mut Results,
    ) {
        let clock = self.parts().and_then(|(times, history)| {
            times.limit(history, 0.0, &rows(times)).map_err(|error| refused(&error, key))
        });
        let known = clock.and_then(|clock| self.time_of(clock, key));
        results.quantities.put(meaning.name, &[self.joint], known.clone().map(|(at_s, _)| at_s));
        let finding = started(meaning, self.joint, self.day);
        results.findings.push(match known {
            Err(lack) => self.untold(finding, meaning, lack, results),
            Ok((at_s, _)) => Finding {
                statement: format!("{} {}.", meaning.reached, results.print(at_s, Kind::Time)),
                value: Some(Measure::of(at_s, Kind::Time)),
                because: self.at_what_temperature(results),
                ..finding
            },
        });
    }

    /// A strength that is reached, by a moment that may be required.
    fn strength(&self, meaning: &Meaning, fraction: Known<f64>, by: Option<&Time>, results: &mut Results) {
        let key = &self.adhesive.cure.key;
        let clock = fraction.clone().and_then(|fraction| {
            let (times, history) = self.parts()?;
            times.strength(history, fraction).map_err(|error| refused(&error, key))
        });
        let known = clock.and_then(|clock| self.time_of(clock, key));
        results.quantities.put(meaning.name, &[self.joint], known.clone().map(|(at_s, _)| at_s));
        let finding = started(meaning, self.joint, self.day);
        results.findings.push(match known {
            Err(lack) => self.untold(finding, meaning, lack, results),
            Ok((at_s, at_latest)) => {
                let latest = if at_latest { "at the latest " } else { "" };
                let share = fraction.map_or(String::new(), |fraction| format!(" Needed: {:.0} % of the full strength.", fraction * 100.0));
                let late = by.is_some_and(|by| at_s > by.seconds());
                Finding {
                    statement: format!(
                        "{} {latest}{} after first mix{}.",
                        meaning.reached,
                        results.print(at_s, Kind::Time),
                        by.map_or(String::new(), |by| format!("; it must be by {}", results.print(by.seconds(), Kind::Time)))
                    ),
                    value: Some(Measure::of(at_s, Kind::Time)),
                    limit: by.map(|by| Measure::of(by.seconds(), Kind::Time)),
                    verdict: match by {
                        None => Verdict::Note,
                        Some(_) if late => Verdict::NotMet,
                        Some(_) => Verdict::Met,
                    },
                    because: format!("{}{share}{}", self.at_what_temperature(results), self.law_in_words()),
                    next: late.then(|| "Keep it standing longer, or warm the closed joint as the adhesive's data allow; warming before closing shortens the working time.".to_owned().into()),
                    ..finding
                }
            }
        });
    }

    /// A time from first mix, and whether it is only an upper one; or why there is none.
    fn time_of(&self, clock: Clock, key: &str) -> Known<(f64, bool)> {
        match clock {
            Clock::Reached { at_s } => Ok((at_s, false)),
            Clock::ReachedBy { at_s } => Ok((at_s, true)),
            Clock::NotReached { end_s, share } => Err(Lack::OutOfData {
                what: format!(
                    "the temperature given ends {} after first mix, at {:.0} % of the way",
                    quantity::print(end_s, Kind::Time, quantity::System::Metric),
                    share * 100.0
                ),
                key: if self.day.log.get().is_some() { self.day.log.key.clone() } else { self.day.until.key.clone() },
            }),
            Clock::NothingPromised { .. } => Err(Lack::OutOfData {
                what: "the temperature lies below the least cure temperature, where the adhesive promises nothing".to_owned(),
                key: self.adhesive.least_cure_temperature.key.clone(),
            }),
            Clock::BeyondTable { last } => Err(Lack::OutOfData {
                what: format!("the rows of {key} end at {:.0} % of the strength", last * 100.0),
                key: key.to_owned(),
            }),
            Clock::Missing => Err(Lack::Missing { keys: vec![key.to_owned()] }),
        }
    }

    /// A clock that cannot be told; too cold is no lack of data but a requirement that is not met.
    fn untold(&self, finding: Finding, meaning: &Meaning, lack: Lack, results: &Results) -> Finding {
        let cold = self.parts().ok().and_then(|(times, history)| {
            let least = times.least_cure_temperature_k?;
            history.first_below_s(least).ok()?
        });
        let (Some(at_s), Some(least)) = (cold, self.adhesive.least_cure_temperature.get()) else {
            return finding.unknown(format!("{} for {} cannot be told.", meaning.what, self.joint), lack);
        };
        Finding {
            statement: format!(
                "{} for {} is not promised: the parts are below {} from {} after first mix.",
                meaning.what,
                self.joint,
                results.print(least.celsius(), Kind::Temperature),
                results.print(at_s, Kind::Time)
            ),
            limit: Some(Measure::of(least.celsius(), Kind::Temperature)),
            verdict: Verdict::NotMet,
            because: "Below its least cure temperature the adhesive may never reach its strength.".to_owned(),
            next: Some(
                format!(
                    "Warm the parts to at least {} before mixing, and keep them there.",
                    results.print(least.celsius(), Kind::Temperature)
                )
                .into(),
            ),
            lack: None,
            ..finding
        }
    }

    fn at_what_temperature(&self, results: &Results) -> String {
        match self.day.temperature.get() {
            Some(temperature) => format!("At {}.", results.print(temperature.celsius(), Kind::Temperature)),
            None => "On the logged temperature.".to_owned(),
        }
    }

    /// How the cure is carried from one temperature to another, in words.
    fn law_in_words(&self) -> String {
        let table = self.times.as_ref().ok().and_then(|times| times.strength.as_ref());
        let Some(table) = table else { return String::new() };
        let energy =
            quantity::print(table.law().activation_j_mol(), Kind::ActivationEnergy, quantity::System::Metric);
        match table.basis() {
            ActivationBasis::TwoTemperatures { .. } => {
                format!(" Activation energy {energy}, from two temperatures of the cure table.")
            }
            ActivationBasis::DoublingRule => {
                format!(" Activation energy {energy}: the rate doubles each 10 K, common practice.")
            }
            ActivationBasis::Given => format!(" Activation energy {energy}."),
        }
    }

    /// The strength at the end of the temperature given.
    fn at_end(&self, results: &mut Results) {
        let known = self.parts().and_then(|(times, history)| {
            times.strength_at_end(history).map_err(|error| refused(&error, &self.adhesive.cure.key))
        });
        let key = || self.adhesive.cure.key.clone();
        let fraction = match known {
            Err(lack) => Err(lack),
            // A temperature without an end has no strength at its end: nothing is asked.
            Ok(StrengthAtEnd::NoEnd) => return,
            Ok(StrengthAtEnd::Known(strength)) => Ok(strength.at_least()),
            Ok(StrengthAtEnd::Missing) => Err(Lack::Missing { keys: vec![key()] }),
            Ok(StrengthAtEnd::NothingPromised { .. }) => Err(Lack::OutOfData {
                what: "the temperature lies below the least cure temperature, where the adhesive promises nothing".to_owned(),
                key: self.adhesive.least_cure_temperature.key.clone(),
            }),
        };
        results.quantities.put(&names::STRENGTH_FRACTION, &[self.joint], fraction);
    }

    /// The strength over time for a chart, as far as the table reaches.
    fn curve(&self, results: &mut Results) {
        /// Enough for a chart of any width.
        const POINTS: u32 = 200;
        let Ok((times, history)) = self.parts() else { return };
        let Some(table) = &times.strength else { return };
        let Ok(Clock::Reached { at_s: full_s }) = times.strength(history, 1.0) else { return };
        let points = (1..=POINTS).filter_map(|index| {
            // Evenly spaced in the logarithm of time over four decades, as the table is read.
            let time_s = full_s * libm::exp10(4.0 * (f64::from(index) / f64::from(POINTS) - 1.0));
            let equivalent_s = table.law().equivalent_time_s(history, time_s).ok()?;
            match table.strength_after(equivalent_s).ok()? {
                // Before the first row the table says nothing, and neither does the curve.
                Strength::LessThan { .. } => None,
                strength => Some((time_s, strength.at_least())),
            }
        });
        results.series.put(
            &names::STRENGTH_CURVE,
            &[self.joint],
            ("time from first mix", "s"),
            &points.collect::<Vec<_>>(),
        );
    }
}
