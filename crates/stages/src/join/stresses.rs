//! Stresses in the bond at a case's load as written: the strip, and the closed forms beside it.

use assessment::{Basis, Finding, Known, Lack, names};
use mechanics::closed::{goland_reissner, tsai_oplinger_morton, volkersen};
use mechanics::{Peak, strip};
use quantity::Kind;

use super::adhesive::{Data, Values};
use super::lap::{Built, Demand, failed};
use super::parted;
use super::subject::{Case, Subject};
use crate::{Ask, Results};

/// Greatest stresses by every method that applies.
struct Numbers {
    volkersen_mpa: Known<f64>,
    tsai_oplinger_morton_mpa: Known<f64>,
    goland_reissner: Known<Balanced>,
    strip: Known<strip::Answer>,
}

/// What Goland and Reissner's solution of the balanced lap gives.
#[derive(Clone)]
struct Balanced {
    k: f64,
    peak_shear_mpa: f64,
    peak_peel_mpa: f64,
}

impl Balanced {
    fn of(lap: &mechanics::closed::Lap, load_n_mm: f64) -> Result<Self, mechanics::Failure> {
        let edge = goland_reissner::edge_load(lap, load_n_mm)?;
        let stresses = goland_reissner::layer_stresses(lap, load_n_mm, edge)?;
        Ok(Self {
            k: goland_reissner::edge_factor(lap, load_n_mm)?,
            peak_shear_mpa: stresses.end_shear().value_mpa,
            peak_peel_mpa: stresses.end_peel().value_mpa,
        })
    }
}

/// Moments at the two ends of the overlap, N·mm/mm.
pub(super) type EdgeMoments = Option<[f64; 2]>;

/// Finds the stresses, and gives the edge moments on for whoever checks the plates.
pub(super) fn find(
    built: &Built<'_>,
    case: &Case<'_>,
    demand: &Known<Demand>,
    data: &Known<Data>,
    ask: &Ask,
    results: &mut Results,
) -> EdgeMoments {
    let subject = built.subject;
    let basis = Basis::Published(
        "linear strip: two beams on an elastic layer, after Goland and Reissner 1944, with the bondline in the lever arms",
    );
    let finding = subject.under(case, "stresses", basis);
    let (demand, values) = match (demand, data) {
        (Ok(demand), Ok(Data::Given(values))) => (demand, values),
        // Where only strengths lie between two ends, stresses are known.
        (Ok(demand), Ok(Data::Class { lower, upper, .. })) if lower.as_stiff_as(upper) => (demand, lower),
        (Ok(demand), Ok(Data::Class { lower, upper, keys, by })) => {
            put(Numbers::unknown(&Lack::Missing { keys: keys.clone() }), subject, case.name, results);
            let range = [lower, upper].map(|values| Numbers::of(built, demand, values, ask).strip);
            results.findings.push(for_class(finding, range, (by, keys), results));
            return None;
        }
        (Err(lack), _) | (_, Err(lack)) => {
            put(Numbers::unknown(lack), subject, case.name, results);
            results.findings.push(finding.unknown(
                format!("The stresses in the bond of {} cannot be told.", subject.name),
                lack.clone(),
            ));
            return None;
        }
    };
    let numbers = Numbers::of(built, demand, values, ask);
    let edge = numbers.strip.as_ref().ok().map(|answer| answer.edge_moments_n);
    results.findings.push(match &numbers.strip {
        Err(lack) => finding
            .unknown(format!("The stresses in the bond of {} cannot be told.", subject.name), lack.clone()),
        Ok(answer) => Finding {
            statement: format!(
                "The bond's shear peaks at {} {}, its peel at {} {}.",
                results.print(answer.peak_shear.value_mpa, Kind::Stress),
                place(answer.peak_shear, &answer.shear_mpa, demand.overlap_mm),
                results.print(answer.peak_peel.value_mpa, Kind::Stress),
                place(answer.peak_peel, &answer.peel_mpa, demand.overlap_mm),
            ),
            because: numbers.beside(results),
            ..finding
        },
    });
    beside_the_formula(&numbers, subject, case, results);
    put(numbers, subject, case.name, results);
    edge
}

