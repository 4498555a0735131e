//! Stages of heat, from a lamp or in an oven, on top of the temperature of the shop.

use crate::ProcessError;
use crate::error::{not_negative, positive, within};
use crate::temperature::{History, Sample, checked_k};

/// A step of temperature takes this long, s: at once, as far as a history that is linear between samples can.
const STEP_S: f64 = 1.0;

/// One stage of heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// The heat goes on, s from first mix.
    pub from_s: f64,
    /// The heat goes off, s from first mix.
    pub until_s: f64,
    /// From going on until the parts have the stage's temperature, s; the temperature rises evenly.
    pub ramp_s: f64,
    /// Temperature of the parts from then on, K.
    pub temperature_k: f64,
}

impl Stage {
    /// How long the parts are at the stage's temperature, s.
    pub fn hold_s(&self) -> f64 {
        self.until_s - self.from_s - self.ramp_s
    }

    fn checked(&self) -> Result<(), ProcessError> {
        not_negative("start of a heating stage", self.from_s)?;
        let length_s = positive("length of a heating stage", self.until_s - self.from_s)?;
        within("ramp of a heating stage", self.ramp_s, 0.0, length_s)?;
        checked_k(self.temperature_k).map(drop)
    }
}

/// The base with stages of heat on top of it.
///
/// In a stage the parts warm up evenly along its ramp from what they had, and then have its temperature,
/// whatever the base says. When the heat goes off they are back on the base at once: what is left of the heat
/// while they cool down is not counted, so no clock is shortened by it. A stage that begins when another ends
/// goes on from that one's temperature.
///
/// # Errors
///
/// A stage before first mix, without length, with a ramp longer than itself, or of no temperature;
/// [`ProcessError::TimesNotRising`] where a stage begins before the one before it ends;
/// [`ProcessError::OutsideHistory`] where one ends after the base.
pub fn heated(base: &History, stages: &[Stage]) -> Result<History, ProcessError> {
    let Some(last) = stages.last() else { return Ok(base.clone()) };
    for stage in stages {
        stage.checked()?;
        base.covers(stage.until_s)?;
    }
    for (index, pair) in stages.windows(2).enumerate() {
        if let [before, after] = pair
            && after.from_s < before.until_s
        {
            let (before_s, time_s) = (before.until_s, after.from_s);
            return Err(ProcessError::TimesNotRising { index: index + 1, before_s, time_s });
        }
    }
    let corners = corners(base);
    let mut samples = Samples(Vec::new());
    let mut before: Option<&Stage> = None;
    for stage in stages {
        if before.is_none_or(|before| stage.from_s > before.until_s + STEP_S) {
            samples.base(base, &corners, before, stage.from_s);
        }
        samples.push(stage.from_s + stage.ramp_s.max(STEP_S), stage.temperature_k);
        samples.push(stage.until_s, stage.temperature_k);
        before = Some(stage);
    }
    match base.end_s() {
        Some(end_s) => {
            if end_s > last.until_s {
                samples.base(base, &corners, before, end_s);
            }
            History::sampled(samples.0)
        }
        None => {
            let behind_s = corners.last().map_or(last.until_s, |corner| corner.time_s.max(last.until_s));
            samples.base(base, &corners, before, behind_s + 2.0 * STEP_S);
            Ok(History::sampled(samples.0)?.held())
        }
    }
}

/// The times at which the base's temperature bends, with its temperature.
fn corners(base: &History) -> Vec<Sample> {
    let at = |time_s, temperature_k| Sample { time_s, temperature_k };
    base.segments().map(|segment| at(segment.from_s, segment.from_k)).collect()
}

/// Samples at rising times.
struct Samples(Vec<Sample>);

impl Samples {
    /// Adds a sample, unless its time has passed.
    fn push(&mut self, time_s: f64, temperature_k: f64) {
        if self.0.last().is_none_or(|last| time_s > last.time_s) {
            self.0.push(Sample { time_s, temperature_k });
        }
    }

