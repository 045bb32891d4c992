//! Installs Debian packages, as root and without asking questions. No service of theirs is started, now or when the machine starts.

use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::{Context, Result};
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// The packages that bring a service, and its name.
const SERVICES: [(&str, &str); 2] = [("nginx-light", "nginx"), ("caddy", "caddy")];

/// What Debian asks before a package's service is started.
const POLICY: &str = "usr/sbin/policy-rc.d";

/// The answer while packages are installed: services are not started.
const STARTS_NOTHING: &str = "#!/bin/sh\n# Written by presurvey's set-up, which removes it.\nexit 101\n";

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
    let policy = Policy::put(machine)?;
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
    )?;
    drop(policy);
    for (_, service) in SERVICES.iter().filter(|(package, _)| missing.contains(package)) {
        // A policy of the machine's own may have let it start. Where it never ran, there is nothing to stop.
        for (program, arguments) in [("service", [service, "stop"]), ("update-rc.d", [service, "disable"])] {
            let _ = quiet(machine, program).args(arguments).stdout(Stdio::null()).stderr(Stdio::null()).status();
        }
    }
    Ok(())
}

/// Removes what an interrupted installation left in the way of the machine's services.
///
/// # Errors
/// If it can't be removed.
pub fn tidy(machine: &Machine) -> Result<()> {
    let path = machine.system(POLICY);
    if fs::read_to_string(&path).is_ok_and(|text| text == STARTS_NOTHING) {
        fs::remove_file(&path).with_context(|| format!("removing {}", path.display()))?;
    }
    Ok(())
}

/// Keeps services from starting until it is dropped, unless the machine has a policy of its own, which then decides.
struct Policy(Option<PathBuf>);

impl Policy {
    fn put(machine: &Machine) -> Result<Self> {
        tidy(machine)?;
        let path = machine.system(POLICY);
        if path.exists() {
            return Ok(Self(None));
        }
        let written = fs::write(&path, STARTS_NOTHING)
            .and_then(|()| fs::set_permissions(&path, fs::Permissions::from_mode(0o755)));
        let policy = Self(Some(path));
        written.with_context(|| format!("writing {POLICY}, so that no service is started"))?;
        Ok(policy)
    }
}

impl Drop for Policy {
    fn drop(&mut self) {
        if let Some(path) = &self.0 {
            let _ = fs::remove_file(path);
        }
    }
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

    /// A machine without packages, whose `apt-get install` records what the policy answers then.
    fn asks_the_policy(name: &str) -> Stub {
        let stub = Stub::new(name);
        stub.program("dpkg-query", "exit 1");
        stub.program(
            "apt-get",
            "policy=\"$STUB/system/usr/sbin/policy-rc.d\"\ncase \"$1\" in install) [ -x \"$policy\" ] && sh \"$policy\"; echo $? >> \"$STUB/calls/policy\";; esac",
        );
        stub.recorder("service");
        stub.recorder("update-rc.d");
        stub
    }

    #[test]
    fn no_service_starts_while_packages_are_installed_or_with_the_machine() {
        let stub = asks_the_policy("debian-services");
        install(&stub.machine(), &["php-cli"], "a test").unwrap();
        assert!(stub.calls("service").is_empty() && stub.calls("update-rc.d").is_empty());
        install(&stub.machine(), &["nginx-light"], "a test").unwrap();
        assert_eq!(stub.calls("policy"), ["101", "101"]);
        assert_eq!(
            (stub.calls("service"), stub.calls("update-rc.d")),
            (vec!["nginx stop".into()], vec!["nginx disable".into()])
        );
        assert!(!stub.path("system/usr/sbin/policy-rc.d").exists());
    }

    #[test]
    fn a_policy_of_the_machine_s_own_stays_and_one_that_was_left_goes() {
        let stub = asks_the_policy("debian-policy");
        stub.program_at("system/usr/sbin/policy-rc.d", "exit 104");
        install(&stub.machine(), &["nginx-light"], "a test").unwrap();
        tidy(&stub.machine()).unwrap();
        assert_eq!(stub.calls("policy"), ["104"]);
        assert!(stub.path("system/usr/sbin/policy-rc.d").exists());
        stub.file("system/usr/sbin/policy-rc.d", STARTS_NOTHING);
        tidy(&stub.machine()).unwrap();
        assert!(!stub.path("system/usr/sbin/policy-rc.d").exists());
    }

    #[test]
    fn a_failed_installation_leaves_no_policy() {
        let stub = asks_the_policy("debian-policy-fails");
        stub.program("apt-get", r#"[ "$1" = update ]"#);
        assert!(install(&stub.machine(), &["nginx-light"], "a test").is_err());
        assert!(!stub.path("system/usr/sbin/policy-rc.d").exists());
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
