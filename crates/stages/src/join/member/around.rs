//! Strips all around the perimeter: what each point of it carries, and the stresses that makes.

use assessment::{Known, Lack, Name, names};
use job::tables::Face;
use mechanics::perimeter::{LineLoad, Sharing, moved_along, share};
use mechanics::statics::Resultants;
use mechanics::strip::Answer;

use super::super::adhesive::Values;
use super::super::lap::failed;
use super::strips::{held_unit, room_change_k, solved};
use super::{Form, Governing};
use crate::faying::{Flat, Geometry};
use crate::sheet::FACES;
use crate::{Ask, Results};

/// Parts of a bonded stretch in a series.
const PARTS: u32 = 8;

/// How one side of the cut shares the resultants.
pub(super) struct Side {
    /// +1 beyond the cut, −1 before it.
    pub(super) sign: f64,
    sharing: Sharing,
}

impl Side {
    /// What the ends of a bonded stretch carry.
    pub(super) fn ends(&self, flat: usize) -> impl Iterator<Item = LineLoad> + '_ {
        [0.0, 1.0].into_iter().filter_map(move |along| self.line(flat, along))
    }

    /// What a point of a bonded stretch carries, `along` from 0 to 1.
    pub(super) fn line(&self, flat: usize, along: f64) -> Option<LineLoad> {
        self.sharing.at(flat, along)
    }
}

/// The sides of the cut that are bonded.
pub(super) fn sides(geometry: &Geometry, at_cut: &Resultants) -> Known<Vec<Side>> {
    let stretches = geometry.stretches();
    let of = |offset_mm: &f64| {
        let sharing = share(&stretches, &moved_along(at_cut, *offset_mm));
        Ok(Side { sign: offset_mm.signum(), sharing: sharing.map_err(|failure| failed(&failure))? })
    };
    geometry.middles_mm().iter().map(of).collect()
}

/// The strips around a perimeter, on both sides of the cut.
pub(super) struct Strips {
    walls: Vec<Wall>,
    /// The wall of each bonded stretch.
    of_flat: Vec<usize>,
}

/// Stretches of one width and one bondline have the same strip.
struct Wall {
    /// Under unit line loads, walls held flat: linear in its loads.
    held: Answer,
    /// Under the change of temperature at 23 °C alone, walls held flat and free to bend, where it strains the walls.
    strained: Option<[Answer; 2]>,
    /// Under loads along the member from the least to the greatest that the stretches have, N/mm, walls free to bend.
    free: Known<Vec<(f64, Answer)>>,
}

impl Strips {
    /// Solves the strips of a case.
    pub(super) fn of(
        form: &Form<'_>,
        geometry: &Geometry,
        sides: &[Side],
        values: &Values,
        ask: &Ask,
    ) -> Known<Self> {
        // To the last digit: what differs only by rounding has a strip of its own, which does no harm.
        let key =
            |flat: &Flat| [flat.to_mm - flat.from_mm, geometry.bondline_mm(flat.face)].map(f64::to_bits);
        let mut known: Vec<[u64; 2]> = Vec::new();
        let mut of_flat = Vec::new();
        for flat in &geometry.flats {
            let wall = known.iter().position(|known| *known == key(flat)).unwrap_or_else(|| {
                known.push(key(flat));
                known.len() - 1
            });
            of_flat.push(wall);
        }
        let mut walls = Vec::new();
        let change_k = room_change_k(form, geometry);
        for wall in 0..known.len() {
            let alike: Vec<usize> = (0..of_flat.len()).filter(|flat| of_flat[*flat] == wall).collect();
            let Some((first, flat)) = alike.first().and_then(|at| Some((*at, geometry.flats.get(*at)?)))
            else {
                continue;
            };
            let ends = alike.iter().flat_map(|flat| sides.iter().flat_map(|side| side.ends(*flat)));
            let under = |axial_n_mm: f64, hold: bool| {
                let line = LineLoad { stretch: first, at_mm: [0.0; 2], axial_n_mm, flow_n_mm: 0.0 };
                solved(form, geometry, line, values, ask, hold, change_k)
            };
            let free = nodes(ends.map(|line| line.axial_n_mm)).into_iter();
            let free = free.map(|axial_n_mm| Ok((axial_n_mm, under(axial_n_mm, false)?))).collect();
            let strained = if change_k == 0.0 { None } else { Some([under(0.0, true)?, under(0.0, false)?]) };
            walls.push(Wall { held: held_unit(form, geometry, flat, values, ask)?, strained, free });
        }
        Ok(Self { walls, of_flat })
    }

    fn wall(&self, flat: usize) -> Option<&Wall> {
        self.walls.get(*self.of_flat.get(flat)?)
    }

    /// Whether the strips with walls free to bend have answers, or why not.
    pub(super) fn bend(&self) -> Known<()> {
        self.walls.iter().try_for_each(|wall| wall.free.as_ref().map(|_| ()).map_err(Lack::clone))
    }

    /// Distances of the nodes from the far end of the overlap, where the strip begins, mm.
    pub(super) fn nodes_mm(&self, flat: usize) -> &[f64] {
        self.wall(flat).map_or(&[], |wall| &wall.held.x_mm)
    }

