//! Drawings: a [`Figure`] of millimetre-true marks, its writers, and the charts.
//!
//! What is shown is decided once, as marks with a layer and a pen from a small closed set. A writer
//! turns the marks into a format and decides nothing:
//!
//! - [`figure`]: the marks; [`svg`]: the writer for pages and stand-alone files; [`dxf`]: for cutting
//!   and drilling; [`pdf`]: for paper, by the [`page`];
//! - [`template`]: a figure at full scale on office paper;
//! - [`chart`]: distribution along an overlap, cure clock, coupons, ladder of reserves;
//! - [`sheet`]: the faying surfaces of a joint laid flat, with a field painted on them;
//! - [`look`]: colours, sizes, the style sheet of a page, the marks of the verdicts;
//! - [`lettering`], [`fonts`]: sizes of text, its measured width, and the typeface itself.

pub mod chart;
pub mod dxf;
pub mod figure;
pub mod fonts;
pub mod lettering;
pub mod look;
pub mod page;
pub mod pdf;
pub mod sheet;
pub mod svg;
pub mod template;

pub use figure::Figure;
