//! The parts beside the bond: the intact member, the insert, holes, slender walls, and what the repair carries of
//! what the intact member carried.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use job::Needed;
use mechanics::perimeter::moved_along;
use mechanics::rivet::resistance::GAMMA_M2;
use mechanics::section::{Section, Stability};
use mechanics::statics::Resultants;
use quantity::Kind;

use super::super::adhesive::{Data, bondline_share};
use super::super::fatigue::{self, Tested, What};
use super::super::plates::GAMMA_M1;
use super::super::subject::{Case, partial_factor};
use super::loads::Load;
use super::{Form, Governing, rivets, strips};
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
pub(super) fn find(
    form: &Form<'_>,
    load: &Load<'_>,
    data: &Known<Data>,
    results: &mut Results,
) -> Capacities {
    let mut elastic = |which: Which, word: &'static str| -> Known<f64> {
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let resultants = load.resultants.as_ref().map_err(Lack::clone)?;
        let checked = check(form, geometry, which, &load.case, resultants);
        part_finding(form, &load.case, word, &checked, results);
        net_section(form, geometry, which, word, load, data, results);
        buckling(form, geometry, which, word, load, results);
        let checked = checked?;
        if checked.stress_mpa > 0.0 {
            return Ok(checked.proof_mpa / checked.stress_mpa);
        }
        Err(Lack::NoLoad)
    };
    let intact_is_outer = form.geometry.as_ref().map_or(true, |geometry| geometry.intact == Which::Outer);
    let (intact, insert) =
        if intact_is_outer { (Which::Outer, Which::Inner) } else { (Which::Inner, Which::Outer) };
    let capacities = Capacities { intact: elastic(intact, "member"), insert: elastic(insert, "insert") };
    let fill = [form.subject.name, load.case.name];
    results.quantities.put(&names::INTACT_ELASTIC_FACTOR, &fill, capacities.intact.clone());
    plastic(form, load, results);
    capacities
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

/// The stress of a net section, with the factors in it.
struct Net {
    demand_mpa: f64,
    allowed_mpa: f64,
    why: &'static str,
}

/// Share of the load that a part carries at a row while the bond holds; all of it where the adhesive is only
/// known by its class.
fn share_at(
    form: &Form<'_>,
    geometry: &Geometry,
    which: Which,
    data: &Known<Data>,
    from_cut_mm: f64,
) -> Known<f64> {
    let inner = match data {
        Ok(Data::Given(values)) => strips::inner_share(form, geometry, values, from_cut_mm)?,
        Ok(Data::Class { .. }) => return Ok(1.0),
        Err(lack) => return Err(lack.clone()),
    };
    Ok(if which == Which::Inner { inner } else { 1.0 - inner })
}

/// The section at its rivet holes, at the row where the moments are greatest.
fn net_section(
    form: &Form<'_>,
    geometry: &Geometry,
    which: Which,
    word: &str,
    load: &Load<'_>,
    data: &Known<Data>,
    results: &mut Results,
) {
    // Without rivets there are no holes; what rivets lack, their own findings say.
    let Ok(rows) = rivets::rows_of_holes(form, geometry, which) else { return };
    let found = || -> Known<Net> {
        let tables = form.subject.tables;
        let material = geometry.material(which, tables)?;
        let section = piece_section(form, geometry, which)?;
        let at_cut = load.resultants.as_ref().map_err(Lack::clone)?;
        let (bonded, _) = load.case.load_factor(tables)?;
        let lost = rivets::asked(form, &load.case)?.unwrap_or(0.0);
        let gamma = partial_factor(tables, GAMMA_M2, |factors| &factors.metal, "factors.metal")?;
        let mut net = Net {
            demand_mpa: 0.0,
            allowed_mpa: 0.9 * material.tensile_strength.need()?.mpa() / gamma,
            why: "",
        };
        for row in &rows {
            let there = moved_along(at_cut, row.offset_mm);
            let whole = section.net_stress_mpa(&there, &row.holes).map_err(|failure| failed(&failure))?;
            let share = share_at(form, geometry, which, data, row.from_cut_mm)?;
            for (demand_mpa, why) in [
                (
                    whole * share * bonded,
                    "what the bond has not yet taken over passes there, with the load factor",
                ),
                (whole * lost, "with the bond lost the whole load passes there"),
            ] {
                if demand_mpa > net.demand_mpa {
                    net = Net { demand_mpa, why, ..net };
                }
            }
        }
        Ok(net)
    };
    let basis = Basis::Memory(
        "EN 1999-1-1:2007, 6.2.3: mean stress of the net section against 0.9 of the tensile strength over 1.25",
    );
    let finding = form.subject.under(&load.case, &format!("{word}_at_holes"), basis);
    let name = form.subject.name;
    results.findings.push(match found() {
        Err(lack) => {
            let statement =
                format!("Whether the {word} of {name} carries the case at its rivet holes cannot be told.");
            finding.unknown(statement, lack)
        }
        Ok(net) if net.demand_mpa <= 0.0 => return,
        Ok(net) => {
            let reserve = net.allowed_mpa / net.demand_mpa;
            let verdict = if load.case.is_required() { Verdict::of_reserve(reserve) } else { Verdict::Note };
            Finding {
                statement: format!(
                    "The {word} of {name} has a reserve factor of {reserve:.2} at its rivet holes."
                ),
                value: Some(Measure::of(net.demand_mpa, Kind::Stress)),
                limit: Some(Measure::of(net.allowed_mpa, Kind::Stress)),
                reserve: Some(reserve),
                verdict,
                because: format!(
                    "{} over the net section of the worst row against {}: {}.",
                    results.print(net.demand_mpa, Kind::Stress),
                    results.print(net.allowed_mpa, Kind::Stress),
                    net.why
                ),
                next: (verdict == Verdict::NotMet)
                    .then(|| "Use fewer or smaller rivets in that row, or a thicker part.".to_owned().into()),
                ..finding
            }
        }
    });
}

