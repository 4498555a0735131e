//! Changing a job file without losing its comments or its order.

use crate::place::Source;
use crate::problem::Problem;

/// One change: the dotted key and the value that it is to have, as TOML (`"\"110 mm\""`, `1.5`, `["a"]`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The dotted key, such as `joints.rail.overlap`.
    pub key: String,
    /// The new value as TOML.
    pub value: String,
}

/// Applies edits to the text of a job file; comments, order and everything else stay as they are.
///
/// A table on the way to the key is made where there is none. The result is not checked: read it again.
///
/// # Errors
/// The problems of a text that is not TOML, of a value that is not, or of a key that leads through something
/// that is no table; the text is then unchanged.
pub fn edit(text: &str, edits: &[Edit]) -> Result<String, Vec<Problem>> {
    let refuse = |key: &str, what: String, expected: &str| Problem {
        place: Source::new("the job file", text).place(0..0),
        key: key.to_owned(),
        what,
        expected: expected.to_owned(),
        mend: None,
    };
    let mut document: toml_edit::DocumentMut = text.parse().map_err(|error: toml_edit::TomlError| {
        vec![refuse("", format!("this is not TOML: {}", error.message()), "a job file")]
    })?;
    let mut problems = Vec::new();
    for Edit { key, value } in edits {
        let Ok(value) = value.parse::<toml_edit::Value>() else {
            let what = format!("{value} is not a TOML value");
            problems.push(refuse(key, what, "a value such as \"110 mm\", in quotation marks"));
            continue;
        };
        if let Err(stop) = set(document.as_table_mut(), key, value) {
            problems.push(refuse(key, format!("\"{stop}\" is no table"), "a key that leads through tables"));
        }
    }
    if problems.is_empty() { Ok(document.to_string()) } else { Err(problems) }
}

/// Sets one key; the part of the key that is no table where that does not work.
fn set(root: &mut dyn toml_edit::TableLike, key: &str, value: toml_edit::Value) -> Result<(), String> {
    let mut table = root;
    let mut parts = key.split('.').peekable();
    while let Some(part) = parts.next() {
        if parts.peek().is_none() {
            put(table, part, value);
            return Ok(());
        }
        let next = table.entry(part).or_insert_with(|| {
            let mut fresh = toml_edit::Table::new();
            fresh.set_implicit(true);
            toml_edit::Item::Table(fresh)
        });
        table = next.as_table_like_mut().ok_or_else(|| part.to_owned())?;
    }
    Ok(())
}

/// Replaces a value and keeps the comment behind it.
fn put(table: &mut dyn toml_edit::TableLike, key: &str, mut value: toml_edit::Value) {
    if let Some(old) = table.get(key).and_then(toml_edit::Item::as_value) {
        *value.decor_mut() = old.decor().clone();
    }
    match table.get_mut(key) {
        Some(item) => *item = toml_edit::Item::Value(value),
        None => {
            table.insert(key, toml_edit::Item::Value(value));
        }
    }
}
