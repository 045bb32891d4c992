//! The licence notices of the libraries in what is distributed: the licence texts of every crate that is linked in, taken from the sources
//! it was built from.
//!
//! A crate offered under the MIT licence is used under it; any other contributes all its texts. Equal texts are printed once. A crate
//! without a text is named with its authors under the standard text of the MIT licence.

use crate::machine::Machine;
use crate::pages::FORM;
use crate::setup::wasm_std::TARGET;
use anyhow::{Context, Result, bail};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// The name of the file with the notices.
pub const FILE: &str = "THIRD-PARTY.txt";

/// What is distributed, and how it is built.
#[derive(Clone, Copy, Debug)]
pub enum Of {
    /// The form's programs.
    Form,
    /// The native program.
    Native,
}

const HEAD: &str = "\
presurvey, what others made in it

presurvey itself is under the MIT licence (LICENCE). Linked into its programs are the libraries below, each under its own licence. Nothing
of npm is handed out: what is used of it only makes files smaller, makes types of schemas, or tests them.

Values of BS 7671 and of other standards in these programs are cited facts, each with its clause and where it was seen (`presurvey
sources`). The standards themselves are their publishers'; none of them is handed out here.
";

/// The standard text of the MIT licence, for a crate that brings no text of its own.
const MIT: &str = "\
Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated documentation files (the
\"Software\"), to deal in the Software without restriction, including without limitation the rights to use, copy, modify, merge, publish,
distribute, sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is furnished to do so, subject to
the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial portions of the Software.

THE SOFTWARE IS PROVIDED \"AS IS\", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF
MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR
ANY CLAIM, DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH
THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.";

/// The words by which an MIT licence text is recognised.
const PERMISSION: &str = "Permission is hereby granted, free of charge";

/// A crate that is linked in.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Linked {
    name: String,
    version: String,
    licence: String,
    authors: String,
    folder: String,
}

/// All notices as one text.
///
/// # Errors
/// If cargo can't say what is linked in, a crate names no licence, or a required text is missing.
pub fn text(machine: &Machine, of: Of) -> Result<String> {
    let (package, features, target) = match of {
        Of::Form => (FORM.0, FORM.1, TARGET.to_owned()),
        Of::Native => ("presurvey", "", host(machine)?),
    };
    let output = machine
        .command("cargo")
        .args(["metadata", "--format-version", "1", "--locked", "--filter-platform", &target])
        .output()
        .context("`cargo metadata` could not be started")?;
    if !output.status.success() {
        bail!("`cargo metadata` failed: {}", String::from_utf8_lossy(&output.stderr));
    }
    let metadata = serde_json::from_slice(&output.stdout).context("reading what `cargo metadata` prints")?;
    // `cargo metadata` describes the whole workspace, each crate with the features of all its users; `cargo tree` shows what this program
    // uses.
    let tree = machine.ask(
        "cargo",
        &[
            ["tree", "--locked", "--no-default-features", "--prefix", "none", "--edges", "normal,no-proc-macro"]
                .as_slice(),
            &["--package", package, "--features", features, "--target", &target],
        ]
        .concat(),
    );
    let tree = tree.context("`cargo tree` failed; run it by hand to see why")?;
    let in_it: BTreeSet<&str> = tree.lines().filter_map(|line| line.split(' ').next()).collect();
    let all = linked(&metadata, package)?.into_iter();
    whole(&all.filter(|one| in_it.contains(&*one.name) && !one.name.starts_with("presurvey")).collect())
}

/// The target triple of native programs.
fn host(machine: &Machine) -> Result<String> {
    let output = machine.command("rustc").arg("-vV").output().context("`rustc` could not be started")?;
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    said.lines().find_map(|line| line.strip_prefix("host: ")).map(str::to_owned).context("`rustc -vV` names no host")
}

