//! The tables of the job file, each written down once.

mod adhesive;
mod bond_day;
mod case;
mod coupons;
mod fatigue;
mod head;
mod joint;
mod material;
mod member;
mod rivet;
mod section;

pub use adhesive::{
    Adhesive, AdhesiveClass, AtBondline, AtTemperature, CureRow, GlassTransition, Kinetics, KineticsModel,
    LapShear, Strengths, WorkingTime,
};
pub use bond_day::{Air, BondDay, Heating, LaterHeat, TemperatureUnit};
pub use case::{
    Braking, Case, Kerb, PointForce, PointMass, Pull, PushedFrom, Resultants, Towing, TrailerKind,
};
pub use coupons::{CouponKind, Coupons, Distribution};
pub use fatigue::{Block, ForceCycles, Spectrum, StressCycles};
pub use head::{BondLost, Exposure, Factors, Head, Method, Procedure, Scatter, Sectioning, Service, Units};
pub use joint::{
    Adherend, BondedStretch, Closing, Disc, DiscLoad, DoubleLap, Ends, Face, Geometry, Joint, Lap, Law, Load,
    LoadKind, MixedMode, MixedModeLaw, Model, Part, Plasticity, PlateRivets, Restored, RivetPositions,
    Rivets, SectionLoad, Side, Sleeve, Socket, Surface, Tube, TubeLoad, TubePart, Void,
};
pub use material::Material;
pub use member::{Axis, Member, Rib};
pub use rivet::{Rivet, RivetKind, RivetMaterial};
pub use section::{Channel, Hat, HollowBox, Section, TubeShape, Wall};

use crate::Entry;
use crate::table::table;

table! {
    /// A job: one repair on one vehicle.
    Tables {
        /// The version of the job file; 1.
        @required fayline: u32 [Between(1.0, 1.0)],
        /// What the job is, and how it is judged.
        @required job: Head,
        /// Partial factors for the progressive capacity, and for the nominal check where the method is "own".
        factors: Factors,
        /// How far things scatter, for the chance of failure.
        scatter: Scatter,
        /// Materials of the parts that are joined.
        @named materials: Material,
        /// Structural adhesives, as their makers or your own tests describe them.
        @named adhesives: Adhesive,
        /// Kinds of rivets.
        @named rivets: Rivet,
        /// Thin-walled cross-sections.
        @named sections: Section,
        /// Structural parts with a longitudinal axis.
        @named members: Member,
        /// Load cases on members.
        @named cases: Case,
        /// Joints to be made.
        @named joints: Joint,
        /// The day on which the adhesive is mixed and the parts are closed.
        bond_day: BondDay,
        /// Sets of witness coupons.
        @named coupons: Coupons,
    }
}

impl Tables {
    /// The key of the spectrum of every load case, on members and on joints.
    pub(crate) fn spectrum_entries(&self) -> impl Iterator<Item = &Entry<Spectrum>> {
        let of_members = self.cases.iter().map(|(_, case)| &case.spectrum);
        of_members.chain(self.joints.iter().flat_map(|(_, joint)| joint.spectra()))
    }

    /// The spectra that are given.
    pub(crate) fn spectra(&self) -> impl Iterator<Item = &Spectrum> {
        self.spectrum_entries().filter_map(Entry::get)
    }
}
