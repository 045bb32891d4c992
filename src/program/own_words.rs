//! Checks the `wording` of a setup before it is published: each key names a sentence that the config reaches, and each text is plain, with
//! the places that its sentence has.
//!
//! A setup that an earlier version took may have keys that no sentence has. So this is no part of `check_setup`: `presurvey publish`
//! refuses, and the service starts and says so.

use model::config::{Piece, pieces};
use std::collections::BTreeMap;
use strsim::damerau_levenshtein;
use wording::{Others, Table};

/// A key or a text that is not allowed: where it stands, what was there, and what is allowed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`wording[{key:?}]`: {given} is not allowed; it may be {allowed}")]
pub struct WordingProblem {
    /// The key, with its language if it names one.
    pub key: String,
    /// What was there.
    pub given: String,
    /// What may be there.
    pub allowed: String,
}

/// The tables that a config's wording changes, with their files.
const CHANGED: [(Table, Others); 4] = [
    (wording::form::EN, wording::form::OTHERS),
    (wording::engine::EN, wording::engine::OTHERS),
    (wording::flags_homeowner::EN, wording::flags_homeowner::OTHERS),
    (wording::plans::EN, wording::plans::OTHERS),
];

/// Their files, for people.
const FILES: &str = "form.ftl, result.ftl, mail.ftl, engine.ftl, flags.ftl and plans.ftl in www/wording/en";

/// The tables that it does not reach: file, and why.
const FIXED: [(Table, &str, &str); 7] = [
    (wording::start::EN, "start.ftl", "the first screen comes before the setup does, and keeps its own words"),
    (wording::plain::EN, "plain.ftl", "the plain form works without the setup, and keeps its own words"),
    (wording::share::EN, "share.ftl", "the links and other ways to send keep their own words"),
    (wording::sketches::EN, "sketches.ftl", "the drawings keep their own words"),
    (wording::service::EN, "service.ftl", "the service's own pages keep their words"),
    (wording::triage::EN, "triage.ftl", "the installer's page keeps its own words"),
    (wording::flags_installer::EN, "flags.ftl for the installer", "the installer's page keeps its own words"),
];

/// What the form fills in wherever it shows a sentence.
const EVERYWHERE: [&str; 2] = ["installer", "telephone"];

/// Beginnings of keys whose texts are put into other texts as they are: nothing but their own places is filled in there.
const PARTS: [&str; 7] = ["along-", "option-", "place-", "reach-", "unit-", "wait-", "word-"];

/// Checks an installer's wording. Returns every problem found.
#[must_use]
pub fn check_wording(wording: &BTreeMap<String, String>) -> Vec<WordingProblem> {
    let problem = |key: &str, (given, allowed)| WordingProblem { key: key.to_owned(), given, allowed };
    let mut problems = Vec::new();
    for (key, text) in wording {
        match sentence(key) {
            Ok(places) => problems.extend(of_text(text, &places).map(|why| problem(key, why))),
            Err(why) => problems.push(problem(key, why)),
        }
    }
    problems
}

/// What was there, and what may be there.
type Refused = (String, String);

/// The places of the sentence that a key names.
fn sentence(key: &str) -> Result<Vec<&'static str>, Refused> {
    let (language, name) = key.split_once('.').map_or((None, key), |(language, name)| (Some(language), name));
    let prefix = language.map_or_else(String::new, |language| format!("{language}."));
    if let Some(language) = language {
        let known: Vec<String> = languages().map(|known| format!("`{known}.`")).collect();
        if !languages().any(|known| known == language) {
            let allowed = format!("{} before the key, or nothing for English", known.join(", "));
            return Err((format!("the language `{language}`"), allowed));
        }
    }
    let found = CHANGED.iter().enumerate().find_map(|(at, (table, _))| Some((at, table.find(name)?)));
    if let Some((at, text)) = found {
        let mut places: Vec<&str> = pieces(text).into_iter().filter_map(place).collect();
        // The plans are a program of their own, which is told no name.
        let is_of_plans = at == CHANGED.len() - 1;
        if !is_of_plans && !PARTS.iter().any(|part| name.starts_with(part)) {
            places.extend(EVERYWHERE);
        }
        places.sort_unstable();
        places.dedup();
        return Ok(places);
    }
    if let Some((_, file, why)) = FIXED.iter().find(|(table, ..)| table.find(name).is_some()) {
        return Err((format!("a key of {file}"), format!("a key of {FILES}: {why}")));
    }
    let allowed = match nearest(name) {
        Some(near) => format!("`{prefix}{near}`, or another key of {FILES}"),
        None => format!("a key of {FILES}"),
    };
    Err(("a key that no sentence has".to_owned(), allowed))
}

