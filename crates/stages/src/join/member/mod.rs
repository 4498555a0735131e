//! Joints of whole sections: sleeve and socket. The bond by perimeter strips, the parts beside it, the rivets,
//! and what a sectioning must keep to.

mod around;
mod beside;
mod chance;
mod cut_error;
mod fields;
mod gates;
pub(super) mod loads;
mod parts;
mod progressive;
mod reach;
mod rivets;
mod strips;
mod taken;

use assessment::{Known, Lack, names};
use job::tables::{Closing, Sleeve, Socket};
use job::{Entry, Job};
use mechanics::perimeter::{self, LineLoad, Sharing};
use mechanics::statics::Resultants;

use self::around::{Side, Strips};
use self::reach::Reach;
use super::adhesive::Data;
use super::ends::{AllEnds, Ends};
use super::nominal::Shear;
use super::subject::{Case, Subject};
use super::{about, environment, fatigue, galvanic, nominal, overlap, sustained};
use crate::bond_day::BondDay;
use crate::faying::{Geometry, Which};
use crate::{Ask, Results};

/// A sleeve or a socket, as far as they are the same.
pub(super) struct Form<'j> {
    pub(super) subject: &'j Subject<'j>,
    pub(super) geometry: &'j Known<Geometry>,
    pub(super) rivets: &'j Entry<job::tables::Rivets>,
    /// How far a cut may lie off, mm; `None` where nothing is cut.
    cut_tolerance_mm: Option<f64>,
}

/// Assesses a sleeve.
pub(super) fn run_sleeve(
    job: &Job,
    name: &str,
    sleeve: &Sleeve,
    all_ends: &AllEnds,
    bond_day: &BondDay,
    ask: &Ask,
    results: &mut Results,
) {
    let geometry = Geometry::of_sleeve(sleeve, &job.tables);
    let subject = Subject {
        name,
        tables: &job.tables,
        adhesive: &sleeve.adhesive,
        ends: all_ends.get(&sleeve.adhesive),
        bondline_mm: geometry.as_ref().map(Geometry::governing_bondline_mm).map_err(Lack::clone),
        overlap: Some(&sleeve.overlap),
        surface: &sleeve.surface,
        loads_key: if sleeve.member.get().is_some() { "cases".to_owned() } else { sleeve.loads.key.clone() },
        place: &sleeve.place,
    };
    let form = Form {
        subject: &subject,
        geometry: &geometry,
        rivets: &sleeve.rivets,
        cut_tolerance_mm: Some(cut_error::tolerance_mm(sleeve)),
    };
    gates::find(&form, Some(sleeve), results);
    gates::closing(&form, &sleeve.closing, results);
    taken::of_sleeve(job, &subject, sleeve, results);
    let loads = loads::of(job, &sleeve.member, &sleeve.station, &sleeve.loads);
    assess(&form, &sleeve.closing, &loads, bond_day, ask, results);
}

/// Assesses a socket.
pub(super) fn run_socket(
    job: &Job,
    name: &str,
    socket: &Socket,
    all_ends: &AllEnds,
    bond_day: &BondDay,
    ask: &Ask,
    results: &mut Results,
) {
    let geometry = Geometry::of_socket(socket, &job.tables);
    let subject = Subject {
        name,
        tables: &job.tables,
        adhesive: &socket.adhesive,
        ends: all_ends.get(&socket.adhesive),
        bondline_mm: geometry.as_ref().map(Geometry::governing_bondline_mm).map_err(Lack::clone),
        overlap: Some(&socket.overlap),
        surface: &socket.surface,
        loads_key: if socket.member.get().is_some() { "cases".to_owned() } else { socket.loads.key.clone() },
        place: &socket.place,
    };
    let form =
        Form { subject: &subject, geometry: &geometry, rivets: &socket.rivets, cut_tolerance_mm: None };
    gates::find(&form, None, results);
    gates::closing(&form, &socket.closing, results);
    taken::of_socket(job, &subject, socket, results);
    let loads = loads::of(job, &socket.member, &socket.station, &socket.loads);
    assess(&form, &socket.closing, &loads, bond_day, ask, results);
}

