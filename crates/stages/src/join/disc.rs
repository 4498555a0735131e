//! The disc: a round butt joint, pulled off centre.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use job::tables::{Disc, DiscLoad};
use job::{Job, Needed};
use mechanics::closed::disc::{self as closed, DiscStress};
use quantity::Kind;

use super::adhesive::{Data, bondline_share};
use super::ends::AllEnds;
use super::lap::failed;
use super::nominal::{GAMMA_MA, Nominal, Shear};
use super::subject::{Case, InService, Subject, partial_factor};
use super::{about, environment, plate_rivets, sustained};
use crate::Results;
use crate::bond_day::BondDay;
use crate::faying::{disc_area_mm2, given_bondline_mm};

/// Assesses a disc.
pub(super) fn run(
    job: &Job,
    name: &str,
    disc: &Disc,
    all_ends: &AllEnds,
    bond_day: &BondDay,
    results: &mut Results,
) {
    let subject = Subject {
        name,
        tables: &job.tables,
        adhesive: &disc.adhesive,
        ends: all_ends.get(&disc.adhesive),
        bondline_mm: given_bondline_mm(&disc.bondline, &disc.adhesive, &job.tables),
        overlap: None,
        surface: &disc.surface,
        loads_key: disc.loads.key.clone(),
        place: &disc.place,
    };
    let cases: Vec<Case<'_>> = disc
        .loads
        .iter()
        .map(|(name, load)| Case {
            name,
            kind: load.kind.get().copied(),
            factor: &load.factor,
            place: &load.place,
            service: InService::of(job, None, &load.lasting),
        })
        .collect();
    super::taken::of_disc(&subject, disc, results);
    about(&subject, &cases.iter().collect::<Vec<_>>(), bond_day, results);
    for (case, (_, load)) in cases.iter().zip(disc.loads.iter()) {
        under(&subject, disc, case, load, results);
    }
}

fn stress(disc: &Disc, load: &DiscLoad) -> Known<(DiscStress, f64)> {
    let (diameter, axial) = (disc.diameter.need(), load.axial.need()).need_all()?;
    let hole = disc.hole.get().map_or(0.0, |hole| hole.mm());
    let eccentricity = load.eccentricity.get().map_or(0.0, |eccentricity| eccentricity.mm());
    let stress = closed::eccentric_pull(axial.n(), eccentricity, diameter.mm(), hole)
        .map_err(|failure| failed(&failure))?;
    let area = disc_area_mm2(disc)?;
    Ok((stress, load.shear.get().map_or(0.0, |shear| shear.n()) / area))
}

fn under(subject: &Subject<'_>, disc: &Disc, case: &Case<'_>, load: &DiscLoad, results: &mut Results) {
    let fill = [subject.name, case.name];
    let stress = stress(disc, load);
    let mean = stress.as_ref().map(|(stress, _)| stress.mean_mpa).map_err(Lack::clone);
    let greatest = stress.as_ref().map(|(stress, _)| stress.greatest_mpa).map_err(Lack::clone);
    results.quantities.put(&names::MEAN_PEEL, &fill, mean);
    results.quantities.put(&names::PEAK_PEEL, &fill, greatest);
    results.quantities.put(
        &names::MEAN_SHEAR,
        &fill,
        stress.as_ref().map(|(_, shear)| shear.abs()).map_err(Lack::clone),
    );

    let checked = stress.and_then(|stress| check(subject, case, &stress, results));
    results.quantities.put(
        &names::RESERVE,
        &fill,
        checked.as_ref().map_err(Lack::clone).and_then(Checked::reserve),
    );
    let basis = Basis::CommonPractice(
        "greatest stress over an eccentrically pulled disc against the characteristic strengths over the factor of the nominal check; tension across a bond is outside EN 1999-1-1",
    );
    let finding = subject.under(case, "bond", basis);
    results.findings.push(match &checked {
        Err(lack) => {
            let statement = format!(
                "Whether the bond of {} carries the case {} cannot be told.",
                subject.name, case.name
            );
            finding.unknown(statement, lack.clone())
        }
        Ok(checked) => checked.judged(finding, case, results),
    });
    let nominal = checked.and_then(|checked| checked.nominal());
    // A disc has no overlap to lengthen.
    let shear = Shear { now_mpa: Err(Lack::NoLoad), at_overlap: &|_| Err(Lack::NoLoad) };
    sustained::find(subject, case, &nominal, results);
    environment::find(subject, case, &nominal, &shear, results);
    plate_rivets::find(subject, case, None, Err(Lack::Missing { keys: Vec::new() }), &Ok(0.0), results);
}

