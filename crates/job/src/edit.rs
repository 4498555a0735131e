//! Changing a job file without losing its comments or its order.

use std::ops::Range;

use toml::de::{DeTable, DeValue};
use toml_edit::{InlineTable, Item, Table, TableLike};

use crate::place::Source;
use crate::problem::{Problem, shown};
use crate::read::Spanned;

/// One change: the dotted key and the value that it is to have, as TOML (`"\"110 mm\""`, `1.5`, `["a"]`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The dotted key, such as `joints.rail.overlap` or `adhesives.epoxy.cure[2].time`.
    pub key: String,
    /// The new value as TOML.
    pub value: String,
}

/// Applies edits to the text of a job file, one after the other; every other byte stays as it is.
///
/// A value that is there is replaced where it stands, and an equal one is left alone. A key that is absent is
/// added, with a table on the way to it where there is none. The result is not checked: read it again.
///
/// # Errors
/// The problems of a text that is not TOML, of a value that is not, or of a key that leads through something
/// that is no table or would replace a whole table; the text is then unchanged.
pub fn edit(text: &str, edits: &[Edit]) -> Result<String, Vec<Problem>> {
    let mut edited = text.to_owned();
    let mut problems = Vec::new();
    for edit in edits {
        match apply(&edited, edit) {
            Ok(next) => edited = next,
            Err(problem) => problems.push(*problem),
        }
    }
    if problems.is_empty() { Ok(edited) } else { Err(problems) }
}

/// Takes a key, or a table with all that it holds, out of the text of a job file, with the remarks that belong to it; every
/// other byte stays as it is. The result is not checked: read it again.
///
/// Gives nothing where the text is not TOML, where there is no such key, or where more than one piece of the text would
/// go: a table that is written in several places is taken out by hand.
pub fn take_out(text: &str, key: &str) -> Option<String> {
    let names: Vec<&str> = steps(key)?
        .into_iter()
        .map(|step| match step {
            Step::Key(name) => Some(name),
            Step::Item(_) => None,
        })
        .collect::<Option<_>>()?;
    let (last, tables) = names.split_last()?;
    // On a copy with plain line ends; all of them are put back as they were, where they were all alike.
    let crlf = text.contains("\r\n");
    let plain = text.replace("\r\n", "\n");
    let mut document: toml_edit::DocumentMut = plain.parse().ok()?;
    let mut table: &mut dyn TableLike = document.as_table_mut();
    for name in tables {
        table = table.get_mut(name)?.as_table_like_mut()?;
    }
    table.remove(last)?;
    let shorter = document.to_string();
    // What is left is a beginning and an end of what was there.
    let from = plain.bytes().zip(shorter.bytes()).take_while(|(a, b)| a == b).count();
    let one_piece =
        plain.len() >= shorter.len() && plain.as_bytes().ends_with(shorter.as_bytes().get(from..)?);
    let alike = !crlf || text.matches("\r\n").count() == text.matches('\n').count();
    if !one_piece || !alike || DeTable::parse(&shorter).is_err() {
        return None;
    }
    Some(if crlf { shorter.replace('\n', "\r\n") } else { shorter })
}

