//! The clocks of the bond day: when a limit runs out and when a strength is reached.
//!
//! Everything is counted from first mix. Nothing is promised once the adhesive has been below its
//! least cure temperature, whatever the temperature does afterwards: a clock that had not run out
//! by then has no answer.

use crate::ProcessError;
use crate::arrhenius::{Arrhenius, TimeAt, doubling_activation_j_mol};
use crate::error::positive;
use crate::strength::{NeededTime, STANDARD_K, Strength, StrengthTable};
use crate::temperature::{History, Reach};

/// What an adhesive's data sheet says about time. Every entry may be missing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AdhesiveTimes {
    /// Idle limit of a mixing nozzle.
    pub nozzle_time: Option<TimeAt>,
    /// Spread to closing.
    pub open_time: Option<TimeAt>,
    /// First mix to last closing, at one or more temperatures.
    pub working_time: Vec<TimeAt>,
    /// Strength against time.
    pub strength: Option<StrengthTable>,
    /// Below this nothing is promised, K.
    pub least_cure_temperature_k: Option<f64>,
}

/// The strength fractions that mean something on the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Criteria {
    /// Fraction at which the part may be moved.
    pub handling: f64,
    /// Fraction at which the vehicle may be driven.
    pub driving: f64,
}

/// A clock's answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Clock {
    /// Reached at this time from first mix.
    Reached {
        /// Time from first mix, s.
        at_s: f64,
    },
    /// The fraction lies below the table's first row: reached no later than this.
    ReachedBy {
        /// Time from first mix at which the first row is reached, s.
        at_s: f64,
    },
    /// The history ends first.
    NotReached {
        /// End of the history, s.
        end_s: f64,
        /// Share of the way at the end of the history, below 1.
        share: f64,
    },
    /// The temperature fell below the least cure temperature first.
    NothingPromised {
        /// From this time from first mix on, s.
        below_at_s: f64,
        /// The least cure temperature, K.
        least_k: f64,
    },
    /// The strength table ends below the fraction asked for.
    BeyondTable {
        /// Greatest fraction of the table.
        last: f64,
    },
    /// The data sheet's entry is missing.
    Missing,
}

/// The strength at the end of the history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StrengthAtEnd {
    /// What the table says.
    Known(Strength),
    /// The temperature was below the least cure temperature.
    NothingPromised {
        /// From this time from first mix on, s.
        below_at_s: f64,
        /// The least cure temperature, K.
        least_k: f64,
    },
    /// No strength table.
    Missing,
    /// The temperature has no end.
    NoEnd,
}

/// All clocks of an adhesive on one history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clocks {
    /// A nozzle left idle at first mix.
    pub nozzle: Clock,
    /// A bead spread at first mix.
    pub open: Clock,
    /// Last closing.
    pub working: Clock,
    /// The part may be moved.
    pub handling: Clock,
    /// The vehicle may be driven.
    pub driving: Clock,
    /// The whole strength.
    pub full: Clock,
    /// Strength at the end of the history.
    pub at_end: StrengthAtEnd,
}

impl AdhesiveTimes {
    /// All clocks on a history.
    ///
    /// # Errors
    ///
    /// Data that are no temperature or not positive, working times that are not shorter when
    /// hotter, fractions outside 0 to 1, or a time that is no finite number.
    pub fn clocks(&self, history: &History, criteria: Criteria) -> Result<Clocks, ProcessError> {
        Ok(Clocks {
            nozzle: self.limit(history, 0.0, self.nozzle_time.as_slice())?,
            open: self.limit(history, 0.0, self.open_time.as_slice())?,
            working: self.limit(history, 0.0, &self.working_time)?,
            handling: self.strength(history, criteria.handling)?,
            driving: self.strength(history, criteria.driving)?,
            full: self.strength(history, 1.0)?,
            at_end: self.strength_at_end(history)?,
        })
    }

