//! Lap and double lap to failure.

use assessment::{Basis, Known, Lack, Next, names};
use job::tables::{DoubleLap, Lap, Law as Asked, Material, MixedMode, MixedModeLaw, Model, Plasticity};
use job::{Edit, Entry, Needed};
use mechanics::bondline::Bondline;
use mechanics::rivet::flexibility::ShearPlanes;
use mechanics::rivet::share::Row;
use mechanics::strip::progressive::{Hardening, Joint, Law, Mixing, Moment, Outcome, Walker};
use mechanics::strip::{self, Mesh};
use quantity::{Kind, Length, TemperatureDifference};

use super::super::adhesive::Data;
use super::super::chance::Place;
use super::super::condition::{Condition, Parts, expansions, of_service};
use super::super::lap::{Built, Demand, adherend, failed, temperature_change_k};
use super::super::subject::{Case, Subject};
use super::between;
use super::law::kind;
use super::rivets::rows;
use super::service::{Found, Tried};
use super::words::{Plates, sequence};
use super::{ARM_ELEMENTS, ELEMENTS, Judged, Level, Strengths, factors, law_of, load, peak, told};
use crate::Results;

/// A joint of plates that can be loaded until it fails.
#[derive(Clone)]
pub(in super::super) struct Ready<'j> {
    /// As the file gives it, strengths as written; its strip's loads are those of the case.
    whole: Joint,
    pub(in super::super) strengths: Strengths<'j>,
    /// The least bondline, mm.
    pub(in super::super) least_mm: f64,
    plates: Plates,
    pub(in super::super) model: &'j Entry<Model>,
    /// Coefficients of expansion of both plates, where they do not expand alike.
    expansions: Known<Option<[f64; 2]>>,
    /// The change of temperature that the joint itself gives, K.
    own_k: Option<f64>,
}

impl Ready<'_> {
    /// The same in another condition.
    fn in_condition(&self, condition: &Condition) -> Known<Self> {
        let mut strip = self.whole.strip.clone();
        strip.temperature_change_k = 0.0;
        if condition.change_k != 0.0
            && let Some([upper, lower]) = self.expansions.clone()?
        {
            strip.upper.thermal_expansion_per_k = upper;
            strip.lower.thermal_expansion_per_k = lower;
            strip.temperature_change_k = condition.change_k;
        }
        let strengths = Strengths { condition: *condition, ..self.strengths };
        Ok(Self { whole: Joint { strip, ..self.whole.clone() }, strengths, ..self.clone() })
    }

    /// Whether the law judges all that the lap feels.
    pub(in super::super) fn judges_peel(&self) -> Known<()> {
        if kind(&self.strengths) == Asked::ElasticPlastic && self.peels() {
            return Err(Lack::OutOfData {
                what: "the elastic-plastic law does not judge peel, which a single lap has at its ends"
                    .to_owned(),
                key: format!("{}.law", self.model.key),
            });
        }
        Ok(())
    }

    /// The joint for chances: as the file gives it, its law to be replaced.
    pub(in super::super) fn place(&self) -> Place {
        Place { joint: self.whole.clone(), bondline_mm: self.strengths.bondline_mm, least_mm: self.least_mm }
    }

    /// The joint with another overlap, thickness of its layer and law.
    fn joint(&self, overlap_mm: f64, thickness_mm: f64, law: Law) -> Joint {
        let bondline = Bondline::Constant(thickness_mm);
        let strip = strip::Strip { overlap_mm, bondline, ..self.whole.strip.clone() };
        Joint { strip, law, ..self.whole.clone() }
    }

    /// Whether the lap bends so that its ends peel.
    fn peels(&self) -> bool {
        !self.whole.lower_held_flat
    }

    /// The way at a level of the strengths, on an overlap.
    ///
    /// A thicker bond looks stronger in every such model, and is not: a layer above the beads is also tried as
    /// thick as the beads, and the lesser counts.
    fn way(&self, walker: &mut Walker, level: Level, overlap_mm: f64, results: &Results) -> Known<Outcome> {
        let of = |walker: &mut Walker, thickness_mm: f64| {
            let strengths = Strengths { thickness_mm, ..self.strengths };
            capped(walker, &self.joint(overlap_mm, thickness_mm, law_of(&strengths, level, results)?))
        };
        let own = of(walker, self.strengths.thickness_mm)?;
        if self.strengths.thickness_mm <= self.least_mm * (1.0 + 1e-9) {
            return Ok(own);
        }
        let thin = of(walker, self.least_mm)?;
        Ok(if peak(&thin)?.factor < peak(&own)?.factor { thin } else { own })
    }
}

