//! `schema`: the build file as JSON Schema (draft 2020-12), made from what the readers ask for.
//!
//! It accepts whatever is read, but for rare ways to write a unit; what lies in numbers with a unit
//! it can't judge: `check` does.

use super::args::Schema;
use super::{Ended, output, own};
use crate::read::{self, Known, Shape, Told, Variant, keys};
use crate::units::Kind;
use serde_json::{Map, Value, json};

/// Writes the schema.
pub fn schema(options: &Schema) -> Result<(), Ended> {
    let tables = own::tables(&options.own)?;
    let text = written(&read::known(&tables));
    output::write(options.output.as_deref(), text.as_bytes())?;
    Ok(())
}

/// The schema as a file.
pub fn written(known: &Known) -> String {
    let mut text = serde_json::to_string_pretty(&document(known)).expect("text and numbers alone");
    text.push('\n');
    text
}

fn document(known: &Known) -> Value {
    let mut defs = Map::new();
    for table in keys::tables().filter(|table| !table.path.is_empty()) {
        defs.insert(table.path.to_owned(), object(table, known));
    }
    let top = keys::table_of("").expect("the top of the file is a table");
    let mut schema = object(top, known);
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema".into();
    schema["title"] = "rungsheet build file".into();
    schema["required"] = json!(["job"]);
    schema["$defs"] = defs.into();
    schema
}

fn object(table: &keys::Table, known: &Known) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for key in table.keys {
        let Some(told) = known.of(table.path, key.name) else { continue };
        properties.insert(key.name.to_owned(), property(table, key, told, known));
        if told.needed {
            required.push(key.name);
        }
    }
    let mut object = json!({
        "type": "object",
        "description": table.says,
        "additionalProperties": false,
        "properties": properties,
    });
    if !required.is_empty() {
        object["required"] = json!(required);
    }
    let cases: Vec<Value> = known
        .variants
        .iter()
        .filter(|variant| variant.path == table.path)
        .map(|variant| case(table, variant))
        .collect();
    if !cases.is_empty() {
        object["allOf"] = cases.into();
    }
    object
}

/// What holds where a table is of one kind.
fn case(table: &keys::Table, variant: &Variant) -> Value {
    let mut of_it = json!({ "required": [variant.key] });
    if let Some(value) = variant.value {
        of_it["properties"] = json!({ variant.key: { "const": value } });
    }
    let strange: Map<String, Value> = table
        .keys
        .iter()
        .filter(|key| !variant.keys.contains(&key.name))
        .map(|key| (key.name.to_owned(), Value::Bool(false)))
        .collect();
    json!({ "if": of_it, "then": { "required": variant.needed, "properties": strange } })
}

fn property(table: &keys::Table, key: &keys::Key, told: &Told, known: &Known) -> Value {
    let mut shapes: Vec<Value> = told.shapes.iter().map(shape).collect();
    shapes.dedup();
    // A list may hold things of both kinds side by side.
    let is_list = |shape: &Value| shape.get("items").is_some();
    let items: Vec<Value> =
        shapes.iter().filter(|shape| is_list(shape)).map(|list| list["items"].clone()).collect();
    if items.len() > 1 {
        shapes.retain(|shape| !is_list(shape));
        shapes.push(json!({ "type": "array", "items": { "anyOf": items } }));
    }
    let mut property = match shapes.len() {
        1 => shapes.remove(0),
        _ => json!({ "anyOf": shapes }),
    };
    property["description"] = super::keys::about(table, key, told, known).join("\n").into();
    let example = format!("value = {}", key.example);
    if let Some(value) = example.parse::<toml::Table>().ok().and_then(|mut t| t.remove("value")) {
        property["examples"] = json!([value]);
    }
    property
}

