//! Line load and shear over the faying surfaces, for the sheet.

use assessment::{Cell, Known, Lack, Patch, names};
use mechanics::perimeter::{moved_along, share};
use mechanics::statics::Resultants;

use super::super::adhesive::{Data, Values};
use super::super::lap::failed;
use super::strips::held_unit;
use super::{Form, loads};
use crate::faying::Geometry;
use crate::sheet::FACES;
use crate::{Ask, Results};

/// Cells across each bonded stretch, and along each overlap.
const ACROSS: u32 = 12;
const ALONG: u32 = 20;

/// Puts the fields of a case; what they lack, the findings of the case say.
pub(super) fn put(
    form: &Form<'_>,
    load: &loads::Load<'_>,
    data: &Known<Data>,
    ask: &Ask,
    results: &mut Results,
) {
    let (Ok(geometry), Ok(at_cut)) = (form.geometry, &load.resultants) else { return };
    let (joint, case) = (form.subject.name, load.case.name);
    if let Ok(cells) = line_load(geometry, at_cut) {
        results.put_field(&names::LINE_LOAD_FIELD, joint, case, cells);
    }
    if let Ok(Data::Given(values)) = data
        && let Ok(cells) = shear(form, geometry, at_cut, values, ask)
    {
        results.put_field(&names::SHEAR_FIELD, joint, case, cells);
    }
}

/// What the bond carries across one cell of a stretch, over the whole overlap of one side.
struct Band {
    face: usize,
    s_mm: [f64; 2],
    /// +1 beyond the cut, −1 before it.
    side: f64,
    axial_n_mm: f64,
    flow_n_mm: f64,
}

fn bands(geometry: &Geometry, at_cut: &Resultants) -> Known<Vec<Band>> {
    let stretches = geometry.stretches();
    let mut bands = Vec::new();
    for offset_mm in geometry.middles_mm() {
        let sharing =
            share(&stretches, &moved_along(at_cut, offset_mm)).map_err(|failure| failed(&failure))?;
        for (index, flat) in geometry.flats.iter().enumerate() {
            let face = FACES.iter().position(|(face, ..)| *face == flat.face).unwrap_or(0);
            for cell in 0..ACROSS {
                let at = |edge: u32| f64::from(edge) / f64::from(ACROSS);
                let middle = f64::midpoint(at(cell), at(cell + 1));
                let Some(line) = sharing.at(index, middle) else { continue };
                let s = |share: f64| flat.from_mm + share * (flat.to_mm - flat.from_mm);
                bands.push(Band {
                    face,
                    s_mm: [s(at(cell)), s(at(cell + 1))],
                    side: offset_mm.signum(),
                    axial_n_mm: line.axial_n_mm,
                    flow_n_mm: line.flow_n_mm,
                });
            }
        }
    }
    Ok(bands)
}

/// Where a stretch of an overlap lies on the sheet, from its distances to the cut face.
fn along(geometry: &Geometry, side: f64, from_cut_mm: [f64; 2]) -> [f64; 2] {
    let x = from_cut_mm.map(|from| side * (geometry.half_gap_mm + from));
    [x[0].min(x[1]), x[0].max(x[1])]
}

fn line_load(geometry: &Geometry, at_cut: &Resultants) -> Known<Vec<Cell>> {
    let cell = |band: Band| Cell {
        face: band.face,
        patch: Patch { x_mm: along(geometry, band.side, [0.0, geometry.overlap_mm]), s_mm: band.s_mm },
        value: band.axial_n_mm.hypot(band.flow_n_mm),
    };
    Ok(bands(geometry, at_cut)?.into_iter().map(cell).collect())
}

/// The shear of a held strip is in proportion to its line loads: one strip with both of them 1 N/mm gives the shape.
fn shear(
    form: &Form<'_>,
    geometry: &Geometry,
    at_cut: &Resultants,
    values: &Values,
    ask: &Ask,
) -> Known<Vec<Cell>> {
    let mut cells = Vec::new();
    let bands = bands(geometry, at_cut)?;
    for (face, (name, ..)) in FACES.iter().enumerate() {
        let Some(flat) = geometry.flats.iter().find(|flat| flat.face == *name) else { continue };
        let unit = held_unit(form, geometry, flat, values, ask)?;
        for part in 0..ALONG {
            let at = |edge: u32| geometry.overlap_mm * f64::from(edge) / f64::from(ALONG);
            let from_cut = [at(part), at(part + 1)];
            // The strip runs from the far end to the cut.
            let middle = geometry.overlap_mm - f64::midpoint(from_cut[0], from_cut[1]);
            let (Some(axial), Some(flow)) = (
                between(&unit.x_mm, &unit.shear_mpa, middle),
                between(&unit.x_mm, &unit.antiplane_shear_mpa, middle),
            ) else {
                return Err(Lack::Failed {
                    what: "the strip has no nodes".to_owned(),
                    advice: "check the overlap".to_owned(),
                });
            };
            cells.extend(bands.iter().filter(|band| band.face == face).map(|band| Cell {
                face,
                patch: Patch { x_mm: along(geometry, band.side, from_cut), s_mm: band.s_mm },
                value: (axial * band.axial_n_mm).hypot(flow * band.flow_n_mm),
            }));
        }
    }
    Ok(cells)
}

/// A value between nodes, linear; the nodes rise.
fn between(nodes: &[f64], values: &[f64], at: f64) -> Option<f64> {
    let after = nodes.partition_point(|node| *node < at).clamp(1, nodes.len().checked_sub(1)?);
    let (x0, x1) = (*nodes.get(after - 1)?, *nodes.get(after)?);
    let (y0, y1) = (*values.get(after - 1)?, *values.get(after)?);
    Some(y0 + (y1 - y0) * (at - x0) / (x1 - x0))
}
