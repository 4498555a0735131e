//! The bond around a perimeter loaded until it gives way: walls free to bend and walls held flat, the lower judges.

use assessment::{Finding, Known, Lack, Next, names};
use mechanics::perimeter::LineLoad;
use quantity::Kind;

use super::super::adhesive::Data;
use super::super::capacity::{self, Judged, Level, Plates, sequence};
use super::super::subject::Case;
use super::Form;
use super::around::Side;
use super::reach::{Reach, Walls};
use super::strips::face_word;
use crate::Results;
use crate::faying::Geometry;

/// The least multiple of a case's load around the perimeter, and where.
#[derive(Debug, Clone, Copy)]
struct Worst {
    factor: f64,
    line: LineLoad,
}

/// Loads the strips around the perimeter until they fail, and tells what came of it.
pub(super) fn find(
    form: &Form<'_>,
    case: &Case<'_>,
    sides: &Known<&[Side]>,
    reach: &mut Known<Reach<'_>>,
    results: &mut Results,
) {
    let subject = form.subject;
    let fill = [subject.name, case.name];
    let mut known = || -> Known<([Worst; 2], Known<Judged>)> {
        let sides = sides.clone()?;
        let reach = reach.as_mut().map_err(|lack| lack.clone())?;
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let written = [
            worst(geometry, sides, reach, Walls::Free, results)?,
            worst(geometry, sides, reach, Walls::Held, results)?,
        ];
        let mut judge = || {
            let (load_factor, gamma) = capacity::factors(subject, case)?;
            let free = reach.factor(&written[0].line, Walls::Free, Level::Characteristic, results)?;
            let held = reach.factor(&written[1].line, Walls::Held, Level::Characteristic, results)?;
            Ok(Judged { characteristic: f64::min(free, held), load_factor, gamma })
        };
        let judged = judge();
        Ok((written, judged))
    };
    let known = known();
    let of = |pick: fn(&[Worst; 2]) -> f64| known.as_ref().map(|(both, _)| pick(both)).map_err(Lack::clone);
    results.quantities.put(&names::CAPACITY_FACTOR_FREE, &fill, of(|both| both[0].factor));
    results.quantities.put(&names::CAPACITY_FACTOR_HELD, &fill, of(|both| both[1].factor));
    results.quantities.put(
        &names::CAPACITY_FACTOR,
        &fill,
        of(|both| f64::min(both[0].factor, both[1].factor)),
    );
    let finding = subject.under(case, "bond_to_failure", capacity::basis());
    let finding = match (known, reach) {
        (Ok((both, judged)), Ok(reach)) => {
            capacity::put_reserve(&fill, &judged, results);
            if let Ok(strengths) = reach.strengths() {
                capacity::taken::of_bond(subject, &strengths, None, results);
            }
            let because = because(form, case, &both, &judged, reach, results);
            let lower = f64::min(both[0].factor, both[1].factor);
            capacity::told(finding, subject, case, lower, &judged, because, || Some(next()))
        }
        (Err(lack), _) => unknown(finding, form, lack),
        (_, Err(lack)) => unknown(finding, form, lack.clone()),
    };
    results.findings.push(finding);
}

fn unknown(finding: Finding, form: &Form<'_>, lack: Lack) -> Finding {
    finding.unknown(format!("At what load the bond of {} gives way cannot be told.", form.subject.name), lack)
}

fn next() -> Next {
    Next::from(
        "Give the bond more width or overlap, or take load off the wall named; a second row of rivets is for the bond that is lost."
            .to_owned(),
    )
}

/// The strips of one joint, where the adhesive's own values are known.
pub(super) fn reach<'j>(form: &'j Form<'j>, data: &'j Known<Data>) -> Known<Reach<'j>> {
    let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
    match data {
        Ok(Data::Given(values)) => Ok(Reach::new(form, geometry, values)),
        Ok(Data::Class { keys, .. }) => Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => Err(lack.clone()),
    }
}

/// The line loads that govern as written: walls free to bend, and walls held flat.
pub(super) fn governing(
    form: &Form<'_>,
    sides: &[Side],
    reach: &mut Reach<'_>,
    results: &Results,
) -> Known<[LineLoad; 2]> {
    let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
    Ok([
        worst(geometry, sides, reach, Walls::Free, results)?.line,
        worst(geometry, sides, reach, Walls::Held, results)?.line,
    ])
}

/// The place with the least factor among the ends of all stretches on both sides, and its own factor: along a stretch
/// the line load is linear, so that the greatest in any direction stands at an end.
fn worst(
    geometry: &Geometry,
    sides: &[Side],
    reach: &mut Reach<'_>,
    walls: Walls,
    results: &Results,
) -> Known<Worst> {
    let mut worst: Option<Worst> = None;
    let lines = sides.iter().flat_map(|side| (0..geometry.flats.len()).flat_map(|flat| side.ends(flat)));
    for line in lines.filter(|line| line.resultant_n_mm() > 0.0) {
        let factor = reach.about(&line, walls, results)?;
        if worst.is_none_or(|worst| factor < worst.factor) {
            worst = Some(Worst { factor, line });
        }
    }
    let Worst { line, .. } = worst.ok_or(Lack::NoLoad)?;
    Ok(Worst { factor: reach.factor(&line, walls, Level::AsWritten, results)?, line })
}

/// Where it gives way, how far the two kinds of wall lie apart, and what happens there.
fn because(
    form: &Form<'_>,
    case: &Case<'_>,
    both: &[Worst; 2],
    judged: &Known<Judged>,
    reach: &mut Reach<'_>,
    results: &Results,
) -> String {
    let [free, held] = both;
    let (walls, worst) = if free.factor <= held.factor { (Walls::Free, free) } else { (Walls::Held, held) };
    let mut sentences = vec![format!(
        "Walls free to bend give {:.2}, walls held flat {:.2}; the lower judges.",
        free.factor, held.factor
    )];
    if let Ok(geometry) = form.geometry
        && let Some(flat) = geometry.flats.get(worst.line.stretch)
    {
        let [y, z] = worst.line.at_mm.map(|mm| results.print(mm, Kind::Length));
        sentences.push(format!("It is the {} face at y {y} z {z}.", face_word(flat.face)));
        if let Ok(way) = reach.way(&worst.line, walls, Level::AsWritten, results) {
            sentences.push(sequence(way, &Plates(["outer", "inner"]), geometry.overlap_mm));
        }
    }
    if let Ok(judged) = judged
        && case.is_required()
    {
        let asked = judged.load_factor.0 * judged.gamma;
        let characteristic = judged.characteristic / f64::min(free.factor, held.factor);
        let higher = f64::max(free.factor, held.factor) * characteristic;
        if judged.characteristic < asked && higher >= asked {
            let more = "What is asked lies between the two: a shell model of the joint would tell more.";
            sentences.push(more.to_owned());
        }
    }
    sentences.join(" ")
}
