//! What a source says of itself is what is told of it: no grade is guessed.

use presurvey::design::figures;
use presurvey::flags::FLAGS;
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
