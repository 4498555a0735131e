//! What every page has around it.

use assessment::Stage;
use maud::{DOCTYPE, Markup, html};

use crate::report::verdict;
use crate::web::desk::{Refused, View, Whole};
use crate::web::words;

/// Which page of a job is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::web) enum At {
    Overview,
    Stage(Stage),
    Save,
}

impl At {
    /// The way to the page of a job.
    pub(in crate::web) fn path(self, job: &str) -> String {
        let job = in_path(job);
        match self {
            Self::Overview => format!("/job/{job}"),
            Self::Stage(stage) => format!("/job/{job}/{}", stage.word()),
            Self::Save => format!("/job/{job}/save"),
        }
    }
}

/// A name as a part of a path.
pub(in crate::web) fn in_path(name: &str) -> String {
    use std::fmt::Write;
    let mut path = String::new();
    for byte in name.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' | b'.' | b'~' => {
                path.push(char::from(byte));
            }
            // Writing to a String cannot fail.
            _ => drop(write!(path, "%{byte:02X}")),
        }
    }
    path
}

/// A whole page.
pub(in crate::web) fn page(title: &str, job: Option<&str>, head: &Markup, main: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) ", Fayline" }
                link rel="stylesheet" href="/assets/page.css";
                link rel="icon" href="data:,";
                script src="/assets/page.js" defer {}
            }
            body data-job=[job] {
                a.skip href="#main" { "To the findings" }
                header id="head" data-swap { (head) }
                main id="main" tabindex="-1" { (main) }
                footer { p { (words::FOOT) } }
            }
        }
    };
    page.into_string()
}

/// The head of a page of a job: title, verdict, the stages, and what is not saved.
pub(in crate::web) fn head(view: &View, at: At, token: &str) -> Markup {
    let read = view.read.as_ref().ok();
    let title = read.map_or(view.name.as_str(), |it| it.title.as_str());
    let link = |to: At, words: &str, mark: Markup| {
        let here = (to == at).then_some("page");
        html! { li { a href=(to.path(&view.name)) aria-current=[here] { span { (words) } (mark) } } }
    };
    // Of a file with mistakes nothing is known, not even what it asks.
    let mark = |stage: Stage| match read.map(|it| it.verdict_of(stage)) {
        Some(Some(found)) => verdict(found),
        Some(None) => html! { span.aside { "not asked" } },
        None => html! { span.aside { "nothing known" } },
    };
    html! {
        p.where { a href="/" { (words::JOBS) } " / " (view.name) }
        div.title {
            h1 { (title) }
            @if let Some(read) = read { p.verdict { (verdict(read.verdict())) } }
        }
        nav aria-label="Stages" {
            ul {
                (link(At::Overview, "Overview", html! {}))
                @for stage in Stage::ALL { (link(At::Stage(stage), stage.title(), mark(stage))) }
            }
        }
        (bar(view, at, token))
    }
}

/// What is not saved, what is being computed, and how results are shown.
fn bar(view: &View, at: At, token: &str) -> Markup {
    let back = at.path(&view.name);
    let press = |path: &str, words: &str| press(&view.name, path, words, &back, token);
    html! {
        div.bar role="status" aria-live="polite" {
            @if view.on_disk.is_some() {
                p.warn { (words::CHANGED_ON_DISK) }
                a.button href=(At::Save.path(&view.name)) { "See both" }
            } @else if view.is_changed() {
                p { strong { (words::WHAT_IF) } }
                @if at != At::Save { a.button href=(At::Save.path(&view.name)) { "See and save" } }
                (press("drop", "Put all back"))
            }
            @if view.can_undo { (press("undo", "Undo")) }
            @match &view.whole {
                Whole::There => {},
                Whole::Computing(progress) => {
                    @let share = progress.as_ref().map(|progress| format!("{:.3}", progress.share));
                    p.computing data-share=[&share] {
                        progress aria-label="computing" max="1" value=[&share] {} " "
                        @match progress {
                            Some(progress) => { (words::COMPUTING_STEP) (progress.doing) },
                            None => (words::COMPUTING),
                        }
                    }
                    (press("stop", "Call off"))
                },
                Whole::Stopped => {
                    p { (words::STOPPED) }
                    (press("resume", "Compute"))
                },
            }
            (press("units", match view.system {
                quantity::System::Metric => "Show inches",
                quantity::System::Imperial => "Show millimetres",
            }))
        }
        @if let Some(refused) = view.refused.as_ref().filter(|it| it.key.is_empty()) { (not_taken(refused)) }
    }
}

/// Why something was not taken.
pub(in crate::web) fn not_taken(refused: &Refused) -> Markup {
    let words = if refused.kept { words::KEPT } else { words::REFUSED };
    html! {
        div.refused role="alert" { p { strong { (words) } } @for why in &refused.why { p { (why) } } }
    }
}

/// A button that asks the server to do something, and comes back.
pub(in crate::web) fn press(job: &str, what: &str, words: &str, back: &str, token: &str) -> Markup {
    let path = format!("/job/{}/do/{what}", in_path(job));
    html! {
        form method="post" action=(path) {
            (hidden(back, token))
            button id={ "do-" (what) } { (words) }
        }
    }
}

/// What each form sends along.
pub(in crate::web) fn hidden(back: &str, token: &str) -> Markup {
    html! {
        input type="hidden" name="token" value=(token);
        input type="hidden" name="back" value=(back);
    }
}
