//! The plates beside the bond: mean stress against the proof strength.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict};
use job::tables::Adherend;
use job::{Entry, Needed};
use quantity::Kind;

use super::subject::{Case, Subject, partial_factor};
use crate::Results;

/// Partial factor of EN 1999-1-1:2007, 6.1.3 for the resistance of members (from memory).
pub(super) const GAMMA_M1: f64 = 1.1;

/// One plate under a case.
pub(super) struct Plate<'j> {
    /// What it is called: upper, lower, inner, outer.
    pub(super) word: &'static str,
    /// Its table.
    pub(super) table: &'j Entry<Adherend>,
    /// Force per width in it, N/mm.
    pub(super) force_n_mm: f64,
    /// Moment per width at the end of the overlap, N·mm/mm, where a method gives one.
    pub(super) moment_n: Option<f64>,
}

/// Checks the plates of a joint under a case.
pub(super) fn find(subject: &Subject<'_>, case: &Case<'_>, plates: &[Plate<'_>], results: &mut Results) {
    for plate in plates.iter().filter(|plate| plate.force_n_mm != 0.0) {
        let basis = Basis::Memory(
            "EN 1999-1-1:2007, 6.2.3, mean stress against the proof strength over 1.10; bending is not judged there",
        );
        let finding = subject.under(case, &format!("{}_plate", plate.word), basis);
        let place = plate.table.place().cloned().or(finding.place.clone());
        let finding = Finding { place, ..finding };
        results.findings.push(match check(subject, case, plate) {
            Err(lack) => {
                let statement = format!(
                    "Whether the {} plate of {} carries the case {} cannot be told.",
                    plate.word, subject.name, case.name
                );
                finding.unknown(statement, lack)
            }
            Ok(checked) => checked.judged(finding, plate.word, case.is_required(), results),
        });
    }
}

struct Checked {
    stress_mpa: f64,
    factor: f64,
    proof_mpa: f64,
    gamma: f64,
    bending_mpa: Option<f64>,
}

fn check(subject: &Subject<'_>, case: &Case<'_>, plate: &Plate<'_>) -> Known<Checked> {
    let given = plate.table.need()?;
    let (material, thickness) = (subject.tables.materials.referred(&given.material), given.thickness.need())
        .need_all()
        .map_err(Lack::from)?;
    let thickness = thickness.mm();
    Ok(Checked {
        stress_mpa: (plate.force_n_mm / thickness).abs(),
        factor: case.load_factor(subject.tables)?.0,
        proof_mpa: material.proof_strength.need()?.mpa(),
        gamma: partial_factor(subject.tables, GAMMA_M1, |factors| &factors.metal, "factors.metal")?,
        bending_mpa: plate.moment_n.map(|moment| (6.0 * moment / (thickness * thickness)).abs()),
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
        let verdict = if required { Verdict::of_reserve(reserve) } else { Verdict::Note };
        Finding {
            statement: format!(
                "The {word} plate of {} has a reserve factor of {reserve:.2} on its mean stress.",
                finding.about
            ),
            value: Some(Measure::of(demand, Kind::Stress)),
            limit: Some(Measure::of(allowed, Kind::Stress)),
            reserve: Some(reserve),
            verdict,
            because: format!(
                "{} × {:.2} against a proof strength of {} / {:.2}.{bending}",
                print(self.stress_mpa),
                self.factor,
                print(self.proof_mpa),
                self.gamma
            ),
            next: (verdict == Verdict::NotMet).then(|| {
                format!("Make the {word} plate thicker or wider, or of a stronger material.").into()
            }),
            ..finding
        }
    }
}