fn shape(shape: &Shape) -> Value {
    match shape {
        Shape::Text { most } => json!({ "type": "string", "pattern": "\\S", "maxLength": most }),
        Shape::Mark => json!({ "type": "string", "pattern": "^[A-Z]{1,3}$" }),
        Shape::Currency => json!({ "type": "string", "pattern": "^[A-Z]{3}$" }),
        Shape::Quantity { kind, bare, above_zero, .. } => {
            let written = json!({ "type": "string", "pattern": pattern(*kind) });
            if !bare {
                return written;
            }
            let mut number = json!({ "type": "number" });
            if *above_zero {
                number["exclusiveMinimum"] = 0.into();
            }
            json!({ "anyOf": [number, written] })
        }
        Shape::Number { least, most } => {
            json!({ "type": "number", "minimum": least, "maximum": most })
        }
        Shape::Whole { least, most } => {
            json!({ "type": "integer", "minimum": least, "maximum": most })
        }
        Shape::Word(words) => json!({ "enum": words }),
        Shape::Row { names, also, .. } => {
            json!({ "enum": names.iter().chain(also).collect::<Vec<_>>() })
        }
        Shape::Price => json!({ "type": "string", "pattern": "^\\s*[0-9 .]+\\s*$" }),
        Shape::Date => {
            json!({ "type": "string", "pattern": "^\\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\\s*$" })
        }
        Shape::Clock => json!({ "type": "string", "pattern": "^\\s*[0-9]{2}:[0-9]{2}(:00)?\\s*$" }),
        Shape::Moment { dated } => {
            let may = if *dated { "" } else { "?" };
            let date = "[0-9]{4}-[0-9]{2}-[0-9]{2}[ T]";
            let pattern = format!("^\\s*({date}){may}[0-9]{{2}}:[0-9]{{2}}(:00)?\\s*$");
            json!({ "type": "string", "pattern": pattern })
        }
        Shape::Frame => json!({ "type": "string", "minLength": 1 }),
        Shape::End(known) => {
            json!({ "anyOf": [{ "enum": known }, { "type": "string", "minLength": 1 }] })
        }
        Shape::Table(path) => json!({ "$ref": format!("#/$defs/{path}") }),
        Shape::Tables(path) => {
            json!({ "type": "array", "items": { "$ref": format!("#/$defs/{path}") } })
        }
        Shape::List { of, least, most } => json!({
            "type": "array", "items": self::shape(of), "minItems": least, "maxItems": most,
        }),
        Shape::Each(parts) => json!({
            "type": "array",
            "prefixItems": parts.iter().map(self::shape).collect::<Vec<_>>(),
            "minItems": parts.len(),
            "maxItems": parts.len(),
        }),
    }
}

/// Numbers with a unit of this kind.
fn pattern(kind: Kind) -> String {
    const PARTS: &str = "½¼¾⅓⅔⅛⅜⅝⅞";
    let number = format!("[0-9.{PARTS}][0-9./⁄\\s{PARTS}]*([eE][-+]?[0-9]+)?");
    let mut units: Vec<String> =
        kind.units().flat_map(crate::units::Unit::written).map(escaped).collect();
    // Longer ones first, so that "m" does not take "mm" apart.
    units.sort_by_key(|unit| std::cmp::Reverse(unit.len()));
    format!("^\\s*[-+−]?\\s*({number}\\s*({})\\s*)+$", units.join("|"))
}

/// Without a meaning of its own in a pattern; other ways to write a power or a dot are let in.
fn escaped(unit: &str) -> String {
    let mut out = String::new();
    for c in unit.chars() {
        match c {
            '²' => out.push_str("(²|\\^2)"),
            '³' => out.push_str("(³|\\^3)"),
            '⁴' => out.push_str("(⁴|\\^4)"),
            '·' => out.push_str("[·⋅*•∙]"),
            'µ' => out.push_str("[µμ]"),
            ' ' => out.push_str("\\s+"),
            '(' | ')' | '/' | '.' | '-' | '^' => out.extend(['\\', c]),
            c => out.push(c),
        }
    }
    out
}
