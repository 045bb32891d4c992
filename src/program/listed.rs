//! What `presurvey sources` lists besides the published tables: assumptions, default times and prices, flags, and other figures in the
//! code, each with its source and with how far that was checked.

use anyhow::{Context, Result};
use engine::flags::{FLAGS, Source};
use model::answers::Word;
use model::config::{CostLine, default_lines};
use model::tables::about::{Grade, clauses_in, seen_of};
use model::units::Pence;
use rates::{self, KEYS};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::fmt::Write as _;
use wording::{Words, engine as engine_words, triage};

/// One listed item with its source.
#[derive(Serialize)]
pub struct Listed {
    /// Its name.
    pub name: String,
    /// Its figures; empty where it has none of its own.
    pub figures: String,
    /// Where it is from.
    pub source: String,
    /// How far the source was checked.
    pub grade: Grade,
}

/// Items of one kind.
#[derive(Serialize)]
pub struct Part {
    /// Its name in JSON.
    pub name: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Its items.
    pub listed: Vec<Listed>,
}

/// What `presurvey sources` lists besides the tables, one part for each kind of figure: calculations, assumptions, defaults, VAT and
/// grants, flags, stated lines and weights.
///
/// # Errors
/// If a list kept in this crate is not valid JSON; tests make sure that it is.
pub fn all() -> Result<Vec<Part>> {
    Ok(vec![
        Part { name: "calculations", title: "Calculations", listed: calculations() },
        Part { name: "assumptions", title: "Assumptions of what nobody could tell", listed: assumptions()? },
        Part { name: "defaults", title: "Default times and cost prices, and rates", listed: defaults() },
        Part { name: "money", title: "Rates of VAT and grants", listed: money()? },
        Part { name: "waits", title: "How long others usually take", listed: waits() },
        Part { name: "flags", title: "Flags", listed: flags() },
        Part { name: "cited", title: "Lines stated to the installer, and rules that go by a clause", listed: lines()? },
        Part { name: "weights", title: "Weights, bounds and thresholds in the code", listed: weights()? },
    ])
}

/// A part as text. Figures that are no facts of the trade come last, in short.
pub fn as_text(part: &Part) -> String {
    let (own, ours): (Vec<&Listed>, Vec<&Listed>) = part.listed.iter().partition(|one| one.grade == Grade::Own);
    let mut text = format!("\n{}\n", part.title);
    for one in ours {
        let figures = if one.figures.is_empty() { String::new() } else { format!(": {}", one.figures) };
        let source = if one.source == one.grade.word() { String::new() } else { format!(": {}", one.source) };
        let _ = writeln!(text, "  {}{figures} [{}]{source}", one.name, one.grade.word()); // a String takes all
    }
    if !own.is_empty() {
        let names: Vec<String> = own.iter().map(|one| format!("{} ({})", one.name, one.figures)).collect();
        let _ = writeln!(text, "  No fact of the trade, {}: {}", Grade::Own.word(), names.join("; "));
    }
    text
}

fn calculations() -> Vec<Listed> {
    let listed = figures::each().map(|figure| {
        let source = figure.whole_source();
        let grade = graded(&source);
        Listed { name: figure.name.to_owned(), figures: figure.formula.to_owned(), source, grade }
    });
    listed.collect()
}

/// The grade that a source states; from memory if it states none. (Tests make sure that every source states one.)
fn graded(source: &str) -> Grade {
    Grade::said(source).unwrap_or(Grade::FromMemory)
}

/// A setup with nothing but the required figures, all others being defaults.
fn default_setup() -> Result<model::config::Setup> {
    let given = ["name", "telephone"].map(|key| (key.to_owned(), "none".to_owned()));
    Ok(rates::bootstrap(&given, &[], jiff::civil::Date::constant(2026, 1, 1))?.setup)
}

