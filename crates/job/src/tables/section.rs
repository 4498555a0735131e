//! `[sections.X]`: thin-walled cross-sections.

use quantity::{Angle, Length};

use crate::table::table;

table! {
    /// A thin-walled section: one named shape by outside sizes, or nodes and walls.
    Section {
        /// A hollow rectangle.
        hollow = "box": HollowBox,
        /// A U: a web with two flanges to the left.
        channel: Channel,
        /// A hat, with or without a plate over its foot.
        hat: Hat,
        /// A round tube.
        tube: TubeShape,
        /// Nodes of the wall centrelines: y and z.
        @named nodes: [Length; 2],
        /// Walls between nodes.
        walls: Vec<Wall>,
        /// By how much the walls of a casting lean, per side along the member.
        draft: Angle [Between(0.0, 10.0)],
    }
}

table! {
    /// A hollow rectangle by outside sizes.
    HollowBox {
        /// Along y.
        @required width: Length [Between(1.0, 2_000.0)],
        /// Along z.
        @required height: Length [Between(1.0, 2_000.0)],
        /// Thickness of the wall.
        @required wall: Length [Between(0.2, 100.0)],
        /// Radius of the inner corners; the outer ones have the wall more. Without it the corners are sharp.
        inner_radius: Length [Between(0.0, 500.0)],
    }
}

table! {
    /// A channel by outside sizes.
    Channel {
        /// Height of the web, along z.
        @required web: Length [Between(1.0, 2_000.0)],
        /// Width of the flanges, along y.
        @required flange: Length [Between(1.0, 2_000.0)],
        /// Thickness of the wall.
        @required wall: Length [Between(0.2, 100.0)],
    }
}

table! {
    /// A hat by outside sizes, open side down.
    Hat {
        /// Width of the top, along y.
        @required top: Length [Between(1.0, 2_000.0)],
        /// Height, along z.
        @required height: Length [Between(1.0, 2_000.0)],
        /// Width of each foot flange.
        @required flange: Length [Between(1.0, 2_000.0)],
        /// Thickness of the wall.
        @required wall: Length [Between(0.2, 100.0)],
        /// Thickness of a plate that closes the foot.
        plate: Length [Between(0.2, 100.0)],
    }
}

table! {
    /// A round tube.
    TubeShape {
        /// Outside diameter.
        @required outside_diameter: Length [Between(1.0, 2_000.0)],
        /// Thickness of the wall.
        @required wall: Length [Between(0.1, 100.0)],
    }
}

table! {
    /// A wall between two nodes.
    Wall {
        /// The node where it begins.
        @required from: String,
        /// The node where it ends.
        @required to: String,
        /// Its thickness.
        @required thickness: Length [Between(0.1, 200.0)],
        /// Its material, where it differs from the member's.
        material: String,
    }
}
