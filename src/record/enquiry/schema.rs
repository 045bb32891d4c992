//! The parts of a record's JSON Schema that do not follow from the shape of its types: the bounds that `read.rs` checks.

use alloc::format;
use alloc::string::{String, ToString};
use model::answers::schema::{WHOLE_NUMBERS, described, not_blank};
use schemars::Schema;
use serde_json::{Value, json};

const BEYOND: [&str; 2] = [WHOLE_NUMBERS, "There are as many photo_sizes in the envelope as photos in the payload."];

pub fn beyond(schema: &mut Schema) {
    let what =
        "One enquiry, as this version writes it. Records of earlier versions, of other shapes, are read as well.";
    schema.insert("description".to_string(), described(what, &BEYOND).into());
}

/// A regular expression for exactly `digits` lower-case hexadecimal digits.
pub fn hex(digits: usize) -> String {
    format!("^[0-9a-f]{{{digits}}}$")
}

/// The day of the answers, as the day of the enquiry.
pub fn day_of_answers(pattern: &str) -> Value {
    json!({ "as_of": { "pattern": pattern } })
}

/// Adds that a contact has a telephone number or an e-mail address, and that it is not blank.
pub fn can_be_answered(schema: &mut Schema) {
    let one = |name: &str| json!({ "properties": { name: { "pattern": not_blank() } }, "required": [name] });
    schema.insert("anyOf".to_string(), json!([one("telephone"), one("email")]));
}

/// The alternatives of the field `assessment`: an assessment of this version, or anything else, which is ignored on reading.
pub fn assessment_or_another() -> Value {
    json!([{ "$ref": "#/$defs/Assessment" }, { "description": "What this version can't read is passed over." }])
}
