//! Reads a struct from an object field by field, in one loop that all structs share. Derived readers repeat their code for each of a
//! hundred fields, and would be most of the bytes that a phone loads for the config.
//!
//! As strict as a derived reader: an unknown, repeated or missing field is an error that names it.

use jiff::civil::Date;
use serde::de::{self, Deserialize, Deserializer, MapAccess};

/// A variable that takes the next value of an object.
pub trait Slot<'de, A: MapAccess<'de>> {
    /// Reads the value into it.
    fn take(&mut self, map: &mut A) -> Result<(), A::Error>;
}

impl<'de, T: Deserialize<'de>, A: MapAccess<'de>> Slot<'de, A> for Option<T> {
    fn take(&mut self, map: &mut A) -> Result<(), A::Error> {
        *self = Some(map.next_value()?);
        Ok(())
    }
}

/// A day, read by its own short parser.
pub struct Day(pub Date);

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        crate::answers::day::deserialize(deserializer).map(Self)
    }
}

/// Reads a field's name and compares it without allocating a text.
struct Name {
    fields: &'static [&'static str],
    /// Whether an unknown name is passed over instead of being an error.
    others: bool,
}

impl<'de> de::DeserializeSeed<'de> for Name {
    type Value = Option<usize>;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
        deserializer.deserialize_identifier(self)
    }
}

impl de::Visitor<'_> for Name {
    type Value = Option<usize>;
    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("the name of a field")
    }
    fn visit_str<E: de::Error>(self, name: &str) -> Result<Self::Value, E> {
        let at = self.fields.iter().position(|field| *field == name);
        if at.is_none() && !self.others { Err(E::unknown_field(name, self.fields)) } else { Ok(at) }
    }
}

/// Reads an object into the slots of its fields.
pub fn read<'de, A: MapAccess<'de>>(
    map: &mut A,
    fields: &'static [&'static str],
    slots: &mut [&mut dyn Slot<'de, A>],
) -> Result<(), A::Error> {
    fill(map, fields, slots, false)
}

/// As [`read`], but other fields are passed over: for a caller that needs only some.
pub fn read_some<'de, A: MapAccess<'de>>(
    map: &mut A,
    fields: &'static [&'static str],
    slots: &mut [&mut dyn Slot<'de, A>],
) -> Result<(), A::Error> {
    fill(map, fields, slots, true)
}

fn fill<'de, A: MapAccess<'de>>(
    map: &mut A,
    fields: &'static [&'static str],
    slots: &mut [&mut dyn Slot<'de, A>],
    others: bool,
) -> Result<(), A::Error> {
    let mut seen = 0_u64;
    while let Some(at) = map.next_key_seed(Name { fields, others })? {
        let Some(at) = at else {
            map.next_value::<de::IgnoredAny>()?;
            continue;
        };
        if seen & (1 << at) != 0 {
            return Err(de::Error::duplicate_field(fields[at]));
        }
        seen |= 1 << at;
        slots[at].take(map)?;
    }
    Ok(())
}

/// Implements `Deserialize` for a struct. In brackets after a field's name stands what it is where it is left out: `default`, or `or` and a
/// function; nothing where the field is required. `of` names a wrapper type that has the reader. A day is read with `day`, or with
/// `maybe_day` where it may be left out or null. `all default` takes every field that is left out from the struct's own default; `others`
/// passes over unknown fields.
#[macro_export]
macro_rules! fields {
    (others $name:ident { $($field:ident $($how:ident $($with:ident)?)?),+ $(,)? }) => {
        $crate::fields!(@reader read_some $name, [$($field)+], { $($field: $crate::fields!(@end $field $($how $($with)?)?)),+ });
    };
    ($name:ident $(<$of:ident>)? { $($field:ident $($how:ident $($with:ident)?)?),+ $(,)? }) => {
        $crate::fields!(@reader read $name $(<$of>)?, [$($field)+], { $($field: $crate::fields!(@end $field $($how $($with)?)?)),+ });
    };
    (all default $name:ident { $($field:ident),+ $(,)? }) => {
        $crate::fields!(@reader read $name, [$($field)+], { $($field: match $field {
            Some(value) => value,
            None => <$name>::default().$field,
        }),+ });
    };
    (@reader $read:ident $name:ident $(<$of:ident>)?, [$($field:ident)+], { $($made:tt)+ }) => {
        impl<'de, $($of: serde::Deserialize<'de>)?> serde::Deserialize<'de> for $name $(<$of>)? {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Reader $(<$of>(core::marker::PhantomData<$of>))?;
                impl<'de, $($of: serde::Deserialize<'de>)?> serde::de::Visitor<'de> for Reader $(<$of>)? {
                    type Value = $name $(<$of>)?;
                    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                        f.write_str("an object with named fields")
                    }
                    fn visit_map<A: serde::de::MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                        $(let mut $field = None;)+
                        $crate::config::fields::$read(&mut map, &[$(stringify!($field)),+], &mut [$(&mut $field),+])?;
                        Ok($name { $($made)+ })
                    }
                }
                deserializer.deserialize_map($crate::fields!(@new Reader $($of)?))
            }
        }
    };
    (@new $reader:ident) => { $reader };
    (@new $reader:ident $of:ident) => { $reader::<$of>(core::marker::PhantomData) };
    (@end $field:ident) => { $field.ok_or_else(|| serde::de::Error::missing_field(stringify!($field)))? };
    (@end $field:ident default) => { $field.unwrap_or_default() };
    (@end $field:ident or $with:ident) => { $field.unwrap_or_else($with) };
    (@end $field:ident of $with:ident) => { $field.map(|$with(value)| value).unwrap_or_default() };
    (@end $field:ident maybe_day) => { $field.flatten().map(|$crate::config::fields::Day(day)| day) };
    (@end $field:ident day) => {
        match $field {
            Some($crate::config::fields::Day(day)) => day,
            None => return Err(serde::de::Error::missing_field(stringify!($field))),
        }
    };
}
pub use crate::fields;

#[cfg(test)]
mod tests {
    use crate::config::{Config, demo_config};
    use alloc::string::{String, ToString};

    #[test]
    fn what_is_left_out_twice_or_unknown_is_named() {
        let written = serde_json::to_string(&demo_config()).unwrap();
        let refused = |from: &str, to: &str| -> String {
            assert!(written.contains(from), "{from} in {written}");
            serde_json::from_str::<Config>(&written.replacen(from, to, 1)).unwrap_err().to_string()
        };
        assert!(refused("\"hour\":5200,", "").contains("missing field `hour`"));
        assert!(refused("\"hour\":5200,", "\"hour\":5200,\"hour\":1,").contains("duplicate field `hour`"));
        assert!(refused("\"hour\":5200,", "\"hours\":5200,").contains("unknown field `hours`"));
        assert!(refused("\"published\":\"2026-11-01\",", "").contains("published"));
    }

    #[test]
    fn what_may_be_left_out_has_its_default() {
        let mut config = demo_config();
        let written = serde_json::to_string(&config).unwrap();
        let bare = written.replacen("\"keep_days\":180,", "", 1).replacen("\"notify_days\":28", "\"wifi_bars\":1", 1);
        let bare = bare.replacen("\"wifi_bars\":2,", "", 1).replacen("\"draft_days\":30,", "", 1);
        config.thresholds.wifi_bars = 1;
        assert_eq!(serde_json::from_str::<Config>(&bare).unwrap(), config);
    }
}
