//! A value as JSON has it, before its type is asked: read once for all types of answer.
//!
//! Each of the fifty types of answer would otherwise bring its own copy of the JSON reader into the program
//! that a phone is sent.

use super::Answer;
use super::answer::NOT_SURE;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::{self, Vec};
use core::fmt;
use serde::de::{self, DeserializeOwned, DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor, value::StrDeserializer};

/// A value of JSON.
pub enum Raw {
    Null,
    Bool(bool),
    Whole(u64),
    Negative(i64),
    Number(f64),
    Text(String),
    List(Vec<Raw>),
    Map(Vec<(String, Raw)>),
}

/// Why a value is not of the type that was asked for; with the way to it inside a list or an object.
#[derive(Debug)]
pub struct RawError(String);

impl fmt::Display for RawError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl core::error::Error for RawError {}

impl de::Error for RawError {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self(message.to_string())
    }
}

/// A place that takes a value, whatever its type.
pub trait Slot {
    /// Takes it, or says why not.
    fn take(&mut self, raw: Raw) -> Result<(), RawError>;
}

impl<T: DeserializeOwned> Slot for Answer<T> {
    fn take(&mut self, raw: Raw) -> Result<(), RawError> {
        *self = match raw {
            Raw::Null => Self::NotAsked,
            Raw::Text(text) if text == NOT_SURE => Self::NotSure,
            raw => Self::Known(T::deserialize(raw)?),
        };
        Ok(())
    }
}

/// Reads an object into the slots of its fields; a field that is not one of them, or stands twice, is refused by name.
pub fn read_fields<'de, D: Deserializer<'de>>(
    deserializer: D,
    fields: &'static [&'static str],
    slots: &mut [&mut dyn Slot],
) -> Result<(), D::Error> {
    deserializer.deserialize_map(Fields { fields, slots })
}

struct Fields<'a, 'b> {
    fields: &'static [&'static str],
    slots: &'a mut [&'b mut dyn Slot],
}

impl<'de> Visitor<'de> for Fields<'_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object with fields")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let mut seen = 0_u64;
        while let Some(name) = map.next_key::<String>()? {
            let Some(at) = self.fields.iter().position(|field| *field == name) else {
                return Err(de::Error::unknown_field(&name, self.fields));
            };
            if seen & (1 << at) != 0 {
                return Err(de::Error::duplicate_field(self.fields[at]));
            }
            seen |= 1 << at;
            map.next_value_seed(Into(self.slots[at]))?;
        }
        Ok(())
    }
}

/// Reads the next value into a slot.
struct Into<'a>(&'a mut dyn Slot);

impl<'de> DeserializeSeed<'de> for Into<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        let raw = deserializer.deserialize_any(RawVisitor)?;
        self.0.take(raw).map_err(de::Error::custom)
    }
}

struct RawVisitor;

/// Reads any value inside another.
struct Any;

impl<'de> DeserializeSeed<'de> for Any {
    type Value = Raw;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Raw, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an answer or \"not-sure\"")
    }
    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Null)
    }
    fn visit_bool<E>(self, value: bool) -> Result<Raw, E> {
        Ok(Raw::Bool(value))
    }
    fn visit_u64<E>(self, value: u64) -> Result<Raw, E> {
        Ok(Raw::Whole(value))
    }
    fn visit_i64<E>(self, value: i64) -> Result<Raw, E> {
        Ok(Raw::Negative(value))
    }
    fn visit_f64<E>(self, value: f64) -> Result<Raw, E> {
        Ok(Raw::Number(value))
    }
    fn visit_str<E>(self, text: &str) -> Result<Raw, E> {
        Ok(Raw::Text(text.into()))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Raw, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element_seed(Any)? {
            list.push(item);
        }
        Ok(Raw::List(list))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut fields: A) -> Result<Raw, A::Error> {
        let mut map = Vec::new();
        while let Some(name) = fields.next_key()? {
            map.push((name, fields.next_value_seed(Any)?));
        }
        Ok(Raw::Map(map))
    }
}

impl<'de> Deserializer<'de> for Raw {
    type Error = RawError;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, RawError> {
        match self {
            Self::Null => visitor.visit_unit(),
            Self::Bool(value) => visitor.visit_bool(value),
            Self::Whole(value) => visitor.visit_u64(value),
            Self::Negative(value) => visitor.visit_i64(value),
            Self::Number(value) => visitor.visit_f64(value),
            Self::Text(text) => visitor.visit_str(&text),
            Self::List(list) => visitor.visit_seq(Items { list: list.into_iter(), at: 0 }),
            Self::Map(map) => visitor.visit_map(Entries { map: map.into_iter(), value: None }),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, RawError> {
        match self {
            Self::Null => visitor.visit_none(),
            other => visitor.visit_some(other),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, RawError> {
        visitor.visit_newtype_struct(self)
    }

    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct seq tuple
        tuple_struct map struct enum identifier ignored_any
    }
}

struct Items {
    list: vec::IntoIter<Raw>,
    at: usize,
}

impl<'de> SeqAccess<'de> for Items {
    type Error = RawError;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, RawError> {
        let Some(item) = self.list.next() else { return Ok(None) };
        let at = self.at;
        self.at += 1;
        seed.deserialize(item).map(Some).map_err(|error| RawError(format!("item {at}: {error}")))
    }
}

struct Entries {
    map: vec::IntoIter<(String, Raw)>,
    value: Option<(String, Raw)>,
}

impl<'de> MapAccess<'de> for Entries {
    type Error = RawError;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, RawError> {
        self.value = self.map.next();
        let Some((name, _)) = &self.value else { return Ok(None) };
        seed.deserialize(StrDeserializer::new(name)).map(Some)
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, RawError> {
        let (name, value) = self.value.take().ok_or_else(|| RawError("a value without a name".into()))?;
        seed.deserialize(value).map_err(|error| RawError(format!("{name}: {error}")))
    }
}

#[cfg(test)]
mod tests {
    use crate::answers::Answers;
    use alloc::string::{String, ToString};

    fn refused(json: &str) -> String {
        serde_json::from_str::<Answers>(json).unwrap_err().to_string()
    }

    #[test]
    fn an_error_inside_an_answer_keeps_its_line_and_the_way_to_it() {
        let json = "{\"route\":\n{\"stretches\":[{\"along\":\"fence\",\"length\":{\"value\":1,\"unit\":\"metres\"}},\n{\"along\":\"moat\"}],\n\"walls\":1}}";
        let error = refused(json);
        for wanted in ["item 1", "along", "moat", "fence", "line 3"] {
            assert!(error.contains(wanted), "{wanted}: {error}");
        }
    }

    #[test]
    fn a_field_twice_or_of_the_wrong_kind_is_refused() {
        assert!(refused(r#"{"meter":{"place":"indoors","place":"cupboard"}}"#).contains("duplicate"));
        assert!(refused(r#"{"loads":{"hot_tub":1}}"#).contains("boolean"));
        assert!(refused(r#"{"loads":{"showers":-1}}"#).contains("-1"));
        assert!(refused(r#"{"loads":{"shower_power":"strong"}}"#).contains("strong"));
        assert!(refused(r#"{"meter":{"switch_after":"perhaps"}}"#).contains("perhaps"));
    }
}
