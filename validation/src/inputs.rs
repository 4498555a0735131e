//! What a method reads: inputs with units, each remembered as read.
//!
//! A quantity is a text with its unit, `thickness = "1.6 mm"`, or, as stored references have it, a
//! bare number under a name that ends in the unit, `thickness_mm = 1.6`. A bare number without
//! that ending is refused.

use std::cell::RefCell;
use std::collections::BTreeSet;

use quantity::Kind;
use toml::{Table, Value};

use crate::error::InputError;

/// The inputs of a method, or a table among them.
#[derive(Debug)]
pub struct Inputs<'t> {
    table: &'t Table,
    /// Dotted path of the table; empty for the inputs themselves.
    path: String,
    read: &'t RefCell<BTreeSet<String>>,
}

impl<'t> Inputs<'t> {
    /// The inputs of a run; `read` receives the path of everything that is read.
    pub fn new(table: &'t Table, read: &'t RefCell<BTreeSet<String>>) -> Self {
        Self { table, path: String::new(), read }
    }

    /// Whether the key is there.
    pub fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// A number without unit; a text may give it in per cent.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn number(&self, key: &str) -> Result<f64, InputError> {
        quantity_of(&self.path_of(key), self.get(key, "a number")?, Kind::Factor)
    }

    /// A number without unit, or another where it is absent.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn number_or(&self, key: &str, otherwise: f64) -> Result<f64, InputError> {
        if self.has(key) { self.number(key) } else { Ok(otherwise) }
    }

    /// A quantity in the kind's base unit.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn quantity(&self, key: &str, kind: Kind) -> Result<f64, InputError> {
        let suffixed = format!("{key}_{}", suffix(kind));
        if !self.has(key) && self.has(&suffixed) {
            let path = self.path_of(&suffixed);
            return bare_number(&path, self.get(&suffixed, "a number")?);
        }
        quantity_of(&self.path_of(key), self.get(key, kind.name())?, kind)
    }

    /// A quantity in the kind's base unit, or another where it is absent.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn quantity_or(&self, key: &str, kind: Kind, otherwise: f64) -> Result<f64, InputError> {
        let there = self.has(key) || self.has(&format!("{key}_{}", suffix(kind)));
        if there { self.quantity(key, kind) } else { Ok(otherwise) }
    }

    /// A whole number, zero or more.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn count(&self, key: &str) -> Result<usize, InputError> {
        let expected = "a whole number";
        let value = self.get(key, expected)?;
        let count = value.as_integer().and_then(|number| usize::try_from(number).ok());
        count.ok_or_else(|| other(&self.path_of(key), expected, value))
    }

    /// A text.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn text(&self, key: &str) -> Result<&'t str, InputError> {
        let value = self.get(key, "a text")?;
        value.as_str().ok_or_else(|| other(&self.path_of(key), "a text", value))
    }

    /// One of some words, each with what it stands for.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn word<T: Copy>(&self, key: &str, words: &[(&'static str, T)]) -> Result<T, InputError> {
        let found = self.text(key)?;
        let meant = words.iter().find(|(word, _)| *word == found).map(|(_, meaning)| *meaning);
        meant.ok_or_else(|| InputError::Word {
            key: self.path_of(key),
            found: found.to_owned(),
            known: words.iter().map(|(word, _)| *word).collect(),
        })
    }

    /// A list of numbers.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn numbers(&self, key: &str) -> Result<Vec<f64>, InputError> {
        numbers_of(&self.path_of(key), self.get(key, "a list of numbers")?)
    }

    /// A list of lists of numbers.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn lists(&self, key: &str) -> Result<Vec<Vec<f64>>, InputError> {
        let expected = "a list of lists of numbers";
        let value = self.get(key, expected)?;
        let lists = value.as_array().ok_or_else(|| other(&self.path_of(key), expected, value))?;
        lists.iter().map(|list| numbers_of(&self.path_of(key), list)).collect()
    }

    /// A table.
    ///
    /// # Errors
    ///
    /// [`InputError`].
    pub fn table(&self, key: &str) -> Result<Self, InputError> {
        let value = self.get(key, "a table")?;
        let table = value.as_table().ok_or_else(|| other(&self.path_of(key), "a table", value))?;
        Ok(Self { table, path: self.path_of(key), read: self.read })
    }

    fn get(&self, key: &str, expected: &'static str) -> Result<&'t Value, InputError> {
        self.read.borrow_mut().insert(self.path_of(key));
        self.table.get(key).ok_or_else(|| InputError::Missing { key: self.path_of(key), expected })
    }

    fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) }
    }
}

/// The first input, or entry of a table among them, that was not read.
pub fn unread(table: &Table, path: &str, read: &BTreeSet<String>) -> Option<String> {
    table.iter().find_map(|(key, value)| {
        let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
        match value {
            _ if !read.contains(&path) => Some(path),
            Value::Table(inner) => unread(inner, &path, read),
            _ => None,
        }
    })
}

/// A value of that kind, in its base unit: a text with its unit, or a bare number where there is none.
///
/// # Errors
///
/// [`InputError`].
pub fn quantity_of(key: &str, value: &Value, kind: Kind) -> Result<f64, InputError> {
    let text = match value {
        Value::String(text) => text.clone(),
        Value::Integer(_) | Value::Float(_) if kind == Kind::Factor => return bare_number(key, value),
        // The reader of quantities says what is missing.
        Value::Integer(_) | Value::Float(_) => value.to_string(),
        _ => return Err(other(key, kind.name(), value)),
    };
    quantity::parse(&text, kind).map_err(|source| InputError::Quantity { key: key.to_owned(), source })
}

/// A finite bare number.
///
/// # Errors
///
/// [`InputError::Other`].
pub fn bare_number(key: &str, value: &Value) -> Result<f64, InputError> {
    let number = match value {
        // Whole numbers in a case are small: the text has all their digits.
        Value::Integer(whole) => whole.to_string().parse().ok(),
        Value::Float(number) => Some(*number),
        _ => None,
    };
    number.filter(|number: &f64| number.is_finite()).ok_or_else(|| other(key, "a number", value))
}

fn numbers_of(key: &str, value: &Value) -> Result<Vec<f64>, InputError> {
    let list = value.as_array().ok_or_else(|| other(key, "a list of numbers", value))?;
    list.iter().map(|number| bare_number(key, number)).collect()
}

fn other(key: &str, expected: &'static str, value: &Value) -> InputError {
    InputError::Other { key: key.to_owned(), expected, found: value.to_string() }
}

/// How the name of a bare number in the kind's base unit ends: `_n_mm` for N/mm.
fn suffix(kind: Kind) -> String {
    let letters = kind.base_unit().to_lowercase().replace(['/', '·'], "_");
    letters.trim_matches('_').to_owned()
}
