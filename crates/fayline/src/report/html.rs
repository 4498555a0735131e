//! The document as one HTML page that needs nothing else.

use assessment::Verdict;
use drawing::fonts::{self, Cut};
use drawing::{look, svg};
use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::charts::look_of;
use super::document::{Block, Cell, Document, Drawing, Item, Ranged, Run, Section, Style, Table};

/// Lines of the page's own style, on the 8 px grid and in the colours of the drawings.
const STYLE: &str = include_str!("report.css");

/// What stands under a drawing that is at full scale on paper only.
const NOT_TO_SCALE: &str = "Not to scale on a screen.";

/// Prints the page.
pub(super) fn print(document: &Document) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (document.title) ": " (document.verdict.word()) }
                style { (PreEscaped(fonts::face_css(&[Cut::Regular, Cut::Bold]))) (PreEscaped(look::css())) (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (document.title) }
                    p.verdict { (verdict(document.verdict)) }
                    @for one in &document.opening { (block(one)) }
                }
                main { @for one in &document.sections { (section(one)) } }
                footer { @for paragraph in &document.closing { p { (runs(paragraph)) } } }
            }
        }
    };
    page.into_string()
}

/// The mark of a verdict and its word.
pub(super) fn verdict(verdict: Verdict) -> Markup {
    let colour = look_of(verdict).colour().name();
    html! {
        span class={ "word ink-" (colour) } {
            (PreEscaped(look::mark_svg(look_of(verdict)))) (verdict.word())
        }
    }
}

fn section(section: &Section) -> Markup {
    html! { section { h2 { (section.title) } @for one in &section.blocks { (block(one)) } } }
}

fn runs(runs: &[Run]) -> Markup {
    html! {
        @for Run { style, words } in runs {
            @match style {
                Style::Plain => { (words) },
                Style::Strong => { strong { (words) } },
                Style::Aside => { span.aside { (words) } },
                Style::Name => { code { (words) } },
            }
        }
    }
}

/// Prints one block.
pub(super) fn block(block: &Block) -> Markup {
    match block {
        Block::Question { words, verdict: worst } => {
            html! { p.question { (words) " " (verdict(*worst)) } }
        }
        Block::Step(words) => html! { p.next { (runs(words)) } },
        Block::Heading(words) => html! { h3 { (words) } },
        Block::Paragraph(words) => html! { p { (runs(words)) } },
        Block::Finding(one) => finding(one),
        Block::Drawing(drawing) => drawn(drawing),
        Block::Table(one) => table(one),
        Block::List(items) => html! { ul { @for item in items { li { (runs(item)) } } } },
    }
}

fn finding(item: &Item) -> Markup {
    html! {
        article id=(item.id) {
            p.mark { (verdict(item.verdict)) }
            div {
                @for paragraph in &item.paragraphs { p { (runs(paragraph)) } }
                p.aside { (runs(&item.aside)) }
            }
        }
    }
}

/// A figure, or the reason for which it cannot be drawn.
fn drawn(drawing: &Drawing) -> Markup {
    match svg::in_page(&drawing.figure) {
        Ok(svg) => html! {
            figure {
                (PreEscaped(svg))
                @if drawing.full_scale { figcaption.aside { (NOT_TO_SCALE) } }
            }
        },
        Err(error) => html! { p.aside { "A chart cannot be drawn: " (error.to_string()) } },
    }
}

fn table(table: &Table) -> Markup {
    let class = |ranged: &Ranged| if *ranged == Ranged::Right { "figure-cell" } else { "word-cell" };
    html! {
        table {
            thead { tr { @for (words, ranged) in &table.columns { th class=(class(ranged)) { (words) } } } }
            tbody {
                @for row in &table.rows {
                    tr {
                        @for (cell, (_, ranged)) in row.iter().zip(&table.columns) {
                            td class=(class(ranged)) {
                                @match cell {
                                    Cell::Words(words) => { (words) },
                                    Cell::Name(words) => { code { (words) } },
                                    Cell::Verdict(found) => { (verdict(*found)) },
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
