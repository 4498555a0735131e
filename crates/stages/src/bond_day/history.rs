//! The temperature of the parts over time.

use assessment::{Basis, Finding, Known, Lack, Measure, Stage};
use job::tables::BondDay;
use process::ProcessError;
use process::gap::{Bracket, Gap};
use process::heating::{self, heated};
use process::temperature::{History, Sample};
use quantity::Kind;

use crate::Results;

/// The longest time between two samples of a log that is no gap, s.
pub(super) const LONGEST_GAP_S: f64 = 3600.0;

/// Zero on the Celsius scale, K.
pub(super) const ZERO_CELSIUS_K: f64 = 273.15;

/// One course of temperature, and what the gaps of a log leave open about it.
#[derive(Debug, Clone)]
pub(super) struct Course {
    /// With a log's gaps bridged; right only where there is no gap.
    linear: History,
    bracket: Option<Bracket>,
}

impl Course {
    fn new(linear: History, longest_gap_s: f64) -> Result<Self, ProcessError> {
        Ok(Self { bracket: linear.bracket(longest_gap_s)?, linear })
    }

    /// When it ends, s; `None` where it has no end.
    pub(super) fn end_s(&self) -> Option<f64> {
        self.linear.end_s()
    }

    /// The coldest and the warmest course that it may have been; one and the same without a gap.
    pub(super) fn ends(&self) -> [&History; 2] {
        match &self.bracket {
            Some(bracket) => [&bracket.coldest, &bracket.warmest],
            None => [&self.linear, &self.linear],
        }
    }

    /// What a reading says on the coldest and on the warmest course; asked once where they are one.
    pub(super) fn at_ends<T: Clone>(&self, read: impl Fn(&History) -> T) -> [T; 2] {
        match &self.bracket {
            Some(bracket) => [read(&bracket.coldest), read(&bracket.warmest)],
            None => {
                let answer = read(&self.linear);
                [answer.clone(), answer]
            }
        }
    }

    /// The gaps of the log.
    pub(super) fn gaps(&self) -> &[Gap] {
        self.bracket.as_ref().map_or(&[], |bracket| &bracket.gaps)
    }

    /// The same course with stages of heat; a gap that heat covers leaves nothing open.
    pub(super) fn heated(&self, stages: &[heating::Stage]) -> Result<Self, ProcessError> {
        let bracket = |bracket: &Bracket| {
            Ok(Bracket {
                gaps: bracket.gaps.clone(),
                coldest: heated(&bracket.coldest, stages)?,
                warmest: heated(&bracket.warmest, stages)?,
            })
        };
        Ok(Self {
            linear: heated(&self.linear, stages)?,
            bracket: self.bracket.as_ref().map(bracket).transpose()?,
        })
    }

    /// Why an answer that the gaps leave open is none; `bounds` says between what it lies.
    pub(super) fn open(&self, day: &BondDay, bounds: &str, results: &Results) -> Lack {
        let print = |time_s| results.print(time_s, Kind::Time);
        let gaps: Vec<String> = self
            .gaps()
            .iter()
            .take(3)
            .map(|gap| format!("between {} and {}", print(gap.from_s), print(gap.to_s)))
            .collect();
        let more = if self.gaps().len() > 3 { ", and more" } else { "" };
        Lack::OutOfData {
            what: format!(
                "the log says nothing {}{more} after first mix; with the coldest and the warmest temperature of the log there, {bounds}",
                gaps.join(", ")
            ),
            key: day.log.key.clone(),
        }
    }
}

/// The temperatures of a bond day.
pub(super) struct Temperatures {
    /// As the shop or the log gives them.
    pub(super) shop: Course,
    /// The stages of heat.
    pub(super) stages: Vec<heating::Stage>,
    /// The shop's with the stages on top.
    pub(super) parts: Course,
}

