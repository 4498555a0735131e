//! The section and its properties.

use super::Fault;
use super::flow::{Network, WallShear};
use super::layout;
use super::moments::{Central, Sums};
use super::tiles::tiles;
use super::torsion::{Torsion, Twist};
use super::wall::{Isotropic, Point, Wall};
use crate::failure::{self, Failure};

/// A thin-walled cross-section, checked and computed.
#[derive(Debug, Clone)]
pub struct Section {
    nodes: Vec<Point>,
    walls: Vec<Wall>,
    reference: Isotropic,
    pub(super) network: Network,
    /// Solid outline of each wall.
    pub(super) tiles: Vec<Vec<Point>>,
    /// Moments of the walls as rectangles on their centrelines: what the flows are in balance with.
    pub(super) line: Central,
    /// Moments of the solid.
    pub(super) solid: Central,
    /// Flow of V_y = 1 N and of V_z = 1 N, untwisted.
    pub(super) shears: [Vec<WallShear>; 2],
    pub(super) twist: Twist,
    properties: Properties,
}

/// Properties of a section.
///
/// With walls of several materials they are those of the transformed section: areas and second moments
/// weighted with E/E_ref, torsion constant and shear areas with G/G_ref.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    /// Area A, mm².
    pub area_mm2: f64,
    /// Centroid, y and z in the section's coordinates, mm.
    pub centroid_mm: Point,
    /// I_y = ∫ z² dA about the y axis through the centroid, mm⁴.
    pub i_y_mm4: f64,
    /// I_z = ∫ y² dA about the z axis through the centroid, mm⁴.
    pub i_z_mm4: f64,
    /// I_yz = ∫ y z dA, mm⁴.
    pub i_yz_mm4: f64,
    /// Greatest second moment, about the first principal axis, mm⁴.
    pub i_1_mm4: f64,
    /// Least second moment, mm⁴.
    pub i_2_mm4: f64,
    /// Angle from the y axis to the first principal axis, towards z, rad, in −π/2 to π/2; zero where
    /// every axis is a principal one.
    pub principal_angle: f64,
    /// Shear centre, y and z in the section's coordinates, mm: where a transverse force must act for the
    /// section as a whole not to twist. In a closed section whose cell is not centred on the centroid
    /// lateral contraction moves it with Poisson's ratio (by 1 to 2 mm in sections of about 60 × 120); a
    /// reference with ν = 0 gives the value of most books, for which the cross-section keeps its shape.
    pub shear_centre_mm: Point,
    /// Saint-Venant torsion.
    pub torsion: Torsion,
    /// Shear area for a force along y, mm²: A_s = V²/(∫ q²/(G t) ds) / G_ref, from the energy of the
    /// shear flow of a force through the shear centre, with corners cut as in [`Torsion::refined_mm4`].
    /// It depends on Poisson's ratio only where the shear centre does. A wide plate bent across its
    /// thickness is outside: its shear area falls with ν (by a third at 40 × 10 and 0.33).
    pub shear_area_y_mm2: f64,
    /// Shear area for a force along z, mm².
    pub shear_area_z_mm2: f64,
    /// Warping constant I_ω about the shear centre, mm⁶: warping of the centreline only.
    pub warping_constant_mm6: f64,
}

impl Section {
    /// Checks nodes and walls and computes the properties.
    ///
    /// `reference` is the material to which the properties refer; with one material, that one.
    ///
    /// # Errors
    ///
    /// [`Failure::Section`] names the wall that makes it none; [`Failure::NotPositive`] and
    /// [`Failure::OutOfRange`] for the reference; [`Failure::NoNumber`] where the numbers span too wide
    /// a range.
    pub fn new(nodes: Vec<Point>, walls: Vec<Wall>, reference: Isotropic) -> Result<Self, Failure> {
        failure::positive("reference Young's modulus", reference.youngs_modulus_mpa)?;
        failure::poissons_ratio("reference Poisson's ratio", reference.poissons_ratio)?;
        layout::check(&nodes, &walls)?;
        let modulus = reference.youngs_modulus_mpa;
        let network = Network::new(&nodes, &walls, reference);
        let tiles = tiles(&walls, &network.lines, &network.graph, nodes.len());
        let (line, solid) = moments(&walls, &network, &tiles, modulus)?;
        let shears = [network.transverse(&line, [1.0, 0.0])?, network.transverse(&line, [0.0, 1.0])?];
        let twist = Twist::new(&walls, &network)?;
        let shear_centre_mm = [
            line.centroid[0] + network.torque(&shears[1], line.centroid),
            line.centroid[1] - network.torque(&shears[0], line.centroid),
        ];
        let angle = solid.principal_angle();
        let extent = layout::extent(&nodes);
        let place = |point: Point| point.map(|c| tidy(c, extent));
        let axis = [libm::cos(angle), libm::sin(angle)];
        let properties = Properties {
            area_mm2: solid.area,
            centroid_mm: place(solid.centroid),
            i_y_mm4: solid.i_y,
            i_z_mm4: solid.i_z,
            i_yz_mm4: tidy(solid.i_yz, solid.i_y + solid.i_z),
            i_1_mm4: solid.about(axis),
            i_2_mm4: solid.about([-axis[1], axis[0]]),
            principal_angle: angle,
            shear_centre_mm: place(shear_centre_mm),
            torsion: twist.torsion,
            shear_area_y_mm2: 1.0 / network.energy(&shears[0]),
            shear_area_z_mm2: 1.0 / network.energy(&shears[1]),
            warping_constant_mm6: twist.warping_constant(&network, shear_centre_mm),
        };
        properties.check()?;
        Ok(Self { nodes, walls, reference, network, tiles, line, solid, shears, twist, properties })
    }

