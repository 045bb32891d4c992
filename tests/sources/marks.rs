//! Every figure of the trade that stands in the code says where it is from: the tables' test goes through tables, this one through what
//! weighs, bounds and assumes beside them.
//!
//! A figure is a number that could be one of the trade: a decimal other than nought, one or a step of counting, a number of two digits
//! or more that is no power of ten, and whatever is made into a quantity (`Amps::of(2.0)`). Its mark stands behind it on the line, in the comment
//! right above its line, or above whatever encloses it, up to the item; a file of one kind says of itself "Every figure here". A mark
//! is what [`Grade::said`] reads. What is marked is kept in `src/program/weights.json`, which `presurvey sources` prints.

use crate::code;
use presurvey::tables::about::Grade;
use presurvey::units;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

/// Where figures of the trade may stand.
const ROOMS: [&str; 9] = [
    "engine/site",
    "engine/calculation",
    "engine/design",
    "engine/price",
    "engine/assessment",
    "engine/flags",
    "figures",
    "rates",
    "model/questions",
];
/// Files of other rooms that hold some.
const FILES: [&str; 12] = [
    "engine/charge_point.rs",
    "engine/context.rs",
    "model/answers/raw_answer.rs",
    "model/answers/length.rs",
    "model/config/charge_point.rs",
    "model/config/check.rs",
    "model/config/public.rs",
    "model/config/setup.rs",
    "record/enquiry/supply_number.rs",
    "record/view_model.rs",
    "installer/sure.rs",
    "installer/views/estimate.rs",
];
/// What is kept.
const KEPT: &str = "src/program/weights.json";

/// Figures under one mark.
#[derive(Debug, PartialEq)]
struct Marked {
    /// The item that they stand in.
    item: String,
    figures: Vec<String>,
    grade: Grade,
    says: String,
}

/// What a file holds: figures under their marks, and those without, with their lines.
#[derive(Debug, Default, PartialEq)]
struct Found {
    marked: Vec<Marked>,
    unmarked: Vec<String>,
}

/// Reads a file's source; its tests, which stand at its foot, aside.
fn look(source: &str) -> Found {
    let source = source.split("\n#[cfg(test)]\nmod ").next().unwrap_or_default();
    let whole: Vec<&str> = source.lines().collect();
    let blanked = without_text(source);
    let mut found = Found::default();
    for (at, code) in blanked.lines().enumerate() {
        let figures = figures(code);
        if figures.is_empty() {
            continue;
        }
        match mark(&whole, at) {
            None => found.unmarked.push(format!("{}: {}", at + 1, whole[at].trim())),
            Some((grade, says)) => {
                let mut item = item(&whole, at);
                // What is said of it beside it, in words.
                if let Some(text) = whole[at].split('"').skip(1).step_by(2).find(|text| text.contains(' ')) {
                    item = format!("{item}: {text}");
                } else if item.is_empty() {
                    item = format!("bounds of {}", whole[at].trim().split(' ').next().unwrap_or_default());
                }
                let says = of_its_field(&whole, &item, says);
                match found.marked.last_mut().filter(|last| last.item == item && last.says == says) {
                    Some(last) => last.figures.extend(figures),
                    None => found.marked.push(Marked { item, figures, grade, says }),
                }
            }
        }
    }
    // A list of names whose mark says where it is from: places, areas.
    for (at, line) in whole.iter().enumerate() {
        if !(line.contains("const ") && line.contains(": [&str; ")) {
            continue;
        }
        let Some((grade, says)) = mark(&whole, at).filter(|(grade, _)| *grade != Grade::Own) else { continue };
        let list: String = whole[at..].iter().take_while(|line| !line.starts_with('}')).copied().collect();
        let list = list.split_once(" = ").map_or("", |(_, list)| list).split(';').next().unwrap_or_default();
        let figures = list.split('"').skip(1).step_by(2).map(str::to_owned).collect();
        found.marked.push(Marked { item: item(&whole, at), figures, grade, says });
    }
    found
}

/// The remark beside a field's figure, with what the field is where the remark says its grade alone.
fn of_its_field(whole: &[&str], item: &str, says: String) -> String {
    let bare = says.trim_end_matches('.').to_lowercase() == Grade::CommonPractice.word();
    let field = item.rsplit(", ").next().map(|field| format!("pub {field}: "));
    let at = field.and_then(|field| whole.iter().position(|line| line.trim().starts_with(&*field)));
    match at {
        Some(at) if bare => {
            let is = above(whole, at);
            if Grade::said(&is).is_some() { is } else { format!("{is} {says}") }
        }
        _ => says,
    }
}

