//! Findings as text of 80 columns.

use std::fmt::Write;

use assessment::{Assessment, Assumption, Finding, Stage, Verdict};

/// Columns of the text.
const WIDTH: usize = 80;
/// Columns of the verdict in front of each finding.
const MARGIN: usize = 10;

/// All findings by stage, worst first.
pub(crate) fn findings(assessment: &Assessment, only: Option<Stage>) -> String {
    let mut text = String::new();
    let verdict = only.map_or(Some(assessment.verdict()), |stage| assessment.verdict_of(stage));
    let _ = writeln!(text, "{}", fill(&assessment.title, "", ""));
    let _ = writeln!(text, "{}", rule(&assessment.name, verdict.map_or("not asked", Verdict::word)));
    for stage in Stage::ALL.into_iter().filter(|stage| only.is_none_or(|only| only == *stage)) {
        let Some(verdict) = assessment.verdict_of(stage) else { continue };
        let _ = writeln!(text, "\n{}", rule(stage.title(), verdict.word()));
        let _ = writeln!(text, "{}", fill(stage.question(), "", ""));
        for finding in assessment.of(stage) {
            text.push('\n');
            one(&mut text, finding);
        }
    }
    if only.is_none() && !assessment.not_asked.is_empty() {
        let stages: Vec<&str> = assessment.not_asked.iter().map(|stage| stage.title()).collect();
        let _ = writeln!(
            text,
            "\n{}",
            fill(&format!("Not asked, since the job has no table for it: {}.", stages.join(", ")), "", "")
        );
    }
    if only.is_none() && !assessment.assumptions.is_empty() {
        let count = assessment.assumptions.len();
        let things = if count == 1 { "thing" } else { "things" };
        let words = format!(
            "Taken for granted because the job does not say it: {count} {things}; --assumptions lists them."
        );
        let _ = writeln!(text, "\n{}", fill(&words, "", ""));
    }
    text
}

/// What was taken for granted, each with the key that says otherwise and its basis.
pub(crate) fn assumptions(assessment: &Assessment) -> String {
    let mut text = String::new();
    if assessment.assumptions.is_empty() {
        text.push_str("Nothing is taken for granted.\n");
    }
    let margin = "  ";
    for Assumption { key, statement, basis } in &assessment.assumptions {
        let _ = writeln!(text, "{}", fill(statement, "", margin));
        let _ = writeln!(text, "{}", fill(&format!("Basis: {basis}."), margin, margin));
        let _ = writeln!(text, "{}", fill(&format!("[{key}]"), margin, margin));
    }
    text
}

fn one(text: &mut String, finding: &Finding) {
    let margin = " ".repeat(MARGIN);
    let head = format!("{:<MARGIN$}", finding.verdict.word());
    let _ = writeln!(text, "{}", fill(&finding.headline(), &head, &margin));
    if !finding.because.is_empty() {
        let _ = writeln!(text, "{}", fill(&finding.because, &margin, &margin));
    }
    if let Some(next) = &finding.next {
        let _ = writeln!(text, "{}", fill(&format!("Next: {}", next.text), &margin, &margin));
    }
    let _ = writeln!(text, "{}", fill(&format!("Basis: {}.", finding.basis), &margin, &margin));
    let place =
        finding.place.as_ref().map_or(String::new(), |place| format!(", {}:{}", place.file, place.line));
    let _ = writeln!(text, "{}", fill(&format!("[{}{place}]", finding.id), &margin, &margin));
}

/// Two words at the ends of a ruled line.
pub(crate) fn rule(left: &str, right: &str) -> String {
    let used = left.chars().count() + right.chars().count() + 2;
    format!("{left} {} {right}", "-".repeat(WIDTH.saturating_sub(used).max(3)))
}

/// A paragraph with what stands before its first and its other lines.
pub(crate) fn fill(text: &str, first: &str, next: &str) -> String {
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(first)
        .subsequent_indent(next)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    textwrap::fill(text, options)
}
