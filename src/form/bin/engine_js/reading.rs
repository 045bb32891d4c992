//! Reads a JavaScript value as the JSON that it would be written as.
//!
//! serde-wasm-bindgen alone is more lenient than a JSON reader: it passes over fields that a struct does not know, takes iterables for
//! objects, and calls a count a signed number. Here an object is read entry by entry, and what JSON leaves out is left out: so the
//! same readers refuse the same things in the same words as natively.

use js_sys::{Array, Function, Number, Object, Reflect};
use serde::de::value::{MapAccessDeserializer, MapDeserializer, SeqDeserializer};
use serde::de::{Deserializer, IntoDeserializer, Visitor};
use serde::forward_to_deserialize_any;
use serde_wasm_bindgen::Error;
use wasm_bindgen::{JsCast, JsValue};

/// A value to be read.
pub struct Value(pub JsValue);

/// An error in its own words, without the name that JavaScript puts before them; nothing is called as JSON calls it.
pub fn told(error: Error) -> String {
    let whole = error.to_string();
    let message = Reflect::get(&error.into(), &"message".into());
    let message = message.ok().and_then(|message| message.as_string()).unwrap_or(whole);
    message.replace("invalid type: unit value", "invalid type: null")
}

impl Value {
    /// What JSON would write: an object that says itself how it is written (`toJSON`) is asked; what is no number is nothing.
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

/// An object's entries, without those that JSON leaves out.
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
