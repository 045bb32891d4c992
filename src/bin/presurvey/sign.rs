//! `presurvey sources --sign`: one page for a qualified person, clause by clause, with a box to tick and a line to sign.

use super::sources::clauses;
use presurvey::tables::ALL;
use presurvey::tables::about::{BS_7671, amendment};
use std::fmt::Write as _;

/// How much of what rests on a clause is named; the rest is counted, so that the page stays one.
const NAMED: usize = 3;

/// The page, as text.
pub fn page() -> String {
    let in_force = BS_7671.unchecked.unwrap_or(BS_7671.edition);
    let mut text = format!(
        "To be checked against {} {in_force} by a qualified person\n\nProgram: presurvey {}. Each line: the clause, in which amendment it was seen or is remembered, and what rests on it.\nTick what is still so; strike out what is not and write beside it what it says now.\n\n",
        BS_7671.title,
        env!("CARGO_PKG_VERSION")
    );
    let mut all: Vec<_> = clauses().into_iter().collect();
    all.sort_by_key(|(clause, _)| order(clause));
    for (clause, rests) in all {
        let mut named: Vec<String> = rests.iter().map(|what| with_grade(&clause, what)).collect();
        // What is from memory alone is named before the rest.
        named.sort_by_key(|what| !what.ends_with(']'));
        named.truncate(NAMED);
        let more = rests.len().saturating_sub(NAMED);
        let more = if more > 0 { format!("; and {more} more") } else { String::new() };
        // A String takes all.
        let _ = writeln!(text, "[ ] {clause} ({}): {}{more}", amendment(&clause), named.join("; "));
    }
    text.push_str(
        "\nChecked in the print of (edition, amendment, corrigendum): ______________________________\n\
         Name and qualification: ______________________________\n\
         Date: ______________   Signed: ______________________________",
    );
    text
}

/// A figure from memory alone is to be looked at first.
fn with_grade(clause: &str, what: &str) -> String {
    let mut tables = ALL.iter().flat_map(|file| file.iter());
    match tables.find(|table| table.gives == what && table.reference() == clause) {
        Some(table) if !table.grade.is_checked() => format!("{what} [{}: first]", table.grade.word()),
        _ => what.to_owned(),
    }
}

/// Regulations before the rest, and numbers by what they count: 54.8 stands before 54.10, 4B3 before 4C1.
fn order(clause: &str) -> (bool, String) {
    let own = clause.trim_start_matches(BS_7671.title).trim().replace("Tables ", "Table ");
    let mut padded = String::new();
    let mut digits = String::new();
    for sign in own.chars().chain([' ']) {
        if sign.is_ascii_digit() {
            digits.push(sign);
        } else {
            if !digits.is_empty() {
                let _ = write!(padded, "{digits:0>4}"); // a String takes all
                digits.clear();
            }
            padded.push(sign);
        }
    }
    (!own.starts_with(|c: char| c.is_ascii_digit()), padded)
}