/// The same text with comments and what stands in quotes blanked out.
fn without_text(source: &str) -> String {
    let mut rest = source;
    let mut out = String::with_capacity(source.len());
    while let Some(first) = rest.chars().next() {
        let taken = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("r#\"") {
            rest.find("\"#").map_or(rest.len(), |end| end + 2)
        } else if first == '"' {
            let mut escaped = false;
            let end = rest[1..].find(|c| {
                let ends = c == '"' && !escaped;
                escaped = c == '\\' && !escaped;
                ends
            });
            end.map_or(rest.len(), |end| end + 2)
        } else if first == '\'' {
            // A letter in quotes; a lifetime has no second quote so near.
            let near = rest.char_indices().skip(2).take(2).find(|(_, c)| *c == '\'');
            near.map_or(1, |(end, _)| end + 1)
        } else {
            out.push(first);
            rest = &rest[first.len_utf8()..];
            continue;
        };
        out.extend(rest[..taken].chars().map(|c| if c == '\n' { '\n' } else { ' ' }));
        rest = &rest[taken..];
    }
    out
}

/// The figures of a line of code.
fn figures(code: &str) -> Vec<String> {
    let letters: Vec<char> = code.chars().collect();
    let (mut found, mut at) = (Vec::new(), 0);
    while at < letters.len() {
        let before = at.checked_sub(1).map(|before| letters[before]);
        let in_a_name = before.is_some_and(|c| c.is_alphanumeric() || c == '_');
        let a_place = before == Some('.') && !(at > 1 && letters[at - 2] == '.');
        if !letters[at].is_ascii_digit() || in_a_name || a_place {
            at += 1;
            continue;
        }
        let start = at;
        while at < letters.len() {
            let (here, next) = (letters[at], letters.get(at + 1));
            let point = here == '.' && next.is_some_and(char::is_ascii_digit);
            if !(here.is_alphanumeric() || here == '_' || point || (here == '-' && letters[at - 1] == 'e')) {
                break;
            }
            at += 1;
        }
        let number: String = letters[start..at].iter().collect();
        let ahead: String = letters[..start].iter().collect();
        if is_figure(&ahead, &number, letters.get(at) == Some(&']')) {
            found.push(told(&ahead, &number));
        }
    }
    found
}

/// The units that figures are made into, by their types.
const UNITS: [(&str, &str); 17] = [
    ("Amps", units::Amps::SYMBOL),
    ("Volts", units::Volts::SYMBOL),
    ("Ohms", units::Ohms::SYMBOL),
    ("Metres", units::Metres::SYMBOL),
    ("SquareMillimetres", units::SquareMillimetres::SYMBOL),
    ("Kilowatts", units::Kilowatts::SYMBOL),
    ("KilowattHours", units::KilowattHours::SYMBOL),
    ("Miles", units::Miles::SYMBOL),
    ("Minutes", units::Minutes::SYMBOL),
    ("PencePerKilowattHour", units::PencePerKilowattHour::SYMBOL),
    ("MegabitsPerSecond", units::MegabitsPerSecond::SYMBOL),
    ("Celsius", units::Celsius::SYMBOL),
    ("Seconds", units::Seconds::SYMBOL),
    ("Hours", units::Hours::SYMBOL),
    ("Decibels", units::Decibels::SYMBOL),
    ("Level", "dBm"),
    ("DecibelsUnder", "dBm"),
];

/// A figure with its unit, where it is made into a quantity, and with what it is the share of, where it stands behind that.
fn told(ahead: &str, number: &str) -> String {
    let plain = number.replace('_', "");
    let plain = plain.split(['u', 'i', 'f']).next().unwrap_or_default();
    let (Ok(value), made) = (plain.parse::<f64>(), ahead.strip_suffix("of(").and_then(|made| made.strip_suffix("::")))
    else {
        return number.to_owned();
    };
    if let (true, Ok(pence)) = (ahead.ends_with("Pence("), plain.parse()) {
        return units::Pence(pence).to_string();
    }
    // Bounds of a type stand behind its name.
    let bounds = ahead
        .trim_start()
        .split_once(' ')
        .filter(|(_, rest)| rest.chars().all(|c| c == ' ' || c == '.' || c == '_' || c.is_ascii_digit()));
    let name = made.map(|made| made.rsplit(|c: char| !c.is_alphanumeric()).next().unwrap_or_default());
    let unit = name.or(bounds.map(|(name, _)| name)).and_then(|name| UNITS.iter().find(|(unit, _)| *unit == name));
    if let Some((name, unit)) = unit {
        let sign = if *name == "DecibelsUnder" { "−" } else { "" };
        return format!("{sign}{value} {unit}");
    }
    let before = made.map_or(ahead, |made| made.strip_suffix("Probability").unwrap_or(ahead));
    match share_of(before) {
        Some(what) => format!("{what}: {number}"),
        None => number.to_owned(),
    }
}

