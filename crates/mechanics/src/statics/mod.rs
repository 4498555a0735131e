//! Loads on a straight member: resultants at a station.
//!
//! ```text
//!   from ●━━━━━━━━━┫station┣━━━━━━━━━● to       local x from → to
//!                     │  the part beyond        local z: `up` made normal to x
//!                     ▼                         local y = z × x
//!                resultants at the cut
//! ```
//!
//! Forces act on the part beyond the station, toward `to`; the resultants are theirs at the cut, by the
//! right-hand rule (r × F): moments about the section's centroid, torque about its shear centre.

mod diagram;
mod load;
mod member;
mod resultants;

#[cfg(test)]
mod tests;

pub use diagram::{Station, diagram};
pub use load::{PointForce, PointMass};
pub use member::{Member, Vector};
pub use resultants::{Resultants, SectionPoints, resultants_at};
