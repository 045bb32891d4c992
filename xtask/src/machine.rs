//! The machine that commands run on: its folders, its environment and the programs on its `PATH`.
//!
//! The set-up decides by nothing else, so that its tests can make up a machine in a temporary folder. No other module of this crate reads
//! the environment.

use anyhow::{Context, Result};
use std::collections::BTreeMap;
use std::ffi::{OsStr, OsString};
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What is known of the machine before anything is tried.
#[derive(Clone, Debug)]
pub struct Machine {
    /// The repository's root, where the workspace's `Cargo.toml` is.
    pub repo: PathBuf,
    /// The root of the file system that holds `usr` and `etc`: `/`, except in tests.
    pub system: PathBuf,
    /// Whether this process runs as root and may install system packages.
    pub root: bool,
    /// The environment that commands are given.
    pub vars: BTreeMap<OsString, OsString>,
}

impl Machine {
    /// The machine that this process runs on.
    ///
    /// # Errors
    /// If the folder above this crate's can't be told.
    pub fn here() -> Result<Self> {
        let repo = Path::new(env!("CARGO_MANIFEST_DIR")).parent().context("xtask has no folder above it")?;
        let mut vars: BTreeMap<OsString, OsString> = std::env::vars_os().collect();
        // Cargo's variables about this program would mislead the commands that it starts.
        vars.retain(|name, _| {
            let name = name.to_string_lossy();
            name != "CARGO" && name != "CARGO_MANIFEST_DIR" && !name.starts_with("CARGO_PKG_")
        });
        let root = std::fs::metadata("/proc/self").is_ok_and(|me| me.uid() == 0);
        Ok(Self { repo: repo.to_owned(), system: PathBuf::from("/"), root, vars })
    }

    /// A variable's value; `None` if it is not set, empty or not UTF-8.
    pub fn var(&self, name: &str) -> Option<&str> {
        let value = self.vars.get(OsStr::new(name))?.to_str()?;
        (!value.is_empty()).then_some(value)
    }

    /// The path of a program on `PATH`; `None` if it is not there.
    pub fn find(&self, program: &str) -> Option<PathBuf> {
        let path = self.vars.get(OsStr::new("PATH"))?;
        std::env::split_paths(path).map(|folder| folder.join(program)).find(|file| is_program(file))
    }

    /// A command with this machine's environment and nothing on its standard input.
    pub fn command(&self, program: impl AsRef<OsStr>) -> Command {
        let program = program.as_ref();
        let found = program.to_str().and_then(|name| self.find(name));
        let mut command = Command::new(found.as_deref().map_or(program, Path::as_os_str));
        command.env_clear().envs(&self.vars).stdin(Stdio::null()).current_dir(&self.repo);
        command
    }

    /// What a command prints, trimmed; `None` if it can't be run or fails.
    pub fn ask(&self, program: impl AsRef<OsStr>, arguments: &[&str]) -> Option<String> {
        let output = self.command(program).args(arguments).stderr(Stdio::null()).output().ok()?;
        output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
    }

    /// The target folder of native builds; that of wasm builds is inside it.
    pub fn target(&self) -> PathBuf {
        self.repo.join(self.var("CARGO_TARGET_DIR").unwrap_or("target"))
    }

    /// The target folder of wasm builds.
    pub fn wasm_target(&self) -> PathBuf {
        self.target().join("wasm")
    }

    /// The folder of built pages, one folder a page.
    pub fn dist(&self) -> PathBuf {
        self.repo.join("dist")
    }

    /// A path of the system, such as `usr/bin/rustc`.
    pub fn system(&self, path: &str) -> PathBuf {
        self.system.join(path)
    }

    /// Whether system packages can be installed here with Debian's own client.
    pub fn is_debian_root(&self) -> bool {
        self.root && self.system("etc/debian_version").exists() && self.find("apt-get").is_some()
    }
}

fn is_program(file: &Path) -> bool {
    std::fs::metadata(file).is_ok_and(|facts| facts.is_file() && facts.permissions().mode() & 0o111 != 0)
}

#[cfg(test)]
mod tests {
    use crate::setup::stub::Stub;

    #[test]
    fn the_first_program_on_the_path_is_found() {
        let stub = Stub::new("machine-find");
        stub.program("thing", "echo found");
        assert_eq!(stub.machine().find("thing"), Some(stub.bin().join("thing")));
        assert_eq!(stub.machine().ask("thing", &[]), Some("found".to_owned()));
    }

    #[test]
    fn a_missing_program_and_a_failing_one_answer_nothing() {
        let stub = Stub::new("machine-ask");
        stub.program("sulks", "echo half; exit 3");
        assert_eq!(stub.machine().ask("sulks", &[]), None);
        assert_eq!(stub.machine().ask("absent-program", &[]), None);
    }

    #[test]
    fn an_empty_variable_counts_as_not_set() {
        let stub = Stub::new("machine-var");
        let machine = stub.machine_with(&[("CARGO_TARGET_DIR", ""), ("OTHER", "x")]);
        assert_eq!(machine.target(), machine.repo.join("target"));
        assert_eq!(machine.var("OTHER"), Some("x"));
    }
}
