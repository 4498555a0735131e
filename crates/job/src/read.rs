//! Walking the span-carrying tree of a TOML text, gathering every problem on the way.

use quantity::Kind;
use toml::de::{DeTable, DeValue};

use crate::describe::{Field, Limit, Shape, Table};
use crate::entry::{Entry, Located, Named};
use crate::place::{Place, Source};
use crate::problem::{MISSING, Problem, listed, nearest, shown};
pub(crate) use crate::value::word;

/// The most items that a list may have, and the most tables under names of one's own.
pub(crate) const MOST_ITEMS: usize = 1000;

/// The tree of a TOML text, with the place of every node.
pub(crate) type Spanned<'i> = toml::Spanned<DeValue<'i>>;

/// Something that the job file can hold.
pub(crate) trait Value: Sized {
    /// What it looks like in the file.
    fn shape() -> Shape;
    /// Reads it, leaving a problem behind where that does not work.
    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self>;
}

/// A value in the tree, with the key under which it stands.
pub(crate) struct Node<'n> {
    pub(crate) key: String,
    pub(crate) value: &'n Spanned<'n>,
}

impl<'n> Node<'n> {
    pub(crate) fn child(&self, key: &str, value: &'n Spanned<'n>) -> Node<'n> {
        Node { key: joined(&self.key, key), value }
    }
}

fn joined(table: &str, key: &str) -> String {
    if table.is_empty() { shown(key) } else { format!("{table}.{}", shown(key)) }
}

/// The text being read and the problems found in it.
pub(crate) struct Reader<'t> {
    pub(crate) source: Source<'t>,
    pub(crate) problems: Vec<Problem>,
    /// Whether the text is broken as TOML, so that what seems to be missing may stand in it.
    pub(crate) broken: bool,
}

impl<'t> Reader<'t> {
    /// The place of a node. Of a table that is its header, or its beginning up to its first key: a table
    /// over many lines has no better line to be shown by.
    pub(crate) fn place(&self, node: &Node<'_>) -> Place {
        let span = node.value.span();
        let DeValue::Table(content) = node.value.get_ref() else {
            return self.source.place(span);
        };
        let first = rows(content).first().map(|row| row.span.clone());
        match first {
            Some(first) if node.key.is_empty() => self.source.place(first),
            Some(first) if self.written(node).starts_with('{') && first.end > span.start => {
                self.source.place(span.start..first.end)
            }
            _ => self.source.place(span),
        }
    }

    /// A node as it is written in the file.
    pub(crate) fn written(&self, node: &Node<'_>) -> &'t str {
        self.source.slice(node.value.span())
    }

    /// Leaves a problem behind at a node.
    pub(crate) fn refuse(
        &mut self,
        node: &Node<'_>,
        what: impl Into<String>,
        expected: impl Into<String>,
        mend: Option<String>,
    ) {
        let place = self.place(node);
        self.refuse_at(place, node.key.clone(), what, expected, mend);
    }

    /// Leaves a problem behind at a place.
    pub(crate) fn refuse_at(
        &mut self,
        place: Place,
        key: String,
        what: impl Into<String>,
        expected: impl Into<String>,
        mend: Option<String>,
    ) {
        self.problems.push(Problem { place, key, what: what.into(), expected: expected.into(), mend });
    }

    /// Refuses a node for not being of the kind that is wanted; always `None`, to be returned.
    pub(crate) fn wrong_kind<T>(
        &mut self,
        node: &Node<'_>,
        expected: impl Into<String>,
        mend: Option<String>,
    ) -> Option<T> {
        let what = format!("found {}", in_words(node.value.get_ref()));
        self.refuse(node, what, expected, mend);
        None
    }

    /// Refuses more items than any job has: a slip, or a file that is no job.
    pub(crate) fn too_many(&mut self, node: &Node<'_>, count: usize) -> bool {
        if count > MOST_ITEMS {
            self.refuse(node, format!("there are {count} items"), format!("at most {MOST_ITEMS}"), None);
        }
        count > MOST_ITEMS
    }
}

/// What a node is, in words.
fn in_words(value: &DeValue<'_>) -> String {
    match value {
        DeValue::String(text) => format!("the text \"{}\"", shown(text)),
        DeValue::Integer(number) => format!("the bare number {}", shown(&number.to_string())),
        DeValue::Float(number) => format!("the bare number {}", shown(&number.to_string())),
        DeValue::Boolean(switch) => format!("{switch}"),
        DeValue::Datetime(_) => "a date or time".to_owned(),
        DeValue::Array(_) => "a list".to_owned(),
        DeValue::Table(_) => "a table".to_owned(),
    }
}

/// One row of a table in the tree: key, place of the key, value.
pub(crate) struct Row<'n> {
    pub(crate) name: String,
    pub(crate) span: std::ops::Range<usize>,
    pub(crate) value: &'n Spanned<'n>,
}

