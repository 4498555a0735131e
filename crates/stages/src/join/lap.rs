//! The lap: closed forms beside the strip, the nominal check, and what surrounds them.

use assessment::{Known, Lack, names};
use job::tables::{Adherend, Ends, Geometry, Lap, Load, Tables};
use job::{Absent, Job, Needed};
use mechanics::bondline::Bondline;
use mechanics::strip;

use super::adhesive::{Data, Values};
use super::ends::AllEnds;
use super::nominal::Shear;
use super::plates::{self, Plate};
use super::subject::{Case, InService, Subject};
use super::{
    about, capacity, chance, environment, fatigue, galvanic, nominal, overlap, plate_rivets, stresses,
    sustained,
};
use crate::bond_day::BondDay;
use crate::faying::given_bondline_mm;
use crate::{Ask, Results};

pub(super) use crate::sections::failed;

/// Assesses a lap.
pub(super) fn run(
    job: &Job,
    name: &str,
    lap: &Lap,
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
    super::taken::of_lap(&subject, lap, results);
    about(&subject, &cases.iter().collect::<Vec<_>>(), bond_day, results);
    let touching = galvanic::Touching {
        outer: (
            "upper plate",
            lap.upper.get().and_then(|part| job.tables.materials.referred(&part.material).ok()),
        ),
        inner: (
            "lower plate",
            lap.lower.get().and_then(|part| job.tables.materials.referred(&part.material).ok()),
        ),
        rivet: lap.rivets.get().map(|rivets| &rivets.kind),
        slid: false,
    };
    galvanic::find(&subject, &touching, results);
    for (case, (_, load)) in cases.iter().zip(lap.loads.iter()) {
        under(&Built { subject: &subject, lap }, case, load, ask, results);
    }
}

/// A load of a lap or a double lap as a case.
pub(super) fn case<'j>(job: &'j Job, name: &'j str, load: &'j Load) -> Case<'j> {
    let service = InService::of(job, Some(&load.spectrum), &load.lasting);
    Case { name, kind: load.kind.get().copied(), factor: &load.factor, place: &load.place, service }
}

/// Assesses a lap under one load case.
fn under(built: &Built<'_>, case: &Case<'_>, load: &Load, ask: &Ask, results: &mut Results) {
    let subject = built.subject;
    let demand = Demand::of(&built.lap.width, &built.lap.overlap, load);
    let fill = [subject.name, case.name];
    let line = demand.as_ref().map(Demand::line_load_n_mm).map_err(Lack::clone);
    let shear = demand.as_ref().map(Demand::mean_shear_mpa).map_err(Lack::clone);
    results.quantities.put(&names::MEAN_SHEAR, &fill, shear.clone());
    results.quantities.put(&names::LINE_LOAD, &fill, line.clone());

    let data = subject.data();
    let edge = stresses::find(built, case, &demand, &data, ask, results);
    let at_overlap = |overlap_mm: f64| line.clone().map(|line| line / overlap_mm);
    let shear = Shear { now_mpa: shear, at_overlap: &at_overlap };
    let nominal = nominal::find(subject, case, &shear, &data, results);
    if ask.to_failure {
        capacity::single_lap(built, case, &demand, &data, results);
    }
    if ask.probability.is_some() {
        let ready = capacity::lap_ready(built, &demand, &data, results);
        chance::of_plates(subject, case, ready, ask, results);
    }
    if let Ok(demand) = &demand {
        let force_n_mm = demand.axial_n / demand.width_mm;
        let plate =
            |word, table, end: usize| Plate { word, table, force_n_mm, moment_n: edge.map(|edge| edge[end]) };
        let plates = [plate("upper", &built.lap.upper, 0), plate("lower", &built.lap.lower, 1)];
        plates::find(subject, case, &plates, results);
    }
    fatigue::bond(subject, case, &shear.now_mpa, &data, results);
    sustained::find(subject, case, &nominal, results);
    let conditions = environment::find(subject, case, &nominal, &shear, results);
    let peak_at = |overlap_mm: f64| {
        let demand = Demand { overlap_mm, ..demand.clone()? };
        built.peak_shear_mpa(&data, &demand, ask)
    };
    overlap::put(subject, case, &nominal, &shear, &conditions, Some(&peak_at), results);
    let force = demand.as_ref().map(|demand| demand.axial_n.hypot(demand.shear_n)).map_err(Lack::clone);
    let wall = |plate| riveted_wall(subject.tables, plate, 1.0);
    let plates = || -> Known<plate_rivets::Plates> {
        Ok(plate_rivets::Plates {
            walls: vec![wall(&built.lap.upper)?, wall(&built.lap.lower)?],
            planes: 1.0,
            overlap_mm: built.lap.overlap.need()?.mm(),
        })
    };
    plate_rivets::find(subject, case, Some(&built.lap.rivets), plates(), &force, results);
    let holed = [(&built.lap.upper, 1.0), (&built.lap.lower, 1.0)];
    plate_rivets::fatigue(subject, case, &built.lap.rivets, (&holed, &built.lap.width), &force, results);
}

