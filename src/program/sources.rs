//! `presurvey sources`: where the figures are from and how far they were checked.

use super::listed;
use anyhow::Result;
use engine::flags::FLAGS;
use model::tables::ALL;
use model::tables::about::{BS_7671, Grade, Table, amendment, clauses_in, seen_of};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use wording::{Words, flags_installer};

/// The report, as text or JSON.
///
/// # Errors
/// As [`super::listed::all`].
pub fn tell(json: bool) -> Result<String> {
    let report = Report::made()?;
    let parts = listed::all()?;
    Ok(if json {
        let mut whole = report.as_json();
        for part in &parts {
            whole[part.name] = serde_json::to_value(&part.listed)?;
        }
        serde_json::to_string_pretty(&whole)?
    } else {
        let parts: Vec<String> = parts.iter().map(listed::as_text).collect();
        [report.as_text(), parts.concat()].join("\n").trim_end().to_owned()
    })
}

/// What the check of the rows is worth, for the report.
const CHECKED: &str = "  Every row is typed a second time in the tests; where that is from the same copy it finds errors of typing only, and nothing \
that the copy has wrong.
";
/// Clauses that were not seen in the edition in force, and what depends on each.
pub fn clauses() -> Result<BTreeMap<String, Vec<Rests>>> {
    Ok(Report::made()?.unchecked)
}

/// An item that depends on a clause.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Rests {
    /// Its name: what a table gives, or `figure` or `flag` with its name.
    pub name: String,
    /// Its statement in words; empty for a table, whose rows say it.
    pub says: String,
    /// The rows of a table as text.
    pub rows: Vec<String>,
    /// How far the clause was checked, for the part that this depends on.
    pub grade: Grade,
    /// The edition in which it was seen, or from which it is remembered.
    pub edition: &'static str,
}

impl Rests {
    /// An item other than a table. Its grade is the clause's, or from memory if its own source says so.
    fn on(clause: &str, name: String, says: String, said: Option<Grade>) -> Self {
        // Nobody can tell which part of the clause this depends on, so the least certain part decides.
        let (grade, edition) = seen_of(clause).last().copied().unwrap_or((Grade::FromMemory, "an amendment not kept"));
        let grade = if said == Some(Grade::FromMemory) { Grade::FromMemory } else { grade };
        Self { name, says, rows: Vec::new(), grade, edition }
    }
}

struct Report {
    tables: Vec<&'static Table>,
    /// Clauses that were not seen in the edition in force, and what depends on each.
    unchecked: BTreeMap<String, Vec<Rests>>,
}

impl Report {
    fn made() -> Result<Self> {
        let tables: Vec<&'static Table> = ALL.iter().flat_map(|file| file.iter().copied()).collect();
        let mut unchecked: BTreeMap<String, Vec<Rests>> = BTreeMap::new();
        for table in tables.iter().filter(|table| table.publication.unchecked.is_some()) {
            unchecked.entry(table.reference()).or_default().push(Rests {
                name: table.gives.to_owned(),
                says: String::new(),
                rows: (table.rows)().iter().map(|row| one(&row.at, &row.value)).collect(),
                grade: table.grade,
                edition: table.seen_in(),
            });
        }
        let mut rests = |clause: String, name: &str, says: &str, said: Option<Grade>| {
            let one = Rests::on(&clause, name.to_owned(), says.to_owned(), said);
            unchecked.entry(clause).or_default().push(one);
        };
        for figure in figures::each() {
            let of_bs_7671 = figure.clauses.iter().filter(|(publication, _)| publication.unchecked.is_some());
            for (publication, clause) in of_bs_7671 {
                let clause = format!("{} {clause}", publication.title);
                rests(clause, &format!("figure {}", figure.name), figure.formula, None);
            }
        }
        // A flag names its clauses in the text of its source.
        let words = Words::new(flags_installer::EN);
        for flag in FLAGS {
            let source = flag.source.to_string();
            let said = |part: &str| words.find(&format!("flag-{}-{part}", flag.code)).unwrap_or_default();
            for clause in clauses_in(&source) {
                let says = format!("{} {}", said("why"), said("do"));
                rests(clause, &format!("flag {}", flag.code), &says, Grade::said(&source));
            }
        }
        for cited in listed::cited()? {
            for clause in clauses_in(&cited.says) {
                let statement = cited.statement();
                let says = if statement.is_empty() { cited.says.clone() } else { statement };
                rests(clause, &cited.name(), &says, Grade::said(&cited.says));
            }
        }
        for rests in unchecked.values_mut() {
            let all = std::mem::take(rests);
            for one in all {
                if !rests.contains(&one) {
                    rests.push(one);
                }
            }
        }
        Ok(Self { tables, unchecked })
    }

