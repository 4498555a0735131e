//! The double lap: Hart-Smith's elastic-plastic capacity beside the nominal check.

use assessment::{Basis, Finding, Known, Lack, Measure, Next, Verdict, names};
use job::tables::{DoubleLap, Load};
use job::{Job, Needed};
use mechanics::closed::double_lap;
use mechanics::closed::elastic_plastic::{self, EndLoads, OverlapNeeded, Plastic};
use quantity::Kind;

use super::adhesive::{Data, Values};
use super::ends::AllEnds;
use super::lap::{Demand, adherend, case, failed, riveted_wall, temperature_change_k};
use super::nominal::Shear;
use super::plates::{self, Plate};
use super::subject::{Case, Subject};
use super::{
    about, capacity, chance, environment, fatigue, galvanic, nominal, overlap, parted, plate_rivets,
    sustained,
};
use crate::bond_day::BondDay;
use crate::faying::given_bondline_mm;
use crate::{Ask, Results};

/// Assesses a double lap.
pub(super) fn run(
    job: &Job,
    name: &str,
    lap: &DoubleLap,
    all_ends: &AllEnds,
    bond_day: &BondDay,
    ask: &Ask,
    results: &mut Results,
) {
    let subject = Subject {
        name,
        tables: &job.tables,
        adhesive: &lap.adhesive,
        ends: all_ends.get(&lap.adhesive),
        bondline_mm: given_bondline_mm(&lap.bondline, &lap.adhesive, &job.tables),
        overlap: Some(&lap.overlap),
        surface: &lap.surface,
        loads_key: lap.loads.key.clone(),
        place: &lap.place,
    };
    let cases: Vec<Case<'_>> = lap.loads.iter().map(|(name, load)| case(job, name, load)).collect();
    let plates = super::taken::Plates {
        bondline: &lap.bondline,
        temperature_change: &lap.temperature_change,
        rivets: &lap.rivets,
        loads: &lap.loads,
    };
    super::taken::of_plates(&subject, &plates, results);
    about(&subject, &cases.iter().collect::<Vec<_>>(), bond_day, results);
    let touching = galvanic::Touching {
        outer: (
            "outer plate",
            lap.outer.get().and_then(|part| job.tables.materials.referred(&part.material).ok()),
        ),
        inner: (
            "inner plate",
            lap.inner.get().and_then(|part| job.tables.materials.referred(&part.material).ok()),
        ),
        rivet: lap.rivets.get().map(|rivets| &rivets.kind),
        slid: false,
    };
    galvanic::find(&subject, &touching, results);
    for (case, (_, load)) in cases.iter().zip(lap.loads.iter()) {
        under(&subject, lap, case, load, ask, results);
    }
}

/// Bondlines of a double lap.
const BONDLINES: f64 = 2.0;

