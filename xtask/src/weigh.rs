//! The parts of a program: how many bytes its functions take, by the crate or module they come from.
//!
//! Reads the program as wasm-bindgen leaves it, while functions still have names. wasm-opt then makes it smaller by a quarter or so, so
//! that only shares are comparable. A function that was inlined counts where it was inlined.

use anyhow::{Context, Result};
use std::collections::BTreeMap;
use std::path::Path;
use wasmparser::{KnownCustom, Name, Parser, Payload};

/// Bytes by part, heaviest first.
pub type Parts = Vec<(String, u64)>;

/// Our own crates that a program in a browser may hold, and whether they are split by module.
const HOUSE: [(&str, bool); 7] = [
    ("model", true),
    ("engine", true),
    ("record", true),
    ("form", true),
    ("figures", false),
    ("wording", false),
    ("installer", false),
];

/// The modules that are split further by module.
const HOUSES: [&str; 1] = ["widget"];

/// Measures the parts of a program.
///
/// # Errors
/// If the file can't be read, is not WebAssembly, or has no function names.
pub fn weigh(program: &Path) -> Result<Parts> {
    let bytes = std::fs::read(program).with_context(|| format!("reading {}", program.display()))?;
    parts(&bytes).with_context(|| format!("looking into {}", program.display()))
}

fn parts(wasm: &[u8]) -> Result<Parts> {
    let (mut imported, mut data) = (0, 0);
    let mut bodies: Vec<u64> = Vec::new();
    let mut named: BTreeMap<u32, String> = BTreeMap::new();
    for payload in Parser::new(0).parse_all(wasm) {
        match payload? {
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    imported += u32::from(matches!(import?.ty, wasmparser::TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => bodies.push(body.range().len() as u64),
            Payload::DataSection(section) => data = section.range().len() as u64,
            Payload::CustomSection(custom) => {
                if let KnownCustom::Name(names) = custom.as_known() {
                    for name in names {
                        if let Name::Function(functions) = name? {
                            for function in functions {
                                let function = function?;
                                named.insert(function.index, format!("{:#}", rustc_demangle::demangle(function.name)));
                            }
                        }
                    }
                }
            }
            _ => {}
        }
    }
    anyhow::ensure!(!named.is_empty(), "its functions have no names");
    let mut weights = BTreeMap::from([("texts and tables".to_owned(), data)]);
    for (bytes, index) in bodies.iter().zip(imported..) {
        *weights.entry(named.get(&index).map_or("without a name".to_owned(), |name| part(name))).or_default() += bytes;
    }
    let mut parts: Parts = weights.into_iter().collect();
    parts.sort_by_key(|(_, bytes)| std::cmp::Reverse(*bytes));
    Ok(parts)
}

/// The part that a function belongs to: a module of ours if its name holds one, or else the crate that its name begins with.
fn part(function: &str) -> String {
    if let Some((house, path)) = of_ours(function) {
        let mut rooms = path.split("::").map(word);
        let room = rooms.next().unwrap_or_default();
        return match rooms.next() {
            Some(inner) if HOUSES.contains(&room) && !inner.is_empty() => format!("{house}/{room}/{inner}"),
            _ if room.is_empty() => house.to_owned(),
            _ => format!("{house}/{room}"),
        };
    }
    let begins = function.trim_start_matches(['<', '&', '*', '(', '[', '_', ' ']);
    let begins = ["mut ", "dyn ", "const "].iter().fold(begins, |name, sign| name.trim_start_matches(sign));
    match word(begins) {
        "yew" | "gloo" | "gloo_events" | "gloo_timers" | "gloo_utils" | "implicit_clone" | "indexmap" | "tokise" => {
            "views (yew, gloo)"
        }
        "wasm_bindgen" | "wasm_bindgen_futures" | "js_sys" | "web_sys" | "wbindgen" => "bindings to the browser",
        "serde" | "serde_core" | "serde_json" | "zmij" | "serde_path_to_error" => "JSON (serde)",
        "core" | "alloc" | "std" | "dlmalloc" | "hashbrown" | "rustc" | "rust" | "compiler_builtins" | "memcpy"
        | "memmove" | "memset" | "memcmp" => "standard library",
        "jiff" | "jiff_core" => "calendar (jiff)",
        "libm" => "mathematics (libm)",
        _ => "others",
    }
    .to_owned()
}

/// The first path into one of our crates in a function's name: the crate, and the rest of the path if the crate is split by module.
fn of_ours(function: &str) -> Option<(&'static str, &str)> {
    let found = function.match_indices("::").find_map(|(end, _)| {
        let begin =
            function[..end].rfind(|letter: char| !letter.is_alphanumeric() && letter != '_').map_or(0, |at| at + 1);
        // Another crate may have a module of the same name.
        let is_room = function[..begin].ends_with("::");
        let house = HOUSE.iter().find(|(name, _)| !is_room && *name == &function[begin..end])?;
        Some((house, &function[end + 2..]))
    });
    found.map(|((name, apart), rest)| (*name, if *apart { rest } else { "" }))
}

/// The identifier at the beginning of a text.
fn word(text: &str) -> &str {
    text.split(|letter: char| !letter.is_alphanumeric() && letter != '_').next().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_function_belongs_to_the_room_that_is_named_in_it() {
        for (function, wanted) in [
            ("engine::assessment::pipeline::assess", "engine/assessment"),
            ("<form::widget::app::App as yew::functional::FunctionProvider>::run", "form/widget/app"),
            ("<core::option::Option<T> as model::config::fields::Slot<A>>::take", "model/config"),
            ("wording::fill::filled", "wording"),
            ("yew::html::form::draw", "views (yew, gloo)"),
            ("yew::scheduler::start_now", "views (yew, gloo)"),
            ("<&mut dyn core::fmt::Write as core::fmt::Write>::write_str", "standard library"),
            ("__rustc::__rust_alloc", "standard library"),
            ("<serde_json::error::Error as core::fmt::Display>::fmt", "JSON (serde)"),
            ("main", "others"),
        ] {
            assert_eq!(part(function), wanted, "{function}");
        }
    }

    #[test]
    fn what_is_no_program_or_has_no_names_is_an_error() {
        assert!(parts(b"no program").is_err());
        let error = parts(b"\0asm\x01\0\0\0").unwrap_err();
        assert!(error.to_string().contains("no names"), "{error}");
    }

    #[test]
    fn functions_are_weighed_by_their_names() {
        // One imported function, then two of the module's own with four and two bytes including their local counts; three bytes of data.
        let module: Vec<u8> = [
            &b"\0asm\x01\0\0\0"[..],
            &[1, 4, 1, 0x60, 0, 0],
            &[2, 7, 1, 1, b'a', 1, b'b', 0, 0],
            &[3, 3, 2, 0, 0],
            &[10, 9, 2, 4, 0, 0x01, 0x01, 0x0b, 2, 0, 0x0b],
            &[0, 33, 4, b'n', b'a', b'm', b'e', 1, 26, 2],
            &[1, 14],
            b"engine::flags:",
            &[2, 7],
            b"yew::aa",
        ]
        .concat();
        let parts = parts(&module).unwrap();
        assert_eq!(parts[0], ("engine/flags".to_owned(), 4));
        assert_eq!(parts[1], ("views (yew, gloo)".to_owned(), 2));
    }
}
