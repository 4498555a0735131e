//! The solid outline of each wall, mitred where walls meet.

use super::graph::{End, Graph};
use super::wall::{Centreline, Point, Wall};

/// Longest mitre of a convex corner, in thicknesses: beyond it the corner is cut square.
const LONGEST_MITRE: f64 = 2.0;

/// How far the two faces of a wall are set back from its two nodes, mm; negative where they run on.
#[derive(Debug, Clone, Copy, Default)]
struct Setback {
    /// Left face, at the wall's start and end.
    left: [f64; 2],
    /// Right face, at the wall's start and end.
    right: [f64; 2],
}

/// One polygon a wall, counterclockwise; together they cover the solid section once.
///
/// At a node the walls are sorted by direction. The face of one and the facing face of the next meet
/// in a point, which both polygons share; so do they share the node. For neighbours at an angle φ:
///
/// ```text
/// setback_i = (t_j + t_i cos φ)/(2 sin φ)        setback_j = (t_i + t_j cos φ)/(2 sin φ)
/// ```
///
/// Where two walls run on in one line, or the point lies beyond half a wall or further out than two
/// thicknesses, both are cut square at the node. A link has no area.
pub(super) fn tiles(walls: &[Wall], lines: &[Centreline], graph: &Graph, nodes: usize) -> Vec<Vec<Point>> {
    let mut setbacks = vec![Setback::default(); walls.len()];
    for node in 0..nodes {
        mitre(node, walls, lines, graph, &mut setbacks);
    }
    walls.iter().zip(lines).zip(&setbacks).map(|((wall, line), back)| tile(wall, line, back)).collect()
}

fn tile(wall: &Wall, line: &Centreline, back: &Setback) -> Vec<Point> {
    if wall.is_link() {
        return Vec::new();
    }
    let (half, length) = (wall.thickness_mm / 2.0, line.length);
    vec![
        line.point(0.0, 0.0),
        line.point(back.right[0], -half),
        line.point(length - back.right[1], -half),
        line.point(length, 0.0),
        line.point(length - back.left[1], half),
        line.point(back.left[0], half),
    ]
}

fn mitre(node: usize, walls: &[Wall], lines: &[Centreline], graph: &Graph, setbacks: &mut [Setback]) {
    let mut spokes: Vec<(f64, End)> = graph
        .ends(node)
        .iter()
        .filter(|end| !walls[end.wall].is_link())
        .map(|end| {
            let [y, z] = lines[end.wall].along;
            (libm::atan2(end.sign * z, end.sign * y), *end)
        })
        .collect();
    if spokes.len() < 2 {
        return;
    }
    spokes.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    let full_turn = 2.0 * std::f64::consts::PI;
    for (k, &(angle, here)) in spokes.iter().enumerate() {
        let (next_angle, next) = spokes[(k + 1) % spokes.len()];
        let turn = if next_angle > angle { next_angle - angle } else { next_angle - angle + full_turn };
        let (t, t_next) = (walls[here.wall].thickness_mm, walls[next.wall].thickness_mm);
        let (sine, cosine) = (libm::sin(turn), libm::cos(turn));
        let back = (t_next + t * cosine) / (2.0 * sine);
        let back_next = (t + t_next * cosine) / (2.0 * sine);
        let reach = LONGEST_MITRE * t.max(t_next);
        let fits = |back: f64, wall: usize| back >= -reach && back <= lines[wall].length / 2.0;
        // Not a number where the sine vanishes: then neither comparison holds.
        if fits(back, here.wall) && fits(back_next, next.wall) {
            // The face to the left of the outgoing direction is the wall's right one at its end.
            let face = &mut setbacks[here.wall];
            if here.sign > 0.0 {
                face.left[0] = back;
            } else {
                face.right[1] = back;
            }
            let face = &mut setbacks[next.wall];
            if next.sign > 0.0 { face.right[0] = back_next } else { face.left[1] = back_next }
        }
    }
}
