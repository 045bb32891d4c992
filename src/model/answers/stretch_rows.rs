//! A route while it is being typed: rows as they stand in the form's fields, perhaps incomplete, kept as one text with a line for each row.

use super::{Along, Answers, Length, LengthUnit, RawAnswer, Stretch, Word, raw_answer::MOST_STRETCHES};
use crate::units::Ratio;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// One stretch as it stands in the form's fields.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StretchRow {
    /// What it runs along, once chosen.
    pub along: Option<Along>,
    /// Its length as typed.
    pub length: String,
    /// The unit it is measured in.
    pub unit: Option<LengthUnit>,
    /// Whether it is out of reach from the ground.
    pub high: bool,
}

/// A change to one row.
#[derive(Clone, Debug, PartialEq)]
pub enum StretchRowChange {
    /// Sets what it runs along.
    Along(Option<Along>),
    /// Sets the length, as typed.
    Length(String),
    /// Sets the unit.
    Unit(LengthUnit),
    /// Sets whether it is out of reach from the ground.
    High(bool),
    /// Inserts an empty row after it.
    AddAfter,
    /// Moves it one place earlier.
    Earlier,
    /// Moves it one place later.
    Later,
    /// Replaces it by two rows of half its length.
    Split,
    /// Removes it.
    TakeOut,
}

/// The rows, from the board on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StretchRows(pub Vec<StretchRow>);

/// Reads a plain decimal number with a point or a comma, at most seven digits before it and three after, and returns it in thousandths.
/// `None` for anything else.
#[must_use]
pub fn thousandths(text: &str) -> Option<u64> {
    let text = text.trim();
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() > 7 || part.len() > 3 || !digits(whole) || !digits(part) || whole.len() + part.len() == 0 {
        return None;
    }
    let padded = part.bytes().chain(*b"000").take(3);
    Some(whole.bytes().chain(padded).fold(0, |all, byte| all * 10 + u64::from(byte - b'0')))
}

/// A number of thousandths as decimal text, with no more digits than are needed.
#[must_use]
pub fn decimal(thousandths: u64) -> String {
    let (whole, part) = (thousandths / 1000, (thousandths % 1000 + 1000).to_string());
    let part = part[1..].trim_end_matches('0');
    if part.is_empty() { whole.to_string() } else { [&*whole.to_string(), ".", part].concat() }
}

/// A number as decimal text to a thousandth, which is what the form's fields take.
#[must_use]
pub fn in_digits(number: f64) -> String {
    decimal(libm::round(number * 1000.0).clamp(0.0, 9_999_999_999.0) as u64)
}

impl StretchRow {
    /// The stretch that the row makes; `None` while a field of it is empty or can't be read.
    #[must_use]
    pub fn stretch(&self) -> Option<Stretch> {
        let value = Ratio::new(thousandths(&self.length)? as f64 / 1000.0).ok()?;
        let length = Length { value, unit: self.unit() };
        length.is_a_homes().then_some(Stretch { along: self.along?, length, high: self.high })
    }

    /// The unit it is measured in, metres where none was chosen.
    #[must_use]
    pub fn unit(&self) -> LengthUnit {
        self.unit.unwrap_or(LengthUnit::Metres)
    }

    /// Whether nothing was entered in the row.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.along.is_none() && self.length.trim().is_empty()
    }
}

impl StretchRows {
    /// The rows of a route that was answered stretch by stretch.
    #[must_use]
    pub fn of(stretches: &[Stretch]) -> Self {
        let row = |stretch: &Stretch| StretchRow {
            along: Some(stretch.along),
            length: in_digits(stretch.length.value.get()),
            unit: Some(stretch.length.unit),
            high: stretch.high,
        };
        Self(stretches.iter().map(row).collect())
    }

    /// The rows to begin with where there are none yet: one stretch, from the rough answers about the route.
    #[must_use]
    pub fn begin(answers: &Answers) -> Self {
        let length = answers.route.length.known();
        Self(alloc::vec![StretchRow {
            along: answers.route.mostly.known().copied(),
            length: length.map(|length| in_digits(length.value.get())).unwrap_or_default(),
            unit: length.map(|length| length.unit),
            high: false,
        }])
    }

