//! The clocks of one joint's adhesive at the temperature given.

use assessment::{Basis, Finding, Known, Lack, Measure, Name, Next, Stage, Verdict, names};
use job::Job;
use job::tables::{Adhesive, BondDay};
use process::arrhenius::TimeAt;
use process::clocks::{AdhesiveTimes, Clock, StrengthAtEnd};
use process::strength::{ActivationBasis, Row, Strength, StrengthTable};
use process::temperature::History;
use quantity::{Kind, Time};

use super::answer::{Answer, Asked, too_cold};
use super::history::{Temperatures, refused};
use super::plan::{self, Plan};
use super::{batch, conversion, steps, taken};
use crate::Results;

/// The temperature at which data sheets state times without one: 23 °C, the standard atmosphere 23/50 of
/// ISO 291:2008 (from memory).
pub(super) const STANDARD_K: f64 = 296.15;

/// Two shares of the strength that agree to this are one; a cure table has fewer digits.
const SAME_FRACTION: f64 = 1e-6;

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
/// The planned closing; it is held against the working time and has no time of its own.
const CLOSING: Meaning = Meaning {
    name: &names::WORKING_TIME,
    id: "closing",
    what: "Whether the closing fits the working time",
    reached: "",
    basis: "planned closing against the working time of the adhesive, equivalent time",
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
pub(super) fn run(
    job: &Job,
    day: &BondDay,
    joint: &str,
    temperatures: &Known<Temperatures>,
    results: &mut Results,
) {
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
    let clock = Clockwork { day, joint, adhesive, temperatures, times: times(adhesive) };
    let key = adhesive.nozzle_time.key.as_str();
    clock.limit(&NOZZLE, key, |times| times.nozzle_time.as_slice().to_vec(), results);
    let key = adhesive.open_time.key.as_str();
    clock.limit(&OPEN, key, |times| times.open_time.as_slice().to_vec(), results);
    let key = adhesive.working_time.key.as_str();
    let working = clock.limit(&WORKING, key, |times| times.working_time.clone(), results);
    clock.closing(&working, results);
    clock.strength(&HANDLING, &day.handling.need().copied().map_err(Lack::from), day.moved_by.get(), results);
    clock.strength(&DRIVING, &day.driving.need().copied().map_err(Lack::from), day.driven_by.get(), results);
    clock.strength(&FULL, &Ok(1.0), None, results);
    clock.at_end(results);
    clock.curve(results);
    steps::put(day, joint, temperatures, results);
    taken::of_adhesive(adhesive_name(job, joint), adhesive, temperatures, results);
    conversion::run(day, joint, adhesive, temperatures, results);
    batch::run(day, joint, adhesive, results);
}

fn adhesive_of<'j>(job: &'j Job, joint: &str) -> Option<&'j Adhesive> {
    job.tables.adhesives.referred(job.tables.joints.get(joint)?.adhesive()).ok()
}

fn adhesive_name<'j>(job: &'j Job, joint: &str) -> &'j str {
    job.tables.joints.get(joint).and_then(|joint| joint.adhesive().get()).map_or("", String::as_str)
}

/// Whether the law of an adhesive is the doubling of the rate, for want of data at two temperatures.
pub(super) fn doubles_each_10_k(adhesive: &Adhesive) -> bool {
    let Ok(times) = times(adhesive) else { return false };
    match &times.strength {
        Some(table) => table.basis() == ActivationBasis::DoublingRule,
        None => !(times.nozzle_time.is_none() && times.open_time.is_none() && times.working_time.is_empty()),
    }
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
    temperatures: &'j Known<Temperatures>,
    times: Known<AdhesiveTimes>,
}

