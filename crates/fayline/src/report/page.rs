//! The page: verdict, one next step, findings by stage with their charts, what is unknown, all numbers.

use assessment::{Assessment, Finding, Sheet, SheetFace, SheetHole, Stage, Verdict};
use drawing::figure::Figure;
use drawing::fonts::{self, Cut};
use drawing::{look, svg};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use quantity::{Kind, System};

use super::charts;

/// Lines of the page's own style, on the 8 px grid and in the colours of the drawings.
const STYLE: &str = include_str!("report.css");

/// The usual cautions of the work that a report may set off.
const CAUTIONS: [&str; 5] = [
    "Follow the manufacturer's repair procedure and local rules. Where they differ from this report, they hold.",
    "High voltage: isolated, verified and locked by qualified people before anything is cut, drilled or heated.",
    "Two-part resins sensitise: gloves, eyes, ventilation. Read the safety data sheet of the batch at hand.",
    "Cutting and grinding aluminium: eyes, ears, lungs; its dust burns. No flame and no welding near a cured bond.",
    "A computed reserve is no proof. Witness coupons and a proof load show what this bond, on this day, holds.",
];

/// The report as one page that needs nothing else.
pub(crate) fn html(assessment: &Assessment) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (assessment.title) ": " (assessment.verdict().word()) }
                style { (PreEscaped(fonts::face_css(&[Cut::Regular, Cut::Bold]))) (PreEscaped(look::css())) (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (assessment.title) }
                    p.verdict { (verdict(assessment.verdict())) }
                    (next_step(assessment))
                }
                main {
                    @if let Some(ladder) = charts::reserves(assessment) { (drawn(&ladder)) }
                    @for stage in Stage::ALL { (of_stage(assessment, stage)) }
                    (not_asked(assessment))
                    (numbers(assessment))
                    section {
                        h2 { "Cautions" }
                        ul { @for caution in CAUTIONS { li { (caution) } } }
                    }
                }
                footer {
                    p { "Job file " (assessment.name) ", SHA-256 of the job and its data " code { (assessment.hash) } "." }
                    p { "Fayline " (env!("CARGO_PKG_VERSION")) ". It says which requirement is met, by what margin, and what it does not know." }
                }
            }
        }
    };
    page.into_string()
}

/// The mark of a verdict and its word.
fn verdict(verdict: Verdict) -> Markup {
    let colour = charts::look_of(verdict).colour().name();
    html! {
        span.word style={ "color:var(--" (colour) ")" } {
            (PreEscaped(look::mark_svg(charts::look_of(verdict)))) (verdict.word())
        }
    }
}

/// The one thing to do next: what mends the worst finding, or fills the first gap.
fn next_step(assessment: &Assessment) -> Markup {
    let open = [Verdict::NotMet, Verdict::Unknown];
    let step = open.iter().find_map(|verdict| {
        let mut of_verdict = assessment.findings.iter().filter(|finding| finding.verdict == *verdict);
        of_verdict.find_map(|finding| Some((finding, finding.next.as_ref()?)))
    });
    html! {
        @if let Some((finding, next)) = step {
            p.next { strong { "Next: " } (next.text) " " span.aside { (finding.headline()) } }
        }
    }
}

fn of_stage(assessment: &Assessment, stage: Stage) -> Markup {
    let Some(worst) = assessment.verdict_of(stage) else { return html! {} };
    html! {
        section {
            h2 { (stage.title()) }
            p.question { (stage.question()) " " (verdict(worst)) }
            @for finding in assessment.of(stage) { (one(finding)) }
            @for figure in charts::of(assessment, stage) { (drawn(&figure)) }
            @if stage == Stage::Join { @for sheet in &assessment.sheets { (holes(sheet, assessment.system)) } }
        }
    }
}

/// The holes of a sheet as a table to mark out by, from edges that a rule can reach.
fn holes(sheet: &Sheet, system: System) -> Markup {
    let rows: Vec<(&SheetFace, &SheetHole)> =
        sheet.faces.iter().flat_map(|face| face.holes.iter().map(move |hole| (face, hole))).collect();
    let length = |mm: f64| quantity::print(mm, Kind::Length, system);
    let from_edge = |hole: &SheetHole| match sheet.half_gap_mm {
        Some(half_gap) => hole.x_mm.abs() - half_gap,
        None => hole.x_mm - sheet.x_mm[0],
    };
    html! {
        @if !rows.is_empty() {
            h3 { "Holes of " (sheet.joint) }
            p { "Seen from outside, the member running to the right. " @if sheet.half_gap_mm.is_some() { "Distances from the cut face, to the left or to the right of it; " } @else { "Distances from the left end of the overlap; " } "along the face from its middle, upward on the sheet." }
            table {
                thead { tr { th.figure-cell { "hole" } th { "face" } th { "side" } th.figure-cell { "from the edge" } th.figure-cell { "from the middle" } th.figure-cell { "diameter" } } }
                tbody {
                    @for (face, hole) in rows {
                        tr {
                            td.figure-cell { (hole.number) }
                            td { (face.name) }
                            td { @if sheet.half_gap_mm.is_some() { @if hole.x_mm < 0.0 { "left" } @else { "right" } } }
                            td.figure-cell { (length(from_edge(hole))) }
                            td.figure-cell { (length(face.up * hole.s_mm)) }
                            td.figure-cell { (length(hole.diameter_mm)) }
                        }
                    }
                }
            }
        }
    }
}

fn one(finding: &Finding) -> Markup {
    html! {
        article id=(finding.id) {
            p.mark { (verdict(finding.verdict)) }
            div {
                p.statement { (finding.headline()) }
                @if !finding.because.is_empty() { p { (finding.because) } }
                @if let Some(next) = &finding.next { p { strong { "Next: " } (next.text) } }
                p.aside {
                    (finding.basis.to_string()) ". "
                    code { (finding.id) }
                    @if let Some(place) = &finding.place { ", line " (place.line) " of " (place.file) }
                }
            }
        }
    }
}

/// A figure, or the reason for which it cannot be drawn.
fn drawn(figure: &Figure) -> Markup {
    match svg::in_page(figure) {
        Ok(svg) => html! { figure { (PreEscaped(svg)) } },
        Err(error) => html! { p.aside { "A chart cannot be drawn: " (error.to_string()) } },
    }
}

fn not_asked(assessment: &Assessment) -> Markup {
    let stages: Vec<&str> = assessment.not_asked.iter().map(|stage| stage.title()).collect();
    html! {
        @if !stages.is_empty() {
            section {
                h2 { "Not asked" }
                p { "The job has no table for " (stages.join(", ")) ". Nothing is said of them, neither good nor bad." }
            }
        }
    }
}

fn numbers(assessment: &Assessment) -> Markup {
    html! {
        section {
            h2 { "All numbers" }
            table {
                thead { tr { th { "name" } th.figure-cell { "value" } th { "unit" } } }
                tbody {
                    @for (name, measure) in assessment.quantities.iter() {
                        tr { td { code { (name) } } td.figure-cell { (significant(measure.value)) } td { (measure.unit) } }
                    }
                    @for (name, lack) in assessment.quantities.unknown() {
                        tr { td { code { (name) } } td.figure-cell { "unknown" } td { (lack.to_string()) } }
                    }
                }
            }
        }
    }
}

/// Four significant digits, for the table of all numbers.
fn significant(value: f64) -> String {
    drawing::chart::rounded(value, 4)
}
