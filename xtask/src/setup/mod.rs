//! The set-up that every command begins with: it uses what is there and installs what is missing, once.
//!
//! It changes nothing on a machine that has everything, and continues where an interrupted run stopped.

pub mod cargo_tools;
pub mod debian;
pub mod node_packages;
pub mod programs;
pub mod python_packages;
#[cfg(test)]
pub mod stub;
pub mod versions;
pub mod wasm_std;

use crate::machine::Machine;
use crate::run::say;
use anyhow::{Context, Result};
use programs::Browsers;
use std::ffi::OsString;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use wasm_std::Toolchain;

/// What a command needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// Enough to build the pages; without Node they come out larger.
    Pages,
    /// Enough to run every test as well.
    Tests,
}

/// The tools that the set-up found or installed.
#[derive(Clone, Debug)]
pub struct Tools {
    /// The toolchain that builds for wasm.
    pub wasm: Toolchain,
    /// The folders to put before `PATH`, in this order.
    folders: Vec<PathBuf>,
    /// Whether wasm-opt is there to make programs smaller.
    pub wasm_opt: bool,
    /// The browsers, if tests were asked for.
    pub browsers: Option<Browsers>,
    /// The Python with the network solver, if tests were asked for.
    pub solver: Option<PathBuf>,
    /// cargo-deny, if tests were asked for.
    pub cargo_deny: Option<PathBuf>,
}

impl Tools {
    /// The `PATH` with the tools before any other program of the same name.
    pub fn path(&self, machine: &Machine) -> OsString {
        let rest = machine.vars.get(std::ffi::OsStr::new("PATH")).cloned().unwrap_or_default();
        let all = self.folders.iter().cloned().chain(std::env::split_paths(&rest));
        std::env::join_paths(all).expect("the folders came from a PATH or from a cache folder without a colon")
    }
}

/// Finds or installs everything that is needed.
///
/// # Errors
/// If something can't be had, saying what to do.
pub fn ensure(machine: &Machine, need: Need) -> Result<Tools> {
    if let Ok(lock) = fs::read_to_string(machine.repo.join("Cargo.lock")) {
        versions::agree(&lock)?;
    }
    let cache = versions::cache(machine)?;
    fs::create_dir_all(&cache)
        .with_context(|| format!("making {}: set PRESURVEY_TOOLS to a folder you may write to", cache.display()))?;
    let _alone = alone(&cache)?;

    let browsers = match need {
        Need::Pages => None,
        Need::Tests => {
            programs::ensure_rust_parts(machine)?;
            Some(programs::ensure(machine)?)
        }
    };
    let wasm = wasm_std::ensure(machine)?;
    let bin = cargo_tools::ensure(machine, &cache)?;
    let mut folders = vec![bin];
    let wasm_opt = need == Need::Tests || programs::has_node(machine);
    if wasm_opt {
        folders.insert(0, node_packages::wasm_opt(machine, &cache)?);
    } else {
        say("Node 20 with npm was not found: the pages are built without wasm-opt and will be about a third larger");
    }
    let (mut solver, mut cargo_deny) = (None, None);
    if need == Need::Tests {
        cargo_deny = Some(cargo_tools::cargo_deny(machine)?);
        node_packages::page_tests(machine, &cache)?;
        solver = Some(python_packages::solver(machine, &cache)?);
    }
    Ok(Tools { wasm, folders, wasm_opt, browsers, solver, cargo_deny })
}

/// Waits until no other set-up uses the same cache; dropping the returned file releases the lock.
fn alone(cache: &Path) -> Result<File> {
    let path = cache.join(".lock");
    let lock = File::create(&path).with_context(|| format!("making {}", path.display()))?;
    if lock.try_lock().is_err() {
        say("another set-up is at work; waiting for it");
        lock.lock().with_context(|| format!("waiting for {}", path.display()))?;
    }
    Ok(lock)
}

#[cfg(test)]
mod tests {
    use super::*;
    use stub::{Stub, rustc_with_sysroot, wasm_library};

    /// A machine where everything is in place except Node.
    fn without_node(name: &str) -> Stub {
        let stub = Stub::new(name);
        stub.program("rustc", &rustc_with_sysroot("own"));
        stub.file(&format!("{}/libstd-1.rlib", wasm_library("own")), "");
        let cache = "tools/tools-trunk-0.21.14-bindgen-0.2.130";
        stub.program_at(&format!("{cache}/bin/trunk"), "echo trunk 0.21.14");
        stub.program_at(&format!("{cache}/bin/wasm-bindgen"), "echo wasm-bindgen 0.2.130");
        stub.program("cargo", "");
        stub
    }

    fn machine(stub: &Stub) -> Machine {
        stub.machine_with(&[("PRESURVEY_TOOLS", stub.path("tools").to_str().unwrap())])
    }

    #[test]
    fn pages_can_be_built_without_node_and_tests_can_not_be_run() {
        let stub = without_node("setup-no-node");
        let tools = ensure(&machine(&stub), Need::Pages).unwrap();
        assert!(!tools.wasm_opt && tools.browsers.is_none());
        assert!(ensure(&machine(&stub), Need::Tests).unwrap_err().to_string().contains("Node 20"));
    }

    #[test]
    fn the_tools_come_first_on_the_path() {
        let stub = without_node("setup-path");
        let machine = machine(&stub);
        let path = ensure(&machine, Need::Pages).unwrap().path(&machine);
        let first = std::env::split_paths(&path).next().unwrap();
        assert!(first.ends_with("tools-trunk-0.21.14-bindgen-0.2.130/bin"), "{}", first.display());
        assert_eq!(std::env::split_paths(&path).last(), Some(stub.bin()));
    }

    #[test]
    fn a_lock_file_with_another_glue_stops_before_anything_is_built() {
        let stub = without_node("setup-lock");
        stub.file("repo/Cargo.lock", "name = \"wasm-bindgen\"\nversion = \"0.2.1\"\n");
        let error = ensure(&machine(&stub), Need::Pages).unwrap_err().to_string();
        assert!(error.contains("0.2.1") && error.contains("cargo update"), "{error}");
    }
}
