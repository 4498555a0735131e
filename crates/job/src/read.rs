//! From the span-carrying tree of a TOML text to typed values, gathering every problem on the way.

use quantity::{Kind, Quantity};
use toml::de::{DeTable, DeValue};

use crate::describe::{Field, Limit, Shape, Table, Word};
use crate::entry::{Entry, Located, Named};
use crate::place::{Place, Source};
use crate::problem::{Problem, listed, nearest};

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
    fn child(&self, key: &str, value: &'n Spanned<'n>) -> Node<'n> {
        Node { key: joined(&self.key, key), value }
    }
}

fn joined(table: &str, key: &str) -> String {
    if table.is_empty() { key.to_owned() } else { format!("{table}.{key}") }
}

/// The text being read and the problems found in it.
pub(crate) struct Reader<'t> {
    pub(crate) source: Source<'t>,
    pub(crate) problems: Vec<Problem>,
}

impl Reader<'_> {
    /// The place of a node.
    pub(crate) fn place(&self, node: &Node<'_>) -> Place {
        self.source.place(node.value.span())
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
        self.problems.push(Problem {
            place,
            key: node.key.clone(),
            what: what.into(),
            expected: expected.into(),
            mend,
        });
    }

    /// Refuses a node for not being of the kind that is wanted; always `None`, to be returned.
    pub(crate) fn wrong_kind<T>(&mut self, node: &Node<'_>, expected: impl Into<String>) -> Option<T> {
        let what = format!("found {}", in_words(node.value.get_ref()));
        self.refuse(node, what, expected, None);
        None
    }
}

/// What a node is, in words.
fn in_words(value: &DeValue<'_>) -> String {
    match value {
        DeValue::String(text) => format!("the text \"{text}\""),
        DeValue::Integer(number) => format!("the bare number {number}"),
        DeValue::Float(number) => format!("the bare number {number}"),
        DeValue::Boolean(switch) => format!("{switch}"),
        DeValue::Datetime(_) => "a date or time".to_owned(),
        DeValue::Array(_) => "a list".to_owned(),
        DeValue::Table(_) => "a table".to_owned(),
    }
}

/// A bare number, if the node is one. Infinity and NaN, which TOML allows, are no numbers here.
fn bare_number(value: &DeValue<'_>) -> Option<f64> {
    let number: f64 = match value {
        DeValue::Integer(whole) if whole.radix() == 10 => whole.as_str().parse().ok()?,
        DeValue::Float(float) => float.as_str().parse().ok()?,
        _ => return None,
    };
    number.is_finite().then_some(number)
}

/// One row of a table in the tree: key, place of the key, value.
struct Row<'n> {
    name: String,
    span: std::ops::Range<usize>,
    value: &'n Spanned<'n>,
}

/// The rows of a table in the order of the file.
fn rows<'n>(table: &'n DeTable<'n>) -> Vec<Row<'n>> {
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
}

impl<'n> Keys<'n> {
    /// Opens a table and refuses every key that its description does not have.
    pub(crate) fn open(
        node: &Node<'n>,
        table: &Table,
        also: &[&str],
        reader: &mut Reader<'_>,
    ) -> Option<Self> {
        let DeValue::Table(content) = node.value.get_ref() else {
            return reader.wrong_kind(node, format!("a table: {}", table.doc));
        };
        let rows = rows(content);
        let fields = (table.fields)();
        for row in &rows {
            if also.contains(&row.name.as_str()) || fields.iter().any(|field| field.name == row.name) {
                continue;
            }
            let known = || fields.iter().map(|field| field.name).chain(also.iter().copied());
            let near = nearest(&row.name, known());
            reader.problems.push(Problem {
                place: reader.source.place(row.span.clone()),
                key: joined(&node.key, &row.name),
                what: format!("the key \"{}\" is not known here", row.name),
                expected: known().collect::<Vec<_>>().join(", "),
                mend: near.map(|near| format!("write \"{near}\"")),
            });
        }
        Some(Self { node: Node { key: node.key.clone(), value: node.value }, rows, fields })
    }

