//! The stages of a job, one module each, and [`assess`], the only way from a job to its findings.

mod beads;
mod bond_day;
mod coupons;
mod faying;
mod join;
mod recovery;
mod results;
mod sections;
mod sheet;
pub mod size;
mod taken;
mod watch;
mod witness;

use std::num::NonZeroUsize;
use std::sync::Arc;

use assessment::{Assessment, Finding, Lack, Stage};
use job::Job;

pub use results::Results;
pub use watch::{Progress, Watch};

/// What is asked of an assessment, beside the job.
#[derive(Debug, Clone)]
pub struct Ask {
    /// Elements along the overlap of each linear strip.
    pub strip_elements: u32,
    /// Whether bonds are loaded until they give way. It takes most of the time; without, the findings and numbers that
    /// come of it are left out.
    pub to_failure: bool,
    /// Whether the chance of failure of bonds is found, and how; it takes seconds to a minute.
    pub probability: Option<Sampling>,
    /// How far the chances of failure have come, and whether to end with what is known of them; all else is always
    /// done.
    pub watch: Arc<Watch>,
}

/// How chances are found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sampling {
    /// What the random numbers are made from: same seed, same answer.
    pub seed: u64,
    /// Strips that may be loaded until they fail, in the whole job. They are shared evenly among its loads; when they
    /// are used up, the interval that is known is told.
    pub strips: u32,
    /// Threads that load them, or as many as there are processors; the answer does not depend on it.
    pub threads: Option<NonZeroUsize>,
}

impl Default for Sampling {
    /// 5000 strips: about a minute where each takes 20 ms, on two processors, and some take 5.
    fn default() -> Self {
        Self { seed: 1, strips: 5000, threads: None }
    }
}

impl Default for Ask {
    fn default() -> Self {
        Self { strip_elements: 120, to_failure: true, probability: None, watch: Arc::default() }
    }
}

/// Assesses a whole job.
///
/// The stages run in the order of need, each on what those before it found out: coupons, bond day, join.
/// They are shown in the repairer's order.
pub fn assess(job: &Job, ask: &Ask) -> Assessment {
    let mut results = Results::new(job);
    taken::head(job, &mut results);

    sections::run(job, &mut results);
    coupons::run(job, &mut results);
    recovery::run(job, ask, &mut results);
    let bond_day = bond_day::run(job, &mut results);
    join::run(job, &bond_day, ask, &mut results);
    sheet::run(job, &mut results);

    let mut findings: Vec<Finding> = results.findings.into_iter().map(finite).collect();
    // Worst first: by verdict, then by reserve; what has no reserve keeps its place behind those that have one.
    let reserve = |finding: &Finding| finding.reserve.unwrap_or(f64::INFINITY);
    findings.sort_by(|a, b| {
        (a.stage, a.verdict).cmp(&(b.stage, b.verdict)).then_with(|| reserve(a).total_cmp(&reserve(b)))
    });
    let not_asked =
        Stage::ALL.into_iter().filter(|stage| findings.iter().all(|finding| finding.stage != *stage));
    Assessment {
        title: job.tables.job.get().and_then(|head| head.title.get()).cloned().unwrap_or_default(),
        name: job.name.clone(),
        hash: job.hash.clone(),
        system: results.system,
        not_asked: not_asked.collect(),
        findings,
        quantities: results.quantities,
        series: results.series,
        sheets: results.sheets,
        fields: results.fields,
        assumptions: Results::assumed(results.assumptions),
        plans: results.plans,
    }
}

/// A finding with finite numbers as it is; any other as one that cannot be told, for such a number never leaves
/// the core.
fn finite(finding: Finding) -> Finding {
    let measures = [finding.value, finding.limit].into_iter().flatten().map(|measure| measure.value);
    if measures.chain(finding.reserve).all(f64::is_finite) {
        return finding;
    }
    let lack = Lack::Failed {
        what: format!("{} came out as no finite number", finding.id),
        advice: "check the inputs for extreme values".to_owned(),
    };
    let statement = format!("What was asked of {} cannot be told.", finding.about);
    Finding { value: None, limit: None, reserve: None, ..finding }.unknown(statement, lack)
}

#[cfg(test)]
mod tests;
