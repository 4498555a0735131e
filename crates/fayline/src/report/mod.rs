//! The report of a job: one document, printed as an HTML page that needs nothing else and as a PDF for paper.

mod build;
mod charts;
mod document;
mod held;
mod html;
mod paper;
mod tables;

use assessment::{Assessment, Stage, Verdict};
use drawing::Figure;
use drawing::pdf::PdfError;
use drawing::template::Paper;
use maud::{Markup, html};

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

/// The charts, tables and drawings of a stage for a page of the workspace, printed as in the report, and each once:
/// what begins with `sheet-` the page draws itself.
pub(crate) fn beside_findings(assessment: &Assessment, stage: Stage) -> Markup {
    let blocks = build::beside_findings(assessment, stage);
    let own = |block: &&document::Block| match block {
        document::Block::Drawing(drawing) => !drawing.figure.name.starts_with("sheet-"),
        _ => true,
    };
    let printed = blocks.iter().filter(own).map(html::block);
    html! { @for block in printed { (block) } }
}

/// The ladder of the least reserve factors.
pub(crate) fn reserves(assessment: &Assessment) -> Markup {
    let figure = charts::reserves(assessment);
    let drawn =
        figure.map(|figure| document::Block::Drawing(document::Drawing { figure, full_scale: false }));
    html! { @if let Some(drawn) = drawn { (html::block(&drawn)) } }
}

/// The mark of a verdict and its word.
pub(crate) fn verdict(verdict: Verdict) -> Markup {
    html::verdict(verdict)
}

/// A drawing without its claim to be at full scale, which no screen keeps.
pub(crate) fn on_screen(figure: Figure) -> Figure {
    build::without_claim(figure)
}

/// The usual cautions.
pub(crate) const CAUTIONS: &[&str] = &build::CAUTIONS;

#[cfg(test)]
mod tests;
