//! Wording: Fluent files under `www/wording`, compiled at build time into sorted tables of texts with named variables.
//!
//! The code holds no sentence. A key that a view names is a constant made from the files, so a missing key does not compile.

#![cfg_attr(not(test), no_std)]
extern crate alloc;

mod fill;
mod language;
mod plural;

pub use fill::{MONEY, NUMBER, filled, filled_in};
pub use language::{Language, Local};
pub use plural::{Category, category};

use alloc::collections::BTreeMap;
use alloc::string::String;

include!(concat!(env!("OUT_DIR"), "/wording.rs"));

/// The messages of a table in other languages: the language's code and its messages in the order of the table's keys.
pub type Others = &'static [(&'static str, &'static [&'static str])];

/// The name of a message.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Key(pub &'static str);

/// The English messages of one wording file, in the order of their keys; variables are written `{name}`.
///
/// Held as one text, key after message, and their lengths: a pointer for each would take more bytes than the keys do.
#[derive(Clone, Copy, Debug)]
pub struct Table {
    text: &'static str,
    lengths: &'static [[u16; 2]],
}

impl Table {
    /// A table from the text and lengths that the build script writes.
    #[must_use]
    pub const fn new(text: &'static str, lengths: &'static [[u16; 2]]) -> Self {
        Self { text, lengths }
    }

    /// Its keys with their messages, in order.
    pub fn iter(self) -> impl Iterator<Item = (&'static str, &'static str)> {
        let mut rest = self.text;
        self.lengths.iter().map(move |[key, message]| {
            let (key, after) = rest.split_at(usize::from(*key));
            let (message, after) = after.split_at(usize::from(*message));
            rest = after;
            (key, message)
        })
    }

    /// How many messages it holds.
    #[must_use]
    pub const fn len(self) -> usize {
        self.lengths.len()
    }

    /// Whether it holds none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.lengths.is_empty()
    }

    /// The message of a key; `None` where the table has no such key.
    #[must_use]
    pub fn find(self, key: &str) -> Option<&'static str> {
        self.iter().find(|(name, _)| *name == key).map(|(_, message)| message)
    }
}

/// The wording in use: an English table, the messages of another language, and the installer's changes.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    table: Table,
    local: Option<Local<'a>>,
    changed: Option<&'a BTreeMap<String, String>>,
}

impl PartialEq for Words<'_> {
    fn eq(&self, other: &Self) -> bool {
        core::ptr::eq(self.table.text, other.table.text) && self.local == other.local && self.changed == other.changed
    }
}

impl<'a> Words<'a> {
    /// The wording of a table alone.
    #[must_use]
    pub const fn new(table: Table) -> Self {
        Self { table, local: None, changed: None }
    }

    /// The wording of a table with an installer's changes.
    #[must_use]
    pub const fn with_changes(table: Table, changed: &'a BTreeMap<String, String>) -> Self {
        Self { table, local: None, changed: Some(changed) }
    }

    /// This wording in another language; a message that it lacks is given in English.
    #[must_use]
    pub const fn spoken(self, local: Option<Local<'a>>) -> Self {
        Self { local, ..self }
    }

