//! What is written down once shows everywhere: the schema, the reference page, the reader.

use std::path::Path;

use proptest::prelude::*;
use serde_json::Value as Json;
use toml::de::{DeTable, DeValue};

use crate::describe::{Shape, Table};
use crate::{Files, Tables, read, reference, schema};

struct Nothing;

impl Files for Nothing {
    fn read(&self, _: &str) -> Result<Vec<u8>, String> {
        Err("there is no such file".to_owned())
    }
}

/// Every table of the description under its path, where `NAME` stands for a name of the user's, `[]` for the items
/// of a list and `<lap>` for the form that a table has.
fn tables() -> Vec<(String, Table)> {
    fn inner(path: &str, shape: &Shape, found: &mut Vec<(String, Table)>) {
        match shape {
            Shape::Table(table) => add(path, *table, found),
            Shape::Named(content) => inner(&format!("{path}.NAME"), content, found),
            Shape::List(item, _) => inner(&format!("{path}.[]"), item, found),
            Shape::Tagged { forms, .. } => {
                for (word, table) in forms {
                    add(&format!("{path}.<{word}>"), *table, found);
                }
            }
            _ => {}
        }
    }
    fn add(path: &str, table: Table, found: &mut Vec<(String, Table)>) {
        found.push((path.to_owned(), table));
        for field in (table.fields)() {
            inner(&format!("{path}.{}", field.name), &field.shape, found);
        }
    }
    let mut found = Vec::new();
    add("", Tables::TABLE, &mut found);
    found
}

/// The part of a schema under a path.
fn part<'s>(schema: &'s Json, path: &str) -> &'s Json {
    path.split('.').filter(|step| !step.is_empty()).fold(schema, |at, step| match step {
        "NAME" => &at["additionalProperties"],
        "[]" => &at["items"],
        _ => match step.strip_prefix('<').and_then(|form| form.strip_suffix('>')) {
            Some(word) => {
                let mut forms = at["oneOf"].as_array().expect("forms").iter();
                forms.find(|form| form["properties"]["form"]["const"] == word).expect("the form")
            }
            None => &at["properties"][step],
        },
    })
}

#[test]
fn unit_every_key_of_every_table_is_in_the_schema_and_on_the_page() {
    let (schema, page) = (schema(), reference());
    let mut keys = 0;
    for (path, table) in tables() {
        assert!(page.contains(table.doc), "{path}");
        let found = part(&schema, &path);
        assert_eq!(found["additionalProperties"], false, "{path}");
        let properties = found["properties"].as_object().expect("properties");
        let required = found["required"].as_array().expect("required");
        let fields = (table.fields)();
        let tags = usize::from(path.ends_with('>'));
        assert_eq!(properties.len(), fields.len() + tags, "{path}");
        assert_eq!(required.len(), fields.iter().filter(|field| field.required).count() + tags, "{path}");
        for field in fields {
            keys += 1;
            let property = properties.get(field.name).unwrap_or_else(|| panic!("{path}.{}", field.name));
            assert_eq!(property["description"], field.doc);
            assert!(field.doc.ends_with('.'), "{path}.{}: a sentence ends with a point", field.name);
            assert_eq!(required.iter().any(|key| key == field.name), field.required, "{path}.{}", field.name);
            assert!(page.contains(&format!("| `{}`", field.name)), "{path}.{}", field.name);
        }
    }
    assert!(keys > 100, "{keys} keys");
}

/// `docs/job-file.md` is the page that the program's own descriptions give; `UPDATE=1` writes it anew.
#[test]
fn golden_reference_page_is_up_to_date() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/job-file.md");
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, reference()).expect("the page is written");
    }
    let page = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        page == reference(),
        "docs/job-file.md is out of date; UPDATE=1 cargo test -p job writes it anew"
    );
}

#[test]
fn unit_reference_page_is_plain_markdown() {
    let page = reference();
    for line in page.lines().filter(|line| line.starts_with('|')) {
        // A bar inside a cell would end it.
        let bars = line.matches('|').count();
        assert_eq!(bars, 4, "{line}");
    }
    assert!(page.ends_with('\n') && !page.contains("\n\n\n"));
}

