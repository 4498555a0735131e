//! The pages of a job: the overview, and one for each stage.

use assessment::{Assessment, Finding, Lack, Stage, Verdict};
use job::Problem;
use job::keys;
use maud::{Markup, html};

use super::frame::{At, head, hidden, in_path, page};
use super::inputs::Inputs;
use super::{longer, sheet};
use crate::report::{self, verdict};
use crate::web::desk::View;
use crate::web::words;

/// The overview, or the page of a stage.
pub(in crate::web) fn show(view: &View, at: At, field: Option<&str>, token: &str) -> String {
    let mut groups = keys::groups(&view.text, &view.begun);
    for key in groups.iter_mut().flat_map(|group| &mut group.keys) {
        let pending = view.pending.iter().find(|(pending, _)| *pending == key.key);
        key.given = key.given.take().or_else(|| pending.map(|(_, typed)| typed.clone()));
    }
    // Whoever changes something comes back to the same picture.
    let painted = field.filter(|field| !field.is_empty());
    let back =
        at.path(&view.name) + &painted.map_or(String::new(), |field| format!("?field={}", in_path(field)));
    let inputs = Inputs { view, groups: &groups, back: &back, token };
    let main = match &view.read {
        Err(problems) => html! { section id="results" data-swap { (of_problems(problems)) } },
        Ok(assessment) => html! {
            div.bench {
                div.results {
                    @match at {
                        At::Stage(stage) => {
                            section id="findings" data-swap { (of_stage(view, assessment, stage, &back, token)) }
                            @if stage == Stage::Join { (sheet::show(view, assessment, &groups, painted, &back, at, token)) }
                            @if stage == Stage::Join { section id="longer" data-swap { (longer::show(view, assessment, &back, token)) } }
                            section id="settled" data-swap { (settled(view, assessment, stage, &back, token)) }
                            section id="beside" data-swap { (report::beside_findings(assessment, stage)) }
                        },
                        _ => section id="findings" data-swap { (overview(view, assessment, &inputs, &back, token)) },
                    }
                }
                aside.inputs id="inputs" data-swap aria-label=(words::INPUTS) { (inputs.tables(tables(at))) }
            }
        },
    };
    page(&format!("{} of {}", title(at), view.name), Some(&view.name), &head(view, at, token), &main)
}

fn title(at: At) -> &'static str {
    match at {
        At::Stage(stage) => stage.title(),
        At::Overview => "Overview",
        At::Save => "Saving",
    }
}

/// The tables that change what a page shows, the nearest first.
fn tables(at: At) -> &'static [&'static str] {
    match at {
        At::Overview | At::Save => &["job", "factors", "scatter"],
        At::Stage(Stage::Join) => {
            &["joints", "adhesives", "rivets", "cases", "sections", "members", "materials", "factors", "job"]
        }
        At::Stage(Stage::BondDay) => &["bond_day", "adhesives"],
        At::Stage(Stage::Prove) => &["coupons", "adhesives"],
        At::Stage(Stage::Choose) => &["joints", "members", "job"],
        At::Stage(Stage::Triage | Stage::Fit | Stage::HandOver) => &["job"],
    }
}

fn of_problems(problems: &[Problem]) -> Markup {
    html! {
        p { strong { (words::PROBLEMS) } }
        @for problem in problems {
            article.finding {
                p.mark { "line " (problem.place.line) }
                div {
                    p { strong { @if !problem.key.is_empty() { (problem.key) ": " } (problem.what) } }
                    pre { (problem.place.text) }
                    p { "Allowed: " (problem.expected) }
                    @if let Some(mend) = &problem.mend { p { "To mend: " (mend) } }
                }
            }
        }
    }
}

fn overview(view: &View, assessment: &Assessment, inputs: &Inputs<'_>, back: &str, token: &str) -> Markup {
    let open: Vec<&Finding> = assessment.findings.iter().filter(|it| it.verdict == Verdict::NotMet).collect();
    let step = [Verdict::NotMet, Verdict::Unknown].iter().find_map(|verdict| {
        assessment.findings.iter().find(|it| it.verdict == *verdict && it.next.is_some())
    });
    html! {
        @if let Some(finding) = step {
            div.next {
                h2 { "Next" }
                (next(view, finding, back, token))
                p.aside { (finding.headline()) }
            }
        }
        (report::reserves(assessment))
        @if !open.is_empty() { h2 { "Not met" } }
        @for finding in open { (one(view, finding, back, token)) }
        (unknowns(assessment, inputs))
        h2 { "To take along" }
        ul.downloads { @for (path, words) in downloads(view, assessment) { li { a href=(path) download { (words) } } } }
        h2 { "Cautions" }
        ul { @for caution in report::CAUTIONS { li { (caution) } } }
    }
}

