//! A type for each kind of quantity, so that a length cannot be handed over as a force.

use std::fmt;
use std::str::FromStr;

use crate::error::ParseQuantityError;
use crate::kind::Kind;
use crate::parse::{ABSOLUTE_ZERO_CELSIUS, parse};
use crate::print::{System, print};

/// A quantity whose kind is known to the compiler.
pub trait Quantity: Copy {
    /// The kind of quantity.
    const KIND: Kind;

    /// From a number in the [base unit](Kind::base_unit).
    fn from_base(value: f64) -> Self;

    /// The number in the [base unit](Kind::base_unit).
    fn base(self) -> f64;
}

/// Makes the type of a kind with its readings in fixed units.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident { $($(#[$method_doc:meta])* $method:ident = $reading:expr;)* }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            $($(#[$method_doc])*
            pub fn $method(self) -> f64 {
                let reading: fn(f64) -> f64 = $reading;
                reading(self.0)
            })*
        }

        impl Quantity for $name {
            const KIND: Kind = Kind::$name;

            fn from_base(value: f64) -> Self {
                Self(value)
            }

            fn base(self) -> f64 {
                self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(&print(self.0, Self::KIND, System::Metric))
            }
        }

        impl FromStr for $name {
            type Err = ParseQuantityError;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                parse(text, Self::KIND).map(Self)
            }
        }
    };
}

quantity! {
    /// A length.
    Length {
        /// In mm.
        mm = |mm| mm;
    }
}
quantity! {
    /// An area.
    Area {
        /// In mm².
        mm2 = |mm2| mm2;
    }
}
quantity! {
    /// A volume.
    Volume {
        /// In mL.
        ml = |ml| ml;
        /// In mm³.
        mm3 = |ml| ml * 1000.0;
    }
}
quantity! {
    /// A force.
    Force {
        /// In N.
        n = |n| n;
    }
}
quantity! {
    /// A stress, a pressure or a modulus of elasticity.
    Stress {
        /// In `MPa`.
        mpa = |mpa| mpa;
    }
}
quantity! {
    /// A fracture toughness as energy per area.
    Toughness {
        /// In N/mm; 1 N/mm = 1 kJ/m².
        n_per_mm = |n_per_mm| n_per_mm;
    }
}
quantity! {
    /// A temperature as a point on its scale.
    Temperature {
        /// In °C.
        celsius = |celsius| celsius;
        /// In K.
        kelvin = |celsius| celsius - ABSOLUTE_ZERO_CELSIUS;
    }
}
quantity! {
    /// A difference of temperatures.
    TemperatureDifference {
        /// In K.
        kelvin = |kelvin| kelvin;
    }
}
quantity! {
    /// A time.
    Time {
        /// In s.
        seconds = |seconds| seconds;
    }
}
quantity! {
    /// A mass.
    Mass {
        /// In kg.
        kg = |kg| kg;
    }
}
quantity! {
    /// A force per length.
    LineLoad {
        /// In N/mm.
        n_per_mm = |n_per_mm| n_per_mm;
    }
}
quantity! {
    /// A moment or torque.
    Moment {
        /// In N·mm.
        n_mm = |n_mm| n_mm;
    }
}
quantity! {
    /// An angle.
    Angle {
        /// In degrees.
        degrees = |degrees| degrees;
        /// In radians.
        radians = f64::to_radians;
    }
}
quantity! {
    /// A rate: how much of a whole in a time.
    Rate {
        /// In 1/s.
        per_second = |per_second| per_second;
    }
}
quantity! {
    /// An activation energy.
    ActivationEnergy {
        /// In J/mol.
        j_per_mol = |j_per_mol| j_per_mol;
    }
}
quantity! {
    /// An electric potential.
    ElectricPotential {
        /// In V.
        volts = |volts| volts;
    }
}
quantity! {
    /// A stiffness: force per displacement.
    Stiffness {
        /// In N/mm.
        n_per_mm = |n_per_mm| n_per_mm;
    }
}
quantity! {
    /// A dynamic viscosity.
    Viscosity {
        /// In Pa·s.
        pa_s = |pa_s| pa_s;
    }
}
quantity! {
    /// An energy.
    Energy {
        /// In J.
        joules = |joules| joules;
    }
}
quantity! {
    /// A speed.
    Speed {
        /// In m/s.
        m_per_s = |m_per_s| m_per_s;
    }
}
quantity! {
    /// A coefficient of linear thermal expansion.
    ThermalExpansion {
        /// In 1/K.
        per_kelvin = |per_kelvin| per_kelvin;
    }
}
quantity! {
    /// An acceleration.
    Acceleration {
        /// In m/s².
        m_per_s2 = |m_per_s2| m_per_s2;
    }
}
quantity! {
    /// A density.
    Density {
        /// In kg/m³.
        kg_per_m3 = |kg_per_m3| kg_per_m3;
    }
}
quantity! {
    /// A second moment of area or a torsion constant.
    SecondMoment {
        /// In mm⁴.
        mm4 = |mm4| mm4;
    }
}
quantity! {
    /// A plain number, which may be written in per cent.
    Factor {
        /// The number.
        value = |value| value;
    }
}
