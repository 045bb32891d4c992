//! The standard library for wasm32: the toolchain's own, or else rustup's, or else Debian's.

use super::debian;
use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicU32, Ordering};

/// The target of the pages' programs.
pub const TARGET: &str = "wasm32-unknown-unknown";
/// The name under which Debian's second Rust is linked to rustup.
const LINKED: &str = "debian-web";
/// Debian's second Rust: compiler, cargo, library sources, lints, its own library and a linker for wasm.
const PACKAGES: [&str; 6] = ["rustc-web", "cargo-web", "rust-web-src", "rust-web-clippy", "libstd-rust-web-dev", "lld"];

/// Options with which the library is built from Debian's sources, besides the optimisation for size. Without bitcode no program can be
/// linked with LTO. With the setting `panic="immediate-abort"`, which the library's code checks, a panic traps at once: it has no message
/// and calls no hook, which makes programs a twentieth smaller. It is passed by `--cfg`, not as the compiler's unstable option of that
/// name, because every program would then need that option too; so programs are built the same way with this library and with any other.
const FLAGS: &str = "-Cembed-bitcode=yes --cfg panic=\"immediate-abort\" -Aexplicit-builtin-cfgs-in-flags";

/// The toolchain that builds for wasm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toolchain {
    /// The toolchain in use.
    InUse,
    /// Debian's, linked to rustup under [`LINKED`].
    DebianLinked,
    /// Debian's, on a machine without rustup.
    Debian,
}

impl Toolchain {
    /// A command set up to build for wasm: toolchain, linker and a target folder of its own.
    pub fn command(self, machine: &Machine, program: &str) -> Command {
        let mut command = machine.command(program);
        command
            .env("CARGO_TARGET_DIR", machine.wasm_target())
            .env("CARGO_ENCODED_RUSTFLAGS", without_paths(machine).join("\u{1f}"));
        if self != Self::InUse {
            // Debian's compiler brings no linker, and must not load the libraries of the toolchain that runs this program.
            command.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", "wasm-ld").env_remove("LD_LIBRARY_PATH");
        }
        match self {
            Self::InUse => {}
            Self::DebianLinked => {
                command.env("RUSTUP_TOOLCHAIN", LINKED);
            }
            Self::Debian => {
                command.env("RUSTC", machine.system("usr/bin/rustc"));
            }
        }
        command
    }

    /// The compiler itself, set up the same way.
    pub fn rustc(self, machine: &Machine) -> Command {
        let debians = machine.system("usr/bin/rustc");
        self.command(machine, if self == Self::Debian { debians.to_str().unwrap_or("rustc") } else { "rustc" })
    }
}

/// Makes sure that something here can build for wasm, and returns it.
///
/// # Errors
/// If nothing can be done, naming both ways to mend it.
pub fn ensure(machine: &Machine) -> Result<Toolchain> {
    if in_use_has_it(machine) {
        return Ok(Toolchain::InUse);
    }
    if by_rustup(machine) {
        return Ok(Toolchain::InUse);
    }
    if let Some(toolchain) = by_debian(machine)? {
        return Ok(toolchain);
    }
    bail!(
        "this Rust has no standard library for {TARGET}, and the set-up could not add it. Either run \
         `rustup target add {TARGET}` (rustup: https://rustup.rs), or, on Debian, run this command again as root, or \
         have root run `apt-get install {}` and then this command once.",
        PACKAGES.join(" ")
    )
}

fn in_use_has_it(machine: &Machine) -> bool {
    machine.ask("rustc", &["--print", "sysroot"]).is_some_and(|sysroot| has_std(&library(&sysroot)))
}

/// Adds the target by rustup if rustup is there and may install. Returns whether it did.
fn by_rustup(machine: &Machine) -> bool {
    if machine.find("rustup").is_none() || machine.var("RUSTUP_AUTO_INSTALL") == Some("0") {
        return false;
    }
    say("adding the wasm32 standard library by rustup (usually under a minute)");
    let added = machine.command("rustup").args(["target", "add", TARGET]).status();
    if added.is_ok_and(|status| status.success()) && in_use_has_it(machine) {
        return true;
    }
    say("rustup could not add it; looking for another way");
    false
}

