//! Where the stages put what they find out.

use std::collections::BTreeMap;

use assessment::{Assumption, Basis, Cell, Field, Finding, Name, Plan, Quantities, SeriesMap, Sheet};
use job::tables::Units;
use job::{Entry, Job};
use quantity::{Kind, System};

/// Findings, quantities and series of a job, while its stages run.
#[derive(Debug)]
pub struct Results {
    /// The system of units in which statements are written.
    pub system: System,
    /// Findings in the order in which they were found.
    pub findings: Vec<Finding>,
    /// Every number under its dotted name.
    pub quantities: Quantities,
    /// Values along a line.
    pub series: SeriesMap,
    /// Faying surfaces laid flat.
    pub sheets: Vec<Sheet>,
    /// Values over a sheet.
    pub fields: BTreeMap<String, Field>,
    /// What was taken for granted, by key and sentence.
    pub assumptions: BTreeMap<(String, String), Basis>,
    /// The plan of the bond day, joint by joint.
    pub plans: Vec<Plan>,
}

impl Results {
    pub(crate) fn new(job: &Job) -> Self {
        let units = job.tables.job.get().and_then(|head| head.units.get());
        Self {
            system: if units == Some(&Units::Imperial) { System::Imperial } else { System::Metric },
            findings: Vec::new(),
            quantities: Quantities::default(),
            series: SeriesMap::default(),
            sheets: Vec::new(),
            fields: BTreeMap::new(),
            assumptions: BTreeMap::new(),
            plans: Vec::new(),
        }
    }

    /// Puts a field under a registered name; cells that are not finite are left out.
    pub(crate) fn put_field(&mut self, name: &Name, joint: &str, case: &str, cells: Vec<Cell>) {
        let cells = cells.into_iter().filter(|cell| cell.value.is_finite()).collect();
        let field =
            Field { joint: joint.to_owned(), what: name.meaning, unit: name.unit, kind: name.kind, cells };
        self.fields.insert(name.fill(&[joint, case]), field);
    }

    /// Takes something for granted: the key that would say it, one sentence with the value, and on what it rests.
    /// The same thing taken twice is one.
    pub(crate) fn assume(&mut self, key: &str, statement: String, basis: Basis) {
        self.assumptions.entry((key.to_owned(), statement)).or_insert(basis);
    }

    /// Takes something for granted where the file is silent under a key.
    pub(crate) fn assume_silent<T>(
        &mut self,
        entry: &Entry<T>,
        basis: Basis,
        statement: impl FnOnce(&Self) -> String,
    ) {
        if entry.get().is_none() {
            let statement = statement(self);
            self.assume(&entry.key, statement, basis);
        }
    }

    /// All that was taken for granted, sorted by key.
    pub(crate) fn assumed(assumptions: BTreeMap<(String, String), Basis>) -> Vec<Assumption> {
        let all = assumptions.into_iter();
        all.map(|((key, statement), basis)| Assumption { key, statement, basis }).collect()
    }

    /// A number of a kind in words, in the user's system of units.
    pub(crate) fn print(&self, value: f64, kind: Kind) -> String {
        quantity::print(value, kind, self.system)
    }
}
