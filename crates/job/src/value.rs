//! The values that a key can have: quantities, numbers, texts, switches, words and lists.

use quantity::{Kind, ParseQuantityError, Quantity, System};
use toml::de::DeValue;

use crate::describe::{Limit, Shape, Word};
use crate::entry::Located;
use crate::plausible::slip;
use crate::problem::{listed, nearest, shown};
use crate::read::{Node, Reader, Value, a};
use crate::syntax::switch;

/// A bare number, if the node is one. Infinity and NaN, which TOML allows, are no numbers here.
fn bare_number(value: &DeValue<'_>) -> Option<f64> {
    let number: f64 = match value {
        DeValue::Integer(whole) if whole.radix() == 10 => whole.as_str().parse().ok()?,
        DeValue::Float(float) => float.as_str().parse().ok()?,
        _ => return None,
    };
    number.is_finite().then_some(number)
}

/// Sizes of plain numbers but zero: shares, ratios and factors need no others.
const NUMBERS: std::ops::RangeInclusive<f64> = 1e-9..=1e9;

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
    Acceleration,
    ActivationEnergy,
    Angle,
    ElectricPotential,
    Force,
    Length,
    Mass,
    Moment,
    Rate,
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
            let expected = format!("{}, such as {}", a(kind), listed(kind.examples().iter().copied()));
            return reader.wrong_kind(node, expected, None);
        }
    };
    match quantity::parse(&text, kind) {
        Ok(value) => {
            let print = |value| quantity::print(value, kind, System::Metric);
            let words = if limit.allows(value) { slip(value, kind) } else { limit.words(print) };
            let Some(expected) = words else {
                // Minus zero is zero, and would only show in a result that divides by it.
                return Some(value + 0.0);
            };
            let what = format!("\"{}\" is out of range", shown(&text));
            reader.refuse(node, what, format!("{} {expected}", a(kind)), None);
            None
        }
        Err(error) => {
            refuse_quantity(node, &text, &error, reader);
            None
        }
    }
}

/// Refuses a text that is no quantity, at the part of it that is at fault.
fn refuse_quantity(node: &Node<'_>, text: &str, error: &ParseQuantityError, reader: &mut Reader<'_>) {
    let whole = node.value.span();
    let written = reader.written(node);
    // The part is only known to the text; in the file it stands behind the quotation mark, if the text is
    // written there as it is, without escapes.
    let plain = written.len() == text.len() + 2 && written.get(1..=text.len()) == Some(text);
    let part = error.span();
    let place = if plain && !part.is_empty() && part.len() < text.len() {
        reader.source.place(whole.start + 1 + part.start..whole.start + 1 + part.end)
    } else {
        reader.place(node)
    };
    reader.refuse_at(place, node.key.clone(), shown_found(error), error.expected(), mend(text, error));
}

/// How to mend a text that is no quantity: with the whole text as it should be, where that is known.
fn mend(text: &str, error: &ParseQuantityError) -> Option<String> {
    let part = error.span();
    let (before, behind) = (text.get(..part.start).unwrap_or(""), text.get(part.end..).unwrap_or(""));
    let with = |part: &str| format!("\"{before}{part}{behind}\"");
    if let ParseQuantityError::DecimalComma { meant, .. } = error {
        let meant: Vec<String> = meant.iter().map(|number| with(number)).collect();
        return Some(format!("write {}", meant.join(" or ")));
    }
    let mend = error.mend()?;
    match mend.strip_prefix("did you mean \"").and_then(|rest| rest.strip_suffix("\"?")) {
        Some(unit) => Some(format!("write {}", with(unit))),
        None => Some(mend),
    }
}

/// What the parser found, which may repeat a long text of the user's.
fn shown_found(error: &ParseQuantityError) -> String {
    /// Long enough for every sentence of the parser with a text of ordinary length in it.
    const LONGEST: usize = 160;
    let found = error.found();
    if found.chars().count() > LONGEST { "this is no quantity".to_owned() } else { found }
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
            let mend = match node.value.get_ref() {
                DeValue::String(text) => number_meant(text, limit).map(|meant| format!("write {meant}")),
                _ => None,
            };
            return reader.wrong_kind(node, expected, mend);
        };
        if limit.allows(number) && (number == 0.0 || NUMBERS.contains(&number.abs())) {
            return Some(number + 0.0);
        }
        let slip = if limit.allows(number) { "; less than 1e-9 or more than 1e9 is a slip" } else { "" };
        let expected = format!("{expected}{slip}");
        let per_cent = limit == Limit::Share && number > 1.0 && number <= 100.0 && number.fract() == 0.0;
        let mend = per_cent.then(|| format!("write {} for {number} %", number / 100.0));
        reader.refuse(node, format!("{number} is out of range"), expected, mend);
        None
    }
}

