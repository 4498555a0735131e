//! Named shapes by their outside sizes.
//!
//! The origin is the centre of the outside rectangle, y to the right, z up. Each shape draws centrelines
//! at half thickness; arcs become chords.

use super::Section;
use super::wall::{Form, Isotropic, Point, Wall};
use crate::failure::{self, Failure};

/// Chords for a quarter of a circle: the area is off by less than 1e-4 of the arc's, and less still of
/// a section's.
const CHORDS_PER_QUARTER: u32 = 24;

/// A hollow box, width along y, height along z.
///
/// ```text
///          z
///     ┌────┼────┐      walls counterclockwise: right (up), top (to −y),
///     │    │    │      left (down), bottom (to +y)
///     │    └────┼─ y
///     │         │
///     └─────────┘
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HollowBox {
    /// Outside width, mm.
    pub width_mm: f64,
    /// Outside height, mm.
    pub height_mm: f64,
    /// Thickness of all walls, mm.
    pub wall_mm: f64,
    /// Inner corner radius, mm; the outer one is greater by the wall. Zero: sharp corners, inside and out.
    pub inner_radius_mm: f64,
}

/// A channel: web along z on the left, flanges to the right.
///
/// ```text
///     ┌──────
///     │   z
///     │   └ y
///     └──────
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Channel {
    /// Outside height of the web, mm.
    pub web_mm: f64,
    /// Outside width of the flanges, mm, the web's thickness included.
    pub flange_mm: f64,
    /// Thickness of all walls, mm.
    pub wall_mm: f64,
}

/// A hat, closed by a plate under its flanges or open.
///
/// ```text
///         ┌───────┐          top: outside width over the webs
///         │   z   │
///         │   └ y │          height: of the hat itself, the plate comes to it
///    ─────┘       └─────     flange: from the web's outer face to its tip
///    ═══════════════════     plate as wide as the hat
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hat {
    /// Outside width over the webs, mm.
    pub top_mm: f64,
    /// Outside height of the hat without the plate, mm.
    pub height_mm: f64,
    /// Width of each flange beyond the web's outer face, mm.
    pub flange_mm: f64,
    /// Thickness of the hat's walls, mm.
    pub wall_mm: f64,
    /// Thickness of the plate, mm; zero: none. Flange and plate count as one wall.
    pub plate_mm: f64,
}

/// A flat plate, width along y, thickness along z.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// Width, mm.
    pub width_mm: f64,
    /// Thickness, mm.
    pub thickness_mm: f64,
}

/// A round tube; its walls start at +y and run counterclockwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    /// Outside diameter, mm.
    pub outside_diameter_mm: f64,
    /// Thickness, mm.
    pub wall_mm: f64,
}

/// Collects nodes and the walls between them.
struct Outline {
    material: Isotropic,
    nodes: Vec<Point>,
    walls: Vec<Wall>,
}

impl Outline {
    fn new(material: Isotropic) -> Self {
        Self { material, nodes: Vec::new(), walls: Vec::new() }
    }

    fn node(&mut self, y: f64, z: f64) -> usize {
        self.nodes.push([y, z]);
        self.nodes.len() - 1
    }

    fn wall(&mut self, from: usize, to: usize, thickness_mm: f64, form: Form) {
        self.walls.push(Wall { from, to, thickness_mm, material: self.material, form });
    }

    fn section(self) -> Result<Section, Failure> {
        Section::new(self.nodes, self.walls, self.material)
    }
}

impl HollowBox {
    /// The section of one material.
    ///
    /// Its first four walls are the flats: right, top, left, bottom; the corners follow.
    ///
    /// # Errors
    ///
    /// [`Failure::NotPositive`], [`Failure::Negative`], [`Failure::OutOfRange`] where walls or corners
    /// leave no flat; those of [`Section::new`].
    pub fn section(&self, material: Isotropic) -> Result<Section, Failure> {
        self.check()?;
        let t = self.wall_mm;
        let (y, z) = ((self.width_mm - t) / 2.0, (self.height_mm - t) / 2.0);
        let mut outline = Outline::new(material);
        if self.inner_radius_mm <= 0.0 {
            let corners = [[y, -z], [y, z], [-y, z], [-y, -z]].map(|[a, b]| outline.node(a, b));
            for (k, &from) in corners.iter().enumerate() {
                outline.wall(from, corners[(k + 1) % 4], t, Form::Flat);
            }
            return outline.section();
        }
        let r = self.inner_radius_mm + t / 2.0;
        let (flat_y, flat_z) = (y - r, z - r);
        let starts =
            [[y, -flat_z], [flat_y, z], [-y, flat_z], [-flat_y, -z]].map(|[a, b]| outline.node(a, b));
        let ends = [[y, flat_z], [-flat_y, z], [-y, -flat_z], [flat_y, -z]].map(|[a, b]| outline.node(a, b));
        for (&from, &to) in starts.iter().zip(&ends) {
            outline.wall(from, to, t, Form::Flat);
        }
        let centres = [[flat_y, flat_z], [-flat_y, flat_z], [-flat_y, -flat_z], [flat_y, -flat_z]];
        for ((k, &from), centre) in (0_u32..).zip(&ends).zip(centres) {
            let to = starts[(k as usize + 1) % 4];
            let mut last = from;
            for step in 1..CHORDS_PER_QUARTER {
                let quarters = f64::from(k) + f64::from(step) / f64::from(CHORDS_PER_QUARTER);
                let angle = quarters * std::f64::consts::FRAC_PI_2;
                let next = outline.node(centre[0] + r * libm::cos(angle), centre[1] + r * libm::sin(angle));
                outline.wall(last, next, t, Form::Arc { radius_mm: r });
                last = next;
            }
            outline.wall(last, to, t, Form::Arc { radius_mm: r });
        }
        outline.section()
    }

