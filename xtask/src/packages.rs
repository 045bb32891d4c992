//! What is installed on a server: the program linked statically, which needs nothing of the system it runs on, and a Debian package of it
//! with the pages and the unit file. A command of its own, since an optimised build takes minutes that `dist` does without.

use crate::machine::Machine;
use crate::run::{run, say};
use crate::setup::cargo_tools;
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::Path;

/// The target with a C library made for static programs, and the one that every toolchain has.
const TARGETS: [&str; 2] = ["x86_64-unknown-linux-musl", "x86_64-unknown-linux-gnu"];

/// Writes `dist/packages` from the built pages.
///
/// # Errors
/// If the pages are not built, or the program or the package can't be made.
pub fn write(machine: &Machine) -> Result<()> {
    let dist = machine.dist();
    for needed in ["form/index.html", "triage/index.html", crate::notices::FILE] {
        if !dist.join(needed).is_file() {
            bail!("there is no {}; run `cargo xtask dist` first", dist.join(needed).display());
        }
    }
    let folder = dist.join("packages");
    // What an earlier version left is no part of this one.
    if folder.exists() {
        fs::remove_dir_all(&folder).with_context(|| format!("removing {}", folder.display()))?;
    }
    fs::create_dir_all(&folder).with_context(|| format!("making {}", folder.display()))?;

    // The container's data folder: an image begun from nothing has no other way to make one that is its user's.
    let data = folder.join("data");
    fs::create_dir(&data).with_context(|| format!("making {}", data.display()))?;

    let target = target(machine);
    let built = machine.target().join("static");
    say(&format!("building the static program for {target} (usually five to ten minutes the first time)"));
    run(
        machine
            .command("cargo")
            .env("CARGO_TARGET_DIR", &built)
            .env("RUSTFLAGS", "-C target-feature=+crt-static")
            .args(["build", "--quiet", "--release", "--bin", "presurvey", "--target", target]),
        "The static program did not build; it needs the C library's archive (libc6-dev, or musl-tools for musl).",
    )?;
    let program = folder.join("presurvey");
    fs::copy(built.join(target).join("release/presurvey"), &program)
        .with_context(|| format!("writing {}", program.display()))?;
    if let Some(strip) = machine.find("strip") {
        run(machine.command(strip).arg(&program), "The program could not be made smaller.")?;
    }

    let deb = cargo_tools::cargo_deb(machine)?;
    run(
        machine.command(deb).args(["--package", "presurvey", "--no-build", "--no-strip", "--output"]).arg(&folder),
        "The Debian package could not be made.",
    )?;
    say(&format!("written: {}", folder.display()));
    Ok(())
}

/// musl where the toolchain in use has its standard library already, else glibc. Nothing is fetched for it.
fn target(machine: &Machine) -> &'static str {
    let [musl, glibc] = TARGETS;
    let there = |target: &str| {
        let folder = machine.ask("rustc", &["--print", "target-libdir", "--target", target]);
        folder.is_some_and(|folder| Path::new(&folder).is_dir())
    };
    if there(musl) { musl } else { glibc }
}