    /// The nodes: y and z, mm.
    pub fn nodes(&self) -> &[Point] {
        &self.nodes
    }

    /// The walls.
    pub fn walls(&self) -> &[Wall] {
        &self.walls
    }

    /// The material to which the properties refer.
    pub fn reference(&self) -> Isotropic {
        self.reference
    }

    /// Number of closed cells.
    pub fn cells(&self) -> usize {
        self.network.cycles.len()
    }

    /// The properties.
    pub fn properties(&self) -> &Properties {
        &self.properties
    }

    /// Greatest thickness over length of a flat wall: thin-wall theory is meant for at most about 0.1.
    pub fn greatest_slimness(&self) -> f64 {
        let flat = self.walls.iter().zip(&self.network.lines).filter(|(w, _)| w.form == super::Form::Flat);
        flat.map(|(wall, line)| wall.thickness_mm / line.length).fold(0.0, f64::max)
    }

    /// E/E_ref of a wall.
    pub(super) fn ratio(&self, wall: usize) -> f64 {
        self.walls[wall].material.youngs_modulus_mpa / self.reference.youngs_modulus_mpa
    }

    /// Refuses a list that has not one entry per wall.
    pub(super) fn one_per_wall(&self, what: &'static str, found: usize) -> Result<(), Failure> {
        let walls = self.walls.len();
        if found == walls { Ok(()) } else { Err(Fault::OnePerWall { what, found, walls }.into()) }
    }
}

impl Properties {
    fn check(&self) -> Result<(), Failure> {
        failure::positive("area", self.area_mm2)?;
        failure::positive("least second moment", self.i_2_mm4)?;
        failure::positive("shear area along y", self.shear_area_y_mm2)?;
        failure::positive("shear area along z", self.shear_area_z_mm2)?;
        for (what, value) in [
            ("centroid y", self.centroid_mm[0]),
            ("centroid z", self.centroid_mm[1]),
            ("greatest second moment", self.i_1_mm4),
            ("product of inertia", self.i_yz_mm4),
            ("shear centre y", self.shear_centre_mm[0]),
            ("shear centre z", self.shear_centre_mm[1]),
            ("warping constant", self.warping_constant_mm6),
        ] {
            failure::number(what, value)?;
        }
        Ok(())
    }
}

/// Zero where a value is nothing but the rounding of numbers of a size: symmetric sections should say so.
pub(super) fn tidy(value: f64, size: f64) -> f64 {
    if value.abs() <= 1e-13 * size { 0.0 } else { value }
}

/// Moments of the centreline strips and of the solid tiles, computed about the first node so that a
/// section far from the origin loses no digits.
fn moments(
    walls: &[Wall],
    network: &Network,
    tiles: &[Vec<Point>],
    modulus: f64,
) -> Result<(Central, Central), Failure> {
    let pole = network.lines.first().map_or([0.0, 0.0], |line| line.start);
    let shift = |point: &Point| [point[0] - pole[0], point[1] - pole[1]];
    let (mut strips, mut solid) = (Sums::default(), Sums::default());
    for ((wall, line), tile) in walls.iter().zip(&network.lines).zip(tiles) {
        if wall.is_link() {
            continue;
        }
        let factor = wall.material.youngs_modulus_mpa / modulus;
        let mut line = *line;
        line.start = shift(&line.start);
        strips.add_strip(&line, wall.thickness_mm, factor);
        solid.add_polygon(&tile.iter().map(shift).collect::<Vec<_>>(), factor);
    }
    let back = |sums: Sums| {
        let mut central = sums.central();
        central.centroid = [central.centroid[0] + pole[0], central.centroid[1] + pole[1]];
        failure::positive("area", central.area)?;
        failure::positive("least second moment", central.i_y * central.i_z - central.i_yz * central.i_yz)?;
        Ok::<_, Failure>(central)
    };
    Ok((back(strips)?, back(solid)?))
}
