//! Installs Debian packages, as root and without asking questions.

use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::Result;
use std::process::Command;

/// Installs those of `packages` that are missing; does nothing if none is.
///
/// # Errors
/// If the package client fails, saying what to try.
pub fn install(machine: &Machine, packages: &[&str], purpose: &str) -> Result<()> {
    let missing: Vec<&str> = packages.iter().copied().filter(|package| !installed(machine, package)).collect();
    if missing.is_empty() {
        return Ok(());
    }
    let list = missing.join(" ");
    say(&format!("installing {list} from Debian, for {purpose} (usually one to five minutes)"));
    // An installation that was interrupted leaves packages unpacked but not set up; this finishes it.
    let _ = quiet(machine, "dpkg").args(["--configure", "-a"]).status();
    run(
        quiet(machine, "apt-get").args(["update", "-q", "-o", "DPkg::Lock::Timeout=300"]),
        "Debian's lists of packages could not be read: check the network and /etc/apt, then try again.",
    )?;
    run(
        quiet(machine, "apt-get")
            .args(["install", "-y", "-q", "--no-install-recommends", "-o", "DPkg::Lock::Timeout=300"])
            .args(&missing),
        &format!("Install these yourself and try again: apt-get install {list}"),
    )
}

fn quiet(machine: &Machine, program: &str) -> Command {
    let mut command = machine.command(program);
    command.env("DEBIAN_FRONTEND", "noninteractive");
    command
}

fn installed(machine: &Machine, package: &str) -> bool {
    machine
        .ask("dpkg-query", &["-W", "-f", "${Status}", package])
        .is_some_and(|status| status.ends_with("ok installed"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn only_what_is_missing_is_installed() {
        let stub = Stub::new("debian-missing");
        stub.program("dpkg-query", r#"case "$4" in here) echo "install ok installed";; *) exit 1;; esac"#);
        stub.recorder("apt-get");
        install(&stub.machine(), &["here", "absent"], "a test").unwrap();
        let calls = stub.calls("apt-get");
        assert_eq!(calls.len(), 2, "{calls:?}");
        assert!(calls[0].starts_with("update"));
        assert!(calls[1].starts_with("install -y") && calls[1].ends_with(" absent"), "{calls:?}");
    }

    #[test]
    fn nothing_missing_calls_nothing() {
        let stub = Stub::new("debian-none");
        stub.program("dpkg-query", r#"echo "install ok installed""#);
        stub.recorder("apt-get");
        install(&stub.machine(), &["here"], "a test").unwrap();
        assert!(stub.calls("apt-get").is_empty());
    }

    #[test]
    fn a_failure_names_the_packages() {
        let stub = Stub::new("debian-fails");
        stub.program("dpkg-query", "exit 1");
        stub.program("apt-get", r#"[ "$1" = update ]"#);
        let error = install(&stub.machine(), &["one", "two"], "a test").unwrap_err().to_string();
        assert!(error.contains("apt-get install one two"), "{error}");
    }
}
