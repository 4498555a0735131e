//! Charts: plain numbers and words in, a [`Figure`](crate::Figure) out.
//!
//! All charts share one width and one arrangement, in which no text stands on the data and so none
//! can cover it or be covered: what marks a place along x stands on a flag above the plot, what
//! names a curve or a level stands to its right, names of the ends and of bands stand below.
//! Curves differ by word, dash and weight before they differ by colour.
//!
//! Any data gives a figure. A value that is infinite, not a number or beyond [`GREATEST`] is not
//! drawn, and the figure says how many were not.

mod around;
mod by_overlap;
mod clock;
mod coupons;
mod distribution;
mod ladder;
mod place;
mod plot;
mod scale;
mod words;

pub use around::{Around, Round, Side};
pub use by_overlap::{ByOverlap, Reserves};
pub use clock::{CureClock, Milestone};
pub use coupons::{Coupon, Coupons, NamedStrength};
pub use distribution::Distribution;
pub use ladder::{Ladder, Rung};
pub use plot::{Axis, Band, Curve, Dot, DotKind, Flag, Growth, Level, Plot, Tick, Ticks};
pub use words::{duration, rounded};

use crate::look::GRID_MM;

/// Width of every chart, mm: 96 steps of the grid, 768 px.
pub const WIDTH_MM: f64 = 96.0 * GRID_MM;

/// Greatest magnitude that is drawn; nothing in a repair comes near, and sums of such values are
/// far from overflow.
pub const GREATEST: f64 = 1e12;

/// Whether a value can be drawn.
pub(crate) fn drawable(value: f64) -> bool {
    value.abs() <= GREATEST
}

/// A count as a number.
#[expect(clippy::cast_precision_loss, reason = "counts of marks and lines are far below 2^52")]
pub(crate) const fn count(n: usize) -> f64 {
    n as f64
}
