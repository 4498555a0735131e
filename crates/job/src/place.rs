//! Where something stands in a file.

use std::sync::Arc;

/// A stretch of one line of a file, with the line itself, so that whoever shows it needs no other source.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The file's name as the user knows it.
    pub file: Arc<str>,
    /// Line, counted from 1.
    pub line: usize,
    /// Column of the first character, counted in characters from 1.
    pub column: usize,
    /// Bytes of [`Place::text`] that are meant.
    pub span: std::ops::Range<usize>,
    /// The whole line, without its end.
    pub text: Arc<str>,
}

/// A file's text, able to tell the place of any byte of it.
#[derive(Debug, Clone)]
pub(crate) struct Source<'t> {
    file: Arc<str>,
    text: &'t str,
    line_starts: Vec<usize>,
}

impl<'t> Source<'t> {
    /// Takes a file's name and its text.
    pub(crate) fn new(file: &str, text: &'t str) -> Self {
        let line_starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { file: file.into(), text, line_starts }
    }

    /// The place of a stretch of bytes; a stretch over several lines is cut at the end of its first.
    pub(crate) fn place(&self, span: std::ops::Range<usize>) -> Place {
        let start = floor_boundary(self.text, span.start);
        let line = self.line_starts.partition_point(|&at| at <= start).max(1);
        let from = self.line_starts[line - 1];
        let text = self.text[from..].lines().next().unwrap_or("");
        let begin = (start - from).min(text.len());
        let end = (floor_boundary(self.text, span.end).max(start) - from).clamp(begin, text.len());
        Place {
            file: self.file.clone(),
            line,
            column: text[..begin].chars().count() + 1,
            span: begin..end,
            text: text.into(),
        }
    }
}

/// The nearest character boundary at or before a byte, never past the end.
fn floor_boundary(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_place_counts_characters_and_cuts_at_the_line_end() {
        let source = Source::new("a.toml", "x = 1\nµ = \"24 MPa\"\nend");
        let place = source.place(11..100);
        assert_eq!((place.line, place.column), (2, 5));
        assert_eq!(&place.text[place.span.clone()], "\"24 MPa\"");
        let last = source.place(9_000..9_001);
        assert_eq!((last.line, last.column, last.span), (3, 4, 3..3));
        let empty = Source::new("a.toml", "").place(0..0);
        assert_eq!((empty.line, empty.column), (1, 1));
    }
}