fn under(
    subject: &Subject<'_>,
    lap: &DoubleLap,
    case: &Case<'_>,
    load: &Load,
    ask: &Ask,
    results: &mut Results,
) {
    let fill = [subject.name, case.name];
    let demand = Demand::of(&lap.width, &lap.overlap, load);
    let line = demand.as_ref().map(Demand::line_load_n_mm).map_err(Lack::clone);
    let shear = demand.as_ref().map(|demand| demand.mean_shear_mpa() / BONDLINES).map_err(Lack::clone);
    results.quantities.put(&names::LINE_LOAD, &fill, line.clone());
    results.quantities.put(&names::MEAN_SHEAR, &fill, shear.clone());

    let data = subject.data();
    let at_overlap = |overlap_mm: f64| line.clone().map(|line| line / BONDLINES / overlap_mm);
    let shear = Shear { now_mpa: shear, at_overlap: &at_overlap };
    let nominal = nominal::find(subject, case, &shear, &data, results);
    if ask.to_failure {
        capacity::double_lap(subject, lap, case, &demand, &data, results);
    }
    if ask.probability.is_some() {
        let ready = capacity::double_ready(subject, lap, &demand, &data, results);
        chance::of_plates(subject, case, ready, ask, results);
    }
    elastic_plastic_capacity(subject, lap, case, &line, &data, results);
    if let Ok(demand) = &demand {
        let force = demand.axial_n / demand.width_mm;
        let inner = Plate { word: "inner", table: &lap.inner, force_n_mm: force, moment_n: None };
        let outer = Plate { word: "outer", table: &lap.outer, force_n_mm: force / BONDLINES, moment_n: None };
        plates::find(subject, case, &[inner, outer], results);
    }
    fatigue::bond(subject, case, &shear.now_mpa, &data, results);
    sustained::find(subject, case, &nominal, results);
    let conditions = environment::find(subject, case, &nominal, &shear, results);
    let peak_at = |overlap_mm: f64| peak_shear_mpa(subject, lap, &line, &data, overlap_mm);
    overlap::put(subject, case, &nominal, &shear, &conditions, Some(&peak_at), results);
    let force = demand.as_ref().map(|demand| demand.axial_n.hypot(demand.shear_n)).map_err(Lack::clone);
    let plates = || -> Known<plate_rivets::Plates> {
        Ok(plate_rivets::Plates {
            walls: vec![
                riveted_wall(subject.tables, &lap.inner, 1.0)?,
                riveted_wall(subject.tables, &lap.outer, 1.0 / BONDLINES)?,
            ],
            planes: BONDLINES,
            overlap_mm: lap.overlap.need()?.mm(),
        })
    };
    plate_rivets::find(subject, case, Some(&lap.rivets), plates(), &force, results);
    let holed = [(&lap.inner, 1.0), (&lap.outer, 1.0 / BONDLINES)];
    plate_rivets::fatigue(subject, case, &lap.rivets, (&holed, &lap.width), &force, results);
}

/// What the elastic-plastic solution gives.
struct Capacity {
    peak_shear_mpa: f64,
    ends: EndLoads,
    needed: OverlapNeeded,
    overlap_mm: f64,
}

/// The joint for the closed forms, and its change of temperature, K.
fn built(subject: &Subject<'_>, lap: &DoubleLap, values: &Values) -> Known<(double_lap::DoubleLap, f64)> {
    let change = temperature_change_k(&lap.temperature_change, subject.tables);
    let (inner, outer, overlap) = (lap.inner.need(), lap.outer.need(), lap.overlap.need()).need_all()?;
    let of = |plate| adherend(subject.tables, plate, change != 0.0);
    let (inner, outer) = (of(inner), of(outer)).need_all()?;
    let layer = values.layer(subject.bondline_mm.clone()?)?;
    Ok((double_lap::DoubleLap { inner, outer, layer, overlap_mm: overlap.mm() }, change))
}

/// The greatest elastic shear at another overlap, MPa.
fn peak_shear_mpa(
    subject: &Subject<'_>,
    lap: &DoubleLap,
    line: &Known<f64>,
    data: &Known<Data>,
    overlap_mm: f64,
) -> Known<f64> {
    let values = match data {
        Ok(Data::Given(values)) => values,
        Ok(Data::Class { keys, .. }) => return Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => return Err(lack.clone()),
    };
    let (joint, change) = built(subject, lap, values)?;
    let joint = double_lap::DoubleLap { overlap_mm, ..joint };
    let elastic = double_lap::elastic(&joint, line.clone()?, change).map_err(|failure| failed(&failure))?;
    Ok(elastic.peak().value_mpa.abs())
}

fn capacity(subject: &Subject<'_>, lap: &DoubleLap, line: &Known<f64>, values: &Values) -> Known<Capacity> {
    let (joint, change) = built(subject, lap, values)?;
    let plastic = Plastic {
        shear_strength_mpa: values.shear_strength_mpa.clone()?,
        strain_at_failure: values.shear_strain_at_failure.clone()?,
    };
    let line = line.clone()?;
    let elastic = double_lap::elastic(&joint, line, change).map_err(|failure| failed(&failure))?;
    Ok(Capacity {
        peak_shear_mpa: elastic.peak().value_mpa.abs(),
        ends: elastic_plastic::any_overlap(&joint, &plastic, change).map_err(|failure| failed(&failure))?,
        needed: elastic_plastic::overlap_needed(&joint, &plastic, line)
            .map_err(|failure| failed(&failure))?,
        overlap_mm: joint.overlap_mm,
    })
}

