//! Pages: figures laid on paper at exact or stated scale.

use std::borrow::Cow;

use crate::figure::{Figure, Point};

/// One sheet of paper with what lies on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Page<'a> {
    /// Width and height, mm.
    pub size_mm: [f64; 2],
    /// The figures, from the back to the front.
    pub placed: Vec<Placed<'a>>,
}

/// A figure on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed<'a> {
    /// What is drawn.
    pub figure: Cow<'a, Figure>,
    /// Where its top left corner lies, from the top left corner of the page, mm; may be off the page.
    pub offset_mm: Point,
    /// The part of the page on which it shows: left, top, right, bottom, mm; none for all of it.
    pub window_mm: Option<[f64; 4]>,
    /// How long a millimetre of the figure is on the page, mm; 1 for full scale.
    pub scale: f64,
}

impl<'a> Page<'a> {
    /// A page with one figure at full scale, the whole of which shows.
    pub fn with(size_mm: [f64; 2], figure: &'a Figure, offset_mm: Point) -> Self {
        let figure = Cow::Borrowed(figure);
        Self { size_mm, placed: vec![Placed { figure, offset_mm, window_mm: None, scale: 1.0 }] }
    }
}
