//! The PyPI packages: a solver of electrical networks to check voltage drop and fault current against, and a generator of documents to
//! check that JSON Schemas and parsers agree.
//!
//! They are in a virtual environment in the cache, named after the pinned versions, so that other versions lead to another folder. Only
//! wheels are accepted, so that none of their code runs during installation.

use super::debian;
use super::node_packages::fingerprint;
use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::{Path, PathBuf};

/// The file with the pinned versions.
const REQUIREMENTS: &str = "tests/sources/requirements.txt";

/// The Python that has these packages; fetches them if needed.
///
/// # Errors
/// If Python 3 with `venv` can't be had, or the packages can't be fetched, saying what to do.
pub fn solver(machine: &Machine, cache: &Path) -> Result<PathBuf> {
    let requirements = machine.repo.join(REQUIREMENTS);
    let pinned = fs::read(&requirements).with_context(|| format!("reading {}", requirements.display()))?;
    let folder = cache.join(format!("network-solver-{:016x}", fingerprint(&pinned)));
    let (python, whole) = (folder.join("bin/python"), folder.join("whole"));
    // The environment's Python is a link to the system's; if that was removed or replaced since, the environment is made again.
    if whole.exists() && works(machine, &python) {
        return Ok(python);
    }
    if !has_venv(machine) && machine.is_debian_root() {
        debian::install(machine, &["python3", "python3-venv"], "the network solver of the tests")?;
    }
    if !has_venv(machine) {
        bail!(
            "the tests need Python 3.11 or newer with its `venv`: install it and try again (on Debian, as root: \
             `apt-get install python3 python3-venv`, or run this command as root)."
        );
    }
    say("fetching the network solver from PyPI (usually one to two minutes)");
    let _ = fs::remove_dir_all(&folder);
    run(
        machine.command("python3").args(["-m", "venv"]).arg(&folder),
        "The virtual environment could not be made: see the message above.",
    )?;
    run(
        machine
            .command(&python)
            .args([
                "-m",
                "pip",
                "install",
                "--quiet",
                "--disable-pip-version-check",
                "--no-deps",
                "--only-binary",
                ":all:",
                "-r",
            ])
            .arg(&requirements),
        "The packages could not be fetched from PyPI: check the network, then run this again.",
    )?;
    fs::write(&whole, "").with_context(|| format!("writing {}", whole.display()))?;
    Ok(python)
}

fn works(machine: &Machine, python: &Path) -> bool {
    machine.ask(python, &["-c", "print(1)"]).is_some()
}

fn has_venv(machine: &Machine) -> bool {
    machine.ask("python3", &["-c", "import ensurepip, sys; assert sys.version_info >= (3, 11); print(1)"]).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    /// A stand-in for Python that answers, makes environments, and writes down its arguments.
    const PYTHON: &str = r#"echo "$*" >> "$STUB/calls/python3"
case "$2" in
  venv) mkdir -p "$3/bin" && cp "$0" "$3/bin/python";;
esac
echo 1"#;

    fn with_requirements(name: &str) -> Stub {
        let stub = Stub::new(name);
        stub.file(&format!("repo/{REQUIREMENTS}"), "solver==1.0\n");
        stub.file("cache/.here", "");
        stub
    }

    fn installs(stub: &Stub) -> usize {
        stub.calls("python3").iter().filter(|call| call.contains("pip install")).count()
    }

    #[test]
    fn fetched_once_and_again_for_other_versions() {
        let stub = with_requirements("python-once");
        stub.program("python3", PYTHON);
        let (machine, cache) = (stub.machine(), stub.path("cache"));
        let first = solver(&machine, &cache).unwrap();
        assert!(first.ends_with("bin/python") && first.exists());
        assert_eq!(solver(&machine, &cache).unwrap(), first);
        assert_eq!(installs(&stub), 1);
        stub.file(&format!("repo/{REQUIREMENTS}"), "solver==1.1\n");
        assert_ne!(solver(&machine, &cache).unwrap(), first);
        assert_eq!(installs(&stub), 2);
    }

    #[test]
    fn an_interrupted_fetch_is_done_again() {
        let stub = with_requirements("python-half");
        stub.program("python3", &PYTHON.replace("echo 1", r#"case "$*" in *install*) exit 1;; esac; echo 1"#));
        let (machine, cache) = (stub.machine(), stub.path("cache"));
        assert!(solver(&machine, &cache).unwrap_err().to_string().contains("check the network"));
        stub.program("python3", PYTHON);
        assert!(solver(&machine, &cache).is_ok());
    }

    #[test]
    fn without_python_the_message_names_the_package() {
        let stub = with_requirements("python-absent");
        let error = solver(&stub.machine(), &stub.path("cache")).unwrap_err().to_string();
        assert!(error.contains("python3-venv"), "{error}");
    }

    #[test]
    fn every_version_is_pinned() {
        let requirements = include_str!("../../../tests/sources/requirements.txt");
        assert!(requirements.lines().all(|line| line.split_once("==").is_some_and(|(_, version)| !version.is_empty())));
        assert!(requirements.contains("pandapower==") && requirements.contains("hypothesis-jsonschema=="));
    }
}
