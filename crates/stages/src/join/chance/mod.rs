//! How likely the bond of a joint is to give way under a load, when what it depends on scatters. Always a note.

mod bond;
mod told;

use std::num::NonZeroUsize;
use std::sync::atomic::{AtomicUsize, Ordering};

use assessment::{Basis, Known, Lack, names};
use evidence::EvidenceError;
use evidence::reliability::{self, Ended, Marginal, Settings, Shape, Task, Variables};
use job::tables::{Joint, Scatter, Strengths as Given};
use job::{Job, Needed};

use self::bond::Drawn;
pub(super) use self::bond::{Bond, ELEMENTS, Place};
use self::told::Range;
use super::adhesive::CHARACTERISTIC_AT;
use super::capacity::Ready;
use super::subject::{Case, Subject};
use crate::{Ask, Results, Sampling, Watch};

/// How wide intervals may be left: each end within 15 % of the middle. The tails that are assumed lie farther apart.
const PRECISION: f64 = 0.15;

/// What is asked of each load, where chances are asked for: the strips of the job, shared evenly among its loads.
pub(super) fn shared(job: &Job, ask: &Ask) -> Ask {
    let Some(sampling) = ask.probability else { return ask.clone() };
    let loads: usize = job.tables.joints.iter().map(|(_, joint)| loads(job, joint)).sum();
    let strips = sampling.strips / u32::try_from(loads.max(1)).unwrap_or(u32::MAX);
    ask.watch.begin(u64::from(strips) * loads as u64);
    ask.watch.doing("assessing the job".to_owned());
    Ask { probability: Some(Sampling { strips, ..sampling }), ..ask.clone() }
}

/// What the scatter of a joint of plates leaves out.
const BESIDE_PLATES: &str = "Plates and rivets do not scatter.";

/// Finds the chance that the bond of a joint of plates gives way.
pub(super) fn of_plates(
    subject: &Subject<'_>,
    case: &Case<'_>,
    ready: Known<Ready<'_>>,
    ask: &Ask,
    results: &mut Results,
) {
    let bond = ready.and_then(|ready| {
        ready.judges_peel()?;
        Bond::new(ready.strengths, &[ready.place()], ELEMENTS, results)
    });
    find(subject, case, bond, BESIDE_PLATES, ask, results);
}

/// Loads of a joint whose bond has a strip.
fn loads(job: &Job, joint: &Joint) -> usize {
    let (member, own) = match joint {
        Joint::Lap(lap) => return lap.loads.items.len(),
        Joint::DoubleLap(lap) => return lap.loads.items.len(),
        Joint::Tube(_) | Joint::Disc(_) => return 0,
        Joint::Socket(socket) => (&socket.member, &socket.loads),
        Joint::Sleeve(sleeve) => (&sleeve.member, &sleeve.loads),
    };
    if member.get().is_some() { job.tables.cases.items.len() } else { own.items.len() }
}

/// Finds the chance that a bond gives way under a case. `beside` says what of this form of joint is
/// left out.
pub(super) fn find(
    subject: &Subject<'_>,
    case: &Case<'_>,
    bond: Known<Bond<'_>>,
    beside: &str,
    ask: &Ask,
    results: &mut Results,
) {
    let Some(sampling) = ask.probability else { return };
    let until = ask.watch.done() + u64::from(sampling.strips);
    let found =
        bond.and_then(|bond| Doubt::of(subject)?.over_tails(&bond, subject, case, ask, sampling, results));
    ask.watch.reach(until);
    let fill = [subject.name, case.name];
    let end = |of: fn(&Range) -> f64| found.as_ref().map(of).map_err(Lack::clone);
    results.quantities.put(&names::FAILURE_PROBABILITY, &fill, end(|range| range.worst().1.probability));
    results.quantities.put(&names::FAILURE_PROBABILITY_LOW, &fill, end(Range::low));
    results.quantities.put(&names::FAILURE_PROBABILITY_HIGH, &fill, end(Range::high));
    let finding = subject.under(case, "probability", basis());
    results.findings.push(match found {
        Ok(range) => range.told(finding, subject, sampling, beside),
        Err(lack) => {
            let statement = format!("How likely the bond of {} is to give way cannot be told.", subject.name);
            finding.unknown(statement, lack)
        }
    });
    say(subject, results);
}

