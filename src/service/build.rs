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
    for (number, file) in (1_i64..).zip(&files) {
        println!("cargo:rerun-if-changed={}", file.display());
        let name = file.file_stem().and_then(|stem| stem.to_str()).and_then(|stem| stem.split_once('_'));
        let (written, name) =
            name.unwrap_or_else(|| panic!("{}: a migration is named NUMBER_NAME.sql", file.display()));
        assert_eq!(written.parse(), Ok(number), "{}: the numbers follow one another from 1", file.display());
        list += &format!("    ({number}, {name:?}, include_str!({file:?})),\n");
    }
    list += "];\n";
    let target = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets it")).join("migrations.rs");
    fs::write(&target, list).unwrap_or_else(|error| panic!("{}: {error}", target.display()));
}
