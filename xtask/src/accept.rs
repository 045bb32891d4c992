//! `cargo xtask accept`: rewrites the kept files that are made from the code and that tests compare with it.

use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::Result;

/// The tests that compare a kept file with the code, grouped so that a file which others are made from is written before them.
const HOLDS: [&[&str]; 3] = [
    &["--package", "presurvey-engine", "--lib", "the_list_is_up_to_date"],
    &["--package", "presurvey", "--test", "trade", "the_page_of_flags_is_up_to_date"],
    &["--package", "presurvey", "--test", "homes", "--test", "sources", "--test", "earlier"],
];

/// Runs those tests so that each writes its file instead of comparing it.
///
/// # Errors
/// If a test fails for any other reason.
pub fn accept(machine: &Machine) -> Result<()> {
    for test in HOLDS {
        run(
            machine.command("cargo").env("PRESURVEY_ACCEPT", "1").args(["test", "--quiet"]).args(test),
            "Mend what the failures above name; what is only out of date has been written.",
        )?;
    }
    say("written; read the difference (`git diff`) before it is committed");
    Ok(())
}