/// What is not known, each with the fields to fill in.
fn unknowns(assessment: &Assessment, inputs: &Inputs<'_>) -> Markup {
    let unknowns = assessment.unknowns();
    let mut asked: Vec<&str> = Vec::new();
    html! {
        @if !unknowns.is_empty() { h2 { (words::UNKNOWN) } }
        @for unknown in &unknowns {
            @let keys = keys_of(unknown.lack);
            article.finding {
                p.mark { (verdict(Verdict::Unknown)) }
                div {
                    @for statement in &unknown.statements { p { strong { (statement) } } }
                    @if unknown.statements.is_empty() { p.aside { "Without a number: " (unknown.quantities.join(", ")) } }
                    p { (unknown.lack.to_string()) ". To settle it: " (unknown.lack.remedy()) "." }
                    @for key in keys {
                        @if !asked.contains(&key) {
                            ({ asked.push(key); inputs.asked_for(key) })
                        }
                    }
                }
            }
        }
    }
}

fn keys_of(lack: &Lack) -> Vec<&str> {
    match lack {
        Lack::Missing { keys } => keys.iter().map(String::as_str).collect(),
        Lack::OutOfData { key, .. } => vec![key.as_str()],
        Lack::NoLoad | Lack::Failed { .. } | Lack::NotRun { .. } => Vec::new(),
    }
}

/// What can be taken along: path and words.
fn downloads(view: &View, assessment: &Assessment) -> Vec<(String, String)> {
    let start = format!("/job/{}/file", in_path(&view.name));
    let mut all = vec![
        (format!("{start}/report.html"), "Report as one page".to_owned()),
        (format!("{start}/report-a4.pdf"), "Report on A4".to_owned()),
        (format!("{start}/report-letter.pdf"), "Report on Letter".to_owned()),
        (format!("{start}/findings.json"), "All findings and numbers as JSON".to_owned()),
        (format!("{start}/job.toml"), "The job file with what was changed here".to_owned()),
    ];
    for sheet in &assessment.sheets {
        let joint = in_path(&sheet.joint);
        for (ending, words) in [("svg", "SVG"), ("pdf", "PDF"), ("dxf", "DXF")] {
            all.push((
                format!("{start}/sheet.{ending}?joint={joint}"),
                format!("Sheet of {} as {words}, full scale", sheet.joint),
            ));
        }
        for (paper, words) in [("a4", "A4"), ("letter", "Letter")] {
            all.push((
                format!("{start}/template-{paper}.pdf?joint={joint}"),
                format!("Template of {} on {words}, full scale", sheet.joint),
            ));
        }
    }
    all
}

/// What a stage asks, and its findings that are open.
fn of_stage(view: &View, assessment: &Assessment, stage: Stage, back: &str, token: &str) -> Markup {
    let is_open = |finding: &&Finding| matches!(finding.verdict, Verdict::NotMet | Verdict::Unknown);
    html! {
        h2 { (stage.title()) }
        p.question { (stage.question()) }
        @if assessment.verdict_of(stage).is_none() { p { (words::NOT_ASKED) } }
        @for finding in assessment.of(stage).filter(is_open) { (one(view, finding, back, token)) }
    }
}

/// The findings of a stage that ask for nothing: those that are met open, the notes folded away.
fn settled(view: &View, assessment: &Assessment, stage: Stage, back: &str, token: &str) -> Markup {
    html! {
        @for (wanted, words) in [(Verdict::Met, "met"), (Verdict::Note, "notes")] {
            @let found: Vec<&Finding> = assessment.of(stage).filter(|it| it.verdict == wanted).collect();
            @if !found.is_empty() {
                details id={ "findings-" (words) } data-keep open[wanted == Verdict::Met] {
                    summary { strong { (found.len()) " " (words) } }
                    @for finding in found { (one(view, finding, back, token)) }
                }
            }
        }
    }
}

pub(super) fn one(view: &View, finding: &Finding, back: &str, token: &str) -> Markup {
    html! {
        article.finding id=(finding.id) {
            p.mark { (verdict(finding.verdict)) }
            div {
                p { strong { (finding.headline()) } }
                @if !finding.because.is_empty() { p { (finding.because) } }
                (next(view, finding, back, token))
                p.aside { (finding.basis.to_string()) ". " code { (finding.id) } }
            }
        }
    }
}

/// What would mend a finding, with the button that does it where the edits are known.
fn next(view: &View, finding: &Finding, back: &str, token: &str) -> Markup {
    let Some(next) = &finding.next else { return html! {} };
    html! {
        p { strong { "Next: " } (next.text) }
        @if !next.edits.is_empty() {
            form.apply method="post" action={ "/job/" (in_path(&view.name)) "/do/apply" } {
                (hidden(back, token))
                button id={ "apply-" (finding.id) } name="finding" value=(finding.id) { "Try it" }
                span.aside {
                    @for (place, edit) in next.edits.iter().enumerate() {
                        @if place > 0 { ", " }
                        code { (edit.key) " = " (edit.value) }
                    }
                }
            }
        }
    }
}
