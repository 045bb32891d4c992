//! The form's wording as the views use it: the table of its language, with the installer's changes and the placeholders filled in.

use crate::intl;
use model::config::FormPart;
use model::questions::Question;
use model::units::Pence;
use std::borrow::Cow;
use std::rc::Rc;
use wording::{self, Key, Language, MONEY, NUMBER, Words};
use yew::AttrValue;

/// The wording in use; cheap to clone.
#[derive(Clone, Default)]
pub struct Speech {
    config: Option<Rc<FormPart>>,
    language: Option<&'static Language<'static>>,
    /// The installer's name: the one that the page gives, else the config's.
    pub installer: AttrValue,
    /// The installer's telephone.
    pub telephone: AttrValue,
}

impl PartialEq for Speech {
    fn eq(&self, other: &Self) -> bool {
        let same = match (&self.config, &other.config) {
            (Some(one), Some(two)) => Rc::ptr_eq(one, two),
            (None, None) => true,
            _ => false,
        };
        let same_language = self.language() == other.language();
        same && same_language && self.installer == other.installer && self.telephone == other.telephone
    }
}

impl Speech {
    /// The English wording for an installer. The name and telephone number that the page gives come before the config's.
    #[must_use]
    pub fn new(config: Option<Rc<FormPart>>, installer: AttrValue, telephone: AttrValue) -> Self {
        let named = |given: AttrValue, own: fn(&FormPart) -> &str| match &config {
            Some(config) if given.is_empty() => AttrValue::from(own(config).to_owned()),
            _ => given,
        };
        let (installer, telephone) =
            (named(installer, |config| &config.installer.name), named(telephone, |config| &config.installer.telephone));
        Self { config, language: None, installer, telephone }
    }

    /// The wording in another language, where one is given.
    #[must_use]
    pub fn spoken(self, language: Option<&'static Language<'static>>) -> Self {
        Self { language, ..self }
    }

