//! `presurvey sources --sign`: pages for a qualified person, clause by clause, with a box to tick by every value and a line to sign.

use super::sources::{Rests, clauses};
use alphanumeric_sort::compare_str;
use anyhow::Result;
use model::tables::about::{BS_7671, amendment};
use std::cmp::Ordering;
use std::fmt::Write as _;

/// The sheet for a qualified person, as plain text: each clause of BS 7671 with what depends on it, a box to tick beside every value, and a
/// place to sign.
///
/// # Errors
/// As [`super::listed::all`].
pub fn page() -> Result<String> {
    let in_force = BS_7671.unchecked.unwrap_or(BS_7671.edition);
    let mut text = format!(
        "To be checked against {} {in_force} by a qualified person\n\nProgram: presurvey {}. Each clause: of which edition a copy of it was seen, or as of which it is remembered; then what rests on it.\nNothing was read in the standard itself. What is marked \"from memory: first\" was not seen at all: look at it first.\nTick what is still so; strike out what is not and write beside it what it says now.\n",
        BS_7671.title,
        env!("CARGO_PKG_VERSION")
    );
    let mut all: Vec<_> = clauses()?.into_iter().collect();
    all.sort_by(|(one, _), (two, _)| order(one, two));
    for (clause, mut rests) in all {
        let _ = writeln!(text, "\n{clause} ({})", amendment(&clause)); // a String takes all
        // Values that are from memory alone come first.
        rests.sort_by_key(|rests| rests.grade.is_checked());
        for one in &rests {
            text.push_str(&entry(one));
        }
    }
    text.push_str(
        "\nChecked in the print of (edition, amendment, corrigendum): ______________________________\n\
         Name and qualification: ______________________________\n\
         Date: ______________   Signed: ______________________________",
    );
    Ok(text)
}

/// One item that depends on a clause, with a box beside every value.
fn entry(rests: &Rests) -> String {
    let Rests { name, says, rows, grade, edition } = rests;
    let seen = if grade.is_checked() { format!("seen: {edition}") } else { format!("{}: first", grade.word()) };
    if rows.is_empty() {
        return format!("  [ ] {name} [{seen}]: {says}\n");
    }
    let mut text = format!("  {name} [{seen}]\n");
    for row in rows {
        let _ = writeln!(text, "    [ ] {row}"); // a String takes all
    }
    text
}

/// Compares two clause numbers: regulations come before tables and appendices, and numbers sort by value: 54.8 before 54.10, 4B3 before
/// 4C1.
fn order(one: &str, two: &str) -> Ordering {
    let own = |clause: &str| clause.trim_start_matches(BS_7671.title).trim().replace("Tables ", "Table ");
    let (one, two) = (own(one), own(two));
    let is_other = |own: &str| !own.starts_with(|c: char| c.is_ascii_digit());
    is_other(&one).cmp(&is_other(&two)).then_with(|| compare_str(&one, &two))
}
