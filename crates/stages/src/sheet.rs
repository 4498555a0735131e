//! The sheet of each joint: its faying surfaces laid flat.

use assessment::{Beads, Known, Patch, Sheet, SheetFace, SheetHole};
use job::tables::{Face, Joint, Lap, PlateRivets, Rivets, Tables};
use job::{Entry, Job, Needed};
use quantity::Length;

use crate::faying::{self, Geometry, Ring};
use crate::{Results, beads};

/// Puts the sheets of all joints; what a joint lacks for its sheet, its findings say.
pub(crate) fn run(job: &Job, results: &mut Results) {
    for (name, joint) in job.tables.joints.iter() {
        let laid = of(name, joint, &job.tables);
        results.sheets.extend(laid.map(|sheet| with_beads(sheet, joint, &job.tables)));
    }
}

/// The sheet with the beads of adhesive on it, where the bondline is known and the patches are straight.
fn with_beads(sheet: Sheet, joint: &Joint, tables: &Tables) -> Sheet {
    if sheet.round {
        return sheet;
    }
    let day = tables.bond_day.get();
    let given = day.and_then(|day| day.squeeze_out.get().copied());
    let allowance = given.unwrap_or(process::volume::COMMON_SQUEEZE_OUT);
    let mut lines = Vec::new();
    for (index, face) in sheet.faces.iter().enumerate() {
        let Ok(bondline_mm) = faying::bondline_mm(joint, FACES.get(index).map(|(face, ..)| *face), tables)
        else {
            return sheet;
        };
        lines.extend(
            face.bonded.iter().flat_map(|patch| beads::on_patch(index, patch, bondline_mm, allowance)),
        );
    }
    Sheet { beads: Some(Beads { lines, allowance }), ..sheet }
}

fn of(name: &str, joint: &Joint, tables: &Tables) -> Known<Sheet> {
    match joint {
        Joint::Lap(lap) => of_lap(name, lap, tables),
        Joint::DoubleLap(lap) => flat(name, &lap.width, &lap.overlap, &lap.rivets, tables),
        Joint::Sleeve(sleeve) => {
            Ok(of_boxes(name, &Geometry::of_sleeve(sleeve, tables)?, &sleeve.rivets, tables))
        }
        Joint::Socket(socket) => {
            Ok(of_boxes(name, &Geometry::of_socket(socket, tables)?, &socket.rivets, tables))
        }
        Joint::Tube(tube) => {
            let around = 2.0 * std::f64::consts::PI * Ring::of(tube)?.radius_mm;
            Ok(one_face(name, "the ring, unrolled", around, tube.overlap.need()?.mm(), Vec::new()))
        }
        Joint::Disc(disc) => {
            // A disc is flat already; its sheet is the square around it.
            let diameter = disc.diameter.need()?.mm();
            let square = one_face(name, "the square around the disc", diameter, diameter, Vec::new());
            Ok(Sheet { round: true, along: "across the disc from its left edge", ..square })
        }
    }
}

fn of_lap(name: &str, lap: &Lap, tables: &Tables) -> Known<Sheet> {
    flat(name, &lap.width, &lap.overlap, &lap.rivets, tables)
}

fn flat(
    name: &str,
    width: &Entry<Length>,
    overlap: &Entry<Length>,
    rivets: &Entry<PlateRivets>,
    tables: &Tables,
) -> Known<Sheet> {
    let (width, overlap) = (width.need(), overlap.need()).need_all()?;
    let holes = rivets.get().and_then(|rivets| plate_holes(rivets, width.mm(), tables)).unwrap_or_default();
    Ok(one_face(name, "the overlap", width.mm(), overlap.mm(), holes))
}

fn one_face(joint: &str, name: &'static str, width_mm: f64, overlap_mm: f64, holes: Vec<SheetHole>) -> Sheet {
    let bonded = Patch { x_mm: [0.0, overlap_mm], s_mm: [-width_mm / 2.0, width_mm / 2.0] };
    Sheet {
        joint: joint.to_owned(),
        along: "along the overlap from its left end",
        x_mm: [0.0, overlap_mm],
        half_gap_mm: None,
        round: false,
        faces: vec![SheetFace { name, width_mm, up: 1.0, bonded: vec![bonded], holes }],
        beads: None,
    }
}

