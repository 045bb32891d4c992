//! One answer: known, not sure, or not asked.

use alloc::string::String;
use core::fmt;
use core::marker::PhantomData;
use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
use serde::de::{self, IntoDeserializer};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// How "not sure" is written in a file of answers.
pub(super) const NOT_SURE: &str = "not-sure";

/// What came of asking a question.
///
/// In JSON a known answer is its value, "not sure" is `"not-sure"`, and a question that was not asked is left out.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Answer<T> {
    /// They could tell.
    Known(T),
    /// They were asked and can't tell: carried to the result, never turned into a default.
    NotSure,
    /// They were not asked.
    #[default]
    NotAsked,
}

impl<T> Answer<T> {
    /// The value, where there is one.
    pub const fn known(&self) -> Option<&T> {
        match self {
            Self::Known(value) => Some(value),
            Self::NotSure | Self::NotAsked => None,
        }
    }

    /// Whether the question was put and left open.
    pub const fn is_not_sure(&self) -> bool {
        matches!(self, Self::NotSure)
    }

    /// Whether it was never put.
    pub const fn is_not_asked(&self) -> bool {
        matches!(self, Self::NotAsked)
    }
}

impl<T: PartialEq> Answer<T> {
    /// Whether they said just this.
    pub fn is(&self, value: T) -> bool {
        self.known() == Some(&value)
    }
}

impl<T: Serialize> Serialize for Answer<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Known(value) => value.serialize(serializer),
            Self::NotSure => serializer.serialize_str(NOT_SURE),
            Self::NotAsked => serializer.serialize_none(),
        }
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Answer<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AnswerVisitor(PhantomData))
    }
}

/// Reads "not-sure" itself and hands anything else to the value's own reader, without a buffer,
/// so that an error keeps the line it was met on.
struct AnswerVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> de::Visitor<'de> for AnswerVisitor<T> {
    type Value = Answer<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an answer or \"not-sure\"")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Self::Value, E> {
        if text == NOT_SURE {
            return Ok(Answer::NotSure);
        }
        T::deserialize(text.into_deserializer()).map(Answer::Known)
    }

    fn visit_string<E: de::Error>(self, text: String) -> Result<Self::Value, E> {
        self.visit_str(&text)
    }

    fn visit_bool<E: de::Error>(self, value: bool) -> Result<Self::Value, E> {
        T::deserialize(value.into_deserializer()).map(Answer::Known)
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Self::Value, E> {
        T::deserialize(value.into_deserializer()).map(Answer::Known)
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Self::Value, E> {
        T::deserialize(value.into_deserializer()).map(Answer::Known)
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Self::Value, E> {
        T::deserialize(value.into_deserializer()).map(Answer::Known)
    }

    fn visit_seq<A: de::SeqAccess<'de>>(self, items: A) -> Result<Self::Value, A::Error> {
        T::deserialize(SeqAccessDeserializer::new(items)).map(Answer::Known)
    }

    fn visit_map<A: de::MapAccess<'de>>(self, fields: A) -> Result<Self::Value, A::Error> {
        T::deserialize(MapAccessDeserializer::new(fields)).map(Answer::Known)
    }

    fn visit_unit<E: de::Error>(self) -> Result<Self::Value, E> {
        Ok(Answer::NotAsked)
    }
}

#[cfg(feature = "schema")]
impl<T: schemars::JsonSchema> schemars::JsonSchema for Answer<T> {
    fn schema_name() -> alloc::borrow::Cow<'static, str> {
        alloc::format!("Answer_of_{}", T::schema_name()).into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let value = generator.subschema_for::<T>();
        schemars::json_schema!({ "anyOf": [value, { "const": NOT_SURE }] })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn not_sure_is_a_value_and_survives_the_way_there_and_back() {
        let read: Answer<u8> = serde_json::from_str("\"not-sure\"").unwrap();
        assert_eq!(read, Answer::NotSure);
        assert_eq!(serde_json::to_string(&read).unwrap(), "\"not-sure\"");
        assert_eq!(serde_json::from_str::<Answer<u8>>("3").unwrap(), Answer::Known(3));
    }

    #[test]
    fn a_value_of_the_wrong_kind_is_refused() {
        assert!(serde_json::from_str::<Answer<u8>>("\"three\"").is_err());
        assert!(serde_json::from_str::<Answer<bool>>("1").is_err());
    }
}
