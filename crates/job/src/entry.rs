//! A key of the job file with the value that it has, or that it lacks.

use crate::Place;

/// A value and its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Located<T> {
    /// The value.
    pub value: T,
    /// Where the file gives it.
    pub place: Place,
}

/// What the file says under one key: a value with its place, or nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry<T> {
    /// The whole dotted key, such as `adhesives.epoxy.standoff_beads`.
    pub key: String,
    /// The value, if the file gives one.
    pub located: Option<Located<T>>,
}

impl<T> Entry<T> {
    /// The value, if the file gives one.
    pub fn get(&self) -> Option<&T> {
        self.located.as_ref().map(|located| &located.value)
    }

    /// The place of the value, if the file gives one.
    pub fn place(&self) -> Option<&Place> {
        self.located.as_ref().map(|located| &located.place)
    }

    /// The value, or the key that is missing.
    ///
    /// # Errors
    /// [`Absent`] with this entry's key where the file gives no value.
    pub fn need(&self) -> Result<&T, Absent> {
        self.get().ok_or_else(|| Absent { keys: vec![self.key.clone()] })
    }
}

/// Keys that a result needs and the file does not give.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Absent {
    /// The dotted keys.
    pub keys: Vec<String>,
}

/// Several needed results at once, so that everything missing is named in one go.
pub trait Needed {
    /// The values when all are there.
    type Values;
    /// All values, or every missing key.
    ///
    /// # Errors
    /// [`Absent`] with the keys of all that is missing, each once.
    fn need_all(self) -> Result<Self::Values, Absent>;
}

macro_rules! needed {
    ($($value:ident: $index:tt),+) => {
        impl<$($value),+> Needed for ($(Result<$value, Absent>,)+) {
            type Values = ($($value,)+);
            fn need_all(self) -> Result<Self::Values, Absent> {
                let mut keys: Vec<String> = Vec::new();
                $(if let Err(absent) = &self.$index {
                    for key in &absent.keys {
                        if !keys.contains(key) {
                            keys.push(key.clone());
                        }
                    }
                })+
                match self {
                    ($(Ok($value),)+) => Ok(($($value,)+)),
                    _ => Err(Absent { keys }),
                }
            }
        }
    };
}

#[expect(non_snake_case, reason = "the macro uses its type names as variables, too")]
mod tuples {
    use super::{Absent, Needed};
    needed!(A: 0, B: 1);
    needed!(A: 0, B: 1, C: 2);
    needed!(A: 0, B: 1, C: 2, D: 3);
    needed!(A: 0, B: 1, C: 2, D: 3, E: 4);
    needed!(A: 0, B: 1, C: 2, D: 3, E: 4, F: 5);
}

/// A table of tables under free names, in the order of the file.
#[derive(Debug, Clone, PartialEq)]
pub struct Named<T> {
    /// The dotted key of the outer table.
    pub key: String,
    /// Name, place of the name, content.
    pub items: Vec<(Located<String>, T)>,
    /// Names that are there with a content that was refused: a reference to one leads somewhere.
    pub(crate) refused: Vec<String>,
}

impl<T> Named<T> {
    /// The content under a name.
    pub fn get(&self, name: &str) -> Option<&T> {
        self.iter().find(|(known, _)| *known == name).map(|(_, item)| item)
    }

    /// Names and contents in the order of the file.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &T)> {
        self.items.iter().map(|(name, item)| (name.value.as_str(), item))
    }

    /// The content that a reference names, or the key that would give it.
    ///
    /// # Errors
    /// [`Absent`] where the reference itself is absent; a reference to something that does not exist
    /// never gets this far, since reading refuses it.
    pub fn referred(&self, reference: &Entry<String>) -> Result<&T, Absent> {
        let name = reference.need()?;
        self.get(name).ok_or_else(|| Absent { keys: vec![format!("{}.{name}", self.key)] })
    }
}