fn basis() -> Basis {
    Basis::Memory(
        "importance sampling on lines toward the design point (Rackwitz and Fiessler 1978; Hohenbichler and Rackwitz 1988), or subset simulation (Au and Beck 2001), on the strip to failure",
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
    fn of(subject: &Subject<'_>) -> Known<Self> {
        let adhesive = subject.adhesive()?;
        let strength = adhesive.scatter.need().copied();
        let scatter = subject.tables.scatter.get();
        let [toughness, bondline, overlap, surface, load] = coefficients(scatter);
        let (strength, toughness, bondline, overlap, surface, load) =
            (strength, toughness, bondline, overlap, surface, load).need_all()?;
        let covs = [strength, toughness, bondline, overlap, surface, load];
        if covs.iter().all(|cov| *cov <= 0.0) {
            return Err(Lack::OutOfData {
                what: "nothing scatters: every coefficient of variation is zero".to_owned(),
                key: "scatter".to_owned(),
            });
        }
        // Characteristic values lie 1.645 standard deviations below the means.
        let mean = if adhesive.strengths.get() == Some(&Given::Characteristic) {
            1.0 / (1.0 - CHARACTERISTIC_AT * strength)
        } else {
            1.0
        };
        Ok(Self {
            means: [mean, mean, 1.0, 1.0, 1.0, 1.0],
            covs,
            correlation: scatter.and_then(|scatter| scatter.correlation.get()).copied().unwrap_or(0.0),
        })
    }

    fn variables(&self, shape: Shape) -> Result<Variables, EvidenceError> {
        let marginals = self.means.iter().zip(&self.covs);
        let marginals: Vec<Marginal> =
            marginals.map(|(mean, cov)| Marginal::new(shape, *mean, *cov)).collect::<Result<_, _>>()?;
        Variables::new(marginals, &[(0, 1, self.correlation)])
    }

    /// The chance under each family of tails, as far as it had come when it was stopped.
    fn over_tails(
        &self,
        bond: &Bond<'_>,
        subject: &Subject<'_>,
        case: &Case<'_>,
        ask: &Ask,
        sampling: Sampling,
        results: &Results,
    ) -> Known<Range> {
        let (watch, strips): (&Watch, usize) = (&ask.watch, bond.strips());
        let (out_of_data, begun) = (AtomicUsize::new(0), watch.done());
        let limit = |values: &[f64]| -> Option<f64> {
            let &[strength, toughness, bondline, overlap, surface, load] = values else { return None };
            let drawn =
                Drawn { strength: strength * surface, toughness: toughness * surface, bondline, overlap };
            let factor = bond.factor(&drawn, results);
            watch.advance(strips as u64);
            if let Err(Lack::OutOfData { .. }) = factor {
                out_of_data.fetch_add(1, Ordering::Relaxed);
            }
            Some(factor.ok()? - load)
        };
        let task = Task { limit: &limit, stopped: &|| watch.is_stopped() };
        let mut left = sampling.strips as usize / strips;
        let mut tails = Vec::new();
        for (place, shape) in Shape::ALL.into_iter().enumerate() {
            let [about, under, tail] = [subject.name, case.name, told::word(shape)];
            watch.doing(format!("chance of failure of {about} under {under}, {tail} tails"));
            let settings = Settings {
                seed: sampling.seed,
                evaluations: left / (Shape::ALL.len() - place),
                precision: PRECISION,
                threads: sampling.threads.unwrap_or_else(processors),
            };
            let chance = |variables| reliability::failure_probability(&variables, &settings, &task);
            match self.variables(shape).and_then(chance) {
                Ok(found) => {
                    left -= found.evaluations;
                    let stopped = found.ended == Ended::Stopped;
                    tails.push((shape, found));
                    if stopped {
                        break;
                    }
                }
                Err(EvidenceError::Stopped) if !tails.is_empty() => break,
                Err(error) => {
                    return Err(lack(subject, &error, out_of_data.load(Ordering::Relaxed) > 0));
                }
            }
            watch.reach(begun + u64::from(sampling.strips) * (place as u64 + 1) / Shape::ALL.len() as u64);
        }
        Ok(Range { tails, strips })
    }
}

fn processors() -> NonZeroUsize {
    std::thread::available_parallelism().unwrap_or(NonZeroUsize::MIN)
}

/// Why there is no chance.
fn lack(subject: &Subject<'_>, error: &EvidenceError, out_of_data: bool) -> Lack {
    match error {
        EvidenceError::Stopped => Lack::NotRun {
            what: "it was stopped before anything was known of it".to_owned(),
            ask: "let it run for longer".to_owned(),
        },
        EvidenceError::NotConverged { .. } | EvidenceError::Untold { .. } if out_of_data => Lack::OutOfData {
            what: "the bondline scatters beyond the data of the adhesive".to_owned(),
            key: subject.adhesive().map_or_else(
                |_| "scatter.bondline".to_owned(),
                |adhesive| adhesive.by_bondline.key.clone(),
            ),
        },
        EvidenceError::Untold { untold, drawn } => Lack::Failed {
            what: format!(
                "on {untold} of {drawn} lines the strip found no way to failure where the values drawn would be needed"
            ),
            advice: "check the coefficients of variation in [scatter], and what the change of temperature does to the bond"
                .to_owned(),
        },
        EvidenceError::NotConverged { what, .. } => Lack::NotRun {
            what: format!("{what} did not get there with the strips allowed for this load"),
            ask: "allow more strips, or check the coefficients of variation in [scatter]".to_owned(),
        },
        error => Lack::Failed {
            what: format!("the chance of failure: {error}"),
            advice: "check the coefficients of variation in [scatter]".to_owned(),
        },
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
