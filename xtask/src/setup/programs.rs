//! Programs the tests use as they are found: Node with npm, Chromium, exiftool, PHP, and Rust's own formatter and lints.

use super::debian;
use super::versions::NODE;
use crate::machine::Machine;
use crate::run::say;
use anyhow::{Context, Result, bail};
use std::path::PathBuf;

/// The names Chromium goes by.
const CHROMIUM: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/// Finds Chromium, Node, npm, exiftool and PHP, installing what is missing where that is possible, and returns Chromium.
///
/// # Errors
/// If one is missing or too old, naming all that are.
pub fn ensure(machine: &Machine) -> Result<PathBuf> {
    let missing = missing(machine);
    if !missing.is_empty() && machine.is_debian_root() {
        let packages: Vec<&str> = missing.iter().map(|program| program.package).collect();
        debian::install(machine, &packages, "the tests")?;
    }
    let still = self::missing(machine);
    if !still.is_empty() {
        let named: Vec<&str> = still.iter().map(|program| program.name).collect();
        let packages: Vec<&str> = still.iter().map(|program| program.package).collect();
        bail!(
            "the tests need {}, which were not found on PATH. Install them and try again (on Debian, as root: \
             `apt-get install {}`, or run this command as root). Chromium may also be named by CHROMIUM.",
            named.join(", "),
            packages.join(" ")
        );
    }
    if !node_is_new_enough(machine) {
        let version = machine.ask("node", &["--version"]).unwrap_or_default();
        bail!("Node is {version}; the tests need {NODE} or newer: install it from https://nodejs.org.");
    }
    chromium(machine).context("Chromium was found a moment ago and is gone")
}

/// Whether npm can be used to fetch what makes the pages smaller.
pub fn has_node(machine: &Machine) -> bool {
    machine.find("npm").is_some() && node_is_new_enough(machine)
}

/// Finds Rust's formatter and lints; rustup adds them where it may.
///
/// # Errors
/// If one is missing, saying how to get it.
pub fn ensure_rust_parts(machine: &Machine) -> Result<()> {
    for (subcommand, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        let works = || machine.ask("cargo", &[subcommand, "--version"]).is_some();
        if works() {
            continue;
        }
        if machine.find("rustup").is_some() && machine.var("RUSTUP_AUTO_INSTALL") != Some("0") {
            say(&format!("adding {component} by rustup (usually a few seconds)"));
            let _ = machine.command("rustup").args(["component", "add", component]).status();
        }
        if !works() {
            bail!("`cargo {subcommand}` does not work here: run `rustup component add {component}`, then try again.");
        }
    }
    Ok(())
}

#[derive(Debug)]
struct Program {
    name: &'static str,
    package: &'static str,
}

fn missing(machine: &Machine) -> Vec<Program> {
    let mut missing = Vec::new();
    let mut want = |there: bool, name, package| {
        if !there {
            missing.push(Program { name, package });
        }
    };
    want(chromium(machine).is_some(), "Chromium", "chromium");
    want(machine.find("node").is_some(), "Node 20 or newer", "nodejs");
    want(machine.find("npm").is_some(), "npm", "npm");
    want(machine.find("exiftool").is_some(), "exiftool", "libimage-exiftool-perl");
    want(machine.find("php").is_some(), "PHP 8.1 or newer", "php-cli");
    missing
}

fn chromium(machine: &Machine) -> Option<PathBuf> {
    let named = machine.var("CHROMIUM").map(PathBuf::from).filter(|file| file.exists());
    named.or_else(|| CHROMIUM.iter().find_map(|name| machine.find(name)))
}

fn node_is_new_enough(machine: &Machine) -> bool {
    machine.ask("node", &["--version"]).and_then(|version| major(&version)).is_some_and(|major| major >= NODE)
}

/// The first number of `v20.1.0`.
fn major(version: &str) -> Option<u32> {
    version.strip_prefix('v')?.split('.').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn all_that_is_missing_is_named_at_once() {
        let stub = Stub::new("programs-none");
        stub.program("npm", "");
        let error = ensure(&stub.machine()).unwrap_err().to_string();
        assert!(error.contains("Chromium, Node 20 or newer, exiftool, PHP 8.1 or newer"), "{error}");
        assert!(error.contains("apt-get install chromium nodejs libimage-exiftool-perl php-cli"), "{error}");
    }

    #[test]
    fn debian_as_root_installs_only_what_is_missing() {
        let stub = Stub::new("programs-debian");
        stub.file("system/etc/debian_version", "12.0\n");
        stub.program("node", "echo v20.1.0");
        stub.program("npm", "");
        stub.program("exiftool", "");
        stub.program("php", "");
        stub.program("dpkg-query", "exit 1");
        stub.program("apt-get", "case \"$*\" in install*chromium) cp \"$STUB/bin/npm\" \"$STUB/bin/chromium\";; esac");
        let mut machine = stub.machine();
        machine.root = true;
        assert_eq!(ensure(&machine).unwrap(), stub.bin().join("chromium"));
    }

    #[test]
    fn an_old_node_is_refused_by_its_version() {
        let stub = Stub::new("programs-old-node");
        for program in ["chromium", "npm", "exiftool", "php"] {
            stub.program(program, "");
        }
        stub.program("node", "echo v18.19.0");
        assert!(ensure(&stub.machine()).unwrap_err().to_string().contains("Node is v18.19.0"));
        assert!(!has_node(&stub.machine()));
    }

    #[test]
    fn rustup_is_asked_for_the_lints_only_where_it_may_install() {
        let stub = Stub::new("programs-parts");
        stub.program("cargo", "[ \"$1\" = fmt ] || [ -e \"$STUB/calls/rustup\" ]");
        stub.recorder("rustup");
        let barred = stub.machine_with(&[("RUSTUP_AUTO_INSTALL", "0")]);
        assert!(ensure_rust_parts(&barred).unwrap_err().to_string().contains("rustup component add clippy"));
        ensure_rust_parts(&stub.machine()).unwrap();
        assert_eq!(stub.calls("rustup"), ["component add clippy"]);
    }
}
