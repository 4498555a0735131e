//! Mechanics of bonded joints: closed forms and the strip model.
//!
//! Everything is plain `f64` in N, mm, MPa and K. A function returns numbers that are finite, or a
//! [`Failure`] that says why there are none.
//!
//! - [`closed`]: the formulas of the literature, as their authors wrote them;
//! - [`strip`]: two beams joined by an adhesive layer, the workhorse; [`strip::progressive`] loads it to failure;
//! - [`section`]: thin-walled cross-sections;
//! - [`statics`]: loads on a straight member;
//! - [`fatigue`]: cycles, lives and the sum of damage;
//! - [`bondline`]: the thickness of the layer along the overlap;
//! - [`banded`]: the factorisation under the strip.

mod adherend;
pub mod banded;
pub mod bondline;
pub mod closed;
mod failure;
pub mod fatigue;
mod peak;
pub mod perimeter;
pub mod rivet;
pub mod section;
pub mod statics;
pub mod strip;

pub use adherend::Adherend;
pub use failure::Failure;
pub use peak::Peak;
