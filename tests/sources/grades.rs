//! What a source says of itself is what is told of it: no grade is guessed.

use presurvey::figures;
use presurvey::flags::FLAGS;
use presurvey::tables::ALL;
use presurvey::tables::about::{Grade, clauses_in, seen_of};

/// Every source that a figure or a flag names.
fn named() -> Vec<(String, String)> {
    let figures = figures::each().map(|figure| (format!("figure {}", figure.name), figure.whole_source()));
    figures.chain(FLAGS.iter().map(|flag| (format!("flag {}", flag.code), flag.source.to_string()))).collect()
}

#[test]
fn every_source_says_what_was_seen_of_it() {
    let silent: Vec<_> = named().into_iter().filter(|(_, source)| Grade::said(source).is_none()).collect();
    assert!(silent.is_empty(), "say what was seen of these: {silent:#?}");
}

#[test]
fn what_rests_on_a_clause_that_was_not_seen_says_so() {
    let mut unsaid = Vec::new();
    for (name, source) in named() {
        for clause in clauses_in(&source) {
            let seen = seen_of(&clause);
            assert!(!seen.is_empty(), "{name}: nobody wrote down of which edition {clause} was seen");
            if !seen.iter().any(|(grade, _)| grade.is_checked()) && !source.contains("from memory") {
                unsaid.push(format!("{name}: {clause} in {source}"));
            }
        }
    }
    assert!(unsaid.is_empty(), "say \"from memory\": {unsaid:#?}");
}

/// What is a habit names no source; what is from memory was not quoted by anybody, nor read.
#[test]
fn a_grade_agrees_with_what_stands_beside_it() {
    for table in ALL.iter().flat_map(|file| file.iter()) {
        let (source, edition) = (table.source, table.publication.edition);
        match table.grade {
            Grade::CommonPractice => assert!(source.starts_with("no source"), "{}: {source}", table.gives),
            Grade::FromMemory => {
                assert!(
                    !["quotes", "quoted", "seen"].iter().any(|said| edition.contains(said)),
                    "{}: {edition}",
                    table.gives
                );
                assert!(source.starts_with("not seen") || source.contains(", not seen"), "{}: {source}", table.gives);
            }
            _ => assert!(!source.contains("not seen"), "{}: {source}", table.gives),
        }
    }
}

/// A citation says which edition of its publication was read, or that nobody kept it.
#[test]
fn every_citation_tells_its_edition() {
    let root = std::path::Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../..")).join("src");
    let (mut folders, mut bare) = (vec![root], Vec::new());
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            if path.extension().is_none_or(|kind| kind != "rs") {
                continue;
            }
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            for (number, line) in text.lines().enumerate() {
                for (title, edition) in [
                    ("Basic Electrical Installation Work", "edition not kept"),
                    ("\"Energy Networks Association, application form", "version"),
                    ("\"Department for Transport guidance", "title not kept"),
                    ("IET Code of Practice", "4th edition, as quoted"),
                ] {
                    if line.contains(title) && !line.contains(edition) {
                        bare.push(format!("{}:{}: {edition}", path.display(), number + 1));
                    }
                }
            }
        }
    }
    assert!(bare.is_empty(), "{bare:#?}");
}
