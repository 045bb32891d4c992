//! Puts their own wording, by language, into those of the form's scripts that are loaded on demand and have a placeholder for it.

use crate::machine::Machine;
use anyhow::{Context, Result, anyhow, bail};
use fluent_syntax::ast::{Entry, Expression, InlineExpression, PatternElement};
use fluent_syntax::parser;
use serde_json::{Map, Value};
use std::fs;
use std::path::Path;

/// The placeholder for the wording.
const PLACE: &str = "__WORDS__";

/// Puts the wording into every script of a built folder that has the placeholder; the wording file is named like the script.
///
/// # Errors
/// If there is no wording for such a script, or a file can't be read or written.
pub fn put_wording(machine: &Machine, folder: &Path) -> Result<()> {
    for entry in fs::read_dir(folder).with_context(|| format!("reading {}", folder.display()))? {
        let path = entry?.path();
        if path.extension().is_none_or(|ending| ending != "js") {
            continue;
        }
        let script = fs::read_to_string(&path).with_context(|| format!("reading {}", path.display()))?;
        if script.contains(PLACE) {
            let name = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
            let words = serde_json::to_string(&wording(machine, name)?)?;
            fs::write(&path, script.replacen(PLACE, &words, 1))
                .with_context(|| format!("writing {}", path.display()))?;
        }
    }
    Ok(())
}

/// A wording file's messages by language.
fn wording(machine: &Machine, name: &str) -> Result<Map<String, Value>> {
    let mut all = Map::new();
    for language in fs::read_dir(machine.repo.join("www/wording")).context("reading www/wording")? {
        let language = language?;
        if let Ok(file) = fs::read_to_string(language.path().join(format!("{name}.ftl"))) {
            all.insert(language.file_name().to_string_lossy().into_owned(), Value::Object(messages(&file)?));
        }
    }
    if all.is_empty() {
        bail!("{name}.js asks for wording, and there is no {name}.ftl under www/wording");
    }
    Ok(all)
}

/// The messages of a Fluent file; their variables become `{name}`.
fn messages(file: &str) -> Result<Map<String, Value>> {
    let resource = parser::parse(file).map_err(|(_, errors)| anyhow!("this is not Fluent: {errors:?}"))?;
    let mut messages = Map::new();
    for entry in &resource.body {
        if let Entry::Message(message) = entry {
            let pattern = message.value.as_ref().with_context(|| format!("{} has no text", message.id.name))?;
            let text: Result<String> = pattern.elements.iter().map(written).collect();
            messages.insert(message.id.name.to_owned(), text.with_context(|| message.id.name.to_owned())?.into());
        }
    }
    Ok(messages)
}

fn written(part: &PatternElement<&str>) -> Result<String> {
    match part {
        PatternElement::TextElement { value } => Ok((*value).to_owned()),
        PatternElement::Placeable { expression: Expression::Inline(InlineExpression::VariableReference { id }) } => {
            Ok(format!("{{{}}}", id.name))
        }
        PatternElement::Placeable { .. } => bail!("in a late script's wording there may be text and variables alone"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn a_script_is_given_the_wording_of_its_name_in_each_language() {
        let stub = Stub::new("lazy-wording");
        stub.file("repo/www/wording/en/ways.ftl", "# a comment\n\none = One { $name }.\n");
        stub.file("repo/www/wording/cy/ways.ftl", "one = Un { $name }.\n");
        stub.file("repo/dist/form/ways.js", "const WORDS = __WORDS__;");
        stub.file("repo/dist/form/other.js", "const none = 1;");
        let machine = stub.machine();
        put_wording(&machine, &machine.dist().join("form")).unwrap();
        let script = fs::read_to_string(machine.dist().join("form/ways.js")).unwrap();
        assert!(
            script.contains(r#""en":{"one":"One {name}."}"#) && script.contains(r#""cy":{"one":"Un {name}."}"#),
            "{script}"
        );
    }

    #[test]
    fn wording_that_is_missing_or_more_than_text_and_variables_is_an_error() {
        let stub = Stub::new("lazy-missing");
        stub.file("repo/www/wording/en/form.ftl", "");
        stub.file("repo/dist/form/ways.js", "__WORDS__");
        let machine = stub.machine();
        assert!(put_wording(&machine, &machine.dist().join("form")).unwrap_err().to_string().contains("ways.ftl"));
        assert!(messages("one = { two }\n").unwrap_err().to_string().contains("one"));
        assert!(messages("one\n").unwrap_err().to_string().contains("not Fluent"));
    }
}
