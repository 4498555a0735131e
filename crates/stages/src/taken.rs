//! What a job leaves open at its head and in its sections, and what is then taken for granted.

use assessment::Basis;
use job::Job;
use job::tables::{Section, Tables};

use crate::Results;

/// The units of the results.
pub(crate) fn head(job: &Job, results: &mut Results) {
    let Some(head) = job.tables.job.get() else { return };
    let basis = Basis::CommonPractice("metric units where none are named; no result depends on them");
    results.assume_silent(&head.units, basis, |_| "Results are shown in metric units.".to_owned());
}

/// The corners, foots and walls of a section that the file does not describe.
pub(crate) fn section(name: &str, section: &Section, results: &mut Results) {
    let drawn = "sections as they are drawn, nothing added";
    if let Some(hollow) = section.hollow.get() {
        results.assume_silent(&hollow.inner_radius, Basis::CommonPractice(drawn), |_| {
            format!("The corners of the section {name} are taken for sharp.")
        });
    } else if let Some(hat) = section.hat.get() {
        results.assume_silent(&hat.plate, Basis::CommonPractice(drawn), |_| {
            format!("The foot of the hat {name} is taken for open, without a plate.")
        });
    } else if let Some(walls) = section.walls.get() {
        let basis = Basis::CommonPractice("thin-walled sections are tabled for a Poisson's ratio of zero");
        let statement =
            format!("The properties of the section {name} are given for a Poisson's ratio of 0.00.");
        results.assume(&section.key, statement, basis);
        if walls.iter().any(|wall| wall.material.get().is_none()) {
            let statement =
                format!("Walls of the section {name} that name no material are of the member's material.");
            results.assume(&section.walls.key, statement, Basis::CommonPractice(drawn));
        }
    }
}

/// The partial factors of the method on a kind of part, where the method brings its own: factors of the job are
/// then not used.
pub(crate) fn factor_of_method(
    what: &str,
    gamma: f64,
    own: Option<&str>,
    tables: &Tables,
    results: &mut Results,
) {
    let unused = own.filter(|_| tables.factors.get().is_some());
    let unused = unused.map_or(String::new(), |key| format!("; {key} of the job is not used there"));
    let statement = format!("The strength of {what} is divided by {gamma:.2}{unused}.");
    let basis = Basis::Memory("partial factors of EN 1999-1-1:2007, 6.1.3, 8.1.1 and 8.6.3");
    results.assume("job.method", statement, basis);
}

#[cfg(test)]
mod tests;
