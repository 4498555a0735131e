//! The JSON Schema of the job file, made from the descriptions of its tables.

use serde_json::{Map, Value as Json, json};

use crate::Tables;
use crate::describe::{Field, Limit, Shape, Table};

/// The JSON Schema (draft 2020-12) of the job file, for editors that complete and check TOML.
pub fn schema() -> Json {
    let mut schema = table(&Tables::TABLE, None);
    if let Json::Object(map) = &mut schema {
        map.insert("$schema".to_owned(), json!("https://json-schema.org/draft/2020-12/schema"));
        map.insert("title".to_owned(), json!("Fayline job file"));
    }
    schema
}

fn table(table: &Table, tag: Option<(&str, &str)>) -> Json {
    let fields = (table.fields)();
    let mut properties: Map<String, Json> =
        fields.iter().map(|field| (field.name.to_owned(), property(field))).collect();
    let mut required: Vec<&str> =
        fields.iter().filter(|field| field.required).map(|field| field.name).collect();
    if let Some((tag, word)) = tag {
        properties.insert(tag.to_owned(), json!({ "const": word }));
        required.insert(0, tag);
    }
    json!({
        "type": "object",
        "description": table.doc,
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

fn property(field: &Field) -> Json {
    let mut json = shape(&field.shape, field.limit);
    if let Json::Object(map) = &mut json {
        map.insert("description".to_owned(), json!(field.doc));
    }
    json
}

fn shape(shape_of: &Shape, limit: Limit) -> Json {
    match shape_of {
        // The unit is part of the text, so the limit cannot be a number here; the reader holds to it.
        Shape::Quantity(kind) => json!({ "type": "string", "examples": kind.examples() }),
        Shape::Number => number("number", limit),
        Shape::Whole => number("integer", limit),
        Shape::Text => json!({ "type": "string", "minLength": 1 }),
        Shape::Switch => json!({ "type": "boolean" }),
        Shape::Date => json!({ "type": "string", "format": "date" }),
        Shape::Choice(words) => json!({ "enum": words.iter().map(|word| word.word).collect::<Vec<_>>() }),
        Shape::List(item, None) => json!({ "type": "array", "items": shape(item, limit) }),
        Shape::List(item, Some(length)) => {
            json!({ "type": "array", "items": shape(item, limit), "minItems": length, "maxItems": length })
        }
        Shape::Table(content) => table(content, None),
        Shape::Named(content) => json!({
            "type": "object",
            "propertyNames": { "pattern": "^[A-Za-z0-9_-]+$" },
            "additionalProperties": shape(content, Limit::Any),
        }),
        Shape::Tagged { tag, forms } => {
            json!({ "oneOf": forms.iter().map(|(word, form)| table(form, Some((tag, word)))).collect::<Vec<_>>() })
        }
    }
}

fn number(kind: &str, limit: Limit) -> Json {
    match limit {
        Limit::Any => json!({ "type": kind }),
        Limit::Positive => json!({ "type": kind, "exclusiveMinimum": 0 }),
        Limit::NotNegative => json!({ "type": kind, "minimum": 0 }),
        Limit::Share => json!({ "type": kind, "minimum": 0, "maximum": 1 }),
        Limit::Between(low, high) => json!({ "type": kind, "minimum": low, "maximum": high }),
        Limit::Below(low, high) => json!({ "type": kind, "minimum": low, "exclusiveMaximum": high }),
    }
}
