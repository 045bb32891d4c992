//! Build script: lists the files of `migrations/sqlite`, so that a new one needs no line elsewhere.

use std::path::PathBuf;
use std::{env, fs};

fn main() {
    let folder = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").expect("cargo sets it")).join("migrations/sqlite");
    println!("cargo:rerun-if-changed={}", folder.display());
    let read = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let mut files: Vec<PathBuf> = read.map(|entry| entry.expect("a folder that opened can be read").path()).collect();
    files.sort();
    let mut list = String::from("const MIGRATIONS: &[(i64, &str, &str)] = &[\n");
    let mut last = 0;
    for file in &files {
        println!("cargo:rerun-if-changed={}", file.display());
        let name = file.file_stem().and_then(|stem| stem.to_str()).and_then(|stem| stem.split_once('_'));
        let (written, name) =
            name.unwrap_or_else(|| panic!("{}: a migration is named NUMBER_NAME.sql", file.display()));
        let number: i64 = written.parse().unwrap_or_else(|_| panic!("{}: its number is none", file.display()));
        assert!(number > last, "{}: there is another of this number", file.display());
        last = number;
        list += &format!("    ({number}, {name:?}, include_str!({file:?})),\n");
    }
    list += "];\n";
    let target = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets it")).join("migrations.rs");
    fs::write(&target, list).unwrap_or_else(|error| panic!("{}: {error}", target.display()));
}
