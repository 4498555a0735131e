//! Problems of a job file, shown with the line that they stand in.

use std::fmt::Write;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet, normalize_untrusted_str};
use job::Problem;

/// Columns of the text.
const WIDTH: usize = 80;
/// How many problems are shown: whoever has more mends these first.
const MOST_SHOWN: usize = 50;

/// All problems of a file as text, each with its line, what was found, what is allowed and how to mend it.
pub(crate) fn in_text(problems: &[Problem]) -> String {
    let renderer = Renderer::plain().decor_style(DecorStyle::Ascii).term_width(WIDTH);
    let mut text = String::new();
    for problem in problems.iter().take(MOST_SHOWN) {
        let title = if problem.key.is_empty() {
            problem.what.clone()
        } else {
            format!("{}: {}", problem.key, problem.what)
        };
        let title = wrapped(&title, "error: ".len());
        let place = &problem.place;
        let gutter = place.line.to_string().len();
        let snippet = Snippet::source(place.text.as_ref())
            .line_start(place.line)
            .path(place.file.as_ref())
            .annotation(AnnotationKind::Primary.span(place.span.clone()));
        let mut group = Level::ERROR.primary_title(title).element(snippet);
        group = group.element(note(&Level::NOTE, "allowed", &problem.expected, gutter));
        if let Some(mend) = &problem.mend {
            group = group.element(note(&Level::HELP, "to mend", mend, gutter));
        }
        text.push_str(&renderer.render(&[group]));
        text.push_str("\n\n");
    }
    let count = problems.len();
    if count > MOST_SHOWN {
        let _ = writeln!(text, "The first {MOST_SHOWN} are shown.");
    }
    let _ =
        writeln!(text, "{count} problem{} found; nothing was computed.", if count == 1 { "" } else { "s" });
    text
}

/// A line below the snippet, broken where it would be too long. What it says may hold words of the user's.
fn note<'a>(
    level: &Level<'a>,
    name: &'static str,
    says: &str,
    gutter: usize,
) -> annotate_snippets::Message<'a> {
    level.clone().with_name(name).message(wrapped(says, gutter + " = : ".len() + name.len()))
}

/// A text on lines that leave room for what stands before them; it may hold words of the user's.
fn wrapped(text: &str, before: usize) -> String {
    let options = textwrap::Options::new(WIDTH.saturating_sub(before)).break_words(false);
    textwrap::fill(&normalize_untrusted_str(text), options)
}
