//! Which plural form a number takes, by language.
//!
//! Source: Unicode CLDR, supplemental data `plurals.xml`, cardinal rules (from memory; a test holds them to a crate that is made
//! from that data).

/// A plural category of CLDR.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Category {
    /// `one`
    One,
    /// `few`
    Few,
    /// `many`
    Many,
    /// `other`
    Other,
}

impl Category {
    /// The name of the category in wording files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::One => "one",
            Self::Few => "few",
            Self::Many => "many",
            Self::Other => "other",
        }
    }
}

/// The category of a number that is written in plain decimal digits; `None` for any other text.
///
/// A language that has no rules here follows the English ones.
#[must_use]
pub fn category(language: &str, number: &str) -> Option<Category> {
    let (whole, part) = number.split_once('.').map_or((number, None), |(whole, part)| (whole, Some(part)));
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if !digits(whole) || !part.is_none_or(digits) {
        return None;
    }
    // Every rule here applies to whole numbers only: `i` is the number, and `v = 0`, since there are no visible decimals.
    if part.is_some() {
        return Some(Category::Other);
    }
    let is_one = whole.trim_start_matches('0') == "1";
    if language != "pl" {
        return Some(if is_one { Category::One } else { Category::Other });
    }
    let tail = |count: usize| whole[whole.len().saturating_sub(count)..].parse::<u8>().unwrap_or_default();
    let (tens, ones) = (tail(2), tail(1));
    Some(match () {
        () if is_one => Category::One,
        () if (2..=4).contains(&ones) && !(12..=14).contains(&tens) => Category::Few,
        () => Category::Many,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use intl_pluralrules::{PluralCategory, PluralRuleType, PluralRules};

    /// Source: the crate `intl_pluralrules`, generated from CLDR's `plurals.json`.
    #[test]
    fn numbers_take_the_form_that_cldr_says() {
        for language in ["en", "pl"] {
            let named: unic_langid::LanguageIdentifier = language.parse().unwrap();
            let rules = PluralRules::create(named, PluralRuleType::CARDINAL).unwrap();
            let whole = (0..=1_250).map(|number| number.to_string());
            let parts = ["0.0", "0.5", "1.0", "1.5", "2.0", "2.5", "5.0", "12.25", "22.1", "1000000", "1000002", "00"];
            for number in whole.chain(parts.map(str::to_owned)) {
                let expected = match rules.select(number.as_str()).unwrap() {
                    PluralCategory::ONE => Category::One,
                    PluralCategory::FEW => Category::Few,
                    PluralCategory::MANY => Category::Many,
                    PluralCategory::OTHER => Category::Other,
                    other => panic!("{language} {number}: {other:?}"),
                };
                assert_eq!(category(language, &number), Some(expected), "{language} {number}");
            }
        }
    }

    #[test]
    fn what_is_no_number_has_no_form() {
        for text in ["", ".", "1.", "-1", "one", "1,250", "£1"] {
            assert_eq!(category("en", text), None, "{text:?}");
        }
    }
}
