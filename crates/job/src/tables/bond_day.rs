//! `[bond_day]`.

use quantity::{Length, Temperature, Time, Volume};

use crate::Date;
use crate::entry::Located;
use crate::table::{choice, table};

table! {
    /// The day on which the adhesive is mixed and the parts are closed.
    BondDay {
        /// Temperature of the parts, constant.
        temperature: Temperature [Between(-60.0, 250.0)],
        /// Until when the constant temperature is promised, from first mix.
        until: Time [Positive],
        /// A logger's CSV file instead: `time_s`, or `time` with its offset as in 2031-11-07T08:30+01:00, and `temperature`.
        log: String,
        /// The unit of the log's temperatures.
        temperature_unit: TemperatureUnit,
        /// The longest time between two samples that is no gap; 1 h without it.
        longest_gap: Time [Positive],
        /// Stages of heat on top of the temperature, from a lamp or in an oven, in the order of time.
        heating: Vec<Heating>,
        /// Heat that the closed joint meets once more after its cure, such as a paint oven.
        later_heat: LaterHeat,
        /// The air in which the faces are bared, wiped and coated.
        air: Air,
        /// Temperature of the parts when they come in, where it is another than that of the day.
        parts: Temperature [Between(-60.0, 250.0)],
        /// The day, to hold the expiry of the adhesive against.
        date: Date,
        /// The joints made on that day, by their names under `[joints]`; without it, all of them.
        joints: Vec<Located<String>>,
        /// How many people work.
        people: u32 [Between(1.0, 50.0)],
        /// Planned from first mix to the last closing.
        closing_takes: Time [Positive],
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

table! {
    /// A stage of heat. When it ends the parts are taken to be back on the day's temperature at once.
    Heating {
        /// When the heat goes on, from first mix.
        @required from: Time [NotNegative],
        /// When the heat goes off, from first mix.
        @required until: Time [Positive],
        /// Temperature of the parts in this stage.
        @required temperature: Temperature [Between(-60.0, 250.0)],
        /// From going on until the parts have that temperature; 1 h without it.
        ramp: Time [NotNegative],
    }
}

impl Heating {
    /// From the heat going on until the parts have its temperature: as given, or an hour.
    pub fn ramp_or_default(&self) -> Time {
        self.ramp.get().copied().unwrap_or_else(|| quantity::Quantity::from_base(3600.0))
    }
}

table! {
    /// Heat after the cure, while the joint carries nothing but itself. It is judged against the glass transition.
    LaterHeat {
        /// The greatest temperature of the joint.
        @required temperature: Temperature [Between(-60.0, 250.0)],
        /// How long the joint has it.
        duration: Time [Positive],
    }
}

table! {
    /// The air of the workshop.
    Air {
        /// Its temperature.
        temperature: Temperature [Between(-45.0, 60.0)],
        /// Its relative humidity, as a share.
        humidity: f64 [Between(0.01, 1.0)],
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
