//! How likely the bond of a lap is to give way under a load, when what it depends on scatters. Always a note.

use std::num::NonZeroUsize;

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use evidence::EvidenceError;
use evidence::reliability::{self, Estimate, Marginal, Method, Settings, Shape, Variables};
use job::Needed;
use job::tables::{Scatter, Strengths as Given};
use mechanics::strip::progressive::{self, Cohesive, Control, Law};

use super::adhesive::{CHARACTERISTIC_AT, Data};
use super::capacity::{Level, Ready, Strengths, lap_ready, law_of};
use super::lap::{Built, Demand};
use super::subject::{Case, Subject};
use crate::{Results, Sampling};

/// What scatters, in the order of the variables.
const QUANTITIES: [&str; 6] = ["strength", "toughness", "bondline", "overlap", "surface", "load"];

/// Strength and toughness do not fall below this share of their means: a normal tail reaches below zero.
const LEAST_SHARE: f64 = 1e-3;

/// Finds the chance that the bond of a lap gives way under a case.
pub(super) fn find(
    built: &Built<'_>,
    case: &Case<'_>,
    demand: &Known<Demand>,
    data: &Known<Data>,
    sampling: Sampling,
    results: &mut Results,
) {
    let subject = built.subject;
    let found = lap_ready(built, demand, data)
        .and_then(|ready| Doubt::of(subject, &ready, results)?.over_tails(&ready, sampling, results));
    let fill = [subject.name, case.name];
    let end = |of: fn(&Range) -> f64| found.as_ref().map(of).map_err(Lack::clone);
    results.quantities.put(&names::FAILURE_PROBABILITY, &fill, end(|range| range.worst().1.probability));
    results.quantities.put(&names::FAILURE_PROBABILITY_LOW, &fill, end(Range::low));
    results.quantities.put(&names::FAILURE_PROBABILITY_HIGH, &fill, end(Range::high));
    let finding = subject.under(case, "probability", basis());
    results.findings.push(match found {
        Ok(range) => range.told(finding, subject, sampling),
        Err(lack) => {
            let statement = format!("How likely the bond of {} is to give way cannot be told.", subject.name);
            finding.unknown(statement, lack)
        }
    });
    say(subject, results);
}

fn basis() -> Basis {
    Basis::Memory(
        "importance sampling around the design point (Rackwitz and Fiessler 1978; Schuëller and Stix 1987), or subset simulation (Au and Beck 2001), on the strip to failure",
    )
}

/// What is taken for granted.
fn say(subject: &Subject<'_>, results: &mut Results) {
    let basis = || Basis::CommonPractice("a first look at what scatter does");
    let statement = "For the chance of failure a load as written is the mean of what comes.".to_owned();
    results.assume("scatter.load", statement, basis());
    let scatter = subject.tables.scatter.get();
    if scatter.is_none_or(|scatter| scatter.correlation.get().is_none()) {
        let statement =
            "For the chance of failure strength and toughness of an adhesive scatter independently."
                .to_owned();
        results.assume("scatter.correlation", statement, basis());
    }
}

/// Means and coefficients of variation, and how strength and toughness are tied.
struct Doubt {
    means: [f64; 6],
    covs: [f64; 6],
    correlation: f64,
}

impl Doubt {
    fn of(subject: &Subject<'_>, ready: &Ready<'_>, results: &Results) -> Known<Self> {
        let adhesive = subject.adhesive()?;
        let strength = adhesive.scatter.need().copied();
        let [toughness, bondline, overlap, surface, load] = coefficients(subject.tables.scatter.get());
        let (strength, toughness, bondline, overlap, surface, load) =
            (strength, toughness, bondline, overlap, surface, load).need_all()?;
        if !matches!(law_of(&ready.strengths, Level::AsWritten, results)?, Law::Cohesive(_)) {
            return Err(Lack::OutOfData {
                what: "the elastic-plastic law does not judge peel, which a single lap has at its ends"
                    .to_owned(),
                key: format!("{}.law", ready.model.key),
            });
        }
        // Characteristic values lie 1.645 standard deviations below the means.
        let mean = if adhesive.strengths.get() == Some(&Given::Characteristic) {
            1.0 / (1.0 - CHARACTERISTIC_AT * strength)
        } else {
            1.0
        };
        let overlap_mm = subject.overlap.map_or(Ok(0.0), |overlap| overlap.need().map(|it| it.mm()))?;
        let scatter = subject.tables.scatter.get();
        Ok(Self {
            means: [mean, mean, ready.strengths.bondline_mm, overlap_mm, 1.0, 1.0],
            covs: [strength, toughness, bondline, overlap, surface, load],
            correlation: scatter.and_then(|scatter| scatter.correlation.get()).copied().unwrap_or(0.0),
        })
    }

