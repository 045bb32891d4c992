//! A machine made up for a test: a temporary folder whose programs are small shell scripts.

use crate::machine::Machine;
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::PathBuf;
use std::process::Command;

/// A temporary machine, removed when dropped.
pub struct Stub {
    folder: PathBuf,
}

impl Stub {
    /// An empty machine; `name` keeps tests that run at the same time apart.
    pub fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("presurvey-stub-{}-{name}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        for part in ["bin", "repo", "system/usr/sbin", "calls"] {
            fs::create_dir_all(folder.join(part)).unwrap();
        }
        Self { folder }
    }

    /// The one folder on its `PATH`.
    pub fn bin(&self) -> PathBuf {
        self.folder.join("bin")
    }

    /// The absolute path of one inside the temporary folder.
    pub fn path(&self, path: &str) -> PathBuf {
        self.folder.join(path)
    }

    /// Writes a file, creating the folders above it.
    pub fn file(&self, path: &str, text: &str) {
        let file = self.path(path);
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(file, text).unwrap();
    }

    /// Puts a program, given as a shell script, on the `PATH`.
    pub fn program(&self, name: &str, script: &str) {
        self.program_at(&format!("bin/{name}"), script);
    }

    /// Puts such a program anywhere in the folder. In the script `$STUB` is the folder; the usual small tools are available.
    pub fn program_at(&self, path: &str, script: &str) {
        let folder = self.folder.display();
        let text = format!("#!/bin/sh\nSTUB='{folder}'\nPATH=/usr/bin:/bin\n{script}\n");
        self.file(&format!("{path}.text"), &text);
        // A process of its own writes the program: one that a thread of this process holds open can't be run ("text file busy"), and a
        // command that another test starts meanwhile would inherit the open file.
        let copied = Command::new("cp").arg(self.path(&format!("{path}.text"))).arg(self.path(path)).status();
        assert!(copied.unwrap().success());
        fs::set_permissions(self.path(path), fs::Permissions::from_mode(0o755)).unwrap();
    }

    /// Puts a program on the `PATH` that records its arguments and succeeds.
    pub fn recorder(&self, name: &str) {
        self.program(name, &format!("echo \"$*\" >> \"$STUB/calls/{name}\""));
    }

    /// The arguments of each call of a recording program.
    pub fn calls(&self, name: &str) -> Vec<String> {
        let text = fs::read_to_string(self.path("calls").join(name)).unwrap_or_default();
        text.lines().map(str::to_owned).collect()
    }

    /// The machine as the set-up sees it, not root.
    pub fn machine(&self) -> Machine {
        self.machine_with(&[])
    }

    /// The same machine with further environment variables.
    pub fn machine_with(&self, vars: &[(&str, &str)]) -> Machine {
        let bin = self.bin();
        let all = vars.iter().copied().chain([("PATH", bin.to_str().unwrap())]);
        Machine {
            repo: self.path("repo"),
            system: self.path("system"),
            root: false,
            vars: all.map(|(name, value)| (name.into(), value.into())).collect(),
        }
    }
}

impl Drop for Stub {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// The script of a `rustc` whose sysroot is the given folder of the stub.
pub fn rustc_with_sysroot(folder: &str) -> String {
    format!("case \"$1\" in --print) echo \"$STUB/{folder}\";; *) echo 'rustc 9.9.9 (stub)';; esac")
}

/// The path of the wasm library of that sysroot.
pub fn wasm_library(folder: &str) -> String {
    format!("{folder}/lib/rustlib/wasm32-unknown-unknown/lib")
}