/// The temperatures that the bond day gives; gaps of a log are a finding of their own.
pub(super) fn of(
    day: &BondDay,
    log: Option<&job::TemperatureLog>,
    results: &mut Results,
) -> Known<Temperatures> {
    let shop = shop(day, log, results)?;
    let given = day.heating.get().map_or(&[][..], Vec::as_slice);
    let stages: Vec<heating::Stage> = given.iter().filter_map(stage).collect();
    if let (Some(end_s), Some(last)) = (shop.end_s(), stages.last())
        && last.until_s > end_s
    {
        let what = format!(
            "the temperature given ends {} after first mix, before the heating does",
            results.print(end_s, Kind::Time)
        );
        return Err(Lack::OutOfData { what, key: ends_at(day) });
    }
    let parts = shop.heated(&stages).map_err(|error| refused(&error, &day.heating.key))?;
    Ok(Temperatures { shop, stages, parts })
}

fn stage(stage: &job::tables::Heating) -> Option<heating::Stage> {
    Some(heating::Stage {
        from_s: stage.from.get()?.seconds(),
        until_s: stage.until.get()?.seconds(),
        ramp_s: stage.ramp_or_default().seconds(),
        temperature_k: stage.temperature.get()?.kelvin(),
    })
}

/// The key that says when the temperature ends.
pub(super) fn ends_at(day: &BondDay) -> String {
    if day.log.get().is_some() { day.log.key.clone() } else { day.until.key.clone() }
}

fn shop(day: &BondDay, log: Option<&job::TemperatureLog>, results: &mut Results) -> Known<Course> {
    let longest_s = day.longest_gap.get().map_or(LONGEST_GAP_S, |gap| gap.seconds());
    if let Some(log) = log {
        let sampled =
            log.samples.iter().map(|sample| Sample::celsius(sample.time_s, sample.temperature_c)).collect();
        let course = History::sampled(sampled)
            .and_then(|history| Course::new(history, longest_s))
            .map_err(|error| refused(&error, &day.log.key))?;
        gaps(day, &course, longest_s, log, results);
        jumps(day, &course, results);
        return Ok(course);
    }
    let temperature = day
        .temperature
        .need()
        .map_err(|_| Lack::Missing { keys: vec![format!("{} or {}", day.temperature.key, day.log.key)] })?;
    let until = day.until.get().map(|until| until.seconds());
    History::constant(temperature.kelvin(), until)
        .and_then(|history| Course::new(history, longest_s))
        .map_err(|error| refused(&error, &day.temperature.key))
}

/// An error of the process as a reason for having no number.
pub(super) fn refused(error: &ProcessError, key: &str) -> Lack {
    Lack::Failed { what: error.to_string(), advice: format!("check {key}") }
}

fn gaps(day: &BondDay, course: &Course, longest_s: f64, log: &job::TemperatureLog, results: &mut Results) {
    let widest = course.gaps().iter().map(|gap| gap.to_s - gap.from_s).fold(0.0, f64::max);
    let finding = Finding {
        place: day.log.place().cloned(),
        limit: Some(Measure::of(longest_s, Kind::Time)),
        ..Finding::new(Stage::BondDay, "bond_day.log".to_owned(), "log", Basis::YourData("temperature log"))
    };
    if course.gaps().is_empty() {
        let statement =
            format!("The temperature log has no gap longer than {}.", results.print(longest_s, Kind::Time));
        results.findings.push(Finding { statement, because: taken_for(log, results), ..finding });
        return;
    }
    let lack = course.open(day, "a clock that hangs on it is given with both answers", results);
    let count = course.gaps().len();
    let statement = format!(
        "The temperature log has {count} gap{}, the longest of {}.",
        if count == 1 { "" } else { "s" },
        results.print(widest, Kind::Time)
    );
    let told = Finding { value: Some(Measure::of(widest, Kind::Time)), ..finding }.unknown(statement, lack);
    let because = format!("{} {}", told.because, taken_for(log, results));
    results.findings.push(Finding { because, ..told });
}

