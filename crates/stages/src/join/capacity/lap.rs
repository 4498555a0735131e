//! Lap and double lap to failure.

use assessment::{Known, Lack, Next, names};
use job::tables::{DoubleLap, Lap, Law, Material, MixedMode, MixedModeLaw, Model, Plasticity, PlateRivets};
use job::{Edit, Entry, Needed};
use mechanics::bondline::Bondline;
use mechanics::rivet::flexibility::{Fastened, Fastening, Plate, ShearPlanes, huth_mm_n};
use mechanics::rivet::resistance::GAMMA_M2;
use mechanics::rivet::resistance::sheet::{self, RivetedSheet};
use mechanics::rivet::share::{Hold, Row};
use mechanics::strip::progressive::{Hardening, Joint, Mixing, Outcome, Walker};
use mechanics::strip::{self, Mesh};
use quantity::{Kind, Length};

use super::super::adhesive::Data;
use super::super::lap::{Built, Demand, adherend, failed, temperature_change_k};
use super::super::subject::{Case, Subject};
use super::law::kind;
use super::words::{Plates, sequence};
use super::{ARM_ELEMENTS, ELEMENTS, Judged, Level, Strengths, factors, law_of, load, peak, told};
use crate::Results;

/// A joint of plates as it is loaded until it fails, all but the law of its layer.
pub(in super::super) struct Ready<'j> {
    /// With the strip's own loads at the case as written; overlap and thickness of the layer in mm.
    pub(in super::super) joint:
        Box<dyn Fn(f64, f64, mechanics::strip::progressive::Law) -> Joint + Sync + 'j>,
    pub(in super::super) strengths: Strengths<'j>,
    /// The least bondline, mm.
    pub(in super::super) least_mm: f64,
    plates: Plates,
    pub(in super::super) model: &'j Entry<Model>,
    /// Whether the lap bends so that its ends peel.
    peels: bool,
}

impl Ready<'_> {
    /// The way at a level of the strengths, on an overlap.
    ///
    /// A thicker bond looks stronger in every such model, and is not: a layer above the beads is also tried as
    /// thick as the beads, and the lesser counts.
    fn way(&self, walker: &mut Walker, level: Level, overlap_mm: f64, results: &Results) -> Known<Outcome> {
        let of = |walker: &mut Walker, thickness_mm: f64| {
            let strengths = Strengths { thickness_mm, ..self.strengths };
            capped(walker, &(self.joint)(overlap_mm, thickness_mm, law_of(&strengths, level, results)?))
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
fn capped(walker: &mut Walker, joint: &Joint) -> Known<Outcome> {
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
    let ready = ready(built, demand, data);
    find(built.subject, case, &ready, &built.lap.overlap, results);
}

/// A lap that can be loaded until it fails.
pub(in super::super) fn ready<'j>(
    built: &'j Built<'j>,
    demand: &Known<Demand>,
    data: &Known<Data>,
) -> Known<Ready<'j>> {
    loaded(demand).and_then(|demand| single(built, demand, data))
}

