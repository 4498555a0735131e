//! The temperature the adhesive sees from first mix on.
//!
//! Either one temperature, with or without an end, or a log that is linear between its samples.
//! A [`History`] that exists is usable: finite, rising, and known from first mix (time zero).

use crate::ProcessError;
use crate::error::{finite, not_negative, positive};

/// The Celsius scale's zero, K (exact by definition).
pub const ZERO_CELSIUS_K: f64 = 273.15;

/// The greatest temperature taken for one, K. No adhesive of this trade survives it; it keeps a
/// slip in a log (a reading of 1e9) from being integrated.
pub const GREATEST_K: f64 = 1000.0;

/// Greatest change of temperature over one panel of the quadrature, K.
///
/// Five Gauss points integrate polynomials up to degree 9 exactly; the relative error for a rate
/// exp(a T) over a panel of width ΔT is about (a ΔT)¹⁰ · 5!⁴/(11 · 10!³) = 4·10⁻¹³ (a ΔT)¹⁰. With
/// a = E/(R T²), 0.2 /K at 150 kJ/mol and 300 K, and ΔT = 4 K this is 4·10⁻¹⁴.
const PANEL_K: f64 = 4.0;

/// Iterations of the safeguarded Newton search; bisection alone needs 60 for all digits.
const SEARCH_LIMIT: usize = 200;

/// One reading of a temperature log.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Time from first mix, s. May be negative: the logger ran before.
    pub time_s: f64,
    /// Temperature, K.
    pub temperature_k: f64,
}

impl Sample {
    /// A reading taken on the Celsius scale.
    pub fn celsius(time_s: f64, temperature_c: f64) -> Self {
        Self { time_s, temperature_k: temperature_c + ZERO_CELSIUS_K }
    }
}

/// When an amount that accumulates along a history is reached.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    /// Reached at this time from first mix.
    At {
        /// Time from first mix, s.
        time_s: f64,
    },
    /// The history ends first.
    NotWithin {
        /// End of the history, s.
        end_s: f64,
        /// The amount accumulated until then.
        amount: f64,
    },
}

/// A temperature history, known from first mix (time zero) to its end.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    shape: Shape,
}

#[derive(Debug, Clone, PartialEq)]
enum Shape {
    Constant {
        temperature_k: f64,
        until_s: Option<f64>,
    },
    /// At least two samples at rising times, the first not after zero, the last after zero.
    Sampled {
        samples: Vec<Sample>,
        /// Whether the last temperature goes on without an end.
        held: bool,
    },
}

/// A stretch of a history over which the temperature is linear in time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Segment {
    pub(crate) from_s: f64,
    /// Infinite for a constant temperature without an end.
    pub(crate) to_s: f64,
    pub(crate) from_k: f64,
    pub(crate) to_k: f64,
}

impl Segment {
    /// Temperature inside the segment, K.
    pub(crate) fn at_k(&self, time_s: f64) -> f64 {
        if self.is_constant() {
            return self.from_k;
        }
        let share = ((time_s - self.from_s) / (self.to_s - self.from_s)).clamp(0.0, 1.0);
        self.from_k + share * (self.to_k - self.from_k)
    }

    /// The part of the segment between two times, or `None` where they do not meet.
    fn clip(&self, from_s: f64, to_s: f64) -> Option<Self> {
        let from = self.from_s.max(from_s);
        let to = self.to_s.min(to_s);
        (from < to).then(|| Self { from_s: from, to_s: to, from_k: self.at_k(from), to_k: self.at_k(to) })
    }

    #[expect(clippy::float_cmp, reason = "equal readings, not nearly equal ones, are a constant")]
    fn is_constant(&self) -> bool {
        self.from_k == self.to_k
    }