    /// The code of the language in use.
    #[must_use]
    pub fn language(&self) -> &'a str {
        self.local.map_or("en", |local| local.code)
    }

    /// The text of a key that the code names.
    #[must_use]
    pub fn say(&self, key: Key) -> &'a str {
        self.find(key.0).unwrap_or(key.0)
    }

    /// The text of a key that is made from an id; `None` where there is none.
    ///
    /// An installer's change is found under the key, and in another language under the language's code, a full stop and the key.
    #[must_use]
    pub fn find(&self, key: &str) -> Option<&'a str> {
        let Some(Local { code, lines }) = self.local else {
            let changed = self.changed.and_then(|changed| changed.get(key)).map(String::as_str);
            return changed.or_else(|| self.table.find(key));
        };
        if let Some(text) = self.changed.and_then(|changed| changed.get(&[code, ".", key].concat())) {
            return Some(text.as_str());
        }
        let (place, (_, english)) = self.table.iter().enumerate().find(|(_, (name, _))| *name == key)?;
        Some(lines.get(place).copied().filter(|text| !text.is_empty()).unwrap_or(english))
    }

    /// The text of a key with its variables filled.
    #[must_use]
    pub fn fill(&self, key: Key, places: &[(&str, &str)]) -> String {
        self.filled(self.say(key), places)
    }

    /// A text of this language with its variables filled.
    #[must_use]
    pub fn filled(&self, text: &str, places: &[(&str, &str)]) -> String {
        let find = |name: &str| places.iter().find(|(place, _)| *place == name).map(|(_, value)| (*value).into());
        filled_in(self.language(), text, &find).into_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::borrow::ToOwned;

    #[test]
    fn an_installer_may_change_any_wording() {
        let table = Table::new("aoldbother", &[[1, 3], [1, 5]]);
        let changed = BTreeMap::from([("a".to_owned(), "new".to_owned())]);
        assert_eq!(Words::new(table).say(Key("a")), "old");
        assert_eq!(Words::with_changes(table, &changed).say(Key("a")), "new");
        assert_eq!(Words::with_changes(table, &changed).say(Key("b")), "other");
        assert_eq!(Words::new(table).find("c"), None);
    }

    #[test]
    fn a_language_speaks_for_itself_and_english_where_it_is_silent() {
        let table = Table::new("aoldbothercthird", &[[1, 3], [1, 5], [1, 5]]);
        let local = Local { code: "pl", lines: &["stary", "", "trzeci"] };
        let words = Words::new(table).spoken(Some(local));
        assert_eq!(["a", "b"].map(|key| words.find(key)), [Some("stary"), Some("other")]);
        assert_eq!((words.find("d"), words.language()), (None, "pl"));
        let changed = BTreeMap::from([("a".to_owned(), "new".to_owned()), ("pl.c".to_owned(), "nowy".to_owned())]);
        let words = Words::with_changes(table, &changed).spoken(Some(local));
        assert_eq!((words.say(Key("a")), words.say(Key("c"))), ("stary", "nowy"), "a change belongs to its language");
        assert_eq!(Words::with_changes(table, &changed).say(Key("c")), "third");
    }

    /// The names of a message's places, each once, in order.
    fn places(text: &str) -> Vec<&str> {
        let begins = |at: usize| matches!(text.as_bytes()[at], b'{' | 1);
        let mut names: Vec<&str> = (0..text.len())
            .filter(|at| begins(*at))
            .filter_map(|at| text[at + 1..].split(['}', '\u{2}']).next())
            .collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// Every wording file that a homeowner meets, with its table.
    const FILES: [(&str, Table, Others); 8] = [
        ("form", form::EN, form::OTHERS),
        ("engine", engine::EN, engine::OTHERS),
        ("flags", flags_homeowner::EN, flags_homeowner::OTHERS),
        ("start", start::EN, start::OTHERS),
        ("plain", plain::EN, plain::OTHERS),
        ("share", share::EN, share::OTHERS),
        ("sketches", sketches::EN, sketches::OTHERS),
        ("plans", plans::EN, plans::OTHERS),
    ];

    #[test]
    fn every_language_says_everything_with_the_same_places() {
        let mut faults = Vec::new();
        for (language, _) in form::OTHERS {
            for (file, english, others) in FILES {
                let lines = others.iter().find(|(code, _)| code == language).map_or(&[][..], |(_, lines)| lines);
                for (place, (key, message)) in english.iter().enumerate() {
                    match lines.get(place) {
                        None | Some(&"") => faults.push(format!("{language}/{file}.ftl: {key} is missing")),
                        Some(text) if places(text) != places(message) => faults.push(format!(
                            "{language}/{file}.ftl: {key} has {:?}, in English {:?}",
                            places(text),
                            places(message)
                        )),
                        Some(_) => {}
                    }
                }
            }
        }
        assert!(faults.is_empty(), "{}", faults.join("\n"));
    }

    #[test]
    fn a_choice_by_number_names_each_plural_form_of_its_language() {
        let forms = |language: &str| -> &[&str] {
            if language == "pl" { &["few", "many", "one", "other"] } else { &["one", "other"] }
        };
        for (file, english, others) in FILES {
            let mut all: Vec<(&str, &str)> = english.iter().map(|(_, text)| ("en", text)).collect();
            all.extend(others.iter().flat_map(|(code, lines)| lines.iter().map(move |text| (*code, *text))));
            for (language, text) in all {
                for choice in text.split('\u{1}').skip(1) {
                    let choice = choice.split('\u{4}').next().unwrap();
                    let keys = choice.split('\u{2}').skip(1).filter_map(|variant| variant.split('\u{3}').next());
                    let mut keys: Vec<&str> = keys.filter(|key| key.parse::<u32>().is_err()).collect();
                    keys.sort_unstable();
                    if keys != ["other"] {
                        assert_eq!(keys, forms(language), "{language}/{file}.ftl: {text:?}");
                    }
                }
            }
        }
    }
}
