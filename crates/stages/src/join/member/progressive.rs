//! The bond around a perimeter loaded until it gives way: walls free to bend and walls held flat, the lower judges.

use assessment::{Finding, Known, Lack, Next, names};
use mechanics::perimeter::LineLoad;
use quantity::Kind;

use super::super::adhesive::Data;
use super::super::capacity::between::{End, tell};
use super::super::capacity::{self, Judged, Level, Plates, sequence, service};
use super::super::condition::{Condition, Parts, of_service};
use super::super::ends::Ends;
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
    /// The worst place where the load along the member has the other sign.
    other: Option<LineLoad>,
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
            let room = reach.room();
            let [free, held] = &written;
            let free = reach.factor(&free.line, Walls::Free, Level::Characteristic, &room, results)?;
            let held = reach.factor(&held.line, Walls::Held, Level::Characteristic, &room, results)?;
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
    let (both, judged, reach) = match (known, reach) {
        (Ok((both, judged)), Ok(reach)) => (both, judged, reach),
        (Err(lack), _) => return results.findings.push(unknown(finding, form, lack)),
        (_, Err(lack)) => return results.findings.push(unknown(finding, form, lack.clone())),
    };
    capacity::put_reserve(&fill, &judged, results);
    if let Ok(strengths) = reach.strengths(0.0, 0.0, &reach.room()) {
        capacity::taken::of_bond(subject, &strengths, None, results);
    }
    let because = because(form, case, &both, &judged, reach, results);
    let lower = f64::min(both[0].factor, both[1].factor);
    results.findings.push(capacity::told(finding, subject, case, lower, &judged, because, || Some(next())));
    if let Ok(judged) = &judged
        && case.is_required()
    {
        in_service(form, case, judged, &both, reach, results);
    }
}

/// The same hot, cold and wet, at the places that govern at 23 °C, dry.
fn in_service(
    form: &Form<'_>,
    case: &Case<'_>,
    judged: &Judged,
    both: &[Worst; 2],
    reach: &mut Reach<'_>,
    results: &mut Results,
) {
    let room = reach.room();
    let parts = Parts { own_k: None, alike: reach.alike() };
    let Some(served) = of_service(form.subject, room, &parts, results) else { return };
    let mut load = |condition: &Condition, results: &Results| -> Known<service::Found> {
        let free = least(&both[0], Walls::Free, condition, reach, results)?;
        let held = least(&both[1], Walls::Held, condition, reach, results)?;
        let (walls, (lower, line)) = if free.0 <= held.0 { (Walls::Free, free) } else { (Walls::Held, held) };
        let mut sentences =
            vec![format!("Walls free to bend give {:.2}, walls held flat {:.2}.", free.0, held.0)];
        sentences.extend(at_place(form, &line, (walls, Level::Characteristic), condition, reach, results));
        Ok(service::Found { characteristic: lower, because: sentences.join(" ") })
    };
    let mut mend = |_: &Condition, _: &Results| Some(next());
    let tried = service::Tried { load: &mut load, next: &mut mend };
    service::find(form.subject, case, (judged, room), served, tried, results);
}

/// The least factor of a kind of wall in a condition, characteristic values, and where. Where the walls strain each
/// other by another amount than at 23 °C, what was pressed may govern in place of what was pulled.
fn least(
    worst: &Worst,
    walls: Walls,
    condition: &Condition,
    reach: &mut Reach<'_>,
    results: &Results,
) -> Known<(f64, LineLoad)> {
    let strained_otherwise = condition.change_k.to_bits() != reach.room().change_k.to_bits();
    let mut of = |line: LineLoad| -> Known<(f64, LineLoad)> {
        Ok((reach.factor(&line, walls, Level::Characteristic, condition, results)?, line))
    };
    let here = of(worst.line)?;
    match worst.other.filter(|_| strained_otherwise) {
        None => Ok(here),
        Some(line) => {
            let there = of(line)?;
            Ok(if there.0 < here.0 { there } else { here })
        }
    }
}

