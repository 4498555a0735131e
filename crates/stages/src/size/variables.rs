//! The sizes that may change: what they are called in the job file, how far they go, and the edits that set them.

use job::tables::{Joint, Section, Sleeve, Tables};
use job::{Edit, Entry, Job};
use quantity::{Kind, Length};

/// A fit of rivets closer than this many diameters is no pattern but a perforation.
const LEAST_PITCH: f64 = 3.0;
/// Rows that are tried where nothing else is said.
const ROWS_MOST: u32 = 4;
/// Steps of the bondline, mm.
const BONDLINE_STEP_MM: f64 = 0.05;
/// The thickest bondline that is tried where nothing else is said, mm.
const BONDLINE_MOST_MM: f64 = 1.0;
/// Steps of the insert's wall, mm.
const WALL_STEP_MM: f64 = 0.5;
/// The thinnest insert wall that is tried, mm.
const WALL_LEAST_MM: f64 = 1.0;
/// By how much an insert's wall may grow where nothing else is said, mm.
const WALL_MORE_MM: f64 = 2.0;
/// The least inner corner radius that a wall is thickened to, mm: a sharp corner would also be sharp outside.
const RADIUS_LEAST_MM: f64 = 0.5;
/// How far the overlap is searched where nothing else is said: shares of the planned one.
const OVERLAP_SHARES: [f64; 2] = [0.25, 3.0];

/// How far each size may go; what is not said has a sensible end.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bounds {
    /// The shortest overlap, mm; else a quarter of the planned one.
    pub overlap_least_mm: Option<f64>,
    /// The longest overlap, mm; else three times the planned one. Ribs and the ends of the member end it anyway.
    pub overlap_most_mm: Option<f64>,
    /// Most rows of rivets on each side; else 4.
    pub rows_most: Option<u32>,
    /// The thickest bondline, mm; else 1 mm.
    pub bondline_most_mm: Option<f64>,
    /// The thickest wall of the insert, mm; else 2 mm more than planned.
    pub wall_most_mm: Option<f64>,
}

/// Sizes of a joint.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Overlap, mm.
    pub overlap_mm: f64,
    /// Rows of rivets by their distance from the cut face or the left end of the overlap, mm; empty without rivets.
    pub rows_mm: Vec<f64>,
    /// Bondline, mm, where it is free.
    pub bondline_mm: Option<f64>,
    /// Wall of the insert, mm, where it is free.
    pub wall_mm: Option<f64>,
}

/// What may change in a joint, and how far.
pub(super) struct Variables {
    pub(super) planned: Candidate,
    /// Least and most overlap, whole mm.
    pub(super) overlap_mm: [u32; 2],
    /// Numbers of rows that are tried, rising.
    pub(super) rows: Vec<u32>,
    /// Bondlines that are tried, the planned one first and the others by their distance from it.
    pub(super) bondlines_mm: Vec<Option<f64>>,
    /// Walls that are tried, rising.
    pub(super) walls_mm: Vec<Option<f64>>,
    /// What ends the search for a longer overlap.
    ends_at: String,
    pitch_least_mm: f64,
    overlap_key: String,
    rows_key: String,
    bondline_key: String,
    insert: Option<Insert>,
}

/// The insert whose wall is free.
struct Insert {
    wall_key: String,
    radius_key: String,
    /// Outer corner radius, which stays, mm; `None` where corners are sharp.
    outer_radius_mm: Option<f64>,
}

