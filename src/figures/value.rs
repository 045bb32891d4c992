//! The values that figures take and give; how each kind is written, parsed and described to somebody who writes it wrongly.

use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use model::answers::{Along, Word};
use model::units::written::{NotWritten, Written, read};
use model::units::{
    Amps, Celsius, Count, Decibels, Headroom, Hours, KilowattHours, KilowattHoursPerMile, Kilowatts, Level,
    MaterialFactor, Megahertz, Metres, Miles, MilliohmsPerMetre, MillivoltsPerAmpMetre, Ohms, Pence,
    PencePerKilowattHour, Ratio, Seconds, SoilResistivity, SquareMillimetres, Volts,
};

/// A type that a [`Value`] can be converted to.
pub trait Taken: Sized {
    /// The value, if it is of this type.
    fn taken(value: &Value) -> Option<Self>;
}

macro_rules! quantities {
    ($($name:ident $words:literal,)+) => {
        /// A value of one of the kinds, with its unit as a type.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Value {
            $(#[doc = concat!("Of ", $words, ".")] $name($name),)+
            /// What a limit leaves over.
            Headroom(Headroom),
            /// Money.
            Pence(Pence),
            /// One word of a list.
            Word(&'static str),
            /// Yes or no.
            YesNo(bool),
            /// Several of one kind.
            Many(Vec<Value>),
            /// Stretches of a route: what each runs along, and its length.
            Route(Vec<(Along, Metres)>),
        }

        /// A kind of value that can be written.
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub enum ValueKind {
            $(#[doc = concat!("Of ", $words, ".")] $name,)+
            /// One word of a list.
            Word(&'static [&'static str]),
            /// Yes or no.
            YesNo,
            /// Several of one kind, with commas.
            Many(&'static ValueKind),
            /// Stretches of a route, with commas: `inside:12m,soft-ground:8m`.
            Route,
        }

        $(impl From<$name> for Value {
            fn from(value: $name) -> Self {
                Self::$name(value)
            }
        }

        impl Taken for $name {
            fn taken(value: &Value) -> Option<Self> {
                match value {
                    Value::$name(value) => Some(*value),
                    _ => None,
                }
            }
        })+

        impl ValueKind {
            /// Reads a value from text.
            ///
            /// # Errors
            /// Says in words what is wrong with the text.
            pub fn read(self, text: &str) -> Result<Value, String> {
                let wrong = |why: NotWritten| why.to_string();
                match self {
                    $(Self::$name => read::<$name>(text).map(Value::$name).map_err(wrong),)+
                    Self::Word(words) => {
                        let word = words.iter().find(|word| **word == text);
                        word.map(|word| Value::Word(word)).ok_or_else(|| "it is none of the words".to_string())
                    }
                    Self::YesNo => match text {
                        "yes" => Ok(Value::YesNo(true)),
                        "no" => Ok(Value::YesNo(false)),
                        _ => Err("it is neither".to_string()),
                    },
                    Self::Many(kind) => {
                        let each: Result<Vec<Value>, String> = text.split(',').map(|one| kind.read(one)).collect();
                        each.map(Value::Many)
                    }
                    Self::Route => text.split(',').map(stretch).collect::<Result<_, String>>().map(Value::Route),
                }
            }

            /// How a value of this kind is written, in words.
            #[must_use]
            pub fn written(self) -> String {
                match self {
                    $(Self::$name => units_of::<$name>($words),)+
                    Self::Word(words) => words.join(", "),
                    Self::YesNo => "yes, no".to_string(),
                    Self::Many(kind) => alloc::format!("one or several, with commas, of: {}", kind.written()),
                    Self::Route => {
                        alloc::format!("stretches with commas, each {}, a colon and its length: inside:12m,soft-ground:8m", Along::WORDS.join(", "))
                    }
                }
            }

            /// How a value of this kind is written, in short: its first unit.
            #[must_use]
            pub fn in_short(self) -> String {
                match self {
                    $(Self::$name => first_unit::<$name>().to_string(),)+
                    Self::Word(_) => "WORD".to_string(),
                    Self::YesNo => "yes/no".to_string(),
                    Self::Many(kind) => alloc::format!("{},…", kind.in_short()),
                    Self::Route => alloc::format!("ALONG:{},…", Metres::SYMBOL),
                }
            }

            /// Whether a value is of this kind.
            #[must_use]
            pub fn is_of(self, value: &Value) -> bool {
                match (self, value) {
                    $((Self::$name, Value::$name(_)) => true,)+
                    (Self::Word(words), Value::Word(word)) => words.contains(word),
                    (Self::YesNo, Value::YesNo(_)) | (Self::Route, Value::Route(_)) => true,
                    (Self::Many(kind), Value::Many(each)) => each.iter().all(|one| kind.is_of(one)),
                    _ => false,
                }
            }
        }

        impl Value {
            /// The number and its unit, where it is a number.
            #[must_use]
            pub fn number(&self) -> Option<(f64, &'static str)> {
                match self {
                    $(Self::$name(value) => Some((value.number(), <$name as Written>::UNITS[0].written)),)+
                    Self::Headroom(headroom) => Some((headroom.get(), Amps::SYMBOL)),
                    Self::Pence(pence) => Some((pence.as_f64(), "p")),
                    Self::Word(_) | Self::YesNo(_) | Self::Many(_) | Self::Route(_) => None,
                }
            }
        }

        impl fmt::Display for Value {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                match self {
                    $(Self::$name(value) => value.fmt(f),)+
                    Self::Headroom(value) => value.fmt(f),
                    Self::Pence(value) => value.fmt(f),
                    Self::Word(word) => f.write_str(word),
                    Self::YesNo(yes) => f.write_str(if *yes { "yes" } else { "no" }),
                    Self::Many(each) => joined(f, each.iter()),
                    Self::Route(stretches) => {
                        joined(f, stretches.iter().map(|(along, length)| alloc::format!("{} {length}", along.word())))
                    }
                }
            }
        }
    };
}

quantities! {
    Amps "a current",
    Volts "a voltage",
    Ohms "an impedance",
    Metres "a length",
    SquareMillimetres "a cross-section",
    MilliohmsPerMetre "a resistance a metre",
    MillivoltsPerAmpMetre "a voltage drop an ampere a metre",
    Kilowatts "a power",
    KilowattHours "an energy",
    Miles "a distance driven",
    KilowattHoursPerMile "an energy a mile",
    PencePerKilowattHour "a price of energy",
    Seconds "a time",
    Hours "a time of hours",
    Celsius "a temperature",
    SoilResistivity "a thermal resistivity of soil",
    MaterialFactor "a factor k",
    Megahertz "a frequency",
    Decibels "a loss",
    Level "a level",
    Ratio "a number",
    Count "a whole number",
}

/// Reads one stretch, such as `inside:12m`.
fn stretch(text: &str) -> Result<(Along, Metres), String> {
    let (word, length) =
        text.split_once(':').ok_or_else(|| "a stretch is a word, a colon and its length".to_string())?;
    let place = Along::WORDS.iter().position(|along| *along == word);
    let place = place.ok_or_else(|| "a stretch runs along none of the words".to_string())?;
    Ok((Along::ALL[place], read(length).map_err(|why| alloc::format!("a stretch's length: {why}"))?))
}

/// A phrase with a quantity's units: `a current, in A, mA or kA`.
fn units_of<Q: Written>(words: &str) -> String {
    let units: Vec<&str> = Q::UNITS.iter().map(|spelling| spelling.written).filter(|unit| !unit.is_empty()).collect();
    let plain = Q::UNITS.iter().any(|spelling| spelling.written.is_empty());
    match (plain, units.as_slice()) {
        (_, []) => alloc::format!("{words}, without a unit"),
        (true, units) => alloc::format!("{words}, without a unit or in {}", units.join(", ")),
        (false, units) => alloc::format!("{words}, in {}", units.join(", ")),
    }
}

/// A quantity's first unit, or a phrase for a bare number.
fn first_unit<Q: Written>() -> &'static str {
    match Q::UNITS.iter().map(|spelling| spelling.written).collect::<Vec<_>>().as_slice() {
        [first, rest @ ..] if !first.is_empty() && !rest.contains(&"") => first,
        _ => "NUMBER",
    }
}