/// The same with each of two complete tables of the adhesive: both answers, and no judgement.
pub(super) fn between(
    form: &Form<'_>,
    case: &Case<'_>,
    ends: &Ends,
    sides: &Known<&[Side]>,
    reaches: &mut [Known<Reach<'_>>; 2],
    results: &mut Results,
) {
    let subject = form.subject;
    let of = |reach: &mut Known<Reach<'_>>| -> Known<End> {
        let reach = reach.as_mut().map_err(|lack| lack.clone())?;
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let (mut written, mut characteristic) = (f64::INFINITY, Ok(f64::INFINITY));
        for walls in [Walls::Free, Walls::Held] {
            let worst = worst(geometry, sides.clone()?, reach, walls, results)?;
            written = f64::min(written, worst.factor);
            let room = reach.room();
            let factor = reach.factor(&worst.line, walls, Level::Characteristic, &room, results);
            characteristic = characteristic.and_then(|least| Ok(f64::min(least, factor?)));
        }
        let reserve = characteristic.and_then(|characteristic| {
            let (load_factor, gamma) = capacity::factors(subject, case)?;
            Ok(Judged { characteristic, load_factor, gamma }.reserve())
        });
        Ok(End { written, reserve })
    };
    let [one, other] = reaches.each_mut().map(of);
    let both = one.and_then(|one| Ok([one, other?]));
    let lack = both.as_ref().err().cloned().unwrap_or_else(|| ends.lack());
    for name in [&names::CAPACITY_FACTOR_FREE, &names::CAPACITY_FACTOR_HELD, &names::CAPACITY_FACTOR] {
        results.quantities.put(name, &[subject.name, case.name], Err(lack.clone()));
    }
    tell(subject, case, ends, both, results);
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
    // Of loads that pull along the member, and of those that press.
    let mut worst: [Option<(f64, LineLoad)>; 2] = [None; 2];
    let lines = sides.iter().flat_map(|side| (0..geometry.flats.len()).flat_map(|flat| side.ends(flat)));
    for line in lines.filter(|line| line.resultant_n_mm() > 0.0) {
        let factor = reach.about(&line, walls, results)?;
        let worst = &mut worst[usize::from(line.axial_n_mm < 0.0)];
        if worst.is_none_or(|worst| factor < worst.0) {
            *worst = Some((factor, line));
        }
    }
    let [pulled, pressed] = worst;
    let (line, other) = match (pulled, pressed) {
        (Some((pulls, pulled)), Some((presses, pressed))) if pulls <= presses => (pulled, Some(pressed)),
        (Some((_, pulled)), Some((_, pressed))) => (pressed, Some(pulled)),
        (Some((_, line)), None) | (None, Some((_, line))) => (line, None),
        (None, None) => return Err(Lack::NoLoad),
    };
    let factor = reach.factor(&line, walls, Level::AsWritten, &reach.room(), results)?;
    Ok(Worst { factor, line, other })
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
    let room = reach.room();
    sentences.extend(at_place(form, &worst.line, (walls, Level::AsWritten), &room, reach, results));
    if room.change_k != 0.0 {
        sentences.push(service::strained(room.change_k, results));
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

/// The place, and what happens there.
fn at_place(
    form: &Form<'_>,
    line: &LineLoad,
    (walls, level): (Walls, Level),
    condition: &Condition,
    reach: &mut Reach<'_>,
    results: &Results,
) -> Vec<String> {
    let Ok(geometry) = form.geometry else { return Vec::new() };
    let Some(flat) = geometry.flats.get(line.stretch) else { return Vec::new() };
    let [y, z] = line.at_mm.map(|mm| results.print(mm, Kind::Length));
    let mut sentences = vec![format!("It is the {} face at y {y} z {z}.", face_word(flat.face))];
    if let Ok(way) = reach.way(line, walls, level, condition, results) {
        sentences.push(sequence(way, &Plates(["outer", "inner"]), geometry.overlap_mm));
    }
    sentences
}
