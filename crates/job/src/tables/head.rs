//! `[job]`, `[factors]` and `[scatter]`.

use quantity::Temperature;

use crate::table::{choice, table};

table! {
    /// What the job is, and how it is judged.
    Head {
        /// One line that names the repair.
        @required title: String,
        /// The method by which the nominal check is made.
        method: Method,
        /// The conditions in which the repaired part serves.
        service: Service,
        /// What the rivets alone must carry if the bond is lost; "limit" without it.
        bond_lost: BondLost,
        /// What the manufacturer's repair procedure says.
        procedure: Procedure,
        /// The units in which results are shown; the file itself may mix them.
        units: Units,
    }
}

table! {
    /// The conditions in which the repaired part serves.
    Service {
        /// The coldest temperature in service.
        coldest: Temperature,
        /// The hottest temperature in service.
        hottest: Temperature,
        /// Whether the part serves wet or in humid air.
        humid: bool,
        /// How wet and salty it is where the part serves; it sets how far apart the potentials of touching metals may lie.
        exposure: Exposure,
        /// The temperature at which the joint is free of thermal stress, usually that of the cure.
        stress_free: Temperature,
    }
}

table! {
    /// The manufacturer's repair procedure.
    Procedure {
        /// The document.
        document: String,
        /// The page in it.
        page: String,
        /// What it says of sectioning here.
        sectioning: Sectioning,
    }
}

table! {
    /// Partial factors of your own.
    Factors {
        /// Divides the strength of the bond.
        adhesive: f64 [Between(1.0, 100.0)],
        /// Divides the strength of the parts.
        metal: f64 [Between(1.0, 100.0)],
        /// Divides the sum of fatigue damage that is allowed; without it, 1.
        damage: f64 [Between(1.0, 100.0)],
    }
}

table! {
    /// Coefficients of variation for the chance of failure, and how strength and toughness are tied; the strengths
    /// have their own `scatter` with the adhesive.
    Scatter {
        /// Of the adhesive's toughness.
        toughness: f64 [Between(0.0, 0.5)],
        /// Of the bondline's thickness.
        bondline: f64 [Between(0.0, 0.5)],
        /// Of the overlap.
        overlap: f64 [Between(0.0, 0.5)],
        /// Of the share of strength and toughness that the faying surfaces leave.
        surface: f64 [Between(0.0, 0.5)],
        /// Of the load about what is written.
        load: f64 [Between(0.0, 0.5)],
        /// Correlation of an adhesive's strength with its toughness; independent without it.
        correlation: f64 [Between(0.0, 0.99)],
    }
}

choice! {
    /// The method by which the nominal check is made.
    Method {
        /// Nominal shear against the characteristic strength over 3.0, load factor 1.5.
        En1999 = "EN 1999-1-1",
        /// Nominal shear against the characteristic strength over your own factor, at your own load factor.
        Own = "own",
    }
}

choice! {
    /// How wet and salty it is where a part serves.
    Exposure {
        /// Salt, splash, the open: at most 0.15 V between touching metals.
        Harsh = "harsh",
        /// Sheltered, without salt: at most 0.25 V.
        Normal = "normal",
        /// Indoors, temperature and humidity held: at most 0.50 V.
        Controlled = "controlled",
    }
}

choice! {
    /// The units in which results are shown.
    Units {
        /// Newton, millimetre, megapascal, degree Celsius.
        Metric = "metric",
        /// Pound-force, inch, psi, degree Fahrenheit.
        Imperial = "imperial",
    }
}

choice! {
    /// What the rivets alone must carry if the bond is lost.
    BondLost {
        /// Each limit case, without its factor.
        Limit = "limit",
        /// Each limit case with its factor.
        Ultimate = "ultimate",
        /// Nothing; it is shown for information.
        Information = "information",
    }
}

choice! {
    /// What a procedure says of sectioning.
    Sectioning {
        /// Sectioning is allowed here.
        Allowed = "allowed",
        /// Sectioning is forbidden here.
        Forbidden = "forbidden",
        /// It says nothing.
        Silent = "silent",
    }
}
