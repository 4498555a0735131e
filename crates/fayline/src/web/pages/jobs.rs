//! The jobs of the folder.

use assessment::Assessment;
use maud::{Markup, html};

use super::frame::{At, page};
use crate::report::verdict;
use crate::web::desk::{View, Whole};
use crate::web::words;

/// The list of jobs, each with its verdict.
pub(in crate::web) fn show(folder: &str, views: &[(String, Option<View>)]) -> String {
    let head = html! { h1 { (words::JOBS) } p.aside { (folder) } };
    let main = html! {
        section id="jobs" data-swap {
            @if views.is_empty() { p { (words::NO_JOBS) } }
            @for (name, view) in views { (one(name, view.as_ref())) }
            p { a.button.main href="/begin" { (words::BEGIN) } }
        }
    };
    page(words::JOBS, Some(""), &head, &main)
}

fn one(name: &str, view: Option<&View>) -> Markup {
    let read = view.and_then(|view| view.read.as_ref().ok());
    let title = read.map_or("", |it| it.title.as_str());
    html! {
        article.job {
            p.mark { @match (view, read) {
                (Some(View { whole: Whole::Computing(_), .. }), Some(_)) => { span.computing { "computing" } },
                (_, Some(read)) => { (verdict(read.verdict())) },
                _ => { "cannot be read" },
            } }
            div {
                p { a href=(At::Overview.path(name)) { strong { (if title.is_empty() { name } else { title }) } } }
                p.aside { (name) @if let Some(read) = read { (counted(read)) } }
            }
        }
    }
}

fn counted(assessment: &Assessment) -> String {
    let all = [assessment::Verdict::NotMet, assessment::Verdict::Unknown, assessment::Verdict::Met];
    let counts = all.into_iter().filter_map(|verdict| {
        let number = assessment.findings.iter().filter(|finding| finding.verdict == verdict).count();
        (number > 0).then(|| format!(", {number} {}", verdict.word()))
    });
    counts.collect()
}

/// The page that asks for the code of the bench.
pub(in crate::web) fn pair(wrong: bool) -> String {
    let main = html! {
        form.pair method="post" action="/pair" {
            label for="code" { (words::PAIR) }
            @if wrong { p.refused role="alert" { (words::WRONG_CODE) } }
            input id="code" name="code" inputmode="numeric" autocomplete="off" required autofocus;
            button { "Let me in" }
        }
    };
    page("Pairing", None, &html! { h1 { "Pairing" } }, &main)
}

/// A page that says why there is no other.
pub(in crate::web) fn sorry(title: &str, words: &[String]) -> String {
    let main = html! { section id="sorry" data-swap { @for words in words { p { (words) } } p { a.button href="/" { (words::JOBS) } } } };
    page(title, None, &html! { h1 { (title) } }, &main)
}