fn assumptions() -> Result<Vec<Listed>> {
    let mut paths = Vec::new();
    flatten(&default_setup()?.whole()["priors"], "", &mut paths);
    let of_practice = |(name, figures)| Listed {
        name,
        figures,
        source: Grade::CommonPractice.word().to_owned(),
        grade: Grade::CommonPractice,
    };
    Ok(paths.into_iter().map(of_practice).collect())
}

fn flatten(value: &Value, at: &str, into: &mut Vec<(String, String)>) {
    match value {
        Value::Object(fields) => {
            for (name, inner) in fields {
                let path = if at.is_empty() { name.clone() } else { format!("{at}.{name}") };
                flatten(inner, &path, into);
            }
        }
        other => into.push((at.to_owned(), other.to_string())),
    }
}

fn defaults() -> Vec<Listed> {
    let line = |CostLine { item, minutes, cost, source }: CostLine| Listed {
        name: item.word().to_owned(),
        figures: format!(
            "{} / {} / {} min, {} / {} / {}",
            minutes.low.get(),
            minutes.likely.get(),
            minutes.high.get(),
            cost.low,
            cost.likely,
            cost.high
        ),
        grade: Grade::said(&source).unwrap_or(Grade::Invented),
        source,
    };
    let key = |key: &rates::Key| Listed {
        name: key.name.to_owned(),
        figures: key.default.to_owned(),
        source: key.says.to_owned(),
        grade: Grade::Invented,
    };
    let rates = KEYS.iter().filter(|key| !key.default.is_empty()).map(key);
    default_lines().into_iter().map(line).chain(rates).collect()
}

fn money() -> Result<Vec<Listed>> {
    let config = default_setup()?.publish();
    let vat = config.rates.vat.rates.into_iter().map(|rate| Listed {
        name: format!("VAT from {}", rate.from),
        figures: format!("{} %", (rate.rate.get() * 1_000.0).round() / 10.0),
        grade: graded(&rate.source),
        source: rate.source,
    });
    let grants = config.grants.into_iter().map(|grant| Listed {
        name: format!("{} from {}, read {}", grant.name, grant.from, grant.read),
        figures: format!("up to {}", grant.most),
        grade: graded(&grant.source),
        source: grant.source,
    });
    // People who let a home do not fill in the form, so the published config has no grants for them.
    let known: Value =
        serde_json::from_str(include_str!("../model/config/money.json")).context("reading money.json")?;
    let text = |grant: &Value, key: &str| grant[key].as_str().unwrap_or_default().to_owned();
    let landlords = known["landlords"].as_array().into_iter().flatten().map(|grant| Listed {
        name: format!("{} from {}, read {}", text(grant, "name"), text(grant, "from"), text(grant, "read")),
        figures: format!("up to {}", Pence(grant["most"].as_i64().unwrap_or_default())),
        grade: graded(&text(grant, "source")),
        source: text(grant, "source"),
    });
    Ok(vat.chain(grants).chain(landlords).collect())
}

/// How long others take, as the homeowner is told; waits without a time of their own are left out.
fn waits() -> Vec<Listed> {
    let waits = engine_words::EN.iter().filter(|(key, text)| {
        key.starts_with("wait-") && ["day", "week", "month"].iter().any(|unit| text.contains(unit))
    });
    let listed = waits.map(|(key, text)| Listed {
        name: key.to_owned(),
        figures: text.to_owned(),
        source: Grade::CommonPractice.word().to_owned(),
        grade: Grade::CommonPractice,
    });
    listed.collect()
}

fn flags() -> Vec<Listed> {
    let flag = |flag: &engine::flags::Flag| Listed {
        name: flag.code.to_owned(),
        figures: String::new(),
        source: flag.source.to_string(),
        grade: match flag.source {
            Source::CommonPractice => Grade::CommonPractice,
            Source::Published(source) => graded(source),
        },
    };
    FLAGS.iter().map(flag).collect()
}

