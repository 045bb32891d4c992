//! What a form says before a contract can bind whoever gives it (Consumer Rights Act 2015, section 50, from memory): so nothing is
//! promised that is not the installer's to promise or that nobody can tell from here, and nothing is said as measured that was
//! worked out.

use crate::support::any_home;
use crate::support::plausible::plausible_home;
use presurvey::answers::Answers;
use presurvey::assess;
use presurvey::assessment::Complexity;
use presurvey::config::demo_config;
use presurvey::record::Awaited;
use presurvey::record::ViewModel;
use presurvey::wording::{Words, form};
use std::path::Path;

/// The files of a language that a homeowner meets, as (file, key, text): a message of several lines is one text.
fn messages(language: &str) -> Vec<(String, String, String)> {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../..")).join("www/wording").join(language);
    let mut all: Vec<(String, String, String)> = Vec::new();
    for name in ["form", "mail", "result", "engine", "flags", "start", "plain", "share", "sketches", "plans"] {
        let text = std::fs::read_to_string(folder.join(name).with_extension("ftl")).unwrap();
        for line in text.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty()) {
            match line.split_once(" = ").filter(|_| !line.starts_with([' ', '}'])) {
                Some((key, _)) if is_installers(key) => {}
                Some((key, said)) => all.push((name.into(), key.into(), said.to_lowercase())),
                None => {
                    let (_, _, said) = all.last_mut().expect("a message begins with its key");
                    said.push('\n');
                    said.push_str(&line.to_lowercase());
                }
            }
        }
    }
    assert!(all.len() > 500, "{language}: {}", all.len());
    all
}

/// Whether a flag's words are for the installer alone.
fn is_installers(key: &str) -> bool {
    key.starts_with("flag-") && ["-name", "-why", "-do"].iter().any(|part| key.ends_with(part))
}

/// Whether a text has these words, not as a part of longer ones.
fn has(text: &str, words: &str) -> bool {
    text.match_indices(words).any(|(at, found)| {
        let apart = |c: Option<char>| c.is_none_or(|c| !c.is_alphabetic());
        apart(text[..at].chars().next_back()) && apart(text[at + found.len()..].chars().next())
    })
}

/// Words that promise, with what makes them none where it stands in the same text.
type Promise = (&'static str, &'static [&'static str]);

/// By language.
const PROMISES: [(&str, &[Promise]); 2] = [
    (
        "en",
        &[
            ("safe", &[]),
            ("safely", &[]),
            ("guarantee", &[]),
            ("guaranteed", &[]),
            ("promise", &[]),
            ("for free", &[]),
            ("free of charge", &["usually", "as a rule"]),
            ("no charge", &["no charge point"]),
            ("free, day and night", &["105"]),
            ("a date", &["as a rule", "before a date is agreed"]),
            ("one day", &["kept for", "more than one day", "{ $days ->"]),
            ("a day", &["as a rule", "longer than a day", "miles a day", "mile a day", "not for a day"]),
            ("a day’s work", &["as a rule"]),
            ("same day", &["commonly"]),
            ("you will get", &[]),
            ("will get an answer", &[]),
            ("up to { $most }", &["may", "decides"]),
            ("is known to work", &[]),
            ("can work with such rates", &["supplier decides"]),
            ("no wait", &[]),
            ("nothing to wait for", &[]),
            ("before they quote", &[]),
            ("nobody gets", &[]),
            ("uses a lot of power", &["while the home"]),
            ("use a lot of power", &["could"]),
            ("uses as much power", &[]),
            ("is usually added", &["if not, one"]),
            ("box outside belongs to others", &[]),
            ("have a seal", &[]),
        ],
    ),
    (
        "pl",
        &[
            ("bezpieczne", &["nie jest bezpieczne"]),
            ("bezpiecznie", &[]),
            ("gwarantuje", &[]),
            ("gwarancja", &[]),
            ("za darmo", &[]),
            ("bezpłatnie", &["zwykle", "105"]),
            ("dostać odpowiedź", &[]),
            ("nikogo nie porazi", &[]),
            ("zwykle się ją dodaje", &[]),
            ("sami obejrzą", &[]),
            ("sprawdzono, że ten działa", &[]),
            ("należy do innych", &[]),
            ("mają plombę", &[]),
        ],
    ),
];

#[test]
fn no_sentence_a_homeowner_meets_promises_what_is_not_the_installers_to_promise() {
    let mut found = Vec::new();
    for (language, promises) in PROMISES {
        for (file, key, text) in messages(language) {
            // In danger what to do is said outright, and whom to ring costs nothing.
            if key.starts_with("emergency-") {
                continue;
            }
            for (words, unless) in promises.iter().filter(|(words, _)| has(&text, words)) {
                if !unless.iter().any(|unless| text.contains(unless)) {
                    found.push(format!("{language}/{file}.ftl {key}: {words:?} in {text:?}"));
                }
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// The pages of the demo and the plain receiver's answers are read by homeowners too.
#[test]
fn nor_does_a_page_around_the_form() {
    let root = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."));
    for page in ["www/form/index.html", "www/form/pl.html", "www/form/frame.html", "www/receiver/receive.php"] {
        let text = std::fs::read_to_string(root.join(page)).unwrap().to_lowercase();
        for words in ["guarantee", "for free", "free of charge", "same day", "one day", "is safe"] {
            assert!(!has(&text, words), "{page}: {words:?}");
        }
    }
}

/// Two hundred homes by chance and two hundred plausible ones.
fn homes() -> impl Iterator<Item = Answers> {
    (0..200).map(any_home).chain((0..200).map(plausible_home))
}

/// What is said of a class above the list of who must answer.
#[test]
fn nothing_to_wait_for_never_stands_above_a_list_of_who_must_answer() {
    const NONE: [&str; 4] = ["nothing to wait", "no wait", "nobody has to", "no one has to"];
    let config = demo_config();
    let words = Words::new(form::EN);
    let mut listed = 0;
    for shown in homes().map(|answers| ViewModel::of(&assess(&answers, &config), &config)) {
        if shown.gates.is_empty() {
            continue;
        }
        listed += 1;
        let word = shown.complexity;
        let keys = ["complexity-", "complexity-if-", "complexity-if-all-", "means-", "so-far-"];
        let said = keys.iter().filter_map(|key| words.find(&[*key, word.word()].concat()));
        for text in said.map(str::to_lowercase) {
            assert!(NONE.iter().all(|none| !text.contains(none)), "{text:?} above {:?}", shown.gates);
        }
        for future in &shown.futures {
            assert!(!future.changes.contains("no wait"), "{}", future.changes);
        }
        if shown.gates.iter().any(|gate| gate.how == Awaited::Counts) {
            assert!(
                matches!(
                    shown.complexity,
                    Complexity::DependsOnOthers | Complexity::LookFirst | Complexity::NotCovered
                ),
                "{:?} above {:?}",
                shown.complexity,
                shown.gates
            );
        }
    }
    assert!(listed > 100, "{listed}");
}
