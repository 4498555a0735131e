//! The worst points of the perimeter as strips: wall free to bend, and wall held flat.

use assessment::{Basis, Finding, Known, Lack, Verdict, names};
use job::Needed;
use job::tables::Face;
use mechanics::bondline::Bondline;
use mechanics::closed::{Lap, volkersen};
use mechanics::perimeter::LineLoad;
use mechanics::strip;
use quantity::Kind;

use super::super::adhesive::{Data, Values};
use super::super::condition::{change_k, expansions};
use super::super::lap::failed;
use super::super::nominal::ROOM_C;
use super::super::subject::Case;
use super::around::{Peaks, Side, Strips};
use super::{Form, Governing};
use crate::faying::{Flat, Geometry, Which};
use crate::{Ask, Results};

/// Tells what the strips give.
pub(super) fn find(
    form: &Form<'_>,
    case: &Case<'_>,
    found: &Known<Governing>,
    around: &Known<(Vec<Side>, Known<Strips>)>,
    results: &mut Results,
) {
    let subject = form.subject;
    let fill = [subject.name, case.name];
    let bracket = || -> Known<Peaks> {
        let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
        let (sides, strips) = around.as_ref().map_err(Lack::clone)?;
        Peaks::of(geometry, sides, strips.as_ref().map_err(Lack::clone)?)
    };
    let bracket = bracket();
    let mut put = |name, value: fn(&Peaks) -> f64| {
        results.quantities.put(name, &fill, bracket.as_ref().map(value).map_err(Lack::clone));
    };
    put(&names::PEAK_SHEAR, |it| it.free_shear_mpa.max(it.held_shear_mpa));
    put(&names::PEAK_SHEAR_FREE, |it| it.free_shear_mpa);
    put(&names::PEAK_SHEAR_HELD, |it| it.held_shear_mpa);
    put(&names::PEAK_PEEL, |it| it.free_peel_mpa);
    let basis = Basis::Published(
        "perimeter strips: two beams on an elastic layer after Goland and Reissner 1944, and two bars after Volkersen 1938",
    );
    let finding = subject.under(case, "stresses", basis);
    results.findings.push(match (bracket, found) {
        (Err(lack), _) => {
            finding.unknown(format!("The stresses in the bond of {} cannot be told.", subject.name), lack)
        }
        (_, Err(lack)) => finding
            .unknown(format!("The stresses in the bond of {} cannot be told.", subject.name), lack.clone()),
        (Ok(bracket), Ok(found)) => told(finding, &bracket, found, form, results),
    });
}

fn told(finding: Finding, bracket: &Peaks, found: &Governing, form: &Form<'_>, results: &Results) -> Finding {
    let stress = |value: f64| results.print(value, Kind::Stress);
    // A flow that is only rounding beside the axial load is none.
    let whole = found.line.resultant_n_mm();
    let line =
        |value: f64| results.print(if value.abs() < 1e-9 * whole { 0.0 } else { value }, Kind::LineLoad);
    let [y, z] = found.line.at_mm;
    let place = form.geometry.as_ref().ok().and_then(|geometry| {
        let flat = geometry.flats.get(found.line.stretch)?;
        Some(format!(
            "The {} face carries most, at y {} z {}: {} along the member and {} along the wall.",
            face_word(flat.face),
            results.print(y, Kind::Length),
            results.print(z, Kind::Length),
            line(found.line.axial_n_mm),
            line(found.line.flow_n_mm)
        ))
    });
    Finding {
        statement: format!(
            "The bond's shear peaks between {} (walls held flat) and {} (walls free to bend), its peel at up to {}.",
            stress(bracket.held_shear_mpa),
            stress(bracket.free_shear_mpa),
            stress(bracket.free_peel_mpa)
        ),
        verdict: Verdict::Note,
        because: place.unwrap_or_default(),
        ..finding
    }
}

pub(super) fn face_word(face: Face) -> &'static str {
    match face {
        Face::Top => "top",
        Face::Bottom => "bottom",
        Face::Left => "left",
        Face::Right => "right",
    }
}

/// The greatest resultant of shear along and across the strip, MPa.
fn greatest_shear_mpa(answer: &strip::Answer) -> f64 {
    let both = answer.shear_mpa.iter().zip(&answer.antiplane_shear_mpa);
    both.map(|(along, across)| along.hypot(*across)).fold(0.0, f64::max)
}

/// The strip at the worst point. The outer wall leaves it toward the member, the inner one toward the cut.
///
/// The outer wall's arm is half the flat's width b: then it buckles when pressed, sideways with the overlap as a
/// clamped and guided column, at π² D/(b/2)² = 4 π² D/b², which is the load at which the wall as a long plate with
/// held edges does (Bryan 1891, from memory). The inner wall's arm ends at the middle of the gap, where a sleeve has
/// its mirror, or is as long as the outer one in a socket.
///
/// Walls of other expansion strain each other by a change of temperature (K) from the stress-free one. Along the wall
/// they are taken to keep their length, as in plane strain.
pub(super) fn strip_of(
    form: &Form<'_>,
    geometry: &Geometry,
    line: LineLoad,
    values: &Values,
    ask: &Ask,
    hold_transverse: bool,
    change_k: f64,
) -> Known<strip::Strip> {
    let tables = form.subject.tables;
    let flat =
        geometry.flats.get(line.stretch).ok_or_else(|| Lack::Missing { keys: vec!["bonds".to_owned()] })?;
    let [outer, inner] = geometry.walls_mm();
    let (mut upper, mut lower) = (
        adherend(geometry.material(Which::Outer, tables)?, outer),
        adherend(geometry.material(Which::Inner, tables)?, inner),
    )
        .need_all()?;
    let mut temperature_change_k = 0.0;
    if change_k != 0.0
        && let Some([outer, inner]) = expand(form, geometry)?
    {
        temperature_change_k = change_k;
        (upper.thermal_expansion_per_k, lower.thermal_expansion_per_k) = (outer, inner);
    }
    let arm_mm = 0.5 * (flat.to_mm - flat.from_mm);
    Ok(strip::Strip {
        upper,
        lower,
        adhesive: values.isotropic()?,
        bondline: Bondline::Constant(geometry.bondline_mm(flat.face)),
        overlap_mm: geometry.overlap_mm,
        supports: strip::Supports::Gripped {
            ends: strip::Ends::Clamped,
            left_arm_mm: arm_mm,
            right_arm_mm: if geometry.both_sides { geometry.half_gap_mm } else { arm_mm },
        },
        axial_n_mm: line.axial_n_mm,
        shear_flow_n_mm: line.flow_n_mm,
        temperature_change_k,
        plane: strip::Plane::Strain,
        hold_transverse,
        lever_arm_includes_bondline: true,
        geometry: strip::Geometry::SecondOrder,
        mesh: strip::Mesh { elements: ask.strip_elements, ..strip::Mesh::default() },
    })
}