    /// Reads one key.
    pub(crate) fn entry<T: Value>(&self, name: &str, reader: &mut Reader<'_>) -> Entry<T> {
        let key = joined(&self.node.key, name);
        let field = self.fields.iter().find(|field| field.name == name);
        let Some(row) = self.rows.iter().find(|row| row.name == name) else {
            if let Some(field) = field.filter(|field| field.required) {
                let what = format!("the key \"{name}\" is missing");
                reader.refuse(&self.node, what, field.doc, Some(format!("add \"{name}\"")));
            }
            return Entry { key, located: None };
        };
        let node = self.node.child(name, row.value);
        let limit = field.map_or(Limit::Any, |field| field.limit);
        let located =
            T::read(&node, limit, reader).map(|value| Located { value, place: reader.place(&node) });
        Entry { key, located }
    }

    /// Reads one key that holds named tables; none where the key is absent.
    pub(crate) fn named<T: Value>(&self, name: &str, reader: &mut Reader<'_>) -> Named<T> {
        let key = joined(&self.node.key, name);
        let Some(row) = self.rows.iter().find(|row| row.name == name) else {
            return Named { key, items: Vec::new() };
        };
        let node = self.node.child(name, row.value);
        let DeValue::Table(content) = node.value.get_ref() else {
            let none: Option<()> =
                reader.wrong_kind(&node, format!("tables under names of your own, such as [{key}.first]"));
            debug_assert!(none.is_none(), "wrong_kind never gives a value");
            return Named { key, items: Vec::new() };
        };
        let mut items = Vec::new();
        for row in rows(content) {
            let place = reader.source.place(row.span.clone());
            let child = node.child(&row.name, row.value);
            if !is_name(&row.name) {
                reader.problems.push(Problem {
                    place,
                    key: child.key,
                    what: format!("the name \"{}\" cannot be used", row.name),
                    expected: "letters, digits, - and _".to_owned(),
                    mend: None,
                });
                continue;
            }
            if let Some(item) = T::read(&child, Limit::Any, reader) {
                items.push((Located { value: row.name, place }, item));
            }
        }
        Named { key, items }
    }

    /// The whole table's key and place.
    pub(crate) fn whole(&self, reader: &Reader<'_>) -> (String, Place) {
        (self.node.key.clone(), reader.place(&self.node))
    }
}

/// Names become part of dotted names, so a dot or a space in one would make them ambiguous.
fn is_name(name: &str) -> bool {
    !name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_')
}

/// Quantities, each by its kind. (A blanket implementation would rule out the plain types below.)
macro_rules! quantities {
    ($($quantity:ident),+) => { $(
        impl Value for quantity::$quantity {
            fn shape() -> Shape {
                Shape::Quantity(<Self as Quantity>::KIND)
            }

            fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
                quantity_of(node, <Self as Quantity>::KIND, limit, reader).map(Self::from_base)
            }
        }
    )+ };
}

quantities!(
    Force,
    Length,
    Stress,
    Temperature,
    TemperatureDifference,
    ThermalExpansion,
    Time,
    Toughness,
    Volume
);

fn quantity_of(node: &Node<'_>, kind: Kind, limit: Limit, reader: &mut Reader<'_>) -> Option<f64> {
    let text = match node.value.get_ref() {
        DeValue::String(text) => text.to_string(),
        // A bare number goes the same way: the parser knows best which units are likely.
        DeValue::Integer(number) => number.to_string(),
        DeValue::Float(number) => number.to_string(),
        _ => {
            return reader.wrong_kind(
                node,
                format!("a {}, such as {}", kind.name(), listed(kind.examples().iter().copied())),
            );
        }
    };
    match quantity::parse(&text, kind) {
        Ok(value) => {
            if limit.allows(value) {
                return Some(value);
            }
            let print = |value| quantity::print(value, kind, quantity::System::Metric);
            let expected = limit.words(print).unwrap_or_else(|| "a finite number".to_owned());
            reader.refuse(
                node,
                format!("{text} is out of range"),
                format!("a {} {expected}", kind.name()),
                None,
            );
            None
        }
        Err(error) => {
            reader.refuse(node, error.found(), error.expected(), error.mend());
            None
        }
    }
}

