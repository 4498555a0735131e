//! Chances of failure in words.

use assessment::{Finding, Measure, Verdict};
use evidence::reliability::{Ended, Estimate, Method, Shape};

use super::super::subject::Subject;
use crate::Sampling;

/// What scatters, in the order of the variables.
const QUANTITIES: [&str; 6] = ["strength", "toughness", "bondline", "overlap", "surface", "load"];

/// The chance under each family of tails that was reached: at least one.
pub(super) struct Range {
    pub(super) tails: Vec<(Shape, Estimate)>,
    /// Strips that one evaluation took.
    pub(super) strips: usize,
}

impl Range {
    /// The tail with the greatest chance.
    pub(super) fn worst(&self) -> &(Shape, Estimate) {
        let greater =
            |a: &&(Shape, Estimate), b: &&(Shape, Estimate)| a.1.probability.total_cmp(&b.1.probability);
        self.tails.iter().max_by(greater).unwrap_or(&self.tails[0])
    }

    pub(super) fn low(&self) -> f64 {
        self.tails.iter().map(|(_, found)| found.interval[0]).fold(1.0, f64::min)
    }

    pub(super) fn high(&self) -> f64 {
        self.tails.iter().map(|(_, found)| found.interval[1]).fold(0.0, f64::max)
    }

    fn is_stopped(&self) -> bool {
        self.tails.len() < Shape::ALL.len() || self.tails.iter().any(|(_, it)| it.ended == Ended::Stopped)
    }

    /// The finding: always a note.
    pub(super) fn told(
        &self,
        finding: Finding,
        subject: &Subject<'_>,
        sampling: Sampling,
        beside: &str,
    ) -> Finding {
        let (shape, worst) = self.worst();
        let stopped = if self.is_stopped() { "As far as it was known when it was stopped: if" } else { "If" };
        let chance = if self.high() <= 1e-12 {
            format!("less than {}", plain(self.high()))
        } else if self.low() <= 0.0 {
            format!("at most {}", plain(self.high()))
        } else {
            format!("between {} and {}", plain(self.low()), plain(self.high()))
        };
        let each: Vec<String> = self.tails.iter().map(|(shape, found)| tail(*shape, found)).collect();
        let matters = worst.design_point.as_ref().map_or_else(
            || "What matters most cannot be ranked, for no design point was found.".to_owned(),
            |point| format!("With {} tails it hangs on {}.", word(*shape), ranking(&point.shares)),
        );
        let sentences = [
            format!("{}; the brackets are 95 % intervals of the sampling.", each.join("; ")),
            matters,
            self.effort(sampling),
            beside.to_owned(),
            "The tails are assumed, not known; a second way to fail may be missed.".to_owned(),
        ];
        let sentences: Vec<String> = sentences.into_iter().filter(|sentence| !sentence.is_empty()).collect();
        Finding {
            statement: format!(
                "{stopped} everything scatters as [scatter] says, the bond of {} gives way under the load with a chance {chance}.",
                subject.name
            ),
            value: Some(Measure { value: worst.probability, unit: "-", kind: None }),
            verdict: Verdict::Note,
            because: sentences.join(" "),
            ..finding
        }
    }

    /// What it took, and why no more was done.
    fn effort(&self, sampling: Sampling) -> String {
        let evaluations: usize = self.tails.iter().map(|(_, found)| found.evaluations).sum();
        let untold: usize = self.tails.iter().map(|(_, found)| found.untold).sum();
        let missed: Vec<&str> = Shape::ALL
            .into_iter()
            .filter(|shape| self.tails.iter().all(|(tail, _)| tail != shape))
            .map(word)
            .collect();
        let mut words = vec![format!("{} strips were loaded to failure", evaluations * self.strips)];
        if untold > 0 {
            words.push(format!("{untold} of {evaluations} draws without an answer"));
        }
        if self.tails.iter().any(|(_, found)| found.ended == Ended::UsedUp) {
            words.push("all that were allowed: more would narrow the brackets".to_owned());
        }
        if !missed.is_empty() {
            words.push(format!("{} tails were not reached", missed.join(" and ")));
        }
        format!("{}, seed {}.", words.join(", "), sampling.seed)
    }
}

fn tail(shape: Shape, found: &Estimate) -> String {
    let [low, high] = found.interval;
    let by = match found.method {
        Method::ImportanceSampling => "",
        Method::SubsetSimulation => ", by subset simulation",
        Method::FirstOrder if high < 0.5 => {
            return format!("{} tails less than {}, to first order", word(shape), plain(high));
        }
        Method::FirstOrder => return format!("{} tails nearly certain, to first order", word(shape)),
    };
    format!("{} tails {} [{}, {}]{by}", word(shape), plain(found.probability), plain(low), plain(high))
}

pub(super) fn word(shape: Shape) -> &'static str {
    match shape {
        Shape::Normal => "normal",
        Shape::Lognormal => "lognormal",
        Shape::Weibull => "Weibull",
    }
}

/// A chance with two figures.
fn plain(chance: f64) -> String {
    format!("{chance:.1e}")
}

/// What matters, most first; what makes up less than half a per cent is left out.
fn ranking(shares: &[f64]) -> String {
    let mut ranked: Vec<(&str, f64)> = QUANTITIES.into_iter().zip(shares.iter().copied()).collect();
    ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
    let told = ranked.iter().filter(|(_, share)| *share >= 0.005);
    let told: Vec<String> = told.map(|(what, share)| format!("{what} {:.0} %", 100.0 * share)).collect();
    told.join(", ")
}
