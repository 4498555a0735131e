//! Problems of a job file, shown with the line that they stand in.

use std::fmt::Write;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use job::Problem;

/// All problems of a file as text, each with its line, what was found, what is allowed and how to mend it.
pub(crate) fn in_text(problems: &[Problem]) -> String {
    let renderer = Renderer::plain().decor_style(DecorStyle::Ascii).term_width(80);
    let mut text = String::new();
    for problem in problems {
        let title = if problem.key.is_empty() {
            problem.what.clone()
        } else {
            format!("{}: {}", problem.key, problem.what)
        };
        let place = &problem.place;
        let snippet = Snippet::source(place.text.as_ref())
            .line_start(place.line)
            .path(place.file.as_ref())
            .annotation(AnnotationKind::Primary.span(place.span.clone()));
        let mut group = Level::ERROR.primary_title(title).element(snippet);
        group = group.element(Level::NOTE.with_name("allowed").message(problem.expected.as_str()));
        if let Some(mend) = &problem.mend {
            group = group.element(Level::HELP.with_name("to mend").message(mend.as_str()));
        }
        text.push_str(&renderer.render(&[group]));
        text.push_str("\n\n");
    }
    let count = problems.len();
    let _ =
        writeln!(text, "{count} problem{} found; nothing was computed.", if count == 1 { "" } else { "s" });
    text
}
