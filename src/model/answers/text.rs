//! Short free text and postcodes, checked when they are made.

use alloc::borrow::ToOwned;
use alloc::string::String;
use serde::{Deserialize, Deserializer, Serialize, de};

/// A line of text of at most 200 characters, without control characters; carried as typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct ShortText(String);

impl ShortText {
    /// The most characters it may hold.
    pub const MOST: usize = 200;

    /// Makes the text; `None` where it is longer than [`Self::MOST`] or holds control characters.
    #[must_use]
    pub fn new(text: &str) -> Option<Self> {
        let fits = text.chars().count() <= Self::MOST && !text.chars().any(char::is_control);
        fits.then(|| Self(text.to_owned()))
    }

    /// The text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl<'de> Deserialize<'de> for ShortText {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::new(&text)
            .ok_or_else(|| de::Error::custom("this text is not allowed; it may be one line of at most 200 characters"))
    }
}

/// A British postcode, or its first half; kept in capitals with one space.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Postcode(String);

impl Postcode {
    /// Reads a postcode or its outward half, in capitals or small letters and however it is spaced. `None` where the shape is another.
    ///
    /// Shapes: BS 7666 (from memory): outward A9, A99, AA9, AA99, A9A, AA9A; inward 9AA.
    #[must_use]
    pub fn new(text: &str) -> Option<Self> {
        let squeezed: String = text.chars().filter(|c| !c.is_whitespace()).map(|c| c.to_ascii_uppercase()).collect();
        if !squeezed.is_ascii() || squeezed.len() > 7 {
            return None;
        }
        if is_outward(&squeezed) {
            return Some(Self(squeezed));
        }
        let (outward, inward) = squeezed.split_at_checked(squeezed.len().checked_sub(3)?)?;
        (is_outward(outward) && is_inward(inward)).then(|| Self(alloc::format!("{outward} {inward}")))
    }

    /// The postcode in capitals with one space.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The outward half, before the space.
    #[must_use]
    pub fn outward(&self) -> &str {
        self.0.split(' ').next().unwrap_or("")
    }

    /// The postcode area: the letters that the postcode begins with.
    #[must_use]
    pub fn area(&self) -> &str {
        self.0.split(|c: char| c.is_ascii_digit()).next().unwrap_or("")
    }
}

fn is_outward(text: &str) -> bool {
    let letters = text.bytes().take_while(u8::is_ascii_uppercase).count();
    let rest = &text.as_bytes()[letters..];
    (1..=2).contains(&letters)
        && matches!(rest, [d] | [d, _] if d.is_ascii_digit())
        && rest.get(1).is_none_or(u8::is_ascii_alphanumeric)
}

fn is_inward(text: &str) -> bool {
    matches!(text.as_bytes(), [d, a, b] if d.is_ascii_digit() && a.is_ascii_uppercase() && b.is_ascii_uppercase())
}

impl<'de> Deserialize<'de> for Postcode {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::new(&text).ok_or_else(|| {
            de::Error::custom(format_args!(
                "\"{}\" is not allowed; it may be a postcode or its first half, such as ZZ1 1AA or ZZ1",
                text.chars().take(20).collect::<String>()
            ))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_postcode_is_read_however_it_is_typed() {
        for (typed, kept) in [("zz1 1aa", "ZZ1 1AA"), ("ZZ11AA", "ZZ1 1AA"), (" zz1a ", "ZZ1A"), ("z9 9zz", "Z9 9ZZ")] {
            assert_eq!(Postcode::new(typed).unwrap().as_str(), kept, "{typed}");
        }
        for not_one in ["", "1", "hello", "ZZZ1 1AA", "ZZ1 AAA", "ZZ123 1AA", "ß1 1AA"] {
            assert_eq!(Postcode::new(not_one), None, "{not_one}");
        }
        assert_eq!(Postcode::new("zz12 1aa").unwrap().area(), "ZZ");
    }

    #[test]
    fn a_line_is_bounded_and_plain() {
        assert!(ShortText::new(&"x".repeat(200)).is_some());
        assert!(ShortText::new(&"x".repeat(201)).is_none());
        assert!(ShortText::new("a\u{0}b").is_none());
    }
}