/// Applies one edit.
fn apply(text: &str, edit: &Edit) -> Result<String, Box<Problem>> {
    let source = Source::new("the job file", text);
    let refuse = |span: Range<usize>, what: String, expected: &str| {
        let (place, key) = (source.place(span), shown(&edit.key));
        Box::new(Problem { place, key, what, expected: expected.to_owned(), mend: None })
    };
    let value = edit.value.trim();
    let new = DeValue::parse(value).map_err(|_| {
        let what = format!("{} is not a TOML value", shown(value));
        refuse(0..0, what, "a value such as \"110 mm\", in quotation marks")
    })?;
    let steps = steps(&edit.key).ok_or_else(|| {
        refuse(0..0, "this is no dotted key".to_owned(), "a key such as joints.rail.overlap")
    })?;
    let tree = DeTable::parse(text).map_err(|error| {
        let what = format!("this is not TOML: {}", error.message());
        refuse(error.span().unwrap_or(0..0), what, "a job file")
    })?;
    match find(tree.get_ref(), &steps) {
        Found::Value(old) if same(old.get_ref(), new.get_ref()) => Ok(text.to_owned()),
        Found::Value(old) => {
            let span = old.span();
            let written = source.slice(span.clone());
            let whole = match old.get_ref() {
                DeValue::Table(_) => !written.starts_with('{'),
                DeValue::Array(_) => written.starts_with("[["),
                _ => false,
            };
            if whole {
                return Err(refuse(span, "this is a table with keys of its own".to_owned(), "a key in it"));
            }
            let (before, behind) = (source.slice(0..span.start), source.slice(span.end..text.len()));
            Ok(format!("{before}{value}{behind}"))
        }
        Found::NoTable(span) => {
            Err(refuse(span, "this is no table".to_owned(), "a key that leads through tables"))
        }
        Found::NoItem(span, count) => {
            Err(refuse(span, format!("this list has {count} items"), "an item that the list has"))
        }
        Found::Nothing => insert(text, &steps, value).ok_or_else(|| {
            refuse(0..0, "this key cannot be added here".to_owned(), "a key that leads through tables")
        }),
    }
}

/// One step of a dotted key.
enum Step<'k> {
    Key(&'k str),
    /// An item of a list, counted from 0; the key counts from 1.
    Item(usize),
}

/// The steps of a dotted key; `None` where it is none.
fn steps(key: &str) -> Option<Vec<Step<'_>>> {
    let is_key = |part: &str| {
        !part.is_empty() && part.chars().all(|c| c.is_ascii_alphanumeric() || c == '_' || c == '-')
    };
    let mut steps = Vec::new();
    for part in key.split('.') {
        let mut pieces = part.split('[');
        let name = pieces.next().filter(|name| is_key(name))?;
        steps.push(Step::Key(name));
        for piece in pieces {
            let number: usize = piece.strip_suffix(']')?.parse().ok()?;
            steps.push(Step::Item(number.checked_sub(1)?));
        }
    }
    Some(steps)
}

/// Where a dotted key leads.
enum Found<'t> {
    Value(&'t Spanned<'t>),
    NoTable(Range<usize>),
    NoItem(Range<usize>, usize),
    Nothing,
}

fn find<'t>(root: &'t DeTable<'t>, steps: &[Step<'_>]) -> Found<'t> {
    let mut at: Option<&'t Spanned<'t>> = None;
    for step in steps {
        let table = match at.map(|node| (node.span(), node.get_ref())) {
            None => Some(root),
            Some((_, DeValue::Table(table))) => Some(table),
            Some((span, DeValue::Array(items))) => match step {
                Step::Item(index) => match items.get(*index) {
                    Some(item) => {
                        at = Some(item);
                        continue;
                    }
                    None => return Found::NoItem(span, items.len()),
                },
                Step::Key(_) => return Found::NoTable(span),
            },
            Some((span, _)) => return Found::NoTable(span),
        };
        let next = match (table, step) {
            (Some(table), Step::Key(name)) => table.get(*name),
            _ => return Found::NoTable(at.map_or(0..0, toml::Spanned::span)),
        };
        match next {
            Some(node) => at = Some(node),
            None => return Found::Nothing,
        }
    }
    at.map_or(Found::Nothing, Found::Value)
}

/// Whether two values say the same, however they are written.
fn same(one: &DeValue<'_>, other: &DeValue<'_>) -> bool {
    match (one, other) {
        (DeValue::String(a), DeValue::String(b)) => a == b,
        (DeValue::Boolean(a), DeValue::Boolean(b)) => a == b,
        (DeValue::Integer(a), DeValue::Integer(b)) => a.radix() == b.radix() && a.as_str() == b.as_str(),
        (DeValue::Float(a), DeValue::Float(b)) => a.as_str() == b.as_str(),
        (DeValue::Datetime(a), DeValue::Datetime(b)) => a == b,
        (DeValue::Array(a), DeValue::Array(b)) => {
            a.len() == b.len() && a.iter().zip(b.iter()).all(|(a, b)| same(a.get_ref(), b.get_ref()))
        }
        (DeValue::Table(a), DeValue::Table(b)) => {
            let known =
                |key: &str, value: &DeValue<'_>| b.get(key).is_some_and(|it| same(it.get_ref(), value));
            a.len() == b.len() && a.iter().all(|(key, value)| known(key.get_ref(), value.get_ref()))
        }
        _ => false,
    }
}