/// What a value of a schema's part is refused for; nothing where it fits.
fn misfit(schema: &Json, value: &DeValue<'_>, path: &str) -> Option<String> {
    if let Some(forms) = schema["oneOf"].as_array() {
        let misfits: Vec<_> = forms.iter().filter_map(|form| misfit(form, value, path)).collect();
        return (misfits.len() + 1 != forms.len()).then(|| {
            format!("{path} fits {} of {} forms: {misfits:?}", forms.len() - misfits.len(), forms.len())
        });
    }
    let number = |limit: &str, number: f64, holds: fn(f64, f64) -> bool| {
        schema[limit]
            .as_f64()
            .is_some_and(|limit| !holds(number, limit))
            .then(|| format!("{path} breaks {limit}"))
    };
    let numeric = |value: f64| {
        number("minimum", value, |a, b| a >= b)
            .or_else(|| number("maximum", value, |a, b| a <= b))
            .or_else(|| number("exclusiveMinimum", value, |a, b| a > b))
            .or_else(|| number("exclusiveMaximum", value, |a, b| a < b))
    };
    let wanted = schema["type"].as_str();
    match value {
        DeValue::String(text) => {
            let choice =
                schema["enum"].as_array().map(|words| words.iter().any(|word| word == text.as_ref()));
            let fixed = schema.get("const").map(|word| word == text.as_ref());
            let ok = choice.or(fixed).unwrap_or(wanted == Some("string"));
            (!ok).then(|| format!("{path} is text"))
        }
        DeValue::Integer(number) => match wanted {
            Some("integer" | "number") => numeric(number.as_str().parse().expect("a number")),
            _ => Some(format!("{path} is a number")),
        },
        DeValue::Float(number) => match wanted {
            Some("number") => numeric(number.as_str().parse().expect("a number")),
            _ => Some(format!("{path} is a number")),
        },
        DeValue::Boolean(_) => (wanted != Some("boolean")).then(|| format!("{path} is a switch")),
        // JSON has no dates: editors that check TOML take one for a text of that format.
        DeValue::Datetime(_) => (schema["format"] != "date").then(|| format!("{path} is a date")),
        DeValue::Array(items) => {
            let length = u64::try_from(items.len()).expect("a length");
            let short = schema["minItems"].as_u64().is_some_and(|least| length < least);
            let long = schema["maxItems"].as_u64().is_some_and(|most| length > most);
            if wanted != Some("array") || short || long {
                return Some(format!("{path} is a list of {length}"));
            }
            items.iter().find_map(|item| misfit(&schema["items"], item.get_ref(), &format!("{path}[]")))
        }
        DeValue::Table(table) => {
            if wanted != Some("object") {
                return Some(format!("{path} is a table"));
            }
            for key in schema["required"].as_array().into_iter().flatten().filter_map(Json::as_str) {
                if table.get(key).is_none() {
                    return Some(format!("{path} lacks {key}"));
                }
            }
            table.iter().find_map(|(key, value)| {
                let key = key.get_ref().as_ref();
                let path = format!("{path}.{key}");
                match (&schema["properties"][key], &schema["additionalProperties"]) {
                    (Json::Null, Json::Object(_)) => {
                        misfit(&schema["additionalProperties"], value.get_ref(), &path)
                    }
                    (Json::Null, _) => Some(format!("{path} is not in the schema")),
                    (property, _) => misfit(property, value.get_ref(), &path),
                }
            })
        }
    }
}

fn misfit_of(text: &str) -> Option<String> {
    let tree = DeTable::parse(text).expect("TOML").into_inner();
    misfit(&schema(), &DeValue::Table(tree), "")
}

#[test]
fn unit_every_example_fits_the_schema() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|extension| extension == "toml") {
            let text = std::fs::read_to_string(&path).expect("a job");
            assert_eq!(misfit_of(&text), None, "{}", path.display());
            count += 1;
        }
    }
    assert!(count >= 3);
}

#[test]
fn unit_the_schema_refuses_what_it_can() {
    let job = "fayline = 1\n[job]\ntitle = \"a\"\n";
    for (rest, part) in [
        ("[materials.a]\nyoungs_modulos = \"70 GPa\"\n", "not in the schema"),
        ("[materials.a]\nyoungs_modulus = 70\n", "number"),
        ("[materials.a]\npoissons_ratio = 0.7\n", "exclusiveMaximum"),
        ("[materials.a]\npoissons_ratio = \"0.3\"\n", "text"),
        ("[joints.a]\nwidth = \"5 mm\"\n", "lacks form"),
        ("[joints.a]\nform = \"lapp\"\n", "fits 0"),
        ("[job2]\n", "not in the schema"),
        ("[bond_day]\npeople = 1.5\n", "number"),
    ] {
        let found = misfit_of(&format!("{job}{rest}")).unwrap_or_else(|| panic!("{rest} fits"));
        assert!(found.contains(part), "{rest}: {found}");
    }
    assert!(misfit_of("fayline = 1\n").unwrap().contains("lacks job"));
}

proptest! {
    /// What the reader accepts fits the schema, for numbers of keys with limits: neither is wider.
    #[test]
    fn law_reader_and_schema_agree_on_numbers(number in prop_oneof![-2.0_f64..60.0, Just(0.0), Just(0.5), Just(1.0)]) {
        for (table, key) in [
            ("materials.a", "poissons_ratio"),
            ("materials.a", "elongation"),
            ("adhesives.a", "scatter"),
            ("adhesives.a", "wet_strength"),
            ("bond_day", "handling"),
            ("bond_day", "squeeze_out"),
            ("factors", "metal"),
        ] {
            let text = format!("fayline = 1\n[job]\ntitle = \"a\"\n[{table}]\n{key} = {number:?}\n");
            let accepted = read("j.toml", &text, &Nothing).is_ok();
            let misfit = misfit_of(&text);
            prop_assert_eq!(accepted, misfit.is_none(), "{} = {}: {:?}", key, number, misfit);
        }
    }
}
