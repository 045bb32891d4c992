//! Puts a guard into the glue of each program that reports its own failures: around every function through which the program is called.
//!
//! A panic ends in a trap. With a standard library that aborts at once no panic hook runs before it, so the failure is noticed where the
//! trap leaves the program.

use anyhow::{Context, Result, bail};
use std::fs;
use std::path::Path;

/// The program's function that reports a failure; the guard calls it by this name.
const SAYS: &str = "say_how_to_go_on";
/// The line of the glue that takes the program's functions.
const TAKEN: &str = "wasm = instance.exports;";
/// The line that replaces it, with the guard that it calls.
const GUARDED: &str = "wasm = guarded(instance.exports);";
const GUARD: &str = include_str!("guard.js");

/// Puts the guard into the glue of each program of a built folder that exports this function.
///
/// # Errors
/// If a file can't be read or written, or the glue is not what this version of wasm-bindgen writes.
pub fn put_guard(folder: &Path) -> Result<()> {
    for entry in fs::read_dir(folder).with_context(|| format!("reading {}", folder.display()))? {
        let path = entry?.path();
        if path.extension().is_none_or(|ending| ending != "js") {
            continue;
        }
        let glue = fs::read_to_string(&path).with_context(|| format!("reading {}", path.display()))?;
        if !glue.contains(&["export function ", SAYS].concat()) {
            continue;
        }
        if glue.matches(TAKEN).count() != 1 {
            bail!(
                "{} does not hold `{TAKEN}` once, so that its faults would not be said: this version of wasm-bindgen makes other \
                 glue; say in xtask/src/faults.rs where it takes the program's functions",
                path.display()
            );
        }
        fs::write(&path, glue.replace(TAKEN, GUARDED) + GUARD)
            .with_context(|| format!("writing {}", path.display()))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn glue_of_a_program_that_says_its_faults_is_guarded_and_other_scripts_are_left() {
        let stub = Stub::new("faults-put");
        let says = "export function say_how_to_go_on() { wasm.say_how_to_go_on(); }\n";
        stub.file("form/form.js", &[says, "wasm = instance.exports;\n"].concat());
        stub.file("form/engine.js", "wasm = instance.exports;\n");
        put_guard(&stub.path("form")).unwrap();
        let read = |name| fs::read_to_string(stub.path(name)).unwrap();
        let guarded = read("form/form.js");
        assert!(guarded.starts_with(&[says, "wasm = guarded(instance.exports);\n"].concat()), "{guarded}");
        assert!(guarded.contains("function guarded(exports)") && guarded.contains(&["exports.", SAYS, "()"].concat()));
        assert_eq!(read("form/engine.js"), "wasm = instance.exports;\n");
    }

    #[test]
    fn other_glue_than_is_known_is_an_error() {
        let stub = Stub::new("faults-other");
        stub.file("form/form.js", "export function say_how_to_go_on() {}\nprogram = instance.exports;\n");
        let error = put_guard(&stub.path("form")).unwrap_err().to_string();
        assert!(error.contains("form.js") && error.contains("wasm-bindgen"), "{error}");
    }
}
