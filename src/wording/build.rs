//! Build script: reads the Fluent files and writes their sorted tables and key constants.
//!
//! The keys are those of the English files; every other folder of `www/wording` is a language, whose messages are written in the order of
//! the English keys. A message may hold text, variables, and a choice by a variable (a number's plural category, a number or a word). A
//! term, an attribute, a function, or a choice within a choice is an error that names it, because nothing can render them.

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement, Variant, VariantKey};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

type Messages = BTreeMap<String, String>;

fn main() {
    let folder = Path::new("../../www/wording");
    println!("cargo:rerun-if-changed={}", folder.display());
    let languages: Vec<PathBuf> =
        entries(folder).into_iter().filter(|path| path.is_dir() && !path.ends_with("en")).collect();
    let mut out = String::new();
    for file in entries(&folder.join("en")) {
        if file.extension().is_none_or(|ending| ending != "ftl") {
            continue;
        }
        let name = plain_name(&file);
        if JOINS.iter().any(|(part, _)| *part == name) {
            continue;
        }
        let english = messages(&folder.join("en"), &name);
        let there = |language: &&PathBuf| language.join(&name).with_extension("ftl").exists();
        let others: Vec<(String, Messages)> =
            languages.iter().filter(there).map(|language| (plain_name(language), messages(language, &name))).collect();
        for (language, other) in &others {
            if let Some(key) = other.keys().find(|key| !english.contains_key(*key)) {
                panic!("{language}, {}: there is no `{key}` in English", file.display());
            }
        }
        for (table, english) in tables(&name, english) {
            // Other languages have only the files that a homeowner sees.
            let others: Vec<_> = if table == "flags_installer" { Vec::new() } else { others.clone() };
            write_table(&mut out, &table, &english, &others);
        }
    }
    let target = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets OUT_DIR")).join("wording.rs");
    fs::write(&target, out).unwrap_or_else(|error| panic!("{}: {error}", target.display()));
}

/// The tables made from one file. Flags make two, so that the installer's words are not sent to a homeowner.
fn tables(file: &str, messages: Messages) -> Vec<(String, Messages)> {
    if file != "flags" {
        return vec![(file.replace('-', "_"), messages)];
    }
    let is_installers = |key: &str| ["-name", "-why", "-do"].iter().any(|part| key.ends_with(part));
    let (installer, homeowner) = messages.into_iter().partition(|(key, _)| is_installers(key));
    vec![("flags_homeowner".to_owned(), homeowner), ("flags_installer".to_owned(), installer)]
}

/// The paths in a folder, sorted by name. Cargo runs this build script again when the folder changes.
fn entries(folder: &Path) -> Vec<PathBuf> {
    let read = fs::read_dir(folder)
        .unwrap_or_else(|error| panic!("{}: {error}; the wording files belong there", folder.display()));
    let mut paths: Vec<PathBuf> = read.map(|entry| entry.expect("a folder that opened can be read").path()).collect();
    paths.sort();
    paths
}

fn plain_name(path: &Path) -> String {
    path.file_stem().and_then(|stem| stem.to_str()).expect("a wording file has a plain name").to_owned()
}

/// Files that are part of another's table: the form's program holds what the result page and a mail say as well.
const JOINS: [(&str, &str); 2] = [("mail", "form"), ("result", "form")];

/// All messages of a language's file by key, and of those that join it.
fn messages(language: &Path, name: &str) -> Messages {
    let mut all = messages_of(&language.join(name).with_extension("ftl"));
    for (part, _) in JOINS.iter().filter(|(_, whole)| *whole == name) {
        let more = messages_of(&language.join(part).with_extension("ftl"));
        if let Some(key) = more.keys().find(|key| all.contains_key(*key)) {
            panic!("{part}.ftl: `{key}` stands in {name}.ftl as well");
        }
        all.extend(more);
    }
    all
}