/// The languages beside English.
fn languages() -> impl Iterator<Item = &'static str> {
    CHANGED[0].1.iter().map(|(code, _)| *code)
}

/// The key that is nearest to a name, if one is near: a third of its letters may differ (this program's choice).
fn nearest(name: &str) -> Option<&'static str> {
    let keys = CHANGED.iter().flat_map(|(table, _)| table.iter().map(|(key, _)| key));
    let (far, key) = keys.map(|key| (damerau_levenshtein(key, name), key)).min()?;
    (far <= name.chars().count().div_ceil(3)).then_some(key)
}

fn place(piece: Piece<'_>) -> Option<&str> {
    match piece {
        Piece::Place(name) => Some(name),
        Piece::Text(_) | Piece::Odd(_) => None,
    }
}

/// The first problem of a text that may have these places.
fn of_text(text: &str, places: &[&str]) -> Option<Refused> {
    let refused = |given: String, allowed: &str| Some((given, allowed.to_owned()));
    if text.trim().is_empty() {
        return refused("an empty text".to_owned(), "a sentence; without the key the form says its own");
    }
    let list = || match places {
        [] => "plain text: this sentence has no places".to_owned(),
        all => all.iter().map(|name| format!("{{{name}}}")).collect::<Vec<_>>().join(", "),
    };
    for piece in pieces(text) {
        match piece {
            Piece::Odd(choice) if choice.contains("->") => {
                let given = format!("a choice ({}…)", choice.split("->").next().unwrap_or_default().trim_end());
                return Some((given, format!("one sentence for every number, with its places: {}", list())));
            }
            Piece::Odd(odd) => return Some((format!("{odd:?}"), list())),
            Piece::Place(name) if !places.contains(&name) => return Some((format!("the place {{{name}}}"), list())),
            Piece::Place(_) | Piece::Text(_) => {}
        }
    }
    if text.chars().any(char::is_control) {
        return refused("a line break or another control character".to_owned(), "one line of plain text");
    }
    let markup = markup(text)?;
    refused(markup.to_owned(), "plain text: it would be shown just as it is written, not as HTML")
}