    /// When a limit that starts to run at `from_s` runs out: the nozzle laid down, the bead spread.
    ///
    /// ```text
    /// ∫ dt / t_w(T(t)) = 1          from `from_s` on
    /// t_w  the limit at a constant temperature T (s, K)
    /// ```
    ///
    /// The limit at a constant temperature passes through the rows, its logarithm linear in 1/T
    /// between them, and goes on beyond the outermost with the activation energy of the strength table (without one: the doubling
    /// rule). Each stretch of temperature uses up its share of the time; common practice.
    ///
    /// # Errors
    ///
    /// As [`clocks`](Self::clocks); [`ProcessError::OutsideHistory`] for the start.
    pub fn limit(&self, history: &History, from_s: f64, rows: &[TimeAt]) -> Result<Clock, ProcessError> {
        if rows.is_empty() {
            return Ok(Clock::Missing);
        }
        let law = LimitLaw::new(rows, self.activation_j_mol())?;
        let reach = history.time_to_accumulate(from_s, 1.0, |k| 1.0 / law.time_s(k))?;
        self.promised(history, clock(reach, 1.0))
    }

    /// When a strength fraction is reached.
    ///
    /// # Errors
    ///
    /// As [`clocks`](Self::clocks).
    pub fn strength(&self, history: &History, fraction: f64) -> Result<Clock, ProcessError> {
        let Some(table) = &self.strength else {
            return Ok(Clock::Missing);
        };
        let answer = match table.time_for(fraction)? {
            NeededTime::BeyondTable { last } => return Ok(Clock::BeyondTable { last }),
            NeededTime::Exactly { equivalent_s } => {
                clock(table.law().clock_time(history, equivalent_s)?, equivalent_s)
            }
            NeededTime::AtMost { equivalent_s } => {
                match clock(table.law().clock_time(history, equivalent_s)?, equivalent_s) {
                    Clock::Reached { at_s } => Clock::ReachedBy { at_s },
                    other => other,
                }
            }
        };
        self.promised(history, answer)
    }

    /// The strength at the end of the history.
    ///
    /// # Errors
    ///
    /// As [`clocks`](Self::clocks).
    pub fn strength_at_end(&self, history: &History) -> Result<StrengthAtEnd, ProcessError> {
        let Some(table) = &self.strength else {
            return Ok(StrengthAtEnd::Missing);
        };
        let Some(end_s) = history.end_s() else {
            return Ok(StrengthAtEnd::NoEnd);
        };
        if let Some((below_at_s, least_k)) = self.below(history)? {
            return Ok(StrengthAtEnd::NothingPromised { below_at_s, least_k });
        }
        let equivalent_s = table.law().equivalent_time_s(history, end_s)?;
        Ok(StrengthAtEnd::Known(table.strength_after(equivalent_s)?))
    }

    /// The activation energy that carries the limits beyond their rows, J/mol.
    fn activation_j_mol(&self) -> f64 {
        self.strength.as_ref().map_or_else(doubling_activation_j_mol, |table| table.law().activation_j_mol())
    }

    /// First time below the least cure temperature, with that temperature.
    fn below(&self, history: &History) -> Result<Option<(f64, f64)>, ProcessError> {
        let Some(least_k) = self.least_cure_temperature_k else {
            return Ok(None);
        };
        Ok(history.first_below_s(least_k)?.map(|at_s| (at_s, least_k)))
    }

    /// The answer, or that nothing is promised because the cold came first.
    fn promised(&self, history: &History, answer: Clock) -> Result<Clock, ProcessError> {
        let Some((below_at_s, least_k)) = self.below(history)? else {
            return Ok(answer);
        };
        Ok(match answer {
            Clock::Reached { at_s } | Clock::ReachedBy { at_s } if at_s <= below_at_s => answer,
            _ => Clock::NothingPromised { below_at_s, least_k },
        })
    }
}

fn clock(reach: Reach, needed: f64) -> Clock {
    match reach {
        Reach::At { time_s } => Clock::Reached { at_s: time_s },
        Reach::NotWithin { end_s, amount } => Clock::NotReached { end_s, share: amount / needed },
    }
}

