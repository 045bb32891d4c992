//! Merges into a page's script those imports that are not files of the page: parts kept in files of their own in `www`, which as modules
//! would cost another round trip, and constants that the program declares.

use anyhow::{Context, Result, bail};
use serde_json::{Map, Value};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The module that is no file: the program `prerender` prints its constants.
const DECLARED: &str = "./declared.js";

/// Merges into every script of a built folder what it imports from `sources` but what is not in that folder, and the constants that it
/// imports from `declared.js`.
///
/// # Errors
/// If an import can't be resolved, or two parts of one script give the same name to different things.
pub fn put_in(folder: &Path, sources: &Path, declared: &Map<String, Value>) -> Result<()> {
    for entry in fs::read_dir(folder).with_context(|| format!("reading {}", folder.display()))? {
        let path = entry?.path();
        if path.extension().is_none_or(|ending| ending != "js") {
            continue;
        }
        // Scripts that the bundler made are left alone.
        if !path.file_name().is_some_and(|name| sources.join(name).exists()) {
            continue;
        }
        let script = fs::read_to_string(&path).with_context(|| format!("reading {}", path.display()))?;
        let mut whole = Whole { folder, sources, declared, parts: BTreeSet::new(), constants: BTreeSet::new() };
        let script = whole.with_its_parts(&script).with_context(|| format!("what {} imports", path.display()))?;
        let constants = whole.constants.iter().map(|name| format!("const {name} = {};\n", declared[*name]));
        let script = constants.collect::<String>() + &script;
        if let Some(name) = named_twice(&script) {
            bail!("two parts of {} each have a `{name}`", path.display());
        }
        fs::write(&path, script).with_context(|| format!("writing {}", path.display()))?;
    }
    Ok(())
}

/// One script while it is merged.
struct Whole<'a> {
    folder: &'a Path,
    sources: &'a Path,
    declared: &'a Map<String, Value>,
    /// The parts that are in it already.
    parts: BTreeSet<String>,
    /// The names of the constants that it imports.
    constants: BTreeSet<&'a String>,
}

impl Whole<'_> {
    /// A script, or a part of one, with each import replaced by what it imports.
    fn with_its_parts(&mut self, script: &str) -> Result<String> {
        let mut out = String::new();
        let mut rest = script;
        while let Some(import) = next_import(rest) {
            let Import { before, names, module, whole, after } = import;
            out.push_str(before);
            let part = module.trim_start_matches("./");
            if module == DECLARED {
                for name in names.split(',').map(str::trim).filter(|name| !name.is_empty()) {
                    let known = self.declared.get_key_value(name);
                    self.constants.insert(known.with_context(|| format!("nothing is declared as `{name}`"))?.0);
                }
            } else if self.folder.join(part).exists() {
                out.push_str(whole);
            } else if self.parts.insert(part.to_owned()) {
                if names.contains(" as ") {
                    bail!("a part keeps its names: `{}`", whole.trim());
                }
                let text = fs::read_to_string(self.sources.join(part))
                    .with_context(|| format!("`{module}` is neither beside it nor in {}", self.sources.display()))?;
                let text = self.with_its_parts(&text)?;
                // Within the script nothing imports these.
                out.push_str(&text.replace("\nexport ", "\n"));
            }
            rest = after;
        }
        out.push_str(rest);
        Ok(out)
    }
}

/// An import of names, taken apart.
struct Import<'a> {
    before: &'a str,
    names: &'a str,
    module: &'a str,
    whole: &'a str,
    after: &'a str,
}

/// The first import of names that starts a line.
fn next_import(script: &str) -> Option<Import<'_>> {
    const BEGINS: &str = "import {";
    let at = script.match_indices(BEGINS).map(|(at, _)| at).find(|at| *at == 0 || script[..*at].ends_with('\n'))?;
    let (names, rest) = script[at + BEGINS.len()..].split_once("} from \"")?;
    let (module, after) = rest.split_once("\";\n")?;
    let whole = &script[at..script.len() - after.len()];
    Some(Import { before: &script[..at], names, module, whole, after })
}

/// A name that a script declares twice at top level, if there is one.
fn named_twice(script: &str) -> Option<&str> {
    let mut names = BTreeSet::new();
    let given = script.lines().filter_map(|line| {
        let line = line.strip_prefix("export ").unwrap_or(line);
        let line = line.strip_prefix("async ").unwrap_or(line);
        let named = ["const ", "let ", "class ", "function "].iter().find_map(|begins| line.strip_prefix(begins))?;
        let ends = named.find(|sign: char| !sign.is_alphanumeric() && sign != '_' && sign != '$')?;
        (ends > 0).then(|| &named[..ends])
    });
    given.into_iter().find(|name| !names.insert(*name))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;
    use serde_json::json;

    fn put_together(name: &str, script: &str, parts: &[(&str, &str)]) -> Result<String> {
        let stub = Stub::new(name);
        stub.file("page/page.js", script);
        stub.file("page/beside.js", "export const beside = 1;\n");
        stub.file("source/page.js", script);
        for (part, text) in parts {
            stub.file(&format!("source/{part}"), text);
        }
        let declared = json!({ "EVENT_A": "a", "LINES": { "b": "c" } });
        put_in(&stub.path("page"), &stub.path("source"), declared.as_object().unwrap())?;
        Ok(fs::read_to_string(stub.path("page/page.js")).unwrap())
    }

    #[test]
    fn a_part_stands_once_in_the_place_of_its_first_import_and_a_file_beside_it_stays_imported() {
        let parts = [
            ("one.js", "// one\nimport { two } from \"./two.js\";\nexport const one = two;\n"),
            ("two.js", "import { EVENT_A } from \"./declared.js\";\nexport const two = EVENT_A;\n"),
        ];
        let script = "// page\nimport { beside } from \"./beside.js\";\nimport {\n  one,\n} from \"./one.js\";\n\
            import { two } from \"./two.js\";\nimport { EVENT_A, LINES } from \"./declared.js\";\none;\n";
        let expected = "const EVENT_A = \"a\";\nconst LINES = {\"b\":\"c\"};\n// page\nimport { beside } from \"./beside.js\";\n\
            // one\nconst two = EVENT_A;\nconst one = two;\none;\n";
        // The part's own first line has no line break before its `export`, and keeps the break that ends its import.
        assert_eq!(put_together("inline-parts", script, &parts).unwrap(), expected);
    }

    #[test]
    fn what_cannot_be_put_in_is_an_error() {
        for (at, (script, part, problem)) in [
            ("import { X } from \"./declared.js\";\n", "", "nothing is declared as `X`"),
            ("import { x } from \"./gone.js\";\n", "", "is neither beside it nor in"),
            ("import { x as y } from \"./part.js\";\n", "", "a part keeps its names"),
            ("import { x } from \"./part.js\";\nconst x = 1;\n", "\nexport const x = 2;\n", "each have a `x`"),
        ]
        .into_iter()
        .enumerate()
        {
            let error = put_together(&format!("inline-error-{at}"), script, &[("part.js", part)]).unwrap_err();
            assert!(format!("{error:#}").contains(problem), "{error:#}");
        }
    }
}