    /// Follows the base from behind a stage, or from first mix, up to a time.
    fn base(&mut self, base: &History, corners: &[Sample], behind: Option<&Stage>, to_s: f64) {
        let from_s = behind.map_or(0.0, |stage| (stage.until_s + STEP_S).min(to_s));
        let ends = [from_s, to_s].map(|time_s| (time_s, base.temperature_k(time_s)));
        let [(_, first), (_, last)] = ends;
        if let Some(first) = first {
            self.push(from_s, first);
        }
        for corner in corners.iter().filter(|corner| corner.time_s > from_s && corner.time_s < to_s) {
            self.push(corner.time_s, corner.temperature_k);
        }
        if let Some(last) = last {
            self.push(to_s, last);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arrhenius::TimeAt;
    use crate::clocks::{AdhesiveTimes, Clock};
    use crate::strength::{Row, StrengthTable};
    use crate::temperature::ZERO_CELSIUS_K;
    use proptest::prelude::*;

    const HOUR_S: f64 = 3600.0;

    fn kelvin(c: f64) -> f64 {
        c + ZERO_CELSIUS_K
    }

    fn stage(from_h: f64, until_h: f64, ramp_h: f64, c: f64) -> Stage {
        let [from_s, until_s, ramp_s] = [from_h, until_h, ramp_h].map(|hours| hours * HOUR_S);
        Stage { from_s, until_s, ramp_s, temperature_k: kelvin(c) }
    }

    fn celsius(history: &History, hours: f64) -> f64 {
        history.temperature_k(hours * HOUR_S).map_or(f64::NAN, |k| k - ZERO_CELSIUS_K)
    }

    #[test]
    fn unit_lamp_on_a_constant_shop() -> Result<(), ProcessError> {
        let shop = History::constant(kelvin(16.0), None)?;
        let history = heated(&shop, &[stage(2.0, 8.0, 1.0, 60.0)])?;
        assert_eq!(history.end_s(), None);
        for (hours, expected) in
            [(0.0, 16.0), (2.0, 16.0), (2.5, 38.0), (3.0, 60.0), (8.0, 60.0), (8.001, 16.0), (900.0, 16.0)]
        {
            assert!((celsius(&history, hours) - expected).abs() < 1e-9, "{hours}");
        }
        let night = History::constant(kelvin(16.0), Some(8.0 * HOUR_S))?;
        assert_eq!(heated(&night, &[stage(2.0, 8.0, 1.0, 60.0)])?.end_s(), Some(8.0 * HOUR_S));
        Ok(())
    }

    #[test]
    fn unit_two_steps_on_a_log() -> Result<(), ProcessError> {
        let readings = [(-1.0, 14.0), (1.0, 16.0), (4.0, 10.0), (12.0, 18.0)];
        let log = History::sampled(readings.map(|(h, c)| Sample::celsius(h * HOUR_S, c)).to_vec())?;
        let history = heated(&log, &[stage(2.0, 5.0, 1.0, 40.0), stage(5.0, 8.0, 0.0, 60.0)])?;
        // The log bends at 1, 4 h; the second stage starts from the first, and then the log goes on.
        for (hours, expected) in [
            (0.0, 15.0),
            (1.0, 16.0),
            (2.0, 14.0),
            (2.5, 27.0),
            (4.9, 40.0),
            (5.1, 60.0),
            (8.0, 60.0),
            (10.0, 16.0),
        ] {
            assert!(
                (celsius(&history, hours) - expected).abs() < 1e-9,
                "{hours}: {}",
                celsius(&history, hours)
            );
        }
        assert_eq!(history.end_s(), log.end_s());
        Ok(())
    }

    #[test]
    fn unit_refusals() -> Result<(), ProcessError> {
        let shop = History::constant(kelvin(16.0), Some(10.0 * HOUR_S))?;
        for stages in [
            vec![stage(2.0, 2.0, 0.0, 60.0)],
            vec![stage(-1.0, 2.0, 0.0, 60.0)],
            vec![stage(2.0, 4.0, 3.0, 60.0)],
            vec![stage(2.0, 4.0, 1.0, -300.0)],
            vec![stage(2.0, 11.0, 1.0, 60.0)],
            vec![stage(2.0, 6.0, 1.0, 60.0), stage(5.0, 8.0, 1.0, 60.0)],
            vec![stage(f64::NAN, 6.0, 1.0, 60.0)],
        ] {
            assert!(heated(&shop, &stages).is_err(), "{stages:?}");
        }
        assert_eq!(heated(&shop, &[])?, shop);
        Ok(())
    }

    /// The demo's adhesive (invented).
    fn demo() -> Result<AdhesiveTimes, ProcessError> {
        let row = |c: f64, hours: f64, fraction: f64| Row {
            temperature_k: kelvin(c),
            time_s: hours * HOUR_S,
            fraction,
        };
        let rows = [row(23.0, 8.0, 0.3), row(23.0, 24.0, 0.8), row(23.0, 168.0, 1.0), row(60.0, 16.0, 1.0)];
        Ok(AdhesiveTimes {
            working_time: vec![TimeAt { temperature_k: kelvin(23.0), time_s: 1.5 * HOUR_S }],
            strength: Some(StrengthTable::new(&rows, None)?),
            ..AdhesiveTimes::default()
        })
    }

    fn at_s(clock: Clock) -> f64 {
        match clock {
            Clock::Reached { at_s } | Clock::ReachedBy { at_s } => at_s,
            other => panic!("{other:?}"),
        }
    }

    proptest! {
        /// "Clock answers monotone: colder never shortens any of them": a stage that is less warm, later,
        /// shorter or slower never shortens a clock, and heat after closing leaves the working time alone.
        #[test]
        fn law_less_heat_never_shortens(
            from in 3.0..10.0_f64, length in 1.0..20.0_f64, ramp in 0.0..1.0_f64, warm in 20.0..80.0_f64,
            less in 0.0..1.0_f64, which in 0..4_u8, fraction in 0.3..1.0_f64,
        ) {
            let shop = History::constant(kelvin(16.0), None)?;
            let (from, until, ramp) = (from, from + length, ramp * length);
            let full = stage(from, until, ramp, warm);
            let lesser = match which {
                0 => stage(from, until, ramp, 16.0 + (warm - 16.0) * less),
                1 => stage(from, from + ramp + (length - ramp) * less.max(0.01), ramp, warm),
                2 => stage(from, until, ramp + (length - ramp) * less, warm),
                _ => stage(from + length * less * 0.5, until, ramp * 0.5, warm),
            };
            let times = demo()?;
            let [more, fewer] = [heated(&shop, &[full])?, heated(&shop, &[lesser])?];
            // The later start of the fourth keeps pace only if its ramp does not end before the full one's.
            if which < 3 || from + length * less * 0.5 + ramp * 0.5 >= from + ramp {
                let [quick, slow] = [&more, &fewer].map(|history| times.strength(history, fraction));
                prop_assert!(at_s(slow?) >= at_s(quick?) * (1.0 - 1e-9));
            }
            let working = |history: &History| times.limit(history, 0.0, &times.working_time).map(at_s);
            prop_assert!((working(&more)? - working(&shop)?).abs() < 1e-6);
        }
    }
}
