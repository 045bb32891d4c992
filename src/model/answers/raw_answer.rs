//! The raw answer: one plain value for every kind of question, as a form holds it, and its conversion to and from the typed field.

use super::{Answer, Length, Postcode, ShortText, Stretch, day};
use crate::units::{
    Amps, DecibelsUnder, KilowattHours, Kilowatts, MegabitsPerSecond, Miles, PencePerKilowattHour, SquareMillimetres,
};
use alloc::string::String;
use alloc::vec::Vec;
use jiff::civil::Date;

/// What kind of answer a question takes; the form draws one control for each kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AnswerKind {
    /// One of these words.
    One(&'static [&'static str]),
    /// Any number of these words, none included.
    Any(&'static [&'static str]),
    /// Yes or no.
    YesNo,
    /// A whole number from the first to the second, both included.
    Count(u8, u8),
    /// A distance in a unit of the homeowner's choice.
    Distance,
    /// A number of a unit, within bounds.
    Figure(Bounds),
    /// A short line of text.
    Line,
    /// A postcode.
    PostcodeLine,
    /// A day, as it is written in JSON; the installer's questions alone.
    Day,
    /// The route, stretch by stretch.
    Stretches,
}

/// The symbol of a unit, and the least and greatest figure that is accepted as an answer; anything outside is taken for a slip. Common
/// practice, no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The symbol, as printed beside the figure.
    pub symbol: &'static str,
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
}

/// One answer, untyped: what a control gives and shows.
#[derive(Clone, Debug, PartialEq)]
pub enum RawAnswer {
    /// Not asked.
    Nothing,
    /// "Not sure".
    NotSure,
    /// The chosen word's place in the question's list.
    One(u8),
    /// The chosen words as bits, the list's first word lowest.
    Any(u32),
    /// Yes or no.
    YesNo(bool),
    /// A count.
    Count(u8),
    /// A distance as typed.
    Distance(Length),
    /// A figure in the question's unit.
    Figure(f64),
    /// A line as typed.
    Line(String),
    /// Stretches in order.
    Stretches(Vec<Stretch>),
}

/// A type that can be the value of an answer.
pub trait Field: Sized {
    /// The kind of answer, and so the control in the form, that the type takes.
    const KIND: AnswerKind;
    /// The value as a raw answer.
    fn give(&self) -> RawAnswer;
    /// The value of a raw answer; `None` where that is of another kind or not allowed.
    fn take(given: &RawAnswer) -> Option<Self>;
}

impl<T: Field> Answer<T> {
    /// The answer as a raw answer.
    pub fn give(&self) -> RawAnswer {
        match self {
            Self::Known(value) => value.give(),
            Self::NotSure => RawAnswer::NotSure,
            Self::NotAsked => RawAnswer::Nothing,
        }
    }

    /// Sets the answer from a raw one. Returns whether that was allowed; otherwise nothing changes.
    pub fn take(&mut self, given: &RawAnswer) -> bool {
        *self = match given {
            RawAnswer::Nothing => Self::NotAsked,
            RawAnswer::NotSure => Self::NotSure,
            other => match T::take(other) {
                Some(value) => Self::Known(value),
                None => return false,
            },
        };
        true
    }
}

impl Field for bool {
    const KIND: AnswerKind = AnswerKind::YesNo;
    fn give(&self) -> RawAnswer {
        RawAnswer::YesNo(*self)
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        if let RawAnswer::YesNo(yes) = given { Some(*yes) } else { None }
    }
}

/// A whole number between `LEAST` and `MOST`, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct BoundedCount<const LEAST: u8, const MOST: u8>(u8);

impl<const LEAST: u8, const MOST: u8> BoundedCount<LEAST, MOST> {
    /// Makes the count; `None` outside its bounds.
    #[must_use]
    pub fn new(count: u8) -> Option<Self> {
        (LEAST..=MOST).contains(&count).then_some(Self(count))
    }

    /// The number.
    #[must_use]
    pub const fn get(self) -> u8 {
        self.0
    }
}

impl<const LEAST: u8, const MOST: u8> Field for BoundedCount<LEAST, MOST> {
    const KIND: AnswerKind = AnswerKind::Count(LEAST, MOST);
    fn give(&self) -> RawAnswer {
        RawAnswer::Count(self.0)
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        if let RawAnswer::Count(count) = given { Self::new(*count) } else { None }
    }
}

/// Any number of words out of one list, none included; written as a list of words in the list's order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Set<T> {
    bits: u32,
    of: core::marker::PhantomData<T>,
}