/// The crates that are linked in, by name: the program's dependencies and theirs, without macros, which run only while it is built.
fn linked(metadata: &Value, root: &str) -> Result<BTreeSet<Linked>> {
    let by_id = |list: &Value| -> BTreeMap<String, Value> {
        let named = list.as_array().into_iter().flatten();
        named.filter_map(|one| Some((one["id"].as_str()?.to_owned(), one.clone()))).collect()
    };
    let (packages, nodes) = (by_id(&metadata["packages"]), by_id(&metadata["resolve"]["nodes"]));
    let is_macro = |package: &Value| {
        let targets = package["targets"].as_array().into_iter().flatten();
        targets.flat_map(|target| target["kind"].as_array().into_iter().flatten()).any(|kind| kind == "proc-macro")
    };
    let root = packages.iter().find(|(_, package)| package["name"] == root).context("the crate is not in it")?;
    let mut waiting = vec![root.0.clone()];
    let (mut met, mut found) = (BTreeSet::new(), BTreeSet::new());
    while let Some(id) = waiting.pop() {
        if !met.insert(id.clone()) {
            continue;
        }
        let package = packages.get(&id).context("a crate without a description")?;
        let text = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
        if id != *root.0 {
            let authors = package["authors"].as_array().into_iter().flatten().filter_map(Value::as_str);
            let folder = text("manifest_path").trim_end_matches("Cargo.toml").to_owned();
            let authors = authors.collect::<Vec<_>>().join(", ");
            let linked =
                Linked { name: text("name"), version: text("version"), licence: text("license"), authors, folder };
            found.insert(linked);
        }
        for dependency in nodes.get(&id).and_then(|node| node["deps"].as_array()).into_iter().flatten() {
            let runs = dependency["dep_kinds"].as_array().into_iter().flatten().any(|kind| kind["kind"].is_null());
            let to = dependency["pkg"].as_str().unwrap_or_default();
            if runs && packages.get(to).is_some_and(|package| !is_macro(package)) {
                waiting.push(to.to_owned());
            }
        }
    }
    Ok(found)
}

fn whole(linked: &BTreeSet<Linked>) -> Result<String> {
    let mut by_text: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for one in linked {
        let Linked { name, version, licence, authors, folder } = one;
        if licence.is_empty() {
            bail!("{name} {version} names no licence: nobody may hand it out");
        }
        let offers_mit = !licence.contains("AND") && licence.split(['/', ' ']).any(|word| word == "MIT");
        let mut texts = texts_of(Path::new(folder))?;
        if offers_mit && let Some(mit) = texts.iter().find(|text| text.contains(PERMISSION)).cloned() {
            texts = vec![mit];
        }
        if texts.is_empty() {
            if !offers_mit {
                bail!("{name} {version} ({licence}) brings no text of its licence: put it into xtask/src/notices.rs");
            }
            let whose = if authors.is_empty() { format!("the authors of {name}") } else { authors.clone() };
            texts = vec![format!("Copyright (c) {whose}\n\n{MIT}")];
        }
        for text in texts {
            by_text.entry(text).or_default().push(format!("{name} {version} ({licence})"));
        }
    }
    let mut page = HEAD.to_owned();
    page.push_str("\nThe Rust standard library (MIT OR Apache-2.0)\n\n");
    let _ = writeln!(page, "Copyright (c) The Rust Project Contributors\n\n{MIT}"); // a String takes all
    let mut parts: Vec<(Vec<String>, String)> = by_text.into_iter().map(|(text, names)| (names, text)).collect();
    parts.sort();
    for (names, text) in parts {
        let _ = write!(page, "\n{}\n{}\n\n{text}\n", "-".repeat(100), names.join("\n"));
    }
    Ok(page)
}