/// The way of a joint, its capacity no higher than that of the bond alone and of the rivets alone together.
///
/// Tests of bonded and fastened laps carried less than the sum of both (`validation/`); the strip, in which rivets stop
/// peel and pull load to the weaker end, comes out up to a quarter above it.
pub(in super::super) fn capped(walker: &mut Walker, joint: &Joint) -> Known<Outcome> {
    let mut way = load(walker, joint)?;
    if joint.rows.is_empty() {
        return Ok(way);
    }
    let alone = load(walker, &Joint { rows: Vec::new(), ..joint.clone() })?;
    let line_n_mm = joint.strip.axial_n_mm.hypot(joint.strip.shear_flow_n_mm);
    let rivets = joint.rows.iter().map(Row::shear_strength_n_mm).sum::<f64>() / line_n_mm;
    let most = peak(&alone)?.factor + rivets;
    if let Some(capacity) = &mut way.capacity {
        capacity.factor = capacity.factor.min(most);
    }
    Ok(way)
}

/// Loads a lap until it fails and tells what came of it.
pub(in super::super) fn single_lap(
    built: &Built<'_>,
    case: &Case<'_>,
    demand: &Known<Demand>,
    data: &Known<Data>,
    results: &mut Results,
) {
    let subject = built.subject;
    if let Some(ends) = subject.ends {
        let of = |subject: &Subject<'_>, results: &Results| {
            let built = Built { subject, lap: built.lap };
            end(subject, case, &ready(&built, demand, &subject.data(), results)?, &built.lap.overlap, results)
        };
        between::laps(subject, case, ends, of, results);
        return;
    }
    let ready = ready(built, demand, data, results);
    find(subject, case, &ready, &built.lap.overlap, results);
}

/// What one of two complete tables of the adhesive gives.
fn end(
    subject: &Subject<'_>,
    case: &Case<'_>,
    ready: &Ready<'_>,
    overlap: &Entry<Length>,
    results: &Results,
) -> Known<between::End> {
    let overlap_mm = overlap.need()?.mm();
    let mut walker = Walker::new();
    let written = peak(&ready.way(&mut walker, Level::AsWritten, overlap_mm, results)?)?.factor;
    let reserve = judge(ready, &mut walker, (subject, case), overlap_mm, results);
    Ok(between::End { written, reserve: reserve.map(|judged| judged.reserve()) })
}

/// A lap that can be loaded until it fails.
pub(in super::super) fn ready<'j>(
    built: &'j Built<'j>,
    demand: &Known<Demand>,
    data: &Known<Data>,
    results: &Results,
) -> Known<Ready<'j>> {
    loaded(demand).and_then(|demand| single(built, demand, data, results))
}

/// A double lap that can be loaded until it fails, by its plane of symmetry.
pub(in super::super) fn double_ready<'j>(
    subject: &Subject<'j>,
    lap: &'j DoubleLap,
    demand: &Known<Demand>,
    data: &Known<Data>,
    results: &Results,
) -> Known<Ready<'j>> {
    loaded(demand).and_then(|demand| half(subject, lap, demand, data, results))
}

/// Loads a double lap until it fails and tells what came of it.
pub(in super::super) fn double_lap(
    subject: &Subject<'_>,
    lap: &DoubleLap,
    case: &Case<'_>,
    demand: &Known<Demand>,
    data: &Known<Data>,
    results: &mut Results,
) {
    for plate in [&lap.outer, &lap.inner].into_iter().filter_map(Entry::get) {
        let basis = Basis::CommonPractice("straps meet at a plane of symmetry, where they cannot turn");
        results.assume_silent(&plate.free_length, basis, |results| {
            let none = results.print(0.0, Kind::Length);
            format!("A plate of {} is held right beside the overlap: a free length of {none}.", subject.name)
        });
    }
    if let Some(ends) = subject.ends {
        let of = |subject: &Subject<'_>, results: &Results| {
            let data = subject.data();
            let ready = loaded(demand).and_then(|demand| half(subject, lap, demand, &data, results))?;
            end(subject, case, &ready, &lap.overlap, results)
        };
        between::laps(subject, case, ends, of, results);
        return;
    }
    let ready = double_ready(subject, lap, demand, data, results);
    find(subject, case, &ready, &lap.overlap, results);
}

