//! What the code cites beside tables, figures and flags: the lines that are stated to the installer, and the rules that go by a clause.
//!
//! Kept in `src/program/cited.json`, which `presurvey sources` prints.

use crate::code;
use crate::marks::{is_comment, item, words};
use presurvey::tables::about::{Grade, clauses_in, seen_of};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

/// Where lines are stated.
const ROOMS: [&str; 6] =
    ["engine/site", "engine/calculation", "engine/design", "engine/price", "engine/assessment", "model/questions"];
/// Files of other rooms that name some.
const FILES: [&str; 4] =
    ["engine/charge_point.rs", "engine/context.rs", "figures/working.rs", "figures/feed_working.rs"];
/// What is kept.
const KEPT: &str = "src/program/cited.json";
/// What a line is made by: its first text names it, its last is its source.
const MADE_BY: [&str; 3] = ["say(", "after(", "before("];

/// A source that the code names.
#[derive(Debug, PartialEq)]
struct Cited {
    /// The line's name; empty for a rule.
    line: String,
    /// What it may say, by the names of the wording.
    values: Vec<String>,
    /// The item of the code that it stands in.
    item: String,
    says: String,
}

/// A text in quotes: where it begins and ends, quotes and all.
type Quoted = (usize, usize);

/// The texts in quotes of a source, comments aside, and the source with both blanked out, byte for byte.
fn texts(source: &str) -> (Vec<Quoted>, String) {
    let bytes = source.as_bytes();
    let (mut found, mut blank, mut at) = (Vec::new(), bytes.to_vec(), 0);
    while at < bytes.len() {
        let rest = &bytes[at..];
        let length = if rest.starts_with(b"//") {
            rest.iter().position(|byte| *byte == b'\n').unwrap_or(rest.len())
        } else if rest[0] == b'"' {
            let mut end = 1;
            while end < rest.len() && rest[end] != b'"' {
                end += if rest[end] == b'\\' { 2 } else { 1 };
            }
            found.push((at, at + end + 1));
            end + 1
        } else if rest.starts_with(b"'\"'") {
            3
        } else {
            at += 1;
            continue;
        };
        for byte in &mut blank[at..(at + length).min(bytes.len())] {
            *byte = if *byte == b'\n' { b'\n' } else { b' ' };
        }
        at += length;
    }
    (found, String::from_utf8(blank).unwrap())
}

fn is_source(text: &str) -> bool {
    text.contains(' ') && (Grade::said(text).is_some() || !clauses_in(text).is_empty() || text.starts_with("IEC "))
}

/// Where the parenthesis that opens before a place closes.
fn closes(blank: &str, from: usize) -> usize {
    let mut open = 1;
    let end = blank[from..].bytes().position(|byte| {
        open += i32::from(byte == b'(') - i32::from(byte == b')');
        open == 0
    });
    end.map_or(blank.len(), |end| from + end)
}

