//! Jumps of a temperature log: changes that no bonded part makes, but a sensor that was moved, touched or broken.

use crate::temperature::{History, Sample};

/// The least change that is called a jump, K: noise and draughts stay below. Ours, no source.
const LEAST_K: f64 = 15.0;

/// Faster than this no part of some mass follows its surroundings, K/s: a sheet of aluminium of 2 mm that is put
/// into an oven 40 K warmer starts with about a third of it (40 W/(m² K) on 4.9 kJ/(m² K)). Ours, no source.
const FASTEST_K_PER_S: f64 = 1.0;

/// A single reading that far from both its neighbours stands alone where they are no further than this from it,
/// s: a part does not warm and cool again between two samples. Ours, no source.
const ALONE_S: f64 = 900.0;

/// A change from one reading to the next that is no change of the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Jump {
    /// The reading before, s.
    pub from_s: f64,
    /// The reading to which it jumps, s.
    pub to_s: f64,
    /// By how much, K; negative to the cold.
    pub by_k: f64,
}

impl History {
    /// The jumps after first mix: a change of at least 15 K, either faster than 1 K/s, or to a single reading
    /// from which the next goes back by as much. A constant temperature has none.
    ///
    /// What is found is only told: which readings are wrong, nobody can tell from the log.
    pub fn jumps(&self) -> Vec<Jump> {
        let readings = self.readings();
        let pairs = readings.windows(2).zip(readings.iter().skip(2).map(Some).chain([None]));
        pairs
            .filter_map(|(pair, next)| {
                let [before, at] = pair else { return None };
                let jump = Jump { from_s: before.time_s, to_s: at.time_s, by_k: change_k(before, at) };
                let lasts_s = jump.to_s - jump.from_s;
                let fast = jump.by_k.abs() > FASTEST_K_PER_S * lasts_s;
                let alone = next.is_some_and(|next| {
                    lasts_s <= ALONE_S
                        && next.time_s - at.time_s <= ALONE_S
                        && change_k(at, next).abs() >= LEAST_K
                        && (change_k(at, next) > 0.0) != (jump.by_k > 0.0)
                });
                (jump.to_s > 0.0 && jump.by_k.abs() >= LEAST_K && (fast || alone)).then_some(jump)
            })
            .collect()
    }
}

fn change_k(before: &Sample, after: &Sample) -> f64 {
    after.temperature_k - before.temperature_k
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ProcessError;
    use proptest::prelude::*;

    fn jumps(readings: &[(f64, f64)]) -> Result<Vec<(f64, f64)>, ProcessError> {
        let history =
            History::sampled(readings.iter().map(|&(time_s, c)| Sample::celsius(time_s, c)).collect())?;
        Ok(history.jumps().iter().map(|jump| (jump.to_s, (jump.by_k * 1e6).round() / 1e6)).collect())
    }

    #[test]
    fn unit_a_reading_that_stands_alone_is_a_jump() -> Result<(), ProcessError> {
        let log = [(0.0, 16.0), (600.0, 16.2), (1200.0, 80.0), (1800.0, 16.1), (2400.0, 16.0)];
        assert_eq!(jumps(&log)?, [(1200.0, 63.8)]);
        let cold = [(0.0, 23.0), (60.0, -40.0), (120.0, 23.0)];
        assert_eq!(jumps(&cold)?, [(60.0, -63.0), (120.0, 63.0)]);
        Ok(())
    }

    #[test]
    fn unit_a_change_faster_than_any_part_is_a_jump() -> Result<(), ProcessError> {
        // The sensor falls off the hot part and stays where it fell.
        assert_eq!(jumps(&[(0.0, 60.0), (10.0, 60.0), (20.0, 22.0), (30.0, 22.0)])?, [(20.0, -38.0)]);
        Ok(())
    }

    #[test]
    fn unit_heat_and_cold_are_no_jumps() -> Result<(), ProcessError> {
        // Into an oven and out again, by a logger of ten minutes; a lamp, by one of an hour; the log before first mix.
        assert!(
            jumps(&[(0.0, 16.0), (600.0, 55.0), (1200.0, 60.0), (1800.0, 60.0), (2400.0, 30.0)])?.is_empty()
        );
        assert!(jumps(&[(0.0, 16.0), (3600.0, 40.0), (7200.0, 16.0)])?.is_empty());
        assert!(jumps(&[(-20.0, 60.0), (-10.0, 16.0), (600.0, 16.0)])?.is_empty());
        assert!(History::constant(290.0, None)?.jumps().is_empty());
        Ok(())
    }

    proptest! {
        /// Noise of a sensor below the least change is never one.
        #[test]
        fn law_noise_is_no_jump(readings in prop::collection::vec((1.0..600.0_f64, 0.0..14.9_f64), 2..20)) {
            let mut time_s = 0.0;
            let log: Vec<(f64, f64)> = readings.iter().map(|&(step_s, c)| { time_s += step_s; (time_s - 600.0, c) }).collect();
            prop_assume!(log.last().is_some_and(|(time_s, _)| *time_s > 0.0) && log[0].0 <= 0.0);
            prop_assert!(jumps(&log)?.is_empty());
        }
    }
}