/// Debian's second Rust: as set up before, or, as root, installed and its library built now. `None` if neither is possible.
fn by_debian(machine: &Machine) -> Result<Option<Toolchain>> {
    let mut ready = debian_library(machine).filter(|library| built_by_current(machine, library));
    // A library that was built with other options works too; programs are only larger. So it is rebuilt only where it can be replaced, by
    // root.
    if machine.is_debian_root() && !ready.as_deref().is_some_and(built_as_now) {
        debian::install(machine, &PACKAGES, "building for wasm")?;
        let library = debian_library(machine).context("Debian's rustc was installed but does not answer")?;
        if !built_by_current(machine, &library) || !built_as_now(&library) {
            build(machine, &library)?;
        }
        ready = Some(library);
    }
    let Some(library) = ready else {
        return Ok(None);
    };
    drop_builds_of_another_std(machine, &library)?;
    if machine.find("rustup").is_none() {
        return Ok(Some(Toolchain::Debian));
    }
    let rustc = machine.system("usr/bin/rustc");
    let linked = machine.ask("rustup", &["which", "--toolchain", LINKED, "rustc"]);
    if linked.as_deref() != rustc.to_str() {
        let usr = machine.system("usr");
        run(
            machine.command("rustup").args(["toolchain", "link", LINKED]).arg(usr),
            "rustup could not be told of Debian's Rust: look at `rustup toolchain list`.",
        )?;
    }
    Ok(Some(Toolchain::DebianLinked))
}

/// Compiler options that keep this machine's folders out of programs, in which panics name source files. They also make the sizes of the
/// same sources equal on every machine.
fn without_paths(machine: &Machine) -> Vec<String> {
    let home = machine.var("HOME").map(|home| Path::new(home).join(".cargo"));
    let mut places = Vec::new();
    if let Some(cargo) = machine.var("CARGO_HOME").map(PathBuf::from).or(home) {
        let registries = fs::read_dir(cargo.join("registry/src")).into_iter().flatten().flatten();
        places.push((cargo, "cargo"));
        // If several prefixes match, the compiler takes the last.
        places.extend(registries.map(|registry| (registry.path(), "crates")));
    }
    places.push((machine.repo.clone(), "."));
    places.iter().map(|(from, to)| format!("--remap-path-prefix={}={to}", from.display())).collect()
}

fn library(sysroot: &str) -> PathBuf {
    Path::new(sysroot).join("lib/rustlib").join(TARGET).join("lib")
}

fn debian_library(machine: &Machine) -> Option<PathBuf> {
    machine.ask(machine.system("usr/bin/rustc"), &["--print", "sysroot"]).map(|sysroot| library(&sysroot))
}

fn has_std(library: &Path) -> bool {
    fs::read_dir(library).is_ok_and(|files| {
        files.flatten().any(|file| {
            let name = file.file_name().to_string_lossy().into_owned();
            name.starts_with("libstd-") && name.ends_with(".rlib")
        })
    })
}

/// Whether the library was built by the compiler that is installed now. The note that says so is written before the library is put in
/// place, so an incomplete library never has one.
fn built_by_current(machine: &Machine, library: &Path) -> bool {
    let version = machine.ask(machine.system("usr/bin/rustc"), &["-V"]);
    let note = fs::read_to_string(library.join(".built-by")).unwrap_or_default();
    has_std(library) && version.is_some_and(|version| note.lines().next() == Some(version.as_str()))
}

/// Whether the library was built with today's options.
fn built_as_now(library: &Path) -> bool {
    fs::read_to_string(library.join(".built-by")).is_ok_and(|note| note.lines().nth(2) == Some(FLAGS))
}

/// Builds the standard library from Debian's sources and replaces the present one.
fn build(machine: &Machine, library: &Path) -> Result<()> {
    say("building the wasm32 standard library from Debian's sources (usually one minute, up to three)");
    // Each build has a folder of its own, even two in one process.
    static BUILDS: AtomicU32 = AtomicU32::new(0);
    let build = BUILDS.fetch_add(1, Ordering::Relaxed);
    let work = std::env::temp_dir().join(format!("presurvey-std-{}-{build}", std::process::id()));
    let _ = fs::remove_dir_all(&work);
    let built = compile(machine, &work).and_then(|files| swap_in(machine, &files, library));
    let _ = fs::remove_dir_all(&work);
    built
}

