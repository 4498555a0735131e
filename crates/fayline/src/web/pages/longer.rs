//! What takes longer and is asked for: sizes that reach a reserve, and how likely the bonds are to give way.

use assessment::{Assessment, Finding};
use drawing::svg;
use maud::{Markup, PreEscaped, html};
use stages::size::Sizing;

use super::frame::{hidden, in_path, press};
use super::job::one as finding;
use crate::sizing::{figure, one};
use crate::web::desk::View;
use crate::web::words;

/// The questions, and what came of those that were asked.
pub(super) fn show(view: &View, assessment: &Assessment, back: &str, token: &str) -> Markup {
    let chances: Vec<&Finding> =
        assessment.findings.iter().filter(|it| it.id.ends_with(".probability")).collect();
    html! {
        h2 { (words::LONGER) }
        @for sheet in &assessment.sheets { (sizes(view, &sheet.joint, back, token)) }
        @if chances.is_empty() {
            p { (words::CHANCES) }
            (press(&view.name, "chances", "How likely is it?", back, token))
        }
        @for chance in chances { (finding(view, chance, back, token)) }
    }
}

fn sizes(view: &View, joint: &str, back: &str, token: &str) -> Markup {
    let found = view.sizings.iter().find(|(of, _)| of == joint).map(|(_, sizing)| sizing.as_ref());
    let target = match found {
        Some(Ok(sizing)) => format!("{:.2}", sizing.target),
        _ => "1.20".to_owned(),
    };
    html! {
        form.key method="post" action={ "/job/" (in_path(&view.name)) "/do/size" } {
            (hidden(back, token))
            input type="hidden" name="joint" value=(joint);
            label for={ "size-" (joint) } { "Least sizes of " (joint) " for a reserve factor of" }
            div.field {
                input id={ "size-" (joint) } name="target" value=(target) inputmode="decimal" autocomplete="off";
                button id={ "do-size-" (joint) } { "Find them" }
            }
        }
        @match found {
            None => {},
            Some(Err(why)) => p { "No sizes are found: " (why) "." },
            Some(Ok(sizing)) => (sized(view, joint, sizing, back, token)),
        }
    }
}

fn sized(view: &View, joint: &str, sizing: &Sizing, back: &str, token: &str) -> Markup {
    let system = sizing.assessment.system;
    let drawn = svg::in_page(&figure(joint, sizing));
    html! {
        p { strong { @if sizing.reached { "Reached: " } @else { "Not reached; nearest: " } } (one(&sizing.chosen, system)) "." }
        @if sizing.stopped { p { (words::SIZING_STOPPED) } }
        @if sizing.edits.is_empty() { p { "Nothing needs to change." } } @else {
            form.apply method="post" action={ "/job/" (in_path(&view.name)) "/do/sizes" } {
                (hidden(back, token))
                input type="hidden" name="joint" value=(joint);
                button id={ "do-sizes-" (joint) } { "Try it" }
                span.aside {
                    @for (place, edit) in sizing.edits.iter().enumerate() {
                        @if place > 0 { ", " }
                        code { (edit.key) " = " (edit.value) }
                    }
                }
            }
        }
        @if let Ok(drawn) = drawn { figure { (PreEscaped(drawn)) } }
        @if !sizing.limits.is_empty() {
            p { "Not lifted by any of these sizes, and short of the target:" }
            ul { @for limit in &sizing.limits { li { (limit.headline()) } } }
        }
    }
}
