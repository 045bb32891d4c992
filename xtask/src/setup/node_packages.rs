//! The npm packages: wasm-opt and terser for the pages, json2ts for the TypeScript types, and those that tests in a browser need.
//!
//! Each set is in a folder of the cache that is named after its lock file: a changed lock file leads to another folder, and a folder that
//! exists is complete.

use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::{Context, Result, bail};
use std::fs;
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};

/// The folder that holds wasm-opt, terser and json2ts; fetches them if needed.
///
/// # Errors
/// If npm can't fetch them, saying what to try.
pub fn wasm_opt(machine: &Machine, cache: &Path) -> Result<PathBuf> {
    Ok(ensure(machine, cache, "wasm-opt", "xtask/npm")?.join(".bin"))
}

/// The folders of tests that need packages, and the names of their sets in the cache.
const TESTS: [(&str, &str); 2] = [("tests/pages", "page-tests"), ("tests/lighthouse", "lighthouse")];

/// Puts the tests' packages where Node looks for them: `node_modules` beside the tests becomes a link into the cache.
///
/// # Errors
/// If npm can't fetch them or a link can't be made, saying what to try.
pub fn page_tests(machine: &Machine, cache: &Path) -> Result<()> {
    TESTS.iter().try_for_each(|(folder, name)| {
        let modules = ensure(machine, cache, name, folder)?;
        link(&modules, &machine.repo.join(folder).join("node_modules"))
    })
}

fn link(modules: &Path, link: &Path) -> Result<()> {
    if fs::read_link(link).is_ok_and(|to| to == modules) {
        return Ok(());
    }
    match fs::symlink_metadata(link) {
        Ok(there) if there.is_symlink() => fs::remove_file(link)?,
        Ok(_) => {
            bail!("{} is in the way: remove it, and a link into the cache takes its place", link.display())
        }
        Err(_) => {}
    }
    symlink(modules, link).with_context(|| format!("linking {}", link.display()))
}

fn ensure(machine: &Machine, cache: &Path, name: &str, manifest: &str) -> Result<PathBuf> {
    let manifest = machine.repo.join(manifest);
    let lock = manifest.join("package-lock.json");
    let locked = fs::read(&lock).with_context(|| format!("reading {}", lock.display()))?;
    let folder = cache.join(format!("{name}-{:016x}", fingerprint(&locked)));
    if folder.exists() {
        return Ok(folder.join("node_modules"));
    }
    if machine.find("npm").is_none() {
        bail!("npm was not found: install Node 20 or newer with npm (https://nodejs.org), then run this again.");
    }
    say(&format!("fetching {name} from npm (usually under a minute)"));
    let new = folder.with_extension("new");
    let _ = fs::remove_dir_all(&new);
    fs::create_dir_all(&new).with_context(|| format!("making {}", new.display()))?;
    for file in ["package.json", "package-lock.json", ".npmrc"] {
        fs::copy(manifest.join(file), new.join(file)).with_context(|| format!("copying {manifest:?}/{file}"))?;
    }
    run(
        machine.command("npm").current_dir(&new).args(["ci", "--ignore-scripts"]),
        "The packages could not be fetched from npm: check the network, then run this again.",
    )?;
    fs::rename(&new, &folder).with_context(|| format!("putting {} in place", folder.display()))?;
    Ok(folder.join("node_modules"))
}

/// FNV-1a, 64 bits: enough to tell one lock file from another.
pub(super) fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    fn with_manifests(name: &str) -> Stub {
        let stub = Stub::new(name);
        for folder in ["xtask/npm", "tests/pages", "tests/lighthouse"] {
            for file in ["package.json", "package-lock.json", ".npmrc"] {
                stub.file(&format!("repo/{folder}/{file}"), "{}");
            }
        }
        stub.file("cache/.here", "");
        stub
    }

    const NPM: &str = "echo \"$*\" >> \"$STUB/calls/npm\"; mkdir -p node_modules/.bin";

    #[test]
    fn fetched_once_and_again_for_another_lock_file() {
        let stub = with_manifests("npm-once");
        stub.program("npm", NPM);
        let (machine, cache) = (stub.machine(), stub.path("cache"));
        let first = wasm_opt(&machine, &cache).unwrap();
        assert!(first.is_dir() && first.ends_with("node_modules/.bin"));
        assert_eq!(wasm_opt(&machine, &cache).unwrap(), first);
        assert_eq!(stub.calls("npm"), ["ci --ignore-scripts"]);
        stub.file("repo/xtask/npm/package-lock.json", "{ }");
        assert_ne!(wasm_opt(&machine, &cache).unwrap(), first);
    }

    #[test]
    fn an_interrupted_fetch_is_done_again() {
        let stub = with_manifests("npm-half");
        stub.program("npm", "mkdir node_modules; exit 1");
        let (machine, cache) = (stub.machine(), stub.path("cache"));
        assert!(wasm_opt(&machine, &cache).unwrap_err().to_string().contains("check the network"));
        stub.program("npm", NPM);
        assert!(wasm_opt(&machine, &cache).unwrap().is_dir());
    }

    #[test]
    fn without_npm_the_message_names_node() {
        let stub = with_manifests("npm-absent");
        let error = wasm_opt(&stub.machine(), &stub.path("cache")).unwrap_err().to_string();
        assert!(error.contains("Node 20"), "{error}");
    }

    #[test]
    fn an_old_link_is_replaced_and_a_real_folder_is_not() {
        let stub = with_manifests("npm-link");
        stub.program("npm", NPM);
        let (machine, cache) = (stub.machine(), stub.path("cache"));
        let link = stub.path("repo/tests/pages/node_modules");
        symlink("/nowhere", &link).unwrap();
        page_tests(&machine, &cache).unwrap();
        page_tests(&machine, &cache).unwrap();
        assert!(link.is_dir() && stub.path("repo/tests/lighthouse/node_modules").is_dir());
        assert_eq!(stub.calls("npm").len(), 2, "each set is fetched once");
        fs::remove_file(&link).unwrap();
        fs::create_dir(&link).unwrap();
        assert!(page_tests(&machine, &cache).unwrap_err().to_string().contains("in the way"));
    }

    #[test]
    fn no_lock_file_names_a_registry() {
        for lock in [
            include_str!("../../npm/package-lock.json"),
            include_str!("../../../tests/pages/package-lock.json"),
            include_str!("../../../tests/lighthouse/package-lock.json"),
        ] {
            assert!(lock.contains("\"integrity\"") && !lock.contains("\"resolved\""));
        }
    }
}
