//! The faying surfaces of every form of joint: where they are, how large, and how thick the layer between.

use assessment::{Known, Lack};
use job::tables::{
    BondedStretch, Disc, Face, HollowBox, Joint, Material, Part, Section, Side, Sleeve, Socket, Tables, Tube,
};
use job::{Absent, Entry, Needed};
use mechanics::perimeter::Stretch;
use quantity::Length;

/// One box of a joint, mm.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BoxSizes {
    pub(crate) width_mm: f64,
    pub(crate) height_mm: f64,
    pub(crate) wall_mm: f64,
    inner_radius_mm: f64,
}

impl BoxSizes {
    fn of(section: &Section) -> Known<Self> {
        let hollow: &HollowBox = section.hollow.get().ok_or_else(|| Lack::OutOfData {
            what: format!("{} is no box; only boxes can be joined here so far", section.key),
            key: section.hollow.key.clone(),
        })?;
        let (width, height, wall) =
            (hollow.width.need(), hollow.height.need(), hollow.wall.need()).need_all()?;
        Ok(Self {
            width_mm: width.mm(),
            height_mm: height.mm(),
            wall_mm: wall.mm(),
            inner_radius_mm: hollow.inner_radius.get().map_or(0.0, |radius| radius.mm()),
        })
    }

    /// From the outside to where the flat begins, mm.
    pub(crate) fn corner_mm(&self) -> f64 {
        self.outer_radius_mm()
    }

    /// Outer corner radius: sharp corners are sharp on both sides.
    fn outer_radius_mm(&self) -> f64 {
        if self.inner_radius_mm > 0.0 { self.inner_radius_mm + self.wall_mm } else { 0.0 }
    }
}

/// Which part of a joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Which {
    /// The part around the other.
    Outer,
    /// The part inside.
    Inner,
}

/// A bonded stretch of a face.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Flat {
    pub(crate) face: Face,
    pub(crate) from_mm: f64,
    pub(crate) to_mm: f64,
}

/// Two boxes with the layer between them.
#[derive(Debug, Clone)]
pub(crate) struct Geometry {
    pub(crate) outer: BoxSizes,
    pub(crate) inner: BoxSizes,
    /// The part that was there before: the one that an efficiency refers to.
    pub(crate) intact: Which,
    pub(crate) overlap_mm: f64,
    /// Half the gap at the cut; zero for a socket.
    pub(crate) half_gap_mm: f64,
    /// A sleeve has an overlap on each side of the cut.
    pub(crate) both_sides: bool,
    pub(crate) flats: Vec<Flat>,
    /// Material names of the outer and the inner part.
    pub(crate) outer_material: String,
    pub(crate) inner_material: String,
    pub(crate) outer_section: String,
    pub(crate) inner_section: String,
}

struct Named<'j> {
    section: &'j Entry<String>,
    material: &'j Entry<String>,
}

impl Geometry {
    pub(crate) fn of_sleeve(sleeve: &Sleeve, tables: &Tables) -> Known<Self> {
        let member = match sleeve.member.get() {
            Some(_) => {
                let member = tables.members.referred(&sleeve.member)?;
                Named { section: &member.section, material: &member.material }
            }
            None => part(&sleeve.outside)?,
        };
        let insert = part(&sleeve.insert)?;
        let inside = sleeve.side.get() != Some(&Side::Outside);
        let (outer, inner) = if inside { (member, insert) } else { (insert, member) };
        let gap = sleeve.cut_gap.get().map_or(0.0, |gap| gap.mm());
        let intact = if inside { Which::Outer } else { Which::Inner };
        Self::of(&outer, &inner, intact, &sleeve.overlap, gap / 2.0, true, &sleeve.bonds, tables)
    }

    pub(crate) fn of_socket(socket: &Socket, tables: &Tables) -> Known<Self> {
        let outer = match (socket.outside.get(), socket.member.get()) {
            (None, Some(_)) => {
                let member = tables.members.referred(&socket.member)?;
                Named { section: &member.section, material: &member.material }
            }
            _ => part(&socket.outside)?,
        };
        let inner = part(&socket.inside)?;
        Self::of(&outer, &inner, Which::Outer, &socket.overlap, 0.0, false, &socket.bonds, tables)
    }

