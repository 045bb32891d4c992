//! The closed lists an answer may come from, in the trade's words; how each is worded to a homeowner is in the wording files.

/// Declares a closed list: the type, its written words, and its way in and out of JSON and of a form.
#[macro_export]
macro_rules! words {
    ($(#[$doc:meta])* pub enum $name:ident { $($(#[$member_doc:meta])* $member:ident => $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name { $($(#[$member_doc])* $member,)+ }

        impl $name {
            /// The word that stands for this member in files and in wording keys.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$member => $word,)+ }
            }
        }

        impl $crate::answers::Word for $name {
            const ALL: &'static [Self] = &[$(Self::$member,)+];
            const WORDS: &'static [&'static str] = &[$($word,)+];
            fn place(self) -> u8 {
                self as u8
            }
        }

        impl $crate::answers::Field for $name {
            const KIND: $crate::answers::AnswerKind =
                $crate::answers::AnswerKind::One(<Self as $crate::answers::Word>::WORDS);
            fn give(&self) -> $crate::answers::RawAnswer {
                $crate::answers::RawAnswer::One(*self as u8)
            }
            fn take(given: &$crate::answers::RawAnswer) -> Option<Self> {
                match given {
                    $crate::answers::RawAnswer::One(place) => {
                        <Self as $crate::answers::Word>::ALL.get(usize::from(*place)).copied()
                    }
                    _ => None,
                }
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.word())
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let place = $crate::answers::read_word(deserializer, <Self as $crate::answers::Word>::WORDS)?;
                Ok(<Self as $crate::answers::Word>::ALL[place])
            }
        }

        $crate::schema_of_words! { $name $($word)+ }
    };
}
pub use crate::words;

/// Implements `JsonSchema` for a closed list, as an `enum` of its words. Only with the feature `schema`.
#[cfg(feature = "schema")]
#[doc(hidden)]
#[macro_export]
macro_rules! schema_of_words {
    ($name:ident $($word:literal)+) => {
        impl $crate::schemars::JsonSchema for $name {
            fn schema_name() -> $crate::alloc::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut $crate::schemars::SchemaGenerator) -> $crate::schemars::Schema {
                $crate::schemars::json_schema!({ "enum": [$($word,)+] })
            }
        }
    };
}

/// Without the feature `schema` this makes nothing.
#[cfg(not(feature = "schema"))]
#[doc(hidden)]
#[macro_export]
macro_rules! schema_of_words {
    ($name:ident $($word:literal)+) => {};
}

/// Reads one word of a closed list and returns its position in that list. All lists share this function, so that each adds few bytes to the
/// program a visitor loads.
///
/// # Errors
/// Where the text is none of the words: the message quotes its first 40 characters and lists the words that are allowed.
pub fn read_word<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
    allowed: &'static [&'static str],
) -> Result<usize, D::Error> {
    struct WordVisitor(&'static [&'static str]);

    impl serde::de::Visitor<'_> for WordVisitor {
        type Value = usize;

        fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
            f.write_str("one of:")?;
            self.0.iter().try_for_each(|word| write!(f, " {word}"))
        }

        fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<usize, E> {
            self.0.iter().position(|word| *word == text).ok_or_else(|| {
                let shown: alloc::string::String = text.chars().take(40).collect();
                E::custom(format_args!("{shown:?} is not allowed; it may be {}", self.0.join(", ")))
            })
        }
    }

    deserializer.deserialize_str(WordVisitor(allowed))
}
