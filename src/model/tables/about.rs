//! What is known about a table: its clause and edition, where it was read, how sure its figures are, and its rows as text.
//!
//! Only the workings of figures and the report of sources use this; the engine uses the constants.

use crate::answers::choices::words;
use crate::units::SquareMillimetres;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

words! {
    /// What was seen of a figure.
    pub enum Grade {
        /// The publication that is named was read.
        Itself => "the publication itself",
        /// Somebody's copy, transcription or quotation of it was read: of the edition named, and no better than its writer's care.
        Quoted => "a copy or quotation of it",
        /// Known, but not seen: not counted as checked.
        FromMemory => "from memory",
        /// A habit of the trade: no source.
        CommonPractice => "common practice, no source",
        /// Made up, to be confirmed by the installer.
        Invented => "invented, to be confirmed",
        /// No fact of the trade: arithmetic, or how this program goes about its work.
        Own => "arithmetic, or a choice of this program",
    }
}

impl Grade {
    /// Whether a row of this grade counts as checked against something.
    #[must_use]
    pub const fn is_checked(self) -> bool {
        matches!(self, Self::Itself | Self::Quoted)
    }

    /// The grade that a source, or a comment beside a figure, states. Where it states several, the least sure; `None` where it states none.
    #[must_use]
    pub fn said(text: &str) -> Option<Self> {
        let says = |any: &[&str]| any.iter().any(|words| text.contains(words));
        if says(&["invented", "Invented"]) {
            Some(Self::Invented)
        } else if says(&["ommon practice"]) {
            Some(Self::CommonPractice)
        } else if says(&["rom memory"]) {
            Some(Self::FromMemory)
        } else if says(&["seen in", "seen on", "seen as", "as reported by", "as quoted", "a copy", "copies of"]) {
            Some(Self::Quoted)
        } else if says(&["itself, read"]) {
            Some(Self::Itself)
        } else if says(&["Arithmetic", "arithmetic", "definition", "This program's choice", "this program's choice"]) {
            Some(Self::Own)
        } else {
            None
        }
    }
}

/// A publication in the edition that was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Publication {
    /// Its title.
    pub title: &'static str,
    /// The edition that the figures are from.
    pub edition: &'static str,
    /// The edition in force, where it is another one and the figures were not checked against it.
    pub unchecked: Option<&'static str>,
}

/// BS 7671. Amendment 4 was published on 15 April 2026 and the edition before it withdrawn on 15 October 2026
/// (several training bodies quoting the notice of 15 January 2026); its text has not been seen.
pub const BS_7671: Publication =
    Publication { title: "BS 7671", edition: "2018+A2:2022+A3:2024", unchecked: Some("2018+A4:2026") };
/// BS 7671 in the edition that a copy was of.
const fn bs_7671(edition: &'static str) -> Publication {
    Publication { edition, ..BS_7671 }
}
/// The 16th edition, as a summary reproduces it.
pub const BS_7671_1992: Publication = bs_7671("1992 (16th edition)");
/// As [`BS_7671_1992`], for the factors for ambient air, whose table has another number in that summary.
pub const BS_7671_1992_AIR: Publication = bs_7671("1992 (16th edition), today's number: the copy calls it Table 4.3");
/// As [`BS_7671_1992`], for the factors for grouping.
pub const BS_7671_1992_GROUPED: Publication =
    bs_7671("1992 (16th edition), today's number: the copy calls it Table 4.4");
/// As [`BS_7671_1992`], for what that summary gives without a number.
pub const BS_7671_1992_UNNUMBERED: Publication = bs_7671("1992 (16th edition), today's number: the copy has none");
/// The 17th edition.
pub const BS_7671_2008: Publication = bs_7671("2008 (17th edition)");
/// The 17th edition with its last amendment.
pub const BS_7671_2015: Publication = bs_7671("2008+A3:2015 (17th edition), as of the copy's year");
/// The 18th edition.
pub const BS_7671_2018: Publication = bs_7671("2018 (18th edition; with which amendment was not kept)");
/// The amendment that brought voltage windows.
pub const BS_7671_2020: Publication = bs_7671("2018+A1:2020 or later");
/// An edition that was not noted when the copy was read.
pub const BS_7671_UNSAID: Publication = bs_7671("edition of the copy not kept");
/// The international standard, whose values are the same, was what the copy was of.
pub const BS_7671_BY_IEC: Publication = bs_7671("by IEC 60364-5-52, edition of the copy not kept");
/// A book that prints figures of its own.
pub const LOCKE: Publication = publication("D. Locke, Guide to the Wiring Regulations (Wiley)", "2008");