/// A note where the strip and the closed form of the balanced lap lie further apart than they are known to.
///
/// Against a converged second-order solution the formula's edge moment factor comes out 2 to 19 % high over laps of
/// many sizes, and its peaks with it (own comparison, docs/validation.md).
fn beside_the_formula(numbers: &Numbers, subject: &Subject<'_>, case: &Case<'_>, results: &mut Results) {
    const KNOWN: f64 = 0.20;
    let (Ok(strip), Ok(formula)) = (&numbers.strip, &numbers.goland_reissner) else { return };
    let pair = |what: &str, ours: f64, theirs: f64| parted::Pair {
        what: format!("the peak {what}"),
        ours: ("The strip", ours),
        theirs: ("Goland and Reissner's formula", theirs),
        known: KNOWN,
    };
    let shear = pair("shear", strip.peak_shear.value_mpa, formula.peak_shear_mpa);
    let peel = pair("peel", strip.peak_peel.value_mpa, formula.peak_peel_mpa);
    let further = if shear.apart() >= peel.apart() { shear } else { peel };
    let basis = Basis::Memory("Goland and Reissner 1944, which leave the bondline out of the lever arms");
    let because = "They are known to part by up to about a fifth. A bondline that is thick against the plates, short \
                   arms, or arms that are held otherwise do it; the strip counts them, the formula does not.";
    parted::note(subject, case, &further, basis, because.to_owned(), results);
}

/// Where along the overlap a peak stands, in words.
fn place(peak: Peak, along: &[f64], overlap_mm: f64) -> &'static str {
    /// Ends that agree to this are one peak at both ends, as in a balanced joint; rounding alone parts them.
    const SAME: f64 = 1e-6;
    let reached = |end: Option<&f64>| {
        end.is_some_and(|end| (end.abs() - peak.value_mpa.abs()).abs() <= SAME * peak.value_mpa.abs())
    };
    match (reached(along.first()), reached(along.last())) {
        (true, true) => "at both ends",
        (true, false) => "at the left end",
        (false, true) => "at the right end",
        (false, false) if peak.x_mm < 0.5 * overlap_mm => "inside, nearer the left end",
        (false, false) => "inside, nearer the right end",
    }
}

/// Both ends of a class: shown, not judged, with the data that would settle it.
fn for_class(
    finding: Finding,
    range: [Known<strip::Answer>; 2],
    (by, keys): (&str, &[String]),
    results: &Results,
) -> Finding {
    match range {
        [Ok(lower), Ok(upper)] => {
            let span = |a: f64, b: f64| {
                format!(
                    "{} to {}",
                    results.print(a.min(b), Kind::Stress),
                    results.print(a.max(b), Kind::Stress)
                )
            };
            let statement = format!(
                "For {by} the bond's shear peaks at {}, its peel at {}.",
                span(lower.peak_shear.value_mpa, upper.peak_shear.value_mpa),
                span(lower.peak_peel.value_mpa, upper.peak_peel.value_mpa),
            );
            finding.unknown(statement, Lack::Missing { keys: keys.to_vec() })
        }
        [Err(lack), _] | [_, Err(lack)] => {
            finding.unknown("The stresses in the bond cannot be told.".to_owned(), lack)
        }
    }
}

impl Numbers {
    fn of(built: &Built<'_>, demand: &Demand, values: &Values, ask: &Ask) -> Self {
        let lap = built.closed_form(values);
        let axial = demand.axial_n / demand.width_mm;
        let peak = |peak: Result<f64, mechanics::Failure>| peak.map_err(|failure| failed(&failure));
        Self {
            volkersen_mpa: lap
                .clone()
                .and_then(|lap| peak(volkersen::solve(&lap, axial, 0.0).map(|shear| shear.peak().value_mpa))),
            tsai_oplinger_morton_mpa: lap.clone().and_then(|lap| {
                peak(tsai_oplinger_morton::solve(&lap, axial, 0.0).map(|shear| shear.peak().value_mpa))
            }),
            goland_reissner: lap
                .and_then(|lap| Balanced::of(&lap, axial).map_err(|failure| failed(&failure))),
            strip: built
                .strip(values, demand, ask)
                .and_then(|strip| strip::solve(&strip).map_err(|failure| failed(&failure))),
        }
    }

