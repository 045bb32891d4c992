//! Reading a topic: an object and nothing else. A derived reader would also take a list and fill the fields by their order.

use core::fmt;
use core::marker::PhantomData;
use serde::de::value::MapAccessDeserializer;
use serde::de::{self, Deserialize, Deserializer};

/// Reads a struct from an object alone.
///
/// # Errors
/// The struct's own, and one for whatever is no object.
pub(super) fn object<'de, D: Deserializer<'de>, T: Deserialize<'de>>(deserializer: D) -> Result<T, D::Error> {
    deserializer.deserialize_map(ObjectVisitor(PhantomData))
}

struct ObjectVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> de::Visitor<'de> for ObjectVisitor<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object with named fields")
    }

    fn visit_map<A: de::MapAccess<'de>>(self, fields: A) -> Result<T, A::Error> {
        T::deserialize(MapAccessDeserializer::new(fields))
    }
}