    /// Reads rows from the text that [`Self::write`] makes; a word that is not in its list is left open.
    #[must_use]
    pub fn read(text: &str) -> Self {
        let row = |line: &str| {
            let mut parts = line.splitn(4, ' ');
            let mut part = || parts.next().unwrap_or_default();
            StretchRow {
                along: Along::named(part()),
                unit: LengthUnit::named(part()),
                high: part() == "high",
                length: part().into(),
            }
        };
        Self(text.lines().take(MOST_STRETCHES).map(row).collect())
    }

    /// The rows as text, a line for each.
    #[must_use]
    pub fn write(&self) -> String {
        let mut text = String::new();
        for row in &self.0 {
            let along = row.along.map_or("-", Along::word);
            let high = if row.high { "high" } else { "-" };
            text.extend([along, " ", row.unit().word(), " ", high, " "]);
            text.extend(row.length.chars().filter(|letter| !letter.is_control()));
            text.push('\n');
        }
        text
    }

    /// The raw answer that the rows make; blank rows are left out. `None` while a row is incomplete.
    #[must_use]
    pub fn given(&self) -> Option<RawAnswer> {
        let said = self.0.iter().filter(|row| !row.is_blank());
        let stretches = said.map(StretchRow::stretch).collect::<Option<Vec<Stretch>>>()?;
        Some(if stretches.is_empty() { RawAnswer::Nothing } else { RawAnswer::Stretches(stretches) })
    }

    /// Whether this change is possible for the row at position `at`.
    #[must_use]
    pub fn may(&self, at: usize, change: &StretchRowChange) -> bool {
        let count = self.0.len();
        at < count
            && match change {
                StretchRowChange::Earlier => at > 0,
                StretchRowChange::Later => at + 1 < count,
                StretchRowChange::AddAfter | StretchRowChange::Split => count < MOST_STRETCHES,
                StretchRowChange::TakeOut => count > 1,
                _ => true,
            }
    }