fn assess(
    form: &Form<'_>,
    closing: &Entry<Closing>,
    loads: &[loads::Load<'_>],
    bond_day: &BondDay,
    ask: &Ask,
    results: &mut Results,
) {
    let cases: Vec<&Case<'_>> = loads.iter().map(|load| &load.case).collect();
    about(form.subject, &cases, bond_day, results);
    galvanic::find(form.subject, &touching(form, closing), results);
    rivets::layout(form, results);
    parts::beside_intact(form, results);
    let data = form.subject.data();
    let Some(ends) = form.subject.ends else {
        let mut to_failure = ToFailure::Known(Box::new(progressive::reach(form, &data)));
        return loads.iter().for_each(|load| under(form, load, &data, &mut to_failure, ask, results));
    };
    let tables = ends.tables(form.subject.tables, form.subject.adhesive.get().map_or("", String::as_str));
    let subjects = tables.each_ref().map(|tables| Subject { tables, ends: None, ..form.subject.clone() });
    let forms = subjects.each_ref().map(|subject| Form { subject, ..*form });
    let datas = subjects.each_ref().map(Subject::data);
    let [lower, upper] = [0, 1].map(|end| progressive::reach(&forms[end], &datas[end]));
    let mut to_failure = ToFailure::Between(ends, Box::new([lower, upper]));
    for load in loads {
        under(form, load, &data, &mut to_failure, ask, results);
    }
}

/// The strips of a joint that are loaded until they fail.
enum ToFailure<'j> {
    /// With the adhesive's own values.
    Known(Box<Known<Reach<'j>>>),
    /// With each of two tables, between which they lie.
    Between(&'j Ends, Box<[Known<Reach<'j>>; 2]>),
}

/// The metals of the joint: outer and inner section, rivets.
fn touching<'j>(form: &Form<'j>, closing: &Entry<Closing>) -> galvanic::Touching<'j> {
    let part = |which, word| {
        let material =
            form.geometry.as_ref().ok().and_then(|it| it.material(which, form.subject.tables).ok());
        (word, material)
    };
    galvanic::Touching {
        outer: part(Which::Outer, "outer section"),
        inner: part(Which::Inner, "inner section"),
        rivet: form.rivets.get().map(|rivets| &rivets.kind),
        slid: closing.get() == Some(&Closing::Slide),
    }
}

/// The worst point of the bond.
struct Governing {
    line: LineLoad,
    /// The side of the cut: +1 beyond it, −1 before it.
    side: f64,
    /// Mean shear over the whole bonded area of one side, MPa.
    mean_shear_mpa: f64,
}

/// Shares the resultants over the perimeter on each side of the cut, and takes the worse.
fn governing(geometry: &Geometry, at_cut: &Resultants) -> Known<Governing> {
    let stretches = geometry.stretches();
    let mut worst: Option<Governing> = None;
    for offset_mm in geometry.middles_mm() {
        let resultants = perimeter::moved_along(at_cut, offset_mm);
        let sharing: Sharing =
            perimeter::share(&stretches, &resultants).map_err(|failure| super::lap::failed(&failure))?;
        let Some(line) = sharing.greatest() else { continue };
        let forces = [resultants.axial_n, resultants.shear_y_n, resultants.shear_z_n];
        let mean_shear_mpa = forces.iter().map(|it| it * it).sum::<f64>().sqrt() / geometry.bonded_area_mm2();
        if worst.as_ref().is_none_or(|worst| line.resultant_n_mm() > worst.line.resultant_n_mm()) {
            worst = Some(Governing { line, side: offset_mm.signum(), mean_shear_mpa });
        }
    }
    worst.ok_or_else(|| Lack::Missing { keys: vec!["bonds".to_owned()] })
}

