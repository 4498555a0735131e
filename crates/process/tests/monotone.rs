//! "Clock answers monotone: colder never shortens any of them": every clock of the data sheet and every conversion
//! of the kinetics, at a constant temperature and on a log of which one stretch alone is colder.

use process::ProcessError;
use process::arrhenius::TimeAt;
use process::clocks::{AdhesiveTimes, Clock, Criteria, at_standard};
use process::glass::{DiBenedetto, Stall};
use process::kamal::{KamalSourour, Parameters};
use process::strength::{Row, StrengthTable};
use process::temperature::{History, Reach, Sample, ZERO_CELSIUS_K};
use proptest::prelude::*;

/// Rounding of two clocks that are nearly equal, as a share.
const ROUNDING: f64 = 1e-9;

/// Twice the error of an integration of the kinetics.
const INTEGRATION: f64 = 2e-8;

fn kelvin(celsius: f64) -> f64 {
    celsius + ZERO_CELSIUS_K
}

/// The demo's adhesive (invented), with as much of its data sheet as is asked.
fn adhesive(hot_row: bool, second_working_row: bool) -> Result<AdhesiveTimes, ProcessError> {
    let row = |c: f64, hours: f64, fraction: f64| Row {
        temperature_k: kelvin(c),
        time_s: hours * 3600.0,
        fraction,
    };
    let mut rows = vec![row(23.0, 8.0, 0.3), row(23.0, 24.0, 0.8), row(23.0, 168.0, 1.0)];
    rows.extend(hot_row.then(|| row(60.0, 16.0, 1.0)));
    let mut working_time = vec![at_standard(5400.0)];
    working_time.extend(second_working_row.then(|| TimeAt { temperature_k: kelvin(35.0), time_s: 1500.0 }));
    Ok(AdhesiveTimes {
        nozzle_time: Some(at_standard(1200.0)),
        open_time: Some(at_standard(3600.0)),
        working_time,
        strength: Some(StrengthTable::new(&rows, None)?),
        least_cure_temperature_k: Some(kelvin(5.0)),
    })
}

/// An epoxy of the order of the demo's (invented constants).
fn kinetics(stalls: bool) -> Result<KamalSourour, ProcessError> {
    let glass = DiBenedetto::new(kelvin(-40.0), kelvin(95.0), 0.4)?;
    let stall = stalls.then(|| Stall::new(glass, Stall::COMMON_STEEPNESS)).transpose()?;
    let parameters = Parameters {
        rate_1_per_s: 1e4,
        activation_1_j_mol: 55e3,
        rate_2_per_s: 1e5,
        activation_2_j_mol: 52e3,
        m: 0.8,
        n: 1.6,
    };
    KamalSourour::new(parameters, stall)
}

/// A clock as a number that grows with lateness: what is not reached is later than all that is, and what is not
/// promised is latest.
fn lateness(clock: Clock) -> f64 {
    match clock {
        Clock::Reached { at_s } | Clock::ReachedBy { at_s } => at_s,
        Clock::NotReached { end_s, share } => end_s + (1.0 - share),
        Clock::NothingPromised { .. } | Clock::BeyondTable { .. } | Clock::Missing => f64::INFINITY,
    }
}

fn no_clock_is_shorter(times: &AdhesiveTimes, warm: &History, cold: &History) -> Result<(), TestCaseError> {
    let criteria = Criteria { handling: 0.3, driving: 0.8 };
    let (warm, cold) = (times.clocks(warm, criteria)?, times.clocks(cold, criteria)?);
    for (warm, cold) in [
        (warm.nozzle, cold.nozzle),
        (warm.open, cold.open),
        (warm.working, cold.working),
        (warm.handling, cold.handling),
        (warm.driving, cold.driving),
        (warm.full, cold.full),
    ] {
        prop_assert!(lateness(cold) >= lateness(warm) * (1.0 - ROUNDING), "{warm:?} {cold:?}");
    }
    Ok(())
}

fn no_conversion_is_earlier(
    law: &KamalSourour,
    target: f64,
    end_s: f64,
    warm: &History,
    cold: &History,
) -> Result<(), TestCaseError> {
    let at_end = |history| law.conversion_at(history, 0.0, end_s);
    prop_assert!(at_end(cold)? <= at_end(warm)? + INTEGRATION);
    let when = |history| {
        law.time_to_conversion(history, 0.0, target).map(|reach| match reach {
            Reach::At { time_s } => time_s,
            Reach::NotWithin { .. } => f64::INFINITY,
        })
    };
    // A conversion that is known to 1e-8 is reached within a thousandth of a second at these rates.
    prop_assert!(when(cold)? >= when(warm)? - 1e-3);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn law_colder_never_shortens_at_a_constant_temperature(
        warm_c in 0.0..70.0_f64, less in 0.0..40.0_f64, target in 0.05..0.9_f64, end_h in 1.0..200.0_f64,
        hot_row: bool, second_working_row: bool, stalls: bool, ends: bool,
    ) {
        let end_s = end_h * 3600.0;
        let at = |celsius: f64| History::constant(kelvin(celsius), ends.then_some(end_s));
        let (warm, cold) = (at(warm_c)?, at(warm_c - less)?);
        no_clock_is_shorter(&adhesive(hot_row, second_working_row)?, &warm, &cold)?;
        no_conversion_is_earlier(&kinetics(stalls)?, target, end_s, &warm, &cold)?;
    }

    #[test]
    fn law_one_colder_reading_never_shortens(
        readings in prop::collection::vec(6.0..70.0_f64, 2..12),
        which in any::<prop::sample::Index>(), less in 0.0..40.0_f64,
        step_s in 600.0..20_000.0_f64, target in 0.05..0.9_f64,
        hot_row: bool, second_working_row: bool, stalls: bool, held: bool,
    ) {
        let log = |readings: &[f64]| {
            let samples = readings.iter().zip(0_u32..).map(|(&c, i)| Sample::celsius(f64::from(i) * step_s, c));
            let history = History::sampled(samples.collect())?;
            Ok::<_, ProcessError>(if held { history.held() } else { history })
        };
        let mut colder = readings.clone();
        let index = which.index(colder.len());
        if let Some(reading) = colder.get_mut(index) {
            *reading -= less;
        }
        let (warm, cold) = (log(&readings)?, log(&colder)?);
        no_clock_is_shorter(&adhesive(hot_row, second_working_row)?, &warm, &cold)?;
        let count = u32::try_from(readings.len() - 1).unwrap_or(0);
        no_conversion_is_earlier(&kinetics(stalls)?, target, f64::from(count) * step_s, &warm, &cold)?;
    }
}
