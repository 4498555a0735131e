//! One unit for many values: what an axis, a legend or a dimension on a drawing is written in.

use crate::kind::Kind;
use crate::print::{System, ladder};

/// The unit of an axis and the way from base-unit numbers to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    unit: &'static str,
    /// One of the unit, in the base unit.
    one: f64,
    /// Where the unit's zero lies, in the unit: only °F has one other than its base unit's.
    zero: f64,
}

impl Scale {
    /// The unit in which a value as great as `size` (in the base unit) prints, in a system of units.
    ///
    /// The units and their factors are those of [`print()`](crate::print()), so that an axis and a sentence about the
    /// same value speak alike. What is not finite counts as one.
    ///
    /// ```
    /// use quantity::{Kind, Scale, System};
    /// let scale = Scale::of(24.0, Kind::Stress, System::Imperial);
    /// assert_eq!(scale.unit(), "psi");
    /// assert!((scale.value(24.0) - 3480.9).abs() < 0.1);
    /// assert_eq!(Scale::of(16.0, Kind::Temperature, System::Imperial).value(16.0), 60.8);
    /// ```
    pub fn of(size: f64, kind: Kind, system: System) -> Self {
        match (kind, system) {
            (Kind::Temperature, System::Metric) => return Self { unit: "°C", one: 1.0, zero: 0.0 },
            (Kind::Temperature, System::Imperial) => {
                return Self { unit: "°F", one: 1.0 / 1.8, zero: 32.0 };
            }
            _ => {}
        }
        let size = if size.is_finite() && size != 0.0 { size.abs() } else { 1.0 };
        let found = ladder(kind, system).iter().rev().find_map(|&(unit, least)| {
            let one = crate::parse(&format!("1{unit}"), kind).ok()?;
            (size / one >= least).then_some(Self { unit: unit.trim_start(), one, zero: 0.0 })
        });
        // Every ladder begins at zero, so there is always a first rung.
        found.unwrap_or(Self { unit: kind.base_unit(), one: 1.0, zero: 0.0 })
    }

    /// The unit; empty for a number without one.
    pub fn unit(&self) -> &'static str {
        self.unit
    }

    /// A number of the base unit in this one.
    pub fn value(&self, base: f64) -> f64 {
        base / self.one + self.zero
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::print;

    #[test]
    fn unit_axes_speak_as_sentences_do() {
        for (value, kind) in [
            (310.0, Kind::Length),
            (23.1, Kind::Stress),
            (412.0, Kind::LineLoad),
            (1.5e6, Kind::Moment),
            (16_580.0, Kind::Force),
            (55.0, Kind::Temperature),
        ] {
            for system in [System::Metric, System::Imperial] {
                let scale = Scale::of(value, kind, system);
                let words = print(value, kind, system);
                assert!(words.ends_with(scale.unit()), "{words} on an axis in {}", scale.unit());
                let number: f64 = words.trim_end_matches(scale.unit()).trim().parse().expect("a number");
                // Three figures are printed: half of the third is 0.5 % of the value at most.
                assert!((number - scale.value(value)).abs() <= 5e-3 * number.abs(), "{words}");
            }
        }
    }

    proptest! {
        /// A scale is a straight line: equal steps stay equal, whatever the unit.
        #[test]
        fn law_equal_steps_stay_equal(
            size in 1e-3..1e9_f64,
            from in -1e3..1e3_f64,
            step in 1e-3..1e3_f64,
            kind in proptest::sample::select(Kind::ALL.to_vec()),
            imperial in any::<bool>(),
        ) {
            let system = if imperial { System::Imperial } else { System::Metric };
            let scale = Scale::of(size, kind, system);
            let steps = [0.0, 1.0, 2.0].map(|k| scale.value(from + k * step));
            // Rounding of three divisions of numbers up to 3000 steps apart.
            let slack = 1e-12 * steps.iter().fold(0.0_f64, |most, it| most.max(it.abs()));
            prop_assert!((steps[2] - steps[1] - (steps[1] - steps[0])).abs() <= 4.0 * slack);
            prop_assert!(steps[1] > steps[0]);
        }
    }
}
