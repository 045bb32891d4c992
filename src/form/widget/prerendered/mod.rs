//! Markup made beforehand, at build time, by the form's own views: the first screen as the page's script shows it before
//! the program is there.
//!
//! One piece of markup holds all that the screen can show; each part that depends on an answer says when it shows. No
//! rule is written here: the screen is drawn for one answer after the other, and what differs tells the condition.

mod declared;
mod markup;
mod merge;
mod notes;
mod plain;

use super::app::whole;
use super::drawings::Sheet;
use super::el::el;
use super::parts::{View, screen_page};
use super::speech::Speech;
use super::state::{Form, Said};
use crate::{plans, sketches};
use declared::declared;
use markup::made;
use merge::{State, merged};
use model::answers::{Answer, Answers, HazardPlace, HazardSign, HazardWhen, Set, Word};
use notes::Notes;
use plain::PlainForm;
use record::enquiry::draft_lines::VERSION;
use record::markup::Tag;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;
use std::rc::Rc;
use wording::{
    Language, Local, Others, Words, form as form_words, plain as plain_words, plans as plan_words,
    sketches as drawn_words, start,
};
use yew::Callback;

/// The languages beside English, and whether they are written from right to left.
const LANGUAGES: [(&str, bool); 1] = [("pl", false)];

/// Ticked where nothing is, and the place where none is said.
const OPEN: &str = "open";
const NONE: &str = "none";
const NOT_SURE: &str = "not-sure";

/// What is made for one language. `{installer}` and `{telephone}` stand where names are filled in.
#[derive(Serialize)]
pub struct Beforehand {
    /// What `presurvey.js` shows.
    script: FirstScreen,
    /// What `plain.js` shows.
    plain: plain::Plain,
    /// What a page of our own shows where there is no script.
    noscript: String,
    /// All that the program and the engine say, where that is not English.
    words: Option<String>,
    /// The sheet of drawings.
    sketches: String,
    /// What the plans say.
    plans: String,
}

/// What `presurvey.js` shows.
#[derive(Serialize)]
struct FirstScreen {
    /// The first screen.
    first: String,
    /// What comes before it where a half-done form is found on the device.
    begun: String,
    /// How an installer is called whose name the page does not give.
    unnamed: String,
}

/// What the build of the pages is given.
#[derive(Serialize)]
pub struct Made {
    /// The markup, by language.
    languages: BTreeMap<&'static str, Beforehand>,
    /// What this program and the scripts of the pages both have to know, by the name of a constant.
    declared: BTreeMap<String, Value>,
}

/// Everything that is made.
///
/// # Errors
/// If a part of the first screen shows by a rule that the script can't follow.
pub fn made_for_the_pages() -> Result<Made, String> {
    Ok(Made { languages: all()?, declared: declared() })
}

/// The markup, by language.
fn all() -> Result<BTreeMap<&'static str, Beforehand>, String> {
    let others = LANGUAGES.iter().map(|(code, is_from_right)| {
        let words = Language::write(code, *is_from_right).ok_or_else(|| format!("`{code}` lacks a wording file"))?;
        Ok((*code, of(code, Some(words))?))
    });
    [Ok(("en", of("en", None)?))].into_iter().chain(others).collect()
}

fn of(code: &'static str, words: Option<String>) -> Result<Beforehand, String> {
    let local =
        |others: Others| others.iter().find(|(other, _)| *other == code).map(|(code, lines)| Local { code, lines });
    let notes = Notes::new(Words::new(start::EN).spoken(local(start::OTHERS)));
    let speech = places(words.as_deref());
    let mut first = first_screen(&speech)?;
    first.each(&mut |tag| {
        if tag.is("class", "actions") {
            tag.children.extend(notes.waits());
        }
    });
    let html = |mut tag: Tag| {
        tag.set("lang", speech.language());
        // Written from left to right it is anyway.
        if speech.direction() != "ltr" {
            tag.set("dir", speech.direction());
        }
        tag.html()
    };
    let script = FirstScreen { first: html(first), begun: html(notes.begun()), unnamed: notes.unnamed() };
    let (form, sheet, done) = (Rc::default(), Sheet::default(), Callback::noop());
    let view = View { form: &form, config: None, speech: &speech, sheet: &sheet, done: &done };
    let plain = PlainForm::new(Words::new(plain_words::EN).spoken(local(plain_words::OTHERS)), &view);
    let sketches = sketches::sheet(Words::new(drawn_words::EN).spoken(local(drawn_words::OTHERS)));
    let plans = plans::written(
        Words::new(plan_words::EN).spoken(local(plan_words::OTHERS)),
        Words::new(form_words::EN).spoken(local(form_words::OTHERS)),
    );
    Ok(Beforehand { script, plain: plain.scripted(&html), noscript: html(plain.noscript()), words, sketches, plans })
}

