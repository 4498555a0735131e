//! `[bond_day]`.

use quantity::{Length, Temperature, Time, Volume};

use crate::entry::Located;
use crate::table::{choice, table};

table! {
    /// The day on which the adhesive is mixed and the parts are closed.
    BondDay {
        /// Temperature of the parts, constant.
        temperature: Temperature [Between(-60.0, 250.0)],
        /// Until when the constant temperature is promised, from first mix.
        until: Time [Positive],
        /// A logger's CSV file instead: `time` or `time_s`, and `temperature`.
        log: String,
        /// The unit of the log's temperatures.
        temperature_unit: TemperatureUnit,
        /// The longest time between two samples that is no gap; 1 h without it.
        longest_gap: Time [Positive],
        /// The joints made on that day, by their names under `[joints]`; without it, all of them.
        joints: Vec<Located<String>>,
        /// How many people work.
        people: u32 [Between(1.0, 50.0)],
        /// Share of the full strength at which the part may be moved.
        handling: f64 [Between(0.01, 1.0)],
        /// Share of the full strength at which the vehicle may be driven.
        driving: f64 [Between(0.01, 1.0)],
        /// When the part must be moved, from first mix.
        moved_by: Time [Positive],
        /// When the vehicle must be driven, from first mix.
        driven_by: Time [Positive],
        /// Thickness of the thin coat rubbed into both faces before the bead; 0.1 mm without it.
        wetting_coat: Length [Between(0.0, 5.0)],
        /// Adhesive pressed out beyond the faces, as a share of what stays in; 0.2 without it.
        squeeze_out: f64 [Between(0.0, 3.0)],
        /// Adhesive thrown away with each new nozzle; 10 mL without it.
        purge: Volume [Between(0.0, 500.0)],
    }
}

choice! {
    /// The unit of a log's temperatures.
    TemperatureUnit {
        /// Degrees Celsius.
        Celsius = "°C",
        /// Degrees Fahrenheit.
        Fahrenheit = "°F",
    }
}