/// The same of a double lap, by its plane of symmetry.
pub(in super::super) fn double_lap(
    subject: &Subject<'_>,
    lap: &DoubleLap,
    case: &Case<'_>,
    demand: &Known<Demand>,
    data: &Known<Data>,
    results: &mut Results,
) {
    let ready = loaded(demand).and_then(|demand| half(subject, lap, demand, data));
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
    let finding = subject.under(case, "progressive", super::basis());
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
    let mut judge = |overlap_mm: f64, results: &Results| -> Known<Judged> {
        let (load_factor, gamma) = factors(subject, case)?;
        let way = ready.way(&mut walker, Level::Characteristic, overlap_mm, results)?;
        Ok(Judged { characteristic: peak(&way)?.factor, load_factor, gamma })
    };
    let blind = kind(&ready.strengths) == Law::ElasticPlastic;
    let judged = if blind && ready.peels {
        Err(Lack::OutOfData {
            what: "the elastic-plastic law does not judge peel, which a single lap has at its ends"
                .to_owned(),
            key: format!("{}.law", ready.model.key),
        })
    } else {
        judge(overlap_mm, results)
    };
    super::put_reserve(&fill, &judged, results);
    super::say(subject, &ready.strengths, Some((ready.model, ready.model.get())), results);
    let mut because = sequence(written, &ready.plates, overlap_mm);
    if blind {
        because.push_str(" Peel is not judged by the elastic-plastic law.");
    }
    let next = || longer(overlap, overlap_mm, |overlap_mm| judge(overlap_mm, results), results);
    let finding = told(finding, subject, case, capacity.factor, &judged, because, next);
    results.findings.push(finding);
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

fn put(fill: &[&str], ways: &Known<(Outcome, mechanics::strip::progressive::Moment)>, results: &mut Results) {
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
) -> Known<Strengths<'j>> {
    Ok(Strengths {
        adhesive: subject.adhesive()?,
        asked: model.and_then(|model| model.law.get()).copied(),
        mixing: mixing(model.and_then(|model| model.mixed_mode.get())),
        bondline_mm,
        moduli_mpa: [layer.peel_modulus_mpa, layer.shear_modulus_mpa],
        thickness_mm: bondline_mm,
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

fn hardening(material: &Material) -> Known<Hardening> {
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

fn single<'j>(built: &'j Built<'j>, demand: &Demand, data: &Known<Data>) -> Known<Ready<'j>> {
    let (subject, lap) = (built.subject, built.lap);
    let values = values(data)?;
    let strip =
        built.strip(values, demand, &crate::Ask { strip_elements: ELEMENTS, ..crate::Ask::default() })?;
    let strip = strip::Strip { mesh: mesh(&strip.mesh), ..strip };
    let model = lap.model.get();
    let bondline_mm = subject.bondline_mm.clone()?;
    let hardening = plastic(subject, model, [&lap.upper, &lap.lower])?;
    let unbonded_mm = voids(lap);
    let rows = rows(
        subject,
        &lap.rivets,
        &lap.width,
        [&lap.upper, &lap.lower],
        ShearPlanes::One,
        demand.overlap_mm,
    )?;
    let strengths = strengths(subject, model, strip.adhesive, bondline_mm)?;
    let joint = move |overlap_mm: f64, thickness_mm: f64, law| Joint {
        unbonded_mm: unbonded_mm.clone(),
        rows: rows.clone(),
        hardening,
        ..Joint::new(
            strip::Strip { overlap_mm, bondline: Bondline::Constant(thickness_mm), ..strip.clone() },
            law,
        )
    };
    let least_mm = least_mm(subject, bondline_mm);
    Ok(Ready {
        joint: Box::new(joint),
        strengths,
        least_mm,
        plates: Plates(["upper", "lower"]),
        model: &lap.model,
        peels: true,
    })
}

/// Half a double lap: an outer plate above half the inner one, which its plane of symmetry holds flat.
fn half<'j>(
    subject: &Subject<'j>,
    lap: &'j DoubleLap,
    demand: &Demand,
    data: &Known<Data>,
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
    let adhesive = values.isotropic()?;
    let geometry = match model.and_then(|model| model.geometry.get()) {
        Some(job::tables::Geometry::FirstOrder) => strip::Geometry::FirstOrder,
        Some(job::tables::Geometry::SecondOrder) | None => strip::Geometry::SecondOrder,
    };
    let strip = strip::Strip {
        upper,
        lower,
        adhesive,
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
        mesh: mesh(&Mesh::default()),
    };
    let hardening = plastic(subject, model, [&lap.outer, &lap.inner])?;
    let rows = rows(
        subject,
        &lap.rivets,
        &lap.width,
        [&lap.inner, &lap.outer],
        ShearPlanes::Two,
        demand.overlap_mm,
    )?;
    let strengths = strengths(subject, model, adhesive, bondline_mm)?;
    let joint = move |overlap_mm: f64, thickness_mm: f64, law| Joint {
        rows: rows.clone(),
        hardening,
        lower_held_flat: true,
        ..Joint::new(
            strip::Strip { overlap_mm, bondline: Bondline::Constant(thickness_mm), ..strip.clone() },
            law,
        )
    };
    let least_mm = least_mm(subject, bondline_mm);
    Ok(Ready {
        joint: Box::new(joint),
        strengths,
        least_mm,
        plates: Plates(["outer", "inner"]),
        model: &lap.model,
        peels: false,
    })
}

fn mesh(of: &Mesh) -> Mesh {
    Mesh { elements: ELEMENTS, arm_elements: ARM_ELEMENTS, ..*of }
}

fn voids(lap: &Lap) -> Vec<[f64; 2]> {
    let voids = lap.voids.get().map_or(&[][..], Vec::as_slice);
    let both = |void: &job::tables::Void| Some([void.from.get()?.mm(), void.to.get()?.mm()]);
    voids.iter().filter_map(both).collect()
}

/// The rivet rows beside the bond; none where there are none. In double shear half of each rivet belongs to half
/// of the joint: one of its planes.
fn rows(
    subject: &Subject<'_>,
    rivets: &Entry<PlateRivets>,
    width: &Entry<Length>,
    plates: [&Entry<job::tables::Adherend>; 2],
    planes: ShearPlanes,
    overlap_mm: f64,
) -> Known<Vec<Row>> {
    let Some(rivets) = rivets.get() else { return Ok(Vec::new()) };
    let (rivet, rows, per_row, width) = (
        subject.tables.rivets.referred(&rivets.kind),
        rivets.rows.need(),
        rivets.per_row.need(),
        width.need(),
    )
        .need_all()?;
    let (shear, tension, diameter, material) = (
        rivet.shear_strength.need(),
        rivet.tension_strength.need(),
        rivet.diameter.need(),
        rivet.material.need(),
    )
        .need_all()?;
    let modulus = material.youngs_modulus.need()?.mpa();
    let thickness =
        |entry: &Entry<job::tables::Adherend>| -> Known<f64> { Ok(entry.need()?.thickness.need()?.mm()) };
    let thickest = f64::max(thickness(plates[0])?, thickness(plates[1])?);
    let end = rows.iter().map(|row| f64::min(row.mm(), overlap_mm - row.mm())).fold(f64::INFINITY, f64::min);
    // Strengths without a partial factor: the strip takes them as they are.
    let plate = |entry: &Entry<job::tables::Adherend>| -> Known<(Plate, f64)> {
        let plate = entry.need()?;
        let (of, thickness) =
            (subject.tables.materials.referred(&plate.material), plate.thickness.need()).need_all()?;
        let (youngs_modulus, tensile) = (of.youngs_modulus.need(), of.tensile_strength.need()).need_all()?;
        let flat = Plate { thickness_mm: thickness.mm(), youngs_modulus_mpa: youngs_modulus.mpa() };
        let wall = RivetedSheet {
            thinner_mm: thickness.mm(),
            thicker_mm: thickest,
            tensile_strength_mpa: tensile.mpa(),
            diameter_mm: diameter.mm(),
            end_distance_mm: end,
        };
        let bearing =
            sheet::bearing(sheet::Rule::En1999, &wall, GAMMA_M2).map_err(|failure| failed(&failure))?;
        Ok((flat, bearing.characteristic_n))
    };
    let (first, second) = (plate(plates[0])?, plate(plates[1])?);
    let fastened = Fastened {
        first: first.0,
        second: second.0,
        diameter_mm: diameter.mm(),
        youngs_modulus_mpa: modulus,
    };
    let give = huth_mm_n(Fastening::RivetedMetal, planes, &fastened).map_err(|failure| failed(&failure))?;
    let bearing = match planes {
        ShearPlanes::One => f64::min(first.1, second.1),
        ShearPlanes::Two => f64::min(0.5 * first.1, second.1),
    };
    let of_plane = 1.0 / planes.count();
    let grip = first.0.thickness_mm + second.0.thickness_mm;
    let area = std::f64::consts::FRAC_PI_4 * diameter.mm() * diameter.mm();
    let hold =
        Hold { stiffness_n_mm: of_plane / give, strength_n: f64::min(shear.n(), bearing), break_mm: None };
    let opening = Hold { stiffness_n_mm: modulus * area / grip, strength_n: tension.n(), break_mm: None };
    let pitch_mm = width.mm() / f64::from(*per_row);
    Ok(rows.iter().map(|row| Row { x_mm: row.mm(), pitch_mm, shear: hold, opening }).collect())
}