/// The demand, if there is any: zero load has no multiple.
fn loaded(demand: &Known<Demand>) -> Known<&Demand> {
    let demand = demand.as_ref().map_err(Lack::clone)?;
    if demand.line_load_n_mm() > 0.0 { Ok(demand) } else { Err(Lack::NoLoad) }
}

fn find(
    subject: &Subject<'_>,
    case: &Case<'_>,
    ready: &Known<Ready<'_>>,
    overlap: &Entry<Length>,
    results: &mut Results,
) {
    let fill = [subject.name, case.name];
    let mut walker = Walker::new();
    let overlap_mm = overlap.need().map(|overlap| overlap.mm()).map_err(Lack::from);
    let ways = ready.as_ref().map_err(Lack::clone).and_then(|ready| {
        let overlap_mm = overlap_mm.clone()?;
        let written = ready.way(&mut walker, Level::AsWritten, overlap_mm, results)?;
        let capacity = peak(&written)?;
        Ok((written, capacity))
    });
    put(&fill, &ways, results);
    let finding = subject.under(case, "bond_to_failure", super::basis());
    let (ready, written, capacity, overlap_mm) = match (ready, &ways, overlap_mm) {
        (Ok(ready), Ok((written, capacity)), Ok(overlap_mm)) => (ready, written, capacity, overlap_mm),
        (Err(lack), ..) | (_, Err(lack), _) => {
            let statement = format!("At what load the bond of {} gives way cannot be told.", subject.name);
            results.findings.push(finding.unknown(statement, lack.clone()));
            return;
        }
        (.., Err(lack)) => {
            results.findings.push(finding.unknown("The overlap is not known.".to_owned(), lack));
            return;
        }
    };
    let judged = judge(ready, &mut walker, (subject, case), overlap_mm, results);
    super::put_reserve(&fill, &judged, results);
    super::taken::of_bond(subject, &ready.strengths, Some((ready.model, ready.model.get())), results);
    let mut because = because(ready, written, capacity, overlap_mm);
    let change_k = ready.strengths.condition.change_k;
    if change_k != 0.0 {
        let change = results.print(change_k, Kind::TemperatureDifference);
        because = format!("{because} A change of temperature of {change} strains its parts, too.");
    }
    let mut at = |overlap_mm| judge(ready, &mut walker, (subject, case), overlap_mm, results);
    let next = || longer(overlap, overlap_mm, &mut at, results);
    let finding = told(finding, subject, case, capacity.factor, &judged, because, next);
    results.findings.push(finding);
    if let Ok(judged) = &judged
        && case.is_required()
    {
        in_service(subject, case, (ready, judged), (overlap, overlap_mm), results);
    }
}