/// The first tag of HTML in a text, or a character named as HTML does.
fn markup(text: &str) -> Option<&str> {
    let up_to = |rest: &str, last: char, fits: fn(char) -> bool| {
        let end = rest[1..].find(last)? + 1;
        (end > 1 && rest[1..end].starts_with(fits)).then_some(end + 1)
    };
    text.char_indices().find_map(|(at, sign)| {
        let rest = &text[at..];
        let length = match sign {
            '<' => up_to(rest, '>', |sign| sign.is_ascii_alphabetic() || matches!(sign, '/' | '!'))?,
            '&' => up_to(rest, ';', |sign| sign.is_ascii_alphabetic() || sign == '#')
                .filter(|length| rest[..*length].chars().all(|sign| !sign.is_whitespace()))?,
            _ => return None,
        };
        Some(&rest[..length])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(key: &str, text: &str) -> Vec<String> {
        let wording = BTreeMap::from([(key.to_owned(), text.to_owned())]);
        check_wording(&wording).iter().map(ToString::to_string).collect()
    }

    fn refused(key: &str, text: &str, parts: &[&str]) {
        let told = told(key, text);
        let [one] = told.as_slice() else { panic!("{key}, {text:?}: {told:?}") };
        assert!(one.starts_with(&format!("`wording[\"{key}\"]`: ")), "{one}");
        for part in parts {
            assert!(one.contains(part), "{part:?} in {one}");
        }
    }

    /// Every sentence may be copied from its file as it is, if it has no choice in it.
    #[test]
    fn every_sentence_that_a_config_reaches_is_allowed_in_every_language() {
        let mut count = 0;
        for (table, others) in CHANGED {
            let languages = others.iter().map(|(code, lines)| (format!("{code}."), lines.to_vec()));
            let english = (String::new(), table.iter().map(|(_, text)| text).collect());
            for (prefix, lines) in std::iter::once(english).chain(languages) {
                for ((key, _), text) in table.iter().zip(lines).filter(|(_, text)| !text.contains('\u{1}')) {
                    let as_in_its_file = text.replace('{', "{ $").replace('}', " }");
                    for text in [text, &as_in_its_file] {
                        assert_eq!(told(&format!("{prefix}{key}"), text), [""; 0]);
                        count += 1;
                    }
                }
            }
        }
        assert!(count > 3_000, "{count}");
    }

    #[test]
    fn an_unknown_key_is_refused_with_the_nearest_one() {
        refused("sned", "Send it", &["a key that no sentence has", "it may be `send`, or another key of form.ftl"]);
        refused("pl.sned", "Wyślij", &["it may be `pl.send`, or"]);
        refused("notice_who", "x", &["`notice-who`"]);
        refused("Send", "x", &["`send`"]);
        refused("nothing-like-any-of-them-at-all", "x", &["it may be a key of form.ftl"]);
        refused("", "x", &["a key that no sentence has"]);
    }

    #[test]
    fn an_unknown_language_is_refused() {
        refused("de.send", "Senden", &["the language `de`", "`pl.` before the key, or nothing for English"]);
        refused("en.send", "Send it", &["the language `en`", "nothing for English"]);
    }

    #[test]
    fn a_key_that_would_change_nothing_is_refused_with_the_reason() {
        for (table, _, why) in FIXED {
            let (key, _) =
                table.iter().find(|(key, _)| CHANGED.iter().all(|(table, _)| table.find(key).is_none())).unwrap();
            refused(key, "x", &["a key of ", why]);
        }
        refused("flag-landlord-name", "x", &["flags.ftl for the installer"]);
        assert_eq!(told("flag-landlord", "x"), [""; 0]);
    }

    #[test]
    fn an_unknown_place_is_refused_with_those_of_the_sentence() {
        refused("next-1", "Ask {instaler}", &["the place {instaler}", "it may be {installer}, {telephone}"]);
        refused(
            "pl.band-range",
            "{ $low } – { $hihg }",
            &["the place {hihg}", "{high}, {installer}, {low}, {telephone}"],
        );
        refused("unit-metres", "m ({installer})", &["this sentence has no places"]);
        let (plain, _) = wording::plans::EN
            .iter()
            .find(|(_, text)| pieces(text).into_iter().all(|one| place(one).is_none()))
            .unwrap();
        refused(plain, "{installer}", &["the place {installer}", "this sentence has no places"]);
        refused("next-1", "Ask { \"them\" }", &["\"{ \\\"them\\\" }\""]);
        refused("next-1", "Ask {installer", &["\"{\""]);
        refused("next-1", "Ask installer}", &["\"}\""]);
    }

    #[test]
    fn what_is_no_plain_sentence_is_refused() {
        for empty in ["", " ", "\n"] {
            refused("send", empty, &["an empty text"]);
        }
        refused(
            "contact-photos",
            "{ $count -> [one] One *[other] { $count } photos }",
            &["a choice ({ $count…)", "{count}"],
        );
        refused("send", "<b>Send</b>", &["<b> is not allowed", "plain text"]);
        refused("send", "Send<br/> it", &["<br/>"]);
        refused("send", "Send&nbsp;it", &["&nbsp;"]);
        refused("send", "Send\nit", &["a line break"]);
        for plain in ["Send < 5 MB", "Smith & Sons; send", "Send & go", "<3", "1 < 2 > 1", "Send it"] {
            assert_eq!(told("send", plain), [""; 0], "{plain}");
        }
    }
}
