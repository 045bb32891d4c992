//! The walls inside the engine, which the compiler does not see: its rooms are a line, and no room takes from one above it.
//!
//! What crosses a crate's wall without being allowed does not compile; this reads the code for what would cross a room's.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use syn::visit::{self, Visit};

/// The engine's rooms, lowest first. What stands in one step takes nothing from its neighbours in that step.
const LINE: [&[&str]; 8] = [
    &["calculation"],
    &["charge_point"],
    &["context"],
    &["site"],
    &["design"],
    &["flags", "price"],
    &["assessment"],
    // The top names the rooms and takes the function and its result from the last.
    &["lib"],
];

fn step(room: &str) -> Option<usize> {
    LINE.iter().position(|rooms| rooms.contains(&room))
}

/// Whether one room may take from another.
fn may_take(room: &str, from: &str) -> bool {
    room == from || step(from).zip(step(room)).is_some_and(|(from, room)| from < room)
}

/// The engine's rooms that a file takes from: wherever a path leads there, in its tests not.
struct Taken {
    /// The modules that the file is in, from the crate's top on.
    modules: Vec<String>,
    rooms: BTreeSet<String>,
}

impl Taken {
    /// Takes down where a path leads that begins with these words.
    fn path(&mut self, words: &[String]) {
        let ups = words.iter().take_while(|word| *word == "super").count();
        let whole: Vec<&str> = match words.first().map(String::as_str) {
            Some("crate") => words[1..].iter().map(String::as_str).collect(),
            Some("super") => {
                let kept = self.modules.len().saturating_sub(ups);
                self.modules[..kept].iter().chain(&words[ups..]).map(String::as_str).collect()
            }
            _ => return,
        };
        if let Some(room) = whole.first().filter(|room| step(room).is_some()) {
            self.rooms.insert((*room).to_owned());
        }
    }

    fn tree(&mut self, before: &[String], tree: &syn::UseTree) {
        let with = |ident: &syn::Ident| [before, &[ident.to_string()]].concat();
        match tree {
            syn::UseTree::Path(path) => self.tree(&with(&path.ident), &path.tree),
            syn::UseTree::Name(name) => self.path(&with(&name.ident)),
            syn::UseTree::Rename(name) => self.path(&with(&name.ident)),
            syn::UseTree::Glob(_) => self.path(before),
            syn::UseTree::Group(group) => group.items.iter().for_each(|tree| self.tree(before, tree)),
        }
    }
}

fn is_test(attributes: &[syn::Attribute]) -> bool {
    attributes
        .iter()
        .any(|one| one.path().is_ident("cfg") && one.parse_args::<syn::Ident>().is_ok_and(|of| of == "test"))
}

impl<'a> Visit<'a> for Taken {
    fn visit_item_mod(&mut self, module: &'a syn::ItemMod) {
        if !is_test(&module.attrs) {
            self.modules.push(module.ident.to_string());
            visit::visit_item_mod(self, module);
            self.modules.pop();
        }
    }

    fn visit_item_fn(&mut self, function: &'a syn::ItemFn) {
        if !is_test(&function.attrs) {
            visit::visit_item_fn(self, function);
        }
    }

    fn visit_item_use(&mut self, item: &'a syn::ItemUse) {
        if !is_test(&item.attrs) {
            self.tree(&[], &item.tree);
        }
    }

    fn visit_path(&mut self, path: &'a syn::Path) {
        let words: Vec<String> = path.segments.iter().map(|segment| segment.ident.to_string()).collect();
        self.path(&words);
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, call: &'a syn::Macro) {
        // A macro's tokens are no syntax yet: whatever reads as a path among them is one.
        let tokens = call.tokens.to_string().replace(" :: ", "::");
        for path in tokens.split(|sign: char| !sign.is_alphanumeric() && sign != '_' && sign != ':') {
            self.path(&path.split("::").map(str::to_owned).collect::<Vec<_>>());
        }
        visit::visit_macro(self, call);
    }
}

/// The rooms that code takes from, being in these modules.
fn taken(code: &str, modules: &[&str]) -> BTreeSet<String> {
    let file = syn::parse_file(code).expect("the code compiles");
    let mut taken = Taken { modules: modules.iter().map(|&one| one.to_owned()).collect(), rooms: BTreeSet::new() };
    taken.visit_file(&file);
    taken.rooms
}

/// Every Rust file under a folder.
fn code_under(folder: &Path) -> Vec<PathBuf> {
    let (mut folders, mut files) = (vec![folder.to_owned()], Vec::new());
    while let Some(folder) = folders.pop() {
        for path in fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|kind| kind == "rs") {
                files.push(path);
            }
        }
    }
    files.sort();
    files
}

#[test]
fn no_room_of_the_engine_takes_from_one_above_it() {
    let engine = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../engine"));
    let (mut wrong, mut seen) = (Vec::new(), BTreeSet::new());
    for file in code_under(engine) {
        let inside = file.strip_prefix(engine).unwrap().with_extension("");
        let mut modules: Vec<&str> = inside.iter().map(|part| part.to_str().unwrap()).collect();
        let room = modules[0].to_owned();
        if modules.last() == Some(&"mod") {
            modules.pop();
        }
        assert!(step(&room).is_some(), "src/engine/{room} has no place in the line");
        let rooms = taken(&fs::read_to_string(&file).unwrap(), &modules);
        wrong.extend(rooms.iter().filter(|from| !may_take(&room, from)).map(|from| {
            format!("src/engine/{}.rs takes from `{from}`, which stands above `{room}`", inside.display())
        }));
        seen.insert(room);
    }
    assert_eq!(seen.len(), LINE.iter().map(|rooms| rooms.len()).sum::<usize>(), "the line names what is not there");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_a_file_takes_is_found_however_it_is_written_and_tests_may_take_anything() {
    let of = |code: &str| taken(code, &["site", "route"]).into_iter().collect::<Vec<_>>();
    assert_eq!(of("use crate::design::{cable, board::Surge};"), ["design"]);
    assert_eq!(of("use crate::{price::Total, flags as rules};"), ["flags", "price"]);
    assert_eq!(of("use super::super::assessment::*;"), ["assessment"]);
    assert_eq!(of("fn f() -> u8 { crate::price::curve::of(1) }"), ["price"]);
    assert_eq!(of("fn f() { assert!(crate::flags::FLAGS.len() > 1) }"), ["flags"]);
    assert_eq!(of("mod inner { fn f() { super::super::super::design::f() } }"), ["design"]);
    assert_eq!(of("use super::fact::Fact; use model::units::Amps; fn f() { loads::f() }"), ["site"]);
    assert!(of("#[cfg(test)] mod tests { use crate::assessment::assess; }").is_empty());
    assert!(!may_take("flags", "price") && !may_take("price", "flags") && !may_take("site", "design"));
    assert!(may_take("assessment", "flags") && may_take("design", "site") && !may_take("design", "assessment"));
}