/// Thickness (mm), tensile strength (MPa) and share of the load of a plate that rivets go through.
pub(super) fn riveted_wall(
    tables: &Tables,
    plate: &job::Entry<Adherend>,
    share: f64,
) -> Known<(f64, f64, f64)> {
    let plate = plate.need()?;
    let (material, thickness) =
        (tables.materials.referred(&plate.material), plate.thickness.need()).need_all()?;
    Ok((thickness.mm(), material.tensile_strength.need()?.mpa(), share))
}

/// Forces of a load case on a lap, as written.
#[derive(Clone)]
pub(super) struct Demand {
    /// Force along the overlap, N.
    pub(super) axial_n: f64,
    /// Force along the width, N.
    pub(super) shear_n: f64,
    /// Width, mm.
    pub(super) width_mm: f64,
    /// Overlap, mm.
    pub(super) overlap_mm: f64,
}

impl Demand {
    /// The forces of a case; a direction that is not given carries nothing, but one must be given.
    pub(super) fn of(
        width: &job::Entry<quantity::Length>,
        overlap: &job::Entry<quantity::Length>,
        load: &Load,
    ) -> Known<Self> {
        let (width, overlap, ()) = (width.need(), overlap.need(), some_force(load)).need_all()?;
        Ok(Self {
            axial_n: load.axial.get().map_or(0.0, |force| force.n()),
            shear_n: load.shear.get().map_or(0.0, |force| force.n()),
            width_mm: width.mm(),
            overlap_mm: overlap.mm(),
        })
    }

    /// Load per width, N/mm: the resultant of both directions.
    pub(super) fn line_load_n_mm(&self) -> f64 {
        self.axial_n.hypot(self.shear_n) / self.width_mm
    }

    /// Load over area, MPa.
    pub(super) fn mean_shear_mpa(&self) -> f64 {
        self.line_load_n_mm() / self.overlap_mm
    }
}

fn some_force(load: &Load) -> Result<(), Absent> {
    match (load.axial.get(), load.shear.get()) {
        (None, None) => Err(Absent { keys: vec![load.axial.key.clone()] }),
        _ => Ok(()),
    }
}

/// A lap ready to be computed.
pub(super) struct Built<'j> {
    pub(super) subject: &'j Subject<'j>,
    pub(super) lap: &'j Lap,
}

