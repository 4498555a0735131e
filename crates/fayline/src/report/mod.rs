//! The report of a job.

use assessment::Assessment;

/// The report as one HTML page that needs nothing else.
pub(crate) fn html(assessment: &Assessment) -> String {
    maud::html! { (maud::DOCTYPE) html { head { title { (assessment.title) } } body { h1 { (assessment.title) } } } }.into_string()
}
