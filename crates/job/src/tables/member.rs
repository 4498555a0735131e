//! `[members.X]`.

use quantity::Length;

use crate::table::table;

table! {
    /// A structural part with a longitudinal axis.
    Member {
        /// Its section, by the name under `[sections]`.
        section: String,
        /// Its material, by the name under `[materials]`.
        material: String,
        /// Its axis, in vehicle axes.
        axis: Axis,
        /// The direction of local z before it is made normal to the axis; without it the vehicle's z.
        up: [f64; 3],
        /// Ribs inside the member, across its axis.
        @named ribs: Rib,
    }
}

table! {
    /// The axis of a member in vehicle axes: x forward, y left, z up.
    Axis {
        /// Where it begins, at the part that stays.
        @required from: [Length; 3],
        /// Where it ends, at the part that is loaded.
        @required to: [Length; 3],
    }
}

table! {
    /// A rib inside the member.
    Rib {
        /// Its station.
        @required station: Length,
    }
}