    fn unknown(lack: &Lack) -> Self {
        Self {
            volkersen_mpa: Err(lack.clone()),
            tsai_oplinger_morton_mpa: Err(lack.clone()),
            goland_reissner: Err(lack.clone()),
            strip: Err(lack.clone()),
        }
    }

    /// What the closed forms say, in one sentence.
    fn beside(&self, results: &Results) -> String {
        let stress = |value: f64| results.print(value, Kind::Stress);
        let bars = self
            .volkersen_mpa
            .as_ref()
            .map(|peak| format!("Bars without bending (Volkersen 1938) give a shear of {}", stress(*peak)));
        let beams = self.goland_reissner.as_ref().map(|peaks| {
            format!(
                "Goland and Reissner 1944 give a shear of {} and a peel of {}",
                stress(peaks.peak_shear_mpa),
                stress(peaks.peak_peel_mpa)
            )
        });
        let sentences: Vec<String> = [bars.ok(), beams.ok()].into_iter().flatten().collect();
        if sentences.is_empty() {
            "No closed form applies.".to_owned()
        } else {
            format!("{}.", sentences.join("; "))
        }
    }
}

fn put(numbers: Numbers, subject: &Subject<'_>, case: &str, results: &mut Results) {
    let fill = [subject.name, case];
    let Numbers { volkersen_mpa, tsai_oplinger_morton_mpa, goland_reissner, strip } = numbers;
    let quantities = &mut results.quantities;
    quantities.put(&names::VOLKERSEN_PEAK_SHEAR, &fill, volkersen_mpa);
    quantities.put(&names::TOM_PEAK_SHEAR, &fill, tsai_oplinger_morton_mpa);
    // A formula for equal plates says nothing of unequal ones; that is no failure, so it leaves no trace.
    if !matches!(&goland_reissner, Err(Lack::Failed { .. })) {
        quantities.put(&names::GOLAND_REISSNER_K, &fill, goland_reissner.clone().map(|it| it.k));
        quantities.put(
            &names::GOLAND_REISSNER_PEAK_SHEAR,
            &fill,
            goland_reissner.clone().map(|it| it.peak_shear_mpa),
        );
        quantities.put(&names::GOLAND_REISSNER_PEAK_PEEL, &fill, goland_reissner.map(|it| it.peak_peel_mpa));
    }
    quantities.put(
        &names::PEAK_SHEAR,
        &fill,
        strip.as_ref().map(|it| it.peak_shear.value_mpa).map_err(Lack::clone),
    );
    quantities.put(
        &names::PEAK_PEEL,
        &fill,
        strip.as_ref().map(|it| it.peak_peel.value_mpa).map_err(Lack::clone),
    );
    quantities.put(
        &names::EDGE_MOMENT_LEFT,
        &fill,
        strip.as_ref().map(|it| it.edge_moments_n[0]).map_err(Lack::clone),
    );
    quantities.put(
        &names::EDGE_MOMENT_RIGHT,
        &fill,
        strip.as_ref().map(|it| it.edge_moments_n[1]).map_err(Lack::clone),
    );
    if let Some(stiffness) = strip.as_ref().map(|it| it.stiffness_n_mm2).map_err(Lack::clone).transpose() {
        quantities.put(&names::STIFFNESS, &fill, stiffness);
    }
    if let Ok(answer) = &strip {
        let along = ("distance from the left end of the overlap", "mm");
        let points =
            |values: &[f64]| answer.x_mm.iter().copied().zip(values.iter().copied()).collect::<Vec<_>>();
        results.series.put(&names::SHEAR, &fill, along, &points(&answer.shear_mpa));
        results.series.put(&names::PEEL, &fill, along, &points(&answer.peel_mpa));
    }
}
