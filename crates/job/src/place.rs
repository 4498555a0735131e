//! Where something stands in a file.

use std::cell::RefCell;
use std::ops::Range;
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
    pub span: Range<usize>,
    /// The whole line, without its end.
    pub text: Arc<str>,
}

/// A file's text, able to tell the place of any byte of it.
#[derive(Debug, Clone)]
pub(crate) struct Source<'t> {
    file: Arc<str>,
    text: &'t str,
    line_starts: Vec<usize>,
    /// The line shown last. Places come in the order of the file, so that those of one line share one copy
    /// of it: thousands of keys on one long line would otherwise hold thousands of copies.
    last: RefCell<Option<(usize, Arc<str>)>>,
}

impl<'t> Source<'t> {
    /// Takes a file's name and its text.
    pub(crate) fn new(file: &str, text: &'t str) -> Self {
        let line_starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { file: file.into(), text, line_starts, last: RefCell::new(None) }
    }

    /// The text between two bytes; empty where they do not part whole characters.
    pub(crate) fn slice(&self, span: Range<usize>) -> &'t str {
        self.text.get(span).unwrap_or("")
    }

    /// The line, counted from 1, on which a byte stands.
    pub(crate) fn line(&self, at: usize) -> usize {
        self.line_starts.partition_point(|&start| start <= at).max(1)
    }

    /// The bytes of a line, counted from 1, without its end and without a mark of the byte order before it.
    pub(crate) fn line_span(&self, line: usize) -> Range<usize> {
        let from = self.line_starts.get(line.saturating_sub(1)).copied().unwrap_or(self.text.len());
        let rest = self.text.get(from..).unwrap_or("");
        let content = rest.lines().next().unwrap_or("");
        let end = from + content.len();
        let marked = line == 1 && content.starts_with('\u{feff}');
        if marked { from + '\u{feff}'.len_utf8()..end } else { from..end }
    }

    /// The place of a stretch of bytes; a stretch over several lines is cut at the end of its first.
    pub(crate) fn place(&self, span: Range<usize>) -> Place {
        let start = floor_boundary(self.text, span.start);
        let line = self.line(start);
        let on_line = self.line_span(line);
        let text = self.shared(line, on_line.clone());
        let begin = start.clamp(on_line.start, on_line.end) - on_line.start;
        let end =
            floor_boundary(self.text, span.end).clamp(on_line.start + begin, on_line.end) - on_line.start;
        Place {
            file: self.file.clone(),
            line,
            column: text.get(..begin).map_or(0, |before| before.chars().count()) + 1,
            span: begin..end,
            text,
        }
    }

    fn shared(&self, line: usize, span: Range<usize>) -> Arc<str> {
        let mut last = self.last.borrow_mut();
        match last.as_ref() {
            Some((known, text)) if *known == line => text.clone(),
            _ => {
                let text: Arc<str> = self.slice(span).into();
                *last = Some((line, text.clone()));
                text
            }
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
    use proptest::prelude::*;

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

    #[test]
    fn unit_line_ends_of_windows_are_no_part_of_the_line() {
        let source = Source::new("a.toml", "x = 1\r\ny = 2\r\n");
        assert_eq!(&*source.place(0..6).text, "x = 1");
        let second = source.place(7..8);
        assert_eq!((second.line, second.column, &*second.text), (2, 1, "y = 2"));
    }

    #[test]
    fn unit_a_byte_order_mark_takes_no_column() {
        let source = Source::new("a.toml", "\u{feff}x = 1\ny = 2");
        let first = source.place(3..4);
        assert_eq!((first.line, first.column, &*first.text, first.span), (1, 1, "x = 1", 0..1));
        assert_eq!(source.place(0..0).column, 1);
        assert_eq!(source.place(9..10).column, 1);
    }

    #[test]
    fn unit_places_of_one_line_share_its_text() {
        let source = Source::new("a.toml", "x = [1, 2]\ny = 3");
        assert!(Arc::ptr_eq(&source.place(0..1).text, &source.place(5..6).text));
    }

    proptest! {
        #[test]
        fn law_a_place_lies_within_its_line(text in "[a-z=µ\u{feff}\r\n\t\"]{0,60}", start in 0_usize..80, length in 0_usize..80) {
            let source = Source::new("a.toml", &text);
            let place = source.place(start..start + length);
            prop_assert!(place.text.get(place.span.clone()).is_some());
            prop_assert!(!place.text.contains('\n'));
            prop_assert_eq!(place.column, place.text[..place.span.start].chars().count() + 1);
            prop_assert!(place.line <= text.matches('\n').count() + 1);
        }
    }
}
