//! Ours against theirs.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::Path;

use quantity::Kind;
use serde::Deserialize;
use toml::Value;

use crate::case_file::{Case, CaseFile, Known, Source};
use crate::error::{CaseError, ValidationError};
use crate::inputs::{self, Inputs};
use crate::methods::{self, Output};
use crate::plan::{self, Run};

/// One quantity of one case: the run that comes out worst stands for all.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Where the expected value comes from.
    pub source: Source,
    /// The case.
    pub case: String,
    /// What it checks.
    pub checks: String,
    /// How the expected value is known.
    pub known: Known,
    /// The output that is compared.
    pub quantity: &'static str,
    /// Its unit; empty for a number.
    pub unit: &'static str,
    /// The tolerance as it is written.
    pub within: Within,
    /// Why that tolerance.
    pub why: String,
    /// Why it lies outside its tolerance, where that is known.
    pub outside: Option<String>,
    /// Number of runs.
    pub runs: usize,
    /// The run that uses most of its tolerance.
    pub worst: Pair,
}

/// Ours and theirs in one run.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// What sets the run apart; empty where it is the only one.
    pub label: String,
    /// What the method gives.
    pub ours: f64,
    /// What is expected.
    pub theirs: f64,
}

/// How far ours may be from theirs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Within {
    /// This far, in the unit of the quantity.
    Absolute(f64),
    /// This share of the expected value.
    Relative(f64),
}

impl Within {
    /// The tolerance in the unit of the quantity.
    pub fn allowed(self, theirs: f64) -> f64 {
        match self {
            Self::Absolute(allowed) => allowed,
            Self::Relative(share) => share * theirs.abs(),
        }
    }
}

impl Pair {
    fn holds(&self, within: Within) -> bool {
        (self.ours - self.theirs).abs() <= within.allowed(self.theirs)
    }

    /// Whether it lies outside where the other does not, or uses more of its tolerance.
    fn is_worse_than(&self, other: &Self, within: Within) -> bool {
        let (holds, other_holds) = (self.holds(within), other.holds(within));
        if holds == other_holds { self.used(within) > other.used(within) } else { other_holds }
    }

    /// The share of the tolerance that the difference uses, in thousandths, so that it is not
    /// rounding that picks one run among many; infinite where nothing is allowed.
    fn used(&self, within: Within) -> f64 {
        let difference = (self.ours - self.theirs).abs();
        if difference > 0.0 { (1000.0 * difference / within.allowed(self.theirs)).round() } else { 0.0 }
    }
}

impl Comparison {
    /// Whether every run lies inside the tolerance, or one outside it as the case says.
    ///
    /// A case that says so and lies inside does not hold either: what it says is out of date.
    pub fn holds(&self) -> bool {
        self.is_inside() != self.outside.is_some()
    }

    /// Whether every run lies inside the tolerance.
    pub fn is_inside(&self) -> bool {
        self.worst.holds(self.within)
    }
}

/// An expected value that is written as a table.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Expectation {
    value: Option<Value>,
    from: Option<String>,
    within: Option<Value>,
    why: Option<String>,
    outside: Option<String>,
}

impl CaseFile {
    /// Runs the cases and compares; `references` is the folder of the reference files.
    ///
    /// # Errors
    ///
    /// The first case that cannot be run, two cases of one id, or an input for all cases that none
    /// of them reads.
    pub fn run(&self, references: &Path) -> Result<Vec<Comparison>, ValidationError> {
        let mut comparisons = Vec::new();
        let (mut ids, mut read) = (BTreeSet::new(), BTreeSet::new());
        for case in &self.cases {
            let (file, name) = (self.name.clone(), case.id.clone());
            if !ids.insert(&case.id) {
                return Err(ValidationError::SecondOfThatName { file, case: name });
            }
            let compared = self.compare(case, references, &mut read);
            comparisons.extend(compared.map_err(|source| ValidationError::Case {
                file,
                case: name,
                source: Box::new(source),
            })?);
        }
        match inputs::unread(&self.inputs, "", &read) {
            Some(key) => Err(ValidationError::UnusedInput { file: self.name.clone(), key }),
            None => Ok(comparisons),
        }
    }

    /// Runs a case; what it reads is added to `read`.
    fn compare(
        &self,
        case: &Case,
        references: &Path,
        read: &mut BTreeSet<String>,
    ) -> Result<Vec<Comparison>, CaseError> {
        let method = methods::named(&case.method)?;
        let mut answered = Vec::new();
        for run in plan::runs(self, case, references)? {
            let seen = RefCell::default();
            let outputs = method(&Inputs::new(&run.inputs, &seen))?;
            let seen = seen.into_inner();
            if let Some(key) = inputs::unread(&case.inputs, "", &seen) {
                return Err(CaseError::UnusedInput { key });
            }
            read.extend(seen);
            answered.push((run, outputs));
        }
        if case.expected.is_empty() {
            return Err(CaseError::NothingExpected);
        }
        let expected = case.expected.iter();
        expected.map(|(output, value)| self.compare_output(case, output, value, &answered)).collect()
    }

