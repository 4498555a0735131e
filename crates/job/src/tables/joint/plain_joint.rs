//! Joints that stand alone beside the lap: double lap, tube and disc.

use quantity::{Force, Length, Moment, TemperatureDifference};

use super::{Adherend, Load, LoadKind, Model, Spectrum, Surface};
use crate::table::table;

table! {
    /// A double lap: one inner plate between two outer ones.
    DoubleLap tagged "form" {
        /// The inner plate; it carries the whole load.
        inner: Adherend,
        /// Each of the two outer plates.
        outer: Adherend,
        /// Width of the joint, across the load.
        width: Length [Between(0.1, 10_000.0)],
        /// Overlap of the plates, along the load.
        overlap: Length [Between(0.1, 10_000.0)],
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// Thickness of each adhesive layer; without it, the standoff beads.
        bondline: Length [Between(0.01, 10.0)],
        /// How the faying surfaces were prepared.
        surface: Surface,
        /// Rivets through all three plates.
        rivets: PlateRivets,
        /// Loads on the joint, by the name of the load case; the axial load is the whole inner load.
        @named loads: Load,
        /// How the joint is computed.
        model: Model,
        /// Service minus stress-free temperature; without it, from `[job] service`, and where that is silent, none.
        temperature_change: TemperatureDifference [Between(-300.0, 300.0)],
    }
}

table! {
    /// Rivets through flat plates.
    PlateRivets {
        /// The kind of rivet, by its name under `[rivets]`.
        kind: String,
        /// Rows, by their distance from the left end of the overlap.
        rows: Vec<Length> [Between(0.0, 10_000.0)],
        /// How many rivets each row has, across the width.
        per_row: u32 [Between(1.0, 1000.0)],
    }
}

table! {
    /// A tube joint: a round socket.
    Tube tagged "form" {
        /// The inner tube.
        inner: TubePart,
        /// The outer tube.
        outer: TubePart,
        /// Overlap of the two.
        overlap: Length [Between(0.1, 10_000.0)],
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// Thickness of the adhesive layer; it follows from the tubes, and a value that differs is refused.
        bondline: Length [Between(0.01, 10.0)],
        /// How the faying surfaces were prepared.
        surface: Surface,
        /// Loads on the joint, by the name of the load case.
        @named loads: TubeLoad,
    }
}

table! {
    /// One tube of a tube joint.
    TubePart {
        /// Its material, by the name under `[materials]`.
        material: String,
        /// Its outside diameter.
        outside_diameter: Length [Between(1.0, 2_000.0)],
        /// Thickness of its wall.
        wall: Length [Between(0.1, 200.0)],
    }
}

table! {
    /// A load on a tube joint.
    TubeLoad {
        /// What the load is for.
        kind: LoadKind,
        /// The load factor that replaces the method's.
        factor: f64 [Between(0.1, 20.0)],
        /// Axial force, tension positive.
        axial: Force,
        /// Torque.
        torque: Moment,
        /// How often it comes in the service life.
        spectrum: Spectrum,
        /// Share of it that stays on for days or longer.
        lasting: f64 [Between(0.001, 1.0)],
    }
}

table! {
    /// A disc: a round butt joint.
    Disc tagged "form" {
        /// The material of the parts, by its name under `[materials]`.
        material: String,
        /// Diameter of the bond.
        diameter: Length [Between(1.0, 2_000.0)],
        /// Diameter of a hole in the middle.
        hole: Length [Between(0.0, 2_000.0)],
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// Thickness of the adhesive layer; without it, the standoff beads.
        bondline: Length [Between(0.01, 10.0)],
        /// How the faying surfaces were prepared.
        surface: Surface,
        /// Loads on the joint, by the name of the load case.
        @named loads: DiscLoad,
    }
}

table! {
    /// A load on a disc.
    DiscLoad {
        /// What the load is for.
        kind: LoadKind,
        /// The load factor that replaces the method's.
        factor: f64 [Between(0.1, 20.0)],
        /// Force across the bond, tension positive.
        axial: Force,
        /// Distance of the axial force from the middle.
        eccentricity: Length [NotNegative],
        /// Force along the bond.
        shear: Force,
        /// Share of it that stays on for days or longer.
        lasting: f64 [Between(0.001, 1.0)],
    }
}