/// The licence texts in a crate's folder.
fn texts_of(folder: &Path) -> Result<Vec<String>> {
    const NAMES: [&str; 6] = ["LICENSE", "LICENCE", "COPYING", "COPYRIGHT", "NOTICE", "UNLICENSE"];
    let mut texts = BTreeSet::new();
    for entry in fs::read_dir(folder).with_context(|| format!("reading {}", folder.display()))? {
        let path = entry?.path();
        let name = path.file_name().map(|name| name.to_string_lossy().to_uppercase()).unwrap_or_default();
        let is_text = NAMES.iter().any(|wanted| name.split(['.', '-', '_']).next() == Some(*wanted));
        if path.is_file() && is_text {
            let text = fs::read(&path).with_context(|| format!("reading {}", path.display()))?;
            let text = String::from_utf8_lossy(&text).replace("\r\n", "\n");
            let lines: Vec<&str> = text.trim().lines().map(str::trim_end).collect();
            texts.insert(lines.join("\n"));
        }
    }
    Ok(texts.into_iter().collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;
    use serde_json::json;

    fn one(name: &str, licence: &str, folder: &str) -> Linked {
        let [name, licence, folder] = [name, licence, folder].map(str::to_owned);
        Linked { name, version: "1.0.0".into(), licence, authors: String::new(), folder }
    }

    #[test]
    fn what_runs_is_named_with_what_it_needs_and_macros_are_not() {
        let package = |id: &str, kind: &str| {
            json!({ "id": id, "name": id, "version": "1.0.0", "license": "MIT", "manifest_path": "/x/Cargo.toml",
                "authors": [], "targets": [{ "kind": [kind] }] })
        };
        let to = |id: &str, kind: Value| json!({ "pkg": id, "dep_kinds": [{ "kind": kind }] });
        let metadata = json!({
            "packages": [package("presurvey", "lib"), package("linked", "lib"), package("under", "lib"), package("tests", "lib"),
                package("derives", "proc-macro"), package("other", "lib")],
            "resolve": { "nodes": [
                { "id": "presurvey", "deps": [to("linked", Value::Null), to("tests", json!("dev")), to("derives", Value::Null)] },
                { "id": "linked", "deps": [to("under", Value::Null)] },
                { "id": "derives", "deps": [to("other", Value::Null)] },
            ] },
        });
        let names: Vec<String> = linked(&metadata, "presurvey").unwrap().into_iter().map(|one| one.name).collect();
        assert_eq!(names, ["linked", "under"]);
    }

    #[test]
    fn each_crate_stands_above_its_text_and_equal_texts_stand_once() {
        let stub = Stub::new("notices");
        stub.file("a/LICENSE-MIT", &format!("Copyright A\r\n\r\n{PERMISSION} …"));
        stub.file("a/LICENSE-APACHE", "Apache");
        stub.file("b/LICENSE", &format!("Copyright A\n\n{PERMISSION} …\n"));
        stub.file("c/LICENSE-ZLIB.md", "zlib");
        stub.file("d/src.rs", "");
        let folder = |name: &str| stub.path(name).to_string_lossy().into_owned();
        let linked = [
            one("a", "MIT OR Apache-2.0", &folder("a")),
            one("b", "MIT", &folder("b")),
            one("c", "Zlib", &folder("c")),
            one("d", "MIT/Apache-2.0", &folder("d")),
        ];
        let text = whole(&linked.into()).unwrap();
        assert!(text.contains("a 1.0.0 (MIT OR Apache-2.0)\nb 1.0.0 (MIT)\n\nCopyright A"), "{text}");
        assert!(text.contains("c 1.0.0 (Zlib)\n\nzlib") && !text.contains("\nApache\n"), "{text}");
        assert!(text.contains("Copyright (c) the authors of d") && text.contains("cited facts"), "{text}");
        for (licence, why) in [("", "names no licence"), ("Zlib", "brings no text")] {
            let refused = whole(&[one("d", licence, &folder("d"))].into()).unwrap_err().to_string();
            assert!(refused.contains(why), "{refused}");
        }
    }

    /// The real notices of the form and of the native program.
    #[test]
    fn all_that_is_linked_in_has_its_notice() {
        let machine = Machine::here().unwrap();
        for (of, names) in
            [(Of::Form, ["yew 0.", "wasm-bindgen 0.", "serde 1."]), (Of::Native, ["axum 0.", "sqlx 0.", "tokio 1."])]
        {
            let text = text(&machine, of).unwrap();
            for name in names {
                assert!(text.contains(&["\n", name].concat()), "{name} for {of:?}");
            }
            assert!(!text.contains("\nproptest ") && !text.contains("\nserde_derive "), "{of:?}");
        }
    }
}
