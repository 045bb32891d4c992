//! Where the page's texts come from: its own table, the form's for questions and options, the installer's for flags.

use std::borrow::Cow;
use wording::{self, Key, Words};

/// The texts of the installer's page.
fn page() -> Words<'static> {
    Words::new(wording::triage::EN)
}

/// The texts of the form.
fn form() -> Words<'static> {
    Words::new(wording::form::EN)
}

/// The page's text for a key.
#[must_use]
pub fn say(key: Key) -> &'static str {
    page().say(key)
}

/// The page's text for a key, with its placeholders filled.
#[must_use]
pub fn fill(key: Key, places: &[(&str, &str)]) -> String {
    page().fill(key, places)
}

/// One of two texts, for the count one or for any other; the count fills the placeholder `n`.
#[must_use]
pub fn counted(one: Key, many: Key, n: usize) -> String {
    fill(if n == 1 { one } else { many }, &[("n", &n.to_string())])
}

/// A sentence about how many of the photos have arrived.
#[must_use]
pub fn photos_said(arrived: usize, photos: usize) -> String {
    let places = [("arrived", &*arrived.to_string()), ("photos", &*photos.to_string())];
    match photos {
        0 => say(wording::triage::ROW_NO_PHOTOS).to_owned(),
        1 => fill(wording::triage::ROW_PHOTO, &places),
        _ => fill(wording::triage::ROW_PHOTOS, &places),
    }
}

/// The page's text for a word of a closed list (`GROUP-WORD`); if there is none, the word itself in plain letters.
#[must_use]
pub fn worded(group: &str, word: &str) -> Cow<'static, str> {
    find(&format!("{group}-{word}")).map_or_else(|| Cow::Owned(plain(word)), Cow::Borrowed)
}

/// The page's text for a key made from an id; `None` if it has none.
#[must_use]
pub fn find(key: &str) -> Option<&'static str> {
    page().find(key)
}

/// A fact's value in words; if there are none, the value itself.
#[must_use]
pub fn fact_value(fact: &str, value: &str) -> Cow<'static, str> {
    find(&format!("fact-{fact}-{value}")).map_or_else(|| Cow::Owned(value.to_owned()), Cow::Borrowed)
}

/// A question's text as the homeowner saw it; its id in plain letters where an earlier form asked it.
#[must_use]
pub fn question(id: &str) -> Cow<'static, str> {
    let key = format!("question-{id}");
    find(&key).or_else(|| form().find(&key)).map_or_else(|| Cow::Owned(plain(id)), Cow::Borrowed)
}

/// An option's text as the homeowner saw it; its word in plain letters if there is no text.
#[must_use]
pub fn option(id: &str, word: &str) -> Cow<'static, str> {
    let key = format!("option-{id}-{word}");
    find(&key)
        .or_else(|| form().find(&key))
        .or_else(|| form().find(&format!("word-{word}")))
        .map_or_else(|| Cow::Owned(plain(word)), Cow::Borrowed)
}

/// One of a flag's texts for the installer: its `name`, `why` or `do`.
#[must_use]
pub fn flag(code: &str, part: &str) -> Option<&'static str> {
    Words::new(wording::flags_installer::EN).find(&format!("flag-{code}-{part}"))
}

/// A flag's name; its code in plain letters if a newer version of the engine raised it.
#[must_use]
pub fn flag_name(code: &str) -> Cow<'static, str> {
    flag(code, "name").map_or_else(|| Cow::Owned(plain(code)), Cow::Borrowed)
}

/// A code as words: hyphens and underlines become spaces, the first letter a capital.
#[must_use]
pub fn plain(code: &str) -> String {
    let mut text = code.replace(['-', '_'], " ");
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::assessment::{BillUnit, Complexity, Gatekeeper, KnownBy, NoBand, OwedTo, OwedWhen, Reason};
    use engine::design::network::Otherwise;
    use engine::flags::Weight;
    use model::answers::{LengthUnit, Word};
    use model::config::Item;
    use model::questions::Place;
    use record::enquiry::{PhotoPlace, Reach};

    #[test]
    fn every_word_of_the_closed_lists_has_its_text() {
        let lists: [(&str, &[&str]); 15] = [
            ("became", record::enquiry::Became::WORDS),
            ("complexity", Complexity::WORDS),
            ("reason", Reason::WORDS),
            ("gatekeeper", Gatekeeper::WORDS),
            ("no-band", NoBand::WORDS),
            ("weight", Weight::WORDS),
            ("item", Item::WORDS),
            ("known-by", KnownBy::WORDS),
            ("place", Place::WORDS),
            ("photo", PhotoPlace::WORDS),
            ("reach", Reach::WORDS),
            ("length", LengthUnit::WORDS),
            ("owed-to", OwedTo::WORDS),
            ("owed-when", OwedWhen::WORDS),
            ("design", Otherwise::WORDS),
        ];
        for (group, list) in lists {
            for word in list {
                assert!(find(&format!("{group}-{word}")).is_some(), "www/wording/en/triage.ftl lacks {group}-{word}");
            }
        }
        for unit in BillUnit::ALL {
            assert!(find(&format!("bill-unit-{}", unit.word())).is_some());
        }
    }

    #[test]
    fn every_fact_and_decision_of_the_engine_has_its_text() {
        for word in engine::site::FactId::WORDS {
            assert!(find(&format!("fact-{word}")).is_some(), "www/wording/en/triage.ftl lacks fact-{word}");
        }
        for word in engine::design::DecisionId::WORDS {
            assert!(find(&format!("decision-{word}")).is_some(), "www/wording/en/triage.ftl lacks decision-{word}");
        }
    }

    #[test]
    fn everything_owed_or_stated_and_every_question_of_the_installers_has_its_text() {
        let mut missing = Vec::new();
        let mut want = |key: String| {
            if find(&key).is_none() {
                missing.push(key);
            }
        };
        for seed in include_str!("../../tests/homes/two-hundred.jsonl").lines() {
            let answers: model::answers::Answers = serde_json::from_str(seed).unwrap();
            let assessment = engine::assess(&answers, &model::config::demo_config());
            for owed in &assessment.owed {
                want(format!("owed-way-{}-{}", owed.to.word(), owed.way));
                owed.needs.iter().for_each(|need| want(format!("need-{}", need.what)));
            }
            for line in &assessment.protection {
                want(format!("protection-{}", line.what));
                if !line.value.starts_with(|first: char| first.is_ascii_digit()) {
                    want(format!("protection-{}-{}", line.what, line.value));
                }
            }
            for decision in &assessment.decisions {
                want(format!("decision-{}-{}", decision.decision, decision.chosen));
            }
        }
        for question in model::questions::INSTALLERS {
            want(format!("question-{}", question.id));
            if let model::answers::AnswerKind::One(words) = question.kind {
                words.iter().for_each(|word| want(format!("option-{}-{word}", question.id)));
            }
        }
        missing.sort();
        missing.dedup();
        assert_eq!(missing, Vec::<String>::new());
    }

    #[test]
    fn a_code_without_a_sentence_is_shown_in_plain() {
        assert_eq!(flag_name("never-heard-of-it"), "Never heard of it");
        assert_eq!(plain(""), "");
        assert_eq!(plain("é-a"), "é a");
    }
}
