//! Load cases of a joint of whole sections: forces on the member, presets, or the resultants themselves.

use assessment::{Known, Lack, names};
use job::tables::{
    Braking, Case as CaseTable, Kerb, Member, Pull, PushedFrom, Resultants as Given, SectionLoad, Towing,
    TrailerKind,
};
use job::{Entry, Job, Named, Needed};
use mechanics::statics::{self, PointForce, PointMass, Resultants, SectionPoints};
use quantity::{Acceleration, Force, Length, Moment};

use super::super::subject::{Case, InService};
use crate::Results;
use crate::sections;

/// Standard gravity, m/s² (3rd General Conference on Weights and Measures, 1901, Resolution 2).
pub(super) const GRAVITY_M_S2: f64 = 9.806_65;

/// Above this mass a centre-axle trailer has a V-value, kg.
pub(super) const WITH_V_VALUE_KG: f64 = 3500.0;

/// Vertical acceleration of a coupling without air suspension, m/s².
pub(super) const STEEL_SPRINGS_M_S2: f64 = 2.4;

/// Friction on a dry road, tyre locked or nearly so.
pub(super) const FRICTION: f64 = 0.8;

/// Side force of a kerb as a multiple of the wheel load.
pub(super) const KERB_FACTOR: f64 = 1.0;

/// A load case with its resultants at the cut.
pub(super) struct Load<'j> {
    pub(super) case: Case<'j>,
    pub(super) resultants: Known<Resultants>,
}

/// The cases of a joint: those of its member, or its own.
pub(super) fn of<'j>(
    job: &'j Job,
    member: &'j Entry<String>,
    station: &'j Entry<Length>,
    own: &'j Named<SectionLoad>,
) -> Vec<Load<'j>> {
    if member.get().is_none() {
        return own
            .iter()
            .map(|(name, load)| Load { case: own_case(job, name, load), resultants: own_resultants(load) })
            .collect();
    }
    let cases = job.tables.cases.iter();
    cases
        .map(|(name, table)| Load {
            case: Case {
                name,
                kind: table.kind.get().copied(),
                factor: &table.factor,
                place: &table.place,
                service: InService::of(job, Some(&table.spectrum), &table.lasting),
            },
            resultants: on_member(job, member, station, table),
        })
        .collect()
}

fn own_case<'j>(job: &'j Job, name: &'j str, load: &'j SectionLoad) -> Case<'j> {
    let service = InService::of(job, Some(&load.spectrum), &load.lasting);
    Case { name, kind: load.kind.get().copied(), factor: &load.factor, place: &load.place, service }
}

fn force(entry: &Entry<Force>) -> f64 {
    entry.get().map_or(0.0, |force| force.n())
}

fn moment(entry: &Entry<Moment>) -> f64 {
    entry.get().map_or(0.0, |moment| moment.n_mm())
}

fn own_resultants(load: &SectionLoad) -> Known<Resultants> {
    let any = [&load.axial, &load.shear_y, &load.shear_z].iter().any(|entry| entry.get().is_some())
        || [&load.moment_y, &load.moment_z, &load.torque].iter().any(|entry| entry.get().is_some());
    if !any {
        return Err(Lack::Missing { keys: vec![load.axial.key.clone()] });
    }
    Ok(Resultants {
        axial_n: force(&load.axial),
        shear_y_n: force(&load.shear_y),
        shear_z_n: force(&load.shear_z),
        moment_y_nmm: moment(&load.moment_y),
        moment_z_nmm: moment(&load.moment_z),
        torque_nmm: moment(&load.torque),
    })
}

fn given(table: &Given) -> Resultants {
    Resultants {
        axial_n: force(&table.axial),
        shear_y_n: force(&table.shear_y),
        shear_z_n: force(&table.shear_z),
        moment_y_nmm: moment(&table.moment_y),
        moment_z_nmm: moment(&table.moment_z),
        torque_nmm: moment(&table.torque),
    }
}

/// The resultants at the cut of a case on a member.
fn on_member(
    job: &Job,
    member: &Entry<String>,
    station: &Entry<Length>,
    case: &CaseTable,
) -> Known<Resultants> {
    let share = case.share.get().copied().unwrap_or(1.0);
    let whole = match case.resultants.get() {
        Some(table) => given(table),
        None => {
            let member = job.tables.members.referred(member)?;
            let forces = forces(case)?;
            let (axis, points) = (axis(member)?, points(job, member)?);
            statics::resultants_at(&axis, &forces, station.need()?.mm(), &points)
                .map_err(|failure| sections::failed(&failure))?
        }
    };
    whole.shared(share).map_err(|failure| sections::failed(&failure))
}

