//! The tools that are built from crates.io: the bundler Trunk, and wasm-bindgen, which generates the glue between wasm and JavaScript; and two
//! that single commands need.

use super::versions::{TRUNK, WASM_BINDGEN};
use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::{Context, Result};
use std::fs;
use std::path::{Path, PathBuf};

struct Tool {
    package: &'static str,
    program: &'static str,
    version: &'static str,
    /// Whether it is built with the dependency versions it was published with.
    locked: bool,
    usually: &'static str,
}

const TOOLS: [Tool; 2] = [
    Tool {
        package: "wasm-bindgen-cli",
        program: "wasm-bindgen",
        version: WASM_BINDGEN,
        locked: false,
        usually: "one to four minutes",
    },
    Tool {
        package: "trunk",
        program: "trunk",
        version: TRUNK,
        locked: true,
        usually: "two to five minutes, longer on a busy machine",
    },
];

/// Makes Debian packages; wanted for that alone.
const CARGO_DEB: Tool = Tool {
    package: "cargo-deb",
    program: "cargo-deb",
    version: "3.8.0",
    locked: true,
    usually: "one to three minutes",
};

/// Looks at the licences and origins of the crates; wanted for the tests alone.
const CARGO_DENY: Tool = Tool {
    package: "cargo-deny",
    program: "cargo-deny",
    version: "0.20.2",
    locked: true,
    usually: "one to three minutes",
};

/// Builds cargo-deb into the cache, unless it is there or in the path, and returns its place.
///
/// # Errors
/// If cargo can't build it, saying what to try.
pub fn cargo_deb(machine: &Machine) -> Result<PathBuf> {
    alone(machine, &CARGO_DEB)
}

/// Builds cargo-deny into the cache, unless it is there or in the path, and returns its place.
///
/// # Errors
/// If cargo can't build it, saying what to try.
pub fn cargo_deny(machine: &Machine) -> Result<PathBuf> {
    alone(machine, &CARGO_DENY)
}

/// A tool that a single command needs.
fn alone(machine: &Machine, tool: &Tool) -> Result<PathBuf> {
    let cache = super::versions::cache(machine)?;
    let name = format!("{} {}", tool.program, tool.version);
    let wanted = |program: &PathBuf| machine.ask(program, &["--version"]).as_ref() == Some(&name);
    let cached = cache.join("bin").join(tool.program);
    if let Some(found) = [Some(cached.clone()), machine.find(tool.program)].into_iter().flatten().find(wanted) {
        return Ok(found);
    }
    fs::create_dir_all(&cache).with_context(|| format!("making {}", cache.display()))?;
    say(&format!("building {name} (usually {}; once for this version)", tool.usually));
    // A folder of its own: a set-up that runs beside this clears the other one away.
    let build = cache.join(["build-", tool.program].concat());
    install(machine, &cache, &build, tool)?;
    fs::remove_dir_all(&build).with_context(|| format!("removing {}", build.display()))?;
    Ok(cached)
}

/// Builds the missing tools into the cache and returns the folder of the programs.
///
/// # Errors
/// If cargo can't build one, saying what to try.
pub fn ensure(machine: &Machine, cache: &Path) -> Result<PathBuf> {
    let (bin, build) = (cache.join("bin"), cache.join("build"));
    for tool in &TOOLS {
        let program = bin.join(tool.program);
        let wanted = format!("{} {}", tool.program, tool.version);
        if machine.ask(&program, &["--version"]).is_some_and(|version| version == wanted) {
            continue;
        }
        say(&format!("building {wanted} (usually {}; once for this version)", tool.usually));
        install(machine, cache, &build, tool)?;
    }
    // Used only by an interrupted build, which the next run continues.
    if build.exists() {
        fs::remove_dir_all(&build).with_context(|| format!("removing {}", build.display()))?;
    }
    Ok(bin)
}

