//! The format in which the engine hands the view model to the form: a list of named lines. Each line's layout is declared once (`line!`,
//! `fields!`), and the code that writes it and the code that reads it are both generated from that.
//!
//! A line is a name and a value, both text. The name may have one field of the line after it (`flag looped-supply`), and a value may have
//! several parts with a separator between two. The fields of the view model are declared in `view_model.rs`, not here.

use crate::Awaited;
use alloc::borrow::ToOwned;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use engine::assessment::{Complexity, Gatekeeper, NoBand, Reason};
use engine::flags::Weight;
use model::answers::Word;
use model::config::GrantFor;
use model::units::Pence;

/// Names and values, in the order in which they are written.
pub(crate) type Lines = Vec<(String, String)>;

/// A text split at its first space; the second half is empty where there is none.
pub(crate) fn parted(text: &str) -> (&str, &str) {
    text.split_once(' ').unwrap_or((text, ""))
}

/// A value that can be written as one part of a line.
pub(crate) trait Part: Sized {
    fn written(&self) -> String;
    /// The value that is written as this text; `None` where there is none.
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

/// Lets closed lists be parts of a line: each value is written as its word.
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

/// Pence as digits; `None` is written as the empty text.
impl Part for Option<Pence> {
    fn written(&self) -> String {
        self.as_ref().map_or_else(String::new, Part::written)
    }

    fn read(text: &str) -> Option<Self> {
        Some(Part::read(text))
    }
}

/// Two sums in pence, the lower first, with a space between; `None` is written as the empty text.
impl Part for Option<[Pence; 2]> {
    fn written(&self) -> String {
        self.map_or_else(String::new, |[low, high]| [low.written(), high.written()].join(" "))
    }

    fn read(text: &str) -> Option<Self> {
        let (low, high) = parted(text);
        Some(Part::read(low).zip(Part::read(high)).map(|(low, high)| [low, high]))
    }
}

/// A value that can be written as one line.
pub(crate) trait Line: Sized {
    /// What follows the line's name after a space; `None` for a line that has its name alone.
    fn beside(&self) -> Option<String>;
    fn value(&self) -> String;
    /// The value that is written as this line; `None` where there is none.
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

/// Reads a line's value part by part: each part ends at the next of the separators `signs`, the last at the end of the text.
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

/// Declares how a struct is written as one line: in brackets the field that follows the line's name, then the fields of the value with the
/// separators between them. A field that is not written comes last, with the value that it is given on reading.
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

/// A field of the view model: it is written as no line, one line or several lines of one name.
pub(crate) trait Field {
    fn write(&self, name: &str, lines: &mut Lines);
    /// Sets or extends the field from a line of its name; a line that can't be read changes nothing.
    fn take(&mut self, beside: &str, value: &str);
}

fn push(name: &str, line: &impl Line, lines: &mut Lines) {
    let name = line.beside().map_or_else(|| name.to_owned(), |beside| [name, &beside].join(" "));
    lines.push((name, line.value()));
}

/// Always one line, with an empty value for an empty text.
impl Field for String {
    fn write(&self, name: &str, lines: &mut Lines) {
        push(name, self, lines);
    }

    fn take(&mut self, _: &str, value: &str) {
        *self = value.to_owned();
    }
}

/// Always one line. Taking it does nothing: no view model can be made without its class, so the reader looks this line up before it takes
/// the others.
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

/// A line with an empty value where it is true, no line where it is false.
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

/// Declares the fields that are written, in order: each line's name and the field it is written from.
macro_rules! fields {
    ($name:ident: $($line:tt $($field:ident).+,)+) => {
        impl $name {
            fn lines(&self) -> $crate::lines::Lines {
                let mut lines = Vec::new();
                $($crate::lines::Field::write(&self.$($field).+, $line, &mut lines);)+
                lines
            }

            /// Takes one line; a line of an unknown name changes nothing.
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