/// Adds a key that is absent. What is added is found on a copy with plain line ends, and put into the text as
/// it is, so that line ends, a byte order mark and a missing last line end all stay.
fn insert(text: &str, steps: &[Step<'_>], value: &str) -> Option<String> {
    let plain = text.replace("\r\n", "\n");
    let plain = plain.strip_prefix('\u{feff}').unwrap_or(&plain);
    let mut document: toml_edit::DocumentMut = plain.parse().ok()?;
    add(document.as_table_mut(), steps, value.parse().ok()?)?;
    let longer = document.to_string();

    let mut from = plain.bytes().zip(longer.bytes()).take_while(|(a, b)| a == b).count();
    while !plain.is_char_boundary(from) || !longer.is_char_boundary(from) {
        from -= 1;
    }
    let (_, end) = plain.split_at_checked(from)?;
    let added = longer.get(from..)?.strip_suffix(end)?;

    let added = if text.contains("\r\n") { added.replace('\n', "\r\n") } else { added.to_owned() };
    let (before, behind) = text.split_at_checked(in_original(text, from))?;
    let edited = format!("{before}{added}{behind}");
    // A table that is written in another place cannot always be added to; then nothing is.
    DeTable::parse(&edited).is_ok().then_some(edited)
}

/// The byte of a text that is at a byte of its copy without carriage returns and byte order mark.
fn in_original(text: &str, in_copy: usize) -> usize {
    let mut at = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let mut copied = 0;
    while copied < in_copy {
        let rest = text.get(at..).unwrap_or("");
        if rest.starts_with("\r\n") {
            at += 1;
        }
        let length = rest.chars().next().map_or(1, char::len_utf8);
        at += length;
        copied += length;
    }
    at
}

fn add(root: &mut Table, steps: &[Step<'_>], mut value: toml_edit::Value) -> Option<()> {
    let names: Option<Vec<&str>> = steps
        .iter()
        .map(|step| match step {
            Step::Key(name) => Some(*name),
            Step::Item(_) => None,
        })
        .collect();
    let names = names?;
    let (last, tables) = names.split_last()?;
    let mut table: &mut dyn TableLike = root;
    let mut kind = Kind::Section;
    for name in tables {
        if !table.contains_key(name) {
            let fresh = match kind {
                Kind::Section => {
                    let mut fresh = Table::new();
                    fresh.set_implicit(true);
                    Item::Table(fresh)
                }
                Kind::Dotted => {
                    let mut fresh = Table::new();
                    fresh.set_dotted(true);
                    Item::Table(fresh)
                }
                Kind::Inline => {
                    make_room(table);
                    let mut fresh = InlineTable::new();
                    fresh.set_dotted(true);
                    Item::Value(fresh.into())
                }
            };
            table.insert(name, fresh);
        }
        let item = table.get_mut(name)?;
        kind = match item {
            Item::Table(table) if table.is_dotted() => Kind::Dotted,
            Item::Table(_) => Kind::Section,
            _ => Kind::Inline,
        };
        table = item.as_table_like_mut()?;
    }
    if kind == Kind::Inline {
        let behind = make_room(table);
        value.decor_mut().set_suffix(behind);
        value.decor_mut().set_prefix(" ");
    }
    table.insert(last, Item::Value(value));
    Some(())
}

/// How a table is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// Under a header of its own, or implied by one.
    Section,
    /// By dotted keys.
    Dotted,
    /// In braces.
    Inline,
}

/// Takes the space behind the last value of a table in braces, for the value that is to stand there.
fn make_room(table: &mut dyn TableLike) -> String {
    let last = table.iter_mut().last().and_then(|(_, item)| item.as_value_mut());
    let Some(last) = last else { return " ".to_owned() };
    let behind = last.decor().suffix().and_then(toml_edit::RawString::as_str).unwrap_or("").to_owned();
    last.decor_mut().set_suffix("");
    behind
}

#[cfg(test)]
mod tests;
