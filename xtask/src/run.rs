//! Runs commands so that a person sees their progress and a failure says what to do.

use anyhow::{Context, Result, bail};
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};

/// Prints a line of progress.
pub fn say(text: &str) {
    println!("xtask: {text}");
    // Progress that can't be shown is no reason to stop.
    let _ = std::io::stdout().flush();
}

/// Runs a command whose output goes straight to the terminal.
///
/// # Errors
/// If it can't be started or fails; the message is `what`, which should say what to do about it.
pub fn run(command: &mut Command, what: &str) -> Result<()> {
    let shown = command.get_program().to_string_lossy().into_owned();
    let status = command.status().with_context(|| format!("`{shown}` could not be started. {what}"))?;
    if !status.success() {
        bail!("`{shown}` ended with {status}. {what}");
    }
    Ok(())
}

/// Runs a command, prints each line of its standard output as it comes, and passes it to `each`. Returns whether the command succeeded.
///
/// # Errors
/// If it can't be started or its output can't be read.
pub fn watch(command: &mut Command, mut each: impl FnMut(&str)) -> Result<bool> {
    let shown = command.get_program().to_string_lossy().into_owned();
    let mut child =
        command.stdout(Stdio::piped()).spawn().with_context(|| format!("`{shown}` could not be started"))?;
    let output = child.stdout.take().expect("its standard output was piped two lines above");
    for line in BufReader::new(output).split(b'\n') {
        let line = line.with_context(|| format!("reading what `{shown}` prints"))?;
        let line = String::from_utf8_lossy(&line);
        println!("{line}");
        each(&line);
    }
    Ok(child.wait().with_context(|| format!("waiting for `{shown}`"))?.success())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failure_carries_the_advice() {
        let error = run(&mut Command::new("false"), "Do this instead.").unwrap_err().to_string();
        assert!(error.contains("`false`") && error.contains("Do this instead."), "{error}");
    }

    #[test]
    fn lines_are_watched_and_the_end_is_told() {
        let mut seen = Vec::new();
        let well = watch(Command::new("sh").args(["-c", "echo one; echo two; exit 4"]), |line| {
            seen.push(line.to_owned());
        });
        assert!(!well.unwrap());
        assert_eq!(seen, ["one", "two"]);
    }
}
