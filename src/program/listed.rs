//! What stands beside the published tables: assumptions, default times and prices, flags, and what weighs in the code; each with its
//! source and what was seen of it.

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
use wording::{Words, estimate, triage};

/// One thing with its source.
#[derive(Serialize)]
pub struct Listed {
    /// What it is, by name.
    pub name: String,
    /// Its figures; empty where it has none of its own.
    pub figures: String,
    /// Where it is from.
    pub source: String,
    /// What was seen of it.
    pub grade: Grade,
}

/// Things of one kind.
#[derive(Serialize)]
pub struct Part {
    /// Its name in JSON.
    pub name: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What is in it.
    pub listed: Vec<Listed>,
}

/// What `presurvey sources` lists beside the tables, one part a kind of figure: calculations, assumptions, defaults, VAT and grants,
/// flags, stated lines and weights.
///
/// # Errors
/// When a kept list of the program can't be read as JSON; the tests keep it readable.
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

/// A part for people: what is no fact of the trade stands last, and short.
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

/// What a source says of itself; of one that says nothing nothing is known. (Tests hold every source to say it.)
fn graded(source: &str) -> Grade {
    Grade::said(source).unwrap_or(Grade::FromMemory)
}

/// A setup in which nothing but what is needed was given.
fn default_setup() -> Result<model::config::Setup> {
    let given = ["name", "telephone"].map(|key| (key.to_owned(), "none".to_owned()));
    Ok(rates::begin(&given, &[], jiff::civil::Date::constant(2026, 1, 1))?.setup)
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
    // Whoever lets a home does not fill in the form: the config that is published has no grant of theirs.
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

/// How long others take, as the homeowner is told; what has no time of its own aside.
fn waits() -> Vec<Listed> {
    let waits = estimate::EN.iter().filter(|(key, text)| {
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

/// A source that the code names: of a line that is stated to the installer, or of a rule.
#[derive(Deserialize)]
pub struct Cited {
    file: String,
    item: String,
    /// The line's name; empty for a rule.
    line: String,
    /// What the line may say, by the names of the wording.
    values: Vec<String>,
    /// The source; of a rule, the remark that names it.
    pub says: String,
}

impl Cited {
    /// What it is, by name.
    pub fn name(&self) -> String {
        if self.line.is_empty() {
            let whole = format!("rule {}, {}", self.file.trim_start_matches("src/"), self.item);
            whole.trim_end_matches(", ").to_owned()
        } else {
            format!("line {}", self.line)
        }
    }

    /// What a line says, in the installer's words; empty for a rule, whose remark says it.
    pub fn statement(&self) -> String {
        let words = Words::new(triage::EN);
        let Some(title) = words.find(&format!("protection-{}", self.line)) else {
            // What is owed to somebody.
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

    /// What was seen: as the source says, or else as is known of the clauses that it names.
    fn grade(&self) -> Grade {
        let of_clauses = || {
            let seen: Vec<_> = clauses_in(&self.says).iter().flat_map(|clause| seen_of(clause)).collect();
            let all = !seen.is_empty() && seen.iter().all(|(grade, _)| grade.is_checked());
            if all { Grade::Quoted } else { Grade::FromMemory }
        };
        Grade::said(&self.says).unwrap_or_else(of_clauses)
    }
}

/// As a test made the list of the code.
pub fn cited() -> Result<Vec<Cited>> {
    serde_json::from_str(include_str!("cited.json")).context("reading cited.json")
}

fn lines() -> Result<Vec<Listed>> {
    let mut listed: Vec<Listed> = Vec::new();
    // A habit without a line of its own stands among the weights.
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

/// As a test made the list of the code.
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
