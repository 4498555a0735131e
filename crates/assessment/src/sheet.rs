//! The sheet: the faying surfaces of a joint laid flat, like a pattern, in millimetres; and fields painted on it.

use quantity::Kind;

/// The faying surfaces of one joint.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The joint's name.
    pub joint: String,
    /// What x means, in words: along the member from the middle of the cut, or along the overlap.
    pub along: &'static str,
    /// From where to where the faying surfaces reach along x, mm.
    pub x_mm: [f64; 2],
    /// Half the gap at the cut, mm; `None` where nothing is cut.
    pub half_gap_mm: Option<f64>,
    /// Whether what is bonded is the circle inside its patch: a disc.
    pub round: bool,
    /// The faces from the top of the sheet to its bottom, as they follow around the section, seen from outside.
    pub faces: Vec<SheetFace>,
    /// How the adhesive is laid; `None` where the bondline is not known, or where no straight beads are laid.
    pub beads: Option<Beads>,
}

/// Straight beads side by side on each bonded patch, that fill the bondline when they are pressed flat.
#[derive(Debug, Clone, PartialEq)]
pub struct Beads {
    /// The beads, in the order in which they are laid.
    pub lines: Vec<Bead>,
    /// What is laid on beyond the bondline's volume, to be pressed out, as a share of it.
    pub allowance: f64,
}

/// One bead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bead {
    /// The face, by its place in the sheet.
    pub face: usize,
    /// From where to where along x, mm.
    pub x_mm: [f64; 2],
    /// Along the face from its middle, mm.
    pub s_mm: f64,
    /// Area of its section as it leaves the nozzle, mm².
    pub section_mm2: f64,
    /// Distance to its neighbours, mm; the patch's width where it is alone.
    pub spacing_mm: f64,
}

impl Bead {
    /// Diameter of a round bead of this section, mm.
    pub fn diameter_mm(&self) -> f64 {
        (4.0 * self.section_mm2 / std::f64::consts::PI).sqrt()
    }

    /// Volume, mm³.
    pub fn volume_mm3(&self) -> f64 {
        self.section_mm2 * (self.x_mm[1] - self.x_mm[0])
    }
}

/// One face of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetFace {
    /// Its name.
    pub name: &'static str,
    /// Its whole width from fold to fold, mm.
    pub width_mm: f64,
    /// 1 where the face's own coordinate grows upward on the sheet, −1 where it grows downward.
    pub up: f64,
    /// What is bonded.
    pub bonded: Vec<Patch>,
    /// The rivet holes.
    pub holes: Vec<SheetHole>,
}

/// A rectangle on a face, mm: along x, and along the face from its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// From where to where along x.
    pub x_mm: [f64; 2],
    /// From where to where along the face, from its middle.
    pub s_mm: [f64; 2],
}

/// A rivet hole on a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetHole {
    /// Its number on the sheet, from 1.
    pub number: u32,
    /// Along x, mm.
    pub x_mm: f64,
    /// Along the face from its middle, mm.
    pub s_mm: f64,
    /// Diameter of the hole, mm.
    pub diameter_mm: f64,
}

/// Values over the faces of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// The joint whose sheet it is painted on.
    pub joint: String,
    /// What it is, in words.
    pub what: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// The kind of quantity, where the kind has units in both systems.
    pub kind: Option<Kind>,
    /// Rectangles with one value each; always finite.
    pub cells: Vec<Cell>,
}

/// A rectangle of a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// The face, by its place in the sheet.
    pub face: usize,
    /// Where on it.
    pub patch: Patch,
    /// The value.
    pub value: f64,
}

impl Field {
    /// The greatest value; zero for an empty field.
    pub fn greatest(&self) -> f64 {
        self.cells.iter().map(|cell| cell.value).fold(0.0, f64::max)
    }
}
