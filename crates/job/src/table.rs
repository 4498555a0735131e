//! The two macros with which a table of the job file is written down once.

/// Declares a table: its keys, what each may hold, which numbers are allowed, what it means.
///
/// From the one declaration come the typed struct (an [`crate::Entry`] for each key), its reader and its
/// description. A key is written `name: Type [Limit],`, with `@required` before the name where a job
/// without it is refused; `@named` before it makes a table of tables under free names. A key that is no
/// Rust word is written `field = "key": Type`.
macro_rules! table {
    (
        $(#[doc = $doc:literal])+
        $name:ident $(tagged $tag:literal)? {
            $( $(#[doc = $field_doc:literal])+ $(@$mark:ident)? $field:ident $(= $word:literal)? : $kind:ty $([$limit:expr])? ),* $(,)?
        }
    ) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name {
            /// The dotted key of this table.
            pub key: String,
            /// Where it stands.
            pub place: $crate::Place,
            $( $(#[doc = $field_doc])+ pub $field: $crate::table::table!(@type $($mark)? $kind), )*
        }

        impl $name {
            pub(crate) const TABLE: $crate::describe::Table = $crate::describe::Table {
                doc: concat!($($doc),+).trim_ascii(),
                fields: || vec![
                    $( $crate::describe::Field {
                        name: $crate::table::table!(@word $field $(= $word)?),
                        doc: concat!($($field_doc),+).trim_ascii(),
                        shape: $crate::table::table!(@shape $($mark)? $kind),
                        limit: $crate::table::table!(@limit $($limit)?),
                        required: $crate::table::table!(@required $($mark)?),
                    }, )*
                ],
            };
        }

        impl $crate::read::Value for $name {
            fn shape() -> $crate::describe::Shape {
                $crate::describe::Shape::Table(Self::TABLE)
            }

            fn read(node: &$crate::read::Node<'_>, _: $crate::describe::Limit, reader: &mut $crate::read::Reader<'_>) -> Option<Self> {
                let keys = $crate::read::Keys::open(node, &Self::TABLE, &[$($tag)?], reader)?;
                let (key, place) = keys.whole(reader);
                Some(Self {
                    key,
                    place,
                    $( $field: $crate::table::table!(@read $($mark)?, keys, $crate::table::table!(@word $field $(= $word)?), reader), )*
                })
            }
        }
    };
    (@word $field:ident) => { stringify!($field) };
    (@word $field:ident = $word:literal) => { $word };
    (@type named $kind:ty) => { $crate::Named<$kind> };
    (@type required $kind:ty) => { $crate::Entry<$kind> };
    (@type $kind:ty) => { $crate::Entry<$kind> };
    (@shape named $kind:ty) => { $crate::describe::Shape::Named(Box::new(<$kind as $crate::read::Value>::shape())) };
    (@shape required $kind:ty) => { <$kind as $crate::read::Value>::shape() };
    (@shape $kind:ty) => { <$kind as $crate::read::Value>::shape() };
    (@limit) => { $crate::describe::Limit::Any };
    (@limit $limit:expr) => { { use $crate::describe::Limit::*; $limit } };
    (@required required) => { true };
    (@required named) => { false };
    (@required) => { false };
    (@read named, $keys:ident, $field:expr, $reader:ident) => { $keys.named($field, $reader) };
    (@read required, $keys:ident, $field:expr, $reader:ident) => { $keys.entry($field, $reader) };
    (@read, $keys:ident, $field:expr, $reader:ident) => { $keys.entry($field, $reader) };
}

/// Declares a choice of words: an enum, its reader and its description.
macro_rules! choice {
    (
        $(#[doc = $doc:literal])+
        $name:ident { $( $(#[doc = $word_doc:literal])+ $variant:ident = $word:literal ),+ $(,)? }
    ) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name { $( $(#[doc = $word_doc])+ $variant, )+ }

        impl $name {
            const WORDS: &'static [$crate::describe::Word] = &[
                $( $crate::describe::Word { word: $word, doc: concat!($($word_doc),+).trim_ascii() }, )+
            ];

            /// The word in the file.
            pub fn word(self) -> &'static str {
                match self { $( Self::$variant => $word, )+ }
            }
        }

        impl $crate::read::Value for $name {
            fn shape() -> $crate::describe::Shape {
                $crate::describe::Shape::Choice(Self::WORDS)
            }

            fn read(node: &$crate::read::Node<'_>, _: $crate::describe::Limit, reader: &mut $crate::read::Reader<'_>) -> Option<Self> {
                const VARIANTS: &[$name] = &[$( $name::$variant, )+];
                $crate::read::word(node, Self::WORDS, reader).and_then(|index| VARIANTS.get(index).copied())
            }
        }
    };
}

pub(crate) use {choice, table};
