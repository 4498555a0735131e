//! From a case to the runs that it asks for.

use std::path::Path;

use toml::{Table, Value};

use crate::case_file::{Case, CaseFile};
use crate::error::CaseError;

/// One call of a method.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// What sets it apart from the other runs of its case; empty where there is one only.
    pub label: String,
    /// All inputs: of the file, of the reference, of the case; the later ones win.
    pub inputs: Table,
    /// The reference's entry; empty without one.
    entry: Table,
    /// Place in the lists of `vary`, where there are some.
    varied: Option<usize>,
    /// Place among the runs of the case.
    place: usize,
}

/// The runs of a case: one for each entry of the reference that it takes, times one for each place
/// in the lists that it varies.
///
/// # Errors
///
/// A [`CaseError`] about the reference, or about lists to vary that are none or differ in length.
pub fn runs(file: &CaseFile, case: &Case, references: &Path) -> Result<Vec<Run>, CaseError> {
    let entries = match &case.each {
        None => vec![Table::new()],
        Some(lists) => taken(file, case, lists, references)?,
    };
    let mut runs = Vec::new();
    for entry in entries {
        let mut inputs = file.inputs.clone();
        inputs.extend(entry.clone());
        inputs.extend(case.inputs.clone());
        let name = name(&entry, &case.named_by)?;
        match length_of_lists(&inputs, &case.vary)? {
            None => runs.push(Run { label: name, inputs, entry, varied: None, place: runs.len() }),
            Some(length) => {
                for index in 0..length {
                    runs.push(varied(&name, &inputs, &case.vary, &entry, index, runs.len())?);
                }
            }
        }
    }
    Ok(runs)
}

impl Run {
    /// The value expected of this run: one value for all runs, or the run's own of a list.
    ///
    /// # Errors
    ///
    /// [`CaseError::ListTooShort`].
    pub fn own<'v>(&self, value: &'v Value) -> Result<&'v Value, CaseError> {
        at(value, self.place)
    }

    /// The value at a dotted path in the run's entry of the reference.
    ///
    /// # Errors
    ///
    /// [`CaseError::NotInReference`], [`CaseError::ListTooShort`].
    pub fn referred(&self, path: &str) -> Result<&Value, CaseError> {
        let missing = || CaseError::NotInReference { path: path.to_owned() };
        let mut keys = path.split('.');
        let first = keys.next().and_then(|key| self.entry.get(key)).ok_or_else(missing)?;
        let value = keys.try_fold(first, |value, key| value.get(key)).ok_or_else(missing)?;
        match self.varied {
            Some(index) => at(value, index),
            None => Ok(value),
        }
    }
}

/// One value for all, or the one at a place of a list.
fn at(value: &Value, index: usize) -> Result<&Value, CaseError> {
    match value.as_array() {
        None => Ok(value),
        Some(list) => {
            list.get(index).ok_or(CaseError::ListTooShort { length: list.len(), needed: index + 1 })
        }
    }
}

/// The entries of the reference that the case takes.
fn taken(file: &CaseFile, case: &Case, lists: &str, references: &Path) -> Result<Vec<Table>, CaseError> {
    let name = file.reference.as_deref().ok_or(CaseError::NoReference)?;
    let refused = |what: String| CaseError::Reference { name: name.to_owned(), what };
    let text = std::fs::read_to_string(references.join(name)).map_err(|error| refused(error.to_string()))?;
    let whole: Table = text.parse().map_err(|error: toml::de::Error| refused(error.to_string()))?;
    let path: Vec<&str> = lists.split('.').collect();
    let mut entries = entries(&whole, &path, &Table::new())
        .ok_or_else(|| CaseError::NotInReference { path: lists.to_owned() })?;
    entries.retain(|entry| case.only.iter().all(|(key, wanted)| admits(wanted, entry.get(key))));
    if entries.is_empty() { Err(CaseError::NothingTaken { path: lists.to_owned() }) } else { Ok(entries) }
}

/// The tables at the end of a path of lists (a lone table is a list of one), each with the keys of the tables around it.
fn entries(table: &Table, path: &[&str], around: &Table) -> Option<Vec<Table>> {
    let Some((list, rest)) = path.split_first() else {
        return Some(vec![around.clone()]);
    };
    let mut found = Vec::new();
    let members = match table.get(*list)? {
        Value::Array(members) => members.as_slice(),
        one => std::slice::from_ref(one),
    };
    for member in members {
        let member = member.as_table()?;
        let mut around = around.clone();
        around.extend(member.clone());
        found.extend(entries(member, rest, &around)?);
    }
    Some(found)
}

/// Whether a value is the wanted one, or one of those wanted.
fn admits(wanted: &Value, found: Option<&Value>) -> bool {
    match wanted {
        Value::Array(any) => any.iter().any(|wanted| Some(wanted) == found),
        one => Some(one) == found,
    }
}

fn name(entry: &Table, keys: &[String]) -> Result<String, CaseError> {
    let part = |key: &String| {
        let value = entry.get(key).ok_or_else(|| CaseError::NotInReference { path: key.clone() })?;
        Ok::<_, CaseError>(match value {
            Value::String(name) => name.clone(),
            number => labelled(key, number),
        })
    };
    Ok(keys.iter().map(part).collect::<Result<Vec<_>, _>>()?.join(", "))
}

/// An input as it stands in a label.
fn labelled(key: &str, value: &Value) -> String {
    match value {
        Value::String(text) => format!("{key} {text}"),
        Value::Float(number) => format!("{key} {number}"),
        other => format!("{key} {other}"),
    }
}

/// The common length of the lists to vary; `None` where nothing varies.
fn length_of_lists(inputs: &Table, vary: &[String]) -> Result<Option<usize>, CaseError> {
    let mut common = None;
    for key in vary {
        let list = inputs.get(key).and_then(Value::as_array);
        let length = list.ok_or_else(|| CaseError::NoListToVary { key: key.clone() })?.len();
        if *common.get_or_insert(length) != length {
            return Err(CaseError::UnequalLists { key: key.clone() });
        }
    }
    Ok(common)
}

/// The run with the entry at `index` of each list to vary.
fn varied(
    name: &str,
    inputs: &Table,
    vary: &[String],
    entry: &Table,
    index: usize,
    place: usize,
) -> Result<Run, CaseError> {
    let mut inputs = inputs.clone();
    let mut label = Vec::new();
    if !name.is_empty() {
        label.push(name.to_owned());
    }
    for key in vary {
        if let Some(list) = inputs.get_mut(key) {
            let own = at(list, index)?.clone();
            label.push(labelled(key, &own));
            *list = own;
        }
    }
    Ok(Run { label: label.join(", "), inputs, entry: entry.clone(), varied: Some(index), place })
}
