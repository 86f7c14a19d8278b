//! The JSON Schemas of what a bundle holds, taken from the types that read and write it.

use journal::{Commit, Record};
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Value, json};

use crate::lines::BodyLine;
use crate::manifest::{Manifest, Seal};

fn of<T: JsonSchema>(schemas: &mut SchemaGenerator) -> Schema {
    schemas.root_schema_for::<T>()
}

/// Each line of `records.ndjson` is one of these two.
fn record_line(schemas: &mut SchemaGenerator) -> Schema {
    let line = |name: &str, inner: Schema| {
        json!({
            "type": "object",
            "properties": { name: inner },
            "required": [name],
            "additionalProperties": false,
        })
    };
    let either = [
        line("commit", Commit::schema(schemas)),
        line("record", Record::schema(schemas)),
    ];
    json_schema!({
        "title": "RecordLine",
        "oneOf": either,
        "$defs": schemas.take_definitions(true),
    })
}

/// Each line of `bodies.ndjson` holds its body in one of two ways.
fn body_line(schemas: &mut SchemaGenerator) -> Schema {
    let mut schema = of::<BodyLine<'static>>(schemas);
    if let Some(properties) = schema.get_mut("properties").and_then(Value::as_object_mut) {
        for name in ["base64", "text"] {
            properties.insert(name.to_owned(), json!({ "type": "string" }));
        }
    }
    schema.insert(
        "oneOf".to_owned(),
        json!([{ "required": ["base64"] }, { "required": ["text"] }]),
    );
    schema
}

/// The JSON Schemas (2020-12) of the members, by name: `manifest`, `signature`, and of the lines
/// of the other two, `record-line` and `body-line`. They say what can be said of one value alone;
/// `tests/bundles/FORMAT.md` has the rest.
#[must_use]
pub fn schemas() -> Vec<(&'static str, Value)> {
    [
        (
            "manifest",
            of::<Manifest> as fn(&mut SchemaGenerator) -> Schema,
        ),
        ("signature", of::<Seal>),
        ("record-line", record_line),
        ("body-line", body_line),
    ]
    .map(|(name, make)| {
        let mut schema = make(&mut SchemaSettings::draft2020_12().into_generator());
        schema.insert(
            "$schema".to_owned(),
            "https://json-schema.org/draft/2020-12/schema".into(),
        );
        (name, schema.to_value())
    })
    .into()
}