impl Value for f64 {
    fn shape() -> Shape {
        Shape::Number
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let expected = limit
            .words(|value| format!("{value}"))
            .map_or("a number".to_owned(), |words| format!("a number {words}"));
        let Some(number) = bare_number(node.value.get_ref()) else {
            return reader.wrong_kind(node, expected);
        };
        if limit.allows(number) {
            return Some(number);
        }
        reader.refuse(node, format!("{number} is out of range"), expected, None);
        None
    }
}

impl Value for u32 {
    fn shape() -> Shape {
        Shape::Whole
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let expected = limit
            .words(|value| format!("{value}"))
            .map_or("a whole number".to_owned(), |words| format!("a whole number {words}"));
        let whole = match node.value.get_ref() {
            DeValue::Integer(whole) if whole.radix() == 10 => whole.as_str().parse::<u32>().ok(),
            _ => None,
        };
        match whole {
            Some(whole) if limit.allows(f64::from(whole)) => Some(whole),
            _ => reader.wrong_kind(node, expected),
        }
    }
}

impl Value for String {
    fn shape() -> Shape {
        Shape::Text
    }

    fn read(node: &Node<'_>, _: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        match node.value.get_ref() {
            DeValue::String(text) if !text.trim().is_empty() => Some(text.to_string()),
            DeValue::String(_) => {
                reader.refuse(node, "the text is empty", "some text", None);
                None
            }
            _ => reader.wrong_kind(node, "text in quotation marks"),
        }
    }
}

impl Value for bool {
    fn shape() -> Shape {
        Shape::Switch
    }

    fn read(node: &Node<'_>, _: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        match node.value.get_ref() {
            DeValue::Boolean(switch) => Some(*switch),
            _ => reader.wrong_kind(node, "true or false"),
        }
    }
}

impl<T: Value> Value for Vec<T> {
    fn shape() -> Shape {
        Shape::List(Box::new(T::shape()))
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let DeValue::Array(items) = node.value.get_ref() else {
            return reader.wrong_kind(node, "a list in square brackets");
        };
        let mut values = Vec::with_capacity(items.len());
        for (index, item) in items.iter().enumerate() {
            let child = Node { key: format!("{}[{}]", node.key, index + 1), value: item };
            values.extend(T::read(&child, limit, reader));
        }
        // A list with a refused item is no shorter list: the problem stands, and so does its length.
        (values.len() == items.len()).then_some(values)
    }
}

/// One of a few words; `table!`'s companion for choices uses it.
pub(crate) fn word(node: &Node<'_>, words: &'static [Word], reader: &mut Reader<'_>) -> Option<usize> {
    let known = || words.iter().map(|word| word.word);
    let DeValue::String(text) = node.value.get_ref() else {
        return reader.wrong_kind(node, listed(known()));
    };
    let found = words.iter().position(|word| word.word == text.as_ref());
    if found.is_none() {
        let mend = nearest(text, known()).map(|near| format!("write \"{near}\""));
        reader.refuse(node, format!("\"{text}\" is not one of the words allowed"), listed(known()), mend);
    }
    found
}

/// The word under a tag that decides which table a table is, with the node that gives it.
pub(crate) fn tag(node: &Node<'_>, tag: &str, forms: &[&str], reader: &mut Reader<'_>) -> Option<usize> {
    let DeValue::Table(content) = node.value.get_ref() else {
        return reader.wrong_kind(node, "a table");
    };
    let Some(row) = rows(content).into_iter().find(|row| row.name == tag) else {
        let what = format!("the key \"{tag}\" is missing");
        reader.refuse(node, what, format!("{tag} = {}", listed(forms.iter().copied())), None);
        return None;
    };
    let child = node.child(tag, row.value);
    let DeValue::String(text) = row.value.get_ref() else {
        return reader.wrong_kind(&child, listed(forms.iter().copied()));
    };
    let found = forms.iter().position(|form| *form == text.as_ref());
    if found.is_none() {
        let mend = nearest(text, forms.iter().copied()).map(|near| format!("write \"{near}\""));
        reader.refuse(&child, format!("\"{text}\" is not known here"), listed(forms.iter().copied()), mend);
    }
    found
}