/// The sides of the cut, and their strips where the adhesive's values are known.
fn around(
    form: &Form<'_>,
    geometry: &Known<&Geometry>,
    at_cut: &Known<&Resultants>,
    data: &Known<Data>,
    ask: &Ask,
) -> Known<(Vec<Side>, Known<Strips>)> {
    let (geometry, at_cut) = (geometry.clone()?, at_cut.clone()?);
    let sides = around::sides(geometry, at_cut)?;
    let strips = match data {
        Ok(Data::Given(values)) => Strips::of(form, geometry, &sides, values, ask),
        Ok(Data::Class { keys, .. }) => Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => Err(lack.clone()),
    };
    Ok((sides, strips))
}

fn under(
    form: &Form<'_>,
    load: &loads::Load<'_>,
    data: &Known<Data>,
    to_failure: &mut ToFailure<'_>,
    ask: &Ask,
    results: &mut Results,
) {
    let (subject, case) = (form.subject, &load.case);
    let fill = [subject.name, case.name];
    let geometry = form.geometry.as_ref().map_err(Lack::clone);
    let at_cut = load.resultants.as_ref().map_err(Lack::clone);
    if let Ok(resultants) = at_cut {
        loads::put(resultants, &fill, results);
    }
    let found = geometry.clone().and_then(|geometry| governing(geometry, at_cut.clone()?));
    let line = found.as_ref().map(|it| it.line.resultant_n_mm()).map_err(Lack::clone);
    results.quantities.put(&names::LINE_LOAD, &fill, line.clone());
    results.quantities.put(
        &names::MEAN_SHEAR,
        &fill,
        found.as_ref().map(|it| it.mean_shear_mpa).map_err(Lack::clone),
    );

    let around = around(form, &geometry, &at_cut, data, ask);
    strips::find(form, case, &found, &around, results);
    fields::put(form, case, &found, &around, results);
    // Nominal shear at the worst point of the perimeter: the line load over the overlap.
    let shear = line.clone().and_then(|line| Ok(line / geometry.clone()?.overlap_mm));
    let at_overlap = |overlap_mm: f64| {
        let longer = Geometry { overlap_mm, ..geometry.clone()?.clone() };
        Ok(governing(&longer, at_cut.clone()?)?.line.resultant_n_mm() / overlap_mm)
    };
    let shear = Shear { now_mpa: shear, at_overlap: &at_overlap };
    let nominal = nominal::find(subject, case, &shear, data, results);
    if let Some(tolerance_mm) = form.cut_tolerance_mm {
        cut_error::find(form, load, tolerance_mm, &nominal, results);
    }
    let sides = around.as_ref().map(|(sides, _)| sides.as_slice()).map_err(Lack::clone);
    match to_failure {
        ToFailure::Known(reach) => {
            if ask.to_failure {
                progressive::find(form, case, &sides, reach, results);
            }
            chance::find(form, case, &sides, data, reach, ask, results);
        }
        ToFailure::Between(ends, reaches) => {
            if ask.to_failure {
                progressive::between(form, case, ends, &sides, reaches, results);
            }
            chance::find(form, case, &sides, data, &mut Err(ends.lack()), ask, results);
        }
    }
    fatigue::bond(subject, case, &shear.now_mpa, data, results);
    sustained::find(subject, case, &nominal, results);
    let conditions = environment::find(subject, case, &nominal, &shear, results);
    let capacities = parts::find(form, load, data, results);
    let peak_at = |overlap_mm: f64| {
        let longer = Geometry { overlap_mm, ..geometry.clone()?.clone() };
        strips::held_peak_mpa(form, &longer, found.as_ref().map_err(Lack::clone)?.line, data, ask)
    };
    overlap::put(subject, case, &nominal, &shear, &conditions, Some(&peak_at), results);
    beside::share(form, case, data, results);
    beside::fatigue(form, case, &line, data, results);
    parts::holes_in_fatigue(form, load, data, results);
    rivets::bond_lost(form, load, results);
    parts::efficiency(form, case, &found, data, &capacities, results);
}