    /// ∫ rate(T(t)) dt over the segment.
    fn integral(&self, rate: &impl Fn(f64) -> f64) -> f64 {
        let length_s = self.to_s - self.from_s;
        if self.is_constant() {
            return rate(self.from_k) * length_s;
        }
        let change_k = self.to_k - self.from_k;
        let panels = (change_k.abs() / PANEL_K).ceil().max(1.0);
        let mut sum = 0.0;
        let mut panel = 0.0;
        while panel < panels {
            let from_k = self.from_k + change_k * panel / panels;
            sum += gauss_mean(from_k, change_k / panels, rate);
            panel += 1.0;
        }
        sum * length_s / panels
    }
}

/// The mean of `rate` between `from` and `from + width` by the five-point Gauss-Legendre rule.
///
/// Nodes and weights in closed form (Abramowitz and Stegun 1964, table 25.4, n = 5).
fn gauss_mean(from: f64, width: f64, rate: &impl Fn(f64) -> f64) -> f64 {
    let inner = (5.0 - 2.0 * (10.0_f64 / 7.0).sqrt()).sqrt() / 3.0;
    let outer = (5.0 + 2.0 * (10.0_f64 / 7.0).sqrt()).sqrt() / 3.0;
    let inner_weight = (322.0 + 13.0 * 70.0_f64.sqrt()) / 1800.0;
    let outer_weight = (322.0 - 13.0 * 70.0_f64.sqrt()) / 1800.0;
    let at = |node: f64| rate(from + width * (1.0 + node) / 2.0);
    at(0.0) * 64.0 / 225.0 + inner_weight * (at(-inner) + at(inner)) + outer_weight * (at(-outer) + at(outer))
}

/// `temperature_k` if it is one.
pub(crate) fn checked_k(temperature_k: f64) -> Result<f64, ProcessError> {
    // Absolute zero itself is refused: every rate in this crate divides by the temperature.
    if temperature_k > 0.0 && temperature_k <= GREATEST_K {
        Ok(temperature_k)
    } else {
        Err(ProcessError::NotATemperature { value_k: temperature_k, greatest_k: GREATEST_K })
    }
}

impl History {
    /// One temperature from first mix on, until `until_s` or without an end.
    ///
    /// # Errors
    ///
    /// [`ProcessError::NotATemperature`], and [`ProcessError::NotPositive`] for the end.
    pub fn constant(temperature_k: f64, until_s: Option<f64>) -> Result<Self, ProcessError> {
        checked_k(temperature_k)?;
        if let Some(until_s) = until_s {
            positive("end of the temperature", until_s)?;
        }
        Ok(Self { shape: Shape::Constant { temperature_k, until_s } })
    }

    /// A log, linear between its samples. Samples before first mix are admitted, none need be.
    ///
    /// # Errors
    ///
    /// Fewer than two samples, times that are not finite or do not rise, a temperature that is
    /// none, a log that starts after first mix (nothing is known of the time between) or ends
    /// before it.
    pub fn sampled(samples: Vec<Sample>) -> Result<Self, ProcessError> {
        for (index, sample) in samples.iter().enumerate() {
            if !sample.time_s.is_finite() {
                return Err(ProcessError::TimeNotFinite { index });
            }
            checked_k(sample.temperature_k)?;
        }
        for (index, pair) in samples.windows(2).enumerate() {
            if let [before, after] = pair
                && after.time_s <= before.time_s
            {
                return Err(ProcessError::TimesNotRising {
                    index: index + 1,
                    before_s: before.time_s,
                    time_s: after.time_s,
                });
            }
        }
        let (Some(first), Some(last)) = (samples.first(), samples.last()) else {
            return Err(ProcessError::TooFewSamples { count: 0 });
        };
        if samples.len() < 2 {
            return Err(ProcessError::TooFewSamples { count: samples.len() });
        }
        if first.time_s > 0.0 {
            return Err(ProcessError::StartsAfterFirstMix { first_s: first.time_s });
        }
        if last.time_s <= 0.0 {
            return Err(ProcessError::EndsBeforeFirstMix { end_s: last.time_s });
        }
        Ok(Self { shape: Shape::Sampled { samples, held: false } })
    }

