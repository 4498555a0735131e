//! `[joints.X]`: the joint forms.

mod member_joint;
mod plain_joint;

pub use member_joint::{
    BondedStretch, Closing, Face, Part, RivetPositions, Rivets, SectionLoad, Side, Sleeve, Socket,
};
pub use plain_joint::{Disc, DiscLoad, DoubleLap, PlateRivets, Tube, TubeLoad, TubePart};

use quantity::{Force, Length, TemperatureDifference, Time};

use super::Spectrum;
use crate::Entry;
use crate::describe::{Limit, Shape};
use crate::read::{Node, Reader, Value, tag};
use crate::table::{choice, table};

/// A joint to be made; `form` says which keys it has.
#[derive(Debug, Clone, PartialEq)]
pub enum Joint {
    /// Two plates, one over the other over one overlap.
    Lap(Box<Lap>),
    /// One inner plate between two outer ones.
    DoubleLap(Box<DoubleLap>),
    /// One section slid inside the other over one overlap.
    Socket(Box<Socket>),
    /// An insert that bridges the cut, with one overlap on each side.
    Sleeve(Box<Sleeve>),
    /// A round socket.
    Tube(Box<Tube>),
    /// A round butt joint.
    Disc(Box<Disc>),
}

const FORMS: [&str; 6] = ["lap", "double lap", "socket", "sleeve", "tube", "disc"];

impl Value for Joint {
    fn shape() -> Shape {
        let tables = [Lap::TABLE, DoubleLap::TABLE, Socket::TABLE, Sleeve::TABLE, Tube::TABLE, Disc::TABLE];
        Shape::Tagged { tag: "form", forms: FORMS.into_iter().zip(tables).collect() }
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        fn boxed<T: Value>(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Box<T>> {
            T::read(node, limit, reader).map(Box::new)
        }
        match FORMS[tag(node, "form", &FORMS, reader)?] {
            "lap" => boxed(node, limit, reader).map(Self::Lap),
            "double lap" => boxed(node, limit, reader).map(Self::DoubleLap),
            "socket" => boxed(node, limit, reader).map(Self::Socket),
            "sleeve" => boxed(node, limit, reader).map(Self::Sleeve),
            "tube" => boxed(node, limit, reader).map(Self::Tube),
            _ => boxed(node, limit, reader).map(Self::Disc),
        }
    }
}

impl Joint {
    /// The adhesive's name.
    pub fn adhesive(&self) -> &Entry<String> {
        match self {
            Self::Lap(lap) => &lap.adhesive,
            Self::DoubleLap(lap) => &lap.adhesive,
            Self::Socket(socket) => &socket.adhesive,
            Self::Sleeve(sleeve) => &sleeve.adhesive,
            Self::Tube(tube) => &tube.adhesive,
            Self::Disc(disc) => &disc.adhesive,
        }
    }

