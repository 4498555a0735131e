//! What is wrong with a text as TOML, in words for those who do not know TOML.

use std::collections::BTreeSet;
use std::ops::Range;

use toml_parser::lexer::TokenKind;

use crate::place::Source;
use crate::problem::{Problem, shown};

/// How many faults are told apart; a file with more of them is no job file.
const MOST_FAULTS: usize = 100;

/// The faults of a text as TOML.
#[derive(Debug, Default)]
pub(crate) struct Faults {
    /// One problem for each line that cannot be read; what else is wrong there follows from it.
    pub(crate) problems: Vec<Problem>,
    /// The lines on which they stand.
    lines: BTreeSet<usize>,
    /// From this byte on everything was taken for part of a list or table that is never closed.
    swallowed_from: Option<usize>,
}

impl Faults {
    /// Gathers the faults that the parser found.
    pub(crate) fn of(source: &Source<'_>, text: &str, errors: &[toml::de::Error]) -> Self {
        let mut faults = Self::default();
        if errors.is_empty() {
            return faults;
        }
        let open = left_open(text);
        if let Some(open) = &open {
            faults.swallowed_from = Some(open.at);
            faults.problems.push(open.problem(source));
        }
        // The parser first splits the text and then reads its values: of the faults of one line the first
        // that it tells is the cause.
        for error in errors {
            let span = error.span().unwrap_or(0..0);
            if open.as_ref().is_some_and(|open| span.start >= open.at) {
                continue;
            }
            if faults.problems.len() == MOST_FAULTS {
                faults.swallowed_from = Some(span.start);
                break;
            }
            if faults.lines.insert(source.line(span.start)) {
                faults.problems.push(problem(source, error.message(), span));
            }
        }
        faults
    }

    /// Whether a problem that was found in what could still be read is one of its own.
    pub(crate) fn explain(&self, problem: &Problem, source: &Source<'_>) -> bool {
        let line = problem.place.line;
        self.swallowed_from.is_some_and(|from| line >= source.line(from)) || self.lines.contains(&line)
    }
}

/// An opening bracket or quotation mark that is never closed.
struct Opening {
    at: usize,
    kind: TokenKind,
}

impl Opening {
    fn problem(&self, source: &Source<'_>) -> Problem {
        let (what, expected) = match self.kind {
            TokenKind::LeftSquareBracket => {
                ("the list that begins here is not closed", "a bracket ] at the end of the list")
            }
            TokenKind::LeftCurlyBracket => {
                ("the table that begins here is not closed", "a brace } at the end of the table")
            }
            _ => (
                "the text that begins here is not closed",
                "three quotation marks before and behind a text of several lines",
            ),
        };
        Problem {
            place: source.place(self.at..self.at + 1),
            key: String::new(),
            what: what.to_owned(),
            expected: expected.to_owned(),
            mend: None,
        }
    }
}

/// The first bracket or quotation mark that is never closed.
///
/// The parser takes all that follows for part of the open list, and says so line by line; the slip is where
/// the list begins. An equals sign directly inside square brackets gives it away before the end of the file.
fn left_open(text: &str) -> Option<Opening> {
    let mut open: Vec<Opening> = Vec::new();
    let (mut in_header, mut in_value) = (false, false);
    for token in toml_parser::Source::new(text).lex() {
        let (at, kind) = (token.span().start(), token.kind());
        match kind {
            TokenKind::Newline if open.is_empty() => (in_header, in_value) = (false, false),
            TokenKind::LeftSquareBracket if open.is_empty() && !in_value => in_header = true,
            _ if in_header => {}
            TokenKind::LeftSquareBracket | TokenKind::LeftCurlyBracket => open.push(Opening { at, kind }),
            TokenKind::RightSquareBracket | TokenKind::RightCurlyBracket => {
                let opened = if kind == TokenKind::RightSquareBracket {
                    TokenKind::LeftSquareBracket
                } else {
                    TokenKind::LeftCurlyBracket
                };
                if let Some(last) = open.pop()
                    && last.kind != opened
                {
                    return Some(last);
                }
            }
            TokenKind::Equals => match open.pop() {
                None => in_value = true,
                Some(last) if last.kind == TokenKind::LeftSquareBracket => return Some(last),
                Some(last) => open.push(last),
            },
            TokenKind::MlBasicString | TokenKind::MlLiteralString => {
                let string = text.get(at..token.span().end()).unwrap_or("");
                let quotes = string.get(..3).unwrap_or("");
                if string.len() < 6 || !string.ends_with(quotes) {
                    return Some(Opening { at, kind });
                }
            }
            _ => {}
        }
    }
    open.into_iter().next()
}

