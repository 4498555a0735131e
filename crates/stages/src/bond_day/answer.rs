//! What a clock says on a course of temperature that may have gaps.

use assessment::{Known, Lack};
use job::tables::{Adhesive, BondDay};
use process::ProcessError;
use process::clocks::Clock;
use process::temperature::History;
use quantity::Kind;

use super::history::{Course, ends_at, refused};
use crate::Results;

/// The answer of a clock.
#[derive(Debug, Clone)]
pub(super) enum Answer {
    /// A time from first mix, s.
    At {
        at_s: f64,
        /// Whether it may be earlier.
        at_latest: bool,
    },
    /// None, for the parts were too cold from some time on, s.
    Cold { below_at_s: f64 },
    /// None, for another reason.
    Lacking(Lack),
}

/// What is asked, of whom.
pub(super) struct Asked<'a> {
    pub(super) day: &'a BondDay,
    pub(super) adhesive: &'a Adhesive,
    /// The key of the data that the clock reads.
    pub(super) key: &'a str,
}

impl Asked<'_> {
    /// Reads a clock on a course. Where the gaps of a log leave different answers, there is none, and the two
    /// between which it lies are named.
    pub(super) fn read(
        &self,
        course: &Course,
        clock: impl Fn(&History) -> Result<Clock, ProcessError>,
        results: &Results,
    ) -> Answer {
        let [coldest, warmest] = course.at_ends(&clock);
        match (coldest, warmest) {
            (Err(error), _) | (_, Err(error)) => Answer::Lacking(refused(&error, self.key)),
            (Ok(cold), Ok(warm)) if same(cold, warm) => self.plain(warm, results),
            (Ok(cold), Ok(warm)) => {
                let bounds = format!(
                    "the answer is {} at one end and {} at the other",
                    said(warm, results),
                    said(cold, results)
                );
                Answer::Lacking(course.open(self.day, &bounds, results))
            }
        }
    }

    fn plain(&self, clock: Clock, results: &Results) -> Answer {
        let key = self.key;
        match clock {
            Clock::Reached { at_s } => Answer::At { at_s, at_latest: false },
            Clock::ReachedBy { at_s } => Answer::At { at_s, at_latest: true },
            Clock::NothingPromised { below_at_s, .. } => Answer::Cold { below_at_s },
            Clock::NotReached { end_s, share } => Answer::Lacking(Lack::OutOfData {
                what: format!(
                    "the temperature given ends {} after first mix, at {:.0} % of the way",
                    results.print(end_s, Kind::Time),
                    share * 100.0
                ),
                key: ends_at(self.day),
            }),
            Clock::BeyondTable { last } => Answer::Lacking(Lack::OutOfData {
                what: format!("the rows of {key} end at {:.0} % of the strength", last * 100.0),
                key: key.to_owned(),
            }),
            Clock::Missing => Answer::Lacking(Lack::Missing { keys: vec![key.to_owned()] }),
        }
    }

    /// The time, for scripts.
    pub(super) fn known(&self, answer: &Answer) -> Known<f64> {
        match answer {
            Answer::At { at_s, .. } => Ok(*at_s),
            Answer::Cold { .. } => Err(too_cold(self.adhesive)),
            Answer::Lacking(lack) => Err(lack.clone()),
        }
    }
}

/// Why a cold adhesive has no number.
pub(super) fn too_cold(adhesive: &Adhesive) -> Lack {
    Lack::OutOfData {
        what: "the temperature lies below the least cure temperature, where the adhesive promises nothing"
            .to_owned(),
        key: adhesive.least_cure_temperature.key.clone(),
    }
}

/// Whether two answers are one: to a millisecond, which no clock on the wall shows. Of two that are too cold
/// the time does not matter.
fn same(a: Clock, b: Clock) -> bool {
    const MILLISECOND_S: f64 = 1e-3;
    match (a, b) {
        (Clock::Reached { at_s: a }, Clock::Reached { at_s: b })
        | (Clock::ReachedBy { at_s: a }, Clock::ReachedBy { at_s: b }) => (a - b).abs() <= MILLISECOND_S,
        (Clock::NothingPromised { .. }, Clock::NothingPromised { .. }) => true,
        (a, b) => a == b,
    }
}

fn said(clock: Clock, results: &Results) -> String {
    match clock {
        Clock::Reached { at_s } => results.print(at_s, Kind::Time),
        Clock::ReachedBy { at_s } => format!("at the latest {}", results.print(at_s, Kind::Time)),
        Clock::NotReached { share, .. } => format!("{:.0} % of the way at the end", share * 100.0),
        Clock::NothingPromised { .. } => "that nothing is promised for the cold".to_owned(),
        Clock::BeyondTable { .. } | Clock::Missing => "none".to_owned(),
    }
}
