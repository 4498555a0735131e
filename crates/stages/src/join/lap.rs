//! The lap: closed forms beside the strip, the nominal check, and what surrounds them.

use assessment::{Known, Lack, names};
use job::tables::{Adherend, Ends, Geometry, Lap, Load, Tables};
use job::{Job, Needed};
use mechanics::bondline::Bondline;
use mechanics::strip;

use super::adhesive::{Data, Values};
use super::demand::{Demand, is_required};
use super::{data_agree, environment, nominal, plates, stresses, surface};
use crate::bond_day::BondDay;
use crate::{Ask, Results};

/// A lap with its name, its adhesive and the tables around it.
pub(super) struct Subject<'j> {
    pub(super) name: &'j str,
    pub(super) lap: &'j Lap,
    pub(super) tables: &'j Tables,
}

impl Subject<'_> {
    /// The adhesive's table.
    pub(super) fn adhesive(&self) -> Known<&job::tables::Adhesive> {
        Ok(self.tables.adhesives.referred(&self.lap.adhesive)?)
    }

    /// The bondline, mm: as given, or else the standoff beads.
    pub(super) fn bondline_mm(&self) -> Known<f64> {
        if let Some(bondline) = self.lap.bondline.get() {
            return Ok(bondline.mm());
        }
        let adhesive = self.adhesive()?;
        let beads = adhesive.standoff_beads.get().map(|beads| beads.mm());
        beads.ok_or_else(|| Lack::Missing {
            keys: vec![self.lap.bondline.key.clone(), adhesive.standoff_beads.key.clone()],
        })
    }

    /// Service minus stress-free temperature, K: as given, or the greatest change from `[job] service`, or none.
    fn temperature_change_k(&self) -> f64 {
        if let Some(change) = self.lap.temperature_change.get() {
            return change.kelvin();
        }
        let service = self.tables.job.get().and_then(|head| head.service.get());
        let Some((service, free)) = service.and_then(|service| Some((service, service.stress_free.get()?)))
        else {
            return 0.0;
        };
        let changes = [&service.coldest, &service.hottest]
            .map(|end| end.get().map_or(0.0, |end| end.celsius() - free.celsius()));
        if changes[0].abs() > changes[1].abs() { changes[0] } else { changes[1] }
    }

    /// The two plates for the mechanics.
    fn plates(&self) -> Known<[mechanics::Adherend; 2]> {
        let (upper, lower) = (self.lap.upper.need(), self.lap.lower.need()).need_all()?;
        let change = self.temperature_change_k() != 0.0;
        let (upper, lower) = (self.plate(upper, change), self.plate(lower, change)).need_all()?;
        Ok([upper, lower])
    }

    fn plate(&self, plate: &Adherend, heated: bool) -> Result<mechanics::Adherend, job::Absent> {
        let (material, thickness) =
            (self.tables.materials.referred(&plate.material), plate.thickness.need()).need_all()?;
        // Thermal expansion is only needed where there is a change of temperature.
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

    /// The lap as the closed forms see it.
    pub(super) fn closed_form(&self, values: &Values) -> Known<mechanics::closed::Lap> {
        let [upper, lower] = self.plates()?;
        let modulus = values.youngs_modulus_mpa.clone()?;
        Ok(mechanics::closed::Lap {
            upper,
            lower,
            layer: mechanics::closed::Layer {
                youngs_modulus_mpa: modulus,
                shear_modulus_mpa: modulus / (2.0 * (1.0 + values.poissons_ratio.clone()?)),
                thickness_mm: self.bondline_mm()?,
            },
            overlap_mm: self.lap.overlap.need()?.mm(),
        })
    }

    /// The lap as a strip under a demand.
    pub(super) fn strip(&self, values: &Values, demand: &Demand, ask: &Ask) -> Known<strip::Strip> {
        let [upper, lower] = self.plates()?;
        let adhesive =
            strip::Adhesive::isotropic(values.youngs_modulus_mpa.clone()?, values.poissons_ratio.clone()?);
        let (above, below) = (self.lap.upper.need(), self.lap.lower.need()).need_all()?;
        let (left, right) = (above.free_length.need(), below.free_length.need()).need_all()?;
        let model = self.lap.model.get();
        Ok(strip::Strip {
            upper,
            lower,
            adhesive: adhesive.map_err(|failure| failed(&failure))?,
            bondline: Bondline::Constant(self.bondline_mm()?),
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

/// A failure of the mechanics as a reason for having no number.
pub(super) fn failed(failure: &mechanics::Failure) -> Lack {
    let advice = match failure {
        mechanics::Failure::UnequalAdherends { .. } => "use the strip, which takes unequal plates",
        _ => "check sizes, moduli and loads for a slip of the decimal point",
    };
    Lack::Failed { what: failure.to_string(), advice: advice.to_owned() }
}

/// Assesses a lap.
pub(super) fn run(job: &Job, name: &str, lap: &Lap, bond_day: &BondDay, ask: &Ask, results: &mut Results) {
    let subject = Subject { name, lap, tables: &job.tables };
    surface::find(&subject, results);
    data_agree::find(&subject, results);
    let mut required = false;
    for (case, load) in lap.loads.iter() {
        required |= is_required(load);
        under(&subject, case, load, ask, results);
    }
    if lap.loads.items.is_empty() {
        results.findings.push(nominal::without_load(&subject));
    }
    if required {
        environment::glass_transition(&subject, bond_day, results);
    }
}

/// Assesses a lap under one load case.
fn under(subject: &Subject<'_>, case: &str, load: &Load, ask: &Ask, results: &mut Results) {
    let demand = Demand::of(subject.lap, load);
    let fill = [subject.name, case];
    results.quantities.put(
        &names::MEAN_SHEAR,
        &fill,
        demand.as_ref().map(Demand::mean_shear_mpa).map_err(Lack::clone),
    );
    results.quantities.put(
        &names::LINE_LOAD,
        &fill,
        demand.as_ref().map(Demand::line_load_n_mm).map_err(Lack::clone),
    );

    let data = subject.adhesive().map(Data::of);
    let edge = stresses::find(subject, case, load, &demand, &data, ask, results);
    let nominal = nominal::find(subject, case, load, &demand, &data, results);
    plates::find(subject, case, load, &demand, edge, results);
    if is_required(load) {
        environment::find(subject, case, load, &nominal, results);
    }
}