    /// Resultant shear at the nodes, walls held flat, MPa.
    pub(super) fn shear_held_mpa(&self, flat: usize, line: &LineLoad) -> Vec<f64> {
        let Some(Wall { held, strained, .. }) = self.wall(flat) else { return Vec::new() };
        let mut along: Vec<f64> = held.shear_mpa.iter().map(|along| along * line.axial_n_mm).collect();
        if let Some([strained, _]) = strained {
            along.iter_mut().zip(&strained.shear_mpa).for_each(|(sum, strained)| *sum += strained);
        }
        let both = along.iter().zip(&held.antiplane_shear_mpa);
        both.map(|(along, across)| along.hypot(across * line.flow_n_mm)).collect()
    }

    /// Resultant shear at the nodes, walls free to bend, MPa. Shear along the wall does not bend it.
    pub(super) fn shear_free_mpa(&self, flat: usize, line: &LineLoad) -> Vec<f64> {
        let Some(wall) = self.wall(flat) else { return Vec::new() };
        let along = wall.free_at(line.axial_n_mm, |answer| &answer.shear_mpa);
        let both = along.iter().zip(&wall.held.antiplane_shear_mpa);
        both.map(|(along, across)| along.hypot(across * line.flow_n_mm)).collect()
    }

    /// Peel at the nodes, walls free to bend, MPa; tension positive.
    pub(super) fn peel_free_mpa(&self, flat: usize, line: &LineLoad) -> Vec<f64> {
        self.wall(flat).map_or_else(Vec::new, |wall| wall.free_at(line.axial_n_mm, |answer| &answer.peel_mpa))
    }
}

/// Loads at which a free strip is solved, to be read between: the least, the greatest, and three between.
fn nodes(loads: impl Iterator<Item = f64>) -> Vec<f64> {
    let (least, most) = loads
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), load| (least.min(load), most.max(load)));
    let range = most - least;
    let between = |share: f64| {
        let load = least + share * range;
        // Stresses are read as multiples of the load: where there is next to none there is nothing to read.
        if load.abs() < 0.02 * range { load + 0.05 * range } else { load }
    };
    let slight = 1e-9 * least.abs().max(most.abs());
    let mut nodes = vec![least, between(0.25), between(0.5), between(0.75), most];
    nodes.retain(|load| load.abs() > slight);
    nodes.dedup_by(|a, b| (*a - *b).abs() <= slight);
    nodes
}

impl Wall {
    /// Stresses at the nodes under a load along the member: what the temperature makes, and the load times what one unit
    /// of it makes, which the second order of the bending changes smoothly, so that a polynomial through the strips
    /// reads it.
    fn free_at(&self, load_n_mm: f64, of: fn(&Answer) -> &Vec<f64>) -> Vec<f64> {
        let free = self.free.as_deref().unwrap_or_default();
        let none = vec![0.0; self.held.x_mm.len()];
        let alone = self.strained.as_ref().map_or(&none, |[_, free]| of(free));
        let mut sum = alone.clone();
        for (index, (own, answer)) in free.iter().enumerate() {
            let others = free.iter().enumerate().filter(|(other, _)| *other != index);
            let weight: f64 = others.map(|(_, (other, _))| (load_n_mm - other) / (own - other)).product();
            for ((sum, value), alone) in sum.iter_mut().zip(of(answer)).zip(alone) {
                *sum += load_n_mm * weight * ((value - alone) / own);
            }
        }
        sum
    }
}

fn greatest(values: &[f64]) -> f64 {
    values.iter().copied().fold(0.0, f64::max)
}

/// A point of a bonded stretch on its way around the section.
struct Point {
    /// From the beginning of the first face of the sheet, mm.
    at_mm: f64,
    flat: usize,
    /// From 0 to 1 along the stretch.
    along: f64,
    /// +1 where the stretch runs the way the perimeter does, −1 where it runs against it.
    runs: f64,
}

/// Points of all bonded stretches, in the order of the sheet.
fn points(geometry: &Geometry) -> Vec<Vec<Point>> {
    let [width, height] = geometry.faying_mm();
    let mut stretches = Vec::new();
    let mut edge = 0.0;
    for (face, _, up) in FACES {
        let across = if matches!(face, Face::Top | Face::Bottom) { width } else { height };
        for (index, flat) in geometry.flats.iter().enumerate().filter(|(_, flat)| flat.face == face) {
            let point = |part: u32| {
                let along = f64::from(part) / f64::from(PARTS);
                let s = flat.from_mm + along * (flat.to_mm - flat.from_mm);
                Point { at_mm: edge + across / 2.0 - up * s, flat: index, along, runs: -up }
            };
            let mut points: Vec<Point> = (0..=PARTS).map(point).collect();
            points.sort_by(|a, b| a.at_mm.total_cmp(&b.at_mm));
            stretches.push(points);
        }
        edge += across;
    }
    let begins = |stretch: &[Point]| stretch.first().map_or(0.0, |point| point.at_mm);
    stretches.sort_by(|a, b| begins(a).total_cmp(&begins(b)));
    stretches
}

