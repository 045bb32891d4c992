//! The JSON Schema of an answers file, made from the field accessors, and helpers for the schemas of other files.
//!
//! Every bound and every list is taken from the reader: a schema says what the reader accepts, or names in its description what no schema
//! can express. `tests/sources/schemas.py` compares the two.

use super::json::NOT_SURE;
use super::raw_answer::{IN_THIS_CENTURY, MOST_STRETCHES};
use super::topics::TOPICS;
use super::{AnswerKind, Answers, Bounds, Length, LengthUnit, Postcode, ShortText, Stretch, Word};
use crate::units::Ratio;
use alloc::borrow::Cow;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};

/// A rule that a schema cannot express about numbers; it stands in the description of every file.
pub const WHOLE_NUMBERS: &str = "A whole number is written without a decimal point and without an exponent.";

/// The description of a file: what the file is, then a line for each rule of the reader that a schema cannot express.
pub fn described(what: &str, beyond: &[&str]) -> String {
    let beyond: String = beyond.iter().flat_map(|rule| ["\n- ", rule]).collect();
    format!("{what}\n\nBeyond what this schema can say:{beyond}")
}

/// The schema of a day: four, two and two digits with hyphens between. That the day must exist is in its description.
pub struct Day;

impl JsonSchema for Day {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Day".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "format": "date" })
    }
}

/// The inside of a character class of a regular expression: the characters of the basic plane for which `holds` is true, as ranges.
pub fn signs(holds: impl Fn(char) -> bool) -> String {
    let mut ranges: Vec<(u32, u32)> = Vec::new();
    for code in (0..=0xffff).filter(|code| char::from_u32(*code).is_some_and(&holds)) {
        match ranges.last_mut() {
            Some((_, last)) if *last + 1 == code => *last = code,
            _ => ranges.push((code, code)),
        }
    }
    ranges.iter().map(|(first, last)| format!("\\u{first:04x}-\\u{last:04x}")).collect()
}

/// The class of the characters that trimming takes off a text's ends.
pub fn white() -> String {
    signs(char::is_whitespace)
}

/// A pattern for a text that holds more than white space.
pub fn not_blank() -> String {
    format!("[^{}]", white())
}

impl JsonSchema for ShortText {
    fn schema_name() -> Cow<'static, str> {
        "ShortText".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let pattern = format!("^[^{}]*$", signs(char::is_control));
        json_schema!({ "type": "string", "maxLength": Self::MOST, "pattern": pattern })
    }
}

impl JsonSchema for Postcode {
    fn schema_name() -> Cow<'static, str> {
        "Postcode".into()
    }

    /// The shapes that [`Postcode::new`] reads, with spaces allowed wherever it allows them.
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let (space, letter) = (format!("[{}]*", white()), "[A-Za-z]");
        let outward = format!("{letter}{space}({letter}{space})?[0-9]{space}([0-9A-Za-z]{space})?");
        let inward = format!("[0-9]{space}{letter}{space}{letter}{space}");
        json_schema!({ "type": "string", "pattern": (format!("^{space}{outward}({inward})?$")) })
    }
}

/// The greatest number of a unit that is no longer than [`Length::MOST`].
fn most(unit: LengthUnit) -> f64 {
    let fits = |value: f64| Ratio::new(value).is_ok_and(|value| Length { value, unit }.is_a_homes());
    // Each unit is more than a thousandth of a metre (arithmetic), so `high` begins above the limit. The interval is halved until its ends
    // are neighbouring numbers.
    let (mut low, mut high) = (0.0_f64, 1000.0 * Length::MOST.get());
    while low.next_up() < high {
        let middle = low + (high - low) / 2.0;
        if fits(middle) { low = middle } else { high = middle }
    }
    low
}

/// Adds to the schema of [`Length`] the greatest number allowed in each unit.
pub(super) fn lengths(schema: &mut Schema) {
    let rule = |unit: &LengthUnit| {
        json!({
            "if": { "properties": { "unit": { "const": unit.word() } } },
            "then": { "properties": { "value": { "maximum": most(*unit) } } },
        })
    };
    let rules: Vec<Value> = LengthUnit::ALL.iter().map(rule).collect();
    schema.insert("allOf".to_string(), Value::Array(rules));
}

impl JsonSchema for Answers {
    fn schema_name() -> Cow<'static, str> {
        "Answers".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let mut topics = Map::new();
        topics.insert(
            "as_of".to_string(),
            json_schema!({
                "type": ["string", "null"], "format": "date",
                "description": "The day the assessment speaks of; left out or null, the day the config was published.",
            })
            .to_value(),
        );
        let paths = TOPICS
            .iter()
            .flat_map(|(topic, accessors)| accessors.iter().map(move |accessor| [topic, ".", accessor.name].concat()));
        let paths: Vec<_> = paths.collect();
        topics.insert(
            "recorded".to_string(),
            json_schema!({
                "type": "array", "items": { "enum": paths },
                "description": "Which answers the installer recorded: they count whatever the homeowner would have been asked.",
            })
            .to_value(),
        );
        for (topic, accessors) in TOPICS {
            let mut fields = Map::new();
            for accessor in *accessors {
                let value = of_kind(accessor.kind, generator);
                let field =
                    json_schema!({ "description": accessor.says.trim(), "anyOf": [value, { "const": NOT_SURE }] });
                fields.insert(accessor.name.to_string(), field.to_value());
            }
            let shape =
                json_schema!({ "type": "object", "additionalProperties": false, "properties": Value::Object(fields) });
            topics.insert((*topic).to_string(), shape.to_value());
        }
        json_schema!({
            "type": "object",
            "description": (described("Everything said of one home. Fields left out were not asked.", &[WHOLE_NUMBERS])),
            "additionalProperties": false,
            "properties": Value::Object(topics),
        })
    }
}

fn of_kind(kind: AnswerKind, generator: &mut SchemaGenerator) -> Schema {
    match kind {
        AnswerKind::One(words) => json_schema!({ "enum": words }),
        AnswerKind::Any(words) => json_schema!({ "type": "array", "uniqueItems": true, "items": { "enum": words } }),
        AnswerKind::YesNo => json_schema!({ "type": "boolean" }),
        AnswerKind::Count(least, most) => json_schema!({ "type": "integer", "minimum": least, "maximum": most }),
        AnswerKind::Distance => generator.subschema_for::<Length>(),
        AnswerKind::Figure(Bounds { symbol, least, most }) => {
            json_schema!({ "type": "number", "minimum": least, "maximum": most, "description": (["In ", symbol, "."].concat()) })
        }
        AnswerKind::Line => ShortText::json_schema(generator),
        AnswerKind::PostcodeLine => Postcode::json_schema(generator),
        AnswerKind::Day => {
            let mut day = Day::json_schema(generator);
            day.insert("pattern".to_string(), Value::String(format!("^{IN_THIS_CENTURY}")));
            day
        }
        AnswerKind::Stretches => {
            let mut stretches = generator.subschema_for::<Vec<Stretch>>();
            stretches.insert("maxItems".to_string(), json!(MOST_STRETCHES));
            stretches
        }
    }
}
