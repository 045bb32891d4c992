//! Figures: the engine's calculations by name, with the inputs that each takes and the working that it shows.
//!
//! There is one register ([`ALL`]), from which the list, the help, the parsing of arguments and the working on a page are made. A value
//! that a source takes as constant (230 V, Cmin, a limit) is an input with a default, so that an example from an older book can be worked
//! with the book's own. Nothing of this is in the engine: a working is made only when asked for.

#![cfg_attr(not(any(feature = "std", test)), no_std)]
extern crate alloc;

mod arguments;
mod cable;
mod capacity;
mod demand;
mod driving;
mod fault_loop;
mod feed_working;
mod limits;
mod protective;
mod radio;
mod surroundings;
mod table_rows;
mod value;
mod voltage_drop;
mod working;

pub use arguments::{Arguments, FigureError};
pub use cable::CABLE_SIZE;
pub use demand::{FIXED_LIMIT, HEADROOM, LOAD_SENSING, MAXIMUM_DEMAND};
pub use driving::{ENERGY_A_NIGHT, MONEY_A_YEAR};
pub use fault_loop::LOOP_IMPEDANCE;
pub use protective::{ADIABATIC, EARTHING_CONDUCTOR, MAIN_BONDING, METER_TAILS};
pub use value::{OneOf, Taken, Value, ValueKind};
pub use voltage_drop::VOLTAGE_DROP;

use alloc::string::{String, ToString};
use alloc::vec::Vec;
use model::tables::about::{Publication, Table};
pub use working::{Input, TableRow, Working, working};

/// Every figure.
pub const ALL: &[&[&Figure]] = &[
    demand::FIGURES,
    cable::FIGURES,
    capacity::FIGURES,
    voltage_drop::FIGURES,
    fault_loop::FIGURES,
    limits::FIGURES,
    protective::FIGURES,
    driving::FIGURES,
    radio::FIGURES,
];

/// One figure: a calculation by name.
#[derive(Debug)]
pub struct Figure {
    /// Its name, in the trade's words with hyphens.
    pub name: &'static str,
    /// What it gives, in one line.
    pub gives: &'static str,
    /// Its formula.
    pub formula: &'static str,
    /// The clauses that it is from.
    pub clauses: &'static [(Publication, &'static str)],
    /// Where they were seen, and remarks on that.
    pub source: &'static str,
    /// The inputs it takes, in groups that figures share.
    pub takes: &'static [&'static [Takes]],
    /// Example arguments that can be worked.
    pub example: &'static str,
    /// The calculation.
    pub work: fn(&Arguments) -> Result<Reached, FigureError>,
}

/// One input of a figure.
#[derive(Debug)]
pub struct Takes {
    /// Its name.
    pub key: &'static str,
    /// What it is.
    pub is: &'static str,
    /// How it is written.
    pub kind: ValueKind,
    /// What happens where it is left out.
    pub left_out: LeftOut,
}

/// What happens where an input is left out.
#[derive(Debug)]
pub enum LeftOut {
    /// It is required.
    Refused,
    /// This default is taken, from that table.
    Table(fn() -> Value, &'static Table),
    /// This usual value is taken.
    Usual(fn() -> Value),
    /// The figure does without it, as the words explain.
    Without(&'static str),
}

const fn needed(key: &'static str, is: &'static str, kind: ValueKind) -> Takes {
    Takes { key, is, kind, left_out: LeftOut::Refused }
}

const fn from_table(
    key: &'static str,
    is: &'static str,
    kind: ValueKind,
    value: fn() -> Value,
    table: &'static Table,
) -> Takes {
    Takes { key, is, kind, left_out: LeftOut::Table(value, table) }
}

const fn usual(key: &'static str, is: &'static str, kind: ValueKind, value: fn() -> Value) -> Takes {
    Takes { key, is, kind, left_out: LeftOut::Usual(value) }
}

const fn without(key: &'static str, is: &'static str, kind: ValueKind, then: &'static str) -> Takes {
    Takes { key, is, kind, left_out: LeftOut::Without(then) }
}

/// Nominal voltage to earth, as most figures take it.
const NOMINAL: Takes = from_table(
    "voltage",
    "nominal voltage to earth",
    ValueKind::Volts,
    || Value::Volts(model::tables::voltage::NOMINAL),
    &model::tables::voltage::NOMINAL_TABLE,
);

/// The result of a figure.
#[derive(Clone, Debug)]
pub struct Reached {
    /// The value.
    pub value: Value,
    /// What the value means, where that needs saying.
    pub says: Option<String>,
    /// Intermediate results.
    pub steps: Vec<(String, Value)>,
    /// The rows of tables that were used.
    pub rows: Vec<TableRow>,
}

impl Reached {
    /// A result with a value alone.
    pub fn of(value: impl Into<Value>) -> Self {
        Self { value: value.into(), says: None, steps: Vec::new(), rows: Vec::new() }
    }

    /// The same result with what the value means.
    #[must_use]
    pub fn saying(mut self, says: impl Into<String>) -> Self {
        self.says = Some(says.into());
        self
    }

    /// The same result with one more intermediate result.
    #[must_use]
    pub fn step(mut self, name: impl Into<String>, value: impl Into<Value>) -> Self {
        self.steps.push((name.into(), value.into()));
        self
    }

    /// The same result with one more row of a table; a row is listed once.
    #[must_use]
    pub fn row(mut self, table: &Table, at: &impl ToString) -> Self {
        table_rows::add(&mut self.rows, table, &at.to_string());
        self
    }
}

/// The figure with a name.
///
/// # Errors
/// [`FigureError::NoSuchFigure`], which lists all names.
pub fn named(name: &str) -> Result<&'static Figure, FigureError> {
    each().find(|figure| figure.name == name).ok_or_else(|| FigureError::NoSuchFigure {
        // This program's choice.
        given: name.chars().take(40).collect(),
        allowed: each().map(|figure| figure.name).collect::<Vec<_>>().join(", "),
    })
}

/// A row of a table for a working; `None` where the table has no such row.
#[must_use]
pub fn table_row(table: &Table, at: &str) -> Option<TableRow> {
    let mut found = Vec::new();
    table_rows::add(&mut found, table, at);
    found.pop()
}

/// Every figure, in the order of the register.
pub fn each() -> impl Iterator<Item = &'static Figure> {
    ALL.iter().flat_map(|figures| figures.iter().copied())
}

