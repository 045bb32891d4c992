//! A report of how each given line or value was understood: nothing is dropped without a remark.

use serde::Serialize;
use std::fmt;

/// How something given was treated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Became {
    /// It was taken as given.
    Taken,
    /// It was left out; the remark says why.
    NotUnderstood,
    /// Something that was not given was supposed or worked out instead.
    Supposed,
}

/// One remark.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Remark {
    /// The line of the file, from one; `None` if the remark is about no line.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<u64>,
    /// The column or key.
    pub about: String,
    /// How it was treated.
    pub became: Became,
    /// The remark in words.
    pub words: String,
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(line) = self.line {
            write!(f, "line {line}, ")?;
        }
        let how = match self.became {
            Became::Taken => "taken",
            Became::NotUnderstood => "NOT UNDERSTOOD",
            Became::Supposed => "supposed",
        };
        write!(f, "{}: {how}: {}", self.about, self.words)
    }
}

/// Remarks in the order they were made.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Report(pub Vec<Remark>);

impl Report {
    /// Adds a remark about a column or key.
    pub(super) fn say(&mut self, line: Option<u64>, about: &str, became: Became, words: impl Into<String>) {
        self.0.push(Remark { line, about: about.to_owned(), became, words: words.into() });
    }

    /// Adds a remark that a value was not understood, with the beginning of the value and what it may be.
    pub(super) fn not_understood(&mut self, line: Option<u64>, about: &str, given: &str, allowed: &str) {
        // The given text may be of any length.
        let shown: String = given.chars().take(60).collect();
        self.say(line, about, Became::NotUnderstood, format!("{shown:?}; it may be {allowed}"));
    }

    /// The number of remarks of this kind.
    #[must_use]
    pub fn count(&self, became: Became) -> usize {
        self.0.iter().filter(|remark| remark.became == became).count()
    }
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|remark| writeln!(f, "{remark}"))
    }
}