pub(super) fn axis(member: &Member) -> Known<statics::Member> {
    let axis = member.axis.need()?;
    let (from, to) = (axis.from.need(), axis.to.need()).need_all()?;
    let up = member.up.get().copied().unwrap_or([0.0, 0.0, 1.0]);
    statics::Member::new(from.map(Length::mm), to.map(Length::mm), up)
        .map_err(|failure| sections::failed(&failure))
}

fn points(job: &Job, member: &Member) -> Known<SectionPoints> {
    let (section, material) =
        (job.tables.sections.referred(&member.section), job.tables.materials.referred(&member.material))
            .need_all()?;
    let built = sections::build(section, sections::isotropic(material)?, &job.tables)?;
    let properties = built.properties();
    Ok(SectionPoints { centroid_mm: properties.centroid_mm, shear_centre_mm: properties.shear_centre_mm })
}

/// All forces of a case: those given, weights, presets.
fn forces(case: &CaseTable) -> Known<Vec<PointForce>> {
    let mut all = Vec::new();
    for point in case.forces.get().map_or(&[][..], Vec::as_slice) {
        let (at, force) = (point.at.need(), point.force.need()).need_all()?;
        all.push(PointForce { at_mm: at.map(Length::mm), force_n: force.map(Force::n) });
    }
    let field =
        case.acceleration.get().map_or([0.0, 0.0, -GRAVITY_M_S2], |field| field.map(Acceleration::m_per_s2));
    for point in case.masses.get().map_or(&[][..], Vec::as_slice) {
        let (at, mass) = (point.at.need(), point.mass.need()).need_all()?;
        let mass = PointMass { at_mm: at.map(Length::mm), mass_kg: mass.kg() };
        all.push(mass.weight(field).map_err(|failure| sections::failed(&failure))?);
    }
    if let Some(pull) = case.pull.get() {
        all.push(pulled(pull)?);
    }
    if let Some(towing) = case.towing.get() {
        all.push(towed(towing)?);
    }
    if let Some(braking) = case.braking.get() {
        all.push(braked(braking)?);
    }
    if let Some(kerb) = case.kerb.get() {
        all.push(against_kerb(kerb)?);
    }
    if all.is_empty() {
        return Err(Lack::Missing { keys: vec![case.forces.key.clone()] });
    }
    Ok(all)
}

/// A pull straight back, turned sideways to the right and upwards; common practice.
fn pulled(pull: &Pull) -> Known<PointForce> {
    let (at, force) = (pull.at.need(), pull.force.need()).need_all()?;
    let angle = |entry: &Entry<quantity::Angle>| entry.get().map_or(0.0, |angle| angle.radians());
    let (sideways, upwards) = (angle(&pull.sideways), angle(&pull.upwards));
    let level = force.n() * libm::cos(upwards);
    Ok(PointForce {
        at_mm: at.map(Length::mm),
        force_n: [-level * libm::cos(sideways), -level * libm::sin(sideways), force.n() * libm::sin(upwards)],
    })
}

/// Puts the diagrams of every member under every case of forces; what a case lacks, its joints say.
pub(crate) fn diagrams(job: &Job, results: &mut Results) {
    for (name, member) in job.tables.members.iter() {
        for (case, table) in job.tables.cases.iter().filter(|(_, table)| table.resultants.get().is_none()) {
            let share = table.share.get().copied().unwrap_or(1.0);
            let drawn = axis(member).and_then(|axis| Ok((axis, forces(table)?, points(job, member)?)));
            let Ok((axis, forces, points)) = drawn else { continue };
            let Ok(stations) = statics::diagram(&axis, &forces, &points) else { continue };
            let along = ("station from the beginning of the member", "mm");
            let mut put = |name_of, value: fn(&Resultants) -> f64| {
                let points: Vec<(f64, f64)> =
                    stations.iter().map(|it| (it.station_mm, share * value(&it.resultants))).collect();
                results.series.put(name_of, &[name, case], along, &points);
            };
            put(&names::DIAGRAM_AXIAL, |it| it.axial_n);
            put(&names::DIAGRAM_SHEAR_Y, |it| it.shear_y_n);
            put(&names::DIAGRAM_SHEAR_Z, |it| it.shear_z_n);
            put(&names::DIAGRAM_MOMENT_Y, |it| it.moment_y_nmm);
            put(&names::DIAGRAM_MOMENT_Z, |it| it.moment_z_nmm);
            put(&names::DIAGRAM_TORQUE, |it| it.torque_nmm);
        }
    }
}