/// All messages of one file by key.
fn messages_of(file: &Path) -> Messages {
    println!("cargo:rerun-if-changed={}", file.display());
    let source = fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let resource = fluent_syntax::parser::parse(source.as_str()).unwrap_or_else(|(_, errors)| {
        let (error, line) = (&errors[0], source[..errors[0].pos.start].lines().count());
        panic!("{}, line {line}: {error}", file.display())
    });
    let mut messages = BTreeMap::new();
    for entry in resource.body {
        let refuse = |what: &str, name: &str| panic!("{}: `{name}`: {what} is not rendered", file.display());
        match entry {
            Entry::Message(message) => {
                let name = message.id.name;
                if !message.attributes.is_empty() {
                    refuse("an attribute", name);
                }
                let Some(pattern) = message.value else { refuse("a message without text", name) };
                let text = compact(&pattern, true).unwrap_or_else(|what| refuse(what, name));
                assert!(messages.insert(name.to_owned(), text).is_none(), "{}: `{name}` stands twice", file.display());
            }
            Entry::Term(term) => refuse("a term", term.id.name),
            Entry::Junk { content } => refuse("this", content),
            Entry::Comment(_) | Entry::GroupComment(_) | Entry::ResourceComment(_) => {}
        }
    }
    messages
}

/// A pattern in the form that it is rendered from: a variable is `{name}`; `src/wording/fill.rs` says how a choice is written.
fn compact(pattern: &Pattern<&str>, chooses: bool) -> Result<String, &'static str> {
    let mut text = String::new();
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value }
            | PatternElement::Placeable { expression: Expression::Inline(InlineExpression::StringLiteral { value }) } =>
            {
                // Languages are files with a message on each line, and control characters mark choices, so a text may hold none.
                if value.chars().any(char::is_control) {
                    return Err("a line break");
                }
                text.push_str(value);
            }
            PatternElement::Placeable {
                expression: Expression::Inline(InlineExpression::VariableReference { id }),
            } => write!(text, "{{{}}}", id.name).expect("writing to a String cannot fail"),
            PatternElement::Placeable {
                expression: Expression::Select { selector: InlineExpression::VariableReference { id }, variants },
            } if chooses => choice(&mut text, id.name, variants)?,
            PatternElement::Placeable { .. } => return Err("a function, or a choice within a choice,"),
        }
    }
    Ok(text)
}

/// Writes a choice; its default variant comes last.
fn choice(text: &mut String, name: &str, variants: &[Variant<&str>]) -> Result<(), &'static str> {
    text.extend(["\u{1}", name]);
    let mut ordered: Vec<&Variant<&str>> = variants.iter().collect();
    ordered.sort_by_key(|variant| variant.default);
    for variant in ordered {
        let (VariantKey::Identifier { name } | VariantKey::NumberLiteral { value: name }) = variant.key;
        text.extend(["\u{2}", name, "\u{3}", &compact(&variant.value, false)?]);
    }
    text.push('\u{4}');
    Ok(())
}

fn write_table(out: &mut String, file: &str, messages: &Messages, others: &[(String, Messages)]) {
    let mut line = |text: String| writeln!(out, "{text}").expect("writing to a String cannot fail");
    line(format!("/// Keys and tables of `{file}`."));
    line(format!("pub mod {file} {{"));
    line("    use super::{Key, Others, Table};".to_owned());
    line("    /// English.".to_owned());
    let text: String = messages.iter().flat_map(|(key, message)| [key.as_str(), message.as_str()]).collect();
    line(format!("    pub static EN: Table = Table::new({text:?}, &["));
    for (key, message) in messages {
        let length =
            |what: &str| u16::try_from(what.len()).unwrap_or_else(|_| panic!("`{key}`: longer than 65535 bytes"));
        line(format!("        [{}, {}],", length(key), length(message)));
    }
    line("    ]);".to_owned());
    line(
        "    /// Other languages: their messages in the order of the English keys, empty where one is missing."
            .to_owned(),
    );
    line("    pub const OTHERS: Others = &[".to_owned());
    for (language, other) in others {
        let lines: Vec<&str> = messages.keys().map(|key| other.get(key).map_or("", String::as_str)).collect();
        line(format!("        ({language:?}, &{lines:?}),"));
    }
    line("    ];".to_owned());
    for key in messages.keys() {
        let name = key.replace('-', "_").to_uppercase();
        line(format!("    /// `{key}`\n    pub const {name}: Key = Key({key:?});"));
    }
    line("}".to_owned());
}