/// A source that the code names: of a line stated to the installer, or of a rule.
#[derive(Deserialize)]
pub struct Cited {
    file: String,
    item: String,
    /// The line's name; empty for a rule.
    line: String,
    /// The values of the line, by their names in the wording.
    values: Vec<String>,
    /// The source; for a rule, the comment that names it.
    pub says: String,
}

impl Cited {
    /// Its name in the list.
    pub fn name(&self) -> String {
        if self.line.is_empty() {
            let whole = format!("rule {}, {}", self.file.trim_start_matches("src/"), self.item);
            whole.trim_end_matches(", ").to_owned()
        } else {
            format!("line {}", self.line)
        }
    }

    /// The statement of a line, in the installer's words; empty for a rule, whose comment says it.
    pub fn statement(&self) -> String {
        let words = Words::new(triage::EN);
        let Some(title) = words.find(&format!("protection-{}", self.line)) else {
            // The line of an obligation.
            let ends = format!("-{}", self.line);
            let owed = triage::EN.iter().find(|(key, _)| key.starts_with("owed-way-") && key.ends_with(&ends));
            return owed.filter(|_| !self.line.is_empty()).map_or_else(String::new, |(_, text)| text.to_owned());
        };
        let said = |value: &String| words.find(&format!("protection-{}-{value}", self.line));
        let mut values: Vec<&str> = self.values.iter().filter_map(said).collect();
        values.dedup();
        let values = values.join(" / ");
        if values.is_empty() { title.to_owned() } else { format!("{title}: {values}") }
    }

    /// How far the source was checked: as it says itself, or else as far as the clauses that it names.
    fn grade(&self) -> Grade {
        let of_clauses = || {
            let seen: Vec<_> = clauses_in(&self.says).iter().flat_map(|clause| seen_of(clause)).collect();
            let all = !seen.is_empty() && seen.iter().all(|(grade, _)| grade.is_checked());
            if all { Grade::Quoted } else { Grade::FromMemory }
        };
        Grade::said(&self.says).unwrap_or_else(of_clauses)
    }
}

/// The cited sources, from the list that `cargo xtask accept` makes of the code.
pub fn cited() -> Result<Vec<Cited>> {
    serde_json::from_str(include_str!("cited.json")).context("reading cited.json")
}

fn lines() -> Result<Vec<Listed>> {
    let mut listed: Vec<Listed> = Vec::new();
    // An entry with "common practice" alone and no line of its own is listed with the weights.
    let bare = |cited: &Cited| cited.line.is_empty() && cited.says == Grade::CommonPractice.word();
    for cited in cited()?.into_iter().filter(|cited| !bare(cited)) {
        let (name, figures, grade) = (cited.name(), cited.statement(), cited.grade());
        let one = Listed { name, figures, source: cited.says, grade };
        if !listed
            .iter()
            .any(|other| (&other.name, &other.figures, &other.source) == (&one.name, &one.figures, &one.source))
        {
            listed.push(one);
        }
    }
    Ok(listed)
}

/// The weights, from the list that `cargo xtask accept` makes of the code.
fn weights() -> Result<Vec<Listed>> {
    let rows: Vec<Value> = serde_json::from_str(include_str!("weights.json")).context("reading weights.json")?;
    let text = |row: &Value, key: &str| row[key].as_str().unwrap_or_default().to_owned();
    let listed = rows.iter().map(|row| {
        let figures = row["figures"].as_array().into_iter().flatten().filter_map(Value::as_str);
        Ok(Listed {
            name: [text(row, "file").trim_start_matches("src/"), &*text(row, "item")]
                .join(", ")
                .trim_end_matches(", ")
                .into(),
            figures: figures.collect::<Vec<_>>().join(", "),
            source: text(row, "says"),
            grade: Grade::named(&text(row, "grade")).context("weights.json has a grade that is none")?,
        })
    });
    listed.collect()
}
