//! What is put into the form's late scripts once they are copied: their own wording, by language, where they ask for it.

use crate::machine::Machine;
use anyhow::{Context, Result, bail};
use serde_json::{Map, Value};
use std::fs;
use std::path::Path;

/// What stands where the wording goes.
const PLACE: &str = "__WORDS__";

/// Puts the wording into every script of a built folder that asks for it; the wording file has the script's name.
///
/// # Errors
/// If a script asks for wording that is not there, or a file can't be read or written.
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

/// The messages of a file: one a line, their places written `{name}`. That they are proper Fluent the library's build holds.
fn messages(file: &str) -> Result<Map<String, Value>> {
    let lines = file.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines
        .map(|line| {
            let (key, text) =
                line.split_once(" = ").with_context(|| format!("{line:?} is not a message of one line"))?;
            Ok((key.to_owned(), Value::String(text.replace("{ $", "{").replace(" }", "}"))))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn a_script_is_given_the_wording_of_its_name_in_each_language() {
        let stub = Stub::new("late-wording");
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
    fn wording_that_is_missing_or_not_of_one_line_is_an_error() {
        let stub = Stub::new("late-missing");
        stub.file("repo/www/wording/en/form.ftl", "");
        stub.file("repo/dist/form/ways.js", "__WORDS__");
        let machine = stub.machine();
        assert!(put_wording(&machine, &machine.dist().join("form")).unwrap_err().to_string().contains("ways.ftl"));
        assert!(messages("one =\n    two\n").is_err());
    }
}