    #[expect(clippy::too_many_arguments, reason = "one call for each of the two forms, nothing to bundle")]
    fn of(
        outer: &Named<'_>,
        inner: &Named<'_>,
        intact: Which,
        overlap: &Entry<Length>,
        half_gap_mm: f64,
        both_sides: bool,
        bonds: &Entry<Vec<BondedStretch>>,
        tables: &Tables,
    ) -> Known<Self> {
        let (first, second, overlap, outer_material, inner_material) = (
            tables.sections.referred(outer.section),
            tables.sections.referred(inner.section),
            overlap.need(),
            outer.material.need(),
            inner.material.need(),
        )
            .need_all()?;
        let mut geometry = Self {
            outer: BoxSizes::of(first)?,
            inner: BoxSizes::of(second)?,
            intact,
            overlap_mm: overlap.mm(),
            half_gap_mm,
            both_sides,
            flats: Vec::new(),
            outer_material: outer_material.clone(),
            inner_material: inner_material.clone(),
            outer_section: outer.section.get().cloned().unwrap_or_default(),
            inner_section: inner.section.get().cloned().unwrap_or_default(),
        };
        geometry.flats = geometry.bonded(bonds.get().map(Vec::as_slice))?;
        Ok(geometry)
    }

    /// Half the flat of a face that both parts have, mm.
    fn half_flat_mm(&self, face: Face) -> f64 {
        let of = |outer: f64, inner: f64| {
            let outside = outer - 2.0 * self.outer.wall_mm - 2.0 * self.outer.inner_radius_mm;
            let inside = inner - 2.0 * self.inner.outer_radius_mm();
            outside.min(inside) / 2.0
        };
        match face {
            Face::Top | Face::Bottom => of(self.outer.width_mm, self.inner.width_mm),
            Face::Left | Face::Right => of(self.outer.height_mm, self.inner.height_mm),
        }
    }

    /// The stretches that are bonded: those given, or all flats with the corners open.
    fn bonded(&self, given: Option<&[BondedStretch]>) -> Known<Vec<Flat>> {
        let whole = |face| {
            let half = self.half_flat_mm(face);
            Flat { face, from_mm: -half, to_mm: half }
        };
        let flats = match given {
            None => [Face::Top, Face::Right, Face::Bottom, Face::Left].map(whole).to_vec(),
            Some(given) => given
                .iter()
                .map(|stretch| {
                    let face = *stretch.face.need()?;
                    let whole = whole(face);
                    // A stretch never reaches beyond its flat: in the corner there is no flat to bond.
                    let end = |entry: &Entry<Length>, own: f64| {
                        entry.get().map_or(own, |end| end.mm().clamp(whole.from_mm, whole.to_mm))
                    };
                    Ok(Flat {
                        face,
                        from_mm: end(&stretch.from, whole.from_mm),
                        to_mm: end(&stretch.to, whole.to_mm),
                    })
                })
                .collect::<Result<Vec<Flat>, job::Absent>>()?,
        };
        Ok(flats.into_iter().filter(|flat| flat.to_mm > flat.from_mm).collect())
    }

    /// Bondline on a face, mm: what the two boxes leave.
    pub(crate) fn bondline_mm(&self, face: Face) -> f64 {
        let gap = |outer: f64, inner: f64| (outer - 2.0 * self.outer.wall_mm - inner) / 2.0;
        match face {
            Face::Top | Face::Bottom => gap(self.outer.height_mm, self.inner.height_mm),
            Face::Left | Face::Right => gap(self.outer.width_mm, self.inner.width_mm),
        }
    }

    /// The thickest bondline of a bonded face, mm: with a table by bondline it has the least strength.
    pub(crate) fn governing_bondline_mm(&self) -> f64 {
        self.flats.iter().map(|flat| self.bondline_mm(flat.face)).fold(0.0, f64::max)
    }

