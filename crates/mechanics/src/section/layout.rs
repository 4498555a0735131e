//! Checks of the plane figure that the walls draw.

use super::wall::{Point, Wall};
use super::{Fault, graph::Graph};
use crate::failure::Failure;

/// More walls than any rolled, pressed or cast member has; keeps a slip of the pen from costing time.
const MOST_WALLS: usize = 2000;

/// Distances below this share of the figure's size count as none.
const CONTACT: f64 = 1e-9;

/// Refuses nodes and walls that are no section, and names the first culprit.
pub(super) fn check(nodes: &[Point], walls: &[Wall]) -> Result<(), Failure> {
    if walls.is_empty() {
        return Err(Fault::NoWalls.into());
    }
    if walls.len() > MOST_WALLS || nodes.len() > MOST_WALLS + 1 {
        return Err(Fault::TooManyWalls { walls: walls.len().max(nodes.len()), most: MOST_WALLS }.into());
    }
    for (node, &at_mm) in nodes.iter().enumerate() {
        if !at_mm.iter().all(|c| c.is_finite()) {
            return Err(Fault::NodeNotFinite { node, at_mm }.into());
        }
    }
    for (index, wall) in walls.iter().enumerate() {
        for node in [wall.from, wall.to] {
            if node >= nodes.len() {
                return Err(Fault::UnknownNode { wall: index, node }.into());
            }
        }
        wall.check(index)?;
    }
    distances(nodes, walls)?;
    let graph = Graph::new(nodes.len(), walls);
    if let Some(node) = (0..nodes.len()).find(|&n| graph.ends(n).is_empty()) {
        return Err(Fault::LooseNode { node }.into());
    }
    match walls.iter().position(|w| !graph.reaches(w.from)) {
        Some(wall) => Err(Fault::Disconnected { wall }.into()),
        None => Ok(()),
    }
}

/// Refuses what lies where something else lies.
fn distances(nodes: &[Point], walls: &[Wall]) -> Result<(), Failure> {
    let contact = CONTACT * extent(nodes);
    for (index, wall) in walls.iter().enumerate() {
        if wall.from == wall.to || distance(nodes[wall.from], nodes[wall.to]) <= contact {
            return Err(Fault::ZeroWall { wall: index }.into());
        }
    }
    for (node, &a) in nodes.iter().enumerate() {
        if let Some(other) = (0..node).find(|&o| distance(nodes[o], a) <= contact) {
            return Err(Fault::NodesCoincide { node: other, other: node }.into());
        }
    }
    for (other, b) in walls.iter().enumerate() {
        for (wall, a) in walls[..other].iter().enumerate() {
            let common = [a.from, a.to].into_iter().filter(|&n| n == b.from || n == b.to).count();
            if common == 2 {
                return Err(Fault::DuplicateWall { wall, other }.into());
            }
            let [p, q, r, s] = [a.from, a.to, b.from, b.to].map(|n| nodes[n]);
            // An end of one on the other is contact; the common node itself is not.
            let touches = [(a.from, b, r, s), (a.to, b, r, s), (b.from, a, p, q), (b.to, a, p, q)]
                .into_iter()
                .any(|(n, w, u, v)| n != w.from && n != w.to && to_segment(nodes[n], u, v) <= contact);
            if touches || (common == 0 && cross(p, q, r, s)) {
                return Err(Fault::CrossingWalls { wall, other }.into());
            }
        }
    }
    Ok(())
}

/// Diagonal of the box around the nodes.
pub(super) fn extent(nodes: &[Point]) -> f64 {
    let span = |k: usize| {
        let (least, most) = nodes
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), n| (low.min(n[k]), high.max(n[k])));
        (most - least).max(0.0)
    };
    libm::hypot(span(0), span(1))
}

fn distance(a: Point, b: Point) -> f64 {
    libm::hypot(a[0] - b[0], a[1] - b[1])
}

/// Distance of a point from the segment u–v.
fn to_segment(point: Point, u: Point, v: Point) -> f64 {
    let along = [v[0] - u[0], v[1] - u[1]];
    let from = [point[0] - u[0], point[1] - u[1]];
    let share = (from[0] * along[0] + from[1] * along[1]) / (along[0] * along[0] + along[1] * along[1]);
    let share = share.clamp(0.0, 1.0);
    distance(point, [u[0] + share * along[0], u[1] + share * along[1]])
}

/// Whether two segments cross inside both.
fn cross(p: Point, q: Point, r: Point, s: Point) -> bool {
    let side = |a: Point, b: Point, c: Point| (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    let opposite = |a: f64, b: f64| (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0);
    opposite(side(p, q, r), side(p, q, s)) && opposite(side(r, s, p), side(r, s, q))
}
