//! Tests of the temperature history.

use super::*;
use proptest::prelude::*;

fn log(readings: &[(f64, f64)]) -> Result<History, ProcessError> {
    History::sampled(readings.iter().map(|&(time_s, c)| Sample::celsius(time_s, c)).collect())
}

#[test]
fn unit_refusals_name_the_entry() {
    assert!(matches!(
        log(&[(0.0, 20.0), (60.0, 20.0), (60.0, 21.0)]),
        Err(ProcessError::TimesNotRising { index: 2, .. })
    ));
    assert!(matches!(log(&[(0.0, 20.0), (f64::NAN, 20.0)]), Err(ProcessError::TimeNotFinite { index: 1 })));
    assert!(matches!(log(&[(0.0, 20.0), (60.0, -274.0)]), Err(ProcessError::NotATemperature { .. })));
    assert!(matches!(log(&[(0.0, 20.0), (60.0, f64::INFINITY)]), Err(ProcessError::NotATemperature { .. })));
    assert!(matches!(log(&[(0.0, 20.0)]), Err(ProcessError::TooFewSamples { count: 1 })));
    assert!(matches!(log(&[(30.0, 20.0), (60.0, 20.0)]), Err(ProcessError::StartsAfterFirstMix { .. })));
    assert!(matches!(log(&[(-60.0, 20.0), (0.0, 20.0)]), Err(ProcessError::EndsBeforeFirstMix { .. })));
    assert!(History::constant(289.15, Some(0.0)).is_err());
}

#[test]
fn unit_interpolates_and_ends() -> Result<(), ProcessError> {
    let history = log(&[(-60.0, 10.0), (60.0, 20.0), (120.0, 16.0)])?;
    // Halfway through the first interval, at first mix, it is 15 °C.
    assert_eq!(history.temperature_k(0.0), Some(15.0 + ZERO_CELSIUS_K));
    assert_eq!(history.temperature_k(90.0), Some(18.0 + ZERO_CELSIUS_K));
    assert_eq!(history.temperature_k(120.0), Some(16.0 + ZERO_CELSIUS_K));
    assert_eq!(history.temperature_k(120.1), None);
    let constant = History::constant(289.15, Some(60.0))?;
    assert_eq!([0.0, 60.0, 61.0].map(|s| constant.temperature_k(s)), [Some(289.15), Some(289.15), None]);
    assert_eq!(history.temperature_k(-1.0), None);
    assert_eq!(history.end_s(), Some(120.0));
    Ok(())
}

#[test]
fn unit_first_below_finds_the_crossing() -> Result<(), ProcessError> {
    let history = log(&[(0.0, 16.0), (3600.0, 16.0), (7200.0, 4.0)])?;
    let at = history.first_below_s(10.0 + ZERO_CELSIUS_K)?;
    // 16 to 4 °C in an hour passes 10 °C after half of it.
    assert!(at.is_some_and(|at| (at - 5400.0).abs() < 1e-6), "{at:?}");
    assert_eq!(history.first_below_s(4.0 + ZERO_CELSIUS_K)?, None);
    assert_eq!(history.first_below_s(20.0 + ZERO_CELSIUS_K)?, Some(0.0));
    Ok(())
}

/// An exponential rate has a closed integral over a linear ramp.
#[test]
fn unit_integral_of_an_exponential_ramp() -> Result<(), ProcessError> {
    let history = log(&[(0.0, 4.0), (7200.0, 60.0)])?;
    let a = 0.07;
    let rate = |k: f64| libm::exp(a * (k - ZERO_CELSIUS_K));
    let exact = 7200.0 / (56.0 * a) * (libm::exp(a * 60.0) - libm::exp(a * 4.0));
    let found = history.integrate(0.0, 7200.0, rate)?;
    assert!((found / exact - 1.0).abs() < 1e-13, "{found} {exact}");
    assert!(history.integrate(0.0, 7201.0, rate).is_err());
    Ok(())
}

proptest! {
    /// A stretch of a log is the same however it is cut, and the search for its first sample misses none.
    #[test]
    fn law_stretches_add_up(
        temperatures in prop::collection::vec(-20.0..80.0_f64, 2..12),
        cuts in prop::collection::vec(0_u32..=44, 0..6),
        before in 0_u32..3,
    ) {
        let samples: Vec<Sample> = temperatures
            .iter()
            .zip(0_u32..)
            // Cuts at quarters of a step: some fall on samples.
            .map(|(&c, i)| Sample::celsius((f64::from(i) - f64::from(before)) * 400.0, c))
            .collect();
        prop_assume!(samples.last().is_some_and(|last| last.time_s > 0.0));
        let history = History::sampled(samples)?;
        let end_s = history.end_s().unwrap_or(0.0);
        let mut cuts: Vec<f64> = cuts.iter().map(|&cut| (f64::from(cut) * 100.0).min(end_s)).collect();
        cuts.extend([0.0, end_s]);
        cuts.sort_by(f64::total_cmp);
        let rate = |k: f64| libm::exp(0.07 * (k - 296.15));
        let whole = history.integrate(0.0, end_s, rate)?;
        let mut sum = 0.0;
        for pair in cuts.windows(2) {
            if let [from_s, to_s] = pair {
                sum += history.integrate(*from_s, *to_s, rate)?;
            }
        }
        prop_assert!((sum - whole).abs() <= 1e-12 * whole, "{sum} {whole}");
    }

    /// The clock is the inverse of the integral.
    #[test]
    fn law_clock_inverts_integral(
        temperatures in prop::collection::vec(-20.0..80.0_f64, 2..12),
        share in 0.0..1.0_f64,
        start in 0.0..1.0_f64,
    ) {
        let samples: Vec<Sample> = temperatures
            .iter()
            .zip(0_u32..)
            .map(|(&c, i)| Sample::celsius(f64::from(i) * 1800.0, c))
            .collect();
        let history = History::sampled(samples)?;
        let end_s = history.end_s().unwrap_or(0.0);
        let from_s = start * 0.5 * end_s;
        let rate = |k: f64| libm::exp(0.07 * (k - 296.15));
        let whole = history.integrate(from_s, end_s, rate)?;
        let Reach::At { time_s } = history.time_to_accumulate(from_s, share * whole, rate)? else {
            return Err(TestCaseError::fail("reached inside the history"));
        };
        let back = history.integrate(from_s, time_s, rate)?;
        prop_assert!((back - share * whole).abs() <= 1e-10 * whole, "{back} {}", share * whole);
        let beyond = history.time_to_accumulate(from_s, 1.001 * whole + 1.0, rate)?;
        let not_within = matches!(beyond, Reach::NotWithin { .. });
        prop_assert!(not_within, "{beyond:?}");
    }
}
