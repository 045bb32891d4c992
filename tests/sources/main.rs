//! Published figures, typed again under the source they were published in, and worked examples with their published answers.
//!
//! What is typed a second time from one and the same copy finds errors of typing only; a row that an independent second source has as
//! well says so (`also`), and `presurvey sources` counts those apart. Worked examples are answers that somebody else published.
//!
//! Nothing here is taken from what the program printed: tables are typed row by row as their sources lay them out, and worked
//! examples go through the same register of figures that the command line and the installer's page use.

mod cited;
mod edges;
mod grades;
mod homes;
mod laws;
mod marks;
mod network_solver;
mod places;
#[path = "../support/mod.rs"]
mod support;
mod tables;
mod units;
mod worked;

use presurvey::figures::Working;
use presurvey::figures::{Arguments, FigureError, named};
use std::path::{Path, PathBuf};

/// The Rust files of these rooms of `src` and all that is in them, and these single files; tests in files of their own left out. In the
/// order of their names.
pub fn code(rooms: &[&str], files: &[&str]) -> Vec<PathBuf> {
    let root = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../..")).join("src");
    let mut folders: Vec<PathBuf> = rooms.iter().map(|room| root.join(room)).collect();
    let mut found: Vec<PathBuf> = files.iter().map(|file| root.join(file)).collect();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|kind| kind == "rs")
                && !path.to_string_lossy().ends_with("_tests.rs")
            {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// Works a figure as the command line would.
pub fn work(name: &str, arguments: &str) -> Result<Working, FigureError> {
    let figure = named(name)?;
    let pairs = arguments.split_whitespace();
    figure.working(&Arguments::read(figure, pairs)?)
}

/// Its value as a number, in its own unit.
pub fn number(name: &str, arguments: &str) -> f64 {
    let working = work(name, arguments).unwrap_or_else(|why| panic!("{name} {arguments}: {why}"));
    working.number.unwrap_or_else(|| panic!("{name} {arguments}: {} is no number", working.value))
}

/// One of its steps as a number, in the step's own unit.
pub fn step(name: &str, arguments: &str, step: &str) -> f64 {
    let working = work(name, arguments).unwrap_or_else(|why| panic!("{name} {arguments}: {why}"));
    let found = working.steps.iter().find(|input| input.name == step);
    let found = found.unwrap_or_else(|| panic!("{name} has no step {step:?}: {:?}", working.steps));
    found.value.split(' ').next().unwrap().parse().unwrap()
}

/// Whether a figure lies within a tolerance of what was published.
#[track_caller]
pub fn close(ours: f64, published: f64, tolerance: f64) {
    assert!((ours - published).abs() <= tolerance, "{ours} is not {published} within {tolerance}");
}