/// The amendment that a remembered clause is of, unless something else is stated.
const REMEMBERED: &str = "A2:2022";
/// Clauses of BS 7671 that the design, a flag or a stated line relies on and that no table here is from: what was seen of each, and in
/// which edition. A test checks that every such clause stands here or has a table.
const CITED: &[(&str, Grade, &str)] = &[
    ("134.1.1", Grade::FromMemory, REMEMBERED),
    ("411.3.2.6", Grade::FromMemory, REMEMBERED),
    ("411.5", Grade::FromMemory, REMEMBERED),
    ("415.2", Grade::FromMemory, REMEMBERED),
    ("421.1.201", Grade::Quoted, "where and of which edition was not kept"),
    ("433.1.1", Grade::FromMemory, REMEMBERED),
    ("443.4.1", Grade::Quoted, "2018+A2:2022 (18th edition)"),
    ("511", Grade::FromMemory, REMEMBERED),
    ("512.1.5", Grade::FromMemory, REMEMBERED),
    ("521.10.202", Grade::Quoted, BS_7671_UNSAID.edition),
    ("522.6.202", Grade::FromMemory, REMEMBERED),
    ("527.2", Grade::FromMemory, REMEMBERED),
    ("530.3.201", Grade::FromMemory, "A3:2024"),
    ("536.4.3.2", Grade::FromMemory, REMEMBERED),
    ("542.3", Grade::Quoted, BS_7671_UNSAID.edition),
    ("543.1.3", Grade::Quoted, BS_7671_UNSAID.edition),
    ("543.1.4", Grade::FromMemory, REMEMBERED),
    ("705.411.1", Grade::FromMemory, REMEMBERED),
    ("705.415.2.1", Grade::FromMemory, REMEMBERED),
    ("705.422.7", Grade::FromMemory, REMEMBERED),
    ("722.311.201", Grade::Quoted, "2018+A1:2020, that load control may be counted; the rest is remembered"),
    ("722.314.101", Grade::FromMemory, REMEMBERED),
    ("722.411.4.1", Grade::Quoted, "2018+A1:2020 (BSI's amendment notice)"),
    ("722.411.4.1 (i)", Grade::FromMemory, REMEMBERED),
    ("722.411.4.1 (ii)", Grade::FromMemory, REMEMBERED),
    ("722.512.2.202", Grade::FromMemory, REMEMBERED),
    ("Appendix 4", Grade::Quoted, BS_7671_1992.edition),
    ("Appendix 4, section 6", Grade::Quoted, BS_7671_UNSAID.edition),
    ("Appendix 4, section 6.1", Grade::FromMemory, REMEMBERED),
    ("Part 6", Grade::FromMemory, REMEMBERED),
    ("section 705", Grade::FromMemory, REMEMBERED),
    ("Table 4A2", Grade::FromMemory, REMEMBERED),
    ("Table 41.3", Grade::Quoted, "Type B 32 A alone, on a newsgroup in 2019"),
    ("Table 41.3", Grade::FromMemory, REMEMBERED),
    ("Table 41.5", Grade::FromMemory, REMEMBERED),
];
/// Clauses of BS 7671 that a qualified person has checked against the amendment in force; none yet.
const CHECKED: [&str; 0] = [];