/// The rows of a table in the order of the file.
pub(crate) fn rows<'n>(table: &'n DeTable<'n>) -> Vec<Row<'n>> {
    let mut rows: Vec<Row<'n>> = table
        .iter()
        .map(|(key, value)| Row { name: key.get_ref().to_string(), span: key.span(), value })
        .collect();
    rows.sort_by_key(|row| row.span.start);
    rows
}

/// The keys of one table while they are being read.
pub(crate) struct Keys<'n> {
    node: Node<'n>,
    rows: Vec<Row<'n>>,
    fields: Vec<Field>,
    /// Keys that were probably meant where an unknown one stands.
    meant: Vec<&'static str>,
}

impl<'n> Keys<'n> {
    /// Opens a table and refuses every key that its description does not have.
    pub(crate) fn open(
        node: &Node<'n>,
        table: &Table,
        also: &[&'static str],
        reader: &mut Reader<'_>,
    ) -> Option<Self> {
        let fields = (table.fields)();
        let DeValue::Table(content) = node.value.get_ref() else {
            let names: Vec<&str> = fields.iter().map(|field| field.name).collect();
            // `[[bond_day]]` makes a list of tables, and is easily mistaken for `[bond_day]`.
            let doubled = reader.written(node).starts_with("[[") && !node.key.contains('[');
            let mend = doubled.then(|| format!("write [{}], in single brackets", node.key));
            return reader.wrong_kind(node, format!("a table of {}", names.join(", ")), mend);
        };
        let rows = rows(content);
        if reader.too_many(node, rows.len()) {
            return None;
        }
        let known: Vec<&'static str> =
            fields.iter().map(|field| field.name).chain(also.iter().copied()).collect();
        // A key that is there already was not meant by another.
        let free: Vec<&'static str> =
            known.iter().copied().filter(|known| rows.iter().all(|row| row.name != *known)).collect();
        let mut meant = Vec::new();
        for row in &rows {
            let name = row.name.as_str();
            if known.contains(&name) {
                continue;
            }
            let near = nearest(name, free.iter().copied());
            meant.extend(near);
            let is_table = matches!(row.value.get_ref(), DeValue::Table(_));
            let kind = if is_table { "table" } else { "key" };
            reader.refuse_at(
                reader.source.place(row.span.clone()),
                joined(&node.key, name),
                format!("this {kind} is not known here"),
                known.join(", "),
                near.map(|near| format!("write \"{near}\"")),
            );
        }
        Some(Self { node: Node { key: node.key.clone(), value: node.value }, rows, fields, meant })
    }

    /// Reads one key.
    pub(crate) fn entry<T: Value>(&self, name: &str, reader: &mut Reader<'_>) -> Entry<T> {
        let key = joined(&self.node.key, name);
        let field = self.fields.iter().find(|field| field.name == name);
        let Some(row) = self.rows.iter().find(|row| row.name == name) else {
            if let Some(field) = field.filter(|field| field.required) {
                self.missing(field, reader);
            }
            return Entry { key, located: None };
        };
        let node = self.node.child(name, row.value);
        let limit = field.map_or(Limit::Any, |field| field.limit);
        let located =
            T::read(&node, limit, reader).map(|value| Located { value, place: reader.place(&node) });
        Entry { key, located }
    }

    /// Refuses the table for want of a key, unless the key stands there misspelt or the text is broken.
    fn missing(&self, field: &Field, reader: &mut Reader<'_>) {
        if reader.broken || self.meant.contains(&field.name) {
            return;
        }
        let name = field.name;
        let what = match field.shape {
            Shape::Table(_) => format!("the table [{name}] {MISSING}"),
            _ => format!("the key \"{name}\" {MISSING}"),
        };
        let mend = match &field.shape {
            Shape::Table(_) => format!("add a table [{name}]"),
            Shape::Text => format!("add {name} = \"…\""),
            Shape::Whole => match field.limit {
                Limit::Between(least, _) => format!("add {name} = {least}"),
                _ => format!("add \"{name}\""),
            },
            Shape::Quantity(kind) => {
                format!("add \"{name}\", such as {name} = \"{}\"", kind.examples().first().unwrap_or(&""))
            }
            _ => format!("add \"{name}\""),
        };
        let place = reader.place(&self.node);
        reader.refuse_at(place, self.node.key.clone(), what, needed(field), Some(mend));
    }

    /// Reads one key that holds named tables; none where the key is absent.
    pub(crate) fn named<T: Value>(&self, name: &str, reader: &mut Reader<'_>) -> Named<T> {
        let mut named = Named { key: joined(&self.node.key, name), items: Vec::new(), refused: Vec::new() };
        let Some(row) = self.rows.iter().find(|row| row.name == name) else {
            return named;
        };
        let node = self.node.child(name, row.value);
        let DeValue::Table(content) = node.value.get_ref() else {
            let expected = format!("tables under names of your own, such as [{}.first]", named.key);
            let _: Option<()> = reader.wrong_kind(&node, expected, None);
            return named;
        };
        let rows = rows(content);
        if reader.too_many(&node, rows.len()) {
            return named;
        }
        for row in rows {
            let place = reader.source.place(row.span.clone());
            let child = node.child(&row.name, row.value);
            if !is_name(&row.name) {
                reader.refuse_at(
                    place,
                    child.key,
                    format!("the name \"{}\" cannot be used", shown(&row.name)),
                    format!("letters from a to z, digits, - and _, at most {LONGEST_NAME} of them"),
                    usable(&row.name).map(|usable| format!("write {usable}")),
                );
                named.refused.push(row.name);
                continue;
            }
            match T::read(&child, Limit::Any, reader) {
                Some(item) => named.items.push((Located { value: row.name, place }, item)),
                None => named.refused.push(row.name),
            }
        }
        named
    }

    /// The whole table's key and place.
    pub(crate) fn whole(&self, reader: &Reader<'_>) -> (String, Place) {
        (self.node.key.clone(), reader.place(&self.node))
    }
}

/// What a missing key holds and means.
fn needed(field: &Field) -> String {
    let holds = match &field.shape {
        Shape::Quantity(kind) => a(*kind),
        Shape::Number => match field.limit.words(|value| format!("{value}")) {
            Some(limit) => format!("a number {limit}"),
            None => "a number".to_owned(),
        },
        Shape::Whole => "a whole number".to_owned(),
        Shape::Table(_) => "a table".to_owned(),
        _ => "a text".to_owned(),
    };
    format!("{holds}. {}", field.doc)
}

/// A kind of quantity with its article.
pub(crate) fn a(kind: Kind) -> String {
    let name = kind.name();
    format!("{} {name}", if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" })
}

/// The longest name that a user may give to something, in characters.
const LONGEST_NAME: usize = 60;

/// Names become part of dotted names, so a dot or a space in one would make them ambiguous.
fn is_name(name: &str) -> bool {
    (1..=LONGEST_NAME).contains(&name.len())
        && name.chars().all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_')
}

/// A name with what cannot be used replaced.
fn usable(name: &str) -> Option<String> {
    let replaced: String =
        name.chars().map(|c| if c.is_ascii_alphanumeric() || c == '-' { c } else { '_' }).collect();
    let usable = replaced.trim_matches('_').to_owned();
    // Letters of other alphabets have no stand-in that everybody would choose.
    (name.is_ascii() && is_name(&usable)).then_some(usable)
}

/// The word under a tag that decides which table a table is. A misspelt word is refused, and what was probably
/// meant is given back, so that the problems inside the table show as well.
pub(crate) fn tag(node: &Node<'_>, tag: &str, forms: &[&str], reader: &mut Reader<'_>) -> Option<usize> {
    let DeValue::Table(content) = node.value.get_ref() else {
        return reader.wrong_kind(
            node,
            format!("a table with {tag} = {}", listed(forms.iter().copied())),
            None,
        );
    };
    let rows = rows(content);
    let position = |word: &str| forms.iter().position(|form| *form == word);
    let Some(row) = rows.iter().find(|row| row.name == tag) else {
        let expected = format!("{tag} = {}", listed(forms.iter().copied()));
        let names = rows.iter().map(|row| row.name.as_str());
        let misspelt = names.clone().find(|name| nearest(name, [tag]).is_some());
        match (misspelt.and_then(|name| rows.iter().find(|row| row.name == name)), reader.broken) {
            (Some(row), _) => reader.refuse_at(
                reader.source.place(row.span.clone()),
                joined(&node.key, &row.name),
                "this key is not known here",
                expected,
                Some(format!("write \"{tag}\"")),
            ),
            (None, true) => {}
            (None, false) => {
                let mend = format!("add it, such as {tag} = {}", listed(forms.first().copied()));
                reader.refuse(node, format!("the key \"{tag}\" is missing"), expected, Some(mend));
            }
        }
        return None;
    };
    let child = node.child(tag, row.value);
    let DeValue::String(text) = row.value.get_ref() else {
        return reader.wrong_kind(&child, listed(forms.iter().copied()), None);
    };
    position(text).or_else(|| {
        let near = nearest(text, forms.iter().copied());
        let mend = near.map(|near| format!("write \"{near}\""));
        let what = format!("\"{}\" is not known here", shown(text));
        reader.refuse(&child, what, listed(forms.iter().copied()), mend);
        near.and_then(position)
    })
}
