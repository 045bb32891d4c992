//! The arguments of a figure: parsed, checked, and completed with defaults, so that the figure finds every input it declares.

use super::{Figure, LeftOut, Taken, Takes, Value};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::cell::Cell;

/// Why a figure can't be worked out: what was given, and what is allowed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FigureError {
    /// There is no figure of that name.
    #[error("there is no figure {given:?}; there are {allowed}")]
    NoSuchFigure {
        /// The name given.
        given: String,
        /// All names.
        allowed: String,
    },
    /// It is not `key=value`.
    #[error("{given:?} is not KEY=VALUE; {figure} takes {allowed}")]
    NotAPair {
        /// The figure.
        figure: &'static str,
        /// What was given.
        given: String,
        /// Its keys.
        allowed: String,
    },
    /// The figure has no such input.
    #[error("{figure} takes no {key:?}; it takes {allowed}")]
    NoSuchKey {
        /// The figure.
        figure: &'static str,
        /// The key given.
        key: String,
        /// Its keys.
        allowed: String,
    },
    /// A key was given twice.
    #[error("`{key}` is given twice; once is allowed")]
    Twice {
        /// The key.
        key: &'static str,
    },
    /// An input is missing.
    #[error("{figure} needs `{key}`: {is}; {allowed}")]
    Missing {
        /// The figure.
        figure: &'static str,
        /// The key, or the keys of which one is needed.
        key: &'static str,
        /// What the input is.
        is: &'static str,
        /// How it is written.
        allowed: String,
    },
    /// A value is not allowed.
    #[error("`{key}`: {given:?} is not allowed: {why}; it may be {allowed}")]
    NotAllowed {
        /// The key.
        key: &'static str,
        /// What was given.
        given: String,
        /// What is wrong with it.
        why: String,
        /// What is allowed.
        allowed: String,
    },
    /// A table has no such row.
    #[error("`{key}`: {table} has no row for {given}; it has {allowed}")]
    NoRow {
        /// The key.
        key: &'static str,
        /// The table.
        table: String,
        /// What was looked for.
        given: String,
        /// Its rows.
        allowed: String,
    },
    /// The numbers have no answer, such as a division by zero.
    #[error(
        "{figure} has no answer with these numbers: one of them, by which another is divided, is zero or too large"
    )]
    NoAnswer {
        /// The figure.
        figure: &'static str,
    },
}

/// Checked arguments of one figure.
#[derive(Clone, Debug)]
pub struct Arguments {
    figure: &'static Figure,
    /// Each input in the figure's order, with its value and whether that is the default.
    values: Vec<(&'static Takes, Option<Value>, bool)>,
    /// Which inputs the calculation used, a bit each: a default that it never needed is not shown as an input.
    looked_at: Cell<u64>,
}

impl Arguments {
    /// Reads `key=value` pairs.
    ///
    /// # Errors
    /// [`FigureError`], which names what is wrong and what is allowed.
    pub fn read<'a>(figure: &'static Figure, pairs: impl IntoIterator<Item = &'a str>) -> Result<Self, FigureError> {
        let mut given = Vec::new();
        for pair in pairs {
            let (key, text) = pair.split_once('=').ok_or_else(|| FigureError::NotAPair {
                figure: figure.name,
                given: shortened(pair),
                allowed: keys(figure),
            })?;
            let input = input(figure, key)?;
            let value = input.kind.read(text).map_err(|why| FigureError::NotAllowed {
                key: input.key,
                given: shortened(text),
                why,
                allowed: input.kind.written(),
            })?;
            given.push((input.key, value));
        }
        Self::of(figure, given)
    }

    /// Takes arguments as values.
    ///
    /// # Errors
    /// [`FigureError`] where the figure has no such key, a value is of another kind, or a required input is missing.
    pub fn of(
        figure: &'static Figure,
        given: impl IntoIterator<Item = (&'static str, Value)>,
    ) -> Result<Self, FigureError> {
        let mut values: Vec<(&'static Takes, Option<Value>, bool)> =
            figure.inputs().map(|input| (input, None, false)).collect();
        for (key, value) in given {
            let input = input(figure, key)?;
            if !input.kind.is_of(&value) || !value.is_finite() {
                return Err(FigureError::NotAllowed {
                    key: input.key,
                    given: value.to_string(),
                    why: "it is of another kind".to_string(),
                    allowed: input.kind.written(),
                });
            }
            let place = values.iter_mut().find(|(other, _, _)| other.key == key).expect("the figure has this input");
            if place.1.is_some() {
                return Err(FigureError::Twice { key: input.key });
            }
            place.1 = Some(value);
        }
        for (input, value, is_default) in values.iter_mut().filter(|(_, value, _)| value.is_none()) {
            match input.left_out {
                LeftOut::Refused => {
                    return Err(FigureError::Missing {
                        figure: figure.name,
                        key: input.key,
                        is: input.is,
                        allowed: input.kind.written(),
                    });
                }
                LeftOut::Table(usual, _) | LeftOut::Usual(usual) => (*value, *is_default) = (Some(usual()), true),
                LeftOut::Without(_) => {}
            }
        }
        Ok(Self { figure, values, looked_at: Cell::new(0) })
    }

    /// All inputs that were given, and the defaults that the calculation used.
    pub fn used(&self) -> impl Iterator<Item = (&'static str, &Value)> {
        let looked_at = self.looked_at.get();
        self.values.iter().enumerate().filter_map(move |(at, (input, value, is_default))| {
            let is_used = !is_default || looked_at & (1 << at) != 0;
            Some((input.key, value.as_ref()?)).filter(|_| is_used)
        })
    }

    /// Whether an input was given, and not left to its default.
    #[must_use]
    pub fn is_given(&self, key: &str) -> bool {
        self.values.iter().any(|(input, value, is_default)| input.key == key && value.is_some() && !is_default)
    }

    /// The value of an input, given or by default; `None` where it has neither.
    #[must_use]
    pub fn perhaps<T: Taken>(&self, key: &str) -> Option<T> {
        let at = self.values.iter().position(|(input, _, _)| input.key == key)?;
        self.looked_at.set(self.looked_at.get() | 1 << at);
        let (_, value, _) = &self.values[at];
        T::taken(value.as_ref()?)
    }

    /// An input that is required or has a default.
    ///
    /// # Errors
    /// [`FigureError::Missing`] where an input without a default was left out, though the other arguments require it.
    pub fn get<T: Taken>(&self, key: &'static str) -> Result<T, FigureError> {
        self.perhaps(key).ok_or_else(|| {
            let input = self.figure.inputs().find(|input| input.key == key);
            FigureError::Missing {
                figure: self.figure.name,
                key,
                is: input.map_or("", |input| input.is),
                allowed: input.map_or_else(String::new, |input| input.kind.written()),
            }
        })
    }
}

fn input(figure: &'static Figure, key: &str) -> Result<&'static Takes, FigureError> {
    figure.inputs().find(|input| input.key == key).ok_or_else(|| FigureError::NoSuchKey {
        figure: figure.name,
        key: shortened(key),
        allowed: keys(figure),
    })
}

fn keys(figure: &Figure) -> String {
    figure.inputs().map(|input| input.key).collect::<Vec<_>>().join(", ")
}

fn shortened(text: &str) -> String {
    text.chars().take(60).collect()
}
