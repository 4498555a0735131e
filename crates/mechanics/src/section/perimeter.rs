//! Line loads and shear flow around the perimeter.

use super::wall::Point;
use super::{Fault, Section};
use crate::failure::{self, Failure};
use crate::statics::Resultants;

/// What acts in one wall of a section, per mm of its centreline.
///
/// All are exact along the wall: the axial line load is linear, the shear flow quadratic, the other
/// three constant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallLoad {
    /// Where the wall starts, mm.
    pub start_mm: Point,
    /// Unit vector from its start to its end.
    pub along: Point,
    /// Length L of the centreline, mm.
    pub length_mm: f64,
    /// Axial line load n = σ t at the start and at the end, N/mm; tension positive.
    pub axial_n_mm: [f64; 2],
    /// Coefficients of the shear flow q = q₀ + q₁ s + q₂ s², N/mm, N/mm², N/mm³; positive in the wall's
    /// direction on the face that looks along +x.
    pub shear_flow: [f64; 3],
    /// Bending moment m = ∫ σ η dη of the wall's own thickness, η to the left of its direction, N·mm/mm.
    pub bending_n: f64,
    /// Transverse force to the left, N/mm: the change of m along x.
    pub transverse_n_mm: f64,
    /// Twisting moment of a wall that encloses no cell, N·mm/mm; its greatest shear stress is 3/t² of it.
    pub twisting_n: f64,
}

/// What acts at one point of the perimeter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointLoad {
    /// The wall.
    pub wall: usize,
    /// Distance s from its start, mm.
    pub s_mm: f64,
    /// The point on the centreline, mm.
    pub at_mm: Point,
    /// Axial line load n, N/mm.
    pub axial_n_mm: f64,
    /// Shear flow q, N/mm.
    pub shear_flow_n_mm: f64,
}

impl WallLoad {
    /// The point on the centreline at a distance from the wall's start.
    pub fn point_mm(&self, s_mm: f64) -> Point {
        [0, 1].map(|k| self.start_mm[k] + s_mm * self.along[k])
    }

    /// Axial line load, N/mm, at a distance from the wall's start.
    pub fn axial_at(&self, s_mm: f64) -> f64 {
        let [start, end] = self.axial_n_mm;
        start + (end - start) * s_mm / self.length_mm
    }

    /// Shear flow, N/mm, at a distance from the wall's start.
    pub fn shear_flow_at(&self, s_mm: f64) -> f64 {
        self.shear_flow[0] + s_mm * (self.shear_flow[1] + s_mm * self.shear_flow[2])
    }
}

/// The loads of a section in all its walls, in their order.
#[derive(Debug, Clone, PartialEq)]
pub struct Perimeter {
    walls: Vec<WallLoad>,
    centroid: Point,
    shear_centre: Point,
}

impl Section {
    /// Axial line load and shear flow at every point of the perimeter for the given resultants.
    ///
    /// ```text
    /// σ = N/A + (M_y I_z + M_z I_yz)/D z − (M_z I_y + M_y I_yz)/D y       n = σ t
    /// dq/ds = −t ∂σ/∂x      q of V_y, V_z untwisted, plus q of T by Bredt and Batho
    /// ```
    ///
    /// Moments act about the centroid, the torque about the shear centre, as `properties` gives them. The
    /// distribution is the centreline's: with its area and moments (no corner counted twice or left
    /// out where walls meet) it integrates back to the resultants exactly, see
    /// [`Perimeter::resultants`]. In a link the axial line load is zero.
    ///
    /// In a closed section whose cell is not centred on the centroid the flow of V_y and V_z depends a little
    /// on the reference's Poisson's ratio, see [`Properties::shear_centre_mm`](super::Properties).
    ///
    /// Warping of a held end is not in it: it fades within about one depth of a closed section, but
    /// only slowly along an open one.
    ///
    /// # Errors
    ///
    /// [`Failure::NotFinite`], [`Failure::NoNumber`].
    pub fn perimeter(&self, resultants: &Resultants) -> Result<Perimeter, Failure> {
        resultants.check()?;
        let (line, properties) = (&self.line, self.properties());
        let [y, z] = [0, 1].map(|k| self.solid.centroid[k] - line.centroid[k]);
        let n = resultants.axial_n;
        let gradient = line.gradient(resultants.moment_y_nmm + n * z, resultants.moment_z_nmm - n * y);
        let torsion = &properties.torsion;
        let turn = resultants.torque_nmm / torsion.constant_mm4;
        let open: f64 =
            self.twist.twisting.iter().zip(&self.network.lines).map(|(w, cl)| w * cl.length).sum();
        let scale = if open > 0.0 { torsion.branches_mm4 / open } else { 0.0 };
        let wall = |wall: usize| {
            let cl = &self.network.lines[wall];
            let stress = |s: f64| {
                let at = cl.point(s, 0.0);
                let bending: f64 = (0..2).map(|k| gradient[k] * (at[k] - line.centroid[k])).sum();
                n / line.area + bending
            };
            let across: f64 = (0..2).map(|k| gradient[k] * cl.left()[k]).sum();
            let [of_y, of_z] = [&self.shears[0][wall], &self.shears[1][wall]];
            let (v_y, v_z) = (resultants.shear_y_n, resultants.shear_z_n);
            let mut shear_flow = [0, 1, 2].map(|k| v_y * of_y.flow[k] + v_z * of_z.flow[k]);
            shear_flow[0] += turn * self.twist.cells.flows[wall];
            WallLoad {
                start_mm: cl.start,
                along: cl.along,
                length_mm: cl.length,
                axial_n_mm: [0.0, cl.length].map(|s| self.network.axial[wall] * stress(s)),
                shear_flow,
                bending_n: self.network.bending[wall] * across,
                transverse_n_mm: v_y * of_y.transverse + v_z * of_z.transverse,
                twisting_n: turn * scale * self.twist.twisting[wall],
            }
        };
        let walls: Vec<WallLoad> = (0..self.walls().len()).map(wall).collect();
        for load in &walls {
            let rest = [load.bending_n, load.transverse_n_mm, load.twisting_n];
            for value in load.axial_n_mm.into_iter().chain(load.shear_flow).chain(rest) {
                failure::number("line load", value)?;
            }
        }
        Ok(Perimeter { walls, centroid: properties.centroid_mm, shear_centre: properties.shear_centre_mm })
    }
}

