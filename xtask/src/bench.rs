//! `cargo xtask bench`: criterion's figures, kept in `tests/results` with the machine they were measured on. They are compared as ratios,
//! never asserted.

use crate::machine::Machine;
use crate::run::run;
use anyhow::{Context, Result};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// Runs the benchmarks and writes `tests/results/bench.md`.
///
/// # Errors
/// If the benchmarks fail, or leave nothing to read.
pub fn bench(machine: &Machine) -> Result<()> {
    run(
        machine.command("cargo").args(["bench", "--package", "presurvey", "--bench", "assess"]),
        "The bench's own messages above say why.",
    )?;
    let folder = machine.target().join("criterion");
    let table = as_table(&read(&folder)?, &describe(machine));
    print!("{table}");
    let kept = machine.repo.join("tests/results/bench.md");
    fs::write(&kept, table).with_context(|| format!("writing {}", kept.display()))
}

/// The name and mean time of every benchmark in nanoseconds, in order of the names.
fn read(folder: &Path) -> Result<Vec<(String, f64)>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).with_context(|| format!("reading {}", folder.display()))? {
        let new = entry?.path().join("new");
        let (Ok(bench), Ok(estimates)) = (fs::read(new.join("benchmark.json")), fs::read(new.join("estimates.json")))
        else {
            continue; // criterion keeps other folders beside those of benchmarks
        };
        let bench: serde_json::Value = serde_json::from_slice(&bench)?;
        let estimates: serde_json::Value = serde_json::from_slice(&estimates)?;
        let name = bench["full_id"].as_str().context("a bench without a name")?;
        let mean = estimates["mean"]["point_estimate"].as_f64().context("a bench without a mean")?;
        found.push((name.to_owned(), mean));
    }
    anyhow::ensure!(!found.is_empty(), "{} holds no bench", folder.display());
    found.sort_by(|a, b| a.0.cmp(&b.0));
    Ok(found)
}

/// The machine's processor, cores and compiler.
fn describe(machine: &Machine) -> String {
    let processor = fs::read_to_string("/proc/cpuinfo").ok().and_then(|text| {
        let line = text.lines().find(|line| line.starts_with("model name"))?;
        Some(line.split_once(": ")?.1.to_owned())
    });
    let compiler = machine.ask("rustc", &["--version"]).unwrap_or_default();
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    format!("{}, {cores} cores, {}", processor.unwrap_or_else(|| "processor not known".to_owned()), compiler.trim())
}

fn as_table(found: &[(String, f64)], machine: &str) -> String {
    let mut table = format!(
        "# Benchmarks\n\nMean times, to be compared as ratios. Written by `cargo xtask bench`.\n\n{machine}\n\n| what | mean |\n| --- | ---: |\n"
    );
    for (name, nanoseconds) in found {
        let _ = writeln!(table, "| {name} | {} |", in_words(*nanoseconds)); // a String takes all
    }
    table
}

fn in_words(nanoseconds: f64) -> String {
    if nanoseconds < 1e3 {
        format!("{nanoseconds:.0} ns")
    } else if nanoseconds < 1e6 {
        format!("{:.1} µs", nanoseconds / 1e3)
    } else {
        format!("{:.2} ms", nanoseconds / 1e6)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_told_in_a_unit_of_its_size() {
        assert_eq!(in_words(211.4), "211 ns");
        assert_eq!(in_words(824_710.0), "824.7 µs");
        assert_eq!(in_words(5_100_000.0), "5.10 ms");
    }

    #[test]
    fn no_bench_is_an_error() {
        assert!(read(Path::new("no such folder")).is_err());
    }

    #[test]
    fn the_table_names_the_machine() {
        let table = as_table(&[("assess".to_owned(), 1e6)], "a machine");
        assert!(table.contains("a machine") && table.contains("| assess | 1.00 ms |"));
    }
}
