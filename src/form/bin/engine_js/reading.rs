//! Reads a JavaScript value just as the JSON that `JSON.stringify` would make of it.
//!
//! serde-wasm-bindgen alone is more lenient than a JSON reader: it ignores fields that a struct does not know, accepts iterables as
//! objects, and reads a whole number as a signed one. Here an object is read entry by entry, without the entries that JSON leaves out, so
//! that the same values are refused with the same errors as in the native program.

use js_sys::{Array, Function, Number, Object, Reflect};
use serde::de::value::{MapAccessDeserializer, MapDeserializer, SeqDeserializer};
use serde::de::{Deserializer, IntoDeserializer, Visitor};
use serde::forward_to_deserialize_any;
use serde_wasm_bindgen::Error;
use wasm_bindgen::{JsCast, JsValue};

/// A JavaScript value that serde can deserialise from.
pub struct Value(pub JsValue);

/// The message of an error without the prefix that JavaScript puts before it; a missing value is called `null`, as in JSON.
pub fn told(error: Error) -> String {
    let whole = error.to_string();
    let message = Reflect::get(&error.into(), &"message".into());
    let message = message.ok().and_then(|message| message.as_string()).unwrap_or(whole);
    message.replace("invalid type: unit value", "invalid type: null")
}

impl Value {
    /// The value that JSON would write: an object with a method `toJSON` is asked for it, and a number that is not finite becomes `null`.
    fn written(self) -> Result<JsValue, Error> {
        if self.0.is_object()
            && let Ok(says) = Reflect::get(&self.0, &"toJSON".into())?.dyn_into::<Function>()
        {
            return Ok(says.call0(&self.0)?);
        }
        let is_no_number = self.0.as_f64().is_some_and(|number| !number.is_finite());
        Ok(if is_no_number { JsValue::NULL } else { self.0 })
    }
}

/// The entries of an object, without those that JSON leaves out (`undefined`, functions and symbols).
fn entries(of: &JsValue) -> impl Iterator<Item = (Value, Value)> + use<> {
    let entries = Object::entries(of.unchecked_ref()).into_iter().map(|pair| {
        let pair: Array = pair.unchecked_into();
        (pair.get(0), pair.get(1))
    });
    let kept = entries.filter(|(_, value)| !value.is_undefined() && !value.is_function() && !value.is_symbol());
    kept.map(|(name, value)| (Value(name), Value(value)))
}

impl IntoDeserializer<'_, Error> for Value {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

impl<'de> Deserializer<'de> for Value {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        let value = self.written()?;
        if let Some(list) = value.dyn_ref::<Array>() {
            visitor.visit_seq(SeqDeserializer::new(list.iter().map(Value)))
        } else if value.is_object() {
            visitor.visit_map(MapDeserializer::new(entries(&value)))
        } else if let Some(number) = value.as_f64()
            && Number::is_safe_integer(&value)
            && number >= 0.0
        {
            visitor.visit_u64(number as u64) // whole, and less than 2^53
        } else {
            serde_wasm_bindgen::Deserializer::from(value).deserialize_any(visitor)
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.written()? {
            nothing if nothing.is_null() || nothing.is_undefined() => visitor.visit_none(),
            value => visitor.visit_some(Self(value)),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Error> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        let value = self.written()?;
        if value.is_object() && !value.is_instance_of::<Array>() {
            let entries = MapDeserializer::new(entries(&value));
            return MapAccessDeserializer::new(entries).deserialize_enum(name, variants, visitor);
        }
        serde_wasm_bindgen::Deserializer::from(value).deserialize_enum(name, variants, visitor)
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct seq tuple tuple_struct map
        struct identifier
    }
}
