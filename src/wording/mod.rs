//! Wording: Fluent files under `www/wording`, compiled at build time into sorted tables of text with named places.
//!
//! Holds no sentence itself. A key that a view names is a constant made from the file, so a missing one does not compile.

use alloc::borrow::{Cow, ToOwned};
use alloc::collections::BTreeMap;
use alloc::string::String;

include!(concat!(env!("OUT_DIR"), "/wording.rs"));

/// A message's name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Key(pub &'static str);

/// One language's table of one wording file, in the order of its keys; places are written `{name}`.
///
/// One text, key after message, and how long each is: a pointer for each would weigh more than the messages' keys.
#[derive(Clone, Copy, Debug)]
pub struct Table {
    text: &'static str,
    lengths: &'static [[u16; 2]],
}

impl Table {
    /// A table as the build script writes it.
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

    /// The message of a key.
    #[must_use]
    pub fn find(self, key: &str) -> Option<&'static str> {
        self.iter().find(|(name, _)| *name == key).map(|(_, message)| message)
    }
}

/// The wording in use: a table, and what the installer changed.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    table: Table,
    changed: Option<&'a BTreeMap<String, String>>,
}

impl PartialEq for Words<'_> {
    fn eq(&self, other: &Self) -> bool {
        core::ptr::eq(self.table.text, other.table.text) && self.changed == other.changed
    }
}

impl<'a> Words<'a> {
    /// Speaks from a table alone.
    #[must_use]
    pub const fn new(table: Table) -> Self {
        Self { table, changed: None }
    }

    /// Speaks from a table, with an installer's changes over it.
    #[must_use]
    pub const fn with_changes(table: Table, changed: &'a BTreeMap<String, String>) -> Self {
        Self { table, changed: Some(changed) }
    }

    /// The text of a key named in the code.
    #[must_use]
    pub fn say(&self, key: Key) -> &'a str {
        self.find(key.0).unwrap_or(key.0)
    }

    /// The text of a key made from an id, or `None` where there is none.
    #[must_use]
    pub fn find(&self, key: &str) -> Option<&'a str> {
        if let Some(text) = self.changed.and_then(|changed| changed.get(key)) {
            return Some(text.as_str());
        }
        self.table.find(key)
    }

    /// The text with its places filled.
    #[must_use]
    pub fn fill(&self, key: Key, places: &[(&str, &str)]) -> String {
        filled(self.say(key), places).into_owned()
    }
}

/// Fills `{name}` places; a place without a value stays as it is, so that the gap is seen.
#[must_use]
pub fn filled<'a>(text: &'a str, places: &[(&str, &str)]) -> Cow<'a, str> {
    if !text.contains('{') {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        let Some((name, tail)) = after.split_once('}') else {
            rest = &rest[before.len()..];
            break;
        };
        match places.iter().find(|(place, _)| *place == name) {
            Some((_, value)) => out.push_str(value),
            None => out.push_str(&["{", name, "}"].concat().to_owned()),
        }
        rest = tail;
    }
    out.push_str(rest);
    Cow::Owned(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled_and_a_gap_is_seen() {
        assert_eq!(filled("from {low} to {high}.", &[("low", "£1"), ("high", "£2")]), "from £1 to £2.");
        assert_eq!(filled("from {low}", &[]), "from {low}");
        assert_eq!(filled("an open { brace", &[("x", "y")]), "an open { brace");
    }

    #[test]
    fn an_installer_may_change_any_wording() {
        let table = Table::new("aoldbother", &[[1, 3], [1, 5]]);
        let changed = BTreeMap::from([("a".to_owned(), "new".to_owned())]);
        assert_eq!(Words::new(table).say(Key("a")), "old");
        assert_eq!(Words::with_changes(table, &changed).say(Key("a")), "new");
        assert_eq!(Words::with_changes(table, &changed).say(Key("b")), "other");
        assert_eq!(Words::new(table).find("c"), None);
    }
}
