//! A day in JSON, such as `2026-11-25`. Read and written by hand, because the calendar library's parser also knows time zones and much else
//! that would have to be sent to every phone.

use alloc::string::String;
use core::fmt::Write;
use jiff::civil::Date;
use serde::{Deserializer, Serializer, de};

/// Writes a day as `2026-11-25`.
///
/// # Errors
/// Those of the serializer.
pub fn serialize<S: Serializer>(day: &Date, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&written(*day))
}

/// The day as text, such as `2026-11-25`.
pub fn written(day: Date) -> String {
    let mut text = String::with_capacity(10);
    // Writing to a String cannot fail.
    let _ = write!(text, "{:04}-{:02}-{:02}", day.year(), day.month(), day.day());
    text
}

/// Reads a day written as `2026-11-25`.
///
/// # Errors
/// Where the text is no such day: the message quotes its first 20 characters and shows the form that is expected.
pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Date, D::Error> {
    deserializer.deserialize_str(DayVisitor)
}

struct DayVisitor;

impl de::Visitor<'_> for DayVisitor {
    type Value = Date;

    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("a day, such as 2026-11-25")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Date, E> {
        read(text).ok_or_else(|| {
            let shown: String = text.chars().take(20).collect();
            E::custom(format_args!("\"{shown}\" is not allowed; it may be a day, such as 2026-11-25"))
        })
    }
}

/// Reads a day from four, two and two digits with hyphens between. `None` where the text has another form or the day does not exist.
pub(super) fn read(text: &str) -> Option<Date> {
    let bytes = text.as_bytes();
    if bytes.len() != 10 || bytes[4] != b'-' || bytes[7] != b'-' {
        return None;
    }
    let number = |from: usize, to: usize| {
        bytes[from..to]
            .iter()
            .try_fold(0_i16, |sum, byte| byte.is_ascii_digit().then(|| sum * 10 + i16::from(byte - b'0')))
    };
    let (month, day) = (i8::try_from(number(5, 7)?).ok()?, i8::try_from(number(8, 10)?).ok()?);
    Date::new(number(0, 4)?, month, day).ok()
}

/// Reading and writing a day that may be left out, for `#[serde(with = …)]`.
pub mod option {
    use super::{Date, DayVisitor};
    use serde::{Deserializer, Serializer, de};

    /// Writes a day, or null where there is none.
    ///
    /// # Errors
    /// Those of the serializer.
    pub fn serialize<S: Serializer>(day: &Option<Date>, serializer: S) -> Result<S::Ok, S::Error> {
        match day {
            Some(day) => super::serialize(day, serializer),
            None => serializer.serialize_none(),
        }
    }

    /// Reads a day, or null as none.
    ///
    /// # Errors
    /// As [`super::deserialize`].
    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Date>, D::Error> {
        struct Maybe;
        impl<'de> de::Visitor<'de> for Maybe {
            type Value = Option<Date>;
            fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str("a day, such as 2026-11-25")
            }
            fn visit_none<E: de::Error>(self) -> Result<Self::Value, E> {
                Ok(None)
            }
            fn visit_unit<E: de::Error>(self) -> Result<Self::Value, E> {
                Ok(None)
            }
            fn visit_some<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
                deserializer.deserialize_str(DayVisitor).map(Some)
            }
        }
        deserializer.deserialize_option(Maybe)
    }
}

#[cfg(test)]
mod tests {
    use super::read;
    use crate::answers::Answers;
    use alloc::string::ToString;

    #[test]
    fn a_day_is_read_and_written_in_one_way() {
        let answers: Answers = serde_json::from_str(r#"{"as_of":"2028-02-29"}"#).unwrap();
        assert_eq!(serde_json::to_string(&answers).unwrap(), r#"{"as_of":"2028-02-29"}"#);
        assert_eq!(serde_json::from_str::<Answers>(r#"{"as_of":null}"#).unwrap(), Answers::default());
    }

    #[test]
    fn what_is_no_day_is_refused_with_words() {
        for not_one in
            ["", "2026-02-30", "2026-13-01", "2026-1-01", "26-01-01", "2026/01/01", "2026-01-01T00", "٢٠٢٦-01"]
        {
            assert_eq!(read(not_one), None, "{not_one}");
        }
        let error = serde_json::from_str::<Answers>(r#"{"as_of":"tomorrow"}"#).unwrap_err().to_string();
        assert!(error.contains("tomorrow") && error.contains("2026-11-25"), "{error}");
        assert!(serde_json::from_str::<Answers>(r#"{"as_of":20260101}"#).is_err());
    }
}