    pub(super) fn check(&self) -> Result<(), Failure> {
        failure::positive("box width", self.width_mm)?;
        failure::positive("box height", self.height_mm)?;
        failure::positive("box wall", self.wall_mm)?;
        let radius = failure::not_negative("inner corner radius", self.inner_radius_mm)?;
        let least = self.width_mm.min(self.height_mm);
        below("box wall", self.wall_mm, least / 2.0)?;
        below("inner corner radius", radius, least / 2.0 - self.wall_mm)
    }
}

impl Channel {
    /// The section of one material: upper flange (from its tip), web (down), lower flange.
    ///
    /// # Errors
    ///
    /// As [`HollowBox::section`].
    pub fn section(&self, material: Isotropic) -> Result<Section, Failure> {
        failure::positive("channel web", self.web_mm)?;
        failure::positive("channel flange", self.flange_mm)?;
        let t = failure::positive("channel wall", self.wall_mm)?;
        below("channel wall", t, (self.web_mm / 2.0).min(self.flange_mm))?;
        let (web, tip, z) = ((t - self.flange_mm) / 2.0, self.flange_mm / 2.0, (self.web_mm - t) / 2.0);
        let mut outline = Outline::new(material);
        let nodes = [[tip, z], [web, z], [web, -z], [tip, -z]].map(|[a, b]| outline.node(a, b));
        for pair in nodes.windows(2) {
            outline.wall(pair[0], pair[1], t, Form::Flat);
        }
        outline.section()
    }
}

impl Hat {
    /// The section of one material: top (to −y), left web (down), left flange, right web (down), right
    /// flange; then, with a plate, the plate (to +y) and two links.
    ///
    /// # Errors
    ///
    /// As [`HollowBox::section`].
    pub fn section(&self, material: Isotropic) -> Result<Section, Failure> {
        failure::positive("hat top", self.top_mm)?;
        failure::positive("hat height", self.height_mm)?;
        failure::positive("hat flange", self.flange_mm)?;
        let t = failure::positive("hat wall", self.wall_mm)?;
        let plate = failure::not_negative("hat plate", self.plate_mm)?;
        below("hat wall", t, (self.top_mm / 2.0).min(self.height_mm / 2.0))?;
        let (low, half) = (-(self.height_mm + plate) / 2.0, self.top_mm / 2.0);
        let rim = t + plate;
        let (web, tip) = (half - t / 2.0, half + self.flange_mm);
        let (top_z, rim_z) = (-low - t / 2.0, low + rim / 2.0);
        let mut outline = Outline::new(material);
        let [right, left] = [1.0, -1.0]
            .map(|side| [[web, top_z], [web, rim_z], [tip, rim_z]].map(|[y, z]| outline.node(side * y, z)));
        outline.wall(right[0], left[0], t, Form::Flat);
        for [crown, foot, tip] in [left, right] {
            outline.wall(crown, foot, t, Form::Flat);
            outline.wall(foot, tip, rim, Form::Flat);
        }
        if plate > 0.0 {
            // Flange and plate together are one thick wall up to the web's inner face; there the plate
            // goes on alone, on a lower centreline.
            let z = low + plate / 2.0;
            let [from, to] = [t - half, half - t].map(|y| outline.node(y, z));
            outline.wall(from, to, plate, Form::Flat);
            outline.wall(left[1], from, t, Form::Link);
            outline.wall(right[1], to, t, Form::Link);
        }
        outline.section()
    }
}

impl Plate {
    /// The section of one material: one wall, to +y.
    ///
    /// # Errors
    ///
    /// As [`HollowBox::section`].
    pub fn section(&self, material: Isotropic) -> Result<Section, Failure> {
        let half = failure::positive("plate width", self.width_mm)? / 2.0;
        let t = failure::positive("plate thickness", self.thickness_mm)?;
        let mut outline = Outline::new(material);
        let (from, to) = (outline.node(-half, 0.0), outline.node(half, 0.0));
        outline.wall(from, to, t, Form::Flat);
        outline.section()
    }
}

impl Tube {
    /// The section of one material. The chords lie so that they are together as long as the circle.
    ///
    /// # Errors
    ///
    /// As [`HollowBox::section`].
    pub fn section(&self, material: Isotropic) -> Result<Section, Failure> {
        let outside = failure::positive("outside diameter", self.outside_diameter_mm)? / 2.0;
        let t = failure::positive("tube wall", self.wall_mm)?;
        below("tube wall", t, outside)?;
        let radius_mm = outside - t / 2.0;
        let chords = 4 * CHORDS_PER_QUARTER;
        let half_step = std::f64::consts::PI / f64::from(chords);
        let to_node = radius_mm * half_step / libm::sin(half_step);
        let mut outline = Outline::new(material);
        let nodes: Vec<usize> = (0..chords)
            .map(|k| {
                let angle = 2.0 * half_step * f64::from(k);
                outline.node(to_node * libm::cos(angle), to_node * libm::sin(angle))
            })
            .collect();
        for (&from, &to) in nodes.iter().zip(nodes.iter().cycle().skip(1)) {
            outline.wall(from, to, t, Form::Arc { radius_mm });
        }
        outline.section()
    }
}

/// Refuses a value that is not below `most`.
fn below(argument: &'static str, value: f64, most: f64) -> Result<(), Failure> {
    if value < most { Ok(()) } else { Err(Failure::OutOfRange { argument, found: value, least: 0.0, most }) }
}
