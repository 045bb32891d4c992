//! Writes the list of a page's files, each with its hash, into its service worker, which keeps them for use without a network.

use crate::integrity::{files, hash};
use anyhow::{Context, Result, bail};
use serde_json::{Map, Value};
use std::fs;
use std::path::Path;

/// The placeholder for the list in the service worker.
const PLACE: &str = "__FILES__";

/// Whether a file is not needed without a network: the worker itself, compressed copies, and files for frames only.
fn is_left_out(name: &str) -> bool {
    name == "offline.js"
        || name.starts_with("frame")
        || [".br", ".gz", ".ts"].iter().any(|ending| name.ends_with(ending))
}

/// Writes the list of a page's files into its service worker. Does nothing for a page without one.
///
/// # Errors
/// If a file can't be read or written, or the service worker has no place for the list.
pub fn list_files(folder: &Path) -> Result<()> {
    let worker = folder.join("offline.js");
    if !worker.exists() {
        return Ok(());
    }
    let mut list = Map::new();
    for path in files(folder, |_| true)? {
        let name = path.strip_prefix(folder).expect("it was found below that folder").to_string_lossy().into_owned();
        if !is_left_out(&name) {
            let address = if name == "index.html" { "./" } else { &name };
            list.insert(address.to_owned(), hash(&path)?.into());
        }
    }
    let text = fs::read_to_string(&worker).with_context(|| format!("reading {}", worker.display()))?;
    if !text.contains(PLACE) {
        bail!("{} has no place for the list of files: {PLACE}", worker.display());
    }
    let text = text.replace(PLACE, &Value::Object(list).to_string());
    fs::write(&worker, text).with_context(|| format!("writing {}", worker.display()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn every_file_of_the_page_is_listed_and_nothing_else() {
        let stub = Stub::new("offline-list");
        for name in ["index.html", "a.js", "a.js.br", "sub/b.wasm", "frame.html", "frame-height.js", "types.d.ts"] {
            stub.file(&format!("page/{name}"), name);
        }
        stub.file("page/offline.js", "const FILES = __FILES__;");
        let folder = stub.path("page");
        list_files(&folder).unwrap();
        let text = fs::read_to_string(folder.join("offline.js")).unwrap();
        let list: Map<String, Value> =
            serde_json::from_str(text.trim_start_matches("const FILES = ").trim_end_matches(';')).unwrap();
        assert_eq!(list.keys().collect::<Vec<_>>(), ["./", "a.js", "sub/b.wasm"]);
        assert_eq!(list["./"], *hash(&folder.join("index.html")).unwrap());
        assert!(list_files(&folder).unwrap_err().to_string().contains("no place"));
    }

    #[test]
    fn a_page_without_a_worker_is_left_alone() {
        let stub = Stub::new("offline-none");
        stub.file("page/index.html", "");
        list_files(&stub.path("page")).unwrap();
    }
}