impl Variables {
    pub(super) fn of(job: &Job, joint: &Joint, bounds: &Bounds) -> Result<Self, String> {
        let tables = &job.tables;
        let overlap = match joint {
            Joint::Lap(lap) => &lap.overlap,
            Joint::DoubleLap(lap) => &lap.overlap,
            Joint::Socket(socket) => &socket.overlap,
            Joint::Sleeve(sleeve) => &sleeve.overlap,
            Joint::Tube(tube) => &tube.overlap,
            Joint::Disc(_) => return Err("a disc has no overlap to size".to_owned()),
        };
        let Some(planned_mm) = overlap.get().map(|overlap| overlap.mm()) else {
            return Err(format!("{} is not given; fill in a first guess", overlap.key));
        };
        let (rows, rows_key, pitch_least_mm) = rows(joint, tables);
        let insert = match joint {
            Joint::Sleeve(sleeve) => insert(sleeve, tables),
            _ => None,
        };
        let (bondline, bondline_key) = bondline(joint, tables);
        let (overlap_range, ends_at) = overlaps(joint, tables, planned_mm, bounds)?;
        let walls = insert.as_ref().map(|(wall_mm, insert)| walls(*wall_mm, insert, bounds));
        let most_rows = bounds.rows_most.unwrap_or(ROWS_MOST);
        if most_rows == 0 {
            return Err("at least one row of rivets is needed where there are rivets".to_owned());
        }
        Ok(Self {
            planned: Candidate {
                overlap_mm: planned_mm,
                rows_mm: rows.clone(),
                bondline_mm: bondline.map(|(planned, _)| planned),
                wall_mm: insert.as_ref().map(|(wall, _)| *wall),
            },
            overlap_mm: overlap_range,
            rows: if rows.is_empty() { vec![0] } else { (1..=most_rows).collect() },
            bondlines_mm: bondline
                .map_or_else(|| vec![None], |(planned, beads)| bondlines(planned, beads, bounds)),
            walls_mm: walls.map_or_else(|| vec![None], |walls| walls.into_iter().map(Some).collect()),
            ends_at,
            pitch_least_mm,
            overlap_key: overlap.key.clone(),
            rows_key,
            bondline_key,
            insert: insert.map(|(_, insert)| insert),
        })
    }

    /// Whether the insert's wall is free.
    pub(super) fn has_insert(&self) -> bool {
        self.insert.is_some()
    }

    /// A number of rows in an overlap: as planned where they fit, else the first stays, the last mirrors it, the others
    /// lie evenly between in tenths of a millimetre. `None` where they do not fit.
    pub(super) fn rows_at(&self, count: u32, overlap_mm: f64) -> Option<Vec<f64>> {
        if count == 0 {
            return Some(Vec::new());
        }
        let first = self.planned.rows_mm.iter().copied().reduce(f64::min)?;
        let last = overlap_mm - first;
        let planned_last = self.planned.rows_mm.iter().copied().fold(first, f64::max);
        if usize::try_from(count) == Ok(self.planned.rows_mm.len()) && planned_last <= last {
            return Some(self.planned.rows_mm.clone());
        }
        if count == 1 {
            return (first <= last).then(|| vec![first]);
        }
        let pitch = ((last - first) / f64::from(count - 1) * 10.0).floor() / 10.0;
        (pitch >= self.pitch_least_mm)
            .then(|| (0..count).map(|index| tenths(first + pitch * f64::from(index))).collect())
    }

    /// The edits that set a candidate's sizes; what is as planned is left alone.
    pub(super) fn edits(&self, candidate: &Candidate) -> Vec<Edit> {
        let planned = &self.planned;
        let length = |mm: f64| format!("\"{}\"", quantity::print_exact(mm, Kind::Length));
        let mut edits = Vec::new();
        let mut set = |key: &str, value: String| edits.push(Edit { key: key.to_owned(), value });
        if !same(candidate.overlap_mm, planned.overlap_mm) {
            set(&self.overlap_key, length(candidate.overlap_mm));
        }
        if candidate.rows_mm != planned.rows_mm {
            let rows: Vec<String> = candidate.rows_mm.iter().map(|row| length(*row)).collect();
            set(&self.rows_key, format!("[{}]", rows.join(", ")));
        }
        if let Some(bondline) = candidate.bondline_mm.filter(|_| candidate.bondline_mm != planned.bondline_mm)
        {
            set(&self.bondline_key, length(bondline));
        }
        if let (Some(insert), Some(wall)) = (&self.insert, candidate.wall_mm)
            && candidate.wall_mm != planned.wall_mm
        {
            set(&insert.wall_key, length(wall));
            if let Some(radius) = insert.outer_radius_mm {
                set(&insert.radius_key, length(hundredths(radius - wall)));
            }
        }
        edits
    }