/// A limit against temperature: through its rows, Arrhenius between and beyond.
struct LimitLaw {
    /// At rising temperatures and falling times; not empty.
    rows: Vec<TimeAt>,
    activation_j_mol: f64,
}

impl LimitLaw {
    fn new(rows: &[TimeAt], activation_j_mol: f64) -> Result<Self, ProcessError> {
        let mut rows = rows.iter().map(|row| row.checked()).collect::<Result<Vec<_>, _>>()?;
        positive("activation energy", activation_j_mol)?;
        rows.sort_by(|a, b| a.temperature_k.total_cmp(&b.temperature_k));
        for pair in rows.windows(2) {
            let [cold, hot] = pair else { continue };
            if hot.temperature_k <= cold.temperature_k {
                return Err(ProcessError::SameTemperature { temperature_k: hot.temperature_k });
            }
            if hot.time_s >= cold.time_s {
                return Err(ProcessError::HotterNotFaster {
                    hot_k: hot.temperature_k,
                    hot_time_s: hot.time_s,
                    cold_k: cold.temperature_k,
                    cold_time_s: cold.time_s,
                });
            }
        }
        Ok(Self { rows, activation_j_mol })
    }

    /// The limit at a constant temperature, s.
    fn time_s(&self, temperature_k: f64) -> f64 {
        let mut colder: Option<TimeAt> = None;
        for &row in &self.rows {
            if temperature_k <= row.temperature_k {
                return match colder {
                    None => self.beyond_s(row, temperature_k),
                    Some(colder) => {
                        let share = (1.0 / colder.temperature_k - 1.0 / temperature_k)
                            / (1.0 / colder.temperature_k - 1.0 / row.temperature_k);
                        colder.time_s * libm::exp(share * libm::log(row.time_s / colder.time_s))
                    }
                };
            }
            colder = Some(row);
        }
        // The rows are never empty; without one the limit would be over at once.
        colder.map_or(0.0, |hottest| self.beyond_s(hottest, temperature_k))
    }

    fn beyond_s(&self, row: TimeAt, temperature_k: f64) -> f64 {
        Arrhenius::new(row.temperature_k, self.activation_j_mol)
            .map_or(0.0, |law| row.time_s / law.rate(temperature_k))
    }
}