    /// The number of rows of a grade.
    fn rows(&self, grade: Grade) -> usize {
        self.tables.iter().filter(|table| table.grade == grade).map(|table| (table.rows)().len()).sum()
    }

    /// The publications that were read themselves, and whether the wiring regulations are among them.
    fn read_themselves(&self) -> String {
        let read = self.tables.iter().filter(|table| table.grade == Grade::Itself);
        let titles: BTreeSet<&str> = read.map(|table| table.publication.title).collect();
        let none = if titles.contains(BS_7671.title) {
            String::new()
        } else {
            format!("; no row of {} was read in the standard", BS_7671.title)
        };
        let titles: Vec<&str> = titles.into_iter().collect();
        format!(", textbooks' own: {}{none}", titles.join("; "))
    }

    /// The number of rows that an independent second source confirms.
    fn seen_twice(&self) -> usize {
        self.tables.iter().map(|table| table.seen_twice()).sum()
    }

    /// Tables whose only source is memory or common practice.
    fn alone(&self) -> impl Iterator<Item = &'static Table> {
        self.tables.iter().copied().filter(|table| !table.grade.is_checked())
    }

    fn as_text(&self) -> String {
        let mut text = String::from("Rows of tables, by what was seen\n");
        for grade in <Grade as model::answers::Word>::ALL.iter().filter(|grade| self.rows(**grade) > 0) {
            let of = if *grade == Grade::Itself { self.read_themselves() } else { String::new() };
            let _ = writeln!(text, "  {:>4}  {}{of}", self.rows(*grade), grade.word()); // a String takes all
        }
        let _ =
            writeln!(text, "  {:>4}  of these rows stand in an independent second source as well", self.seen_twice());
        text.push_str(CHECKED);
        text.push_str("\nTables\n");
        for table in &self.tables {
            let of = |row: &model::tables::about::RowInWords| one(&row.at, &row.value);
            let rows: Vec<String> = (table.rows)().iter().map(of).collect();
            let edition = table.publication.edition;
            let edition = if edition.is_empty() { String::new() } else { format!(" ({edition})") };
            let second = table.second.map_or_else(String::new, |second| {
                format!("; {} of its rows also: {}", table.seen_twice(), second.source)
            });
            let _ = writeln!(
                text,
                "  {}{edition} [{}]: {}: {}. {}{second}",
                table.reference(),
                table.grade.word(),
                table.gives,
                rows.join("; "),
                table.source,
            );
        }
        text.push_str("\nNot counted as checked: rows from memory or habit alone\n");
        for table in self.alone() {
            let rows: Vec<String> = (table.rows)().iter().map(|row| one(&row.at, &row.value)).collect();
            let _ = writeln!(
                text,
                "  {} [{}]: {}: {}",
                table.reference(),
                table.grade.word(),
                table.gives,
                rows.join("; ")
            );
        }
        let _ = writeln!(
            text,
            "\nClauses of {} {}, not checked against {} (in force; the edition before it is withdrawn)",
            BS_7671.title,
            BS_7671.edition,
            BS_7671.unchecked.unwrap_or_default()
        );
        for (clause, cited_by) in &self.unchecked {
            let cites: Vec<&str> = cited_by.iter().map(|rests| &*rests.name).collect();
            let _ = writeln!(text, "  {clause} [{}]: {}", amendment(clause), cites.join("; "));
        }
        text.trim_end().to_owned()
    }

    fn as_json(&self) -> Value {
        let tables: Vec<Value> = self
            .tables
            .iter()
            .map(|table| {
                let rows: Vec<Value> =
                    (table.rows)().into_iter().map(|row| json!({ "row": row.at, "value": row.value })).collect();
                json!({
                    "table": table.reference(),
                    "edition": table.publication.edition,
                    "not_checked_against": table.publication.unchecked,
                    "gives": table.gives,
                    "source": table.source,
                    "grade": table.grade,
                    "checked": table.grade.is_checked(),
                    "second_source": table.second.map(|second| second.source),
                    "rows_seen_twice": table.seen_twice(),
                    "rows": rows,
                })
            })
            .collect();
        let amendments: BTreeMap<&String, String> =
            self.unchecked.keys().map(|clause| (clause, amendment(clause))).collect();
        let names = |rests: &Vec<Rests>| rests.iter().map(|one| one.name.clone()).collect::<Vec<_>>();
        let cited: BTreeMap<&String, Vec<String>> =
            self.unchecked.iter().map(|(clause, rests)| (clause, names(rests))).collect();
        json!({ "tables": tables, "clauses_not_checked": cited, "amendments": amendments })
    }
}

fn one(at: &str, value: &str) -> String {
    if at.is_empty() { value.to_owned() } else { format!("{at} → {value}") }
}