    /// How far the overlap is searched, in words.
    pub(super) fn range(&self) -> String {
        let [least, most] = self.overlap_mm;
        format!("overlaps from {least} mm to {most} mm, {}", self.ends_at)
    }
}

/// Whether two sizes are one, mm: no step is as small as this.
pub(super) fn same(one_mm: f64, other_mm: f64) -> bool {
    (one_mm - other_mm).abs() < 1e-6
}

/// To a tenth of a millimetre.
fn tenths(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// To a hundredth of a millimetre.
fn hundredths(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}

/// Planned rows, the key that sets them, and their least pitch.
fn rows(joint: &Joint, tables: &Tables) -> (Vec<f64>, String, f64) {
    let of = |kind: &Entry<String>, rows: &Entry<Vec<Length>>| {
        let mut places: Vec<f64> =
            rows.get().map_or(&[][..], Vec::as_slice).iter().map(|row| row.mm()).collect();
        places.sort_by(f64::total_cmp);
        let rivet = tables.rivets.referred(kind).ok();
        let diameter = rivet.and_then(|rivet| rivet.diameter.get()).map_or(0.0, |diameter| diameter.mm());
        (places, rows.key.clone(), LEAST_PITCH * diameter)
    };
    let of_section = |rivets: &Entry<job::tables::Rivets>| rivets.get().map(|it| of(&it.kind, &it.rows));
    let of_plates = |rivets: &Entry<job::tables::PlateRivets>| rivets.get().map(|it| of(&it.kind, &it.rows));
    let found = match joint {
        Joint::Lap(lap) => of_plates(&lap.rivets),
        Joint::DoubleLap(lap) => of_plates(&lap.rivets),
        Joint::Socket(socket) => of_section(&socket.rivets),
        Joint::Sleeve(sleeve) => of_section(&sleeve.rivets),
        Joint::Tube(_) | Joint::Disc(_) => None,
    };
    found.unwrap_or_default()
}

/// Planned bondline and the beads' size, mm, where the bondline is free; and its key.
fn bondline(joint: &Joint, tables: &Tables) -> (Option<(f64, f64)>, String) {
    let (entry, adhesive) = match joint {
        Joint::Lap(lap) => (&lap.bondline, &lap.adhesive),
        Joint::DoubleLap(lap) => (&lap.bondline, &lap.adhesive),
        _ => return (None, String::new()),
    };
    let beads = tables.adhesives.referred(adhesive).ok().and_then(|it| it.standoff_beads.get());
    // Without beads nothing sets a least bondline, and none is tried but the planned one.
    let both = beads.map(|beads| (entry.get().map_or(beads.mm(), |it| it.mm()), beads.mm()));
    (both, entry.key.clone())
}

fn bondlines(planned: f64, beads: f64, bounds: &Bounds) -> Vec<Option<f64>> {
    let most = bounds.bondline_most_mm.unwrap_or(BONDLINE_MOST_MM);
    let mut all = vec![planned];
    let steps = (0_u32..).map(|step| hundredths(beads + BONDLINE_STEP_MM * f64::from(step)));
    all.extend(steps.take_while(|mm| *mm <= most).filter(|mm| *mm >= beads && !same(*mm, planned)));
    all.sort_by(|a, b| (a - planned).abs().total_cmp(&(b - planned).abs()));
    all.into_iter().map(Some).collect()
}

/// The insert's wall (mm) where it is free: a box that nothing else in the job is made of.
fn insert(sleeve: &Sleeve, tables: &Tables) -> Option<(f64, Insert)> {
    let part = sleeve.insert.get()?;
    let name = part.section.get()?;
    let section: &Section = tables.sections.get(name)?;
    let hollow = section.hollow.get()?;
    let used_by_member = tables.members.iter().any(|(_, member)| member.section.get() == Some(name));
    let parts = |joint: &'_ Joint| -> usize {
        let parts = match joint {
            Joint::Sleeve(sleeve) => [&sleeve.outside, &sleeve.insert],
            Joint::Socket(socket) => [&socket.outside, &socket.inside],
            _ => return 0,
        };
        parts.into_iter().filter(|part| part.get().is_some_and(|it| it.section.get() == Some(name))).count()
    };
    let used: usize = tables.joints.iter().map(|(_, joint)| parts(joint)).sum();
    // An insert around the member keeps its outside size too; its wall then sets the bondline, and is not free.
    if used_by_member || used != 1 || sleeve.side.get() == Some(&job::tables::Side::Outside) {
        return None;
    }
    let wall_mm = hollow.wall.get()?.mm();
    let radius = hollow.inner_radius.get().map(|radius| radius.mm()).filter(|radius| *radius > 0.0);
    let insert = Insert {
        wall_key: hollow.wall.key.clone(),
        radius_key: hollow.inner_radius.key.clone(),
        outer_radius_mm: radius.map(|radius| radius + wall_mm),
    };
    Some((wall_mm, insert))
}

