//! A screen of questions: how to stand at the place, the questions, a photo of the place, and the main button.

use super::View;
use super::emergency::{after_danger, emergency};
use super::photos::photos;
use super::question::question_view;
use crate::widget::el::{El, button, el};
use crate::widget::speech::Speech;
use crate::widget::state::Action;
use crate::widget::step::Step;
use model::questions::Place;
use model::units::Pence;
use record::ViewModel;
use record::enquiry::PhotoPlace;
use web_sys::{Event, File};
use wording::form as words;
use yew::virtual_dom::ListenerKind;
use yew::{AttrValue, Callback};

/// The page of a screen, of a single reopened question, or of the report of a danger. `taken` takes a chosen photo; `shown` is the latest
/// view model, which gives the question priority and the line about the job so far.
#[must_use]
pub fn screen_page(view: &View, taken: &Callback<(PhotoPlace, File)>, shown: Option<&ViewModel>) -> El {
    let View { form, speech, done, .. } = view;
    let (place, photo, in_core) = match form.step {
        Step::Screen(screen) => (screen.place, screen.photo, screen.is_core(&form.answers)),
        Step::Question(question) => (question.place, None, false),
        Step::Found(_) => (Place::First, None, true),
        // These steps have pages of their own.
        Step::Result | Step::Contact | Step::Sent | Step::Link => return el("div"),
    };
    let on = {
        let done = (*done).clone();
        let question_priority = shown.map(|shown| shown.question_priority.clone()).unwrap_or_default();
        Callback::from(move |event: Event| {
            event.prevent_default();
            done.emit(Action::WentOn(question_priority.clone()));
        })
    };
    let hazard = form.answers.hazard.is_noticed();
    let questions = form.step.questions(&form.answers).into_iter();
    let questions = questions.map(|question| {
        let class = if question.id == "hazard" { "asked signs" } else { "asked" };
        el("div").class(class).key(question.id).with(question_view(view, question))
    });
    let found = matches!(form.step, Step::Found(_));
    let main = if found {
        words::FOUND_NOTHING
    } else if in_core {
        words::GO_ON
    } else {
        words::DONE
    };
    let send_now = (form.may_send() && !hazard)
        .then(|| button("quiet", speech.say(words::SEND_NOW), view.on_press(|| Action::WentTo(Step::Contact))));
    let actions = el("div")
        .class("actions")
        .with(el("button").set("type", "submit").class("main").text(speech.say(main)))
        .perhaps(send_now);
    // A danger fills the screen with what to do and whom to ring. The list of signs is one press away, and sending is less prominent.
    let danger = (place == Place::First && hazard).then_some(if form.lists_signs { "lists" } else { "shown" });
    el("form")
        .class("page")
        .key(form.step.name().1)
        .flag("novalidate", true)
        .maybe("data-danger", danger.map(AttrValue::Static))
        .on(ListenerKind::onsubmit, on)
        .perhaps((place == Place::First).then(|| if found { step_back_first(speech) } else { intro(speech) }))
        .perhaps(if place == Place::First { emergency(view) } else { how_to_stand(speech, place) })
        .perhaps(looks_wrong(view, place))
        .with(el("div").all(questions.collect()))
        .perhaps(after_danger(view).filter(|_| place == Place::First))
        .perhaps(photo.map(|place| photos(view, place, taken)))
        .perhaps((in_core && tells_so_far(place)).then(|| so_far(speech, shown)))
        .with(actions)
}

/// Whether a screen at this place shows how the job looks so far: before the parking place and the wishes are known, nothing can be said.
fn tells_so_far(place: Place) -> bool {
    matches!(place, Place::Drive | Place::Meter | Place::Board)
}

/// The class of the job by the answers so far, and how many open questions could still change the price a lot. Empty until that is known,
/// so that nothing moves when it appears.
fn so_far(speech: &Speech, shown: Option<&ViewModel>) -> El {
    let line = el("p").class("so-far");
    let Some(shown) = shown.filter(|shown| shown.no_band.is_none()) else { return line };
    let much = shown.band.map_or(Pence(0), |band| Pence(band.likely.0 / A_LOT));
    let open = shown.open.iter().filter(|open| open.by.is_none_or(|by| by >= much)).count();
    line.text(speech.made(&["so-far-", shown.complexity.word()]))
        .text(" ".into())
        .text(speech.made(&["so-far-open-", &open.to_string()]))
}

/// A change of the price is a lot from the likely price divided by this. Common practice, no source.
const A_LOT: i64 = 20;

/// The introduction above the first question: what the form is for and who sees the answers.
fn intro(speech: &Speech) -> El {
    let lines = [words::INTRO_WHAT, words::INTRO_WHO].map(|key| el("p").text(speech.say(key)));
    el("div").class("intro").all(lines.into())
}

/// The advice to step back first, shown beside the list of signs when a danger was found while looking.
fn step_back_first(speech: &Speech) -> El {
    el("div").class("intro").with(el("p").with(el("strong").text(speech.say(words::FOUND_TEXT))))
}

/// The button to report that something looks wrong, at every place where the homeowner is sent to look.
pub fn looks_wrong(view: &View, place: Place) -> Option<El> {
    let looks = matches!(place, Place::Meter | Place::Board | Place::Pipes);
    looks.then(|| {
        let say = button(
            "quiet wrong",
            view.speech.say(words::FOUND),
            view.on_press(move || Action::WentTo(Step::Found(place))),
        );
        el("p").class("found").with(say)
    })
}

/// How to stand at meter, board or pipes: shown on each of their screens.
pub fn how_to_stand(speech: &Speech, place: Place) -> Option<El> {
    let more = match place {
        Place::Meter => words::LOOK_ONLY_METER,
        Place::Board => words::LOOK_ONLY_BOARD,
        Place::Pipes => words::LOOK_ONLY_PIPES,
        Place::First | Place::Indoors | Place::Drive | Place::Desk => return None,
    };
    let only = el("strong").text(speech.say(words::LOOK_ONLY));
    Some(el("p").class("stand").with(only).text(" ".into()).text(speech.say(more)))
}