impl Perimeter {
    /// The walls' loads, in the order of the section's walls.
    pub fn walls(&self) -> &[WallLoad] {
        &self.walls
    }

    /// What acts at a point of the perimeter.
    ///
    /// # Errors
    ///
    /// [`Fault::NoSuchWall`] through [`Failure::Section`]; [`Failure::OutOfRange`] beyond its ends.
    pub fn at(&self, wall: usize, s_mm: f64) -> Result<PointLoad, Failure> {
        let Some(load) = self.walls.get(wall) else {
            return Err(Fault::NoSuchWall { wall, walls: self.walls.len() }.into());
        };
        let s_mm = failure::within("distance along the wall", s_mm, 0.0, load.length_mm)?;
        Ok(PointLoad {
            wall,
            s_mm,
            at_mm: load.point_mm(s_mm),
            axial_n_mm: load.axial_at(s_mm),
            shear_flow_n_mm: load.shear_flow_at(s_mm),
        })
    }

    /// Integrates the distribution over the perimeter: the resultants it came from.
    ///
    /// ```text
    /// N = ∫ n ds      M_y = ∫ (z n + m η_z) ds      M_z = −∫ (y n + m η_y) ds
    /// V = ∫ (q s⃗ + v η⃗) ds      T = ∫ (r × (q s⃗ + v η⃗))_x ds + ∫ m_t ds
    /// ```
    ///
    /// with s⃗ along and η⃗ to the left of the wall, r from the centroid for M and from the shear centre
    /// for T. Gauss's rule with three points is exact for these polynomials.
    pub fn resultants(&self) -> Resultants {
        let mut sum = Resultants::default();
        let outer = (3.0_f64 / 5.0).sqrt() / 2.0;
        for wall in &self.walls {
            let left = [-wall.along[1], wall.along[0]];
            for (share, weight) in [(0.5 - outer, 5.0 / 18.0), (0.5, 8.0 / 18.0), (0.5 + outer, 5.0 / 18.0)] {
                let (s, ds) = (share * wall.length_mm, weight * wall.length_mm);
                let at = wall.point_mm(s);
                let (n, q) = (wall.axial_at(s), wall.shear_flow_at(s));
                let force = [0, 1].map(|k| q * wall.along[k] + wall.transverse_n_mm * left[k]);
                let r = [0, 1].map(|k| at[k] - self.centroid[k]);
                let arm = [0, 1].map(|k| at[k] - self.shear_centre[k]);
                sum.axial_n += n * ds;
                sum.shear_y_n += force[0] * ds;
                sum.shear_z_n += force[1] * ds;
                sum.moment_y_nmm += (r[1] * n + wall.bending_n * left[1]) * ds;
                sum.moment_z_nmm -= (r[0] * n + wall.bending_n * left[0]) * ds;
                sum.torque_nmm += (arm[0] * force[1] - arm[1] * force[0] + wall.twisting_n) * ds;
            }
        }
        sum
    }
}