    fn over_tails(&self, ready: &Ready<'_>, sampling: Sampling, results: &Results) -> Known<Range> {
        let threads = std::thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
        let settings = Settings { seed: sampling.seed, samples: sampling.samples as usize, threads };
        let limit = |values: &[f64]| margin(ready, values, results);
        let of = |shape: Shape| -> Result<Estimate, EvidenceError> {
            let marginals = self.means.iter().zip(&self.covs);
            let marginals: Vec<Marginal> =
                marginals.map(|(mean, cov)| Marginal::new(shape, *mean, *cov)).collect::<Result<_, _>>()?;
            let variables = Variables::new(marginals, &[(0, 1, self.correlation)])?;
            reliability::failure_probability(&variables, &settings, &limit)
        };
        let all = Shape::ALL.into_iter().map(|shape| Ok((shape, of(shape)?))).collect::<Result<Vec<_>, _>>();
        all.map(Range).map_err(|error: EvidenceError| Lack::Failed {
            what: format!("the chance of failure: {error}"),
            advice: "check the coefficients of variation in [scatter], and that the way to failure is found"
                .to_owned(),
        })
    }
}

/// The coefficients of `[scatter]`: toughness, bondline, overlap, surface, load.
fn coefficients(scatter: Option<&Scatter>) -> [Result<f64, job::Absent>; 5] {
    let absent = |word: &str| job::Absent { keys: vec![format!("scatter.{word}")] };
    let of = |word: &str, entry: fn(&Scatter) -> &job::Entry<f64>| match scatter {
        Some(scatter) => entry(scatter).need().copied(),
        None => Err(absent(word)),
    };
    [
        of("toughness", |it| &it.toughness),
        of("bondline", |it| &it.bondline),
        of("overlap", |it| &it.overlap),
        of("surface", |it| &it.surface),
        of("load", |it| &it.load),
    ]
}

/// Multiple of the case's load that the bond carries less the one that comes; nothing where the way to failure finds
/// no end, or the data do not reach.
///
/// The layer is as stiff as one of the thickness of the beads: a thicker bond helps only by the user's own table of
/// strengths by bondline. Beads keep it from being thinner.
fn margin(ready: &Ready<'_>, values: &[f64], results: &Results) -> Option<f64> {
    let &[strength, toughness, bondline_mm, overlap_mm, surface, load] = values else { return None };
    let strengths = Strengths {
        bondline_mm: f64::max(bondline_mm, ready.least_mm),
        thickness_mm: ready.least_mm,
        ..ready.strengths
    };
    let Ok(Law::Cohesive(law)) = law_of(&strengths, Level::AsWritten, results) else { return None };
    let (strong, tough) =
        (f64::max(strength * surface, LEAST_SHARE), f64::max(toughness * surface, LEAST_SHARE));
    let law = Law::Cohesive(Cohesive {
        tensile_strength_mpa: strong * law.tensile_strength_mpa,
        shear_strength_mpa: strong * law.shear_strength_mpa,
        mode_1_toughness_n_mm: tough * law.mode_1_toughness_n_mm,
        mode_2_toughness_n_mm: tough * law.mode_2_toughness_n_mm,
        ..law
    });
    let joint = (ready.joint)(overlap_mm, ready.least_mm, law);
    let outcome = progressive::run(&joint, &Control::default()).ok()?;
    Some(outcome.capacity?.factor - load)
}

/// The chance under each tail.
struct Range(Vec<(Shape, Estimate)>);

impl Range {
    /// The tail with the greatest chance.
    fn worst(&self) -> &(Shape, Estimate) {
        let greater =
            |a: &&(Shape, Estimate), b: &&(Shape, Estimate)| a.1.probability.total_cmp(&b.1.probability);
        self.0.iter().max_by(greater).unwrap_or(&self.0[0])
    }

    fn low(&self) -> f64 {
        self.0.iter().map(|(_, found)| found.interval[0]).fold(1.0, f64::min)
    }

    fn high(&self) -> f64 {
        self.0.iter().map(|(_, found)| found.interval[1]).fold(0.0, f64::max)
    }

    fn told(&self, finding: Finding, subject: &Subject<'_>, sampling: Sampling) -> Finding {
        let each: Vec<String> = self.0.iter().map(|(shape, found)| tail(*shape, found)).collect();
        let (shape, worst) = self.worst();
        let evaluations: usize = self.0.iter().map(|(_, found)| found.evaluations).sum();
        let untold: usize = self.0.iter().map(|(_, found)| found.untold).sum();
        let matters = worst.design_point.as_ref().map_or_else(
            || "What matters most cannot be ranked, for no design point was found.".to_owned(),
            |point| format!("With {} tails it hangs on {}.", word(*shape), ranking(&point.shares)),
        );
        Finding {
            statement: format!(
                "If everything scatters as [scatter] says, the bond of {} gives way under the load with a chance between {} and {}.",
                subject.name,
                plain(self.low()),
                plain(self.high())
            ),
            value: Some(Measure { value: worst.probability, unit: "-", kind: None }),
            verdict: Verdict::Note,
            because: format!(
                "{}; the brackets are 95 % intervals of the sampling. {matters} {evaluations} strips were loaded to failure, {untold} of them without an answer, seed {}. The tails are assumed, not known; a second way to fail may be missed.",
                each.join("; "),
                sampling.seed
            ),
            ..finding
        }
    }
}

fn tail(shape: Shape, found: &Estimate) -> String {
    let by = match found.method {
        Method::ImportanceSampling => "",
        Method::SubsetSimulation => ", by subset simulation",
    };
    let [low, high] = found.interval;
    format!("{} tails {} [{}, {}]{by}", word(shape), plain(found.probability), plain(low), plain(high))
}

fn word(shape: Shape) -> &'static str {
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