/// What is found, what is allowed, and how to mend it.
struct Words {
    what: String,
    expected: &'static str,
    mend: Option<String>,
}

impl Words {
    fn new(what: impl Into<String>, expected: &'static str) -> Self {
        Self { what: what.into(), expected, mend: None }
    }

    fn mend(self, mend: String) -> Self {
        Self { mend: Some(mend), ..self }
    }
}

const LINE: &str = "a key, an equals sign and a value on each line, or a table's name in square brackets";
const VALUE: &str = "text in quotation marks, a number, true or false, a list or a table";
const KEY: &str = "letters, digits, - and _ in a key";
const QUOTED: &str = "text in quotation marks";

fn problem(source: &Source<'_>, message: &str, span: Range<usize>) -> Problem {
    let line = source.line_span(source.line(span.start));
    let span = opening(source, message, span, line.start);
    let context = Context {
        raw: source.slice(span.clone()),
        before: source.slice(line.start..span.start),
        behind: source.slice(span.start..line.end),
        in_header: source.slice(line).trim_start().starts_with('['),
    };
    // What the parser expected is in its own terms; only what it found is of use here.
    let description = message.split(", expected").next().unwrap_or(message);
    let words = if description == "duplicate key" {
        duplicate(source, &context, source.line(span.start))
    } else {
        context.words(description)
    };
    Problem {
        place: source.place(span),
        key: String::new(),
        what: words.what,
        expected: words.expected.to_owned(),
        mend: words.mend,
    }
}

/// Where the slip is, where the parser points behind it: a text whose quotation mark is not closed begins there.
fn opening(source: &Source<'_>, message: &str, span: Range<usize>, line: usize) -> Range<usize> {
    let quote = match message.split(", expected").next() {
        Some("invalid basic string") => '"',
        Some("invalid literal string") => '\'',
        // The backslash stands before the character that it makes special, the carriage return before the next.
        Some("missing escaped value" | "carriage return must be followed by newline") => {
            return span.start.saturating_sub(1)..span.start;
        }
        _ => return span,
    };
    match source.slice(line..span.start).rfind(quote) {
        Some(at) if span.is_empty() => line + at..span.start,
        _ => span,
    }
}

/// A fault with the text around it.
struct Context<'t> {
    /// What the parser points at.
    raw: &'t str,
    /// The line before it.
    before: &'t str,
    /// The line from its beginning on.
    behind: &'t str,
    /// Whether the line names a table.
    in_header: bool,
}