/// The coefficients of expansion of outer and inner wall, 1/K, where they do not expand alike.
pub(super) fn expand(form: &Form<'_>, geometry: &Geometry) -> Known<Option<[f64; 2]>> {
    let of = |which| geometry.material(which, form.subject.tables);
    expansions([of(Which::Outer)?, of(Which::Inner)?])
}

/// The change of temperature from the stress-free one at 23 °C, K; none where the walls expand alike.
pub(super) fn room_change_k(form: &Form<'_>, geometry: &Geometry) -> f64 {
    let change = change_k(form.subject.tables, ROOM_C, None);
    if change == 0.0 || expand(form, geometry) == Ok(None) { 0.0 } else { change }
}

/// The linear strip at a point, with a change of temperature, K.
pub(super) fn solved(
    form: &Form<'_>,
    geometry: &Geometry,
    line: LineLoad,
    values: &Values,
    ask: &Ask,
    hold_transverse: bool,
    change_k: f64,
) -> Known<strip::Answer> {
    let strip = strip_of(form, geometry, line, values, ask, hold_transverse, change_k)?;
    strip::solve(&strip).map_err(|failure| failed(&failure))
}

/// The greatest shear of the held strip at a point, MPa.
pub(super) fn held_peak_mpa(
    form: &Form<'_>,
    geometry: &Geometry,
    line: LineLoad,
    data: &Known<Data>,
    ask: &Ask,
) -> Known<f64> {
    match data {
        Ok(Data::Given(values)) => {
            let change_k = room_change_k(form, geometry);
            Ok(greatest_shear_mpa(&solved(form, geometry, line, values, ask, true, change_k)?))
        }
        Ok(Data::Class { keys, .. }) => Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => Err(lack.clone()),
    }
}

/// The held strip of a face under unit line loads along and across, and nothing else.
pub(super) fn held_unit(
    form: &Form<'_>,
    geometry: &Geometry,
    flat: &Flat,
    values: &Values,
    ask: &Ask,
) -> Known<strip::Answer> {
    let stretch = geometry.flats.iter().position(|known| known.face == flat.face).unwrap_or(0);
    let line = LineLoad { stretch, at_mm: [0.0; 2], axial_n_mm: 1.0, flow_n_mm: 1.0 };
    solved(form, geometry, line, values, ask, true, 0.0)
}

/// The walls at a perimeter point as bars, loaded like the strip: the outer wall at the left, the inner one at
/// the right end of the overlap, which is the cut.
pub(super) fn bars(form: &Form<'_>, geometry: &Geometry, values: &Values) -> Known<Lap> {
    let tables = form.subject.tables;
    let [outer, inner] = geometry.walls_mm();
    let (upper, lower) = (
        adherend(geometry.material(Which::Outer, tables)?, outer),
        adherend(geometry.material(Which::Inner, tables)?, inner),
    )
        .need_all()?;
    let layer = values.layer(geometry.governing_bondline_mm())?;
    Ok(Lap { upper, lower, layer, overlap_mm: geometry.overlap_mm })
}

/// Share of the load that the inner wall carries at a distance from the cut face, by bars without bending.
pub(super) fn inner_share(
    form: &Form<'_>,
    geometry: &Geometry,
    values: &Values,
    from_cut_mm: f64,
) -> Known<f64> {
    /// Intervals of Simpson's rule: even, and far finer than the load-transfer length of any wall.
    const INTERVALS: u32 = 200;
    let shear =
        volkersen::solve(&bars(form, geometry, values)?, 1.0, 0.0).map_err(|failure| failed(&failure))?;
    let to = geometry.overlap_mm - from_cut_mm;
    let step = to / f64::from(INTERVALS);
    let sum: f64 = (0..=INTERVALS)
        .map(|index| {
            let weight = match index {
                0 | INTERVALS => 1.0,
                odd if odd % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * shear.shear_mpa(step * f64::from(index))
        })
        .sum();
    Ok((sum * step / 3.0).clamp(0.0, 1.0))
}

fn adherend(material: &job::tables::Material, thickness_mm: f64) -> Result<mechanics::Adherend, job::Absent> {
    let (modulus, ratio) = (material.youngs_modulus.need(), material.poissons_ratio.need()).need_all()?;
    Ok(mechanics::Adherend {
        youngs_modulus_mpa: modulus.mpa(),
        poissons_ratio: *ratio,
        thickness_mm,
        thermal_expansion_per_k: 0.0,
    })
}
