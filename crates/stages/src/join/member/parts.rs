//! The parts beside the bond: the intact member, the insert, holes, slender walls, and what the repair carries of
//! what the intact member carried.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use mechanics::section::{Section, Stability};
use mechanics::statics::Resultants;
use quantity::Kind;

use super::super::adhesive::{Data, bondline_share};
use super::super::plates::GAMMA_M1;
use super::super::subject::{Case, partial_factor};
use super::loads::Load;
use super::{Form, Governing};
use crate::Results;
use crate::faying::{Geometry, Which};
use crate::sections::{self, failed};

/// Multiples of a case's load that the parts carry, strengths as written.
pub(super) struct Capacities {
    pub(super) intact: Known<f64>,
    pub(super) insert: Known<f64>,
}

/// One part of the joint.
struct Piece {
    section: Section,
    proof_mpa: f64,
}

fn piece(form: &Form<'_>, geometry: &Geometry, which: Which) -> Known<Piece> {
    let tables = form.subject.tables;
    let material = geometry.material(which, tables)?;
    let section = sections::build(geometry.section(which, tables)?, sections::isotropic(material)?, tables)?;
    Ok(Piece { section, proof_mpa: material.proof_strength.need()?.mpa() })
}

impl Piece {
    /// The greatest stress of a fibre, MPa.
    fn stress_mpa(&self, resultants: &Resultants) -> Known<f64> {
        let extremes = self.section.extremes(resultants).map_err(|failure| failed(&failure))?;
        Ok(extremes.greatest.stress_mpa.abs().max(extremes.least.stress_mpa.abs()))
    }
}

/// Checks the insert and the member at the cut, and gives what they carry.
pub(super) fn find(form: &Form<'_>, load: &Load<'_>, results: &mut Results) -> Capacities {
    let mut elastic = |which: Which, word: &'static str| -> Known<f64> {
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let resultants = load.resultants.as_ref().map_err(Lack::clone)?;
        let checked = check(form, geometry, which, &load.case, resultants);
        part_finding(form, &load.case, word, &checked, results);
        buckling(form, geometry, which, word, load, results);
        let checked = checked?;
        if checked.stress_mpa > 0.0 {
            return Ok(checked.proof_mpa / checked.stress_mpa);
        }
        Err(Lack::OutOfData {
            what: "no load acts on the parts".to_owned(),
            key: load.case.load_key.to_owned(),
        })
    };
    let intact_is_outer = form.geometry.as_ref().map_or(true, |geometry| geometry.intact == Which::Outer);
    let (intact, insert) =
        if intact_is_outer { (Which::Outer, Which::Inner) } else { (Which::Inner, Which::Outer) };
    Capacities { intact: elastic(intact, "member"), insert: elastic(insert, "insert") }
}

struct Checked {
    stress_mpa: f64,
    proof_mpa: f64,
    factor: f64,
    gamma: f64,
}

fn check(
    form: &Form<'_>,
    geometry: &Geometry,
    which: Which,
    case: &Case<'_>,
    at_cut: &Resultants,
) -> Known<Checked> {
    let piece = piece(form, geometry, which)?;
    let tables = form.subject.tables;
    Ok(Checked {
        stress_mpa: piece.stress_mpa(at_cut)?,
        proof_mpa: piece.proof_mpa,
        factor: case.load_factor(tables)?.0,
        gamma: partial_factor(tables, GAMMA_M1, |factors| &factors.metal, "factors.metal")?,
    })
}

fn part_finding(
    form: &Form<'_>,
    case: &Case<'_>,
    word: &str,
    checked: &Known<Checked>,
    results: &mut Results,
) {
    let basis =
        Basis::Memory("EN 1999-1-1:2007, 6.2.1, greatest fibre stress against the proof strength over 1.10");
    let finding = form.subject.under(case, word, basis);
    let name = form.subject.name;
    results.findings.push(match checked {
        Err(lack) => {
            let statement =
                format!("Whether the {word} of {name} carries the case {} cannot be told.", case.name);
            finding.unknown(statement, lack.clone())
        }
        Ok(checked) if checked.stress_mpa <= 0.0 => Finding {
            statement: format!("No load acts on the {word} of {name} in this case."),
            because: "Zero demand has no reserve factor.".to_owned(),
            ..finding
        },
        Ok(checked) => {
            let (demand, allowed) = (checked.stress_mpa * checked.factor, checked.proof_mpa / checked.gamma);
            let reserve = allowed / demand;
            let print = |value: f64| results.print(value, Kind::Stress);
            let verdict = if case.is_required() { Verdict::of_reserve(reserve) } else { Verdict::Note };
            Finding {
                statement: format!("The {word} of {name} has a reserve factor of {reserve:.2} at the cut."),
                value: Some(Measure::of(demand, Kind::Stress)),
                limit: Some(Measure::of(allowed, Kind::Stress)),
                reserve: Some(reserve),
                verdict,
                because: format!(
                    "{} at the worst fibre × {:.2} against a proof strength of {} / {:.2}.",
                    print(checked.stress_mpa),
                    checked.factor,
                    print(checked.proof_mpa),
                    checked.gamma
                ),
                next: (verdict == Verdict::NotMet)
                    .then(|| format!("Make the {word} thicker, or of a stronger material.").into()),
                ..finding
            }
        }
    });
}