/// Speaks with places where names are filled in, in English or with the words of a language.
fn places(words: Option<&str>) -> Speech {
    // For as long as the program runs, which ends when the markup is made.
    let read = words.and_then(|words| Language::of_form(String::leak(words.to_owned())));
    let language = read.map(|language| &*Box::leak(Box::new(language)));
    Speech::new(None, "{installer}".into(), "{telephone}".into()).spoken(language)
}

/// The first screen with all that it can show.
fn first_screen(speech: &Speech) -> Result<Tag, String> {
    let start = State { ticked: vec![OPEN], over: false, place: OPEN, pressed: false };
    let drawings = states().into_iter().map(|state| (state.clone(), drawn(&state, speech))).collect();
    let mut screen = merged(drawings, &start)?;
    screen.set("data-version", VERSION);
    screen.each(&mut |tag| {
        // Before the script is there, a press of the button must not load the page anew with the answers in its address.
        if tag.name == "form" {
            tag.set("method", "dialog");
        }
        // A row that stands for no sign stands alone.
        if tag.is("type", "checkbox") && !HazardSign::WORDS.iter().any(|word| tag.is("value", word)) {
            tag.set("data-alone", "");
        }
        // And one that says that what passed is over.
        if tag.is("name", "hazard-when") && tag.is("value", HazardWhen::LongAgo.word()) {
            tag.set("data-is-over", "");
        }
    });
    Ok(screen)
}

/// The screen is drawn at all signs first, then at each answer alone; at each place, before and after a press.
fn states() -> Vec<State> {
    let alone = [OPEN, NONE, NOT_SURE].iter().chain(HazardSign::WORDS).map(|word| vec![*word]);
    let ticked = std::iter::once(HazardSign::WORDS.to_vec()).chain(alone);
    let mut all = Vec::new();
    for ticked in ticked {
        for place in [OPEN, NOT_SURE].iter().chain(HazardPlace::WORDS) {
            for (over, pressed) in [(false, true), (false, false), (true, true), (true, false)] {
                all.push(State { ticked: ticked.clone(), over, place, pressed });
            }
        }
    }
    all
}

/// The screen as the program shows it.
fn drawn(state: &State, speech: &Speech) -> Tag {
    let mut answers = Answers::default();
    answers.hazard.signs = match state.ticked.as_slice() {
        [OPEN] => Answer::NotAsked,
        [NONE] => Answer::Known(Set::NONE),
        [NOT_SURE] => Answer::NotSure,
        signs => Answer::Known(Set::of(&signs.iter().filter_map(|word| member(word)).collect::<Vec<HazardSign>>())),
    };
    // That it is of now, or that nobody knows, comes to the same.
    answers.hazard.when = if state.over { Answer::Known(HazardWhen::LongAgo) } else { Answer::NotAsked };
    answers.hazard.place = match state.place {
        OPEN => Answer::NotAsked,
        NOT_SURE => Answer::NotSure,
        place => member(place).map_or(Answer::NotAsked, Answer::Known),
    };
    let form = Rc::new(Form { answers: Said::of(answers), complaints: u32::from(state.pressed), ..Form::default() });
    let (sheet, done) = (Sheet::default(), Callback::noop());
    let view = View { form: &form, config: None, speech, sheet: &sheet, done: &done };
    let page = screen_page(&view, &Callback::noop(), None);
    made(el("div").class("form").all(whole(&view, None, page).into()))
}

