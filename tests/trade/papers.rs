//! Papers: what is cited, and by which edition.

use std::fs;
use std::path::Path;

/// The Code of Practice for charging equipment is in its 5th edition, of 2023; what was seen of an older one says so.
#[test]
fn the_code_of_practice_is_cited_by_its_edition() {
    let mut left = vec![Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../..")).join("src")];
    let mut cited = 0;
    while let Some(path) = left.pop() {
        if path.is_dir() {
            left.extend(fs::read_dir(path).unwrap().map(|entry| entry.unwrap().path()));
        } else if path.extension().is_some_and(|kind| kind == "rs") {
            for line in fs::read_to_string(&path).unwrap().lines().filter(|line| line.contains("Code of Practice")) {
                assert!(line.contains("5th edition, 2023"), "{}: {line}", path.display());
                cited += 1;
            }
        }
    }
    assert!(cited > 2, "{cited}");
}