/// How a log is understood: what a wrong unit or a clock that was put forward would show.
fn taken_for(log: &job::TemperatureLog, results: &Results) -> String {
    let temperatures = log.samples.iter().map(|sample| sample.temperature_c);
    let print = |celsius| results.print(celsius, Kind::Temperature);
    let coldest = print(temperatures.clone().fold(f64::INFINITY, f64::min));
    let warmest = print(temperatures.fold(f64::NEG_INFINITY, f64::max));
    let clock = if log.local_times {
        " Its times have no offset and are taken for those of a clock that was put neither forward nor back."
    } else {
        ""
    };
    format!("It runs from {coldest} to {warmest}; between its samples it is taken for linear.{clock}")
}

/// Jumps of a log are told, and leave its worth unknown; the clocks take the log as it is.
fn jumps(day: &BondDay, course: &Course, results: &mut Results) {
    let jumps = course.linear.jumps();
    let Some(greatest) = jumps.iter().max_by(|a, b| a.by_k.abs().total_cmp(&b.by_k.abs())) else { return };
    let by = results.print(greatest.by_k.abs(), Kind::TemperatureDifference);
    let at = results.print(greatest.to_s, Kind::Time);
    let within = results.print(greatest.to_s - greatest.from_s, Kind::Time);
    let count =
        if jumps.len() == 1 { "jumps once".to_owned() } else { format!("jumps {} times", jumps.len()) };
    let lack = Lack::OutOfData {
        what: format!(
            "a sensor that was moved, touched or broken jumps so, a part does not, and the clocks take the log as it is; \
             it jumps to the reading {at} after first mix"
        ),
        key: day.log.key.clone(),
    };
    let finding = Finding {
        place: day.log.place().cloned(),
        value: Some(Measure::of(greatest.by_k.abs(), Kind::TemperatureDifference)),
        ..Finding::new(
            Stage::BondDay,
            "bond_day.log_jumps".to_owned(),
            "log",
            Basis::YourData("temperature log"),
        )
    }
    .unknown(format!("The temperature log {count}, most by {by} within {within}."), lack);
    let next =
        "Look at the log there, and leave out the rows that are not the temperature of the part.".to_owned();
    results.findings.push(Finding { next: Some(next.into()), ..finding });
}

/// The mean temperature, °C: of the whole course, or of a constant one without an end. Over the gaps of a log
/// the coldest that it may have been, since a colder cure never promises more.
pub(super) fn mean_c(course: &Course) -> Known<f64> {
    let [coldest, _] = course.ends();
    let mean_k = match coldest.end_s() {
        Some(end_s) => coldest.integrate(0.0, end_s, |kelvin| kelvin).map(|sum| sum / end_s),
        None => Ok(coldest.temperature_k(0.0).unwrap_or(f64::NAN)),
    };
    let mean_k = mean_k.map_err(|error| refused(&error, "bond_day"))?;
    let lack = || Lack::Failed {
        what: "the mean temperature of the bond day is no number".to_owned(),
        advice: "check bond_day".to_owned(),
    };
    mean_k.is_finite().then_some(mean_k - ZERO_CELSIUS_K).ok_or_else(lack)
}

/// Points of the course for a chart: time, s, and temperature, °C. None stands in a gap of the log.
pub(super) fn points(temperatures: &Temperatures) -> Vec<(f64, f64)> {
    /// Enough for a chart of any width.
    const POINTS: u32 = 240;
    /// A temperature without an end is shown for a day, and for a quarter more than the heat takes.
    const DAY_S: f64 = 86_400.0;
    let course = &temperatures.parts;
    let heat_s = temperatures.stages.last().map_or(0.0, |stage| 1.25 * stage.until_s);
    let end_s = course.end_s().unwrap_or(DAY_S.max(heat_s));
    (0..=POINTS)
        .map(|index| end_s * f64::from(index) / f64::from(POINTS))
        .filter(|time_s| course.gaps().iter().all(|gap| *time_s <= gap.from_s || *time_s >= gap.to_s))
        .filter_map(|time_s| {
            course.linear.temperature_k(time_s).map(|kelvin| (time_s, kelvin - ZERO_CELSIUS_K))
        })
        .collect()
}
