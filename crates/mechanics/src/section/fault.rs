//! Why walls make no section.

/// What keeps a list of nodes and walls from being a section.
///
/// Nodes and walls are named by their place in the list, from 0; the sentences count from 1.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// There are no walls.
    #[error("a section needs at least one wall")]
    NoWalls,
    /// There are more walls than a section of a vehicle member can have.
    #[error("{walls} walls are more than the {most} that a section may have")]
    TooManyWalls {
        /// Walls given.
        walls: usize,
        /// Walls allowed.
        most: usize,
    },
    /// A wall starts or ends at a node that is not in the list.
    #[error("wall no. {} names node no. {}, which is not in the list", wall + 1, node + 1)]
    UnknownNode {
        /// The wall.
        wall: usize,
        /// The node it names.
        node: usize,
    },
    /// A coordinate of a node is infinite or not a number.
    #[error("node no. {} must have finite coordinates, found {at_mm:?} mm", node + 1)]
    NodeNotFinite {
        /// The node.
        node: usize,
        /// Its y and z, mm.
        at_mm: [f64; 2],
    },
    /// A thickness, modulus or ratio of a wall is out of range.
    #[error("wall no. {}: the {property} is out of range, found {found}", wall + 1)]
    WallProperty {
        /// The wall.
        wall: usize,
        /// The property.
        property: &'static str,
        /// What was given.
        found: f64,
    },
    /// A wall has no length.
    #[error("wall no. {} has no length: it starts where it ends", wall + 1)]
    ZeroWall {
        /// The wall.
        wall: usize,
    },
    /// Two nodes lie at the same place.
    #[error(
        "nodes no. {} and {} lie at the same place: join the walls in one node, or leave a gap for a slit",
        node + 1, other + 1
    )]
    NodesCoincide {
        /// A node.
        node: usize,
        /// The other one.
        other: usize,
    },
    /// Two walls join the same two nodes.
    #[error("walls no. {} and {} join the same two nodes", wall + 1, other + 1)]
    DuplicateWall {
        /// A wall.
        wall: usize,
        /// The other one.
        other: usize,
    },
    /// Two walls cross, touch or overlap away from a common node.
    #[error("walls no. {} and {} meet away from a common node: put a node there", wall + 1, other + 1)]
    CrossingWalls {
        /// A wall.
        wall: usize,
        /// The other one.
        other: usize,
    },
    /// A wall is not connected to the first one.
    #[error("wall no. {} is not connected to the first wall", wall + 1)]
    Disconnected {
        /// The wall.
        wall: usize,
    },
    /// No wall ends at a node.
    #[error("no wall starts or ends at node no. {}", node + 1)]
    LooseNode {
        /// The node.
        node: usize,
    },
    /// A wall was asked for that the section does not have.
    #[error("there is no wall no. {}, the section has {walls}", wall + 1)]
    NoSuchWall {
        /// The wall asked for.
        wall: usize,
        /// Walls of the section.
        walls: usize,
    },
    /// A list that must have one entry per wall has another length.
    #[error("{what}: {found} given for {walls} walls")]
    OnePerWall {
        /// What is listed.
        what: &'static str,
        /// Entries found.
        found: usize,
        /// Walls of the section.
        walls: usize,
    },
}
