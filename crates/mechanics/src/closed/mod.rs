//! Closed forms, as their authors wrote them.

mod lap;
mod ratio;
mod shear_lag;
pub mod volkersen;

pub use lap::{Lap, Layer};
pub use shear_lag::ShearLag;
