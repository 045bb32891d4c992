//! Accepting a change: the files that are made from the code, and that tests hold to it, are written anew.

use crate::machine::Machine;
use crate::run::{run, say};
use anyhow::Result;

/// The tests that hold a file to the code, in the order in which one file's change reaches the next.
const HOLDS: [&[&str]; 3] = [
    &["--package", "presurvey-engine", "--lib", "the_list_is_up_to_date"],
    &["--package", "presurvey", "--lib", "the_page_of_flags_is_up_to_date"],
    &["--package", "presurvey", "--test", "homes", "--test", "sources", "--test", "earlier"],
];

/// Writes them.
///
/// # Errors
/// If a test fails for another reason than the file that it holds.
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