/// The holes of rows across a plate, evenly spaced, half a pitch from the edges.
fn plate_holes(rivets: &PlateRivets, width_mm: f64, tables: &Tables) -> Option<Vec<SheetHole>> {
    let diameter_mm = tables.rivets.get(rivets.kind.get()?)?.hole.get()?.mm();
    let per_row = *rivets.per_row.get()?;
    let pitch = width_mm / f64::from(per_row);
    let places = rivets.rows.get()?.iter().flat_map(|row| {
        (0..per_row).map(move |index| (row.mm(), -width_mm / 2.0 + pitch * (f64::from(index) + 0.5)))
    });
    Some(
        (1..)
            .zip(places)
            .map(|(number, (x_mm, s_mm))| SheetHole { number, x_mm, s_mm, diameter_mm })
            .collect(),
    )
}

/// The faces of a box as they follow around it from the top of the sheet to its bottom, seen from outside with the
/// member running to the right: its left is the side of positive y. And which way each one's coordinate grows.
pub(crate) const FACES: [(Face, &str, f64); 4] = [
    (Face::Bottom, "bottom", -1.0),
    (Face::Left, "left", -1.0),
    (Face::Top, "top", 1.0),
    (Face::Right, "right", 1.0),
];

/// Two boxes: four faces around the section, the cut in the middle of a sleeve.
fn of_boxes(name: &str, geometry: &Geometry, rivets: &Entry<Rivets>, tables: &Tables) -> Sheet {
    let (gap, end) = (geometry.half_gap_mm, geometry.half_gap_mm + geometry.overlap_mm);
    let sides: &[f64] = if geometry.both_sides { &[-1.0, 1.0] } else { &[1.0] };
    let along = |side: f64| if side < 0.0 { [-end, -gap] } else { [gap, end] };
    let [width, height] = geometry.faying_mm();
    let holes =
        rivets.get().and_then(|rivets| box_holes(rivets, geometry, sides, tables)).unwrap_or_default();
    let faces = FACES.map(|(face, name, up)| {
        let flats = geometry.flats.iter().filter(|flat| flat.face == face);
        let bonded = flats.flat_map(|flat| {
            sides.iter().map(|side| Patch { x_mm: along(*side), s_mm: [flat.from_mm, flat.to_mm] })
        });
        let across_z = matches!(face, Face::Top | Face::Bottom);
        SheetFace {
            name,
            width_mm: if across_z { width } else { height },
            up,
            bonded: bonded.collect(),
            holes: holes.iter().filter(|(of, _)| *of == face).map(|(_, hole)| *hole).collect(),
        }
    });
    Sheet {
        joint: name.to_owned(),
        along: if geometry.both_sides {
            "along the member from the middle of the cut"
        } else {
            "along the overlap from its open end"
        },
        x_mm: if geometry.both_sides { [-end, end] } else { [gap, end] },
        half_gap_mm: geometry.both_sides.then_some(gap),
        round: false,
        faces: faces.to_vec(),
        beads: None,
    }
}

/// The holes of a box, numbered face by face.
fn box_holes(
    rivets: &Rivets,
    geometry: &Geometry,
    sides: &[f64],
    tables: &Tables,
) -> Option<Vec<(Face, SheetHole)>> {
    let diameter_mm = tables.rivets.get(rivets.kind.get()?)?.hole.get()?.mm();
    let (rows, on) = (rivets.rows.get()?, rivets.on.get()?);
    let mut holes = Vec::new();
    let mut number = 0;
    for (face, ..) in FACES {
        let places = match face {
            Face::Top | Face::Bottom => &on.width_faces,
            Face::Left | Face::Right => &on.height_faces,
        };
        for side in sides {
            for row in rows {
                for place in places.get().map_or(&[][..], Vec::as_slice) {
                    number += 1;
                    let x_mm = side * (geometry.half_gap_mm + row.mm());
                    holes.push((face, SheetHole { number, x_mm, s_mm: place.mm(), diameter_mm }));
                }
            }
        }
    }
    Some(holes)
}