    /// Makes the change, and returns the position at which the changed row stands afterwards. An impossible change does nothing.
    pub fn change(&mut self, at: usize, change: StretchRowChange) -> usize {
        if !self.may(at, &change) {
            return at;
        }
        let (last, rows) = (self.0.len() - 1, &mut self.0);
        match change {
            StretchRowChange::Along(along) => {
                rows[at].along = along;
                // A stretch in the ground is never out of reach above it.
                rows[at].high &= !matches!(along, Some(Along::SoftGround | Along::Paving));
            }
            StretchRowChange::Length(length) => rows[at].length = length,
            StretchRowChange::Unit(unit) => rows[at].unit = Some(unit),
            StretchRowChange::High(high) => rows[at].high = high,
            StretchRowChange::AddAfter => {
                let unit = rows[at].unit;
                rows.insert(at + 1, StretchRow { unit, ..StretchRow::default() });
                return at + 1;
            }
            StretchRowChange::Earlier => {
                rows.swap(at, at - 1);
                return at - 1;
            }
            StretchRowChange::Later => {
                rows.swap(at, at + 1);
                return at + 1;
            }
            StretchRowChange::Split => {
                let mut second = rows[at].clone();
                if let Some(whole) = thousandths(&second.length) {
                    rows[at].length = decimal(whole.div_ceil(2));
                    second.length = decimal(whole / 2);
                }
                rows.insert(at + 1, second);
            }
            StretchRowChange::TakeOut => {
                rows.remove(at);
                return at.min(last - 1);
            }
        }
        at
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Answer;
    use proptest::prelude::*;

    fn rows(lines: &[(&str, &str)]) -> StretchRows {
        let row = |(along, length): &(&str, &str)| StretchRow {
            along: Along::named(along),
            length: (*length).into(),
            unit: Some(LengthUnit::Paces),
            high: false,
        };
        StretchRows(lines.iter().map(row).collect())
    }

    #[test]
    fn it_begins_with_the_rough_answer() {
        let mut answers = Answers::default();
        assert!(StretchRows::begin(&answers).0[0].is_blank(), "nothing is made up");
        answers.route.length = Answer::Known(Length { value: Ratio::of(12.5), unit: LengthUnit::Feet });
        answers.route.mostly = Answer::Known(Along::Fence);
        let Some(RawAnswer::Stretches(said)) = StretchRows::begin(&answers).given() else { panic!() };
        assert_eq!(
            said,
            [Stretch { along: Along::Fence, length: *answers.route.length.known().unwrap(), high: false }]
        );
    }

    #[test]
    fn what_stands_in_the_fields_comes_back_as_it_was() {
        let mut all = rows(&[("inside", "4"), ("", "about 3 m"), ("paving", "")]);
        all.0[2].high = true;
        assert_eq!(StretchRows::read(&all.write()), all);
        assert_eq!(StretchRows::read("nonsense"), StretchRows(alloc::vec![StretchRow::default()]));
        assert_eq!(all.given(), None, "half filled");
        assert_eq!(rows(&[("", " ")]).given(), Some(RawAnswer::Nothing), "an empty row says nothing");
        assert_eq!(rows(&[("inside", "99999")]).given(), None, "no home is so wide");
    }

    #[test]
    fn each_change_says_where_the_row_is_then() {
        let mut all = rows(&[("inside", "4"), ("fence", "2.5"), ("paving", "1")]);
        assert_eq!(all.change(1, StretchRowChange::Earlier), 0);
        assert_eq!(all, rows(&[("fence", "2.5"), ("inside", "4"), ("paving", "1")]));
        assert_eq!(all.change(0, StretchRowChange::Earlier), 0);
        assert_eq!(all.change(0, StretchRowChange::Later), 1);
        assert_eq!(all.change(1, StretchRowChange::Split), 1);
        assert_eq!(all, rows(&[("inside", "4"), ("fence", "1.25"), ("fence", "1.25"), ("paving", "1")]));
        assert_eq!(all.change(3, StretchRowChange::TakeOut), 2);
        assert_eq!(all.change(0, StretchRowChange::AddAfter), 1);
        assert!(all.0[1].is_blank() && all.0[1].unit == Some(LengthUnit::Paces), "one goes on in the same measure");
        let before = all.clone();
        assert_eq!(all.change(9, StretchRowChange::TakeOut), 9);
        assert_eq!(all, before);
        let mut one = rows(&[("inside", "4")]);
        one.change(0, StretchRowChange::TakeOut);
        assert_eq!(one.0.len(), 1, "the last one stays: there is always something to begin with");
        while one.0.len() < MOST_STRETCHES {
            one.change(0, StretchRowChange::Split);
        }
        assert!(!one.may(0, &StretchRowChange::Split) && !one.may(0, &StretchRowChange::AddAfter));
        one.change(0, StretchRowChange::Split);
        assert_eq!(one.0.len(), MOST_STRETCHES);
    }

    proptest! {
        #[test]
        fn splitting_loses_nothing(whole in 0_u64..10_000_000) {
            let mut all = rows(&[("fence", &decimal(whole))]);
            all.change(0, StretchRowChange::Split);
            let halves: Vec<u64> = all.0.iter().filter_map(|row| thousandths(&row.length)).collect();
            prop_assert_eq!(halves.len(), 2);
            prop_assert_eq!(halves[0] + halves[1], whole);
            prop_assert!(halves[0].abs_diff(halves[1]) <= 1);
        }

        /// The form reads JSON without the `exact` reader: a number of thousandths below 2^53 needs one division of two exact numbers,
        /// which IEEE 754 rounds correctly; so both read the same.
        #[test]
        fn what_a_field_takes_is_one_exact_division(number in 0_u64..9_999_999_999) {
            let read: f64 = decimal(number).parse().unwrap();
            prop_assert_eq!(read.to_bits(), (number as f64 / 1000.0).to_bits());
            prop_assert_eq!(in_digits(read), decimal(number));
        }

        #[test]
        fn a_number_is_written_as_it_is_read(number in 0_u64..9_999_999_999) {
            prop_assert_eq!(thousandths(&decimal(number)), Some(number));
        }
    }
}