fn elastic_plastic_capacity(
    subject: &Subject<'_>,
    lap: &DoubleLap,
    case: &Case<'_>,
    line: &Known<f64>,
    data: &Known<Data>,
    results: &mut Results,
) {
    let fill = [subject.name, case.name];
    let found = match data {
        Ok(Data::Given(values)) => capacity(subject, lap, line, values),
        Ok(Data::Class { keys, .. }) => Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => Err(lack.clone()),
    };
    let put = |name, value: fn(&Capacity) -> f64, results: &mut Results| {
        results.quantities.put(name, &fill, found.as_ref().map(value).map_err(Lack::clone));
    };
    put(&names::VOLKERSEN_PEAK_SHEAR, |found| found.peak_shear_mpa, results);
    put(&names::HART_SMITH_CAPACITY, |found| found.ends.capacity_n_mm(), results);
    put(&names::OVERLAP_NEEDED, |found| found.needed.total_mm(), results);
    let basis =
        Basis::Memory("Hart-Smith 1973, NASA CR-112235: double lap, elastic-plastic adhesive, both ends");
    let finding = subject.under(case, "elastic_plastic", basis);
    results.findings.push(match (&found, line) {
        (Err(lack), _) | (_, Err(lack)) => finding.unknown(
            format!("The elastic-plastic capacity of {} cannot be told.", subject.name),
            lack.clone(),
        ),
        (Ok(found), Ok(line)) => told(finding, found, *line, results),
    });
    if let (Ok(found), Ok(line)) = (&found, line) {
        beside_the_formula(subject, case, found.ends.capacity_n_mm() / line, results);
    }
}

/// A note where the strip to failure and Hart-Smith's formula lie far apart.
fn beside_the_formula(subject: &Subject<'_>, case: &Case<'_>, formula: f64, results: &mut Results) {
    /// A quarter: our own limit. The formula knows neither peel nor a toughness in opening, so that no scatter of it is
    /// on record for plates that bend.
    const KNOWN: f64 = 0.25;
    let dotted = names::CAPACITY_FACTOR.fill(&[subject.name, case.name]);
    let Some(Ok(strip)) = results.quantities.get(&dotted).map(|known| known.as_ref().map(|it| it.value))
    else {
        return;
    };
    let pair = parted::Pair {
        what: "the capacity".to_owned(),
        ours: ("The strip to failure", strip),
        theirs: ("Hart-Smith's formula", formula),
        known: KNOWN,
    };
    let basis = Basis::Memory("Hart-Smith 1973, NASA CR-112235: bars that do not bend, shear alone");
    let because = format!(
        "The strip gives {strip:.2} times the load, the formula {formula:.2}. The strip counts peel at the ends of the outer plates and the toughness in opening; the formula counts shear alone."
    );
    parted::note(subject, case, &pair, basis, because, results);
}

/// The capacity at the strengths as written, without factors: a note beside the check, and the rule for the
/// overlap, which is there against creep.
fn told(finding: Finding, found: &Capacity, line_n_mm: f64, results: &Results) -> Finding {
    let capacity = found.ends.capacity_n_mm();
    let print = |value: f64| results.print(value, Kind::LineLoad);
    let (needed, overlap) = (found.needed.total_mm(), found.overlap_mm);
    let length = |value: f64| results.print(value, Kind::Length);
    let weaker = if found.ends.inner_n_mm <= found.ends.outer_n_mm { "inner" } else { "outer" };
    let long_enough = if overlap >= needed {
        format!(
            "The overlap of {} leaves an unstressed middle; the rule asks for {}.",
            length(overlap),
            length(needed)
        )
    } else {
        format!(
            "The rule against creep asks for an overlap of {}, there are {}.",
            length(needed),
            length(overlap)
        )
    };
    let next = (overlap < needed).then(|| Next::from(format!("Make the overlap {}.", length(needed.ceil()))));
    Finding {
        statement: format!(
            "The bond of {} gives way at {}, with strengths as written; the load is {}.",
            finding.about,
            print(capacity),
            print(line_n_mm)
        ),
        value: Some(Measure::of(line_n_mm, Kind::LineLoad)),
        limit: Some(Measure::of(capacity, Kind::LineLoad)),
        verdict: Verdict::Note,
        because: format!("The end where the {weaker} plate is loaded governs. {long_enough}"),
        next,
        ..finding
    }
}
