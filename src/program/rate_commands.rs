//! `presurvey setup`, `prices` and `calibrate`: making a setup, reading a price list into one, and learning from recorded jobs.

use crate::input::{Refused, bytes_of, named, none_wrong, read_setup};
use anyhow::{Context, Result};
use jiff::civil::Date;
use model::config::{Setup, check_setup};
use rates::{self, Became, Job};
use serde_json::json;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// Makes a setup from figures and remembered jobs, and returns the report; without either, the list of keys. The setup is written to `out`,
/// if that is given.
pub fn setup(pairs: &[String], jobs: Option<&Path>, day: Option<Date>, out: Option<&Path>) -> Result<String> {
    if pairs.is_empty() && jobs.is_none() {
        return Ok(keys());
    }
    let mut given = Vec::new();
    for pair in pairs {
        let (key, value) = pair
            .split_once('=')
            .ok_or_else(|| Refused(format!("{pair:?} is not allowed; it may be KEY=VALUE, such as hour=£52")))?;
        given.push((key.trim().to_owned(), value.to_owned()));
    }
    let jobs = jobs.map_or_else(|| Ok(Vec::new()), read_jobs)?;
    let day = day.unwrap_or_else(|| jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::now()).date());
    let begun = rates::bootstrap(&given, &jobs, day).map_err(|why| Refused(why.to_string()))?;
    none_wrong("the setup", &check_setup(&begun.setup))?;
    written(&begun.setup, out, begun.report.to_string())
}

/// Every key with its meaning, for `presurvey setup` without arguments.
fn keys() -> String {
    let mut text = String::from("presurvey setup KEY=VALUE … [--jobs FILE] [--out FILE]\n");
    for key in rates::KEYS {
        let left_out =
            if key.default.is_empty() { "needed".into() } else { format!("left out: {}, invented", key.default) };
        let _ = writeln!(text, "  {:<10} {} ({left_out})", key.name, key.says);
    }
    for key in rates::MORE_KEYS {
        let _ = writeln!(text, "  {:<10} {} (left out: {})", key.name, key.says, key.default);
    }
    let _ = write!(text, "  and charge points at cost: {}", rates::POINTS);
    text
}

/// Reads a price list into a setup and returns the report. The changed setup is written to `out`, if that is given.
pub fn prices(file: &Path, setup: &Path, out: Option<&Path>) -> Result<String> {
    let setup = read_setup(setup)?;
    let brought = rates::bring(&bytes_of(file)?, &setup).map_err(|why| Refused(format!("{}: {why}", named(file))))?;
    none_wrong(&named(file), &check_setup(&brought.setup))?;
    let report = &brought.report;
    let count = |became| report.count(became);
    let sum = format!(
        "{report}{} lines taken, {} things not understood, {} supposed.",
        count(Became::Taken),
        count(Became::NotUnderstood),
        count(Became::Supposed)
    );
    if count(Became::Taken) == 0 {
        return Err(Refused(format!("{sum}\n{}: not one line was taken, so nothing is written", named(file))).into());
    }
    written(&brought.setup, out, sum)
}

/// Compares recorded jobs with their estimates and returns the report, as text or JSON. The proposed setup is written to `out`, if that is
/// given.
pub fn calibrate(file: &Path, setup: Option<&Path>, out: Option<&Path>, json: bool) -> Result<String> {
    let jobs = read_jobs(file)?;
    let setup = setup.map(read_setup).transpose()?;
    let made = rates::calibrate(&jobs, setup.as_ref());
    let mut patch = None;
    if let Some(setup) = &setup {
        let difference = rates::proposal(setup, &made.proposed(setup))?;
        if let Some(out) = out {
            let next = rates::accept(setup, &difference)?;
            none_wrong("what is proposed", &check_setup(&next))?;
            save(&next, out)?;
        }
        patch = Some(difference);
    }
    if json {
        return Ok(serde_json::to_string_pretty(&json!({ "report": made, "proposal": patch }))?);
    }
    let mut text = made.told();
    match &patch {
        None => text.push_str("\nNothing is proposed without a setup (--setup FILE)."),
        Some(patch) if patch.0.is_empty() => text.push_str("\nNothing to change in the setup."),
        Some(patch) => {
            let _ =
                write!(text, "\nProposed for the setup, as a JSON Patch:\n{}", serde_json::to_string_pretty(patch)?);
            text.push_str(if out.is_some() {
                "\nTaken."
            } else {
                "\nNothing was changed; --out FILE writes the setup with it."
            });
        }
    }
    Ok(text)
}

fn read_jobs(file: &Path) -> Result<Vec<Job>> {
    Ok(rates::read(&bytes_of(file)?).map_err(|why| Refused(format!("{}: {why}", named(file))))?)
}

/// Writes the setup to `out`, if that is given, and adds to the report where it was written or that it was not.
fn written(setup: &Setup, out: Option<&Path>, report: String) -> Result<String> {
    match out {
        Some(out) => {
            save(setup, out)?;
            Ok(format!("{}\nWritten to {}.", report.trim_end(), out.display()))
        }
        None => Ok(format!("{}\nNothing was written; --out FILE writes the setup.", report.trim_end())),
    }
}

/// Writes a setup. A new file is one that its owner alone may read, as a setup may hold passwords.
fn save(setup: &Setup, out: &Path) -> Result<()> {
    let text = serde_json::to_string_pretty(setup)? + "\n";
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let written = options.open(out).and_then(|mut file| file.write_all(text.as_bytes()));
    written.with_context(|| format!("{} can't be written", PathBuf::from(out).display()))
}