/// The same hot, cold and wet.
fn in_service(
    subject: &Subject<'_>,
    case: &Case<'_>,
    (ready, room): (&Ready<'_>, &Judged),
    (overlap, overlap_mm): (&Entry<Length>, f64),
    results: &mut Results,
) {
    let condition = ready.strengths.condition;
    let parts = Parts { own_k: ready.own_k, alike: ready.expansions == Ok(None) };
    let Some(served) = of_service(subject, condition, &parts, results) else { return };
    let mut load = |condition: &Condition, results: &Results| -> Known<Found> {
        let ready = ready.in_condition(condition)?;
        let way = ready.way(&mut Walker::new(), Level::Characteristic, overlap_mm, results)?;
        let capacity = peak(&way)?;
        let because = because(&ready, &way, &capacity, overlap_mm);
        Ok(Found { characteristic: capacity.factor, because })
    };
    let mut next = |condition: &Condition, results: &Results| {
        let ready = ready.in_condition(condition).ok()?;
        let mut walker = Walker::new();
        let judge = |overlap_mm: f64| -> Known<Judged> {
            let way = ready.way(&mut walker, Level::Characteristic, overlap_mm, results)?;
            Ok(Judged { characteristic: peak(&way)?.factor, ..*room })
        };
        longer(overlap, overlap_mm, judge, results)
    };
    let tried = Tried { load: &mut load, next: &mut next };
    super::service::find(subject, case, (room, condition), served, tried, results);
}

/// By what the bond is judged on an overlap.
fn judge(
    ready: &Ready<'_>,
    walker: &mut Walker,
    (subject, case): (&Subject<'_>, &Case<'_>),
    overlap_mm: f64,
    results: &Results,
) -> Known<Judged> {
    ready.judges_peel()?;
    let (load_factor, gamma) = factors(subject, case)?;
    let way = ready.way(walker, Level::Characteristic, overlap_mm, results)?;
    Ok(Judged { characteristic: peak(&way)?.factor, load_factor, gamma })
}

/// What happens on the way, and what of it is not counted or not judged.
fn because(ready: &Ready<'_>, way: &Outcome, capacity: &Moment, overlap_mm: f64) -> String {
    let mut sentences = vec![sequence(way, &ready.plates, overlap_mm)];
    let greatest = way.steps.iter().map(|step| step.at.factor).fold(0.0, f64::max);
    if greatest > capacity.factor * 1.001 {
        sentences.push(format!(
            "Bond and rivets together reach {greatest:.2} in the model; no more is counted than both carry alone."
        ));
    }
    if kind(&ready.strengths) == Asked::ElasticPlastic {
        sentences.push("Peel is not judged by the elastic-plastic law.".to_owned());
    }
    sentences.join(" ")
}

/// The first of a few longer overlaps that does, or that none does.
fn longer(
    entry: &Entry<Length>,
    overlap_mm: f64,
    mut judge: impl FnMut(f64) -> Known<Judged>,
    results: &Results,
) -> Option<Next> {
    for share in [1.15, 1.3, 1.5, 1.75, 2.0, 2.5, 3.0] {
        let tried = (overlap_mm * share).ceil();
        if judge(tried).ok()?.reserve() >= 1.0 {
            let value = format!("\"{}\"", quantity::print_exact(tried, Kind::Length));
            let text =
                format!("Make the overlap {}, if the parts carry it.", results.print(tried, Kind::Length));
            return Some(Next { text, edits: vec![Edit { key: entry.key.clone(), value }] });
        }
    }
    Some(Next::from(
        "No longer overlap does: the ends give way first. Thicker plates, a tougher adhesive or a lower load do."
            .to_owned(),
    ))
}

pub(super) fn put(fill: &[&str], ways: &Known<(Outcome, Moment)>, results: &mut Results) {
    let known = ways.as_ref().map_err(Lack::clone);
    let onset = known.clone().and_then(|(way, _)| Ok(way.onset.map_or_else(|| peak(way), Ok)?.factor));
    results.quantities.put(&names::ONSET_FACTOR, fill, onset);
    results.quantities.put(&names::CAPACITY_FACTOR, fill, known.clone().map(|(_, peak)| peak.factor));
    let displacement = known.clone().map(|(_, peak)| peak.displacement_mm);
    results.quantities.put(&names::CAPACITY_DISPLACEMENT, fill, displacement);
    let Ok((way, _)) = known else { return };
    let spent = way.steps.last().map(|step| step.spent).unwrap_or_default();
    for (name, value) in [
        (&names::SPENT_OPENING, spent.opening_n),
        (&names::SPENT_SHEAR, spent.shear_n),
        (&names::SPENT_RIVETS, spent.rivets_n),
        (&names::SPENT_PLATES, spent.adherends_n),
    ] {
        results.quantities.put(name, fill, Ok(value));
    }
    let path: Vec<(f64, f64)> =
        way.steps.iter().map(|step| (step.at.displacement_mm, step.at.factor)).collect();
    results.series.put(&names::LOAD_PATH, fill, ("displacement between the gripped ends", "mm"), &path);
    let damage: Vec<(f64, f64)> = way.at_peak.iter().map(|place| (place.x_mm, place.damage)).collect();
    results.series.put(&names::DAMAGE, fill, ("distance from the left end of the overlap", "mm"), &damage);
}

fn values(data: &Known<Data>) -> Known<&super::super::adhesive::Values> {
    match data {
        Ok(Data::Given(values)) => Ok(values),
        Ok(Data::Class { keys, .. }) => Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => Err(lack.clone()),
    }
}

fn strengths<'j>(
    subject: &Subject<'j>,
    model: Option<&Model>,
    layer: strip::Adhesive,
    bondline_mm: f64,
    condition: Condition,
) -> Known<Strengths<'j>> {
    Ok(Strengths {
        adhesive: subject.adhesive()?,
        asked: model.and_then(|model| model.law.get()).copied(),
        mixing: mixing(model.and_then(|model| model.mixed_mode.get())),
        bondline_mm,
        moduli_mpa: [layer.peel_modulus_mpa, layer.shear_modulus_mpa],
        thickness_mm: bondline_mm,
        condition,
    })
}

