//! The plates beside the bond: mean stress against the proof strength.

use assessment::{Basis, Finding, Known, Lack, Measure, Stage, Verdict};
use job::Needed;
use job::tables::{Adherend, Load, Method};
use quantity::Kind;

use super::demand::{Demand, is_required, load_factor, method};
use super::lap::Subject;
use super::stresses::EdgeMoments;
use crate::Results;

/// Partial factor of EN 1999-1-1:2007, 6.1.3 for the resistance of members (from memory).
const GAMMA_M1: f64 = 1.1;

/// Checks both plates under a case.
pub(super) fn find(
    subject: &Subject<'_>,
    case: &str,
    load: &Load,
    demand: &Known<Demand>,
    edge: EdgeMoments,
    results: &mut Results,
) {
    // A bond that cannot be loaded cannot load its plates; the bond's own finding says what is missing.
    let Ok(demand) = demand else { return };
    if demand.axial_n == 0.0 {
        return;
    }
    let plates = [("upper", &subject.lap.upper, 0), ("lower", &subject.lap.lower, 1)];
    for (word, plate, end) in plates {
        let finding = Finding {
            case: Some(case.to_owned()),
            place: plate.place().cloned().or_else(|| Some(subject.lap.place.clone())),
            ..Finding::new(
                Stage::Join,
                format!("join.{}.{case}.{word}_plate", subject.name),
                subject.name,
                Basis::Memory(
                    "EN 1999-1-1:2007, 6.2.3, mean stress against the proof strength over 1.10; bending is not judged there",
                ),
            )
        };
        let moment = edge.map(|moments| moments[end]);
        results.findings.push(
            match plate
                .need()
                .map_err(Lack::from)
                .and_then(|plate| check(subject, plate, load, demand, moment))
            {
                Err(lack) => finding.unknown(
                    format!(
                        "Whether the {word} plate of {} carries the case {case} cannot be told.",
                        subject.name
                    ),
                    lack,
                ),
                Ok(checked) => checked.judged(finding, word, is_required(load), results),
            },
        );
    }
}

struct Checked {
    stress_mpa: f64,
    factor: f64,
    proof_mpa: f64,
    gamma: f64,
    bending_mpa: Option<f64>,
}

fn check(
    subject: &Subject<'_>,
    plate: &Adherend,
    load: &Load,
    demand: &Demand,
    moment: Option<f64>,
) -> Known<Checked> {
    let (material, thickness) =
        (subject.tables.materials.referred(&plate.material), plate.thickness.need()).need_all()?;
    let proof_mpa = material.proof_strength.need()?.mpa();
    let gamma = match method(subject.tables)? {
        Method::En1999 => GAMMA_M1,
        Method::Own => {
            let factors = subject.tables.factors.get().map(|factors| factors.metal.need());
            *factors.unwrap_or_else(|| Err(job::Absent { keys: vec!["factors.metal".to_owned()] }))?
        }
    };
    let thickness = thickness.mm();
    Ok(Checked {
        stress_mpa: (demand.axial_n / (demand.width_mm * thickness)).abs(),
        factor: load_factor(load, subject.tables)?.0,
        proof_mpa,
        gamma,
        bending_mpa: moment.map(|moment| (6.0 * moment / (thickness * thickness)).abs()),
    })
}

impl Checked {
    fn judged(&self, finding: Finding, word: &str, required: bool, results: &Results) -> Finding {
        let (demand, allowed) = (self.stress_mpa * self.factor, self.proof_mpa / self.gamma);
        let reserve = allowed / demand;
        let print = |value: f64| results.print(value, Kind::Stress);
        let bending = self.bending_mpa.map_or(String::new(), |bending| {
            format!(" Bending at the end of the overlap adds {} by the strip.", print(bending))
        });
        Finding {
            statement: format!(
                "The {word} plate of {} has a reserve factor of {reserve:.2} on its mean stress.",
                finding.about
            ),
            value: Some(Measure::of(demand, Kind::Stress)),
            limit: Some(Measure::of(allowed, Kind::Stress)),
            reserve: Some(reserve),
            verdict: if required { Verdict::of_reserve(reserve) } else { Verdict::Note },
            because: format!(
                "{} × {:.2} against a proof strength of {} / {:.2}.{bending}",
                print(self.stress_mpa),
                self.factor,
                print(self.proof_mpa),
                self.gamma
            ),
            ..finding
        }
    }
}