    /// The same, with the last temperature going on without an end; a constant temperature loses its end.
    #[must_use]
    pub fn held(self) -> Self {
        let shape = match self.shape {
            Shape::Constant { temperature_k, .. } => Shape::Constant { temperature_k, until_s: None },
            Shape::Sampled { samples, .. } => Shape::Sampled { samples, held: true },
        };
        Self { shape }
    }

    /// The readings of a log; none of a constant temperature.
    pub(crate) fn readings(&self) -> &[Sample] {
        match &self.shape {
            Shape::Constant { .. } => &[],
            Shape::Sampled { samples, .. } => samples,
        }
    }

    /// End of the history, s; `None` for one without an end.
    pub fn end_s(&self) -> Option<f64> {
        match &self.shape {
            Shape::Constant { until_s, .. } => *until_s,
            Shape::Sampled { held: true, .. } => None,
            Shape::Sampled { samples, .. } => samples.last().map(|sample| sample.time_s),
        }
    }

    /// Temperature at a time, K; `None` outside the history.
    pub fn temperature_k(&self, time_s: f64) -> Option<f64> {
        if !(time_s >= 0.0 && time_s <= self.end_or_infinity_s()) {
            return None;
        }
        let from_here = self.between(time_s, f64::INFINITY).next().map(|segment| segment.from_k);
        // At the very end nothing follows.
        from_here.or(match &self.shape {
            Shape::Constant { temperature_k, .. } => Some(*temperature_k),
            Shape::Sampled { samples, .. } => samples.last().map(|sample| sample.temperature_k),
        })
    }

    /// The first time at or after first mix from which the temperature is below `limit_k`, s;
    /// `None` if it never is. A reading equal to the limit is not below it.
    ///
    /// # Errors
    ///
    /// [`ProcessError::NotATemperature`] for the limit.
    pub fn first_below_s(&self, limit_k: f64) -> Result<Option<f64>, ProcessError> {
        checked_k(limit_k)?;
        Ok(self.segments().find_map(|segment| {
            if segment.from_k < limit_k {
                Some(segment.from_s)
            } else if segment.to_k < limit_k {
                let share = (segment.from_k - limit_k) / (segment.from_k - segment.to_k);
                Some(segment.from_s + share * (segment.to_s - segment.from_s))
            } else {
                None
            }
        }))
    }

    /// What a rate that depends on temperature alone adds up to between two times.
    ///
    /// ```text
    /// A = ∫ r(T(t)) dt          t from `from_s` to `to_s`
    /// ```
    ///
    /// Gauss-Legendre over panels of at most 4 K; exact to rounding for rates that change by less
    /// than a factor of 2 over 4 K.
    ///
    /// # Errors
    ///
    /// [`ProcessError::OutsideHistory`], or [`ProcessError::NotFinite`] if the rate overflows.
    pub fn integrate(&self, from_s: f64, to_s: f64, rate: impl Fn(f64) -> f64) -> Result<f64, ProcessError> {
        self.covers(from_s)?;
        self.covers(to_s)?;
        let sum = self.between(from_s, to_s).map(|segment| segment.integral(&rate)).sum();
        finite("integral over the temperature history", sum)
    }

    /// When a rate that depends on temperature alone has added up to `amount`, counted from
    /// `from_s`: the inverse of [`integrate`](Self::integrate).
    ///
    /// # Errors
    ///
    /// [`ProcessError::Negative`] for the amount, [`ProcessError::OutsideHistory`] for the start,
    /// [`ProcessError::NotFinite`] if the time or the rate overflows.
    pub fn time_to_accumulate(
        &self,
        from_s: f64,
        amount: f64,
        rate: impl Fn(f64) -> f64,
    ) -> Result<Reach, ProcessError> {
        self.covers(from_s)?;
        not_negative("amount to accumulate", amount)?;
        let mut missing = amount;
        for segment in self.between(from_s, f64::INFINITY) {
            if segment.is_constant() {
                let at = rate(segment.from_k);
                finite("rate", at)?;
                if missing <= at * (segment.to_s - segment.from_s) {
                    let time_s = segment.from_s + if missing > 0.0 { missing / at } else { 0.0 };
                    return Ok(Reach::At { time_s: finite("time to accumulate", time_s)? });
                }
            }
            let whole = finite("accumulated amount", segment.integral(&rate))?;
            if missing <= whole {
                return Ok(Reach::At { time_s: crossing_s(&segment, missing, whole, &rate)? });
            }
            missing -= whole;
        }
        // An endless history ends in a constant segment: something is left over there only when the
        // rate is zero, and then `whole` above was not finite.
        Ok(Reach::NotWithin {
            end_s: self.end_s().ok_or(ProcessError::EndlessHistory)?,
            amount: amount - missing,
        })
    }