/// The mixing rule asked for; linear in the works where none is.
fn mixing(asked: Option<&MixedMode>) -> Mixing {
    let exponent = asked.and_then(|asked| asked.exponent.get()).copied();
    match asked.and_then(|asked| asked.law.get()) {
        Some(MixedModeLaw::BenzeggaghKenane) => Mixing::BenzeggaghKenane(exponent.unwrap_or(2.0)),
        Some(MixedModeLaw::Power) | None => Mixing::Power(exponent.unwrap_or(1.0)),
    }
}

fn least_mm(subject: &Subject<'_>, bondline_mm: f64) -> f64 {
    let beads = subject.adhesive().ok().and_then(|adhesive| adhesive.standoff_beads.get());
    beads.map_or(bondline_mm, |beads| f64::min(beads.mm(), bondline_mm))
}

/// What a material does beyond its proof strength.
pub(crate) fn hardening(material: &Material) -> Known<Hardening> {
    let (proof, tensile, elongation, modulus) = (
        material.proof_strength.need(),
        material.tensile_strength.need(),
        material.elongation.need(),
        material.youngs_modulus.need(),
    )
        .need_all()?;
    Hardening::of_tensile_test(proof.mpa(), tensile.mpa(), *elongation, modulus.mpa())
        .map_err(|failure| failed(&failure))
}

/// What both plates do beyond their proof strength, where the job asks for it.
fn plastic(
    subject: &Subject<'_>,
    model: Option<&Model>,
    plates: [&Entry<job::tables::Adherend>; 2],
) -> Known<[Option<Hardening>; 2]> {
    if model.and_then(|model| model.adherends.get()) != Some(&Plasticity::Plastic) {
        return Ok([None; 2]);
    }
    let of = |plate: &Entry<job::tables::Adherend>| -> Known<Option<Hardening>> {
        Ok(Some(hardening(subject.tables.materials.referred(&plate.need()?.material)?)?))
    };
    Ok([of(plates[0])?, of(plates[1])?])
}

fn single<'j>(
    built: &'j Built<'j>,
    demand: &Demand,
    data: &Known<Data>,
    results: &Results,
) -> Known<Ready<'j>> {
    let (subject, lap) = (built.subject, built.lap);
    let ask = crate::Ask { strip_elements: ELEMENTS, ..crate::Ask::default() };
    let strip = built.strip(values(data)?, demand, &ask)?;
    let plates = [&lap.upper, &lap.lower];
    let hardening = plastic(subject, lap.model.get(), plates)?;
    let rows = rows(subject, &lap.rivets, &lap.width, plates, ShearPlanes::One, demand.overlap_mm)?;
    let expand = Expand { expansions: expand(subject, plates), own: &lap.temperature_change };
    let whole = |strip, law| Joint { unbonded_mm: voids(lap), rows, hardening, ..Joint::new(strip, law) };
    prepared(subject, &lap.model, strip, expand, whole, Plates(["upper", "lower"]), results)
}