impl Figure {
    /// Its inputs, in order.
    pub fn inputs(&self) -> impl Iterator<Item = &'static Takes> + use<> {
        self.takes.iter().flat_map(|group| group.iter())
    }

    /// Works out the figure.
    ///
    /// # Errors
    /// [`FigureError`] where the arguments do not allow a result.
    pub fn reach(&'static self, arguments: &Arguments) -> Result<Reached, FigureError> {
        let mut reached = (self.work)(arguments)?;
        let finite = reached.value.is_finite() && reached.steps.iter().all(|(_, value)| value.is_finite());
        if !finite {
            return Err(FigureError::NoAnswer { figure: self.name });
        }
        for input in self.inputs() {
            if let LeftOut::Table(_, table) = input.left_out
                && !arguments.is_given(input.key)
                && arguments.used().any(|(key, _)| key == input.key)
            {
                for row in (table.rows)() {
                    table_rows::add(&mut reached.rows, table, &row.at);
                }
            }
        }
        Ok(reached)
    }

    /// Works out the figure and gives its working.
    ///
    /// # Errors
    /// [`FigureError`] where the arguments do not allow a result.
    pub fn working(&'static self, arguments: &Arguments) -> Result<Working, FigureError> {
        let reached = self.reach(arguments)?;
        let value = match &reached.says {
            Some(says) => alloc::format!("{}: {says}", reached.value),
            None => reached.value.to_string(),
        };
        let shown = |name: String, value: &Value| Input { name, value: value.to_string() };
        let number = reached.value.number();
        Ok(Working {
            figure: self.name.replace('-', " "),
            value,
            number: number.map(|(number, _)| number),
            unit: number.map(|(_, unit)| unit.to_string()),
            formula: self.formula.to_string(),
            inputs: arguments.used().map(|(key, value)| shown(key.replace('-', " "), value)).collect(),
            steps: reached.steps.iter().map(|(name, value)| shown(name.clone(), value)).collect(),
            rows: reached.rows,
            source: self.whole_source(),
        })
    }
}

impl Figure {
    /// Its clauses and where they were seen, in one line.
    #[must_use]
    pub fn whole_source(&self) -> String {
        let mut whole = String::new();
        for (publication, clause) in self.clauses {
            let space = if clause.is_empty() { "" } else { " " };
            whole.push_str(&alloc::format!("{}{space}{clause}; ", publication.title));
        }
        whole + self.source
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_works_its_own_example_and_shows_how() {
        for figure in each() {
            let arguments = Arguments::read(figure, figure.example.split(' '))
                .unwrap_or_else(|why| panic!("{}: {why}", figure.name));
            let working = figure.working(&arguments).unwrap_or_else(|why| panic!("{}: {why}", figure.name));
            assert!(
                !working.formula.is_empty() && !working.source.is_empty() && !working.inputs.is_empty(),
                "{}",
                figure.name
            );
        }
    }

    #[test]
    fn names_and_keys_are_the_trades_words_and_each_is_there_once() {
        let plain = |word: &str| {
            word.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-' || letter.is_ascii_digit())
        };
        let mut names: Vec<_> = each().map(|figure| figure.name).collect();
        for figure in each() {
            let mut keys: Vec<_> = figure.inputs().map(|input| input.key).collect();
            assert!(plain(figure.name) && keys.iter().all(|key| plain(key)), "{}", figure.name);
            let count = keys.len();
            keys.sort_unstable();
            keys.dedup();
            assert_eq!(keys.len(), count, "{} takes a key twice", figure.name);
            assert!(count <= 64, "a bit for each tells which were looked at");
        }
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), count);
    }

    /// Each input left out in turn, and each default given as it is written: nothing panics, and what is refused says so.
    #[test]
    fn no_combination_of_keys_panics() {
        for figure in each() {
            let given: Vec<&str> = figure.example.split(' ').collect();
            for leave_out in 0..given.len() {
                let some = given.iter().enumerate().filter(|(at, _)| *at != leave_out).map(|(_, pair)| *pair);
                if let Ok(arguments) = Arguments::read(figure, some) {
                    let _ = figure.working(&arguments);
                }
            }
        }
    }

    #[test]
    fn every_default_is_of_its_own_kind() {
        for input in each().flat_map(Figure::inputs) {
            if let LeftOut::Table(value, _) | LeftOut::Usual(value) = input.left_out {
                assert!(input.kind.is_of(&value()), "{}", input.key);
            }
        }
    }
}
