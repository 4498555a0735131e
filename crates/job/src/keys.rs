//! Every key that a job file has or may have, for a face that shows them as fields of a form.

use toml::de::{DeArray, DeTable, DeValue};

use crate::Tables;
use crate::describe::{Field, Shape, Table};
use crate::read::Spanned;

/// What a key may hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Holds {
    /// A quantity with a unit.
    Quantity(quantity::Kind),
    /// A bare number.
    Number,
    /// A whole number.
    Whole,
    /// Text.
    Text,
    /// Yes or no.
    Switch,
    /// A day of the calendar.
    Date,
    /// One of a few words, each with its meaning.
    Choice(Vec<(&'static str, &'static str)>),
    /// Several of one kind.
    List(Box<Holds>),
    /// A list of tables that is not there yet, or what else is best written as TOML.
    Toml,
}

/// A key, what it means, and what stands there.
#[derive(Debug, Clone, PartialEq)]
pub struct Key {
    /// The whole dotted key, such as `joints.rail.overlap` or `adhesives.epoxy.cure[2].time`.
    pub key: String,
    /// One sentence on what it means.
    pub doc: &'static str,
    /// What it may hold.
    pub holds: Holds,
    /// What stands there, as a reader would type it; nothing where the key is absent.
    pub given: Option<String>,
}

/// A table of the job with its keys, those of the tables within it, too.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The dotted key of the table.
    pub key: String,
    /// What the table is for.
    pub doc: &'static str,
    /// Whether it is there.
    pub there: bool,
    /// Its keys, in the order in which the reference has them.
    pub keys: Vec<Key>,
}

/// The kinds of tables that stand under free names, with the forms of those that have several.
pub fn named() -> Vec<(&'static str, Vec<&'static str>)> {
    let fields = (Tables::TABLE.fields)();
    let named = fields.into_iter().filter_map(|field| match field.shape {
        Shape::Named(content) => Some((field.name, *content)),
        _ => None,
    });
    named
        .map(|(name, content)| match content {
            Shape::Tagged { forms, .. } => (name, forms.into_iter().map(|(word, _)| word).collect()),
            _ => (name, Vec::new()),
        })
        .collect()
}

/// The tables of a job file, each with every key that it has or may have, and those that are to be begun, by their
/// dotted keys such as `rivets.structural`. A text that is not TOML has none.
pub fn groups(text: &str, begun: &[String]) -> Vec<Group> {
    let Ok(tree) = DeTable::parse(text) else { return Vec::new() };
    let root = tree.get_ref();
    let mut groups = Vec::new();
    for field in (Tables::TABLE.fields)() {
        let node = root.get(field.name);
        match &field.shape {
            Shape::Table(table) => groups.push(group(field.name, table, None, node.and_then(as_table), text)),
            Shape::Named(content) => {
                for (name, node) in node.and_then(as_table).into_iter().flat_map(DeTable::iter) {
                    let key = format!("{}.{}", field.name, name.get_ref());
                    let Some(there) = as_table(node) else { continue };
                    match content.as_ref() {
                        Shape::Table(table) => groups.push(group(&key, table, None, Some(there), text)),
                        Shape::Tagged { tag, forms } => {
                            let word = there.get(*tag).and_then(|node| node.get_ref().as_str());
                            let form = forms.iter().find(|(form, _)| Some(*form) == word);
                            groups.extend(
                                form.map(|(_, table)| group(&key, table, Some(tag), Some(there), text)),
                            );
                        }
                        _ => {}
                    }
                }
                if let Shape::Table(table) = content.as_ref() {
                    let start = format!("{}.", field.name);
                    let known = |key: &String| groups.iter().any(|group| group.key == **key);
                    let new: Vec<&String> =
                        begun.iter().filter(|key| key.starts_with(&start) && !known(key)).collect();
                    groups.extend(new.into_iter().map(|key| group(key, table, None, None, text)));
                }
            }
            _ => {}
        }
    }
    groups
}

