//! A language other than English as one text, loaded when a visitor chooses it. Its messages stand in the order of the English keys.
//!
//! The first line gives the language's code (BCP 47) and its direction, `ltr` or `rtl`. Then comes a message on each line: the engine's
//! messages, U+000C on a line of its own, the form's messages. The text fits one build only, since the order of the keys does; a text with
//! too many or too few messages is refused.

use super::{Others, Table, engine as engine_words, flags_homeowner, form};
use alloc::string::String;
use alloc::vec::Vec;

/// What separates the engine's messages from the form's.
const PARTED: &str = "\n\u{c}\n";

/// The messages of one table in a language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Local<'a> {
    /// The language's code.
    pub code: &'a str,
    /// The messages in the order of the English keys; empty where one is missing.
    pub lines: &'a [&'a str],
}

/// A language that was read: its code, its direction and some tables' messages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Language<'a> {
    /// Its code.
    pub code: &'a str,
    /// Whether it is written from right to left.
    pub is_from_right: bool,
    /// The part of the text with the engine's messages.
    pub for_engine: &'a str,
    lines: Vec<&'a str>,
}

impl<'a> Language<'a> {
    /// Writes the text of a language that the program has; `None` for another.
    #[must_use]
    pub fn write(code: &str, is_from_right: bool) -> Option<String> {
        let lines = |others: Others| others.iter().find(|(other, _)| *other == code).map(|(_, lines)| lines.join("\n"));
        let direction = if is_from_right { " rtl\n" } else { " ltr\n" };
        let (price, flags) = (lines(engine_words::OTHERS)?, lines(flags_homeowner::OTHERS)?);
        Some([code, direction, &price, "\n", &flags, PARTED, &lines(form::OTHERS)?].concat())
    }

    /// Reads the form's messages from the text of a language; `None` where it does not fit this build.
    #[must_use]
    pub fn of_form(text: &'a str) -> Option<Self> {
        let (for_engine, lines) = text.split_once(PARTED)?;
        Self::read(for_engine, lines, form::EN.len())
    }

    /// Reads the engine's messages from [`Self::for_engine`]; `None` where they do not fit this build.
    #[must_use]
    pub fn of_engine(text: &'a str) -> Option<Self> {
        Self::read(text, text.split_once('\n')?.1, engine_words::EN.len() + flags_homeowner::EN.len())
    }

    fn read(for_engine: &'a str, lines: &'a str, count: usize) -> Option<Self> {
        let (code, direction) = for_engine.split('\n').next()?.split_once(' ')?;
        let lines: Vec<&str> = lines.split('\n').collect();
        (lines.len() == count).then_some(Self { code, is_from_right: direction == "rtl", for_engine, lines })
    }

    /// The messages of the form.
    #[must_use]
    pub fn form(&self) -> Local<'_> {
        self.local(0, form::EN)
    }

    /// What the engine says: causes of the price, waits, wishes.
    #[must_use]
    pub fn engine(&self) -> Local<'_> {
        self.local(0, engine_words::EN)
    }

    /// The messages about flags.
    #[must_use]
    pub fn flags(&self) -> Local<'_> {
        self.local(engine_words::EN.len(), flags_homeowner::EN)
    }

    fn local(&self, from: usize, table: Table) -> Local<'_> {
        Local { code: self.code, lines: self.lines.get(from..from + table.len()).unwrap_or_default() }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Words;
    use super::*;

    #[test]
    fn what_is_written_is_read() {
        for (code, lines) in form::OTHERS {
            let text = Language::write(code, false).unwrap();
            let form = Language::of_form(&text).unwrap();
            assert_eq!((form.code, form.is_from_right, form.form().lines), (*code, false, *lines));
            let engine = Language::of_engine(form.for_engine).unwrap();
            for (key, local, others, table) in [
                ("cause-days", engine.engine(), engine_words::OTHERS, engine_words::EN),
                ("flag-landlord", engine.flags(), flags_homeowner::OTHERS, flags_homeowner::EN),
            ] {
                assert_eq!(local.lines, others.iter().find(|(other, _)| other == code).unwrap().1);
                let words = Words::new(table);
                assert_ne!(words.spoken(Some(local)).find(key), words.find(key));
            }
        }
        assert_eq!(Language::write("xx", false), None);
    }

    #[test]
    fn a_text_of_another_build_is_not_read() {
        let lines = |count: usize| ["x"].repeat(count).join("\n");
        let text = |engine, form| ["ar rtl\n", &lines(engine), PARTED, &lines(form)].concat();
        let (engine, form) = (engine_words::EN.len() + flags_homeowner::EN.len(), form::EN.len());
        let good = text(engine, form);
        let read = Language::of_form(&good).unwrap();
        assert!(read.is_from_right && read.code == "ar" && Language::of_engine(read.for_engine).is_some());
        assert_eq!(Language::of_form(&text(engine, form + 1)), None);
        assert_eq!(Language::of_engine(Language::of_form(&text(engine - 1, form)).unwrap().for_engine), None);
        for rubbish in ["", "pl", "pl ltr", "<!doctype html>"] {
            assert_eq!(Language::of_form(rubbish), None);
            assert_eq!(Language::of_engine(rubbish), None);
        }
    }
}
