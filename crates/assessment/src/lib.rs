//! What is found out about a job: findings, quantities and series, and the three ways to have no number.
//!
//! Stages produce them, faces render them; no face computes.

mod assumption;
mod basis;
mod finding;
mod known;
pub mod names;
mod plan;
mod quantities;
mod series;
mod sheet;
mod stage;
mod unknown;

pub use assumption::Assumption;
pub use basis::Basis;
pub use finding::{Finding, Next, Verdict};
pub use known::{Known, Lack};
pub use names::Name;
pub use plan::{Plan, Step, When};
pub use quantities::{Measure, Quantities};
pub use series::{Column, PointName, Series, SeriesMap};
pub use sheet::{Bead, Beads, Cell, Field, Patch, Sheet, SheetFace, SheetHole};
pub use stage::Stage;
pub use unknown::Unknown;

use std::collections::BTreeMap;

/// Everything that was found out about one job.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The job's title.
    pub title: String,
    /// The job file's name as the user knows it.
    pub name: String,
    /// SHA-256 of the job file and its data.
    pub hash: String,
    /// The system of units in which the statements are written.
    pub system: quantity::System,
    /// Findings: by stage in the repairer's order, worst first within a stage.
    pub findings: Vec<Finding>,
    /// Every number under its dotted name.
    pub quantities: Quantities,
    /// Values along a line.
    pub series: SeriesMap,
    /// The faying surfaces of each joint, laid flat.
    pub sheets: Vec<Sheet>,
    /// Values over a sheet, under dotted names.
    pub fields: BTreeMap<String, Field>,
    /// What was taken for granted because the job does not say it, by key.
    pub assumptions: Vec<Assumption>,
    /// The plan of the bond day, joint by joint.
    pub plans: Vec<Plan>,
    /// Stages for which the job has no table.
    pub not_asked: Vec<Stage>,
}

impl Assessment {
    /// The worst verdict of all findings; `unknown` where nothing was required.
    pub fn verdict(&self) -> Verdict {
        let required = self.findings.iter().map(|finding| finding.verdict);
        required.filter(|verdict| *verdict != Verdict::Note).min().unwrap_or(Verdict::Unknown)
    }

    /// The worst verdict of one stage; `None` where it has no findings.
    pub fn verdict_of(&self, stage: Stage) -> Option<Verdict> {
        self.of(stage).map(|finding| finding.verdict).min()
    }

    /// The findings of one stage, worst first.
    pub fn of(&self, stage: Stage) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(move |finding| finding.stage == stage)
    }

    /// Whether a solver failed on the way.
    pub fn failed(&self) -> bool {
        let findings = self.findings.iter().filter_map(|finding| finding.lack.as_ref());
        findings.chain(self.quantities.lacks()).any(|lack| matches!(lack, Lack::Failed { .. }))
    }
}

#[cfg(test)]
mod tests;
