//! How what is shown travels: a list of named lines. What stands on a line is declared once, and is written and read by that.
//!
//! A line is a name and a value. Beside the name something may stand (`flag looped-supply`), and a value may have several parts with a
//! sign between two. Knows no field of what is shown, and decides nothing.

use crate::Awaited;
use alloc::borrow::ToOwned;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use engine::assessment::{Complexity, Gatekeeper, NoBand, Reason};
use engine::flags::Weight;
use model::answers::Word;
use model::config::GrantFor;
use model::units::Pence;

/// Names and values, in the order in which they travel.
pub(crate) type Lines = Vec<(String, String)>;

/// A text as two, parted at the first space; without one nothing comes behind.
pub(crate) fn parted(text: &str) -> (&str, &str) {
    text.split_once(' ').unwrap_or((text, ""))
}

/// A part of a line.
pub(crate) trait Part: Sized {
    fn written(&self) -> String;
    /// `None` for a text that nothing is written as.
    fn read(text: &str) -> Option<Self>;
}

impl Part for String {
    fn written(&self) -> String {
        self.clone()
    }

    fn read(text: &str) -> Option<Self> {
        Some(text.to_owned())
    }
}

/// Declares which closed lists travel: by their words.
macro_rules! words_travel {
    ($($name:ty),+) => {
        $(impl Part for $name {
            fn written(&self) -> String {
                Self::WORDS[usize::from(self.place())].to_owned()
            }

            fn read(text: &str) -> Option<Self> {
                Self::named(text)
            }
        })+
    };
}

words_travel!(Awaited, Complexity, Gatekeeper, GrantFor, NoBand, Reason, Weight);

impl Part for Pence {
    fn written(&self) -> String {
        self.0.to_string()
    }

    fn read(text: &str) -> Option<Self> {
        text.parse().ok().map(Self)
    }
}

/// Where there is no sum, nothing is written.
impl Part for Option<Pence> {
    fn written(&self) -> String {
        self.as_ref().map_or_else(String::new, Part::written)
    }

    fn read(text: &str) -> Option<Self> {
        Some(Part::read(text))
    }
}

/// Two sums, the lesser first; where there are none, nothing is written.
impl Part for Option<[Pence; 2]> {
    fn written(&self) -> String {
        self.map_or_else(String::new, |[low, high]| [low.written(), high.written()].join(" "))
    }

    fn read(text: &str) -> Option<Self> {
        let (low, high) = parted(text);
        Some(Part::read(low).zip(Part::read(high)).map(|(low, high)| [low, high]))
    }
}

/// What one line holds.
pub(crate) trait Line: Sized {
    /// What stands beside the line's name, where something does.
    fn beside(&self) -> Option<String>;
    fn value(&self) -> String;
    /// `None` for a line that nothing is written as.
    fn read(beside: &str, value: &str) -> Option<Self>;
}

impl<T: Part> Line for T {
    fn beside(&self) -> Option<String> {
        None
    }

    fn value(&self) -> String {
        self.written()
    }

    fn read(_: &str, value: &str) -> Option<Self> {
        Part::read(value)
    }
}

/// The parts of a value that is read: the next one ends at the next sign, the last at the end.
pub(crate) struct Parts<'a> {
    pub(crate) rest: &'a str,
    pub(crate) signs: &'static [&'static str],
}

impl<'a> Parts<'a> {
    pub(crate) fn next<T: Part>(&mut self) -> Option<T> {
        T::read(self.text()?)
    }

    fn text(&mut self) -> Option<&'a str> {
        let Some((sign, signs)) = self.signs.split_first() else { return Some(self.rest) };
        let (text, rest) = self.rest.split_once(sign)?;
        (self.rest, self.signs) = (rest, signs);
        Some(text)
    }
}

/// Declares a struct as one line, as it is written: in brackets the field beside the name, then those of the value with the signs between
/// them. What does not travel comes last, with what it is read as.
macro_rules! line {
    ($name:ident: $([$beside:ident])? $first:ident $($sign:literal $field:ident)* $(, $stays:ident: $nothing:expr)?) => {
        const _: () = {
            use $crate::lines::{Line, Part, Parts};

            impl Line for $name {
                fn beside(&self) -> Option<String> {
                    None$(.or(Some(self.$beside.written())))?
                }

                fn value(&self) -> String {
                    [self.$first.written(), $($sign.into(), self.$field.written(),)*].concat()
                }

                fn read(_beside: &str, value: &str) -> Option<Self> {
                    let mut parts = Parts { rest: value, signs: &[$($sign),*] };
                    Some(Self {
                        $($beside: Part::read(_beside)?,)?
                        $first: parts.next()?,
                        $($field: parts.next()?,)*
                        $($stays: $nothing,)?
                    })
                }
            }
        };
    };
}

pub(crate) use line;

/// A field of what travels: none, one or several lines of one name.
pub(crate) trait Field {
    fn write(&self, name: &str, lines: &mut Lines);
    /// Takes a line of that name; one that nothing is written as is left out.
    fn take(&mut self, beside: &str, value: &str);
}

fn push(name: &str, line: &impl Line, lines: &mut Lines) {
    let name = line.beside().map_or_else(|| name.to_owned(), |beside| [name, &beside].join(" "));
    lines.push((name, line.value()));
}

/// Always one, empty or not.
impl Field for String {
    fn write(&self, name: &str, lines: &mut Lines) {
        push(name, self, lines);
    }

    fn take(&mut self, _: &str, value: &str) {
        *self = value.to_owned();
    }
}

/// Always one. Whoever reads the lines needs it before all others, and has it by then.
impl Field for Complexity {
    fn write(&self, name: &str, lines: &mut Lines) {
        push(name, self, lines);
    }

    fn take(&mut self, _: &str, _: &str) {}
}

impl<T: Line> Field for Vec<T> {
    fn write(&self, name: &str, lines: &mut Lines) {
        self.iter().for_each(|line| push(name, line, lines));
    }

    fn take(&mut self, beside: &str, value: &str) {
        if let Some(line) = T::read(beside, value) {
            self.push(line);
        }
    }
}

impl<T: Line> Field for Option<T> {
    fn write(&self, name: &str, lines: &mut Lines) {
        self.iter().for_each(|line| push(name, line, lines));
    }

    fn take(&mut self, beside: &str, value: &str) {
        *self = T::read(beside, value);
    }
}

/// Where it is so: a line that says nothing but its name.
impl Field for bool {
    fn write(&self, name: &str, lines: &mut Lines) {
        if *self {
            lines.push((name.to_owned(), String::new()));
        }
    }

    fn take(&mut self, _: &str, _: &str) {
        *self = true;
    }
}

/// Declares the fields that travel, in their order: each line's name, and the field that it is.
macro_rules! fields {
    ($name:ident: $($line:tt $($field:ident).+,)+) => {
        impl $name {
            fn lines(&self) -> $crate::lines::Lines {
                let mut lines = Vec::new();
                $($crate::lines::Field::write(&self.$($field).+, $line, &mut lines);)+
                lines
            }

            /// Takes one line; one that it does not know is left out.
            fn take(&mut self, name: &str, beside: &str, value: &str) {
                match name {
                    $($line => $crate::lines::Field::take(&mut self.$($field).+, beside, value),)+
                    _ => {}
                }
            }
        }
    };
}

pub(crate) use fields;