/// The holes of both parts under a spectrum, by what passes the net section while the bond holds.
pub(super) fn holes_in_fatigue(form: &Form<'_>, load: &Load<'_>, data: &Known<Data>, results: &mut Results) {
    if form.rivets.get().is_none() {
        return;
    }
    let tested = || -> Known<Vec<Tested<'_>>> {
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let tables = form.subject.tables;
        let at_cut = load.resultants.as_ref().map_err(Lack::clone)?;
        let (outer, inner) =
            (geometry.material(Which::Outer, tables)?, geometry.material(Which::Inner, tables)?);
        (outer.fatigue_at_holes.need(), inner.fatigue_at_holes.need()).need_all()?;
        let mut all = Vec::new();
        for (which, material) in [(Which::Outer, outer), (Which::Inner, inner)] {
            let section = piece_section(form, geometry, which)?;
            let strength = material.tensile_strength.need()?.mpa();
            for row in rivets::rows_of_holes(form, geometry, which)? {
                let there = moved_along(at_cut, row.offset_mm);
                let whole = section.net_stress_mpa(&there, &row.holes).map_err(|failure| failed(&failure))?;
                let stress = whole * share_at(form, geometry, which, data, row.from_cut_mm)?;
                all.push(Tested::by_stress(&material.fatigue_at_holes, strength, stress)?);
            }
        }
        Ok(all)
    };
    fatigue::find(form.subject, &load.case, What::Holes, tested(), results);
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

/// How stiff the insert is beside the intact member, and what the intact member carries fully plastic.
pub(super) fn beside_intact(form: &Form<'_>, results: &mut Results) {
    let known = || -> Known<[f64; 4]> {
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let (intact, insert) = match geometry.intact {
            Which::Outer => (Which::Outer, Which::Inner),
            Which::Inner => (Which::Inner, Which::Outer),
        };
        let stiffness = |which| -> Known<[f64; 4]> {
            let material = geometry.material(which, form.subject.tables)?;
            let section = piece_section(form, geometry, which)?;
            let (of, isotropic) = (section.properties(), sections::isotropic(material)?);
            let modulus = isotropic.youngs_modulus_mpa;
            let shear = isotropic.shear_modulus_mpa();
            Ok([
                modulus * of.area_mm2,
                modulus * of.i_y_mm4,
                modulus * of.i_z_mm4,
                shear * of.torsion.constant_mm4,
            ])
        };
        let (intact, insert) = (stiffness(intact)?, stiffness(insert)?);
        Ok([0, 1, 2, 3].map(|k| insert[k] / intact[k]))
    };
    // What is missing for this is missing for the strength, too, and said there.
    let Ok([axial, about_y, about_z, torsion]) = known() else { return };
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    results.findings.push(Finding {
        statement: format!(
            "At the cut the insert of {} alone has {} of the intact member's axial stiffness, {} and {} of its bending stiffness about y and z, {} in torsion.",
            form.subject.name,
            percent(axial),
            percent(about_y),
            percent(about_z),
            percent(torsion)
        ),
        verdict: Verdict::Note,
        because: "Over the gap there is nothing but the insert; over the overlaps both stand together.".to_owned(),
        ..form.subject.finding("stiffness", Basis::YourData("sections and moduli of both parts"))
    });
}

fn piece_section(form: &Form<'_>, geometry: &Geometry, which: Which) -> Known<Section> {
    let tables = form.subject.tables;
    let material = geometry.material(which, tables)?;
    sections::build(geometry.section(which, tables)?, sections::isotropic(material)?, tables)
}

/// The multiple of a case's load at which the intact member is fully plastic, where its elongation is given.
///
/// ```text
/// λ = 1/(|N|/N_pl + |M_y|/M_pl,y + |M_z|/M_pl,z)
/// ```
///
/// A straight line between the full plastic resistances: never above the true interaction of a convex yield
/// surface. Shear and torque do not enter. Textbook (formula).
fn plastic(form: &Form<'_>, load: &Load<'_>, results: &mut Results) {
    let fill = [form.subject.name, load.case.name];
    let known = || -> Known<f64> {
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let material = geometry.material(geometry.intact, form.subject.tables)?;
        // A material that breaks before it flows has no plastic capacity; elongation says that it flows.
        let (proof, _) = (material.proof_strength.need(), material.elongation.need()).need_all()?;
        let section = piece_section(form, geometry, geometry.intact)?;
        let strengths = vec![proof.mpa(); section.walls().len()];
        let full = section.plastic(&strengths).map_err(|failure| failed(&failure))?;
        let at = load.resultants.as_ref().map_err(Lack::clone)?;
        let used = (at.axial_n / full.axial_n).abs()
            + (at.moment_y_nmm / full.moment_y_nmm).abs()
            + (at.moment_z_nmm / full.moment_z_nmm).abs();
        if used > 0.0 {
            return Ok(1.0 / used);
        }
        Err(Lack::NoLoad)
    };
    results.quantities.put(&names::INTACT_PLASTIC_FACTOR, &fill, known());
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
        if line <= 0.0 {
            return Err(Lack::NoLoad);
        }
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
