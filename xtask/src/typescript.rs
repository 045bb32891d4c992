//! TypeScript types, made from JSON Schemas and from the custom-elements manifest: no type is written twice.

use anyhow::{Context, Result, bail};
use serde_json::{Map, Value};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Declarations of `wanted`, found by name among the schemas' titles and definitions, and of all that they rest on.
///
/// # Errors
/// If a name is not there, means two things, or a schema holds what is not understood.
pub fn of_schemas(schemas: &[&Value], wanted: &[&str]) -> Result<String> {
    let mut known: BTreeMap<&str, &Value> = BTreeMap::new();
    for schema in schemas {
        let own = schema["title"].as_str().map(|title| (title, *schema));
        let parts = schema["$defs"].as_object().into_iter().flatten().map(|(name, part)| (name.as_str(), part));
        for (name, part) in own.into_iter().chain(parts) {
            if let Some(other) = known.insert(name, part)
                && typed(other, 0)? != typed(part, 0)?
            {
                bail!("the schemas have two types named {name}");
            }
        }
    }
    let mut written: BTreeMap<&str, String> = BTreeMap::new();
    let mut left: Vec<&str> = wanted.to_vec();
    while let Some(name) = left.pop() {
        if written.contains_key(name) {
            continue;
        }
        let (name, schema) = known.get_key_value(name).with_context(|| format!("no schema has a type named {name}"))?;
        written.insert(name, format!("{}export type {name} = {};\n", comment(schema, 0), typed(schema, 0)?));
        references(schema, &mut left);
    }
    Ok(written.into_values().collect::<Vec<_>>().join("\n"))
}

fn references<'a>(schema: &'a Value, into: &mut Vec<&'a str>) {
    match schema {
        Value::Object(fields) => {
            into.extend(fields.get("$ref").and_then(Value::as_str).and_then(|path| path.strip_prefix("#/$defs/")));
            fields.iter().filter(|(name, _)| *name != "$defs").for_each(|(_, value)| references(value, into));
        }
        Value::Array(values) => values.iter().for_each(|value| references(value, into)),
        _ => {}
    }
}

fn typed(schema: &Value, depth: usize) -> Result<String> {
    let Value::Object(fields) = schema else {
        return if schema == &Value::Bool(true) { Ok("unknown".to_owned()) } else { bail!("{schema} is no schema") };
    };
    let all = |parts: &Vec<Value>| parts.iter().map(|part| typed(part, depth)).collect::<Result<Vec<_>>>();
    if let Some(path) = fields.get("$ref") {
        let path = path.as_str().unwrap_or_default();
        return Ok(path
            .strip_prefix("#/$defs/")
            .with_context(|| format!("{path} is not among the definitions"))?
            .into());
    }
    if let Some(value) = fields.get("const") {
        return Ok(value.to_string());
    }
    if let Some(Value::Array(values)) = fields.get("enum") {
        return Ok(values.iter().map(Value::to_string).collect::<Vec<_>>().join(" | "));
    }
    if let Some(Value::Array(parts)) = fields.get("anyOf").or_else(|| fields.get("oneOf")) {
        return Ok(all(parts)?.join(" | "));
    }
    match fields.get("type") {
        Some(Value::Array(kinds)) => {
            let mut either = Vec::new();
            for kind in kinds {
                let mut one = fields.clone();
                one.insert("type".into(), kind.clone());
                either.push(typed(&Value::Object(one), depth)?);
            }
            Ok(either.join(" | "))
        }
        Some(Value::String(kind)) => match kind.as_str() {
            "string" | "boolean" | "null" => Ok(kind.clone()),
            "number" | "integer" => Ok("number".to_owned()),
            "array" => match fields.get("prefixItems") {
                Some(Value::Array(parts)) => Ok(format!("[{}]", all(parts)?.join(", "))),
                _ => {
                    let item =
                        fields.get("items").map_or_else(|| Ok("unknown".to_owned()), |item| typed(item, depth))?;
                    Ok(format!("Array<{item}>"))
                }
            },
            "object" => object(fields, depth),
            other => bail!("a schema's type {other:?} is not understood"),
        },
        None if fields.keys().all(|key| key == "description") => Ok("unknown".to_owned()),
        _ => bail!("{schema} is not understood"),
    }
}

fn object(fields: &Map<String, Value>, depth: usize) -> Result<String> {
    let Some(properties) = fields.get("properties").and_then(Value::as_object) else {
        let values = match fields.get("additionalProperties") {
            Some(values) => typed(values, depth)?,
            None => "unknown".to_owned(),
        };
        return Ok(format!("Record<string, {values}>"));
    };
    let required = |name: &str| {
        fields.get("required").and_then(Value::as_array).is_some_and(|names| names.iter().any(|one| one == name))
    };
    let indent = "  ".repeat(depth + 1);
    let mut text = String::from("{\n");
    for (name, schema) in properties {
        let mark = if required(name) { "" } else { "?" };
        let _ = writeln!(
            text,
            "{}{indent}{name}{mark}: {};",
            comment(schema, depth + 1),
            typed(schema, depth + 1).with_context(|| format!("in `{name}`"))?
        );
    }
    Ok(format!("{text}{}}}", "  ".repeat(depth)))
}