    /// Distance of the middle of the layer from the middle of the box, mm.
    fn reach_mm(&self, face: Face) -> f64 {
        let half = |inner: f64| inner / 2.0 + self.bondline_mm(face) / 2.0;
        match face {
            Face::Top | Face::Bottom => half(self.inner.height_mm),
            Face::Left | Face::Right => half(self.inner.width_mm),
        }
    }

    /// The bonded perimeter; stiffness in proportion to 1/h.
    pub(crate) fn stretches(&self) -> Vec<Stretch> {
        self.flats
            .iter()
            .map(|flat| {
                let reach = self.reach_mm(flat.face);
                let at = |s: f64| match flat.face {
                    Face::Top => [s, reach],
                    Face::Bottom => [s, -reach],
                    Face::Left => [reach, s],
                    Face::Right => [-reach, s],
                };
                Stretch {
                    from_mm: at(flat.from_mm),
                    to_mm: at(flat.to_mm),
                    stiffness: 1.0 / self.bondline_mm(flat.face),
                }
            })
            .collect()
    }

    /// Bonded area of one side, mm².
    pub(crate) fn bonded_area_mm2(&self) -> f64 {
        self.flats.iter().map(|flat| flat.to_mm - flat.from_mm).sum::<f64>() * self.overlap_mm
    }

    /// Distances of the middles of the overlaps from the cut, along the member, mm.
    pub(crate) fn middles_mm(&self) -> Vec<f64> {
        let middle = self.half_gap_mm + self.overlap_mm / 2.0;
        if self.both_sides { vec![-middle, middle] } else { vec![middle] }
    }

    /// Width and height of the faying surface, mm.
    pub(crate) fn faying_mm(&self) -> [f64; 2] {
        [2.0 * self.reach_mm(Face::Left), 2.0 * self.reach_mm(Face::Top)]
    }

    /// Wall thicknesses of the outer and the inner part, mm.
    pub(crate) fn walls_mm(&self) -> [f64; 2] {
        [self.outer.wall_mm, self.inner.wall_mm]
    }

    /// Areas and bondlines of the bonded flats, both sides of the cut together.
    fn areas(&self) -> Vec<BondedArea> {
        let sides = if self.both_sides { 2.0 } else { 1.0 };
        let area = |flat: &Flat| BondedArea {
            area_mm2: sides * (flat.to_mm - flat.from_mm) * self.overlap_mm,
            bondline_mm: self.bondline_mm(flat.face),
        };
        self.flats.iter().map(area).collect()
    }

    /// The material of a part.
    pub(crate) fn material<'j>(&self, which: Which, tables: &'j Tables) -> Known<&'j Material> {
        let name = match which {
            Which::Outer => &self.outer_material,
            Which::Inner => &self.inner_material,
        };
        let absent = || Lack::Missing { keys: vec![format!("materials.{name}")] };
        tables.materials.get(name).ok_or_else(absent)
    }

    /// The section of a part.
    pub(crate) fn section<'j>(&self, which: Which, tables: &'j Tables) -> Known<&'j Section> {
        let name = match which {
            Which::Outer => &self.outer_section,
            Which::Inner => &self.inner_section,
        };
        let absent = || Lack::Missing { keys: vec![format!("sections.{name}")] };
        tables.sections.get(name).ok_or_else(absent)
    }
}

fn part(entry: &Entry<Part>) -> Result<Named<'_>, job::Absent> {
    let part = entry.need()?;
    Ok(Named { section: &part.section, material: &part.material })
}

/// A bonded area and the thickness of its layer.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BondedArea {
    pub(crate) area_mm2: f64,
    pub(crate) bondline_mm: f64,
}

