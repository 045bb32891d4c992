//! The demo: pages and program built, then the service with invented data, until it is interrupted.

use crate::machine::Machine;
use crate::pages;
use crate::run::say;
use crate::setup::{self, Need};
use anyhow::{Context, Result, bail};
use std::os::unix::process::CommandExt;

/// Builds everything and replaces this process by the service. Returns only if that fails.
///
/// # Errors
/// If something does not build or the service does not start.
pub fn run_demo(machine: &Machine) -> Result<()> {
    let tools = setup::ensure(machine, Need::Pages)?;
    pages::fetch(machine)?;
    say("building the pages and, beside them, the native program (usually five to eight minutes the first time)");
    // The last step of building a page uses one processor; the native program is built on the other meanwhile.
    let mut native = machine
        .command("cargo")
        .args(["build", "--quiet", "--release", "--bin", "presurvey"])
        .spawn()
        .context("`cargo` could not be started")?;
    let pages = pages::build(machine, &tools);
    if pages.is_err() {
        let _ = native.kill(); // it may have ended already
    }
    let native = native.wait().context("waiting for `cargo`")?;
    pages?;
    if !native.success() {
        bail!("`cargo` ended with {native}. The native program did not build.");
    }
    let data = machine.target().join("demo");
    std::fs::create_dir_all(&data).with_context(|| format!("making {}", data.display()))?;
    say(&format!("starting the service; its data lies in {} (stop it with Ctrl-C)", data.display()));
    let listen = machine.var("PRESURVEY_LISTEN").unwrap_or("127.0.0.1:0");
    let error = machine
        .command(machine.target().join("release/presurvey"))
        .args(["serve", "--demo", "--listen", listen, "--data"])
        .arg(&data)
        .arg("--pages")
        .arg(machine.dist())
        .exec();
    bail!("the service could not be started: {error}")
}
