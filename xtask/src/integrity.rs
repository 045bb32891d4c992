//! The hashes by which a browser checks a file's bytes before it runs them (Subresource Integrity).

use anyhow::{Context, Result, bail};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Map, Value};
use sha2::{Digest, Sha256, Sha384};
use std::fs;
use std::path::Path;
use walkdir::WalkDir;

/// The placeholder for the hashes of the files beside a script; in the script it is a string literal.
const PLACE: &str = "@hashes@";

/// The start of the file name of a language's first screen.
const LANGUAGE: &str = "first-";

/// A file's hash in the form that the attribute `integrity` takes.
///
/// # Errors
/// If the file can't be read.
pub fn hash(path: &Path) -> Result<String> {
    Ok(["sha384-", &STANDARD.encode(Sha384::digest(bytes(path)?))].concat())
}

/// The same in fewer letters, as a stranger's first script carries them by the dozen.
///
/// # Errors
/// If the file can't be read.
pub fn short_hash(path: &Path) -> Result<String> {
    Ok(["sha256-", &STANDARD.encode(Sha256::digest(bytes(path)?))].concat())
}

fn bytes(path: &Path) -> Result<Vec<u8>> {
    fs::read(path).with_context(|| format!("reading {}", path.display()))
}

/// Writes hashes into a page's first script: of the scripts and programs beside it that it names, and of the languages' first screens, from
/// which the script also knows which languages there are. Does nothing for a page without a first script.
///
/// # Errors
/// If a file can't be read or written, or the script has no place for the hashes.
pub fn write_into(script: &Path) -> Result<()> {
    if !script.exists() {
        return Ok(());
    }
    let folder = script.parent().context("a script lies in a folder")?;
    let text = fs::read_to_string(script).with_context(|| format!("reading {}", script.display()))?;
    let mut hashes = Map::new();
    for path in files(folder, is_program)? {
        let name = path.strip_prefix(folder).expect("it was found below that folder").to_string_lossy().into_owned();
        if name.starts_with(LANGUAGE) || text.contains(&["\"", &name, "\""].concat()) {
            hashes.insert(name, short_hash(&path)?.into());
        }
    }
    let json = Value::Object(hashes).to_string();
    let filled = ['"', '\'', '`'].iter().fold(text.clone(), |text, quote| {
        text.replace(&[&quote.to_string(), PLACE, &quote.to_string()].concat(), &["'", &json, "'"].concat())
    });
    if filled == text {
        bail!("{} has no place for the hashes of the files beside it: the string {PLACE:?}", script.display());
    }
    fs::write(script, filled).with_context(|| format!("writing {}", script.display()))
}

fn is_program(path: &Path) -> bool {
    let is_language = path.file_name().is_some_and(|name| name.to_string_lossy().starts_with(LANGUAGE));
    path.extension().is_some_and(|kind| kind == "js" || kind == "wasm" || kind == "json" && is_language)
}

/// Every file below a folder that `such` accepts, in order of the paths.
///
/// # Errors
/// If the folder can't be read.
pub fn files(folder: &Path, such: impl Fn(&Path) -> bool) -> Result<Vec<std::path::PathBuf>> {
    let mut found = Vec::new();
    for entry in WalkDir::new(folder).follow_links(true) {
        let entry = entry.with_context(|| format!("reading {}", folder.display()))?;
        if !entry.file_type().is_dir() && such(entry.path()) {
            found.push(entry.into_path());
        }
    }
    found.sort();
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    /// Source: the example of the W3C's Subresource Integrity, section 3.2: `alert('Hello, world.');`.
    #[test]
    fn a_hash_is_that_of_the_specification() {
        let stub = Stub::new("integrity-hash");
        stub.file("hello.js", "alert('Hello, world.');");
        let expected = "sha384-H8BRh8j48O9oYatfu5AZzq6A9RINhZO5H16dQZngK7T62em8MUt1FLm52t+eX6xO";
        assert_eq!(hash(&stub.path("hello.js")).unwrap(), expected);
    }

    #[test]
    fn the_first_script_is_given_the_hashes_of_those_it_names() {
        let stub = Stub::new("integrity-written");
        let names = "use(\"form_bg.wasm\", \"deep/part.js\", \"index.html\", \"absent.js\");";
        stub.file("form/presurvey.js", &["const hashes = JSON.parse(\"@hashes@\");", names].concat());
        stub.file("form/form_bg.wasm", "program");
        stub.file("form/deep/part.js", "export {}");
        stub.file("form/frame.js", "");
        stub.file("form/first-pl.json", "{}");
        stub.file("form/index.html", "");
        write_into(&stub.path("form/presurvey.js")).unwrap();
        let text = fs::read_to_string(stub.path("form/presurvey.js")).unwrap();
        let json =
            text.strip_prefix("const hashes = JSON.parse('").unwrap().strip_suffix(&["');", names].concat()).unwrap();
        let hashes: Map<String, Value> = serde_json::from_str(json).unwrap();
        assert_eq!(hashes.keys().collect::<Vec<_>>(), ["deep/part.js", "first-pl.json", "form_bg.wasm"]);
        assert_eq!(hashes["form_bg.wasm"], short_hash(&stub.path("form/form_bg.wasm")).unwrap());
    }

    #[test]
    fn a_script_without_a_place_is_an_error_and_a_page_without_the_script_is_none() {
        let stub = Stub::new("integrity-no-place");
        stub.file("form/presurvey.js", "const hashes = {};");
        let error = write_into(&stub.path("form/presurvey.js")).unwrap_err().to_string();
        assert!(error.contains("@hashes@"), "{error}");
        write_into(&stub.path("form/absent.js")).unwrap();
    }
}