    fn compare_output(
        &self,
        case: &Case,
        name: &str,
        expected: &Value,
        answered: &[(Run, Vec<Output>)],
    ) -> Result<Comparison, CaseError> {
        let output = || name.to_owned();
        let written = match expected {
            Value::Table(table) => table.clone().try_into().map_err(|source: toml::de::Error| {
                CaseError::MalformedExpectation { output: output(), source: Box::new(source) }
            })?,
            value => Expectation { value: Some(value.clone()), ..Expectation::default() },
        };
        // Beside the value, else for the case, else for the file.
        let common = self.tolerances.get(name);
        let within = written.within.as_ref().or(case.within.as_ref()).or(common.map(|common| &common.within));
        let within = within.ok_or_else(|| CaseError::NoTolerance { output: output() })?;
        let why = written.why.as_ref().or(case.why.as_ref()).or(common.map(|common| &common.why));
        let why = why.filter(|why| !why.trim().is_empty());
        let why = why.ok_or_else(|| CaseError::NoReason { output: output() })?;

        let mut worst: Option<(Pair, Within, &Output)> = None;
        for (run, outputs) in answered {
            let ours = outputs.iter().find(|ours| ours.name == name).ok_or_else(|| {
                let given = outputs.iter().map(|output| output.name).collect();
                CaseError::UnknownOutput { found: output(), given }
            })?;
            if !ours.value.is_finite() {
                return Err(CaseError::NotFinite { output: output(), value: ours.value });
            }
            let within = tolerance(name, within, ours.kind)?;
            let theirs = match (&written.value, &written.from) {
                (Some(value), None) => inputs::quantity_of(name, run.own(value)?, ours.kind)?,
                (None, Some(path)) => inputs::bare_number(path, run.referred(path)?)?,
                _ => return Err(CaseError::ValueOrReference { output: output() }),
            };
            let pair = Pair { label: run.label.clone(), ours: ours.value, theirs };
            if worst.as_ref().is_none_or(|(so_far, ..)| pair.is_worse_than(so_far, within)) {
                worst = Some((pair, within, ours));
            }
        }
        let (worst, within, ours) = worst.ok_or(CaseError::NothingExpected)?;
        Ok(Comparison {
            source: self.source.clone(),
            case: case.id.clone(),
            checks: case.checks.clone(),
            known: case.known,
            quantity: ours.name,
            unit: ours.unit,
            within,
            why: why.clone(),
            outside: written.outside,
            runs: answered.len(),
            worst,
        })
    }
}

/// A tolerance as written: in per cent of the expected value, or in the unit of the quantity.
fn tolerance(output: &str, value: &Value, kind: Kind) -> Result<Within, CaseError> {
    let relative = value.as_str().is_some_and(|text| text.trim_end().ends_with('%'));
    let within = if relative {
        Within::Relative(inputs::quantity_of(output, value, Kind::Factor)?)
    } else {
        // Between two temperatures lies a difference of temperatures.
        let kind = if kind == Kind::Temperature { Kind::TemperatureDifference } else { kind };
        Within::Absolute(inputs::quantity_of(output, value, kind)?)
    };
    match within {
        Within::Absolute(size) | Within::Relative(size) if size >= 0.0 => Ok(within),
        _ => Err(CaseError::NegativeTolerance { output: output.to_owned() }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pair(ours: f64) -> Pair {
        Pair { label: String::new(), ours, theirs: 100.0 }
    }

    #[test]
    fn unit_a_run_just_outside_is_worse_than_one_just_inside() {
        let within = Within::Relative(0.01);
        let (inside, outside) = (pair(100.9999), pair(101.0001));
        assert!(inside.holds(within) && !outside.holds(within));
        assert!(outside.is_worse_than(&inside, within) && !inside.is_worse_than(&outside, within));
    }

    #[test]
    fn unit_rounding_makes_no_run_the_worst() {
        let within = Within::Absolute(1.0);
        assert!(!pair(100.000_1).is_worse_than(&pair(100.0), within));
        assert!(pair(100.1).is_worse_than(&pair(100.0), within));
    }

    #[test]
    fn unit_where_nothing_is_allowed_only_the_same_number_holds() {
        let exact = Within::Absolute(0.0);
        assert!(pair(100.0).holds(exact) && !pair(100.000_000_1).holds(exact));
        assert!(pair(100.000_000_1).used(exact).is_infinite());
    }
}