    /// The language's code, as the attribute `lang` and the browser's `Intl` take it.
    #[must_use]
    pub fn language(&self) -> &'static str {
        self.language.map_or("en-GB", |language| language.code)
    }

    /// The language's writing direction, as the attribute `dir` takes it.
    #[must_use]
    pub fn direction(&self) -> &'static str {
        if self.language.is_some_and(|language| language.is_from_right) { "rtl" } else { "ltr" }
    }

    /// A sum of money as the language writes it.
    #[must_use]
    pub fn money(&self, sum: Pence) -> String {
        intl::money(self.language(), sum)
    }

    /// A day as the language writes it, from its ISO form; a text that is no day is returned unchanged.
    #[must_use]
    pub fn day(&self, iso: &str) -> String {
        intl::day(self.language(), iso)
    }

    /// The table in use, with the installer's changes over it.
    #[must_use]
    pub fn words(&self) -> Words<'_> {
        self.english().spoken(self.language.map(Language::form))
    }

    /// The table in English whatever the form's language, for texts that the installer reads.
    #[must_use]
    pub fn english(&self) -> Words<'_> {
        match &self.config {
            Some(config) => Words::with_changes(wording::form::EN, &config.wording),
            None => Words::new(wording::form::EN),
        }
    }

    /// The sentence of a key, with the installer's name and telephone number filled in.
    #[must_use]
    pub fn say(&self, key: Key) -> AttrValue {
        self.fill(key, &[])
    }

    /// The sentence of a key with its placeholders filled in.
    #[must_use]
    pub fn fill(&self, key: Key, places: &[(&str, &str)]) -> AttrValue {
        self.filled(self.words().say(key), places)
    }

    /// The sentence of the key that these parts make up, or `None` where there is none.
    #[must_use]
    pub fn find(&self, parts: &[&str]) -> Option<AttrValue> {
        self.find_with(parts, &[])
    }

    /// Like [`Speech::find`], with its placeholders filled in.
    #[must_use]
    pub fn find_with(&self, parts: &[&str], places: &[(&str, &str)]) -> Option<AttrValue> {
        self.words().find(&parts.concat()).map(|text| self.filled(text, places))
    }

    /// The sentence of the key that these parts make up; the key itself where there is none, so that the gap is noticed.
    #[must_use]
    pub fn made(&self, parts: &[&str]) -> AttrValue {
        self.find(parts).unwrap_or_else(|| parts.concat().into())
    }

    /// The text of one of a question's choices: the question's own, else the general one of the choice's word.
    #[must_use]
    pub fn option(&self, question: &Question, word: &str) -> AttrValue {
        self.find(&["option-", question.id, "-", word]).unwrap_or_else(|| self.made(&["word-", word]))
    }

    /// A sentence that the engine worded already, with its placeholders filled in.
    #[must_use]
    pub fn filled(&self, text: &str, places: &[(&str, &str)]) -> AttrValue {
        let find = |name: &str| self.place(name, places);
        wording::filled_in(self.words().language(), text, &find).into_owned().into()
    }

    /// The value of a placeholder: one of those given, the installer's name or telephone number, or a figure that the engine left for the
    /// form to write.
    fn place<'a>(&'a self, name: &str, places: &[(&str, &'a str)]) -> Option<Cow<'a, str>> {
        if let Some((_, value)) = places.iter().find(|(place, _)| *place == name) {
            return Some((*value).into());
        }
        match name {
            "installer" => return Some(self.installer.as_str().into()),
            "telephone" => return Some(self.telephone.as_str().into()),
            _ => {}
        }
        let figure = |kind: &str| name.strip_prefix(kind.trim_start_matches('{'));
        if let Some(pence) = figure(MONEY).and_then(|pence| pence.parse().ok()) {
            return Some(self.money(Pence(pence)).into());
        }
        intl::number(self.language(), figure(NUMBER)?).map(Into::into)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::widget::screens::SCREENS;
    use model::answers::AnswerKind;
    use model::questions::{CATALOGUE, Place};

    #[test]
    fn every_question_and_every_option_has_its_words() {
        let speech = Speech::default();
        let mut missing = Vec::new();
        let mut want = |parts: &[&str]| {
            if speech.find(parts).is_none() {
                missing.push(parts.concat());
            }
        };
        for question in CATALOGUE {
            want(&["question-", question.id]);
            want(&["why-", question.id]);
            if matches!(question.place, Place::Meter | Place::Board | Place::Pipes | Place::Drive) {
                want(&["hint-", question.id]);
            }
            match question.kind {
                AnswerKind::One(words) | AnswerKind::Any(words) => {
                    for word in words {
                        if speech.find(&["option-", question.id, "-", word]).is_none() {
                            want(&["word-", word]);
                        }
                    }
                }
                AnswerKind::Count(least, most) => {
                    for count in least..=most {
                        if speech.find(&["option-", question.id, "-", &count.to_string()]).is_none() {
                            want(&["word-", &count.to_string()]);
                        }
                    }
                }
                _ => {}
            }
        }
        for screen in SCREENS {
            want(&["screen-", screen.id]);
        }
        for place in <Place as model::answers::Word>::WORDS.iter().filter(|place| **place != Place::Desk.word()) {
            want(&["place-", place]);
        }
        assert!(missing.is_empty(), "no words for: {}", missing.join(" "));
    }

    #[test]
    fn figures_that_the_engine_left_are_shown_and_other_languages_spoken() {
        let english = Speech::default();
        let text = "{#7.5} hours, {£123450} in all, {unknown} {#x}";
        assert_eq!(english.filled(text, &[]), "7.5 hours, £1,234.50 in all, {unknown} {#x}");
        assert_eq!((english.language(), english.direction()), ("en-GB", "ltr"));
        let text = String::leak(Language::write("pl", false).unwrap());
        let polish = english.clone().spoken(Some(Box::leak(Box::new(Language::of_form(text).unwrap()))));
        assert_eq!((polish.say(wording::form::YES), polish.language()), ("Tak".into(), "pl"));
        let photos = |count| polish.fill(wording::form::CONTACT_PHOTOS, &[("count", count)]);
        assert_eq!(photos("3"), "Razem z tym wysyłane są 3 zdjęcia.");
        assert_eq!(photos("12"), "Razem z tym wysyłanych jest 12 zdjęć.");
        assert!(polish != english && polish.english() == english.words());
    }

    #[test]
    fn what_the_engine_may_say_has_its_words() {
        use engine::assessment::{Complexity, Gatekeeper, NoBand, Reason};
        use model::answers::{LengthUnit, Word};
        let speech = Speech::default();
        let mut want: Vec<String> = Vec::new();
        let mut family = |name: &str, words: &[&str]| want.extend(words.iter().map(|word| [name, word].concat()));
        family("complexity-", Complexity::WORDS);
        let rests = ["straightforward", "more-involved", "depends-on-others"];
        family("complexity-if-", &rests);
        family("complexity-if-all-", &rests);
        // What lies outside what the figures are for means nothing further.
        let covered: Vec<&str> = Complexity::WORDS.iter().copied().filter(|word| *word != "not-covered").collect();
        family("means-", &covered);
        family("so-far-", Complexity::WORDS);
        family("so-far-open-", &["0", "1", "2", "3"]);
        family("reason-", Reason::WORDS);
        family("gate-", Gatekeeper::WORDS);
        family("no-band-", NoBand::WORDS);
        family("unit-", LengthUnit::WORDS);
        let missing: Vec<&String> = want.iter().filter(|key| speech.find(&[key]).is_none()).collect();
        assert!(missing.is_empty(), "no words for {missing:?}");
    }
}
