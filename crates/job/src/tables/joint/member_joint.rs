//! Joints of whole sections: sleeve and socket.

use quantity::{Force, Length, Moment};

use super::{LoadKind, Spectrum, Surface};
use crate::table::{choice, table};

table! {
    /// A sleeve: an insert bridges the cut inside or outside both sections, with one overlap on each side.
    Sleeve tagged "form" {
        /// The member, by its name under `[members]`; without it, `outside` and `loads`.
        member: String,
        /// Where the member is cut, from the beginning of its axis.
        station: Length,
        /// The section that is cut, where there is no member.
        outside: Part,
        /// The insert.
        insert: Part,
        /// On which side of the member's wall the insert lies.
        side: Side,
        /// Overlap on each side of the cut.
        overlap: Length [Between(0.1, 10_000.0)],
        /// Gap between the two cut faces.
        cut_gap: Length [Between(0.0, 1_000.0)],
        /// How far a cut may lie off; without it, 3 mm.
        cut_tolerance: Length [Between(0.1, 100.0)],
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// Thickness of the adhesive layer; it follows from the sections, and a value that differs is refused.
        bondline: Length [Between(0.01, 10.0)],
        /// How the joint is closed.
        closing: Closing,
        /// How the faying surfaces were prepared.
        surface: Surface,
        /// Which stretches of which faces are bonded; without it all flats, corners open.
        bonds: Vec<BondedStretch>,
        /// Rivets on each side of the cut.
        rivets: Rivets,
        /// Loads on the joint, where it stands alone.
        @named loads: SectionLoad,
        /// Ends of cracks found by dye penetrant, by station.
        cracks: Vec<Length>,
        /// Least distance of the cut from the last end of a crack.
        crack_margin: Length [NotNegative],
    }
}

table! {
    /// A socket: one section slid into the other over one overlap.
    Socket tagged "form" {
        /// The outer section.
        outside: Part,
        /// The inner section.
        inside: Part,
        /// Overlap of the two.
        overlap: Length [Between(0.1, 10_000.0)],
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// Thickness of the adhesive layer; it follows from the sections, and a value that differs is refused.
        bondline: Length [Between(0.01, 10.0)],
        /// How the joint is closed.
        closing: Closing,
        /// How the faying surfaces were prepared.
        surface: Surface,
        /// Which stretches of which faces are bonded; without it all flats, corners open.
        bonds: Vec<BondedStretch>,
        /// Rivets through both sections.
        rivets: Rivets,
        /// The member, by its name under `[members]`, where the outer section is a member.
        member: String,
        /// Where the overlap begins on the member.
        station: Length,
        /// Loads on the joint, where it stands alone.
        @named loads: SectionLoad,
    }
}

table! {
    /// A part by its section and its material.
    Part {
        /// Its section, by the name under `[sections]`.
        section: String,
        /// Its material, by the name under `[materials]`.
        material: String,
        /// Its length from the overlap to where it is held.
        free_length: Length [Between(0.0, 10_000.0)],
    }
}

table! {
    /// A stretch of a face that is bonded.
    BondedStretch {
        /// The face.
        @required face: Face,
        /// From where along the face, from its middle.
        from: Length,
        /// To where along the face, from its middle.
        to: Length,
    }
}

table! {
    /// Rivets of a joint.
    Rivets {
        /// The kind of rivet, by its name under `[rivets]`.
        kind: String,
        /// Rows, by their distance from the cut face, on each side of the cut.
        rows: Vec<Length> [Between(0.5, 10_000.0)],
        /// Positions along the faces, from the middle of each.
        on: RivetPositions,
    }
}

table! {
    /// Positions of rivets along the faces of a box.
    RivetPositions {
        /// On the two faces across z: top and bottom.
        width_faces: Vec<Length>,
        /// On the two faces across y: left and right.
        height_faces: Vec<Length>,
    }
}

table! {
    /// A load on a joint of whole sections, in the joint's local axes.
    SectionLoad {
        /// What the load is for.
        kind: LoadKind,
        /// The load factor that replaces the method's.
        factor: f64 [Between(0.1, 20.0)],
        /// Axial force N, tension positive.
        axial: Force,
        /// Shear force along y.
        shear_y: Force,
        /// Shear force along z.
        shear_z: Force,
        /// Moment about y.
        moment_y: Moment,
        /// Moment about z.
        moment_z: Moment,
        /// Torque.
        torque: Moment,
        /// How often it comes in the service life.
        spectrum: Spectrum,
        /// Share of it that stays on for days or longer.
        lasting: f64 [Between(0.001, 1.0)],
    }
}

choice! {
    /// On which side of the member's wall an insert lies.
    Side {
        /// Inside.
        Inside = "inside",
        /// Outside.
        Outside = "outside",
    }
}

choice! {
    /// How a joint is closed.
    Closing {
        /// The faces are pressed onto each other.
        Press = "press",
        /// One part slides into the other; a tight fit scrapes the paste off.
        Slide = "slide",
        /// The paste is pressed in after the parts are in place.
        Inject = "inject",
    }
}

choice! {
    /// A face of a box.
    Face {
        /// Across z, up.
        Top = "top",
        /// Across z, down.
        Bottom = "bottom",
        /// Across y, on the side of positive y.
        Left = "left",
        /// Across y, on the side of negative y.
        Right = "right",
    }
}