/// Slender compressed walls: beyond their buckling stress nothing of the above holds.
fn buckling(
    form: &Form<'_>,
    geometry: &Geometry,
    which: Which,
    word: &str,
    load: &Load<'_>,
    results: &mut Results,
) {
    let found = || -> Known<Option<f64>> {
        let piece = piece(form, geometry, which)?;
        let factor = load.case.load_factor(form.subject.tables)?.0;
        let resultants = load.resultants.as_ref().map_err(Lack::clone)?.scaled(factor);
        let panels = piece.section.local_buckling(&resultants).map_err(|failure| failed(&failure))?;
        let reserves = panels.iter().filter_map(|panel| match panel.stability {
            Stability::Stable { reserve } | Stability::Buckles { reserve } => Some(reserve),
            Stability::NoCompression | Stability::Column => None,
        });
        Ok(reserves.reduce(f64::min))
    };
    // What the part's own finding lacks, this one lacks too; it is said once.
    let Ok(Some(reserve)) = found() else { return };
    if reserve >= 1.0 {
        return;
    }
    let basis = Basis::Memory("Timoshenko and Gere 1961, chapter 9: elastic buckling of long plates");
    let finding = form.subject.under(&load.case, &format!("{word}_buckling"), basis);
    let lack = Lack::OutOfData {
        what: format!("a compressed wall of the {word} buckles at {reserve:.2} of the load"),
        key: "a thicker wall".to_owned(),
    };
    let statement =
        format!("The walls of the {word} of {} are too slender for this load.", form.subject.name);
    results.findings.push(Finding { reserve: Some(reserve), ..finding }.unknown(statement, lack));
}

/// What the repaired member carries of what the intact one carried, under the same pattern of loads.
pub(super) fn efficiency(
    form: &Form<'_>,
    case: &Case<'_>,
    found: &Known<Governing>,
    data: &Known<Data>,
    capacities: &Capacities,
    results: &mut Results,
) {
    let subject = form.subject;
    let bond = || -> Known<f64> {
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let strength = match data {
            Ok(Data::Given(values)) => values.shear_strength_mpa.clone()?,
            Ok(Data::Class { keys, .. }) => return Err(Lack::Missing { keys: keys.clone() }),
            Err(lack) => return Err(lack.clone()),
        };
        let share = bondline_share(subject.adhesive()?, subject.bondline_mm.clone()?, |mm| {
            results.print(mm, Kind::Length)
        })?;
        let line = found.as_ref().map_err(Lack::clone)?.line.resultant_n_mm();
        Ok(strength * share * geometry.overlap_mm / line)
    };
    let bond = bond();
    let efficiency = || -> Known<(f64, &'static str)> {
        let (bond, insert) = (bond.clone()?, capacities.insert.clone()?);
        let (repaired, weakest) = if bond <= insert { (bond, "bond") } else { (insert, "insert") };
        Ok((repaired / capacities.intact.clone()?, weakest))
    };
    let known = efficiency();
    let fill = [subject.name, case.name];
    results.quantities.put(&names::EFFICIENCY, &fill, known.clone().map(|(value, _)| value));
    let basis =
        Basis::YourData("nominal bond and elastic parts, strengths as written, same pattern of loads");
    let finding = subject.under(case, "efficiency", basis);
    results.findings.push(match known {
        Err(lack) => {
            let statement = format!("What {} carries of the intact member cannot be told.", subject.name);
            finding.unknown(statement, lack)
        }
        Ok((value, weakest)) => Finding {
            statement: format!(
                "{} carries {:.0} % of what the intact member carries before it yields.",
                subject.name,
                value * 100.0
            ),
            value: Some(Measure { value, unit: "-", kind: None }),
            verdict: Verdict::Note,
            because: format!(
                "The {weakest} is its weakest part; the bond counts by nominal shear, without peel."
            ),
            ..finding
        },
    });
}