fn compile(machine: &Machine, work: &Path) -> Result<Vec<PathBuf>> {
    fs::create_dir_all(work.join("src")).with_context(|| format!("making {}", work.display()))?;
    fs::write(work.join("src/lib.rs"), "")?;
    fs::write(
        work.join("Cargo.toml"),
        "[package]\nname = \"stdonly\"\nversion = \"0.0.0\"\nedition = \"2021\"\n\
         [profile.release]\nopt-level = \"s\"\ncodegen-units = 1\n",
    )?;
    let rustc = machine.system("usr/bin/rustc");
    let sysroot = machine.ask(&rustc, &["--print", "sysroot"]).context("Debian's rustc does not answer")?;
    let vendor = Path::new(&sysroot).join("lib/rustlib/src/rust/library/vendor");
    let mut command = machine.command(machine.system("usr/bin/cargo"));
    command
        .current_dir(work)
        .env_remove("RUSTUP_TOOLCHAIN")
        .env_remove("CARGO_ENCODED_RUSTFLAGS")
        .env_remove("LD_LIBRARY_PATH")
        .env("RUSTC", &rustc)
        .env("RUSTC_BOOTSTRAP", "1") // for this build only: -Zbuild-std is unstable
        .env("CARGO_TARGET_DIR", work.join("t"))
        .env("RUSTFLAGS", FLAGS)
        .args(["build", "--quiet", "--release", "--offline", "--target", TARGET])
        .args(["-Zbuild-std=std,panic_abort,proc_macro,test", "-Zbuild-std-features=optimize_for_size"]);
    if vendor.is_dir() {
        // The library's own dependencies are vendored with its sources; cargo has to be told so.
        command
            .args(["--config", "source.crates-io.replace-with=\"with-std\""])
            .args(["--config", &format!("source.with-std.directory={vendor:?}")]);
    }
    run(
        &mut command,
        "The standard library could not be built: reinstall rust-web-src and rustc-web, then try again.",
    )?;
    let deps = work.join("t").join(TARGET).join("release/deps");
    let mut files = Vec::new();
    for file in fs::read_dir(&deps).with_context(|| format!("reading {}", deps.display()))? {
        let path = file?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if name.ends_with(".rlib") && !name.starts_with("libstdonly") {
            files.push(path);
        }
    }
    Ok(files)
}

fn swap_in(machine: &Machine, files: &[PathBuf], library: &Path) -> Result<()> {
    let (new, old) = (library.with_extension("new"), library.with_extension("old"));
    for leftover in [&new, &old] {
        let _ = fs::remove_dir_all(leftover);
    }
    fs::create_dir_all(&new).with_context(|| format!("making {}", new.display()))?;
    for file in files {
        fs::copy(file, new.join(file.file_name().expect("its name was read when it was listed")))?;
    }
    let version = machine.ask(machine.system("usr/bin/rustc"), &["-V"]).context("Debian's rustc does not answer")?;
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default().as_secs();
    fs::write(new.join(".built-by"), format!("{version}\n{now}\n{FLAGS}\n"))?;
    if library.exists() {
        fs::rename(library, &old)?;
    }
    fs::rename(&new, library).with_context(|| format!("putting {} in place", library.display()))?;
    let _ = fs::remove_dir_all(&old);
    Ok(())
}

/// Removes builds made with another standard library: cargo does not notice that it was replaced, and would fail on them.
fn drop_builds_of_another_std(machine: &Machine, library: &Path) -> Result<()> {
    let now = fs::read_to_string(library.join(".built-by")).context("reading the note beside the wasm32 library")?;
    let target = machine.wasm_target();
    let note = target.join(".std-built-by");
    if fs::read_to_string(&note).is_ok_and(|then| then == now) {
        return Ok(());
    }
    if target.join(TARGET).exists() {
        fs::remove_dir_all(target.join(TARGET)).with_context(|| format!("emptying {}", target.display()))?;
    }
    fs::create_dir_all(&target).with_context(|| format!("making {}", target.display()))?;
    fs::write(&note, now).with_context(|| format!("writing {}", note.display()))
}

#[cfg(test)]
#[path = "wasm_std_tests.rs"]
mod tests;
