//! `presurvey figure`: one calculation with its working, or the list of all calculations.

use crate::input::Refused;
use anyhow::Result;
use figures::{Arguments, Figure, FigureError, LeftOut, Takes, each, named};
use figures::{Input, TableRow, Working};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// The working of the calculation `name`, as text or JSON. Without arguments: what it takes. Without a name: all calculations.
pub fn tell(name: Option<&str>, arguments: &[String], json: bool) -> Result<String> {
    let refused = |why: FigureError| Refused(why.to_string());
    match (name, arguments) {
        (None, _) if json => Ok(serde_json::to_string_pretty(&each().map(described).collect::<Vec<_>>())?),
        (None, _) => Ok(list()),
        (Some(name), []) if json => Ok(serde_json::to_string_pretty(&described(named(name).map_err(refused)?))?),
        (Some(name), []) => Ok(help(named(name).map_err(refused)?)),
        (Some(name), pairs) => {
            let figure = named(name).map_err(refused)?;
            let arguments = Arguments::read(figure, pairs.iter().map(String::as_str)).map_err(refused)?;
            let working = figure.working(&arguments).map_err(refused)?;
            Ok(if json { serde_json::to_string_pretty(&working)? } else { shown(&working) })
        }
    }
}

fn list() -> String {
    let mut text = String::from("presurvey figure NAME KEY=VALUE …   (NAME alone tells more of it)\n");
    for figure in each() {
        let keys: Vec<String> = figure.inputs().map(key).collect();
        let _ = write!(text, "\n{}\n    {}\n    {}\n", figure.name, figure.gives, keys.join(" ")); // a String takes all
    }
    text.trim_end().to_owned()
}

/// A key with its unit for the list, in brackets if it may be left out.
fn key(input: &Takes) -> String {
    let key = format!("{}={}", input.key, input.kind.in_short());
    if matches!(input.left_out, LeftOut::Refused) { key } else { format!("[{key}]") }
}

fn help(figure: &Figure) -> String {
    let mut text =
        format!("{}: {}\n\nHow: {}\nSource: {}\n\n", figure.name, figure.gives, figure.formula, figure.whole_source());
    let widest = figure.inputs().map(|input| input.key.len()).max().unwrap_or(0);
    for input in figure.inputs() {
        let left_out = match left_out(input) {
            Some(words) => format!(" ({words})"),
            None => String::new(),
        };
        let _ = writeln!(
            text,
            "  {:widest$}  {}{left_out}\n  {:widest$}  {}",
            input.key,
            input.is,
            "",
            input.kind.written()
        );
    }
    let _ = write!(text, "\nFor example: presurvey figure {} {}", figure.name, figure.example);
    text
}

/// What applies if an input is left out; `None` if it may not be.
fn left_out(input: &Takes) -> Option<String> {
    match input.left_out {
        LeftOut::Refused => None,
        LeftOut::Table(value, table) => {
            Some(format!("left out: {}, {}, {}", value(), table.reference(), table.grade.word()))
        }
        LeftOut::Usual(value) => Some(format!("left out: {}", value())),
        LeftOut::Without(words) => Some(format!("left out: {words}")),
    }
}

fn described(figure: &'static Figure) -> Value {
    let inputs: Vec<Value> = figure
        .inputs()
        .map(|input| {
            json!({
                "key": input.key,
                "is": input.is,
                "written": input.kind.written(),
                "needed": matches!(input.left_out, LeftOut::Refused),
                "left_out": left_out(input),
            })
        })
        .collect();
    json!({
        "name": figure.name,
        "gives": figure.gives,
        "formula": figure.formula,
        "source": figure.whole_source(),
        "inputs": inputs,
        "example": figure.example,
    })
}

fn shown(working: &Working) -> String {
    let mut text = format!("{}: {}\n\nHow: {}\n", working.figure, working.value, working.formula);
    let lines = |text: &mut String, title: &str, each: &[Input]| {
        if !each.is_empty() {
            let _ = writeln!(text, "\n{title}");
        }
        for input in each {
            let _ = writeln!(text, "  {}: {}", input.name, input.value);
        }
    };
    lines(&mut text, "From", &working.inputs);
    lines(&mut text, "On the way", &working.steps);
    if !working.rows.is_empty() {
        text.push_str("\nTable rows used\n");
    }
    for TableRow { table, gives, row, value, grade, edition, .. } in &working.rows {
        let at = if row.is_empty() { String::new() } else { format!(", {row}") };
        let edition = if edition.is_empty() { String::new() } else { format!(" ({edition})") };
        let _ = writeln!(text, "  {table}{edition}: {gives}{at}: {value} [{grade}]");
    }
    let _ = write!(text, "\nSource: {}\nA calculation before a survey, not a design.", working.source);
    text
}
