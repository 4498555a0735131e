//! Every computed number under its dotted name.

use std::collections::BTreeMap;

use crate::{Known, Lack, Name};

/// A number with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// The number; always finite.
    pub value: f64,
    /// Its unit.
    pub unit: &'static str,
    /// Its kind, where the kind has units in both systems.
    pub kind: Option<quantity::Kind>,
}

impl Measure {
    /// A number of a kind, in the kind's base unit.
    pub fn of(value: f64, kind: quantity::Kind) -> Self {
        Self { value, unit: kind.base_unit(), kind: Some(kind) }
    }

    /// The number and its unit in a system of units.
    pub fn print(&self, system: quantity::System) -> String {
        match self.kind {
            Some(kind) => quantity::print(self.value, kind, system),
            None => {
                let number = quantity::print(self.value, quantity::Kind::Factor, system);
                if self.unit == "-" { number } else { format!("{number} {}", self.unit) }
            }
        }
    }
}

/// Numbers, and reasons for having none, under dotted names.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Quantities {
    map: BTreeMap<String, Known<Measure>>,
}

impl Quantities {
    /// Puts a number, or the reason for having none, under a registered name.
    ///
    /// A number that is not finite is turned into a failure: it never leaves the core.
    pub fn put(&mut self, name: &Name, fill: &[&str], value: Known<f64>) {
        let dotted = name.fill(fill);
        let known = value.and_then(|value| {
            if value.is_finite() {
                Ok(Measure { value, unit: name.unit, kind: name.kind })
            } else {
                let what = format!("{dotted} came out as no finite number");
                Err(Lack::Failed { what, advice: "check the inputs for extreme values".to_owned() })
            }
        });
        self.map.insert(dotted, known);
    }

    /// What is known under a name.
    pub fn get(&self, name: &str) -> Option<&Known<Measure>> {
        self.map.get(name)
    }

    /// All numbers, sorted by name.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Measure)> {
        self.map
            .iter()
            .filter_map(|(name, known)| known.as_ref().ok().map(|measure| (name.as_str(), measure)))
    }

    /// All names without a number, sorted, with the reason.
    pub fn unknown(&self) -> impl Iterator<Item = (&str, &Lack)> {
        self.map.iter().filter_map(|(name, known)| known.as_ref().err().map(|lack| (name.as_str(), lack)))
    }

    pub(crate) fn lacks(&self) -> impl Iterator<Item = &Lack> {
        self.map.values().filter_map(|known| known.as_ref().err())
    }

    /// Every name, with or without a number.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.map.keys().map(String::as_str)
    }
}