/// Entries that data sheets give without a temperature hold at standard room temperature, 23 °C
/// (ISO 291; common practice).
pub fn at_standard(time_s: f64) -> TimeAt {
    TimeAt { temperature_k: STANDARD_K, time_s }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::strength::Row;
    use crate::temperature::{Sample, ZERO_CELSIUS_K};
    use proptest::prelude::*;

    const HOUR_S: f64 = 3600.0;
    const DEMO: Criteria = Criteria { handling: 0.3, driving: 0.8 };

    fn kelvin(c: f64) -> f64 {
        c + ZERO_CELSIUS_K
    }

    /// The demo's adhesive (invented).
    fn demo(two_temperatures: bool) -> Result<AdhesiveTimes, ProcessError> {
        let row = |c: f64, hours: f64, fraction: f64| Row {
            temperature_k: kelvin(c),
            time_s: hours * HOUR_S,
            fraction,
        };
        let mut rows = vec![row(23.0, 8.0, 0.3), row(23.0, 24.0, 0.8), row(23.0, 168.0, 1.0)];
        if two_temperatures {
            rows.push(row(60.0, 16.0, 1.0));
        }
        Ok(AdhesiveTimes {
            nozzle_time: Some(at_standard(20.0 * 60.0)),
            open_time: Some(at_standard(60.0 * 60.0)),
            working_time: vec![at_standard(90.0 * 60.0)],
            strength: Some(StrengthTable::new(&rows, None)?),
            least_cure_temperature_k: Some(kelvin(10.0)),
        })
    }

    fn reached_s(clock: Clock) -> f64 {
        match clock {
            Clock::Reached { at_s } => at_s,
            other => panic!("expected a time, found {other:?}"),
        }
    }

    /// The demo's morning at 16 °C: driving about 40 h, closing about 150 min. Both follow from
    /// the table's own two temperatures (52.1 kJ/mol: 40.1 h, 150 min); the doubling energy of
    /// 20 to 30 °C gives 39.7 h and 149 min, the bare rule 2^(7/10) 39.0 h and 146 min.
    #[test]
    fn unit_demo_morning() -> Result<(), ProcessError> {
        let shop = History::constant(kelvin(16.0), None)?;
        let own = demo(true)?.clocks(&shop, DEMO)?;
        assert!((reached_s(own.driving) / HOUR_S - 40.1).abs() < 0.05, "{own:?}");
        assert!((reached_s(own.working) / 60.0 - 150.3).abs() < 0.1, "{own:?}");
        let rule = demo(false)?.clocks(&shop, DEMO)?;
        assert!((reached_s(rule.driving) / HOUR_S - 39.7).abs() < 0.05, "{rule:?}");
        assert!((reached_s(rule.working) / 60.0 - 148.9).abs() < 0.1, "{rule:?}");
        // Colder than 20 to 30 °C the same energy slows a little more than 2^(ΔT/10).
        let bare = 24.0 * libm::pow(2.0, 0.7);
        assert!(bare < reached_s(rule.driving) / HOUR_S);
        Ok(())
    }

    #[test]
    fn unit_end_of_the_history() -> Result<(), ProcessError> {
        let night = History::constant(kelvin(16.0), Some(14.0 * HOUR_S))?;
        let clocks = demo(true)?.clocks(&night, DEMO)?;
        assert!(reached_s(clocks.handling) < 14.0 * HOUR_S);
        let Clock::NotReached { end_s, share } = clocks.driving else {
            panic!("{:?}", clocks.driving);
        };
        assert!((end_s - 14.0 * HOUR_S).abs() < 1e-9);
        assert!((share - 14.0 / 40.07).abs() < 1e-3, "{share}");
        assert!(matches!(
            clocks.at_end,
            StrengthAtEnd::Known(Strength::Fraction { fraction }) if fraction > 0.3 && fraction < 0.8
        ));
        let endless = History::constant(kelvin(16.0), None)?;
        assert_eq!(demo(true)?.strength_at_end(&endless)?, StrengthAtEnd::NoEnd);
        Ok(())
    }

    #[test]
    fn unit_cold_voids_what_was_not_reached_before() -> Result<(), ProcessError> {
        let readings = [(0.0, 16.0), (3.0, 16.0), (4.0, 4.0), (5.0, 60.0), (60.0, 60.0)];
        let history = History::sampled(
            readings.iter().map(|&(hours, c)| Sample::celsius(hours * HOUR_S, c)).collect(),
        )?;
        let clocks = demo(true)?.clocks(&history, DEMO)?;
        assert!(reached_s(clocks.working) < 3.0 * HOUR_S);
        // 16 to 4 °C passes 10 °C after 3.5 h; the hot hours afterwards promise nothing.
        assert!(matches!(
            clocks.driving,
            Clock::NothingPromised { below_at_s, .. } if (below_at_s - 3.5 * HOUR_S).abs() < 1e-6
        ));
        assert!(matches!(clocks.at_end, StrengthAtEnd::NothingPromised { .. }));
        Ok(())
    }

    #[test]
    fn unit_missing_and_beyond() -> Result<(), ProcessError> {
        let shop = History::constant(kelvin(23.0), None)?;
        let nothing = AdhesiveTimes::default().clocks(&shop, DEMO)?;
        assert_eq!(nothing.nozzle, Clock::Missing);
        assert_eq!(nothing.working, Clock::Missing);
        assert_eq!(nothing.driving, Clock::Missing);
        assert_eq!(nothing.at_end, StrengthAtEnd::Missing);
        let short = AdhesiveTimes {
            strength: Some(StrengthTable::new(
                &[Row { temperature_k: kelvin(23.0), time_s: 8.0 * HOUR_S, fraction: 0.3 }],
                None,
            )?),
            ..AdhesiveTimes::default()
        };
        assert_eq!(short.strength(&shop, 0.8)?, Clock::BeyondTable { last: 0.3 });
        assert_eq!(short.strength(&shop, 0.2)?, Clock::ReachedBy { at_s: 8.0 * HOUR_S });
        Ok(())
    }

    #[test]
    fn unit_limit_passes_through_its_rows() -> Result<(), ProcessError> {
        let times = AdhesiveTimes::default();
        let rows = [at_standard(90.0 * 60.0), TimeAt { temperature_k: kelvin(10.0), time_s: 200.0 * 60.0 }];
        for row in rows {
            let history = History::constant(row.temperature_k, None)?;
            let at_s = reached_s(times.limit(&history, 0.0, &rows)?);
            assert!((at_s - row.time_s).abs() < 1e-6, "{at_s}");
            let later_s = reached_s(times.limit(&history, 600.0, &rows)?);
            assert!((later_s - row.time_s - 600.0).abs() < 1e-6, "{later_s}");
        }
        let contradicting = [rows[0], TimeAt { temperature_k: kelvin(40.0), time_s: 6000.0 }];
        assert!(matches!(
            times.limit(&History::constant(kelvin(23.0), None)?, 0.0, &contradicting),
            Err(ProcessError::HotterNotFaster { .. })
        ));
        Ok(())
    }

    /// A clock as a number that grows with lateness: not reached in the history is later than any
    /// time in it, and nothing promised is latest.
    fn lateness(clock: Clock) -> f64 {
        match clock {
            Clock::Reached { at_s } | Clock::ReachedBy { at_s } => at_s,
            // Less of the way done is later.
            Clock::NotReached { end_s, share } => end_s + (1.0 - share),
            Clock::NothingPromised { .. } | Clock::BeyondTable { .. } | Clock::Missing => f64::INFINITY,
        }
    }

    proptest! {
        /// Colder at every moment never shortens any clock and never gives more strength.
        #[test]
        fn law_colder_never_shortens(
            readings in prop::collection::vec((5.0..60.0_f64, 0.0..15.0_f64), 2..8),
            step_s in 600.0..20_000.0_f64,
            handling in 0.05..1.0_f64,
            driving in 0.05..1.0_f64,
            two_temperatures: bool,
            second_working_row: bool,
        ) {
            let log = |drop: f64| History::sampled(
                readings.iter().zip(0_u32..)
                    .map(|(&(c, d), i)| Sample::celsius(f64::from(i) * step_s, c - drop * d))
                    .collect(),
            );
            let mut times = demo(two_temperatures)?;
            if second_working_row {
                times.working_time.push(TimeAt { temperature_k: kelvin(35.0), time_s: 1500.0 });
            }
            let criteria = Criteria { handling, driving };
            let warm = times.clocks(&log(0.0)?, criteria)?;
            let cold = times.clocks(&log(1.0)?, criteria)?;
            for (warm, cold) in [
                (warm.nozzle, cold.nozzle),
                (warm.open, cold.open),
                (warm.working, cold.working),
                (warm.handling, cold.handling),
                (warm.driving, cold.driving),
                (warm.full, cold.full),
            ] {
                // 1e-9: rounding where the two histories are nearly equal.
                prop_assert!(lateness(cold) >= lateness(warm) * (1.0 - 1e-9), "{warm:?} {cold:?}");
            }
            let least = |at_end: StrengthAtEnd| match at_end {
                StrengthAtEnd::Known(strength) => strength.at_least(),
                _ => 0.0,
            };
            prop_assert!(least(cold.at_end) <= least(warm.at_end) + 1e-9);
        }
    }
}