/// What stands first in the pair whose second is a figure: what the figure is the share of.
fn share_of(ahead: &str) -> Option<String> {
    let first = ahead.strip_suffix(", ")?;
    let mut depth = 0;
    let opens = first.rfind(|c| {
        depth += i32::from(c == ')') - i32::from(c == '(');
        depth < 0
    })?;
    let in_a_call = first[..opens].ends_with(|c: char| c.is_alphanumeric() || c == '_');
    let what = first[opens + 1..].trim();
    let plain = what.rsplit_once("::").map_or(what, |(_, last)| last).trim_end_matches(')');
    let plain = plain.replace("spread(", "").replace("heating(", "");
    (!in_a_call
        && plain.contains(|c: char| c.is_alphabetic())
        && !plain.contains(|c: char| c == ',' || c.is_ascii_digit()))
    .then(|| if plain.contains('(') { format!("{plain})") } else { plain })
}

fn is_figure(ahead: &str, number: &str, ends_a_list: bool) -> bool {
    let plain = number.replace('_', "");
    let plain = plain.split(['u', 'i', 'f']).next().unwrap_or_default();
    // A tolerance, a byte or a bit pattern is none.
    let Ok(value) = plain.parse::<f64>() else { return false };
    if plain.contains('e') || [0.0, 1.0].contains(&value) || ahead.ends_with("Count::of(") {
        return false;
    }
    if ahead.ends_with("of(") || ahead.ends_with("Pence(") {
        return true;
    }
    if plain.contains('.') {
        return ![2.0, 60.0, 100.0, 1_000.0].contains(&value);
    }
    !ends_a_list && value > 9.0 && ![10.0, 60.0, 100.0, 1_000.0].contains(&value)
}

fn indent(line: &str) -> usize {
    line.len() - line.trim_start().len()
}

pub fn is_comment(line: &str) -> bool {
    line.trim_start().starts_with("//")
}

pub fn words(comment: &str) -> &str {
    comment.trim_start().trim_start_matches(['/', '!']).trim()
}

/// The comment right above a line, what stands between in square brackets aside.
fn above(whole: &[&str], at: usize) -> String {
    let before = whole[..at].iter().rev().skip_while(|line| line.trim_start().starts_with("#["));
    let block = before.take_while(|line| is_comment(line) && !line.starts_with("//!"));
    let mut block: Vec<&str> = block.map(|line| words(line)).collect();
    block.reverse();
    block.join(" ")
}

/// The line that encloses another.
fn around(whole: &[&str], at: usize) -> Option<usize> {
    let own = indent(whole[at]);
    (0..at).rev().find(|&line| !whole[line].trim().is_empty() && !is_comment(whole[line]) && indent(whole[line]) < own)
}

/// What marks the figures of a line.
fn mark(whole: &[&str], at: usize) -> Option<(Grade, String)> {
    let read = |says: String| Grade::said(&says).map(|grade| (grade, says));
    if let Some((_, behind)) = whole[at].split_once("// ")
        && let Some(mark) = read(behind.to_owned())
    {
        return Some(mark);
    }
    let mut line = Some(at);
    while let Some(here) = line {
        if let Some(mark) = read(above(whole, here)) {
            return Some(mark);
        }
        line = around(whole, here);
    }
    let head: Vec<&str> = whole.iter().take_while(|line| line.starts_with("//!")).map(|line| words(line)).collect();
    head.into_iter()
        .find(|line| ["Every figure here", "Every default here"].iter().any(|every| line.starts_with(every)))
        .map(str::to_owned)
        .and_then(read)
}

/// The name of the constant or function that a line begins.
fn named(line: &str) -> Option<&str> {
    let mut parts = line.split(|c: char| !(c.is_alphanumeric() || c == '_')).filter(|part| !part.is_empty());
    let kind = parts.find(|part| ["const", "static", "fn"].contains(part))?;
    let name = parts.next()?;
    if kind == "const" && name == "fn" { parts.next() } else { Some(name) }
}

