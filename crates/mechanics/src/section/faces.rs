//! The flat faces of a box, on which bonds and rivets lie.

use super::shapes::HollowBox;
use super::wall::Point;
use crate::failure::Failure;

/// A side of a box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Towards +y.
    Right,
    /// Towards +z.
    Top,
    /// Towards −y.
    Left,
    /// Towards −z.
    Bottom,
}

/// A flat face of a box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Which side.
    pub side: Side,
    /// The flat's wall in the section.
    pub wall: usize,
    /// Middle of the flat on its centreline, y and z, mm.
    pub middle_mm: Point,
    /// Unit vector in which positions on the face count: +y on top and bottom, +z on right and left.
    pub along: Point,
    /// Unit vector out of the box.
    pub outwards: Point,
    /// Width of the flat, mm: on a box with sharp corners that of its inner face.
    pub width_mm: f64,
    /// Thickness of the wall, mm.
    pub thickness_mm: f64,
    /// Distance s of the flat's middle from the start of its wall, mm.
    middle_s_mm: f64,
    /// +1 where the wall runs as positions count, −1 where it runs against them.
    sense: f64,
}

impl Face {
    /// Distance s along the wall, mm, of a position counted from the middle of the face.
    pub fn s_mm(&self, position_mm: f64) -> f64 {
        self.middle_s_mm + self.sense * position_mm
    }

    /// A point of the face: `position_mm` from its middle, `offset_mm` outwards from the centreline.
    /// Half the thickness outwards is the outer surface, inwards the inner one.
    pub fn point_mm(&self, position_mm: f64, offset_mm: f64) -> Point {
        [0, 1].map(|k| self.middle_mm[k] + position_mm * self.along[k] + offset_mm * self.outwards[k])
    }
}

impl HollowBox {
    /// The flat faces, right, top, left, bottom: the corners are not flat and do not bond.
    ///
    /// # Errors
    ///
    /// Those of the sizes, as in [`HollowBox::section`].
    pub fn faces(&self) -> Result<[Face; 4], Failure> {
        self.check()?;
        let t = self.wall_mm;
        let (y, z) = ((self.width_mm - t) / 2.0, (self.height_mm - t) / 2.0);
        let corner = 2.0 * (self.inner_radius_mm + t);
        let (across, upright) = (self.width_mm - corner, self.height_mm - corner);
        // The sharp box's walls run from centreline corner to centreline corner.
        let beyond = if self.inner_radius_mm <= 0.0 { t / 2.0 } else { 0.0 };
        let face = |side, wall, middle_mm, along, outwards, width_mm: f64, sense| Face {
            side,
            wall,
            middle_mm,
            along,
            outwards,
            width_mm,
            thickness_mm: t,
            middle_s_mm: width_mm / 2.0 + beyond,
            sense,
        };
        Ok([
            face(Side::Right, 0, [y, 0.0], [0.0, 1.0], [1.0, 0.0], upright, 1.0),
            face(Side::Top, 1, [0.0, z], [1.0, 0.0], [0.0, 1.0], across, -1.0),
            face(Side::Left, 2, [-y, 0.0], [0.0, 1.0], [-1.0, 0.0], upright, -1.0),
            face(Side::Bottom, 3, [0.0, -z], [1.0, 0.0], [0.0, -1.0], across, 1.0),
        ])
    }
}