/// A curve once around the section. Beside the bonded stretches nothing is carried.
fn once_around(geometry: &Geometry, value: &dyn Fn(&Point) -> Option<f64>) -> Vec<(f64, f64)> {
    let [width, height] = geometry.faying_mm();
    let mut curve = vec![(0.0, 0.0)];
    for stretch in points(geometry) {
        let on: Vec<(f64, f64)> =
            stretch.iter().filter_map(|point| Some((point.at_mm, value(point)?))).collect();
        curve.extend(on.first().map(|(at, _)| (*at, 0.0)));
        curve.extend(&on);
        curve.extend(on.last().map(|(at, _)| (*at, 0.0)));
    }
    curve.push((2.0 * (width + height), 0.0));
    curve
}

/// What x means in these series.
fn along(geometry: &Geometry, side: f64) -> (&'static str, &'static str) {
    let words = match (geometry.both_sides, side < 0.0) {
        (false, _) => "distance around the perimeter from the edge of right and bottom",
        (true, true) => "distance around the perimeter from the edge of right and bottom, before the cut",
        (true, false) => "distance around the perimeter from the edge of right and bottom, beyond the cut",
    };
    (words, "mm")
}

/// Puts the line loads of the side that governs.
pub(super) fn put_loads(
    geometry: &Geometry,
    sides: &[Side],
    governing: &Governing,
    fill: &[&str],
    results: &mut Results,
) {
    let Some(side) = sides.iter().find(|side| side.sign * governing.side > 0.0) else { return };
    let x = along(geometry, side.sign);
    let axial = |point: &Point| Some(side.line(point.flat, point.along)?.axial_n_mm);
    let flow = |point: &Point| Some(side.line(point.flat, point.along)?.flow_n_mm * point.runs);
    results.series.put(&names::PERIMETER_AXIAL, fill, x, &once_around(geometry, &axial));
    results.series.put(&names::PERIMETER_FLOW, fill, x, &once_around(geometry, &flow));
}

/// The greatest stresses around a perimeter, on both sides of the cut, MPa.
pub(super) struct Peaks {
    pub(super) free_shear_mpa: f64,
    pub(super) held_shear_mpa: f64,
    pub(super) free_peel_mpa: f64,
}

impl Peaks {
    /// The peaks at the ends of the stretches: line loads are linear along them and peaks grow with the load.
    pub(super) fn of(geometry: &Geometry, sides: &[Side], strips: &Strips) -> Known<Self> {
        strips.bend()?;
        let most = |stress: &dyn Fn(usize, &LineLoad) -> Vec<f64>| {
            let flats = 0..geometry.flats.len();
            let peaks = flats.flat_map(|flat| {
                sides
                    .iter()
                    .flat_map(move |side| side.ends(flat))
                    .map(move |line| greatest(&stress(flat, &line)))
            });
            peaks.fold(0.0, f64::max)
        };
        Ok(Self {
            free_shear_mpa: most(&|flat, line| strips.shear_free_mpa(flat, line)),
            held_shear_mpa: most(&|flat, line| strips.shear_held_mpa(flat, line)),
            free_peel_mpa: most(&|flat, line| strips.peel_free_mpa(flat, line)),
        })
    }
}

/// Puts the peaks of the strips around the side where the shear is greatest.
pub(super) fn put_peaks(
    geometry: &Geometry,
    sides: &[Side],
    strips: &Strips,
    fill: &[&str],
    results: &mut Results,
) {
    let most = |side: &&Side| {
        let flats = 0..geometry.flats.len();
        let lines = flats.flat_map(|flat| side.ends(flat).map(move |line| (flat, line)));
        let held = lines.map(|(flat, line)| {
            let (free, held) = (strips.shear_free_mpa(flat, &line), strips.shear_held_mpa(flat, &line));
            greatest(&free).max(greatest(&held))
        });
        held.fold(0.0, f64::max)
    };
    let Some(side) = sides.iter().max_by(|a, b| most(a).total_cmp(&most(b))) else { return };
    let x = along(geometry, side.sign);
    let mut put = |name: &Name, value: &dyn Fn(usize, &LineLoad) -> Vec<f64>| {
        let curve =
            once_around(geometry, &|at| Some(greatest(&value(at.flat, &side.line(at.flat, at.along)?))));
        results.series.put(name, fill, x, &curve);
    };
    put(&names::PERIMETER_SHEAR_HELD, &|flat, line| strips.shear_held_mpa(flat, line));
    // A wall that is held flat does not open: its strip has no peel anywhere.
    put(&names::PERIMETER_PEEL_HELD, &|flat, _| {
        strips.wall(flat).map_or_else(Vec::new, |wall| wall.held.peel_mpa.clone())
    });
    if strips.bend().is_ok() {
        put(&names::PERIMETER_SHEAR_FREE, &|flat, line| strips.shear_free_mpa(flat, line));
        put(&names::PERIMETER_PEEL_FREE, &|flat, line| strips.peel_free_mpa(flat, line));
    }
}

#[cfg(test)]
mod tests;