/// What a figure stands in, by name: the item, and the field if the line is one.
pub fn item(whole: &[&str], at: usize) -> String {
    let (mut line, mut name) = (Some(at), None);
    while let Some(here) = line {
        name = named(whole[here]).or(name);
        line = around(whole, here);
    }
    let field = whole[at].trim().split_once(": ").map(|(field, _)| field);
    let field = field.filter(|field| field.chars().all(|c| c.is_ascii_lowercase() || c == '_' || c.is_ascii_digit()));
    match (name, field) {
        (Some(name), Some(field)) => format!("{name}, {field}"),
        (Some(name), None) => name.to_owned(),
        (None, field) => field.unwrap_or_default().to_owned(),
    }
}

#[test]
fn every_figure_of_the_trade_in_the_code_carries_a_mark() {
    let repo = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."));
    let (mut rows, mut unmarked): (Vec<Value>, Vec<String>) = (Vec::new(), Vec::new());
    for path in code(&ROOMS, &FILES) {
        let name = path.strip_prefix(repo).unwrap().to_string_lossy().into_owned();
        let found = look(&fs::read_to_string(&path).unwrap());
        unmarked.extend(found.unmarked.into_iter().map(|line| format!("{name}:{line}")));
        rows.extend(found.marked.into_iter().map(|Marked { item, figures, grade, says }| {
            json!({ "file": name, "item": item, "figures": figures, "grade": grade.word(), "says": says })
        }));
    }
    assert!(
        unmarked.is_empty(),
        "say where these are from, beside or above them (\"common practice, no source\", \"from memory\", \"seen in …\"; \"arithmetic\" or \
         \"this program's choice\" where it is no fact of the trade):\n{}",
        unmarked.join("\n")
    );
    let lines: Vec<String> = rows.iter().map(Value::to_string).collect();
    let made = format!("[\n{}\n]\n", lines.join(",\n"));
    crate::support::is_kept(&repo.join(KEPT), &made);
}

#[test]
fn an_unmarked_figure_is_found() {
    let unmarked = |source: &str| look(source).unmarked.len();
    assert_eq!(unmarked("const SHARE: Probability = Probability::of(0.35);\n"), 1);
    assert_eq!(unmarked("/// Common practice, no source.\nconst SHARE: f64 = 0.35;\nconst NEXT: f64 = 0.4;\n"), 1);
    assert_eq!(unmarked("fn weigh() {\n    // From memory.\n    let one = 0.3;\n    let two = 0.7;\n}\n"), 1);
    assert_eq!(unmarked("fn days() -> u8 {\n    28\n}\n"), 1);
    assert_eq!(unmarked("const MOST: Amps = Amps::of(2.0); // the most\n"), 1);
    assert_eq!(unmarked("//! From memory: something else.\n\nconst A: f64 = 0.35;\n"), 1);
}

#[test]
fn a_marked_figure_is_listed_and_what_is_no_figure_is_not() {
    assert_eq!(figures("lean(1..=63_u8, x.0, Amps::of(16.0), 0.5)"), ["63_u8", "16 A", "0.5"]);
    assert_eq!(
        figures("lean(DecibelsUnder::of(67.0), Pence(2_000), &[(SPLIT, Probability::of(0.7)), (of(OVEN), 0.3)])"),
        ["−67 dBm", "£20", "SPLIT: 0.7", "of(OVEN): 0.3",]
    );
    assert_eq!(figures("    Amps 5.0 400.0;"), ["5 A", "400 A"]);
    let source = "/// How it shares out: common practice, no source.\npub const fn shares() -> [f64; 12] {\n    [\n        0.35, 1.0, // two\n    ]\n}\n";
    let found = look(source);
    assert_eq!(found.unmarked, Vec::<String>::new());
    let [Marked { item, figures, grade, .. }] = &found.marked[..] else { panic!("{found:?}") };
    assert_eq!((item.as_str(), figures.join(" ").as_str(), *grade), ("shares", "0.35", Grade::CommonPractice));
    let names =
        look("/// Areas of nowhere; from memory.\nconst NOWHERE: [&str; 2] = [\n    \"XA\",\n    \"XB\",\n];\n");
    assert_eq!(names.marked[0].figures, ["XA", "XB"]);
    for none in [
        "let text = \"0.35 in a text\";",
        "let text = r#\"{\"of\": \"a text\", \"walls\": 3}\"#;",
        "let near = off < 1e-9;",
        "let third = list[17] + pair.0.1;",
        "let count = Count::of(3);",
        "if carriers == 3 { 100 } else { 1_000 }",
        "// 0.35 in a comment",
        "let letter = 'a'; let life: &'static str = name;",
    ] {
        assert_eq!(look(none), Found::default(), "{none}");
    }
}