/// What a reader typed, as the TOML that an [`crate::Edit`] takes.
///
/// What cannot be what the key holds is handed on as a text, so that reading it says what is wrong with it.
pub fn as_toml(holds: &Holds, typed: &str) -> String {
    let typed = typed.trim();
    let quoted = || toml_edit::Value::from(typed).to_string();
    let bare = |good: bool| if good { typed.to_owned() } else { quoted() };
    match holds {
        Holds::Quantity(_) | Holds::Text | Holds::Choice(_) => quoted(),
        Holds::Number | Holds::Whole => bare(is_a(typed, |value| {
            matches!(value, DeValue::Integer(_)) || matches!(value, DeValue::Float(_))
        })),
        Holds::Date => bare(is_a(typed, |value| matches!(value, DeValue::Datetime(_)))),
        Holds::Switch => match typed {
            "yes" => "true".to_owned(),
            "no" => "false".to_owned(),
            _ => bare(typed == "true" || typed == "false"),
        },
        Holds::List(item) => {
            let bare = typed.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')).unwrap_or(typed);
            let parts = bare.split([',', ';']).map(|part| part.trim().trim_matches('"'));
            let parts: Vec<String> =
                parts.filter(|part| !part.is_empty()).map(|part| as_toml(item, part)).collect();
            format!("[{}]", parts.join(", "))
        }
        Holds::Toml => bare(is_a(typed, |_| true)),
    }
}

fn is_a(typed: &str, good: impl Fn(&DeValue<'_>) -> bool) -> bool {
    DeValue::parse(typed).is_ok_and(|value| good(value.get_ref()))
}

fn as_table<'t>(node: &'t Spanned<'_>) -> Option<&'t DeTable<'t>> {
    match node.get_ref() {
        DeValue::Table(table) => Some(table),
        _ => None,
    }
}

fn as_array<'t>(node: &'t Spanned<'_>) -> Option<&'t DeArray<'t>> {
    match node.get_ref() {
        DeValue::Array(items) => Some(items),
        _ => None,
    }
}

fn group(key: &str, table: &Table, tag: Option<&str>, there: Option<&DeTable<'_>>, text: &str) -> Group {
    let mut keys = Vec::new();
    within(key, table, tag, there, text, &mut keys);
    Group { key: key.to_owned(), doc: table.doc, there: there.is_some(), keys }
}

/// The keys of a table and of the tables within it.
fn within(
    path: &str,
    table: &Table,
    tag: Option<&str>,
    there: Option<&DeTable<'_>>,
    text: &str,
    keys: &mut Vec<Key>,
) {
    // The word that says which keys follow is no key to change: other keys would be wanted with it.
    for field in (table.fields)().iter().filter(|field| Some(field.name) != tag) {
        let node = there.and_then(|there| there.get(field.name));
        one(&format!("{path}.{}", field.name), field, &field.shape, node, text, keys);
    }
}

fn one(key: &str, field: &Field, shape: &Shape, node: Option<&Spanned<'_>>, text: &str, keys: &mut Vec<Key>) {
    match (shape, node) {
        (Shape::Table(table), node) if node.is_none_or(|node| as_table(node).is_some()) => {
            within(key, table, None, node.and_then(as_table), text, keys);
        }
        (Shape::Named(content), Some(node)) => {
            for (name, node) in as_table(node).into_iter().flat_map(DeTable::iter) {
                one(&format!("{key}.{}", name.get_ref()), field, content, Some(node), text, keys);
            }
        }
        (Shape::Named(_), None) => {}
        (Shape::List(item, _), Some(node)) if matches!(**item, Shape::Table(_)) => {
            for (at, node) in as_array(node).into_iter().flat_map(|items| items.iter()).enumerate() {
                one(&format!("{key}[{}]", at + 1), field, item, Some(node), text, keys);
            }
        }
        _ => keys.push(Key {
            key: key.to_owned(),
            doc: field.doc,
            holds: holds(shape),
            given: node.map(|node| typed(node, text)),
        }),
    }
}

fn holds(shape: &Shape) -> Holds {
    match shape {
        Shape::Quantity(kind) => Holds::Quantity(*kind),
        Shape::Number => Holds::Number,
        Shape::Whole => Holds::Whole,
        Shape::Text => Holds::Text,
        Shape::Switch => Holds::Switch,
        Shape::Date => Holds::Date,
        Shape::Choice(words) => Holds::Choice(words.iter().map(|word| (word.word, word.doc)).collect()),
        Shape::List(item, _) => match holds(item) {
            Holds::Toml => Holds::Toml,
            item => Holds::List(Box::new(item)),
        },
        Shape::Table(_) | Shape::Named(_) | Shape::Tagged { .. } => Holds::Toml,
    }
}