fn walls(planned: f64, insert: &Insert, bounds: &Bounds) -> Vec<f64> {
    let room = insert.outer_radius_mm.map_or(f64::INFINITY, |radius| radius - RADIUS_LEAST_MM);
    let most = bounds.wall_most_mm.unwrap_or(planned + WALL_MORE_MM).min(room);
    let steps = (0_u32..).map(|step| WALL_LEAST_MM + WALL_STEP_MM * f64::from(step));
    let mut all: Vec<f64> = steps.take_while(|mm| *mm <= most).filter(|mm| !same(*mm, planned)).collect();
    if planned <= most || all.is_empty() {
        all.push(planned);
    }
    all.sort_by(f64::total_cmp);
    all
}

/// The overlaps that are searched, whole mm, and what ends the search.
fn overlaps(
    joint: &Joint,
    tables: &Tables,
    planned_mm: f64,
    bounds: &Bounds,
) -> Result<([u32; 2], String), String> {
    /// A search beyond this is for no joint that is made by hand, mm.
    const LONGEST_MM: f64 = 10_000.0;
    let whole = |mm: f64| -> u32 {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held between 1 and 10 000"
        )]
        let whole = mm.clamp(1.0, LONGEST_MM) as u32;
        whole
    };
    let least = whole(bounds.overlap_least_mm.unwrap_or(OVERLAP_SHARES[0] * planned_mm).ceil());
    let (mut most_mm, mut ends_at) = match bounds.overlap_most_mm {
        Some(most) => (most, "as bounded".to_owned()),
        None => (OVERLAP_SHARES[1] * planned_mm, "three times the planned one".to_owned()),
    };
    if let Joint::Sleeve(sleeve) = joint {
        for (room_mm, word) in rooms(sleeve, tables) {
            if room_mm < most_mm {
                (most_mm, ends_at) = (room_mm, format!("as far as {word} allows"));
            }
        }
    }
    let most = whole(most_mm.floor());
    if most < least || most_mm < 1.0 {
        return Err(format!("no overlap is left to try between {least} mm and {most_mm} mm, {ends_at}"));
    }
    Ok(([least, most], ends_at))
}

/// The longest overlaps that ribs and the ends of the member leave, mm, and what they are called.
fn rooms(sleeve: &Sleeve, tables: &Tables) -> Vec<(f64, String)> {
    let member = sleeve.member.get().and_then(|name| tables.members.get(name));
    let (Some(member), Some(station)) = (member, sleeve.station.get().map(|station| station.mm())) else {
        return Vec::new();
    };
    let half_gap = sleeve.cut_gap.get().map_or(0.0, |gap| gap.mm()) / 2.0;
    let ribs = member.ribs.iter().filter_map(|(name, rib)| {
        Some(((rib.station.get()?.mm() - station).abs() - half_gap, format!("the rib {name}")))
    });
    let mut rooms: Vec<(f64, String)> = ribs.collect();
    rooms.push((station - half_gap, "the beginning of the member".to_owned()));
    let axis = member.axis.get().and_then(|axis| Some((axis.from.get()?, axis.to.get()?)));
    if let Some((from, to)) = axis {
        let length = (0..3).map(|i| to[i].mm() - from[i].mm()).map(|it| it * it).sum::<f64>().sqrt();
        rooms.push((length - station - half_gap, "the end of the member".to_owned()));
    }
    rooms
}
