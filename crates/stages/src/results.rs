//! Where the stages put what they find out.

use assessment::{Finding, Quantities, SeriesMap};
use job::Job;
use job::tables::Units;
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
}

impl Results {
    pub(crate) fn new(job: &Job) -> Self {
        let units = job.tables.job.get().and_then(|head| head.units.get());
        Self {
            system: if units == Some(&Units::Imperial) { System::Imperial } else { System::Metric },
            findings: Vec::new(),
            quantities: Quantities::default(),
            series: SeriesMap::default(),
        }
    }

    /// A number of a kind in words, in the user's system of units.
    pub(crate) fn print(&self, value: f64, kind: Kind) -> String {
        quantity::print(value, kind, self.system)
    }
}
