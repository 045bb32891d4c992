//! Measures the built pages in a real browser. The figures are kept in `tests/results` with the machine they were measured on; they are
//! compared as ratios, never asserted. Also prepares Node for the tests in a browser.

use crate::machine::Machine;
use crate::pages;
use crate::run::{run, say};
use crate::setup::{self, Need, Tools};
use crate::suite::native_program;
use anyhow::Result;
use std::process::Command;

/// Builds everything as it is shipped, measures it, and writes the results.
///
/// # Errors
/// If something does not build, or the form does not work.
pub fn measure(machine: &Machine) -> Result<()> {
    let tools = setup::ensure(machine, Need::Tests)?;
    pages::build(machine, &tools)?;
    native_program(machine)?;
    say("measuring (usually six minutes; the figures are worth reading only if nothing else runs)");
    run(node(machine, &tools).arg("tests/pages/measure/main.mjs"), "The messages above say why.")
}

/// A Node command that is told where the program, the pages and the browsers are.
pub fn node(machine: &Machine, tools: &Tools) -> Command {
    let mut node = machine.command("node");
    node.env("PRESURVEY_BIN", machine.target().join("debug/presurvey"))
        .env("PRESURVEY_PAGES", machine.dist())
        .env("PATH", tools.path(machine));
    if let Some(browsers) = &tools.browsers {
        node.envs(browsers.variables());
    }
    node
}
