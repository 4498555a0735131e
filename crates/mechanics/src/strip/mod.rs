//! The strip: two beams joined by an adhesive layer, loaded along x.
//!
//! ```text
//!            overlap L
//!         ├────────────┤
//!  ═══════╪════════════╡             adherend 1, upper, arm to the left
//!         │░░░░░░░░░░░░│             adhesive, thickness h(x)
//!         ╞════════════╪════════     adherend 2, lower, arm to the right
//!         0            L        x →      z ↑
//! ```
//!
//! Each adherend is a Bernoulli beam (quadratic axial, cubic transverse displacement) of unit width
//! in plane strain, the layer is a bed of springs in shear, peel and anti-plane shear. Rotation is
//! θ = dw/dx; forces in N and lengths in mm, per mm of width.
//!
//! [`Strip`] says what is to be solved, [`Solver`] solves it and keeps its memory for the next one,
//! [`Answer`] holds the result; [`solve`] does it once.

mod answer;
mod antiplane;
mod element;
mod mesh;
mod model;
pub mod progressive;
mod solve;
mod system;

pub use answer::{Answer, Resultants, Status};
pub use mesh::Mesh;
pub use model::{Adhesive, Ends, Geometry, Plane, Strip, Supports};
pub use solve::{Solver, solve};

#[cfg(test)]
mod tests;
