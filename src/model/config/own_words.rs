//! The installer's own wording, and the places in it.

use alloc::string::String;
use alloc::vec::Vec;

/// A piece of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece<'a> {
    /// Plain text.
    Text(&'a str),
    /// The name of a place that is filled in: `installer` of `{installer}`, `{$installer}` and `{ $installer }`.
    Place(&'a str),
    /// Braces that are no place, and a brace without its partner.
    Odd(&'a str),
}

/// The pieces of a text, in order. Places may be written as the form reads them, `{name}`, or as the wording files do, `{ $name }`.
#[must_use]
pub fn pieces(text: &str) -> Vec<Piece<'_>> {
    let (mut all, mut rest) = (Vec::new(), text);
    while let Some(at) = rest.find(['{', '}']) {
        let (before, found) = rest.split_at(at);
        let (braces, after) = found.split_at(end(found));
        all.extend((!before.is_empty()).then_some(Piece::Text(before)));
        all.push(name(braces).map_or(Piece::Odd(braces), Piece::Place));
        rest = after;
    }
    all.extend((!rest.is_empty()).then_some(Piece::Text(rest)));
    all
}

/// Where the braces end that a text begins with, those within them counted; a brace without its partner is one by itself.
fn end(text: &str) -> usize {
    let mut open = 0_u32;
    for (at, sign) in text.char_indices() {
        match sign {
            '{' => open += 1,
            '}' => open = open.saturating_sub(1),
            _ => {}
        }
        if open == 0 {
            return at + 1;
        }
    }
    1
}

/// The name in braces: letters, digits, hyphens and underscores, as Fluent has it, with or without its `$`.
fn name(braces: &str) -> Option<&str> {
    let inner = braces.strip_prefix('{')?.strip_suffix('}')?.trim();
    let name = inner.strip_prefix('$').unwrap_or(inner);
    let is_of_it = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_');
    (name.starts_with(|sign: char| sign.is_ascii_alphabetic()) && name.chars().all(is_of_it)).then_some(name)
}

/// A text as every form reads it: each place is `{name}`, and all else stands as it is.
pub(super) fn as_read(text: &str) -> String {
    let mut read = String::with_capacity(text.len());
    for piece in pieces(text) {
        match piece {
            Piece::Text(same) | Piece::Odd(same) => read.push_str(same),
            Piece::Place(name) => read.extend(["{", name, "}"]),
        }
    }
    read
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::demo_setup;

    #[test]
    fn a_place_is_read_in_every_spacing() {
        for text in
            ["{installer}", "{$installer}", "{ $installer }", "{ installer }", "{  $installer}", "{\n $installer\n}"]
        {
            let around = ["Ask ", text, ", please."].concat();
            assert_eq!(as_read(&around), "Ask {installer}, please.", "{text:?}");
            assert_eq!(pieces(text), [Piece::Place("installer")]);
        }
        assert_eq!(as_read("{$low} to { $high }{$by}"), "{low} to {high}{by}");
    }

    #[test]
    fn what_is_no_place_stays_as_it_is() {
        for text in [
            "",
            "plain",
            "a { brace",
            "a } brace",
            "{ \"x\" }",
            "{}",
            "{ $ }",
            "{#7.5} and {£1250}",
            "{ $n -> [one] {$n} day }",
        ] {
            assert_eq!(as_read(text), text);
        }
        assert_eq!(pieces("a { $b"), [Piece::Text("a "), Piece::Odd("{"), Piece::Text(" $b")]);
        assert_eq!(pieces("{ $n -> [one] {$n} }!"), [Piece::Odd("{ $n -> [one] {$n} }"), Piece::Text("!")]);
    }

    /// A form that was copied to a website reads `{name}` alone, whatever format it asks for.
    #[test]
    fn every_format_is_published_with_places_that_every_form_reads() {
        let mut setup = demo_setup();
        setup.wording.insert("pl.next-1".into(), "Do { $installer }: {$telephone}".into());
        setup.wording.insert("sned".into(), "kept".into());
        let config = setup.publish();
        assert_eq!(config.wording["pl.next-1"], "Do {installer}: {telephone}");
        for format in 1..=crate::config::NEWEST_FORMAT {
            let published = config.in_format(format);
            assert_eq!(published["wording"]["pl.next-1"], "Do {installer}: {telephone}", "format {format}");
            assert_eq!(published["wording"]["sned"], "kept", "what nobody reads is not lost");
        }
        assert_eq!(setup.wording["pl.next-1"], "Do { $installer }: {$telephone}", "the setup stays as it was written");
    }
}