/// A value as a reader would type it.
fn typed(node: &Spanned<'_>, text: &str) -> String {
    match node.get_ref() {
        DeValue::String(words) => words.to_string(),
        DeValue::Array(items) if items.iter().all(|item| item.get_ref().as_str().is_some()) => {
            items.iter().map(|item| typed(item, text)).collect::<Vec<_>>().join(", ")
        }
        _ => text.get(node.span()).unwrap_or_default().to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Edit, edit};

    const JOB: &str = include_str!("../../../examples/longitudinal.toml");

    fn key<'g>(groups: &'g [Group], key: &str) -> &'g Key {
        groups.iter().flat_map(|group| &group.keys).find(|it| it.key == key).expect("the key")
    }

    #[test]
    fn unit_a_job_shows_its_keys_with_what_stands_there() {
        let groups = groups(JOB, &[]);
        let overlap = key(&groups, "joints.rail.overlap");
        assert_eq!(overlap.given.as_deref(), Some("100 mm"));
        assert_eq!(overlap.holds, Holds::Quantity(quantity::Kind::Length));
        assert_eq!(key(&groups, "joints.rail.rivets.rows").given.as_deref(), Some("30 mm"));
        assert_eq!(key(&groups, "adhesives.epoxy.cure[2].time").given.as_deref(), Some("24 h"));
        assert_eq!(key(&groups, "adhesives.epoxy.scatter").given.as_deref(), Some("0.10"));
        assert_eq!(key(&groups, "joints.rail.cracks").given.as_deref(), Some("352 mm, 398 mm"));
        assert_eq!(key(&groups, "job.service.humid").given.as_deref(), Some("false"));
        assert!(key(&groups, "joints.rail.cut_tolerance").given.is_none());
        assert!(groups.iter().flat_map(|group| &group.keys).all(|it| it.key != "joints.rail.form"));
        assert!(super::groups("no = [toml", &[]).is_empty());
    }

    #[test]
    fn unit_a_table_that_is_begun_shows_its_keys_until_it_is_there() {
        let begun = ["rivets.blind".to_owned(), "rivets.structural".to_owned(), "rivets".to_owned()];
        let all = groups(JOB, &begun);
        let of = |key: &str| all.iter().filter(|group| group.key == key).collect::<Vec<_>>();
        assert!(of("rivets.blind").iter().all(|group| !group.there && group.keys.len() > 5));
        assert_eq!((of("rivets.blind").len(), of("rivets.structural").len(), of("rivets").len()), (1, 1, 0));
        let (_, forms) = named().into_iter().find(|(kind, _)| *kind == "joints").expect("joints");
        assert!(forms.contains(&"sleeve"));
    }

    /// Typing what stands there changes no byte; so what a form shows and what it sends are one.
    #[test]
    fn law_what_is_shown_can_be_typed_again() {
        let all = groups(JOB, &[]).into_iter().flat_map(|group| group.keys);
        let edits: Vec<Edit> = all
            .filter_map(|it| Some(Edit { value: as_toml(&it.holds, it.given.as_deref()?), key: it.key }))
            .collect();
        assert!(edits.len() > 100, "{}", edits.len());
        assert_eq!(edit(JOB, &edits).as_deref(), Ok(JOB));
    }

    #[test]
    fn unit_what_is_typed_becomes_toml() {
        let lengths = Holds::List(Box::new(Holds::Quantity(quantity::Kind::Length)));
        assert_eq!(as_toml(&lengths, "30 mm, 2 3/4 in"), "[\"30 mm\", \"2 3/4 in\"]");
        assert_eq!(as_toml(&lengths, "[\"30 mm\"]"), "[\"30 mm\"]");
        assert_eq!(as_toml(&Holds::Number, "1.5"), "1.5");
        assert_eq!(as_toml(&Holds::Number, "about 2"), "\"about 2\"");
        assert_eq!(as_toml(&Holds::Switch, "yes"), "true");
        assert_eq!(
            as_toml(&Holds::Text, "a \"b\"\nc = 1"),
            toml_edit::Value::from("a \"b\"\nc = 1").to_string()
        );
        assert_eq!(as_toml(&Holds::Toml, "[{ at = 1 }]"), "[{ at = 1 }]");
        assert_eq!(as_toml(&Holds::Toml, "1\nx = 2"), "\"\"\"\n1\nx = 2\"\"\"");
    }
}