    /// The key of the spectrum of each of its own loads.
    pub(crate) fn spectra(&self) -> Vec<&Entry<Spectrum>> {
        match self {
            Self::Lap(lap) => lap.loads.iter().map(|(_, load)| &load.spectrum).collect(),
            Self::DoubleLap(lap) => lap.loads.iter().map(|(_, load)| &load.spectrum).collect(),
            Self::Socket(socket) => socket.loads.iter().map(|(_, load)| &load.spectrum).collect(),
            Self::Sleeve(sleeve) => sleeve.loads.iter().map(|(_, load)| &load.spectrum).collect(),
            Self::Tube(tube) => tube.loads.iter().map(|(_, load)| &load.spectrum).collect(),
            Self::Disc(_) => Vec::new(),
        }
    }
}

table! {
    /// A lap: two plates bonded over one overlap.
    Lap tagged "form" {
        /// The plate above; it leaves the overlap to the left.
        upper: Adherend,
        /// The plate below; it leaves the overlap to the right.
        lower: Adherend,
        /// Width of the joint, across the load.
        width: Length [Between(0.1, 10_000.0)],
        /// Overlap of the two plates, along the load.
        overlap: Length [Between(0.1, 10_000.0)],
        /// The adhesive, by its name under `[adhesives]`.
        adhesive: String,
        /// Thickness of the adhesive layer; without it, the standoff beads.
        bondline: Length [Between(0.01, 10.0)],
        /// How the far ends of the plates are held.
        ends: Ends,
        /// How the faying surfaces were prepared.
        surface: Surface,
        /// Stretches of the overlap without bond, over the whole width.
        voids: Vec<Void>,
        /// Rivets through both plates.
        rivets: PlateRivets,
        /// Loads on the joint, by the name of the load case.
        @named loads: Load,
        /// How the joint is computed.
        model: Model,
        /// Service minus stress-free temperature; without it, from `[job] service`, and where that is silent, none.
        temperature_change: TemperatureDifference [Between(-300.0, 300.0)],
    }
}

table! {
    /// One plate of a lap.
    Adherend {
        /// Its material, by the name under `[materials]`.
        material: String,
        /// Its thickness.
        thickness: Length [Between(0.05, 200.0)],
        /// Its length from the overlap to where it is held.
        free_length: Length [Between(0.0, 10_000.0)],
    }
}

table! {
    /// How the faying surfaces were prepared.
    Surface {
        /// What was done to them.
        preparation: String,
        /// What became of the coating.
        coating: String,
        /// Time from the preparation to closing.
        hours_since: Time [NotNegative],
        /// What is put back on edges, holes and heads after closing.
        restored: Restored,
    }
}

table! {
    /// A load on a joint.
    Load {
        /// What the load is for.
        kind: LoadKind,
        /// The load factor that replaces the method's.
        factor: f64 [Between(0.1, 20.0)],
        /// Force along the overlap, tension positive.
        axial: Force,
        /// Force across the plates' plane of bending: along the width.
        shear: Force,
        /// How often it comes in the service life.
        spectrum: Spectrum,
        /// Share of it that stays on for days or longer.
        lasting: f64 [Between(0.001, 1.0)],
    }
}

table! {
    /// How the joint is computed.
    Model {
        /// The law of the adhesive layer.
        law: Law,
        /// How the toughnesses of opening and shear mix; without it, (G_I/G_Ic) + (G_II/G_IIc) = 1.
        mixed_mode: MixedMode,
        /// Whether the bending of the plates changes the lever arms.
        geometry: Geometry,
        /// Whether the plates may yield.
        adherends: Plasticity,
    }
}

table! {
    /// How the toughnesses of opening and shear mix.
    MixedMode {
        /// The rule.
        law: MixedModeLaw,
        /// Its exponent; without it, 1 of the power law, 2 of Benzeggagh and Kenane.
        exponent: f64 [Between(0.5, 10.0)],
    }
}

table! {
    /// A stretch of an overlap without bond.
    Void {
        /// Where it begins, from the left end of the overlap.
        @required from: Length [Between(0.0, 10_000.0)],
        /// Where it ends.
        @required to: Length [Between(0.0, 10_000.0)],
    }
}

choice! {
    /// What is put back on a joint after closing.
    Restored {
        /// Nothing: cut edges, holes and heads stay bare.
        Bare = "bare",
        /// Edges, cut faces and heads are coated.
        Coated = "coated",
        /// Rivets are set in wet sealant, edges sealed, and all of it coated.
        Sealed = "sealed",
    }
}

choice! {
    /// How the far ends of the plates are held.
    Ends {
        /// Gripped: they neither turn nor shift sideways.
        Clamped = "clamped",
        /// Held on pins: they turn but do not shift sideways.
        Pinned = "pinned",
    }
}

choice! {
    /// What a load is for.
    LoadKind {
        /// The greatest load expected in service.
        Limit = "limit",
        /// A limit load with its factor already in it.
        Ultimate = "ultimate",
        /// A load put on to learn something; nothing is required of it.
        Test = "test",
    }
}

choice! {
    /// The law of the adhesive layer.
    Law {
        /// Shear and peel in proportion to slip and opening: no capacity.
        Linear = "linear",
        /// Shear level from the strength to the strain at failure; peel elastic, and not judged.
        ElasticPlastic = "elastic-plastic",
        /// Shear and peel soften until their toughness is spent; taken where nothing else is said and the toughnesses are given.
        Bilinear = "bilinear",
    }
}

choice! {
    /// How the toughnesses of opening and shear mix.
    MixedModeLaw {
        /// (G_I/G_Ic)^a + (G_II/G_IIc)^a = 1.
        Power = "power",
        /// G_Ic + (G_IIc − G_Ic) (G_II/G)^η, after Benzeggagh and Kenane 1996.
        BenzeggaghKenane = "Benzeggagh-Kenane",
    }
}

choice! {
    /// Whether the plates may yield.
    Plasticity {
        /// Elastic, whatever the stress.
        Elastic = "elastic",
        /// By proof and tensile strength and elongation.
        Plastic = "plastic",
    }
}

choice! {
    /// Whether the bending of the plates changes the lever arms.
    Geometry {
        /// Equilibrium on the deformed shape, moderate rotations.
        SecondOrder = "second order",
        /// Equilibrium on the undeformed shape.
        FirstOrder = "first order",
    }
}
