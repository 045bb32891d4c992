//! Prerendered markup: at build time the form's own views draw the first screen, which the page's script shows before the form's program
//! has been loaded.
//!
//! One piece of markup holds everything that the screen can show; each part that depends on an answer has the condition under which it
//! shows. No rule is written here: the screen is drawn for one answer after the other, and the conditions follow from the differences.

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

/// The words that stand for "nothing ticked" or "no place chosen", for "none of these", and for "not sure".
const OPEN: &str = "open";
const NONE: &str = "none";
const NOT_SURE: &str = "not-sure";

/// Everything that is prerendered in one language. `{installer}` and `{telephone}` are placeholders that the scripts fill in.
#[derive(Serialize)]
pub struct Beforehand {
    /// The markup of `presurvey.js`.
    script: FirstScreen,
    /// The markup of `plain.js`.
    plain: plain::Plain,
    /// The form that a page of the build shows where scripts are off.
    noscript: String,
    /// The wording of the program and the engine as text; absent for English.
    words: Option<String>,
    /// The sheet of sketches as text.
    sketches: String,
    /// The wording of the plans as text.
    plans: String,
}

/// The markup of `presurvey.js`.
#[derive(Serialize)]
struct FirstScreen {
    /// The first screen.
    first: String,
    /// The panel shown instead where the device has a draft.
    begun: String,
    /// What an installer is called whose name the page does not give.
    unnamed: String,
}

/// The input for the build of the pages.
#[derive(Serialize)]
pub struct Made {
    /// The markup, by language.
    languages: BTreeMap<&'static str, Beforehand>,
    /// The constants shared by this program and the page's scripts, by name.
    declared: BTreeMap<String, Value>,
}

/// Everything that is prerendered, and the constants for the page's scripts.
///
/// # Errors
/// If a language lacks a wording file, or a part of the first screen shows under a condition that the markup can't express.
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
        // Left to right is the default.
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

/// The wording with placeholders for the installer's name and telephone number, in English or in the language of `words`.
fn places(words: Option<&str>) -> Speech {
    // Leaked: this program ends when the markup is made.
    let read = words.and_then(|words| Language::of_form(String::leak(words.to_owned())));
    let language = read.map(|language| &*Box::leak(Box::new(language)));
    Speech::new(None, "{installer}".into(), "{telephone}".into()).spoken(language)
}

/// The markup of the first screen with everything that it can show.
fn first_screen(speech: &Speech) -> Result<Tag, String> {
    let start = State { ticked: vec![OPEN], over: false, place: OPEN, pressed: false };
    let drawings = states().into_iter().map(|state| (state.clone(), drawn(&state, speech))).collect();
    let mut screen = merged(drawings, &start)?;
    screen.set("data-version", VERSION);
    screen.each(&mut |tag| {
        // Before the script is loaded, a press of the button must not reload the page with the answers in its address.
        if tag.name == "form" {
            tag.set("method", "dialog");
        }
        // Rows that are no sign ("none", "not sure") exclude all others.
        if tag.is("type", "checkbox") && !HazardSign::WORDS.iter().any(|word| tag.is("value", word)) {
            tag.set("data-alone", "");
        }
        // The row that says that the danger is long past.
        if tag.is("name", "hazard-when") && tag.is("value", HazardWhen::LongAgo.word()) {
            tag.set("data-is-over", "");
        }
    });
    Ok(screen)
}

/// The states for which the screen is drawn: with all signs ticked, then with each answer alone; each at every place, past or not, and
/// after and before a press of the main button.
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

/// The screen as the form's program draws it in a state.
fn drawn(state: &State, speech: &Speech) -> Tag {
    let mut answers = Answers::default();
    answers.hazard.signs = match state.ticked.as_slice() {
        [OPEN] => Answer::NotAsked,
        [NONE] => Answer::Known(Set::NONE),
        [NOT_SURE] => Answer::NotSure,
        signs => Answer::Known(Set::of(&signs.iter().filter_map(|word| member(word)).collect::<Vec<HazardSign>>())),
    };
    // "Now", "not sure" and no answer show the same.
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

    /// What is visible of the markup in a state, as text without the conditions; the same for the program's own screen.
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
        // A text that depends on an answer is in a span of its own, which the program's screen lacks.
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