/// What a file cites; its tests, which stand at its foot, aside.
fn look(source: &str) -> Vec<Cited> {
    let source = source.split("\n#[cfg(test)]\nmod ").next().unwrap_or_default();
    let lines: Vec<&str> = source.lines().collect();
    let line_of = |at: usize| source[..at].matches('\n').count();
    let (texts, blank) = texts(source);
    let inner = |&(from, to): &Quoted| source[from + 1..to - 1].to_owned();
    let mut found = Vec::new();
    let mut taken: Vec<Quoted> = Vec::new();
    // Constants that are sources, by name.
    let constants: Vec<(&str, &Quoted)> = texts
        .iter()
        .filter(|text| is_source(&inner(text)))
        .filter_map(|text| {
            let ahead = blank[..text.0].rfind("const ").map(|at| &blank[at + 6..text.0])?;
            let (name, rest) = ahead.split_once(": &str =")?;
            rest.trim().is_empty().then_some((name, text))
        })
        .collect();
    for made_by in MADE_BY {
        for (at, _) in blank.match_indices(made_by) {
            if blank[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_') || blank[..at].ends_with("fn ") {
                continue;
            }
            let (from, to) = (at + made_by.len(), closes(&blank, at + made_by.len()));
            let within: Vec<&Quoted> = texts.iter().filter(|text| from <= text.0 && text.1 <= to).collect();
            let [name, values @ ..] = &within[..] else { continue };
            let named = constants.iter().find(|(name, _)| {
                blank[from..to].split(|c: char| !(c.is_alphanumeric() || c == '_')).any(|word| word == *name)
            });
            let (values, says) = match (values.split_last(), named) {
                (Some((last, values)), _) if is_source(&inner(last)) => (values, **last),
                (_, Some((_, text))) => (values, **text),
                _ => continue,
            };
            taken.push(says);
            found.push((
                at,
                Cited {
                    line: inner(name),
                    values: values.iter().map(|text| inner(text)).collect(),
                    item: item(&lines, line_of(at)),
                    says: inner(&says),
                },
            ));
        }
    }
    for text in texts.iter().filter(|text| is_source(&inner(text)) && !taken.contains(text)) {
        let item = item(&lines, line_of(text.0));
        found.push((text.0, Cited { line: String::new(), values: Vec::new(), item, says: inner(text) }));
    }
    // A rule's comment names the clause that it goes by.
    let mut at = 0;
    while at < lines.len() {
        let block = lines[at..].iter().take_while(|line| is_comment(line) && !line.trim().starts_with("//!")).count();
        let said = lines[at..at + block].iter().map(|line| words(line)).collect::<Vec<_>>().join(" ");
        if !clauses_in(&said).is_empty() {
            let start = lines[..at].iter().map(|line| line.len() + 1).sum();
            let attributes = lines[at + block..].iter().take_while(|line| line.trim().starts_with("#[")).count();
            let item = item(&lines, (at + block + attributes).min(lines.len() - 1));
            found.push((start, Cited { line: String::new(), values: Vec::new(), item, says: said }));
        }
        at += block.max(1);
    }
    found.sort_by_key(|(at, _)| *at);
    found.into_iter().map(|(_, cited)| cited).collect()
}

#[test]
fn every_source_that_the_code_names_says_what_was_seen() {
    let repo = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."));
    let (mut rows, mut silent): (Vec<Value>, Vec<String>) = (Vec::new(), Vec::new());
    // The figures have a register of their own.
    for path in code(&ROOMS, &FILES) {
        let name = path.strip_prefix(repo).unwrap().to_string_lossy().into_owned();
        for Cited { line, values, item, says } in look(&fs::read_to_string(&path).unwrap()) {
            let unseen = |clause: &String| !seen_of(clause).iter().any(|(grade, _)| grade.is_checked());
            for clause in clauses_in(&says) {
                if seen_of(&clause).is_empty() {
                    silent.push(format!("{name}, {item}: nobody wrote down of which edition {clause} was seen"));
                } else if unseen(&clause) && !says.contains("from memory") {
                    silent.push(format!("{name}, {item}: {clause} is from memory: {says}"));
                }
            }
            if !line.is_empty() && Grade::said(&says).is_none() {
                silent.push(format!("{name}, {item}, {line}: {says}"));
            }
            rows.push(json!({ "file": name, "item": item, "line": line, "values": values, "says": says }));
        }
    }
    assert!(silent.is_empty(), "say what was seen of these: {silent:#?}");
    let lines: Vec<String> = rows.iter().map(Value::to_string).collect();
    let made = format!("[\n{}\n]\n", lines.join(",\n"));
    crate::support::is_kept(&repo.join(KEPT), &made);
}

#[test]
fn a_line_is_found_with_what_it_may_say_and_its_source() {
    let source = "const WHO: &str = \"BS 7671 511, from memory\";\nfn stated() {\n    say(\"one\", if it { \"a\" } else { \"b\" }, WHO);\n    \
                  say(\"two\", value, \"common practice, no source\");\n}\n\n/// Looks (BS 7671 527.2, from memory).\nfn look() {}\n";
    let found = look(source);
    let told: Vec<_> = found.iter().map(|one| (&*one.line, one.values.join(" "), &*one.item, &*one.says)).collect();
    assert_eq!(
        told,
        [
            ("one", "a b".to_owned(), "stated", "BS 7671 511, from memory"),
            ("two", String::new(), "stated", "common practice, no source"),
            ("", String::new(), "look", "Looks (BS 7671 527.2, from memory)."),
        ]
    );
}