/// Half a double lap: an outer plate above half the inner one, which its plane of symmetry holds flat.
fn half<'j>(
    subject: &Subject<'j>,
    lap: &'j DoubleLap,
    demand: &Demand,
    data: &Known<Data>,
    results: &Results,
) -> Known<Ready<'j>> {
    let values = values(data)?;
    let change = temperature_change_k(&lap.temperature_change, subject.tables);
    let (outer, inner) = (lap.outer.need(), lap.inner.need()).need_all()?;
    let of = |plate| adherend(subject.tables, plate, change != 0.0);
    let (upper, whole) = (of(outer), of(inner)).need_all()?;
    let lower = mechanics::Adherend { thickness_mm: 0.5 * whole.thickness_mm, ..whole };
    // Without a free length the straps meet at a plane of symmetry, where they cannot turn.
    let arm_mm = |plate: &job::tables::Adherend| plate.free_length.get().map_or(0.0, |length| length.mm());
    let bondline_mm = subject.bondline_mm.clone()?;
    let model = lap.model.get();
    let geometry = match model.and_then(|model| model.geometry.get()) {
        Some(job::tables::Geometry::FirstOrder) => strip::Geometry::FirstOrder,
        Some(job::tables::Geometry::SecondOrder) | None => strip::Geometry::SecondOrder,
    };
    let strip = strip::Strip {
        upper,
        lower,
        adhesive: values.isotropic()?,
        bondline: Bondline::Constant(bondline_mm),
        overlap_mm: demand.overlap_mm,
        supports: strip::Supports::Gripped {
            ends: strip::Ends::Clamped,
            left_arm_mm: arm_mm(outer),
            right_arm_mm: arm_mm(inner),
        },
        axial_n_mm: 0.5 * demand.axial_n / demand.width_mm,
        shear_flow_n_mm: 0.5 * demand.shear_n / demand.width_mm,
        temperature_change_k: change,
        plane: strip::Plane::Strain,
        hold_transverse: false,
        lever_arm_includes_bondline: true,
        geometry,
        mesh: Mesh::default(),
    };
    let hardening = plastic(subject, model, [&lap.outer, &lap.inner])?;
    let plates = [&lap.inner, &lap.outer];
    let rows = rows(subject, &lap.rivets, &lap.width, plates, ShearPlanes::Two, demand.overlap_mm)?;
    let expand =
        Expand { expansions: expand(subject, [&lap.outer, &lap.inner]), own: &lap.temperature_change };
    let whole = |strip, law| Joint { rows, hardening, lower_held_flat: true, ..Joint::new(strip, law) };
    prepared(subject, &lap.model, strip, expand, whole, Plates(["outer", "inner"]), results)
}

/// How the plates of a joint expand.
struct Expand<'j> {
    expansions: Known<Option<[f64; 2]>>,
    /// The change of temperature that the joint itself gives.
    own: &'j Entry<TemperatureDifference>,
}

/// The coefficients of expansion of two plates, where they do not expand alike.
fn expand(subject: &Subject<'_>, plates: [&Entry<job::tables::Adherend>; 2]) -> Known<Option<[f64; 2]>> {
    let of = |plate: &Entry<job::tables::Adherend>| -> Known<&Material> {
        Ok(subject.tables.materials.referred(&plate.need()?.material)?)
    };
    expansions([of(plates[0])?, of(plates[1])?])
}

/// A joint with its strengths.
fn prepared<'j>(
    subject: &Subject<'j>,
    model: &'j Entry<Model>,
    strip: strip::Strip,
    expand: Expand<'_>,
    whole: impl FnOnce(strip::Strip, Law) -> Joint,
    plates: Plates,
    results: &Results,
) -> Known<Ready<'j>> {
    let Expand { expansions, own } = expand;
    let bondline_mm = subject.bondline_mm.clone()?;
    // Parts that expand alike do not strain each other.
    let change = if expansions == Ok(None) { 0.0 } else { strip.temperature_change_k };
    let strip = strip::Strip { temperature_change_k: change, mesh: mesh(&strip.mesh), ..strip };
    let strengths = strengths(subject, model.get(), strip.adhesive, bondline_mm, Condition::room(change))?;
    let law = law_of(&strengths, Level::AsWritten, results)?;
    let (least_mm, own_k) = (least_mm(subject, bondline_mm), own.get().map(|own| own.kelvin()));
    Ok(Ready { whole: whole(strip, law), strengths, least_mm, plates, model, expansions, own_k })
}

fn mesh(of: &Mesh) -> Mesh {
    Mesh { elements: ELEMENTS, arm_elements: ARM_ELEMENTS, ..*of }
}

fn voids(lap: &Lap) -> Vec<[f64; 2]> {
    let voids = lap.voids.get().map_or(&[][..], Vec::as_slice);
    let both = |void: &job::tables::Void| Some([void.from.get()?.mm(), void.to.get()?.mm()]);
    voids.iter().filter_map(both).collect()
}