    /// The linear stretches from first mix on.
    pub(crate) fn segments(&self) -> impl Iterator<Item = Segment> + '_ {
        self.between(0.0, f64::INFINITY)
    }

    /// The linear stretches between two times at or after first mix. A log is searched for the first and left at
    /// the last, so that many short stretches of a long log cost no more than one long one.
    pub(crate) fn between(&self, from_s: f64, to_s: f64) -> impl Iterator<Item = Segment> + '_ {
        let constant = |from_s: f64, to_s: f64, k: f64| Segment { from_s, to_s, from_k: k, to_k: k };
        let (constant, samples): (Option<Segment>, &[Sample]) = match &self.shape {
            Shape::Constant { temperature_k, until_s } => {
                (Some(constant(0.0, until_s.unwrap_or(f64::INFINITY), *temperature_k)), &[])
            }
            Shape::Sampled { samples, held } => {
                let last = samples.last().filter(|_| *held);
                (last.map(|last| constant(last.time_s, f64::INFINITY, last.temperature_k)), samples)
            }
        };
        // The sample at or before the start opens the first stretch.
        let first = samples.partition_point(|sample| sample.time_s <= from_s).saturating_sub(1);
        let sampled = samples.get(first..).unwrap_or(&[]).windows(2).map_while(move |pair| match pair {
            [a, b] if a.time_s < to_s => Some(Segment {
                from_s: a.time_s,
                to_s: b.time_s,
                from_k: a.temperature_k,
                to_k: b.temperature_k,
            }),
            _ => None,
        });
        sampled.chain(constant).filter_map(move |segment| segment.clip(from_s, to_s))
    }

    /// Whether a time lies in the history.
    pub(crate) fn covers(&self, time_s: f64) -> Result<(), ProcessError> {
        let end_s = self.end_or_infinity_s();
        if time_s.is_finite() && time_s >= 0.0 && time_s <= end_s {
            Ok(())
        } else {
            Err(ProcessError::OutsideHistory { time_s, end_s })
        }
    }

    fn end_or_infinity_s(&self) -> f64 {
        self.end_s().unwrap_or(f64::INFINITY)
    }
}

/// Where inside a segment the integral of `rate` reaches `amount`: Newton, kept between bounds.
fn crossing_s(
    segment: &Segment,
    amount: f64,
    whole: f64,
    rate: &impl Fn(f64) -> f64,
) -> Result<f64, ProcessError> {
    let (mut low, mut high) = (segment.from_s, segment.to_s);
    // The mean rate gives the start, and is exact where the rate is constant.
    let mut time_s = low + (high - low) * if whole > 0.0 { amount / whole } else { 0.0 };
    for _ in 0..SEARCH_LIMIT {
        let reached = segment.clip(segment.from_s, time_s).map_or(0.0, |part| part.integral(rate));
        if reached < amount {
            low = time_s;
        } else {
            high = time_s;
        }
        let newton = time_s + (amount - reached) / rate(segment.at_k(time_s));
        let next = if newton > low && newton < high { newton } else { f64::midpoint(low, high) };
        // 1e-13 of the time is the rounding of the integral, not a tolerance of the clock.
        if (next - time_s).abs() <= 1e-13 * time_s.abs() || next <= low || next >= high {
            return Ok(next);
        }
        time_s = next;
    }
    Err(ProcessError::NotConverged {
        what: "search for the time on a temperature history",
        limit: SEARCH_LIMIT,
    })
}

#[cfg(test)]
mod tests;
