//! TypeScript types, generated from the JSON Schemas (by the package json-schema-to-typescript, whose program is json2ts) and from the
//! custom-elements manifest, so that no type is written twice.

use crate::machine::Machine;
use anyhow::{Context, Result, bail};
use schemars::Schema;
use schemars::transform::{RecursiveTransform, RemoveRefSiblings, ReplacePrefixItems, Transform};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fmt::Write as _;
use std::io::Write as _;
use std::process::Stdio;

/// Declarations of the types `wanted`, found by name among the schemas' titles and definitions, with all types that they refer to. Before
/// them stands an interface `Engine` with one property for each. json2ts is looked for on `path`.
///
/// # Errors
/// If a name is unknown or ambiguous, or json2ts is missing or fails.
pub fn of_schemas(machine: &Machine, path: &OsStr, schemas: &[&Value], wanted: &[&str]) -> Result<String> {
    const NO_TYPES: &str =
        "the types could not be made: install Node 20 or newer with npm (https://nodejs.org), then run this again";
    let schema = one_schema(schemas, wanted)?;
    let mut maker = machine
        .command("json2ts")
        .env("PATH", path)
        .args(["--no-additionalProperties", "--bannerComment", ""])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .context(NO_TYPES)?;
    let mut input = maker.stdin.take().expect("its standard input was piped four lines above");
    input.write_all(schema.to_string().as_bytes()).context(NO_TYPES)?;
    drop(input); // closing it tells the program that the input is complete
    let output = maker.wait_with_output().context("waiting for `json2ts`")?;
    if !output.status.success() {
        bail!("`json2ts` ended with {}: see the message above", output.status);
    }
    let types = String::from_utf8(output.stdout).context("what `json2ts` printed is not UTF-8")?;
    // Rustdoc's links mean nothing to a reader of the types.
    Ok(types.replace("[`", "`").replace("`]", "`"))
}

/// The schema of an object with one property for each of `wanted`, in lower case, and with all definitions that they refer to.
fn one_schema(schemas: &[&Value], wanted: &[&str]) -> Result<Value> {
    let mut known: BTreeMap<&str, Value> = BTreeMap::new();
    for schema in schemas {
        let own = schema["title"].as_str().map(|title| (title, *schema));
        let parts = schema["$defs"].as_object().into_iter().flatten().map(|(name, part)| (name.as_str(), part));
        for (name, part) in own.into_iter().chain(parts) {
            let mut part = part.clone();
            if let Some(fields) = part.as_object_mut() {
                fields.retain(|key, _| !["$schema", "$defs", "title"].contains(&key.as_str()));
            }
            if known.get(name).is_some_and(|other| *other != part) {
                bail!("the schemas have two types named {name}");
            }
            known.insert(name, part);
        }
    }
    let mut rested_on = Map::new();
    let mut left: Vec<&str> = wanted.to_vec();
    while let Some(name) = left.pop() {
        if !rested_on.contains_key(name) {
            let (name, schema) =
                known.get_key_value(name).with_context(|| format!("no schema has a type named {name}"))?;
            references(schema, &mut left);
            rested_on.insert((*name).to_owned(), schema.clone());
        }
    }
    let properties: Map<String, Value> =
        wanted.iter().map(|name| (name.to_lowercase(), json!({ "$ref": format!("#/$defs/{name}") }))).collect();
    let mut whole = Schema::try_from(json!({
        "title": "Engine",
        "description": "What the engine is given, and what it makes of it.",
        "type": "object",
        "required": properties.keys().collect::<Vec<_>>(),
        "properties": properties,
        "$defs": rested_on,
    }))?;
    // json2ts reads an older draft: nothing may stand beside a `$ref`, and tuples are written as `items`.
    RemoveRefSiblings::default().transform(&mut whole);
    ReplacePrefixItems::default().transform(&mut whole);
    RecursiveTransform(say_units).transform(&mut whole);
    Ok(whole.into())
}