/// What was seen of a clause of BS 7671, and in which edition, each once, the surest first. Empty where nothing was noted.
///
/// * `clause`: with or without the title before it.
#[must_use]
pub fn seen_of(clause: &str) -> Vec<(Grade, &'static str)> {
    let clause = clause.trim_start_matches(BS_7671.title).trim();
    let cited = CITED.iter().filter(|(other, ..)| *other == clause).map(|(_, grade, edition)| (*grade, *edition));
    let of_tables = super::ALL.iter().flat_map(|file| file.iter());
    let of_tables = of_tables.filter(|table| table.publication.title == BS_7671.title && table.clause == clause);
    let of_tables = of_tables.map(|table| (table.grade, table.seen_in()));
    let mut seen: Vec<(Grade, &'static str)> = Vec::new();
    for one in cited.chain(of_tables) {
        if !seen.contains(&one) {
            seen.push(one);
        }
    }
    seen.sort_by_key(|(grade, _)| !grade.is_checked());
    seen
}

/// In which edition a clause of BS 7671 was seen or is remembered, and whether it was checked against the edition in force, in words.
///
/// * `clause`: with or without the title before it.
#[must_use]
pub fn amendment(clause: &str) -> String {
    if CHECKED.contains(&clause.trim_start_matches(BS_7671.title).trim()) {
        return "checked against A4:2026".to_string();
    }
    let mut text = String::new();
    let seen = seen_of(clause);
    for (grade, edition) in &seen {
        text += match (grade.is_checked(), seen.len() > 1) {
            (true, false) => "seen: ",
            (true, true) => "seen in part: ",
            (false, false) => "remembered as of ",
            (false, true) => "in part remembered as of ",
        };
        text += edition;
        text += "; ";
    }
    text + "not checked against A4"
}

/// The clauses of BS 7671 that a source names in words, each once and with the title: `BS 7671 544.1.1 and Table 54.8 (…)` names two.
#[must_use]
pub fn clauses_in(source: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for rest in source.split(BS_7671.title).skip(1) {
        let mut rest = rest.trim_start();
        while let Some(length) = clause_at(rest) {
            let clause = &rest[..length];
            // A subdivision that stands alone belongs to the clause before it.
            let whole = match found.last() {
                Some(before) if clause.starts_with('(') => {
                    alloc::format!("{} {clause}", before.split(" (").next().unwrap_or_default())
                }
                _ => alloc::format!("{} {clause}", BS_7671.title),
            };
            if !found.contains(&whole) {
                found.push(whole);
            }
            rest = rest[length..].trim_start();
            // A remark in brackets stands between this clause and the next.
            if rest.starts_with('(') && clause_at(rest).is_none() {
                rest = rest.split_once(')').map_or("", |(_, after)| after).trim_start();
            }
            let next = [", ", "and "].iter().find_map(|between| rest.strip_prefix(between));
            let Some(next) = next else { break };
            rest = next.strip_prefix("and ").unwrap_or(next);
        }
    }
    found
}

/// The length in bytes of the clause at the beginning of a text; `None` where it begins with none.
fn clause_at(text: &str) -> Option<usize> {
    let part = |text: &str| {
        let inner = text.strip_prefix('(')?.split_once(')')?.0;
        (!inner.is_empty() && inner.chars().all(|c| "ivx".contains(c))).then_some(inner.len() + 2)
    };
    if let Some(length) = part(text) {
        return Some(length);
    }
    let word = ["Appendix ", "Tables ", "Table ", "section ", "Part "].into_iter().find(|word| text.starts_with(word));
    let begins = word.map_or(0, str::len);
    let number = text[begins..].find(|c: char| !(c.is_ascii_alphanumeric() || c == '.')).unwrap_or(text.len() - begins);
    let number = text[begins..begins + number].trim_end_matches('.');
    if !number.starts_with(|c: char| c.is_ascii_digit()) || (word.is_none() && number.len() < 3) {
        return None;
    }
    let mut length = begins + number.len();
    for further in [", section ", ", note "] {
        if let Some(after) = text[length..].strip_prefix(further) {
            let number = after.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(after.len());
            length += further.len() + after[..number].trim_end_matches('.').len();
        }
    }
    let of_it = text[length..].strip_prefix(' ').and_then(part);
    Some(length + of_it.map_or(0, |more| more + 1))
}
/// A book that gives the resistance of warm copper.
pub const WHITFIELD: Publication = publication("J. Whitfield, The Electricians Guide (EPA Press)", "5th");

/// A publication, with its edition (empty where that does not matter).
pub const fn publication(title: &'static str, edition: &'static str) -> Publication {
    Publication { title, edition, unchecked: None }
}
/// IEC 60228.
pub const IEC_60228: Publication = publication("IEC 60228", "as BS 6360:1991; class 1 and 2, plain copper");
/// The network operators' declarations.
pub const ENA: Publication = publication("Energy Networks Association", "as quoted in 2018");
/// The IET's *On-Site Guide*; its allowances are unchanged since the 16th edition's.
pub const ON_SITE_GUIDE: Publication = publication("IET On-Site Guide", "as seen in Whitfield, 5th ed.");
/// The Electricity Safety, Quality and Continuity Regulations.
pub const ESQCR: Publication = publication("Electricity Safety, Quality and Continuity Regulations", "2002");
/// Makers' cables.
pub const CABLES: Publication = publication("cables as made", "");
/// IEC 61851-1.
pub const IEC_61851: Publication = publication("IEC 61851-1", "as remembered");
/// COST 231.
pub const COST_231: Publication = publication("COST 231", "as the ns-3 Buildings module quotes it");
/// A module that simulates radio in buildings.
pub const NS_3: Publication = publication("ns-3 Buildings module", "as remembered");
/// ITU-R P.1238.
pub const ITU_P1238: Publication = publication("ITU-R P.1238", "older editions (20 log f + N log d)");
/// Habits of network operators.
pub const OPERATORS: Publication = publication("network operators' practice", "");
/// Habits of those who measure radio.
pub const RADIO_PRACTICE: Publication = publication("radio survey practice", "");
/// The trade's habits.
pub const PRACTICE: Publication = publication("common practice, no source", "");
/// The product standard of circuit breakers.
pub const EN_60898: Publication = publication("BS EN 60898-1", "as remembered");

/// One table, column or value, and what is known of it.
#[derive(Clone, Copy, Debug)]
pub struct Table {
    /// In which publication.
    pub publication: Publication,
    /// Table, regulation or section there; empty where there is none.
    pub clause: &'static str,
    /// What its rows give: quantity, unit and conditions.
    pub gives: &'static str,
    /// Where it was read.
    pub source: &'static str,
    /// What was seen.
    pub grade: Grade,
    /// An independent second source, where there is one.
    pub second: Option<Second>,
    /// Its rows as text.
    pub rows: fn() -> Vec<RowInWords>,
}

/// A second source that did not copy the first. Only such a source finds more than typing errors.
#[derive(Clone, Copy, Debug)]
pub struct Second {
    /// Where.
    pub source: &'static str,
    /// Keys of the rows that it has; all rows where there is no list.
    pub of: Option<fn() -> Vec<String>>,
}

/// One row as text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowInWords {
    /// What it is looked up by.
    pub at: String,
    /// What it gives.
    pub value: String,
}

