//! The tube: a round socket under axial load and torque.

use assessment::{Basis, Finding, Known, Lack, Verdict, names};
use job::tables::{Tube, TubeLoad, TubePart};
use job::{Absent, Job, Needed};
use mechanics::closed::tube::{self as closed, TubularLap};
use quantity::Kind;

use super::adhesive::{Data, Values};
use super::ends::AllEnds;
use super::lap::failed;
use super::nominal::Shear;
use super::subject::{Case, InService, Subject};
use super::{about, environment, fatigue, galvanic, nominal, overlap, plate_rivets, sustained};
use crate::Results;
use crate::bond_day::BondDay;
use crate::faying::Ring;

/// Assesses a tube joint.
pub(super) fn run(
    job: &Job,
    name: &str,
    tube: &Tube,
    all_ends: &AllEnds,
    bond_day: &BondDay,
    results: &mut Results,
) {
    let subject = Subject {
        name,
        tables: &job.tables,
        adhesive: &tube.adhesive,
        ends: all_ends.get(&tube.adhesive),
        bondline_mm: Ring::of(tube).map(|ring| ring.bondline_mm).map_err(Lack::from),
        overlap: Some(&tube.overlap),
        surface: &tube.surface,
        loads_key: tube.loads.key.clone(),
        place: &tube.place,
    };
    let cases: Vec<Case<'_>> = tube
        .loads
        .iter()
        .map(|(name, load)| Case {
            name,
            kind: load.kind.get().copied(),
            factor: &load.factor,
            place: &load.place,
            service: InService::of(job, Some(&load.spectrum), &load.lasting),
        })
        .collect();
    super::taken::of_tube(&subject, tube, results);
    about(&subject, &cases.iter().collect::<Vec<_>>(), bond_day, results);
    let touching = galvanic::Touching {
        outer: (
            "outer tube",
            tube.outer.get().and_then(|part| job.tables.materials.referred(&part.material).ok()),
        ),
        inner: (
            "inner tube",
            tube.inner.get().and_then(|part| job.tables.materials.referred(&part.material).ok()),
        ),
        rivet: None,
        slid: false,
    };
    galvanic::find(&subject, &touching, results);
    for (case, (_, load)) in cases.iter().zip(tube.loads.iter()) {
        under(&subject, tube, case, load, results);
    }
}

/// A load in numbers.
struct Forces {
    axial_n: f64,
    torque_n_mm: f64,
}

fn forces(load: &TubeLoad) -> Known<Forces> {
    if load.axial.get().is_none() && load.torque.get().is_none() {
        return Err(Lack::Missing { keys: vec![format!("{} or {}", load.axial.key, load.torque.key)] });
    }
    Ok(Forces {
        axial_n: load.axial.get().map_or(0.0, |force| force.n()),
        torque_n_mm: load.torque.get().map_or(0.0, |torque| torque.n_mm()),
    })
}

fn under(subject: &Subject<'_>, tube: &Tube, case: &Case<'_>, load: &TubeLoad, results: &mut Results) {
    let fill = [subject.name, case.name];
    let forces = forces(load);
    let shear = mean_shear_mpa(tube, &forces);
    results.quantities.put(&names::MEAN_SHEAR, &fill, shear.clone());
    let data = subject.data();
    let peak = match &data {
        Ok(Data::Given(values)) => peak_shear_mpa(subject, tube, &forces, values),
        Ok(Data::Class { keys, .. }) => Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => Err(lack.clone()),
    };
    results.quantities.put(&names::PEAK_SHEAR, &fill, peak.clone());
    let basis = Basis::Memory(
        "Volkersen 1965, Adams and Peppiatt 1977: tubular lap in torsion; shear lag for the axial load",
    );
    let finding = subject.under(case, "stresses", basis);
    results.findings.push(match peak {
        Err(lack) => {
            finding.unknown(format!("The stresses in the bond of {} cannot be told.", subject.name), lack)
        }
        Ok(peak) => Finding {
            statement: format!("The bond's shear peaks at {}.", results.print(peak, Kind::Stress)),
            verdict: Verdict::Note,
            because: "Axial load and torque are taken together at the end where both peak.".to_owned(),
            ..finding
        },
    });
    // Load and torque stay; shear falls in proportion to the overlap.
    let at_overlap = |overlap_mm: f64| Ok(shear.clone()? * tube.overlap.need()?.mm() / overlap_mm);
    let shear = Shear { now_mpa: shear.clone(), at_overlap: &at_overlap };
    let nominal = nominal::find(subject, case, &shear, &data, results);
    fatigue::bond(subject, case, &shear.now_mpa, &data, results);
    sustained::find(subject, case, &nominal, results);
    let conditions = environment::find(subject, case, &nominal, &shear, results);
    overlap::put(subject, case, &nominal, &shear, &conditions, None, results);
    plate_rivets::find(subject, case, None, Err(Lack::Missing { keys: Vec::new() }), &Ok(0.0), results);
}

/// Axial load and torque over the bonded area, MPa.
fn mean_shear_mpa(tube: &Tube, forces: &Known<Forces>) -> Known<f64> {
    let forces = forces.as_ref().map_err(Lack::clone)?;
    let ring = Ring::of(tube)?;
    let area = 2.0 * std::f64::consts::PI * ring.radius_mm * tube.overlap.need()?.mm();
    Ok((forces.axial_n / area).hypot(forces.torque_n_mm / (ring.radius_mm * area)))
}

/// The greatest shear, MPa: the peaks of axial load and torque at right angles, at the worse end of each.
fn peak_shear_mpa(subject: &Subject<'_>, tube: &Tube, forces: &Known<Forces>, values: &Values) -> Known<f64> {
    let forces = forces.as_ref().map_err(Lack::clone)?;
    let (inner, outer, overlap) = (tube.inner.need(), tube.outer.need(), tube.overlap.need()).need_all()?;
    let (inner, outer) = (part(subject, inner), part(subject, outer)).need_all()?;
    let lap = TubularLap {
        inner,
        outer,
        shear_modulus_mpa: values.layer(subject.bondline_mm.clone()?)?.shear_modulus_mpa,
        overlap_mm: overlap.mm(),
    };
    let torsion = closed::torsion(&lap, forces.torque_n_mm).map_err(|failure| failed(&failure))?;
    let axial = closed::axial(&lap, forces.axial_n, 0.0).map_err(|failure| failed(&failure))?;
    let ends =
        torsion.ends_mpa().into_iter().zip(axial.ends_mpa()).map(|(torsion, axial)| torsion.hypot(axial));
    Ok(ends.fold(0.0, f64::max))
}

fn part(subject: &Subject<'_>, part: &TubePart) -> Result<closed::Tube, Absent> {
    let (material, diameter, wall) =
        (subject.tables.materials.referred(&part.material), part.outside_diameter.need(), part.wall.need())
            .need_all()?;
    let (modulus, ratio) = (material.youngs_modulus.need(), material.poissons_ratio.need()).need_all()?;
    Ok(closed::Tube {
        youngs_modulus_mpa: modulus.mpa(),
        poissons_ratio: *ratio,
        thermal_expansion_per_k: 0.0,
        outside_diameter_mm: diameter.mm(),
        wall_mm: wall.mm(),
    })
}
