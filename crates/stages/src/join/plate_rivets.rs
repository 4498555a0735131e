//! Rivets through flat plates: what they carry when the bond is lost.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use job::tables::{Adherend, BondLost, PlateRivets};
use job::{Entry, Needed};
use mechanics::rivet::resistance::sheet::{self, RivetedSheet};
use mechanics::rivet::resistance::{GAMMA_M2, Mode, governing, tested};
use quantity::Length;

use super::fatigue::{self, Tested, What};
use super::lap::failed;
use super::subject::{Case, Subject};
use crate::Results;

/// Plates that rivets join.
pub(super) struct Plates {
    /// Thickness (mm) and tensile strength (MPa) of each, and the share of the whole load in it.
    pub(super) walls: Vec<(f64, f64, f64)>,
    /// Shear planes of each rivet.
    pub(super) planes: f64,
    /// Overlap, mm.
    pub(super) overlap_mm: f64,
}

/// The bond-lost case of a joint of plates, or of a joint that has no rivets at all.
pub(super) fn find(
    subject: &Subject<'_>,
    case: &Case<'_>,
    rivets: Option<&Entry<PlateRivets>>,
    plates: Known<Plates>,
    force_n: &Known<f64>,
    results: &mut Results,
) {
    let fill = [subject.name, case.name];
    let given = rivets.and_then(Entry::get);
    let known = match given {
        None => Ok(0.0),
        Some(rivets) => plates.and_then(|plates| factor(subject, rivets, &plates, force_n)),
    };
    results.quantities.put(&names::BOND_LOST_FACTOR, &fill, known.clone());
    if !case.is_required() {
        return;
    }
    let level = subject.tables.job.get().and_then(|head| head.bond_lost.get()).copied();
    // A joint without rivets was never meant to hold without its bond, unless the job asks for it.
    let asked = match (level, given) {
        (Some(BondLost::Information), _) | (None, None) => Ok(None),
        (Some(BondLost::Limit), _) | (None, Some(_)) => Ok(Some(1.0)),
        (Some(BondLost::Ultimate), _) => case.load_factor(subject.tables).map(|(factor, _)| Some(factor)),
    };
    let basis = Basis::Memory("ISO 14589 shear strength and EN 1999-1-4 bearing over 1.25, all rivets alike");
    let finding = subject.under(case, "bond_lost", basis);
    results.findings.push(match (known, asked) {
        (Err(lack), _) | (_, Err(lack)) => {
            let statement =
                format!("What the rivets of {} carry if the bond is lost cannot be told.", subject.name);
            finding.unknown(statement, lack)
        }
        (Ok(factor), Ok(asked)) => {
            let verdict = asked.map_or(Verdict::Note, |asked| Verdict::of_reserve(factor / asked));
            let what = if given.is_some() {
                "the rivets carry"
            } else {
                "there are no rivets; what is left carries"
            };
            Finding {
                statement: format!(
                    "With the bond of {} lost {what} {factor:.2} of the load of the case{}.",
                    subject.name,
                    asked.map_or(String::new(), |asked| format!("; {asked:.2} is asked"))
                ),
                value: Some(Measure { value: factor, unit: "-", kind: None }),
                limit: asked.map(|asked| Measure { value: asked, unit: "-", kind: None }),
                reserve: asked.map(|asked| factor / asked),
                verdict,
                because: match given {
                    Some(_) => {
                        "All rivets share alike: the plates are taken for stiff beside them.".to_owned()
                    }
                    None => "The bond is the only path of the load.".to_owned(),
                },
                next: (verdict == Verdict::NotMet).then(|| "Add rivets, or rows of them.".to_owned().into()),
                ..finding
            }
        }
    });
}

/// A plate with rivet holes: its table, and its share of the whole load.
pub(super) type Plated<'j> = (&'j Entry<Adherend>, f64);

/// The rivets and the holes of flat plates under a spectrum.
///
/// The plates are taken to carry the whole load through their net section at every row: what the bond has taken over
/// there is not counted. What flat plates' rivets carry while the bond holds is not computed.
pub(super) fn fatigue(
    subject: &Subject<'_>,
    case: &Case<'_>,
    rivets: &Entry<PlateRivets>,
    (plates, width): (&[Plated<'_>], &Entry<Length>),
    force_n: &Known<f64>,
    results: &mut Results,
) {
    let Some(given) = rivets.get() else { return };
    let tested = || -> Known<Vec<Tested<'_>>> {
        let (rivet, per_row, width) =
            (subject.tables.rivets.referred(&given.kind), given.per_row.need(), width.need()).need_all()?;
        let left_mm = width.mm() - f64::from(*per_row) * rivet.hole.need()?.mm();
        if left_mm <= 0.0 {
            let what = "the holes of a row take the whole width".to_owned();
            return Err(Lack::OutOfData { what, key: given.per_row.key.clone() });
        }
        plates
            .iter()
            .map(|(plate, share)| {
                let plate = plate.need()?;
                let (material, thickness) =
                    (subject.tables.materials.referred(&plate.material), plate.thickness.need())
                        .need_all()?;
                let (_, strength) =
                    (material.fatigue_at_holes.need(), material.tensile_strength.need()).need_all()?;
                let stress = force_n.clone()? * share / (left_mm * thickness.mm());
                Tested::by_stress(&material.fatigue_at_holes, strength.mpa(), stress)
            })
            .collect()
    };
    fatigue::find(subject, case, What::Holes, tested(), results);
    let beyond = Lack::OutOfData {
        what: "what the rivets of flat plates carry while the bond holds is not computed".to_owned(),
        key: rivets.key.clone(),
    };
    fatigue::find(subject, case, What::Rivets, Err(beyond), results);
}

fn factor(subject: &Subject<'_>, rivets: &PlateRivets, plates: &Plates, force_n: &Known<f64>) -> Known<f64> {
    let (rivet, rows, per_row) =
        (subject.tables.rivets.referred(&rivets.kind), rivets.rows.need(), rivets.per_row.need())
            .need_all()?;
    let (shear, diameter) = (rivet.shear_strength.need(), rivet.diameter.need()).need_all()?;
    let end = rows.iter().map(|row| row.mm().min(plates.overlap_mm - row.mm())).fold(f64::INFINITY, f64::min);
    let own =
        tested(Mode::RivetShear, shear.n() * plates.planes, GAMMA_M2).map_err(|failure| failed(&failure))?;
    let mut all = vec![own];
    let thickest = plates.walls.iter().map(|wall| wall.0).fold(0.0, f64::max);
    for (thickness, strength, share) in &plates.walls {
        let wall = RivetedSheet {
            thinner_mm: *thickness,
            thicker_mm: thickest,
            tensile_strength_mpa: *strength,
            diameter_mm: diameter.mm(),
            end_distance_mm: end,
        };
        let mut bearing =
            sheet::bearing(sheet::Rule::En1999, &wall, GAMMA_M2).map_err(|failure| failed(&failure))?;
        // A plate that carries a part of the load bears that part only.
        bearing.design_n /= share;
        all.push(bearing);
    }
    let number = f64::from(*per_row) * f64::from(u32::try_from(rows.len()).unwrap_or(u32::MAX));
    let least = governing(&all).map_or(0.0, |least| least.design_n);
    let force = force_n.clone()?.abs();
    if force > 0.0 {
        return Ok(number * least / force);
    }
    Err(Lack::NoLoad)
}