/// Rows looked up by a key, together with what is known about them. The engine takes the rows alone, so that the texts stay out of its
/// program.
#[derive(Clone, Copy, Debug)]
pub struct Published<K: 'static, V: 'static> {
    /// Key and value, ascending by key.
    pub rows: &'static [(K, V)],
    /// What is known of them.
    pub table: Table,
}

/// A column of a cable's table: cross-section and what it gives.
pub type Column<V> = &'static [(SquareMillimetres, V)];

/// The value of the row with exactly this key, never interpolated. `None` where there is no such row.
#[must_use]
pub fn at<K: PartialEq, V: Copy>(rows: &[(K, V)], key: K) -> Option<V> {
    rows.iter().find(|(row, _)| *row == key).map(|(_, value)| *value)
}

/// The value of the first row whose key is not less than this one. `None` past the last row.
#[must_use]
pub fn at_least<K: PartialOrd, V: Copy>(rows: &[(K, V)], key: K) -> Option<V> {
    rows.iter().find(|(row, _)| *row >= key).map(|(_, value)| *value)
}

/// The rows of a list of pairs, as text.
pub fn as_text<K: ToString, V: ToString>(pairs: &[(K, V)]) -> Vec<RowInWords> {
    pairs.iter().map(|(at, value)| RowInWords { at: at.to_string(), value: value.to_string() }).collect()
}

impl Table {
    /// Publication and clause, as text.
    #[must_use]
    pub fn reference(&self) -> String {
        if self.clause.is_empty() {
            self.publication.title.to_string()
        } else {
            alloc::format!("{} {}", self.publication.title, self.clause)
        }
    }

    /// The edition that it was seen in, or from which it is remembered.
    #[must_use]
    pub const fn seen_in(&self) -> &'static str {
        if matches!(self.grade, Grade::FromMemory) && self.publication.unchecked.is_some() {
            REMEMBERED
        } else {
            self.publication.edition
        }
    }

    /// How many of its rows an independent second source has as well.
    #[must_use]
    pub fn seen_twice(&self) -> usize {
        let Some(second) = self.second else { return 0 };
        let rows = (self.rows)();
        second.of.map_or(rows.len(), |of| {
            let of = of();
            rows.iter().filter(|row| of.contains(&row.at)).count()
        })
    }
}

