//! The JSON Schema of an answers file, made from the doors.

use super::json::NOT_SURE;
use super::said::TOPICS;
use super::{Answers, Bounds, Kind, Length, Stretch};
use alloc::borrow::Cow;
use alloc::string::ToString;
use alloc::vec::Vec;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value};

impl JsonSchema for Answers {
    fn schema_name() -> Cow<'static, str> {
        "Answers".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let mut topics = Map::new();
        topics.insert(
            "as_of".to_string(),
            json_schema!({ "type": "string", "format": "date", "description": "The day the assessment speaks of." })
                .to_value(),
        );
        let paths =
            TOPICS.iter().flat_map(|(topic, doors)| doors.iter().map(move |door| [topic, ".", door.name].concat()));
        let paths: Vec<_> = paths.collect();
        topics.insert(
            "recorded".to_string(),
            json_schema!({
                "type": "array", "items": { "enum": paths },
                "description": "Which answers the installer recorded: they count whatever the homeowner would have been asked.",
            })
            .to_value(),
        );
        for (topic, doors) in TOPICS {
            let mut fields = Map::new();
            for door in *doors {
                let value = of_kind(door.kind, generator);
                let field = json_schema!({ "description": door.says.trim(), "anyOf": [value, { "const": NOT_SURE }] });
                fields.insert(door.name.to_string(), field.to_value());
            }
            let shape =
                json_schema!({ "type": "object", "additionalProperties": false, "properties": Value::Object(fields) });
            topics.insert((*topic).to_string(), shape.to_value());
        }
        json_schema!({
            "type": "object",
            "description": "Everything said of one home. Fields left out were not asked.",
            "additionalProperties": false,
            "properties": Value::Object(topics),
        })
    }
}

fn of_kind(kind: Kind, generator: &mut SchemaGenerator) -> Schema {
    match kind {
        Kind::One(words) => json_schema!({ "enum": words }),
        Kind::Any(words) => json_schema!({ "type": "array", "uniqueItems": true, "items": { "enum": words } }),
        Kind::YesNo => json_schema!({ "type": "boolean" }),
        Kind::Count(least, most) => json_schema!({ "type": "integer", "minimum": least, "maximum": most }),
        Kind::Distance => generator.subschema_for::<Length>(),
        Kind::Figure(Bounds { symbol, least, most }) => {
            json_schema!({ "type": "number", "minimum": least, "maximum": most, "description": (["In ", symbol, "."].concat()) })
        }
        Kind::Line => json_schema!({ "type": "string", "maxLength": 200 }),
        Kind::PostcodeLine => json_schema!({ "type": "string", "minLength": 2, "maxLength": 8 }),
        Kind::Day => json_schema!({ "type": "string", "format": "date" }),
        Kind::Stretches => generator.subschema_for::<Vec<Stretch>>(),
    }
}