fn install(machine: &Machine, cache: &Path, build: &Path, tool: &Tool) -> Result<()> {
    let mut command = machine.command("cargo");
    command
        .current_dir(cache) // outside this project, whose cargo settings would apply
        .env("CARGO_TARGET_DIR", build)
        // The tools run for seconds, so a quick build matters more than quick code.
        .env("CARGO_PROFILE_RELEASE_OPT_LEVEL", "0")
        .env("CARGO_PROFILE_RELEASE_LTO", "off")
        .env("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "256")
        .env("CARGO_PROFILE_RELEASE_DEBUG", "0")
        .args(["install", "--force", "--quiet", "--root"])
        .arg(cache)
        .args([tool.package, "--version", tool.version]);
    if tool.locked {
        command.arg("--locked");
    }
    run(
        &mut command,
        &format!(
            "{} {} could not be built. It needs the network (crates.io), a C compiler and about 2 GB of room in {}; \
             run the same command again to go on where this stopped.",
            tool.package,
            tool.version,
            cache.display()
        ),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    /// A stand-in for cargo whose "installed" program prints its version.
    const CARGO: &str = r#"
echo "$* LTO=$CARGO_PROFILE_RELEASE_LTO" >> "$STUB/calls/cargo"
mkdir -p "$STUB/cache/bin" "$CARGO_TARGET_DIR"
case "$*" in
*wasm-bindgen-cli*) name=wasm-bindgen; version=0.2.130;;
*cargo-deny*) name=cargo-deny; version=0.20.2;;
*) name=trunk; version=0.21.14;;
esac
printf '#!/bin/sh\necho %s %s\n' $name $version > "$STUB/cache/bin/$name"
chmod +x "$STUB/cache/bin/$name""#;

    #[test]
    fn both_are_built_once_at_their_versions_and_eased() {
        let stub = Stub::new("tools-once");
        stub.file("cache/.here", "");
        stub.program("cargo", CARGO);
        let bin = ensure(&stub.machine(), &stub.path("cache")).unwrap();
        assert_eq!(bin, stub.path("cache/bin"));
        let calls = stub.calls("cargo");
        assert!(calls[0].contains("wasm-bindgen-cli --version 0.2.130"), "{calls:?}");
        assert!(calls[1].contains("trunk --version 0.21.14 --locked") && calls[1].contains("LTO=off"), "{calls:?}");
        assert!(!stub.path("cache/build").exists());
        ensure(&stub.machine(), &stub.path("cache")).unwrap();
        assert_eq!(stub.calls("cargo").len(), 2);
    }

    #[test]
    fn a_tool_of_one_command_is_built_once_or_taken_from_the_path() {
        let stub = Stub::new("tools-alone");
        stub.file("cache/.here", "");
        stub.program("cargo", &CARGO.replace("$STUB/cache", "$5"));
        let built = |stub: &Stub| cargo_deny(&stub.machine_with(&[("PRESURVEY_TOOLS", "cache")]));
        let program = built(&stub).unwrap();
        assert!(program.ends_with("bin/cargo-deny") && program.is_file(), "{}", program.display());
        assert_eq!(built(&stub).unwrap(), program);
        assert_eq!(stub.calls("cargo").len(), 1);
        let other = Stub::new("tools-path");
        other.program("cargo-deny", "echo cargo-deny 0.20.2");
        assert!(!built(&other).unwrap().starts_with(other.path("repo")));
        assert_eq!(other.calls("cargo").len(), 0);
    }

    #[test]
    fn a_half_written_program_is_built_again() {
        let stub = Stub::new("tools-half");
        stub.program("cargo", CARGO);
        stub.program_at("cache/bin/trunk", "exit 1");
        stub.program_at("cache/bin/wasm-bindgen", "echo wasm-bindgen 0.2.130");
        ensure(&stub.machine(), &stub.path("cache")).unwrap();
        assert_eq!(stub.calls("cargo").len(), 1);
    }

    #[test]
    fn a_failure_says_what_it_needs() {
        let stub = Stub::new("tools-fail");
        stub.file("cache/.here", "");
        stub.program("cargo", "exit 101");
        let error = ensure(&stub.machine(), &stub.path("cache")).unwrap_err().to_string();
        assert!(error.contains("crates.io") && error.contains("again"), "{error}");
    }
}
