//! Gaps of a temperature log, and the two histories between which they leave the truth.

use crate::ProcessError;
use crate::error::positive;
use crate::temperature::{History, Sample};

/// How fast the temperature is taken to leave and to reach the readings around a gap, s: at once, as far as
/// a history that is linear between samples can.
const STEP_S: f64 = 1.0;

/// An interval of a log without a reading inside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Last reading before the gap, s.
    pub from_s: f64,
    /// First reading after it, s.
    pub to_s: f64,
}

/// The coldest and the warmest history that a log with gaps allows.
#[derive(Debug, Clone, PartialEq)]
pub struct Bracket {
    /// The gaps, in order.
    pub gaps: Vec<Gap>,
    /// As cold in every gap as the log ever was.
    pub coldest: History,
    /// As warm in every gap as the log ever was.
    pub warmest: History,
}

impl History {
    /// The intervals between readings that are longer than `longest_gap_s`, as far as they lie
    /// after first mix. A constant temperature has none.
    ///
    /// # Errors
    ///
    /// [`ProcessError::NotPositive`] for the longest gap.
    pub fn gaps(&self, longest_gap_s: f64) -> Result<Vec<Gap>, ProcessError> {
        positive("longest gap", longest_gap_s)?;
        Ok(self.readings().windows(2).filter_map(|pair| gap(pair, longest_gap_s)).collect())
    }

    /// The two histories that differ from this one in its gaps alone: there one has the coldest, the other
    /// the warmest temperature of the whole log. `None` where there is no gap.
    ///
    /// What the temperature did in a gap is not known; that it stayed within what the log shows elsewhere is
    /// an assumption, and every clock read on both says how much hangs on it. A clock of which colder never
    /// shortens the answer has it between the two.
    ///
    /// # Errors
    ///
    /// [`ProcessError::NotPositive`] for the longest gap.
    pub fn bracket(&self, longest_gap_s: f64) -> Result<Option<Bracket>, ProcessError> {
        let gaps = self.gaps(longest_gap_s)?;
        if gaps.is_empty() {
            return Ok(None);
        }
        let temperatures = self.readings().iter().map(|reading| reading.temperature_k);
        let coldest_k = temperatures.clone().fold(f64::INFINITY, f64::min);
        let warmest_k = temperatures.fold(0.0, f64::max);
        Ok(Some(Bracket {
            coldest: self.filled(longest_gap_s, coldest_k)?,
            warmest: self.filled(longest_gap_s, warmest_k)?,
            gaps,
        }))
    }

    /// The same history with one temperature in each of its gaps.
    fn filled(&self, longest_gap_s: f64, temperature_k: f64) -> Result<Self, ProcessError> {
        let mut samples: Vec<Sample> = self.readings().first().copied().into_iter().collect();
        for pair in self.readings().windows(2) {
            if let Some(gap) = gap(pair, longest_gap_s) {
                let step_s = STEP_S.min((gap.to_s - gap.from_s) / 4.0);
                samples.push(Sample { time_s: gap.from_s + step_s, temperature_k });
                samples.push(Sample { time_s: gap.to_s - step_s, temperature_k });
            }
            samples.extend(pair.last());
        }
        let filled = Self::sampled(samples)?;
        Ok(if self.end_s().is_none() { filled.held() } else { filled })
    }
}

fn gap(pair: &[Sample], longest_gap_s: f64) -> Option<Gap> {
    match pair {
        [a, b] if b.time_s > 0.0 && b.time_s - a.time_s > longest_gap_s => {
            Some(Gap { from_s: a.time_s, to_s: b.time_s })
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::temperature::ZERO_CELSIUS_K;
    use proptest::prelude::*;

    fn log(readings: &[(f64, f64)]) -> Result<History, ProcessError> {
        History::sampled(readings.iter().map(|&(time_s, c)| Sample::celsius(time_s, c)).collect())
    }

    #[test]
    fn unit_gap_is_an_interval_longer_than_the_limit() -> Result<(), ProcessError> {
        let history = log(&[(-9000.0, 4.0), (-3000.0, 4.0), (0.0, 16.0), (3600.0, 16.0), (7201.0, 15.0)])?;
        let gap = Gap { from_s: 3600.0, to_s: 7201.0 };
        assert_eq!(history.gaps(3600.0)?, vec![gap]);
        assert!(history.gaps(3601.0)?.is_empty());
        assert!(history.gaps(f64::NAN).is_err());
        Ok(())
    }

    #[test]
    fn unit_bracket_holds_the_extremes_of_the_log_in_its_gaps_only() -> Result<(), ProcessError> {
        let history = log(&[(0.0, 16.0), (600.0, 20.0), (9000.0, 14.0), (9600.0, 10.0)])?;
        assert_eq!(history.bracket(9000.0)?, None);
        let Some(bracket) = history.bracket(3600.0)? else { panic!("a gap") };
        let celsius = |history: &History, time_s| history.temperature_k(time_s).map(|k| k - ZERO_CELSIUS_K);
        for (history, in_gap) in [(&bracket.coldest, 10.0), (&bracket.warmest, 20.0)] {
            for (time_s, expected) in [(300.0, 18.0), (4000.0, in_gap), (8999.0, in_gap), (9300.0, 12.0)] {
                let found = celsius(history, time_s);
                assert!(found.is_some_and(|c| (c - expected).abs() < 1e-9), "{time_s}: {found:?}");
            }
        }
        assert_eq!(bracket.gaps, [Gap { from_s: 600.0, to_s: 9000.0 }]);
        assert_eq!(History::constant(290.0, None)?.bracket(3600.0)?, None);
        Ok(())
    }

    proptest! {
        /// Whatever is in the gaps between the log's extremes, the bracket holds it at every moment.
        #[test]
        fn law_bracket_holds_the_log(
            readings in prop::collection::vec((60.0..20_000.0_f64, -10.0..60.0_f64), 2..12),
            at in 0.0..1.0_f64,
        ) {
            let mut time_s = 0.0;
            let samples = readings.iter().map(|&(step_s, c)| {
                let sample = Sample::celsius(time_s, c);
                time_s += step_s;
                sample
            });
            let history = History::sampled(samples.collect())?;
            if let Some(bracket) = history.bracket(3600.0)? {
                let moment_s = at * history.end_s().unwrap_or(0.0);
                let [cold, linear, warm] = [&bracket.coldest, &history, &bracket.warmest]
                    .map(|history| history.temperature_k(moment_s).unwrap_or(f64::NAN));
                prop_assert!(cold <= linear + 1e-9 && linear <= warm + 1e-9, "{cold} {linear} {warm}");
                prop_assert_eq!(bracket.coldest.end_s(), history.end_s());
            }
        }
    }
}