impl Clockwork<'_> {
    fn parts(&self) -> Known<(&AdhesiveTimes, &Temperatures)> {
        Ok((self.times.as_ref().map_err(Lack::clone)?, self.temperatures.as_ref().map_err(Lack::clone)?))
    }

    fn asked<'a>(&'a self, key: &'a str) -> Asked<'a> {
        Asked { day: self.day, adhesive: self.adhesive, key }
    }

    /// A limit that runs out.
    fn limit(
        &self,
        meaning: &Meaning,
        key: &str,
        rows: impl Fn(&AdhesiveTimes) -> Vec<TimeAt>,
        results: &mut Results,
    ) -> Answer {
        let asked = self.asked(key);
        let answer = match self.parts() {
            Ok((times, temperatures)) => {
                let rows = rows(times);
                asked.read(&temperatures.parts, |history| times.limit(history, 0.0, &rows), results)
            }
            Err(lack) => Answer::Lacking(lack),
        };
        results.quantities.put(meaning.name, &[self.joint], asked.known(&answer));
        let finding = started(meaning, self.joint, self.day);
        results.findings.push(match &answer {
            Answer::At { at_s, .. } => Finding {
                statement: format!("{} {}.", meaning.reached, results.print(*at_s, Kind::Time)),
                value: Some(Measure::of(*at_s, Kind::Time)),
                because: self.at_what_temperature(results),
                ..finding
            },
            other => self.untold(finding, meaning.what, other, results),
        });
        answer
    }

    /// The time that closing is planned to take against the working time, where it is planned.
    fn closing(&self, working: &Answer, results: &mut Results) {
        let Some(takes) = self.day.closing_takes.get() else { return };
        let finding = Finding {
            place: self.day.closing_takes.place().cloned(),
            ..started(&CLOSING, self.joint, self.day)
        };
        let takes_s = takes.seconds();
        results.findings.push(match working {
            Answer::At { at_s, .. } => {
                let met = takes_s <= *at_s;
                let print = |time_s| results.print(time_s, Kind::Time);
                Finding {
                    statement: format!(
                        "Closing {} takes {}; the working time is {}.",
                        self.joint,
                        print(takes_s),
                        print(*at_s)
                    ),
                    value: Some(Measure::of(takes_s, Kind::Time)),
                    limit: Some(Measure::of(*at_s, Kind::Time)),
                    verdict: if met { Verdict::Met } else { Verdict::NotMet },
                    because: self.at_what_temperature(results),
                    next: (!met).then(|| self.close_in_time(takes_s, results)),
                    ..finding
                }
            }
            other => self.untold(finding, CLOSING.what, other, results),
        });
    }

    /// What makes closing fit the working time.
    fn close_in_time(&self, takes_s: f64, results: &Results) -> Next {
        match self.parts() {
            Ok((times, temperatures)) => {
                plan::close_in_time(&Plan { day: self.day, times, temperatures }, takes_s, results)
            }
            Err(lack) => lack.remedy().into(),
        }
    }

    /// A strength that is reached, by a moment that may be required.
    fn strength(&self, meaning: &Meaning, fraction: &Known<f64>, by: Option<&Time>, results: &mut Results) {
        let asked = self.asked(&self.adhesive.cure.key);
        let answer = match (fraction, self.parts()) {
            (Ok(fraction), Ok((times, temperatures))) => {
                asked.read(&temperatures.parts, |history| times.strength(history, *fraction), results)
            }
            (Err(lack), _) => Answer::Lacking(lack.clone()),
            (_, Err(lack)) => Answer::Lacking(lack),
        };
        results.quantities.put(meaning.name, &[self.joint], asked.known(&answer));
        let finding = started(meaning, self.joint, self.day);
        results.findings.push(match (&answer, fraction) {
            (Answer::At { at_s, at_latest }, Ok(fraction)) => {
                let latest = if *at_latest { "at the latest " } else { "" };
                let late = by.filter(|by| *at_s > by.seconds());
                Finding {
                    statement: format!(
                        "{} {latest}{} after first mix{}.",
                        meaning.reached,
                        results.print(*at_s, Kind::Time),
                        by.map_or(String::new(), |by| format!(
                            "; it must be by {}",
                            results.print(by.seconds(), Kind::Time)
                        ))
                    ),
                    value: Some(Measure::of(*at_s, Kind::Time)),
                    limit: by.map(|by| Measure::of(by.seconds(), Kind::Time)),
                    verdict: match (by, late) {
                        (None, _) => Verdict::Note,
                        (_, Some(_)) => Verdict::NotMet,
                        (Some(_), None) => Verdict::Met,
                    },
                    because: format!(
                        "{} Needed: {:.0} % of the full strength.{}",
                        self.at_what_temperature(results),
                        fraction * 100.0,
                        self.law_in_words()
                    ),
                    next: late.and_then(|by| {
                        let (times, temperatures) = self.parts().ok()?;
                        let plan = Plan { day: self.day, times, temperatures };
                        Some(plan::reach_in_time(&plan, *fraction, by.seconds(), results))
                    }),
                    ..finding
                }
            }
            (other, _) => self.untold(finding, meaning.what, other, results),
        });
    }

    /// A clock that cannot be told; too cold is no lack of data but a requirement that is not met.
    fn untold(&self, finding: Finding, what: &str, answer: &Answer, results: &Results) -> Finding {
        let statement = format!("{what} for {} cannot be told.", self.joint);
        let (below_at_s, least) = match (answer, self.adhesive.least_cure_temperature.get()) {
            (Answer::Cold { below_at_s }, Some(least)) => (*below_at_s, least),
            (Answer::Lacking(lack), _) => return finding.unknown(statement, lack.clone()),
            _ => return finding.unknown(statement, too_cold(self.adhesive)),
        };
        Finding {
            statement: format!(
                "{what} for {} is not promised: the parts are below {} from {} after first mix.",
                self.joint,
                results.print(least.celsius(), Kind::Temperature),
                results.print(below_at_s, Kind::Time)
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
        let base = match self.day.temperature.get() {
            Some(temperature) => format!("At {}", results.print(temperature.celsius(), Kind::Temperature)),
            None => "On the logged temperature".to_owned(),
        };
        let stages = self.temperatures.as_ref().map_or(&[][..], |temperatures| &temperatures.stages);
        let heated = stages.iter().map(|stage| plan::in_words(stage, results));
        format!("{}.", std::iter::once(base).chain(heated).collect::<Vec<_>>().join(", "))
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
        let fraction = self.parts().and_then(|(times, temperatures)| {
            let [cold, warm] = temperatures.parts.at_ends(|history| self.fraction_at_end(times, history));
            match (cold?, warm?) {
                (Some(cold), Some(warm)) if (cold - warm).abs() > SAME_FRACTION => {
                    let bounds = format!(
                        "the share of the strength is {:.0} % and {:.0} %",
                        cold * 100.0,
                        warm * 100.0
                    );
                    Err(temperatures.parts.open(self.day, &bounds, results))
                }
                (cold, _) => Ok(cold),
            }
        });
        // A temperature without an end has no strength at its end: nothing is asked.
        if let Some(fraction) = fraction.transpose() {
            results.quantities.put(&names::STRENGTH_FRACTION, &[self.joint], fraction);
        }
    }

    fn fraction_at_end(&self, times: &AdhesiveTimes, history: &History) -> Known<Option<f64>> {
        let key = &self.adhesive.cure.key;
        match times.strength_at_end(history).map_err(|error| refused(&error, key))? {
            StrengthAtEnd::NoEnd => Ok(None),
            StrengthAtEnd::Known(strength) => Ok(Some(strength.at_least())),
            StrengthAtEnd::Missing => Err(Lack::Missing { keys: vec![key.clone()] }),
            StrengthAtEnd::NothingPromised { .. } => Err(too_cold(self.adhesive)),
        }
    }

    /// The strength over time for a chart, as far as the table reaches; behind a gap of the log it is not known.
    fn curve(&self, results: &mut Results) {
        /// Enough for a chart of any width.
        const POINTS: u32 = 200;
        let Ok((times, temperatures)) = self.parts() else { return };
        let Some(table) = &times.strength else { return };
        let [coldest, _] = temperatures.parts.ends();
        let known_s = temperatures.parts.gaps().first().map_or(f64::INFINITY, |gap| gap.from_s);
        let Ok(Clock::Reached { at_s: full_s }) = times.strength(coldest, 1.0) else { return };
        // Added up from point to point: a logger may have written a hundred thousand rows.
        let (mut before_s, mut equivalent_s) = (0.0, 0.0);
        let points = (1..=POINTS).filter_map(|index| {
            // Evenly spaced in the logarithm of time over four decades, as the table is read.
            let time_s = full_s * libm::exp10(4.0 * (f64::from(index) / f64::from(POINTS) - 1.0));
            if time_s > known_s {
                return None;
            }
            equivalent_s += coldest.integrate(before_s, time_s, |kelvin| table.law().rate(kelvin)).ok()?;
            before_s = time_s;
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

/// Whether an adhesive reaches its full strength in one hold at one temperature, by its cure table.
pub(super) fn cures_fully(adhesive: &Adhesive, temperature_k: f64, hold_s: f64) -> bool {
    let Ok(times) = times(adhesive) else { return false };
    let Ok(hold) = History::constant(temperature_k, Some(hold_s)) else { return false };
    matches!(times.strength(&hold, 1.0), Ok(Clock::Reached { .. }))
}