/// What a schema says of itself and of what it may be, as a comment; links are for the reader of the Rust code.
fn comment(schema: &Value, depth: usize) -> String {
    let either = schema["anyOf"].as_array().into_iter().flatten();
    let says: Vec<&str> = std::iter::once(schema).chain(either).filter_map(|one| one["description"].as_str()).collect();
    if says.is_empty() {
        return String::new();
    }
    let text = says.join(" ").replace('\n', " ").replace("*/", "").replace("[`", "`").replace("`]", "`");
    format!("{}/** {text} */\n", "  ".repeat(depth))
}

/// Declarations of the element in a custom-elements manifest: its attributes, its events, its name.
///
/// # Errors
/// If the manifest lacks one of these.
pub fn of_manifest(manifest: &Value) -> Result<String> {
    let element = &manifest["modules"][0]["declarations"][0];
    let (tag, class) = (text(element, "tagName")?, text(element, "name")?);
    let mut out = format!("/** The attributes of `<{tag}>`. */\nexport interface {class}Attributes {{\n");
    for attribute in list(element, "attributes")? {
        let (name, says) = (text(attribute, "name")?, text(attribute, "description")?);
        let _ = writeln!(out, "  /** {says} */\n  \"{name}\"?: {};", text(&attribute["type"], "text")?);
    }
    let _ = write!(
        out,
        "}}\n\n/** `<{tag}>`. {} */\nexport interface {class} extends HTMLElement {{}}\n\n",
        text(element, "summary")?
    );
    let _ = write!(out, "declare global {{\n  interface HTMLElementTagNameMap {{\n    \"{tag}\": {class};\n  }}\n");
    let _ = writeln!(out, "  interface GlobalEventHandlersEventMap {{");
    for event in list(element, "events")? {
        let (name, says) = (text(event, "name")?, text(event, "description")?);
        let _ = writeln!(out, "    /** {says} */\n    \"{name}\": {};", text(&event["type"], "text")?);
    }
    out.push_str("  }\n}\n");
    Ok(out)
}

fn text<'a>(of: &'a Value, name: &str) -> Result<&'a str> {
    of[name].as_str().with_context(|| format!("the manifest's {of} has no `{name}`"))
}

fn list<'a>(of: &'a Value, name: &str) -> Result<&'a Vec<Value>> {
    of[name].as_array().with_context(|| format!("the manifest's element has no `{name}`"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_schema_becomes_the_types_it_rests_on_and_no_others() {
        let schema = json!({
            "title": "Home", "type": "object", "description": "One home.",
            "properties": {
                "count": { "type": "integer", "minimum": 0 },
                "when": { "anyOf": [{ "$ref": "#/$defs/Day" }, { "const": "not-sure" }], "description": "Which [`Day`]." },
                "power": { "anyOf": [{ "type": "number", "description": "In kW." }, { "const": "not-sure" }], "description": "Its power." },
                "range": { "type": "array", "prefixItems": [{ "type": "number" }, { "type": "number" }] },
                "names": { "type": "array", "items": { "enum": ["a", "b"] } },
                "lead": { "type": ["number", "null"] },
                "wording": { "type": "object", "additionalProperties": { "type": "string" } },
            },
            "required": ["count"],
            "$defs": { "Day": { "type": "string" }, "Unused": { "type": "boolean" } },
        });
        let expected = "\
export type Day = string;

/** One home. */
export type Home = {
  count: number;
  lead?: number | null;
  names?: Array<\"a\" | \"b\">;
  /** Its power. In kW. */
  power?: number | \"not-sure\";
  range?: [number, number];
  /** Which `Day`. */
  when?: Day | \"not-sure\";
  wording?: Record<string, string>;
};
";
        assert_eq!(of_schemas(&[&schema], &["Home"]).unwrap(), expected);
    }

    #[test]
    fn what_is_missing_or_means_two_things_is_an_error() {
        let one = json!({ "title": "One", "$defs": { "Day": { "type": "string" } }, "type": "string" });
        let two = json!({ "title": "Two", "$defs": { "Day": { "type": "number" } }, "type": "string" });
        assert!(of_schemas(&[&one], &["Home"]).unwrap_err().to_string().contains("no schema has a type named Home"));
        assert!(of_schemas(&[&one, &two], &["One"]).unwrap_err().to_string().contains("two types named Day"));
        let odd = json!({ "title": "Odd", "not": {} });
        assert!(of_schemas(&[&odd], &["Odd"]).is_err());
    }

    #[test]
    fn the_element_is_known_by_its_name_its_attributes_and_its_events() {
        let manifest: Value = serde_json::from_str(include_str!("../../www/npm/custom-elements.json")).unwrap();
        let types = of_manifest(&manifest).unwrap();
        for line in [
            "  \"submit-as\"?: \"multipart\";",
            "    \"presurvey-form\": PresurveyForm;",
            "    \"presurvey-sent\": CustomEvent;",
        ] {
            assert!(types.lines().any(|other| other == line), "{line} is not in\n{types}");
        }
        assert!(of_manifest(&json!({})).is_err());
    }
}