/// Declares the tables of a file, and their register `TABLES`.
///
/// A column is written `NAME: key => value; publication "clause", "what it gives"; grade, "where it was read"; row => figure, …;`, a single
/// figure `NAME / NAME_TABLE: unit = figure; publication "clause", "what it gives"; grade, "where it was read";`. An independent second
/// source follows where it was read: `, also "where"`, and `of row | row` where it has only some of the rows.
macro_rules! tables {
    ($(columns {$(
        $(#[$doc:meta])* $name:ident: $key:ident => $value:ident; $publication:ident $clause:literal, $gives:literal;
        $grade:ident, $source:literal $(, also $second:literal $(of $($some:literal)|+)?)?; $($at:literal => $is:literal),+;
    )+})? $(figures {$(
        $(#[$one_doc:meta])* $one:ident / $one_table:ident: $unit:ident = $figure:literal;
        $one_publication:ident $one_clause:literal, $one_gives:literal; $one_grade:ident, $one_source:literal $(, also $one_second:literal)?;
    )+})?) => {
        $($(
            $(#[$doc])*
            #[doc = ""]
            #[doc = concat!("Source: ", $clause, " (", stringify!($grade), "): ", $source)]
            pub const $name: $crate::tables::about::Published<$crate::units::$key, $crate::units::$value> =
                $crate::tables::about::Published {
                    rows: &[$(($crate::units::$key::of($at), $crate::units::$value::of($is))),+],
                    table: $crate::tables::about::Table {
                        publication: $crate::tables::about::$publication,
                        clause: $clause,
                        gives: $gives,
                        source: $source,
                        grade: $crate::tables::about::Grade::$grade,
                        second: $crate::tables::about::second!(
                            $($second $(, || alloc::vec![$(alloc::string::ToString::to_string(&$crate::units::$key::of($some))),+])?)?
                        ),
                        rows: || $crate::tables::about::as_text($name.rows),
                    },
                };
        )+)?
        $($(
            $(#[$one_doc])*
            #[doc = ""]
            #[doc = concat!("Source: ", $one_clause, " (", stringify!($one_grade), "): ", $one_source)]
            pub const $one: $crate::units::$unit = $crate::units::$unit::of($figure);
            #[doc = concat!("What is known of [`", stringify!($one), "`].")]
            pub const $one_table: $crate::tables::about::Table = $crate::tables::about::Table {
                publication: $crate::tables::about::$one_publication,
                clause: $one_clause,
                gives: $one_gives,
                source: $one_source,
                grade: $crate::tables::about::Grade::$one_grade,
                second: $crate::tables::about::second!($($one_second)?),
                rows: || $crate::tables::about::as_text(&[("", $one)]),
            };
        )+)?
        /// The register of this file.
        pub const TABLES: &[&$crate::tables::about::Table] = &[$($(&$name.table,)+)? $($(&$one_table,)+)?];
    };
}
pub(super) use tables;

/// The second source of a table, if it has one.
macro_rules! second {
    () => {
        None
    };
    ($source:literal) => {
        Some($crate::tables::about::Second { source: $source, of: None })
    };
    ($source:literal, $of:expr) => {
        Some($crate::tables::about::Second { source: $source, of: Some($of) })
    };
}
pub(super) use second;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clauses_are_found_in_words() {
        for (source, clauses) in [
            ("BS 7671 544.1.1 and Table 54.8, seen in a book", &["544.1.1", "Table 54.8"][..]),
            ("BS 7671 705.411.1, 705.415.2.1 and 705.422.7 (from memory)", &["705.411.1", "705.415.2.1", "705.422.7"]),
            ("BS 7671 722.411.4.1 (i) and (ii) (from memory)", &["722.411.4.1 (i)", "722.411.4.1 (ii)"]),
            ("BS 7671 433.1.1 (from memory) and Table 4Ab (from the origin on); more", &["433.1.1", "Table 4Ab"]),
            ("BS 7671 Table 41.5, note 2 (from memory)", &["Table 41.5, note 2"]),
            ("BS 7671 411.5.3, Table 41.5: 50 V over 30 mA", &["411.5.3", "Table 41.5"]),
            ("BS 7671 511 and 134.1.1; an Act of 2015", &["511", "134.1.1"]),
            ("BS 7671 Appendix 4, section 6.1; BS 7671 Part 6", &["Appendix 4, section 6.1", "Part 6"]),
            ("IEC 62955, and BS 7671 as a whole, 18 pages", &[]),
        ] {
            let whole: Vec<String> = clauses.iter().map(|clause| alloc::format!("BS 7671 {clause}")).collect();
            assert_eq!(clauses_in(source), whole, "{source}");
        }
    }

    #[test]
    fn an_edition_is_said_of_a_clause_and_of_every_grade_of_it() {
        assert_eq!(
            amendment("BS 7671 Table 4C1"),
            "seen: 1992 (16th edition), today's number: the copy calls it Table 4.4; not checked against A4"
        );
        assert_eq!(amendment("530.3.201"), "remembered as of A3:2024; not checked against A4");
        assert!(amendment("Table 4D5").contains("in part remembered as of A2:2022"));
        assert_eq!(seen_of("nothing that is there"), []);
        for (clause, ..) in CITED {
            let all = seen_of(clause);
            assert!(all.iter().rev().skip_while(|(grade, _)| !grade.is_checked()).all(|(grade, _)| grade.is_checked()));
        }
    }
}
