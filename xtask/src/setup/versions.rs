//! The versions of the tools, and the cache folder that is named after them.

use crate::machine::Machine;
use anyhow::{Context, Result, bail};
use std::path::PathBuf;

/// Trunk, the bundler.
pub const TRUNK: &str = "0.21.14";
/// wasm-bindgen, the glue between wasm and JavaScript: the crate and the program must have the same version.
pub const WASM_BINDGEN: &str = "0.2.130";
/// The oldest Node whose test runner and packages work here.
pub const NODE: u32 = 20;

/// The cache folder for the tools of exactly these versions.
///
/// `PRESURVEY_TOOLS` names its parent; without it the user's cache is used.
///
/// # Errors
/// If there is neither this variable nor a home folder.
pub fn cache(machine: &Machine) -> Result<PathBuf> {
    let parent = if let Some(named) = machine.var("PRESURVEY_TOOLS") {
        machine.repo.join(named)
    } else if let Some(cache) = machine.var("XDG_CACHE_HOME") {
        PathBuf::from(cache).join("presurvey")
    } else {
        let home = machine.var("HOME").context("no place for the tools: set PRESURVEY_TOOLS to a folder")?;
        PathBuf::from(home).join(".cache/presurvey")
    };
    Ok(parent.join(format!("tools-trunk-{TRUNK}-bindgen-{WASM_BINDGEN}")))
}

/// Checks that `Cargo.lock` has the version of the crate `wasm-bindgen` that the tool needs.
///
/// # Errors
/// If it differs, naming both ways to mend it.
pub fn agree(cargo_lock: &str) -> Result<()> {
    match locked(cargo_lock, "wasm-bindgen") {
        Some(WASM_BINDGEN) | None => Ok(()),
        Some(other) => bail!(
            "Cargo.lock holds wasm-bindgen {other}, but the set-up installs the program of {WASM_BINDGEN}, and the two \
             must be the same. Either run `cargo update -p wasm-bindgen --precise {WASM_BINDGEN}`, or change \
             WASM_BINDGEN in xtask/src/setup/versions.rs and `wasm_bindgen` in Trunk.toml to {other}."
        ),
    }
}

/// The version of a package in a `Cargo.lock`; `None` if it is not there.
pub fn locked<'a>(cargo_lock: &'a str, package: &str) -> Option<&'a str> {
    let name = format!("name = \"{package}\"");
    let mut lines = cargo_lock.lines();
    lines.find(|line| *line == name)?;
    lines.next()?.strip_prefix("version = \"")?.strip_suffix('"')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn the_folder_follows_the_variables_in_their_order() {
        let stub = Stub::new("versions-cache");
        let all = [("PRESURVEY_TOOLS", "/t"), ("XDG_CACHE_HOME", "/x"), ("HOME", "/h")];
        let at = |from: usize| cache(&stub.machine_with(&all[from..])).unwrap();
        assert!(at(0).starts_with("/t/tools-trunk-0.21.14-bindgen-0.2.130"));
        assert!(at(1).starts_with("/x/presurvey"));
        assert!(at(2).starts_with("/h/.cache/presurvey"));
        assert!(cache(&stub.machine()).unwrap_err().to_string().contains("PRESURVEY_TOOLS"));
    }

    #[test]
    fn another_wasm_bindgen_is_refused_with_both_ways_to_mend_it() {
        let lock = "[[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.99\"\n";
        let error = agree(lock).unwrap_err().to_string();
        assert!(error.contains("0.2.99") && error.contains("--precise 0.2.130"), "{error}");
        assert!(agree(&lock.replace("0.2.99", WASM_BINDGEN)).is_ok());
    }

    #[test]
    fn a_package_whose_name_only_begins_so_is_another() {
        let lock = "name = \"wasm-bindgen-macro\"\nversion = \"0.2.1\"\n";
        assert_eq!(locked(lock, "wasm-bindgen"), None);
    }

    #[test]
    fn the_bundler_is_told_the_same_versions() {
        let trunk = include_str!("../../../Trunk.toml");
        assert!(trunk.contains(&format!("wasm_bindgen = \"{WASM_BINDGEN}\"")));
        assert!(trunk.contains(&format!("trunk-version = \"^{TRUNK}\"")));
    }
}
