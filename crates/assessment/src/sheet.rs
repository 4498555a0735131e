//! The sheet: the faying surfaces of a joint laid flat, like a pattern, in millimetres; and fields painted on it.

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
    /// The faces from the top of the sheet to its bottom, as they follow around the section, seen from outside.
    pub faces: Vec<SheetFace>,
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
