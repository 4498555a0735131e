//! Thin-walled cross-sections: properties, shear flow, line loads, plastic resistance, local buckling.
//!
//! ```text
//!            z                 The section as seen against x, from the member's `to` end back to
//!            │                 its `from` end: x comes out of the page.
//!      ╭─────┼─────╮
//!      │     │ +M_y: tension   M_y = ∫ z σ dA     positive: tension at z > 0
//!      │     │     │           M_z = −∫ y σ dA    positive: tension at y < 0
//!      │     └─────┼──── y     T   = ∫ (r × τ)_x dA    positive: counterclockwise, y to z
//!      │           │           N, V_y, V_z: along +x, +y, +z
//!      ╰───────────╯
//! ```
//!
//! The resultants are what the part beyond the section, toward `to`, exerts on the part that is looked
//! at: right-hand rule, moments about the centroid, torque about the shear centre.
//!
//! A [`Section`] is drawn by nodes and straight walls on their centrelines, or by one of the [`shapes`].
//! Closed cells are found as the cycles of that graph. Theory of thin walls: the shear stress follows the
//! wall, does not vary across it in cells and varies linearly across it in open walls. It is meant for
//! t/b up to about 0.1. What it leaves out in thicker walls has been compared with finite elements of the
//! solids (validation/reference/sections.toml). Area and second moments come from the mitred outlines
//! and are the solid's. Torsion constants of thin-wall theory come up to 3 % low, 6 % at a sharp-cornered
//! box of t/b = 1/8 (see [`Torsion::refined_mm4`]); shear centres within 0.7 mm, shear areas within 3 %.
//!
//! Source of the flows: Bredt 1896; Batho 1916; Megson, Aircraft Structures (from memory).

mod buckling;
mod faces;
mod fault;
mod fibre;
mod flow;
mod graph;
mod layout;
mod model;
mod moments;
mod net;
mod panel;
mod perimeter;
mod plastic;
pub mod shapes;
mod tiles;
mod torsion;
mod wall;

#[cfg(test)]
mod tests;

pub use buckling::{Alloy, Class, PanelBuckling, Stability, aluminium_class, buckling_factor};
pub use faces::{Face, Side};
pub use fault::Fault;
pub use fibre::{Extremes, FibreStress, SectionModuli};
pub use model::{Properties, Section};
pub use net::Hole;
pub use panel::{Panel, Support};
pub use perimeter::{Perimeter, PointLoad, WallLoad};
pub use plastic::Plastic;
pub use torsion::{Rectangle, Torsion, rectangle};
pub use wall::{Form, Isotropic, Point, Wall};