/// The number that a text stands for, where it is one in quotation marks, with a comma, or in per cent.
fn number_meant(text: &str, limit: Limit) -> Option<String> {
    match quantity::parse(text, Kind::Factor) {
        Ok(number) if limit.allows(number) => Some(format!("{number}")),
        Err(ParseQuantityError::DecimalComma { meant, .. }) => meant.first().map(ToString::to_string),
        _ => None,
    }
}

impl Value for u32 {
    fn shape() -> Shape {
        Shape::Whole
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let expected = match (limit, limit.words(|value| format!("{value}"))) {
            (Limit::Between(only, high), Some(words)) if only.to_bits() == high.to_bits() => words,
            (_, Some(words)) => format!("a whole number {words}"),
            (_, None) => "a whole number".to_owned(),
        };
        let whole = match node.value.get_ref() {
            DeValue::Integer(whole) if whole.radix() == 10 => whole.as_str().parse::<u32>().ok(),
            _ => None,
        };
        match whole {
            Some(whole) if limit.allows(f64::from(whole)) => Some(whole),
            Some(whole) => {
                reader.refuse(node, format!("{whole} is out of range"), expected, None);
                None
            }
            None => reader.wrong_kind(node, expected, None),
        }
    }
}

impl Value for String {
    fn shape() -> Shape {
        Shape::Text
    }

    fn read(node: &Node<'_>, _: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let what = match node.value.get_ref() {
            DeValue::String(text) if text.trim().is_empty() => "the text is empty",
            // Line breaks and tabs are for long remarks; nothing else that cannot be seen belongs into a text
            // that goes to terminals and reports.
            DeValue::String(text) if text.chars().any(|c| c.is_control() && c != '\n' && c != '\t') => {
                "the text holds an invisible control character"
            }
            DeValue::String(text) => return Some(text.to_string()),
            DeValue::Array(_) | DeValue::Table(_) => {
                return reader.wrong_kind(node, "text in quotation marks", None);
            }
            _ => {
                let mend = format!("write \"{}\"", shown(reader.written(node)));
                return reader.wrong_kind(node, "text in quotation marks", Some(mend));
            }
        };
        reader.refuse(node, what, "text that can be seen", None);
        None
    }
}

impl Value for bool {
    fn shape() -> Shape {
        Shape::Switch
    }

    fn read(node: &Node<'_>, _: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let mend = match node.value.get_ref() {
            DeValue::Boolean(meant) => return Some(*meant),
            DeValue::String(text) => switch(text).map(|meant| format!("write {meant}")),
            _ => None,
        };
        reader.wrong_kind(node, "true or false, without quotation marks", mend)
    }
}

impl<T: Value> Value for Vec<T> {
    fn shape() -> Shape {
        Shape::List(Box::new(T::shape()), None)
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let DeValue::Array(items) = node.value.get_ref() else {
            let single = !matches!(node.value.get_ref(), DeValue::Table(_));
            let mend = single.then(|| format!("write [{}]", shown(reader.written(node))));
            return reader.wrong_kind(node, "a list in square brackets", mend);
        };
        if reader.too_many(node, items.len()) {
            return None;
        }
        if items.is_empty() {
            reader.refuse(node, "the list is empty", "at least one item, or no such key", None);
            return None;
        }
        let mut values = Vec::with_capacity(items.len());
        for (index, item) in items.iter().enumerate() {
            let child = Node { key: format!("{}[{}]", node.key, index + 1), value: item };
            values.extend(T::read(&child, limit, reader));
        }
        // A list with a refused item is no shorter list: the problem stands, and so does its length.
        (values.len() == items.len()).then_some(values)
    }
}

/// A list of a fixed length, such as a point.
impl<T: Value, const N: usize> Value for [T; N] {
    fn shape() -> Shape {
        Shape::List(Box::new(T::shape()), Some(N))
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        let items = Vec::<T>::read(node, limit, reader)?;
        let count = items.len();
        items.try_into().map_or_else(
            |_| {
                reader.refuse(
                    node,
                    format!("the list has {count} items"),
                    format!("a list of {N} items"),
                    None,
                );
                None
            },
            Some,
        )
    }
}

/// An item of a list, with its own place.
impl<T: Value> Value for Located<T> {
    fn shape() -> Shape {
        T::shape()
    }

    fn read(node: &Node<'_>, limit: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        T::read(node, limit, reader).map(|value| Self { value, place: reader.place(node) })
    }
}

/// One of a few words; `table!`'s companion for choices uses it.
pub(crate) fn word(node: &Node<'_>, words: &'static [Word], reader: &mut Reader<'_>) -> Option<usize> {
    let known = || words.iter().map(|word| word.word);
    let DeValue::String(text) = node.value.get_ref() else {
        return reader.wrong_kind(node, listed(known()), None);
    };
    let found = words.iter().position(|word| word.word == text.as_ref());
    if found.is_none() {
        let mend = nearest(text, known()).map(|near| format!("write \"{near}\""));
        reader.refuse(
            node,
            format!("\"{}\" is not one of the words allowed", shown(text)),
            listed(known()),
            mend,
        );
    }
    found
}
