//! Checks that the pure crates stay pure: without features they build for both targets, need no standard library, and depend on nothing
//! that could reach a clock, a file, a thread or a browser.

use crate::machine::Machine;
use crate::run::run;
use crate::setup::wasm_std::{TARGET, Toolchain};
use anyhow::{Context, Result, bail};

/// The pure crates.
const PURE: [&str; 5] =
    ["presurvey-model", "presurvey-wording", "presurvey-engine", "presurvey-figures", "presurvey-record"];

/// Crates that reach the outside world: the pure crates may not depend on any of them.
const IMPURE: [&str; 18] = [
    "anyhow",
    "argon2",
    "axum",
    "chrono",
    "clap",
    "getrandom",
    "gloo",
    "idb",
    "js-sys",
    "rand",
    "schemars",
    "sqlx",
    "tokio",
    "tracing",
    "wasm-bindgen",
    "wasm-bindgen-futures",
    "web-sys",
    "yew",
];

/// A program without a standard library. Linked with a library that brings one, it has two panic handlers, and the
/// compiler refuses it.
const PROBE: &str = include_str!("no_std_probe.rs");

/// Checks all of this.
///
/// # Errors
/// If a crate is not pure, saying what was found.
pub fn check(machine: &Machine, wasm: Toolchain) -> Result<()> {
    let packages = PURE.iter().flat_map(|name| ["--package", name]);
    let build: Vec<&str> = ["build", "--quiet", "--lib", "--no-default-features"].into_iter().chain(packages).collect();
    run(
        machine.command("cargo").args(&build),
        "Without features the library must build natively: what needs a feature belongs behind it.",
    )?;
    run(
        wasm.command(machine, "cargo").args(&build).args(["--target", TARGET]),
        "Without features the library must build for wasm32: what needs a feature belongs behind it.",
    )?;
    needs_no_std(machine, wasm)?;
    depends_on_nothing_impure(machine)
}

fn needs_no_std(machine: &Machine, wasm: Toolchain) -> Result<()> {
    let built = machine.wasm_target().join(TARGET).join("debug");
    let macros = machine.wasm_target().join("debug/deps"); // procedural macros are built for the host, in a folder of their own
    let probe = machine.wasm_target().join("no_std_probe.rs");
    std::fs::write(&probe, PROBE).with_context(|| format!("writing {}", probe.display()))?;
    let mut rustc = wasm.rustc(machine);
    rustc
        .args(["--edition", "2024", "--crate-type", "cdylib", "--target", TARGET, "-Cpanic=abort"])
        .arg(format!("--extern=engine={}", built.join("libengine.rlib").display()))
        .arg(format!("--extern=record={}", built.join("librecord.rlib").display()))
        .arg(format!("-Ldependency={}", built.join("deps").display()))
        .arg(format!("-Ldependency={}", macros.display()))
        .arg("-o")
        .arg(machine.wasm_target().join("no_std_probe.wasm"))
        .arg(&probe);
    if wasm != Toolchain::InUse {
        rustc.arg("-Clinker=wasm-ld");
    }
    run(
        &mut rustc,
        "Without features the library must be no_std: a second `panic_impl` above means that it, or a dependency, links \
         the standard library (look for `default-features = false`).",
    )
}

fn depends_on_nothing_impure(machine: &Machine) -> Result<()> {
    let packages = PURE.iter().flat_map(|name| ["--package", name]);
    let arguments = ["tree", "--edges", "normal", "--no-default-features", "--prefix", "none", "--target", "all"];
    let arguments: Vec<&str> = arguments.into_iter().chain(packages).collect();
    let tree = machine.ask("cargo", &arguments).context("`cargo tree` failed; run it by hand to see why")?;
    let found = impure(&tree);
    if !found.is_empty() {
        bail!("without features the library depends on {}: make that optional, behind a feature", found.join(", "));
    }
    Ok(())
}

/// The impure crates among the lines that `cargo tree --prefix none` printed.
fn impure(tree: &str) -> Vec<&str> {
    let names = tree.lines().filter_map(|line| line.split(' ').next());
    let mut found: Vec<&str> = names.filter(|name| IMPURE.contains(name)).collect();
    found.sort_unstable();
    found.dedup();
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_impure_crate_is_named_once() {
        let tree = "presurvey v0.1.0 (/x)\nserde v1.0.1\ntokio v1.2.3\naxum v0.8.1\ntokio v1.2.3 (*)\n";
        assert_eq!(impure(tree), ["axum", "tokio"]);
    }

    #[test]
    fn a_name_that_only_contains_one_is_not_meant() {
        assert!(impure("presurvey v0.1.0\nrandom-thing v1.0.0\nserde_json v1.0.0\n").is_empty());
    }
}