fn joined(f: &mut fmt::Formatter<'_>, each: impl Iterator<Item = impl fmt::Display>) -> fmt::Result {
    for (at, one) in each.enumerate() {
        if at > 0 {
            f.write_str(", ")?;
        }
        one.fmt(f)?;
    }
    Ok(())
}

impl Value {
    /// Whether every number in it is finite.
    #[must_use]
    pub fn is_finite(&self) -> bool {
        match self {
            Self::Many(each) => each.iter().all(Self::is_finite),
            Self::Route(stretches) => stretches.iter().all(|(_, length)| length.get().is_finite()),
            value => value.number().is_none_or(|(number, _)| number.is_finite()),
        }
    }
}

impl Taken for bool {
    fn taken(value: &Value) -> Option<Self> {
        match value {
            Value::YesNo(yes) => Some(*yes),
            _ => None,
        }
    }
}

impl<T: Taken> Taken for Vec<T> {
    fn taken(value: &Value) -> Option<Self> {
        match value {
            Value::Many(each) => each.iter().map(T::taken).collect(),
            _ => None,
        }
    }
}

impl Taken for Vec<(Along, Metres)> {
    fn taken(value: &Value) -> Option<Self> {
        match value {
            Value::Route(stretches) => Some(stretches.clone()),
            _ => None,
        }
    }
}

/// A word of a closed list, converted to the list's own type.
pub struct OneOf<T>(pub T);

impl<T: Word + Copy + 'static> Taken for OneOf<T> {
    fn taken(value: &Value) -> Option<Self> {
        match value {
            Value::Word(word) => Some(Self(T::ALL[T::WORDS.iter().position(|other| other == word)?])),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kind_is_shown_by_its_unit_and_a_bare_number_as_such() {
        assert_eq!(ValueKind::Amps.in_short(), "A");
        assert_eq!(ValueKind::SquareMillimetres.in_short(), "mm²");
        assert_eq!(ValueKind::Many(&ValueKind::Amps).in_short(), "A,…");
        for bare in [ValueKind::Count, ValueKind::Ratio] {
            assert_eq!(bare.in_short(), "NUMBER", "it is written without a unit too");
        }
    }
}
