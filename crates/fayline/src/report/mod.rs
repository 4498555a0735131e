//! The report of a job: one document, printed as an HTML page that needs nothing else and as a PDF for paper.

mod build;
mod charts;
mod document;
mod held;
mod html;
mod paper;
mod tables;

use assessment::Assessment;
use drawing::pdf::PdfError;
use drawing::template::Paper;

/// The report as one HTML page.
pub(crate) fn html(assessment: &Assessment) -> String {
    html::print(&build::document(assessment))
}

/// The report as a PDF on a paper.
///
/// # Errors
/// See [`PdfError`].
pub(crate) fn pdf(assessment: &Assessment, paper: Paper) -> Result<Vec<u8>, PdfError> {
    paper::print(&build::document(assessment), paper)
}

#[cfg(test)]
mod tests;