impl Built<'_> {
    fn temperature_change_k(&self) -> f64 {
        temperature_change_k(&self.lap.temperature_change, self.subject.tables)
    }

    /// The two plates for the mechanics.
    fn plates(&self) -> Known<[mechanics::Adherend; 2]> {
        let heated = self.temperature_change_k() != 0.0;
        let (upper, lower) = (self.lap.upper.need(), self.lap.lower.need()).need_all()?;
        let of = |plate| adherend(self.subject.tables, plate, heated);
        let (upper, lower) = (of(upper), of(lower)).need_all()?;
        Ok([upper, lower])
    }

    /// The lap as the closed forms see it.
    pub(super) fn closed_form(&self, values: &Values) -> Known<mechanics::closed::Lap> {
        let [upper, lower] = self.plates()?;
        Ok(mechanics::closed::Lap {
            upper,
            lower,
            layer: values.layer(self.subject.bondline_mm.clone()?)?,
            overlap_mm: self.lap.overlap.need()?.mm(),
        })
    }

    /// The greatest shear of the strip under a demand, MPa.
    fn peak_shear_mpa(&self, data: &Known<Data>, demand: &Demand, ask: &Ask) -> Known<f64> {
        match data {
            Ok(Data::Given(values)) => {
                let answer = strip::solve(&self.strip(values, demand, ask)?);
                Ok(answer.map_err(|failure| failed(&failure))?.peak_shear.value_mpa.abs())
            }
            Ok(Data::Class { keys, .. }) => Err(Lack::Missing { keys: keys.clone() }),
            Err(lack) => Err(lack.clone()),
        }
    }

    /// The lap as a strip under a demand.
    pub(super) fn strip(&self, values: &Values, demand: &Demand, ask: &Ask) -> Known<strip::Strip> {
        let [upper, lower] = self.plates()?;
        let (above, below) = (self.lap.upper.need(), self.lap.lower.need()).need_all()?;
        let (left, right) = (above.free_length.need(), below.free_length.need()).need_all()?;
        let model = self.lap.model.get();
        Ok(strip::Strip {
            upper,
            lower,
            adhesive: values.isotropic()?,
            bondline: Bondline::Constant(self.subject.bondline_mm.clone()?),
            overlap_mm: demand.overlap_mm,
            supports: strip::Supports::Gripped {
                ends: match self.lap.ends.get() {
                    Some(Ends::Pinned) => strip::Ends::Pinned,
                    Some(Ends::Clamped) | None => strip::Ends::Clamped,
                },
                left_arm_mm: left.mm(),
                right_arm_mm: right.mm(),
            },
            axial_n_mm: demand.axial_n / demand.width_mm,
            shear_flow_n_mm: demand.shear_n / demand.width_mm,
            temperature_change_k: self.temperature_change_k(),
            plane: strip::Plane::Strain,
            hold_transverse: false,
            lever_arm_includes_bondline: true,
            geometry: match model.and_then(|model| model.geometry.get()) {
                Some(Geometry::FirstOrder) => strip::Geometry::FirstOrder,
                Some(Geometry::SecondOrder) | None => strip::Geometry::SecondOrder,
            },
            mesh: strip::Mesh { elements: ask.strip_elements, ..strip::Mesh::default() },
        })
    }
}

/// A plate for the mechanics. Thermal expansion is only needed where there is a change of temperature.
pub(super) fn adherend(
    tables: &Tables,
    plate: &Adherend,
    heated: bool,
) -> Result<mechanics::Adherend, Absent> {
    let (material, thickness) =
        (tables.materials.referred(&plate.material), plate.thickness.need()).need_all()?;
    let expansion =
        if heated { material.thermal_expansion.need().map(|it| it.per_kelvin()) } else { Ok(0.0) };
    let (modulus, ratio, expansion) =
        (material.youngs_modulus.need(), material.poissons_ratio.need(), expansion).need_all()?;
    Ok(mechanics::Adherend {
        youngs_modulus_mpa: modulus.mpa(),
        poissons_ratio: *ratio,
        thickness_mm: thickness.mm(),
        thermal_expansion_per_k: expansion,
    })
}

/// Service minus stress-free temperature, K: as given, or the end of `[job] service` that lies farther from the
/// stress-free temperature, or none.
pub(super) fn temperature_change_k(
    given: &job::Entry<quantity::TemperatureDifference>,
    tables: &Tables,
) -> f64 {
    if let Some(change) = given.get() {
        return change.kelvin();
    }
    let service = tables.job.get().and_then(|head| head.service.get());
    let Some((service, free)) = service.and_then(|service| Some((service, service.stress_free.get()?)))
    else {
        return 0.0;
    };
    let change =
        |end: &job::Entry<quantity::Temperature>| end.get().map_or(0.0, |end| end.celsius() - free.celsius());
    let (cold, hot) = (change(&service.coldest), change(&service.hottest));
    if cold.abs() > hot.abs() { cold } else { hot }
}
