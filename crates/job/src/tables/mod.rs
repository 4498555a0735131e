//! The tables of the job file, each written down once.

mod adhesive;
mod bond_day;
mod coupons;
mod head;
mod joint;
mod material;

pub use adhesive::{
    Adhesive, AdhesiveClass, AtBondline, AtTemperature, CureRow, GlassTransition, Strengths, WorkingTime,
};
pub use bond_day::{BondDay, TemperatureUnit};
pub use coupons::{Coupons, Distribution};
pub use head::{Factors, Head, Method, Service, Units};
pub use joint::{Adherend, Ends, Geometry, Joint, Lap, Law, Load, LoadKind, Model, Surface};
pub use material::Material;

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
        /// Materials of the parts that are joined.
        @named materials: Material,
        /// Structural adhesives, as their makers or your own tests describe them.
        @named adhesives: Adhesive,
        /// Joints to be made.
        @named joints: Joint,
        /// The day on which the adhesive is mixed and the parts are closed.
        bond_day: BondDay,
        /// Sets of witness coupons.
        @named coupons: Coupons,
    }
}