impl Context<'_> {
    fn words(&self, description: &str) -> Words {
        match description {
            "string values must be quoted" => self.unquoted(),
            "unexpected key or value" => self.something_behind(),
            "invalid basic string" | "invalid literal string" => self.broken_text(),
            "key with no value" | "missing value for key" | "missing value" => {
                let words = Words::new("there is no equals sign behind the key", LINE);
                if self.before.trim_end().ends_with(':') || self.behind.trim_start().starts_with(':') {
                    words.mend("write \"=\" for \":\"".to_owned())
                } else {
                    words
                }
            }
            "unquoted keys cannot be empty" => Words::new("a key is missing here", KEY),
            "invalid unquoted key" => {
                Words::new(format!("\"{}\" cannot stand in a key", shown(self.raw)), KEY)
            }
            "extra `=`" => Words::new("there is one equals sign too many", LINE),
            "unclosed table" | "unclosed array table" => Words::new(
                "the bracket around the table's name is not closed",
                "a name in square brackets, such as [joints.wall]",
            ),
            "missing comma between array elements"
            | "missing comma between key-value pairs"
            | "extra assignment between key-value pairs" => {
                Words::new("a comma is missing before this", "commas between the items of a list or table")
            }
            "extra comma in array" | "extra comma in inline table" => {
                Words::new("there is one comma too many", "one comma between the items of a list or table")
            }
            "missing opening quote" => Words::new("the text begins before its quotation mark", QUOTED),
            "missing escaped value" | "too few unicode value digits" => Words::new(
                "a backslash in double quotation marks begins a special character",
                "two backslashes for one, or single quotation marks around the text",
            ),
            "invalid boolean" | "invalid float" if self.raw.starts_with(char::is_alphabetic) => {
                match self.raw.to_lowercase().as_str() {
                    "nan" | "inf" => Words::new("this is no number", "a number such as 8 or 0.8"),
                    _ => self.unquoted(),
                }
            }
            "unexpected leading zero" => {
                Words::new("a number does not begin with a zero", "a number such as 8 or 0.8")
            }
            "cannot recurse further; max recursion depth met" | "recursion limit" => {
                Words::new("lists and tables are nested too deeply", "at most 80 levels")
            }
            "carriage return must be followed by newline" => {
                Words::new("a carriage return stands alone", "line ends of Linux (LF) or Windows (CRLF)")
                    .mend("save the file with one of those".to_owned())
            }
            "invalid comment character" => Words::new(
                "an invisible control character stands in the remark",
                "characters that can be seen",
            ),
            _ if description.starts_with("cannot extend value") => Words::new(
                format!("\"{}\" has a value already, so it cannot have keys of its own", shown(self.raw)),
                "keys under a name that has no value",
            ),
            _ if is_of_number(description) => Words::new(
                "this is no number",
                "a number such as 8 or 0.8, with a digit on both sides of the point",
            ),
            _ if is_of_date(description) => {
                Words::new("this is no date or time", "text in quotation marks; no key takes a date")
            }
            _ => Words::new(format!("this is not TOML: {description}"), LINE),
        }
    }

    /// Something that is neither a number nor a word that TOML knows.
    fn unquoted(&self) -> Words {
        let raw = self.raw.trim();
        let straight: String = raw.chars().filter(|c| !"“”„‟«»‘’‚".contains(*c)).collect();
        if raw.is_empty() {
            Words::new("there is no value behind the equals sign", VALUE)
        } else if straight != raw {
            Words::new("these are not the straight quotation marks", QUOTED)
                .mend(format!("write \"{}\"", shown(straight.trim())))
        } else if let Some(switch) = switch(raw) {
            Words::new(format!("\"{raw}\" is not known"), "true or false").mend(format!("write {switch}"))
        } else {
            Words::new("this has no quotation marks", QUOTED).mend(format!("write \"{}\"", shown(raw)))
        }
    }

    /// Something more on a line that is complete.
    fn something_behind(&self) -> Words {
        let digits = |text: &str| text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let decimals = self.behind.strip_prefix(',').map_or(0, digits);
        let whole = self.before.rsplit(|c: char| !c.is_ascii_digit()).next().unwrap_or("");
        if decimals > 0 && !whole.is_empty() {
            let decimals = self.behind.get(1..=decimals).unwrap_or("");
            return Words::new("the number has a comma", "a decimal point in a number")
                .mend(format!("write {whole}.{decimals}"));
        }
        let what = if self.in_header {
            "nothing may follow the name of a table on its line"
        } else {
            "nothing may follow a value on its line"
        };
        Words::new(what, "one key on each line; remarks begin with #")
    }

    /// A text that does not end, or holds what no text may.
    fn broken_text(&self) -> Words {
        if self.raw.chars().any(char::is_control) {
            return Words::new(
                "an invisible control character stands in the text",
                "characters that can be seen",
            );
        }
        if self.raw.starts_with(['"', '\'']) {
            return Words::new(
                "the quotation mark is not closed on its line",
                "text between two quotation marks",
            );
        }
        Words::new("there is no value behind the key", LINE)
    }
}

fn is_of_number(description: &str) -> bool {
    ["integer", "float", "mantissa", "fraction", "exponent", "radix", "numeric sign", "digit"]
        .iter()
        .any(|word| description.contains(word))
}

fn is_of_date(description: &str) -> bool {
    ["date", "time"].iter().any(|word| description.contains(word))
}

/// The words that people write for true and false.
pub(crate) fn switch(word: &str) -> Option<bool> {
    match word.to_lowercase().as_str() {
        "yes" | "y" | "on" | "true" => Some(true),
        "no" | "n" | "off" | "false" => Some(false),
        _ => None,
    }
}

/// A key or a table that stands twice.
fn duplicate(source: &Source<'_>, context: &Context<'_>, line: usize) -> Words {
    let of = |number: usize| source.slice(source.line_span(number)).trim();
    let name = |text: &str| text.split(']').next().unwrap_or("").trim_start_matches('[').trim().to_owned();
    if context.in_header {
        let header = name(of(line));
        let first = (1..line).find(|&earlier| of(earlier).starts_with('[') && name(of(earlier)) == header);
        let words = Words::new(
            format!("the table [{}] stands here a second time", shown(&header)),
            "each table once, with all its keys under it",
        );
        return match first {
            Some(first) => words.mend(format!("put these keys under line {first}")),
            None => words,
        };
    }
    let key = context.raw;
    let first = (1..line).rev().take_while(|&earlier| !of(earlier).starts_with('[')).find(|&earlier| {
        of(earlier).strip_prefix(key).is_some_and(|rest| rest.trim_start().starts_with('='))
    });
    let words = Words::new(
        format!("the key \"{}\" stands here a second time", shown(key)),
        "each key once in its table",
    );
    match first {
        Some(first) => words.mend(format!("keep one of the two; the other stands in line {first}")),
        None => words,
    }
}

#[cfg(test)]
mod tests;