struct Checked {
    stress: DiscStress,
    shear_mpa: f64,
    factor: (f64, &'static str),
    tensile_mpa: f64,
    shear_strength_mpa: Option<f64>,
    gamma: f64,
}

fn check(
    subject: &Subject<'_>,
    case: &Case<'_>,
    stress: &(DiscStress, f64),
    results: &Results,
) -> Known<Checked> {
    let values = match subject.data()? {
        Data::Given(values) => values,
        Data::Class { keys, .. } => return Err(Lack::Missing { keys }),
    };
    let adhesive = subject.adhesive()?;
    let share = bondline_share(adhesive, subject.bondline_mm.clone()?, |mm| results.print(mm, Kind::Length))?;
    // Only a load along the bond needs the strength against it.
    let shear_strength_mpa =
        if stress.1 == 0.0 { None } else { Some(values.characteristic_shear_mpa.clone()? * share) };
    Ok(Checked {
        stress: stress.0,
        shear_mpa: stress.1.abs(),
        factor: case.load_factor(subject.tables)?,
        tensile_mpa: values.characteristic_tensile_mpa.clone()? * share,
        shear_strength_mpa,
        gamma: partial_factor(subject.tables, GAMMA_MA, |factors| &factors.adhesive, "factors.adhesive")?,
    })
}

impl Checked {
    /// Share of the strengths that is used: tension and shear added as squares.
    fn used(&self) -> f64 {
        let tension = self.stress.greatest_mpa.max(0.0) / self.tensile_mpa;
        let shear = self.shear_strength_mpa.map_or(0.0, |strength| self.shear_mpa / strength);
        tension.hypot(shear) * self.factor.0 * self.gamma
    }

    /// The same check for those that change the strengths: tension that uses as much of them as both do.
    fn nominal(&self) -> Known<Nominal> {
        let reserve = self.reserve()?;
        let equivalent_mpa = self.tensile_mpa / (reserve * self.factor.0 * self.gamma);
        Ok(Nominal::of(equivalent_mpa, self.factor, self.tensile_mpa, self.gamma))
    }

    fn reserve(&self) -> Known<f64> {
        let used = self.used();
        if used > 0.0 {
            return Ok(1.0 / used);
        }
        Err(Lack::NoLoad)
    }

    fn judged(&self, finding: Finding, case: &Case<'_>, results: &Results) -> Finding {
        let print = |value: f64| results.print(value, Kind::Stress);
        let Ok(reserve) = self.reserve() else {
            let statement =
                format!("Neither tension nor shear acts on the bond of {} in this case.", finding.about);
            return Finding {
                statement,
                because: "Zero demand has no reserve factor.".to_owned(),
                ..finding
            };
        };
        let verdict = if case.is_required() { Verdict::of_reserve(reserve) } else { Verdict::Note };
        let lifted = if self.stress.least_mpa < 0.0 { " The far edge is pressed." } else { "" };
        Finding {
            statement: format!(
                "The bond of {} has a reserve factor of {reserve:.2} at 23 °C, dry.",
                finding.about
            ),
            value: Some(Measure::of(self.stress.greatest_mpa * self.factor.0, Kind::Stress)),
            limit: Some(Measure::of(self.tensile_mpa / self.gamma, Kind::Stress)),
            reserve: Some(reserve),
            verdict,
            because: format!(
                "{} at the edge ({} on average) × {:.2} against {} / {:.2}.{lifted}",
                print(self.stress.greatest_mpa),
                print(self.stress.mean_mpa),
                self.factor.0,
                print(self.tensile_mpa),
                self.gamma
            ),
            next: (verdict == Verdict::NotMet)
                .then(|| "Pull on the middle of the disc, or make the disc larger.".to_owned().into()),
            ..finding
        }
    }
}