fn member<T: Word>(word: &str) -> Option<T> {
    T::WORDS.iter().position(|other| *other == word).map(|at| T::ALL[at])
}

#[cfg(test)]
mod tests {
    use super::*;
    use record::markup::Node;

    /// What is seen of the markup, or of the program's own screen, as text without what tells when it shows.
    fn seen(tag: &Tag, state: &State) -> String {
        let says = |name: &str| tag.get(name).map(|words| words.split(' ').collect::<Vec<_>>());
        let when = if state.over { says("data-over").or(says("data-when")) } else { says("data-when") };
        let shows = when.is_none_or(|words| state.ticked.iter().any(|ticked| words.contains(ticked)))
            && says("data-where").is_none_or(|words| words.contains(&state.place))
            && (tag.get("data-pressed").is_none() || state.pressed);
        if !shows {
            return String::new();
        }
        let inner = tag.children.iter().map(|child| match child {
            Node::Tag(tag) => seen(tag, state),
            Node::Text(text) => text.clone(),
        });
        let inner: String = inner.collect();
        // A text that depends on an answer lies in a span of its own.
        if tag.name == "span" {
            return inner;
        }
        let told = |name: &&str| tag.get(name).map(|value| format!(" {name}={value}")).unwrap_or_default();
        let told: String = ["id", "class", "role", "value", "type", "href", "d"].iter().map(told).collect();
        format!("<{}{told}>{inner}", tag.name)
    }

    #[test]
    fn the_markup_shows_what_the_program_shows_for_up_to_two_signs_and_for_all() {
        let speech = places(None);
        let screen = first_screen(&speech).unwrap();
        let words = HazardSign::WORDS;
        let mut sets = vec![vec![OPEN], vec![NONE], vec![NOT_SURE], words.to_vec()];
        for (at, one) in words.iter().enumerate() {
            sets.push(vec![*one]);
            sets.extend(words.iter().skip(at + 1).map(|two| vec![*one, *two]));
        }
        for ticked in sets {
            for place in [OPEN, NOT_SURE].iter().chain(HazardPlace::WORDS) {
                for (over, pressed) in [(false, false), (false, true), (true, false), (true, true)] {
                    let state = State { ticked: ticked.clone(), over, place, pressed };
                    assert_eq!(seen(&screen, &state), seen(&drawn(&state, &speech), &state), "{state:?}");
                }
            }
        }
    }

    #[test]
    fn in_another_language_it_says_all_the_same_and_no_english_is_left() {
        for (code, _) in LANGUAGES {
            let speech = places(all().unwrap()[code].words.as_deref());
            let (screen, english) = (first_screen(&speech).unwrap(), first_screen(&places(None)).unwrap());
            let shape = |tag: &Tag| {
                let mut shape = Vec::new();
                tag.clone().each(&mut |tag| {
                    let told =
                        ["id", "value", "href", "data-when", "data-over", "data-where", "data-pressed", "hidden"];
                    shape.push((tag.name.clone(), told.map(|name| tag.get(name).map(str::to_owned))));
                });
                shape
            };
            assert_eq!(shape(&screen), shape(&english), "{code}");
            let made = all().unwrap().remove(code).unwrap();
            assert!(made.script.first.contains(&format!(" lang=\"{code}\"")));
            for html in [made.script.first, made.script.begun, made.noscript] {
                for word in [" the ", " you ", " please ", "Ring ", "Next<"] {
                    assert!(!html.contains(word), "{code}: {word:?} in {html}");
                }
            }
        }
    }

    #[test]
    fn it_is_first_shown_with_nothing_chosen_and_no_advice() {
        let html = all().unwrap().remove("en").unwrap().script.first;
        assert!(!html.contains(" checked"));
        let (_, emergency) = html.split_once("class=\"emergency\"").unwrap();
        assert!(emergency.split('>').next().unwrap().contains(" hidden"), "{emergency}");
        assert!(html.contains("{installer}") && !html.contains(" style="));
    }
}
