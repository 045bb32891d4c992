//! Places that are written down here are nobody's: postcodes of areas that were never given out, or that no place has.

use std::fs;
use std::path::{Path, PathBuf};

/// Letters that no second half of a postcode has (from memory).
const NEVER_INWARD: [char; 6] = ['C', 'I', 'K', 'M', 'O', 'V'];

/// Whether a postcode is nobody's: an area of X, Y or Z that does not exist, or a district nought with letters that none has.
fn is_nobodys(outward: &str, inward: &str) -> bool {
    let area: String = outward.chars().take_while(char::is_ascii_uppercase).collect();
    let district = &outward[area.len()..];
    let unused = area.starts_with(['X', 'Y', 'Z']) && area != "YO" && area != "ZE";
    unused || (district == "0" && inward.chars().any(|letter| NEVER_INWARD.contains(&letter)))
}

/// The whole postcodes of a text.
fn postcodes(text: &str) -> Vec<(String, String)> {
    let words: Vec<&str> = text.split(|c: char| !c.is_ascii_alphanumeric() && c != ' ').collect();
    let mut found = Vec::new();
    for words in words {
        let words: Vec<&str> = words.split(' ').collect();
        for pair in words.windows(2) {
            let letters = pair[0].bytes().take_while(u8::is_ascii_uppercase).count();
            let rest = &pair[0].as_bytes()[letters..];
            let outward = (1..=2).contains(&letters)
                && matches!(rest, [digit] | [digit, _] if digit.is_ascii_digit())
                && rest.get(1).is_none_or(|last| last.is_ascii_digit() || last.is_ascii_uppercase());
            let inward = matches!(pair[1].as_bytes(), [digit, a, b]
                if digit.is_ascii_digit() && a.is_ascii_uppercase() && b.is_ascii_uppercase());
            if outward && inward {
                found.push((pair[0].to_owned(), pair[1].to_owned()));
            }
        }
    }
    found
}

#[test]
fn no_postcode_is_anybodys() {
    assert!(
        !is_nobodys("BT1", "1AA") && !is_nobodys("YO1", "1AA") && is_nobodys("ZZ1", "1AA") && is_nobodys("BT0", "0OO")
    );
    let repo = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."));
    let mut folders: Vec<PathBuf> = ["src", "tests", "www"].map(|name| repo.join(name)).into();
    let (mut seen, mut real) = (0, Vec::new());
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            // What an earlier version wrote stays as it was.
            let kept = ["earlier", "node_modules", "results"].iter().any(|name| path.ends_with(name));
            if path.is_dir() && !kept {
                folders.push(path);
            } else if let Some(text) = path.is_file().then(|| fs::read_to_string(&path).ok()).flatten() {
                for (outward, inward) in postcodes(&text) {
                    seen += 1;
                    if !is_nobodys(&outward, &inward) && !path.ends_with("places.rs") {
                        real.push(format!("{}: {outward} {inward}", path.display()));
                    }
                }
            }
        }
    }
    assert!(seen > 50 && real.is_empty(), "{seen} seen; somebody's: {real:#?}");
}
