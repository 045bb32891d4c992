//! The wording of the plans. It is a program of its own, so its wording is fetched as a text of one language: a line for each key, with a
//! tab between key and sentence.

use crate::intl;
use model::answers::decimal;
use model::units::Metres;
use std::borrow::Cow;
use wording::{Key, Table, Words, filled_in, plans};

/// Beginnings of the form's keys that the plans use too.
const OF_THE_FORM: [&str; 4] = ["along-", "unit-", "option-route-mostly-", "option-inlet-"];

/// What separates a key from its sentence.
const PARTED: char = '\t';

/// The text of the plans' wording: every key of their own table and the keys of the form's that they use, a line each.
#[must_use]
pub fn written(own: Words<'_>, form: Words<'_>) -> String {
    let mut text = String::new();
    let mut put = |table: Table, words: Words<'_>, such: &dyn Fn(&str) -> bool| {
        for (key, _) in table.iter().filter(|(key, _)| such(key)) {
            text.extend([key, &PARTED.to_string(), words.find(key).unwrap_or_default(), "\n"]);
        }
    };
    put(plans::EN, own, &|_| true);
    put(wording::form::EN, form, &|key| OF_THE_FORM.iter().any(|family| key.starts_with(family)));
    text
}

/// The wording in use.
#[derive(Clone, Debug, Default)]
pub struct Speech {
    text: String,
    language: String,
}

impl Speech {
    /// The wording from a text that [`written`] made, in the language of this code. Of two lines with one key the later one counts: an
    /// installer's changes come last.
    #[must_use]
    pub fn new(text: String, language: String) -> Self {
        Self { text, language }
    }

    fn find(&self, key: &str) -> Option<&str> {
        self.text
            .lines()
            .rev()
            .filter_map(|line| line.split_once(PARTED))
            .find(|(name, _)| *name == key)
            .map(|(_, text)| text)
    }

    /// The sentence of a key; the key itself where there is none, so that the gap is noticed.
    #[must_use]
    pub fn say(&self, key: Key) -> String {
        self.fill(key, &[])
    }

    /// The sentence of a key with its placeholders filled in.
    #[must_use]
    pub fn fill(&self, key: Key, places: &[(&str, &str)]) -> String {
        let find = |name: &str| places.iter().find(|(place, _)| *place == name).map(|(_, value)| Cow::Borrowed(*value));
        filled_in(&self.language, self.find(key.0).unwrap_or(key.0), &find).into_owned()
    }

    /// The sentence of the key that these parts make up; the key itself where there is none.
    #[must_use]
    pub fn made(&self, parts: &[&str]) -> String {
        let key = parts.concat();
        self.find(&key).map_or(key.clone(), ToOwned::to_owned)
    }

    /// A number as the language writes it, given in thousandths.
    #[must_use]
    pub fn number(&self, thousandths: u64) -> String {
        let digits = decimal(thousandths);
        intl::number(&self.language, &digits).unwrap_or(digits)
    }

    /// A length in metres as the language writes it, rounded to a thousandth, with its unit.
    #[must_use]
    pub fn metres(&self, length: Metres) -> String {
        let thousandths = libm::round(length.get() * 1000.0).clamp(0.0, 1e12) as u64;
        [&*self.number(thousandths), " m"].concat()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wording::form;

    #[test]
    fn everything_that_is_said_travels_and_the_last_line_counts() {
        let text = written(Words::new(plans::EN), Words::new(form::EN));
        for line in text.lines() {
            let (key, said) = line.split_once(PARTED).unwrap();
            assert!(!key.is_empty() && !said.is_empty() && !said.contains(PARTED), "{line:?}");
        }
        let speech = Speech::new([&*text, "stretch-n\tBit {n}\n"].concat(), "en-GB".into());
        assert_eq!(
            speech.fill(plans::STRETCH_N, &[("n", "2")]),
            "Bit 2",
            "an installer's change comes last and counts"
        );
        assert_eq!(speech.made(&["unit-", "paces"]), "paces");
        assert_eq!(speech.made(&["no-such-", "key"]), "no-such-key");
        assert_eq!(
            (speech.metres(Metres::of(2.5)), speech.metres(Metres::of(1e300))),
            ("2.5 m".into(), "1000000000 m".into())
        );
    }
}
