//! The temperature of the parts over time.

use assessment::{Basis, Finding, Known, Lack, Measure, Stage};
use job::tables::BondDay;
use process::ProcessError;
use process::temperature::{History, Sample};
use quantity::Kind;

use crate::Results;

/// The longest time between two samples of a log that is no gap, s.
const LONGEST_GAP_S: f64 = 3600.0;

/// The history that the bond day gives; gaps of a log are a finding of their own.
pub(super) fn of(day: &BondDay, log: Option<&[job::Sample]>, results: &mut Results) -> Known<History> {
    match log {
        Some(samples) => {
            let sampled =
                samples.iter().map(|sample| Sample::celsius(sample.time_s, sample.temperature_c)).collect();
            let history = History::sampled(sampled).map_err(|error| refused(&error, &day.log.key))?;
            gaps(day, &history, results);
            Ok(history)
        }
        None => {
            let temperature = day.temperature.need().map_err(|_| Lack::Missing {
                keys: vec![format!("{} or {}", day.temperature.key, day.log.key)],
            })?;
            let until = day.until.get().map(|until| until.seconds());
            History::constant(temperature.kelvin(), until)
                .map_err(|error| refused(&error, &day.temperature.key))
        }
    }
}

/// An error of the process as a reason for having no number.
pub(super) fn refused(error: &ProcessError, key: &str) -> Lack {
    Lack::Failed { what: error.to_string(), advice: format!("check {key}") }
}

fn gaps(day: &BondDay, history: &History, results: &mut Results) {
    let longest = day.longest_gap.get().map_or(LONGEST_GAP_S, |gap| gap.seconds());
    let Ok(gaps) = history.gaps(longest) else { return };
    let widest = gaps.iter().map(|gap| gap.to_s - gap.from_s).fold(0.0, f64::max);
    let finding = Finding {
        place: day.log.place().cloned(),
        limit: Some(Measure::of(longest, Kind::Time)),
        ..Finding::new(Stage::BondDay, "bond_day.log".to_owned(), "log", Basis::YourData("temperature log"))
    };
    let Some(first) = gaps.first() else {
        let statement =
            format!("The temperature log has no gap longer than {}.", results.print(longest, Kind::Time));
        results.findings.push(Finding {
            statement,
            because: "Between its samples it is taken for linear.".to_owned(),
            ..finding
        });
        return;
    };
    let lack = Lack::OutOfData {
        what: format!(
            "the log says nothing between {} and {} after first mix",
            results.print(first.from_s, Kind::Time),
            results.print(first.to_s, Kind::Time)
        ),
        key: day.log.key.clone(),
    };
    let count = gaps.len();
    let statement = format!(
        "The temperature log has {count} gap{}, the longest of {}.",
        if count == 1 { "" } else { "s" },
        results.print(widest, Kind::Time)
    );
    results
        .findings
        .push(Finding { value: Some(Measure::of(widest, Kind::Time)), ..finding }.unknown(statement, lack));
}

/// Zero on the Celsius scale, K.
const ZERO_CELSIUS_K: f64 = 273.15;

/// The mean temperature, °C: of the whole history, or of a constant one without an end.
pub(super) fn mean_c(history: &History) -> Known<f64> {
    let mean_k = match history.end_s() {
        Some(end_s) => history.integrate(0.0, end_s, |kelvin| kelvin).map(|sum| sum / end_s),
        None => Ok(history.temperature_k(0.0).unwrap_or(f64::NAN)),
    };
    let mean_k = mean_k.map_err(|error| refused(&error, "bond_day"))?;
    let lack = || Lack::Failed {
        what: "the mean temperature of the bond day is no number".to_owned(),
        advice: "check bond_day".to_owned(),
    };
    mean_k.is_finite().then_some(mean_k - ZERO_CELSIUS_K).ok_or_else(lack)
}

/// Points of the history for a chart: time, s, and temperature, °C.
pub(super) fn points(history: &History) -> Vec<(f64, f64)> {
    /// Enough for a chart of any width.
    const POINTS: u32 = 240;
    /// A constant temperature without an end is shown for a day.
    const DAY_S: f64 = 86_400.0;
    let end_s = history.end_s().unwrap_or(DAY_S);
    (0..=POINTS)
        .filter_map(|index| {
            let time_s = end_s * f64::from(index) / f64::from(POINTS);
            history.temperature_k(time_s).map(|kelvin| (time_s, kelvin - ZERO_CELSIUS_K))
        })
        .collect()
}