/// Every bonded area of a joint.
pub(crate) fn areas(joint: &Joint, tables: &Tables) -> Known<Vec<BondedArea>> {
    let flat = |width: &Entry<Length>, overlap: &Entry<Length>, bondline, adhesive| -> Known<BondedArea> {
        let (width, overlap) = (width.need(), overlap.need()).need_all()?;
        let bondline_mm = given_bondline_mm(bondline, adhesive, tables)?;
        Ok(BondedArea { area_mm2: width.mm() * overlap.mm(), bondline_mm })
    };
    match joint {
        Joint::Lap(lap) => Ok(vec![flat(&lap.width, &lap.overlap, &lap.bondline, &lap.adhesive)?]),
        Joint::DoubleLap(lap) => Ok(vec![flat(&lap.width, &lap.overlap, &lap.bondline, &lap.adhesive)?; 2]),
        Joint::Tube(tube) => {
            let ring = Ring::of(tube)?;
            let area_mm2 = 2.0 * std::f64::consts::PI * ring.radius_mm * tube.overlap.need()?.mm();
            Ok(vec![BondedArea { area_mm2, bondline_mm: ring.bondline_mm }])
        }
        Joint::Disc(disc) => {
            let bondline_mm = given_bondline_mm(&disc.bondline, &disc.adhesive, tables)?;
            Ok(vec![BondedArea { area_mm2: disc_area_mm2(disc)?, bondline_mm }])
        }
        Joint::Socket(socket) => Ok(Geometry::of_socket(socket, tables)?.areas()),
        Joint::Sleeve(sleeve) => Ok(Geometry::of_sleeve(sleeve, tables)?.areas()),
    }
}

/// The bondline of a joint, mm: on one face where it is a box.
pub(crate) fn bondline_mm(joint: &Joint, face: Option<Face>, tables: &Tables) -> Known<f64> {
    let of_box = |geometry: &Geometry| {
        face.map_or_else(|| geometry.governing_bondline_mm(), |face| geometry.bondline_mm(face))
    };
    match joint {
        Joint::Lap(lap) => given_bondline_mm(&lap.bondline, &lap.adhesive, tables),
        Joint::DoubleLap(lap) => given_bondline_mm(&lap.bondline, &lap.adhesive, tables),
        Joint::Disc(disc) => given_bondline_mm(&disc.bondline, &disc.adhesive, tables),
        Joint::Tube(tube) => Ok(Ring::of(tube)?.bondline_mm),
        Joint::Socket(socket) => {
            Geometry::of_socket(socket, tables).as_ref().map(of_box).map_err(Lack::clone)
        }
        Joint::Sleeve(sleeve) => {
            Geometry::of_sleeve(sleeve, tables).as_ref().map(of_box).map_err(Lack::clone)
        }
    }
}

/// The bondline of flat parts, mm: as given, or else the standoff beads.
pub(crate) fn given_bondline_mm(
    bondline: &Entry<Length>,
    adhesive: &Entry<String>,
    tables: &Tables,
) -> Known<f64> {
    if let Some(bondline) = bondline.get() {
        return Ok(bondline.mm());
    }
    let adhesive = tables.adhesives.referred(adhesive)?;
    let beads = adhesive.standoff_beads.get().map(|beads| beads.mm());
    beads.ok_or_else(|| Lack::Missing {
        keys: vec![bondline.key.clone(), adhesive.standoff_beads.key.clone()],
    })
}

/// The ring of adhesive between two tubes.
pub(crate) struct Ring {
    pub(crate) radius_mm: f64,
    pub(crate) bondline_mm: f64,
}

impl Ring {
    pub(crate) fn of(tube: &Tube) -> Result<Self, Absent> {
        let (inner, outer) = (tube.inner.need(), tube.outer.need()).need_all()?;
        let (inside, outside, wall) =
            (inner.outside_diameter.need(), outer.outside_diameter.need(), outer.wall.need()).need_all()?;
        let (from, to) = (inside.mm() / 2.0, outside.mm() / 2.0 - wall.mm());
        Ok(Self { radius_mm: f64::midpoint(from, to), bondline_mm: to - from })
    }
}

/// Bonded area of a disc, mm².
pub(crate) fn disc_area_mm2(disc: &Disc) -> Result<f64, Absent> {
    let diameter = disc.diameter.need()?.mm();
    let hole = disc.hole.get().map_or(0.0, |hole| hole.mm());
    Ok(std::f64::consts::FRAC_PI_4 * (diameter * diameter - hole * hole))
}
