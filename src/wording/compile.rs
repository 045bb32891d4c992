//! Build script: reads the Fluent files and writes their sorted tables and key constants.
//!
//! Takes messages of plain text with variables. A selector, a term or an attribute is refused by name: nothing renders them yet.

use fluent_syntax::ast::{Entry, Expression, InlineExpression, PatternElement};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() {
    let folder = Path::new("www/wording/en");
    println!("cargo:rerun-if-changed={}", folder.display());
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap_or_else(|error| panic!("{}: {error}; the wording files belong there", folder.display()))
        .map(|entry| entry.expect("a folder that opened can be read").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "ftl"))
        .collect();
    files.sort();
    let mut out = String::new();
    for file in files {
        println!("cargo:rerun-if-changed={}", file.display());
        let name = file.file_stem().and_then(|stem| stem.to_str()).expect("a wording file has a plain name");
        write_table(&mut out, &name.replace('-', "_"), &messages(&file));
    }
    let target = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets OUT_DIR")).join("wording.rs");
    fs::write(&target, out).unwrap_or_else(|error| panic!("{}: {error}", target.display()));
}

/// All messages of one file by key.
fn messages(file: &Path) -> BTreeMap<String, String> {
    let source = fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let resource = fluent_syntax::parser::parse(source.as_str()).unwrap_or_else(|(_, errors)| {
        let (error, line) = (&errors[0], source[..errors[0].pos.start].lines().count());
        panic!("{}, line {line}: {error}", file.display())
    });
    let mut messages = BTreeMap::new();
    for entry in resource.body {
        let refuse = |what: &str, name: &str| {
            panic!("{}: `{name}`: {what} is not rendered yet; plain text with variables is", file.display())
        };
        match entry {
            Entry::Message(message) => {
                let name = message.id.name;
                if !message.attributes.is_empty() {
                    refuse("an attribute", name);
                }
                let Some(pattern) = message.value else { refuse("a message without text", name) };
                let mut text = String::new();
                for element in pattern.elements {
                    match element {
                        PatternElement::TextElement { value } => text.push_str(value),
                        PatternElement::Placeable {
                            expression: Expression::Inline(InlineExpression::VariableReference { id }),
                        } => write!(text, "{{{}}}", id.name).expect("a String takes all"),
                        PatternElement::Placeable {
                            expression: Expression::Inline(InlineExpression::StringLiteral { value }),
                        } => text.push_str(value),
                        PatternElement::Placeable { .. } => refuse("a selector or function", name),
                    }
                }
                assert!(messages.insert(name.to_owned(), text).is_none(), "{}: `{name}` stands twice", file.display());
            }
            Entry::Term(term) => refuse("a term", term.id.name),
            Entry::Junk { content } => refuse("this", content),
            Entry::Comment(_) | Entry::GroupComment(_) | Entry::ResourceComment(_) => {}
        }
    }
    messages
}

fn write_table(out: &mut String, file: &str, messages: &BTreeMap<String, String>) {
    let mut line = |text: String| writeln!(out, "{text}").expect("a String takes all");
    line(format!("/// Keys and tables of `{file}`."));
    line(format!("pub mod {file} {{"));
    line("    use super::{Key, Table};".to_owned());
    line("    /// English.".to_owned());
    let text: String = messages.iter().flat_map(|(key, message)| [key.as_str(), message.as_str()]).collect();
    line(format!("    pub static EN: Table = Table::new({text:?}, &["));
    for (key, message) in messages {
        let length =
            |what: &str| u16::try_from(what.len()).unwrap_or_else(|_| panic!("`{key}`: longer than 65535 bytes"));
        line(format!("        [{}, {}],", length(key), length(message)));
    }
    line("    ]);".to_owned());
    for key in messages.keys() {
        let name = key.replace('-', "_").to_uppercase();
        line(format!("    /// `{key}`\n    pub const {name}: Key = Key({key:?});"));
    }
    line("}".to_owned());
}
