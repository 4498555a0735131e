//! The reference page of the job file, made from the descriptions of its tables.

use std::fmt::Write;

use quantity::System;

use crate::Tables;
use crate::describe::{Field, Shape, Table};

/// The reference of the job file as a Markdown page.
pub fn reference() -> String {
    let mut page = String::from(
        "# The job file\n\n\
         A job is one TOML file, made from the descriptions that the program itself reads by\n\
         (`fayline schema` prints the same as a JSON Schema). Quantities are texts with units, such as\n\
         `\"6.4 mm\"`, `\"1/4 in\"` or `\"3.2 ksi\"`; a bare number where a unit is needed is refused.\n\
         A key that is absent makes unknown only what needs it; only the keys marked *required* must be there.\n\
         Beside the limits below, sizes that no repair has are refused as slips, such as a load of 10¹² N.\n",
    );
    section(&mut page, "", &Tables::TABLE, None);
    page
}

/// One table, then the tables inside it, in the order in which the file would have them.
fn section(page: &mut String, path: &str, table: &Table, tag: Option<(&str, &str)>) {
    let fields = (table.fields)();
    let heading = if path.is_empty() { "The file".to_owned() } else { format!("`[{path}]`") };
    let _ =
        write!(page, "\n## {heading}\n\n{}\n\n| key | what it holds | meaning |\n|---|---|---|\n", table.doc);
    if let Some((tag, word)) = tag {
        let _ = writeln!(
            page,
            "| `{tag}` *required* | `\"{word}\"` | The form of the joint; it says which keys follow. |"
        );
    }
    for field in &fields {
        let required = if field.required { " *required*" } else { "" };
        let _ = writeln!(page, "| `{}`{required} | {} | {} |", field.name, holds(field), field.doc);
    }
    for field in &fields {
        let key = if path.is_empty() { field.name.to_owned() } else { format!("{path}.{}", field.name) };
        inner(page, &key, &field.shape);
    }
}

fn inner(page: &mut String, key: &str, shape: &Shape) {
    match shape {
        Shape::Table(table) => section(page, key, table, None),
        Shape::Named(content) => inner(page, &format!("{key}.NAME"), content),
        Shape::List(item, _) => inner(page, &format!("[{key}]"), item),
        Shape::Tagged { tag, forms } => {
            for (word, table) in forms {
                section(page, key, table, Some((tag, word)));
            }
        }
        _ => {}
    }
}

fn holds(field: &Field) -> String {
    let mut text = words(&field.shape);
    let kind = match &field.shape {
        Shape::Quantity(kind) => Some(*kind),
        Shape::List(item, _) => match **item {
            Shape::Quantity(kind) => Some(kind),
            _ => None,
        },
        _ => None,
    };
    let limit = field.limit.words(|value| match kind {
        Some(kind) => quantity::print(value, kind, System::Metric),
        None => format!("{value}"),
    });
    if let Some(limit) = limit {
        let _ = write!(text, ", {limit}");
    }
    text
}

fn words(shape: &Shape) -> String {
    match shape {
        Shape::Quantity(kind) => {
            let example = kind.examples().first().copied().unwrap_or_default();
            format!("{}, such as `\"{example}\"`", kind.name())
        }
        Shape::Number => "number".to_owned(),
        Shape::Whole => "whole number".to_owned(),
        Shape::Text => "text".to_owned(),
        Shape::Switch => "`true` or `false`".to_owned(),
        Shape::Date => "date, such as `2031-12-31`".to_owned(),
        Shape::Choice(choices) => choices
            .iter()
            .map(|word| format!("`\"{}\"`: {}", word.word, word.doc.trim_end_matches('.')))
            .collect::<Vec<_>>()
            .join("; "),
        Shape::List(item, None) => format!("list of: {}", words(item)),
        Shape::List(item, Some(length)) => format!("{length} of: {}", words(item)),
        Shape::Table(_) | Shape::Tagged { .. } => "table, below".to_owned(),
        Shape::Named(_) => "tables under names of your own, below".to_owned(),
    }
}