/// A word of a closed list.
pub trait Word: Copy + PartialEq + 'static {
    /// The list, in its own order.
    const ALL: &'static [Self];
    /// The word of each member, in the same order.
    const WORDS: &'static [&'static str];
    /// The member's position in the list.
    fn place(self) -> u8;

    /// The member with this word; `None` where the list has no such word.
    #[must_use]
    fn named(word: &str) -> Option<Self> {
        Self::WORDS.iter().position(|other| *other == word).map(|at| Self::ALL[at])
    }
}

impl<T: Word> Set<T> {
    /// The empty set.
    pub const NONE: Self = Self { bits: 0, of: core::marker::PhantomData };

    /// The set of these members.
    #[must_use]
    pub fn of(members: &[T]) -> Self {
        members.iter().fold(Self::NONE, |set, member| set.with(*member))
    }

    /// This set with one more member.
    #[must_use]
    pub fn with(mut self, member: T) -> Self {
        self.bits |= 1 << member.place();
        self
    }

    /// Whether the set has this member.
    #[must_use]
    pub fn has(&self, member: T) -> bool {
        self.bits & (1 << member.place()) != 0
    }

    /// Whether the set is empty.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.bits == 0
    }

    /// Its members in the list's order.
    pub fn iter(&self) -> impl Iterator<Item = T> + '_ {
        T::ALL.iter().copied().filter(|member| self.has(*member))
    }
}

impl<T: Word> Field for Set<T> {
    const KIND: AnswerKind = AnswerKind::Any(T::WORDS);
    fn give(&self) -> RawAnswer {
        RawAnswer::Any(self.bits)
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        match given {
            RawAnswer::Any(bits) if bits >> T::ALL.len() == 0 => Some(Self { bits: *bits, ..Self::NONE }),
            _ => None,
        }
    }
}

macro_rules! figures {
    ($($unit:ident $least:literal $most:literal;)*) => {$(
        impl Field for $unit {
            const KIND: AnswerKind = AnswerKind::Figure(Bounds { symbol: $unit::SYMBOL, least: $least, most: $most });
            fn give(&self) -> RawAnswer {
                RawAnswer::Figure(self.get())
            }
            fn take(given: &RawAnswer) -> Option<Self> {
                match given {
                    RawAnswer::Figure(number) if ($least..=$most).contains(number) => Self::new(*number).ok(),
                    _ => None,
                }
            }
        }
    )*};
}
// The bounds of what a home can have: common practice, no source.
figures! {
    Amps 5.0 400.0;
    Kilowatts 0.0 100.0;
    KilowattHours 0.0 100.0;
    Miles 0.0 2000.0;
    PencePerKilowattHour 0.0 1000.0;
    MegabitsPerSecond 0.0 100_000.0;
    DecibelsUnder 0.0 120.0;
    SquareMillimetres 0.5 400.0;
}

impl Field for Length {
    const KIND: AnswerKind = AnswerKind::Distance;
    fn give(&self) -> RawAnswer {
        RawAnswer::Distance(*self)
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        match given {
            RawAnswer::Distance(length) if length.is_a_homes() => Some(*length),
            _ => None,
        }
    }
}

/// A route of more stretches than this is a slip: common practice, no source.
pub const MOST_STRETCHES: usize = 50;

impl Field for Vec<Stretch> {
    const KIND: AnswerKind = AnswerKind::Stretches;
    fn give(&self) -> RawAnswer {
        RawAnswer::Stretches(self.clone())
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        match given {
            RawAnswer::Stretches(stretches)
                if stretches.len() <= MOST_STRETCHES && stretches.iter().all(|stretch| stretch.length.is_a_homes()) =>
            {
                Some(stretches.clone())
            }
            _ => None,
        }
    }
}

impl Field for ShortText {
    const KIND: AnswerKind = AnswerKind::Line;
    fn give(&self) -> RawAnswer {
        RawAnswer::Line(self.as_str().into())
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        if let RawAnswer::Line(line) = given { Self::new(line) } else { None }
    }
}

/// The first two digits of a year of this century. Dates recorded about this work lie in no other century. This program's choice.
pub const IN_THIS_CENTURY: i16 = 20;

/// A day on which something about this work was recorded; another century is a slip.
impl Field for Date {
    const KIND: AnswerKind = AnswerKind::Day;
    fn give(&self) -> RawAnswer {
        RawAnswer::Line(day::written(*self))
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        let RawAnswer::Line(line) = given else { return None };
        day::read(line).filter(|day| day.year() / 100 == IN_THIS_CENTURY)
    }
}

impl Field for Postcode {
    const KIND: AnswerKind = AnswerKind::PostcodeLine;
    fn give(&self) -> RawAnswer {
        RawAnswer::Line(self.as_str().into())
    }
    fn take(given: &RawAnswer) -> Option<Self> {
        if let RawAnswer::Line(line) = given { Self::new(line) } else { None }
    }
}
