//! `[cases.X]`: load cases.

use quantity::{Acceleration, Angle, Force, Length, Mass, Moment};

use super::{LoadKind, Spectrum};
use crate::table::{choice, table};

table! {
    /// A load case: forces at points, masses, presets, or the resultants themselves.
    Case {
        /// What the case is for.
        kind: LoadKind,
        /// The load factor that replaces the method's.
        factor: f64 [Between(0.1, 20.0)],
        /// Forces at points, in vehicle axes.
        forces: Vec<PointForce>,
        /// Masses that hang on the member.
        masses: Vec<PointMass>,
        /// Acceleration that the masses feel, as weight, in vehicle axes; without it 9.80665 m/s² downwards.
        acceleration: [Acceleration; 3],
        /// Resultants at the cut, instead of forces.
        resultants: Resultants,
        /// A towing preset.
        towing: Towing,
        /// A recovery pull at an angle.
        pull: Pull,
        /// Braking at a wheel.
        braking: Braking,
        /// A wheel against a kerb.
        kerb: Kerb,
        /// Share of the case that the member takes, where a parallel path takes the rest.
        share: f64 [Between(0.001, 1.0)],
        /// How often it comes in the service life.
        spectrum: Spectrum,
        /// Share of its load that stays on for days or longer.
        lasting: f64 [Between(0.001, 1.0)],
    }
}

table! {
    /// A force at a point.
    PointForce {
        /// Where it acts.
        @required at: [Length; 3],
        /// The force.
        @required force: [Force; 3],
    }
}

table! {
    /// A mass at a point.
    PointMass {
        /// Where its centre is.
        @required at: [Length; 3],
        /// The mass.
        @required mass: Mass [Positive],
    }
}

table! {
    /// Resultants at the cut in the member's local axes: moments about the centroid, torque about the shear centre.
    Resultants {
        /// Axial force N, tension positive.
        axial: Force,
        /// Shear force along local y.
        shear_y: Force,
        /// Shear force along local z.
        shear_z: Force,
        /// Moment about local y.
        moment_y: Moment,
        /// Moment about local z.
        moment_z: Moment,
        /// Torque about the local x.
        torque: Moment,
    }
}

table! {
    /// Loads of a coupling by UN Regulation No. 55.
    Towing {
        /// Where the coupling is.
        @required at: [Length; 3],
        /// The class of trailer.
        @required trailer: TrailerKind,
        /// Mass of the towing vehicle, with the load on its coupling.
        @required vehicle: Mass [Positive],
        /// Mass of the trailer.
        @required trailer_mass: Mass [Positive],
        /// Static vertical load on the coupling, as mass.
        nose_load: Mass [NotNegative],
        /// Length of the trailer's loading area; for a centre-axle trailer above 3.5 t.
        loading_length: Length [Positive],
        /// From the coupling to the middle of the trailer's axles; for a centre-axle trailer above 3.5 t.
        drawbar_length: Length [Positive],
        /// Vertical acceleration at the coupling: 1.8 m/s² with air suspension at the towing vehicle's rear axle, else 2.4 m/s²; without it, 2.4 m/s².
        vertical_acceleration: Acceleration [Positive],
    }
}

table! {
    /// A pull at an angle, as in a recovery.
    Pull {
        /// Where it acts.
        @required at: [Length; 3],
        /// The force.
        @required force: Force [Positive],
        /// Angle sideways from straight back, to the vehicle's right.
        sideways: Angle [Between(-90.0, 90.0)],
        /// Angle upwards.
        upwards: Angle [Between(-90.0, 90.0)],
    }
}

table! {
    /// Braking at a wheel: friction pulls it back, the road carries it. Common practice.
    Braking {
        /// Where the tyre touches the road.
        @required at: [Length; 3],
        /// What the wheel carries, as mass.
        @required wheel_load: Mass [Positive],
        /// Friction of tyre and road; 0.8 without it.
        friction: f64 [Between(0.05, 1.5)],
    }
}

table! {
    /// A wheel that slides sideways against a kerb. Common practice.
    Kerb {
        /// Where the tyre meets the kerb.
        @required at: [Length; 3],
        /// What the wheel carries, as mass.
        @required wheel_load: Mass [Positive],
        /// The side from which the kerb pushes.
        @required from: PushedFrom,
        /// Side force as a multiple of the wheel load; 1.0 without it.
        factor: f64 [Between(0.1, 3.0)],
    }
}

choice! {
    /// The side from which something pushes.
    PushedFrom {
        /// From the vehicle's left.
        Left = "left",
        /// From the vehicle's right.
        Right = "right",
    }
}

choice! {
    /// The class of trailer.
    TrailerKind {
        /// One axle group near the middle, its nose on the coupling.
        CentreAxle = "centre axle",
        /// A turning front axle; no weight on the coupling.
        Drawbar = "drawbar",
    }
}
