//! Line load, shear and peel over the faying surfaces, for the sheet.

use assessment::{Cell, Known, Patch, names};

use mechanics::perimeter::LineLoad;

use super::super::subject::Case;
use super::around::{self, Side, Strips};
use super::{Form, Governing};
use crate::Results;
use crate::faying::{Flat, Geometry};
use crate::sheet::FACES;

/// Cells across each bonded stretch, and along each overlap.
const ACROSS: u32 = 12;
const ALONG: u32 = 24;

/// Puts the fields of a case and the series around its perimeter; what they lack, the findings of the case say.
pub(super) fn put(
    form: &Form<'_>,
    case: &Case<'_>,
    found: &Known<Governing>,
    around: &Known<(Vec<Side>, Known<Strips>)>,
    results: &mut Results,
) {
    let (Ok(geometry), Ok(governing), Ok((sides, strips))) = (form.geometry, found, around) else { return };
    let (joint, case) = (form.subject.name, case.name);
    let fill = [joint, case];
    results.put_field(&names::LINE_LOAD_FIELD, joint, case, line_load(geometry, sides));
    around::put_loads(geometry, sides, governing, &fill, results);
    let Ok(strips) = strips else { return };
    around::put_peaks(geometry, sides, strips, &fill, results);
    let over = |stress: &dyn Fn(usize, &LineLoad) -> Vec<f64>| -> Vec<Cell> {
        let of_side = |side| cells(geometry, side, strips, stress);
        sides.iter().flat_map(of_side).collect()
    };
    let shear = over(&|flat, line| strips.shear_held_mpa(flat, line));
    results.put_field(&names::SHEAR_FIELD, joint, case, shear);
    if strips.bend().is_ok() {
        let peel = over(&|flat, line| strips.peel_free_mpa(flat, line));
        results.put_field(&names::PEEL_FIELD, joint, case, peel);
    }
}

/// The place of a stretch's face on the sheet.
fn face_of(flat: &Flat) -> usize {
    FACES.iter().position(|(face, ..)| *face == flat.face).unwrap_or(0)
}

/// Edges of the cells across a stretch: as shares of it, and as places on its face, mm.
fn across(flat: &Flat, cell: u32) -> ([f64; 2], [f64; 2]) {
    let shares = [cell, cell + 1].map(|edge| f64::from(edge) / f64::from(ACROSS));
    (shares, shares.map(|share| flat.from_mm + share * (flat.to_mm - flat.from_mm)))
}

/// Where a stretch of an overlap lies on the sheet, from its distances to the cut face.
fn along(geometry: &Geometry, side: f64, from_cut_mm: [f64; 2]) -> [f64; 2] {
    let x = from_cut_mm.map(|from| side * (geometry.half_gap_mm + from));
    [x[0].min(x[1]), x[0].max(x[1])]
}

fn line_load(geometry: &Geometry, sides: &[Side]) -> Vec<Cell> {
    let mut cells = Vec::new();
    for side in sides {
        for (index, flat) in geometry.flats.iter().enumerate() {
            for cell in 0..ACROSS {
                let (shares, s_mm) = across(flat, cell);
                let greatest = shares.into_iter().filter_map(|share| side.line(index, share));
                let value = greatest.map(|line| line.resultant_n_mm()).fold(0.0, f64::max);
                let x_mm = along(geometry, side.sign, [0.0, geometry.overlap_mm]);
                cells.push(Cell { face: face_of(flat), patch: Patch { x_mm, s_mm }, value });
            }
        }
    }
    cells
}

/// Cells with the greatest of their corners and of the strips' nodes between, so that no peak is lost between cells.
/// They are short at the ends of the overlap, where the stress is.
fn cells(
    geometry: &Geometry,
    side: &Side,
    strips: &Strips,
    stress_mpa: &dyn Fn(usize, &LineLoad) -> Vec<f64>,
) -> Vec<Cell> {
    // From the far end of the overlap to the cut, as the strips run.
    let edge = |part: u32| {
        let turn = std::f64::consts::PI * f64::from(part) / f64::from(ALONG);
        0.5 * geometry.overlap_mm * (1.0 - libm::cos(turn))
    };
    let mut cells = Vec::new();
    for (index, flat) in geometry.flats.iter().enumerate() {
        let nodes = strips.nodes_mm(index);
        for cell in 0..ACROSS {
            let (shares, s_mm) = across(flat, cell);
            let lines = shares.into_iter().filter_map(|share| side.line(index, share));
            let edges: Vec<Vec<f64>> = lines.map(|line| stress_mpa(index, &line)).collect();
            for part in 0..ALONG {
                let from_far = [edge(part), edge(part + 1)];
                let greatest = edges.iter().map(|values| greatest_within(nodes, values, from_far));
                let from_cut = from_far.map(|far| geometry.overlap_mm - far);
                cells.push(Cell {
                    face: face_of(flat),
                    patch: Patch { x_mm: along(geometry, side.sign, from_cut), s_mm },
                    value: greatest.fold(0.0, f64::max),
                });
            }
        }
    }
    cells
}

/// The greatest value between two places: at the nodes between, and at the places themselves.
fn greatest_within(nodes: &[f64], values: &[f64], [from, to]: [f64; 2]) -> f64 {
    // The nodes rise, so those between stand together.
    let first = nodes.partition_point(|node| *node < from);
    let inside = nodes.iter().zip(values).skip(first).take_while(|(node, _)| **node <= to);
    let ends = [from, to].into_iter().filter_map(|at| between(nodes, values, at));
    inside.map(|(_, value)| *value).chain(ends).fold(f64::NEG_INFINITY, f64::max)
}

/// A value between nodes, linear; the nodes rise.
fn between(nodes: &[f64], values: &[f64], at: f64) -> Option<f64> {
    let after = nodes.partition_point(|node| *node < at).clamp(1, nodes.len().checked_sub(1)?);
    let (x0, x1) = (*nodes.get(after - 1)?, *nodes.get(after)?);
    let (y0, y1) = (*values.get(after - 1)?, *values.get(after)?);
    Some(y0 + (y1 - y0) * ((at - x0) / (x1 - x0)).clamp(0.0, 1.0))
}