fn references<'a>(schema: &'a Value, into: &mut Vec<&'a str>) {
    match schema {
        Value::Object(fields) => {
            into.extend(fields.get("$ref").and_then(Value::as_str).and_then(|path| path.strip_prefix("#/$defs/")));
            fields.values().for_each(|value| references(value, into));
        }
        Value::Array(values) => values.iter().for_each(|value| references(value, into)),
        _ => {}
    }
}

/// Copies the description of the one variant, such as "In kW.", to the type that holds it, as json2ts drops it from the variant.
fn say_units(schema: &mut Schema) {
    let either = schema.get("anyOf").and_then(Value::as_array).into_iter().flatten();
    let said = schema.get("description").into_iter().chain(either.filter_map(|one| one.get("description")));
    let said: Vec<&str> = said.filter_map(Value::as_str).collect();
    if !said.is_empty() {
        let said = said.join(" ");
        schema.insert("description".into(), said.into());
    }
}

/// Declarations for the element of a custom-elements manifest: its attributes, its events and its name.
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
    use crate::setup::stub::Stub;

    #[test]
    fn the_wanted_stand_in_one_schema_with_what_they_rest_on_and_no_more() {
        let home = json!({
            "title": "Home", "$schema": "…", "type": "object", "description": "One home.",
            "properties": {
                "when": { "$ref": "#/$defs/Day", "description": "Which." },
                "power": { "anyOf": [{ "type": "number", "description": "In kW." }, { "const": "not-sure" }], "description": "Its power." },
                "range": { "type": "array", "prefixItems": [{ "type": "number" }, { "type": "number" }] },
            },
            "$defs": { "Day": { "type": "string" }, "Unused": { "type": "boolean" } },
        });
        let street = json!({ "title": "Street", "type": "array", "items": { "$ref": "#/$defs/Home" }, "$defs": { "Day": { "type": "string" } } });
        let whole = one_schema(&[&home, &street], &["Street"]).unwrap();
        assert_eq!(whole["properties"], json!({ "street": { "$ref": "#/$defs/Street" } }));
        assert_eq!(whole["required"], json!(["street"]));
        assert_eq!(whole["$defs"].as_object().unwrap().keys().collect::<Vec<_>>(), ["Day", "Home", "Street"]);
        let fields = &whole["$defs"]["Home"]["properties"];
        assert_eq!(fields["when"], json!({ "allOf": [{ "$ref": "#/$defs/Day" }], "description": "Which." }));
        assert_eq!(fields["power"]["description"], "Its power. In kW.");
        assert_eq!(fields["range"]["items"], json!([{ "type": "number" }, { "type": "number" }]));
    }

    #[test]
    fn what_is_missing_or_means_two_things_is_an_error() {
        let one = json!({ "title": "One", "$defs": { "Day": { "type": "string" } }, "type": "string" });
        let two = json!({ "title": "Two", "$defs": { "Day": { "type": "number" } }, "type": "string" });
        assert!(one_schema(&[&one], &["Home"]).unwrap_err().to_string().contains("no schema has a type named Home"));
        assert!(one_schema(&[&one, &two], &["One"]).unwrap_err().to_string().contains("two types named Day"));
    }

    #[test]
    fn the_program_is_handed_the_schema_and_its_failure_is_told() {
        let stub = Stub::new("typescript");
        let (machine, bin) = (stub.machine(), stub.bin());
        let schema = json!({ "title": "Home", "type": "string", "description": "As [`Day`]." });
        let types = || of_schemas(&machine, bin.as_os_str(), &[&schema], &["Home"]);
        assert!(types().unwrap_err().to_string().contains("Node 20"));
        stub.program("json2ts", "cat");
        let given: Value = serde_json::from_str(&types().unwrap()).unwrap();
        assert_eq!(given["$defs"]["Home"]["description"], "As `Day`.");
        stub.program("json2ts", "cat > /dev/null; exit 1");
        assert!(types().unwrap_err().to_string().contains("exit status: 1"));
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
