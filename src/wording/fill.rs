//! Fills the variables of a message, and picks the variant of a choice.
//!
//! A variable is written `{name}`. The build script writes a choice with four control characters, which no text holds: U+0001 and the
//! variable's name, then for each variant U+0002, its key, U+0003 and its text, and U+0004 at the end. The last variant is the default.

use super::plural::category;
use alloc::borrow::Cow;
use alloc::string::String;

/// The beginning of a variable's value that is a number, such as `{#7.5}`: whoever displays the text formats the number for its language.
pub const NUMBER: &str = "{#";
/// The same for money in whole pence, such as `{£1250}`.
pub const MONEY: &str = "{£";

/// Fills a message in English. A variable without a value is left as it is, so that the gap is seen.
#[must_use]
pub fn filled<'a>(text: &'a str, places: &[(&str, &str)]) -> Cow<'a, str> {
    filled_in("en", text, &|name| {
        places.iter().find(|(place, _)| *place == name).map(|(_, value)| Cow::Borrowed(*value))
    })
}

/// Fills a message in a language, with that language's plural forms. `find` gives the value of a variable; one without a value is left as
/// it is.
#[must_use]
pub fn filled_in<'a, 'v>(language: &str, text: &'a str, find: &dyn Fn(&str) -> Option<Cow<'v, str>>) -> Cow<'a, str> {
    if !text.bytes().any(begins) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    put(&mut out, language, text, find);
    Cow::Owned(out)
}

const fn begins(byte: u8) -> bool {
    byte == b'{' || byte == 1
}

fn put<'v>(out: &mut String, language: &str, text: &str, find: &dyn Fn(&str) -> Option<Cow<'v, str>>) {
    let mut rest = text;
    while let Some(at) = rest.bytes().position(begins) {
        out.push_str(&rest[..at]);
        let (is_choice, inner) = (rest.as_bytes()[at] == 1, &rest[at + 1..]);
        let Some((inner, tail)) = inner.split_once(if is_choice { '\u{4}' } else { '}' }) else {
            rest = &rest[at..];
            break;
        };
        if is_choice {
            put(out, language, chosen(language, inner, find), find);
        } else if let Some(value) = find(inner) {
            out.push_str(&value);
        } else {
            out.extend(["{", inner, "}"]);
        }
        rest = tail;
    }
    out.push_str(rest);
}

/// The text of the variant that matches the value of a choice's variable: a variant for the value itself is preferred to one for its plural
/// category.
fn chosen<'a, 'v>(language: &str, choice: &'a str, find: &dyn Fn(&str) -> Option<Cow<'v, str>>) -> &'a str {
    let mut parts = choice.split('\u{2}');
    let value = parts.next().and_then(find).unwrap_or_default();
    // A number that is still to be formatted for the language (see `NUMBER`).
    let value = value.strip_prefix(NUMBER).and_then(|rest| rest.strip_suffix('}')).unwrap_or(&value);
    let plural = category(language, value).map(super::plural::Category::word);
    let (mut of_form, mut last) = (None, "");
    for (key, text) in parts.filter_map(|variant| variant.split_once('\u{3}')) {
        if key == value {
            return text;
        }
        if plural == Some(key) {
            of_form = Some(text);
        }
        last = text;
    }
    of_form.unwrap_or(last)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled_and_a_gap_is_seen() {
        assert_eq!(filled("from {low} to {high}.", &[("low", "£1"), ("high", "£2")]), "from £1 to £2.");
        assert_eq!(filled("from {low}", &[]), "from {low}");
        assert_eq!(filled("an open { brace", &[("x", "y")]), "an open { brace");
        assert_eq!(filled("\u{1}count\u{2}one", &[("count", "1")]), "\u{1}count\u{2}one");
    }

    #[test]
    fn a_number_takes_its_own_variant_then_its_plural_form_then_the_last() {
        let text = "It takes \u{1}n\u{2}0\u{3}nothing\u{2}one\u{3}{n} day\u{2}other\u{3}{n} days\u{4}.";
        for (number, expected) in
            [("0", "nothing"), ("1", "1 day"), ("2", "2 days"), ("1.5", "1.5 days"), ("x", "x days")]
        {
            assert_eq!(filled(text, &[("n", number)]), ["It takes ", expected, "."].concat());
        }
        let text =
            "\u{1}n\u{2}one\u{3}{n} dzień\u{2}few\u{3}{n} dni\u{2}many\u{3}{n} dni razem\u{2}other\u{3}{n} dnia\u{4}";
        let say = |number: &'static str| filled_in("pl", text, &|_| Some(number.into())).into_owned();
        assert_eq!(["1", "3", "5", "22", "1.5"].map(say), ["1 dzień", "3 dni", "5 dni razem", "22 dni", "1.5 dnia"]);
        assert_eq!(say("{#3}"), "{#3} dni");
    }

    #[test]
    fn a_word_takes_its_variant() {
        let text = "\u{1}who\u{2}you\u{3}You\u{2}other\u{3}They\u{4} look.";
        assert_eq!(filled(text, &[("who", "you")]), "You look.");
        assert_eq!(filled(text, &[("who", "somebody")]), "They look.");
        assert_eq!(filled(text, &[]), "They look.");
    }
}