/// The D-value of a coupling, N.
///
/// ```text
/// D = g T R/(T + R)
/// ```
///
/// T technically permissible mass of the towing vehicle, R of the trailer (kg; for a centre-axle trailer the
/// mass on its axles). UN Regulation No. 55, 2.11 (from memory); not the form for fifth wheels.
fn d_value_n(vehicle_kg: f64, trailer_kg: f64) -> f64 {
    GRAVITY_M_S2 * vehicle_kg * trailer_kg / (vehicle_kg + trailer_kg)
}

/// The V-value of a centre-axle trailer, N.
///
/// ```text
/// V = a C X²/L²          X²/L² ≥ 1
/// ```
///
/// a vertical acceleration at the coupling (m/s²), C mass on the trailer's axles (kg), X length of the loading
/// area, L from the coupling to the middle of the axles (mm). For trailers above 3.5 t. UN Regulation No. 55,
/// 2.11.4 (from memory).
fn v_value_n(acceleration_m_s2: f64, axles_kg: f64, loading_mm: f64, drawbar_mm: f64) -> f64 {
    acceleration_m_s2 * axles_kg * (loading_mm * loading_mm / (drawbar_mm * drawbar_mm)).max(1.0)
}

fn towed(towing: &Towing) -> Known<PointForce> {
    let (at, kind, vehicle, trailer) =
        (towing.at.need(), towing.trailer.need(), towing.vehicle.need(), towing.trailer_mass.need())
            .need_all()?;
    let mut down_n = 0.0;
    if *kind == TrailerKind::CentreAxle {
        down_n = GRAVITY_M_S2 * towing.nose_load.need()?.kg();
        if trailer.kg() > WITH_V_VALUE_KG {
            let (loading, drawbar) =
                (towing.loading_length.need(), towing.drawbar_length.need()).need_all()?;
            let acceleration =
                towing.vertical_acceleration.get().map_or(STEEL_SPRINGS_M_S2, |it| it.m_per_s2());
            down_n += v_value_n(acceleration, trailer.kg(), loading.mm(), drawbar.mm());
        }
    }
    // The coupling is pulled back with the D-value while nose load and V-value press down.
    Ok(PointForce {
        at_mm: at.map(Length::mm),
        force_n: [-d_value_n(vehicle.kg(), trailer.kg()), 0.0, -down_n],
    })
}

/// A wheel that brakes: friction backwards, the road's reaction upwards; common practice.
fn braked(braking: &Braking) -> Known<PointForce> {
    let (at, wheel) = (braking.at.need(), braking.wheel_load.need()).need_all()?;
    let weight = GRAVITY_M_S2 * wheel.kg();
    let friction = braking.friction.get().copied().unwrap_or(FRICTION);
    Ok(PointForce { at_mm: at.map(Length::mm), force_n: [-friction * weight, 0.0, weight] })
}

/// A wheel against a kerb: pushed sideways, the road's reaction upwards; common practice.
fn against_kerb(kerb: &Kerb) -> Known<PointForce> {
    let (at, wheel, from) = (kerb.at.need(), kerb.wheel_load.need(), kerb.from.need()).need_all()?;
    let weight = GRAVITY_M_S2 * wheel.kg();
    let push = weight * kerb.factor.get().copied().unwrap_or(KERB_FACTOR);
    let sideways = if *from == PushedFrom::Left { -push } else { push };
    Ok(PointForce { at_mm: at.map(Length::mm), force_n: [0.0, sideways, weight] })
}

/// Puts the resultants at the cut.
pub(super) fn put(resultants: &Resultants, fill: &[&str; 2], results: &mut Results) {
    for (name, value) in [
        (&names::CUT_AXIAL, resultants.axial_n),
        (&names::CUT_SHEAR_Y, resultants.shear_y_n),
        (&names::CUT_SHEAR_Z, resultants.shear_z_n),
        (&names::CUT_MOMENT_Y, resultants.moment_y_nmm),
        (&names::CUT_MOMENT_Z, resultants.moment_z_nmm),
        (&names::CUT_TORQUE, resultants.torque_nmm),
    ] {
        results.quantities.put(name, fill, Ok(value));
    }
}
