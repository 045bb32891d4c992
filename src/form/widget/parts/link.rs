//! The page on which something is added to an enquiry that was received: photos, and the answers that a link asks for.

use super::View;
use super::contact::how_far;
use super::emergency::emergency;
use super::photos::photos;
use super::question::question_view;
use super::screen::{how_to_stand, looks_wrong};
use crate::widget::el::{El, button, el, trouble};
use crate::widget::state::{Action, Form};
use crate::widget::step::Step;
use model::answers::RawAnswer;
use model::questions::{Place, Question};
use record::enquiry::PhotoPlace;
use web_sys::{Event, File};
use wording::form as words;
use yew::Callback;
use yew::virtual_dom::ListenerKind;

/// The photo places offered where the link asks no questions.
const PLACES: [PhotoPlace; 5] =
    [PhotoPlace::Parking, PhotoPlace::Meter, PhotoPlace::Board, PhotoPlace::Pipes, PhotoPlace::Other];

/// The page for additions.
#[must_use]
pub fn link_page(view: &View, taken: &Callback<(PhotoPlace, File)>) -> El {
    let View { form, speech, done, .. } = view;
    let asked: Vec<&Question> = form.asked_by_link().collect();
    let pressed = {
        let (done, ready) = ((*done).clone(), is_ready(form));
        Callback::from(move |event: Event| {
            event.prevent_default();
            done.emit(if ready { Action::SendAsked } else { Action::SentTooSoon });
        })
    };
    let mut stood = Vec::<Place>::new();
    let mut parts = Vec::new();
    for question in asked.iter().copied().filter(|question| form.may_look() || !sends_to_look(question.place)) {
        if !stood.contains(&question.place) {
            stood.push(question.place);
            parts.extend(how_to_stand(speech, question.place));
        }
        parts.push(el("div").class("asked").key(question.id).with(question_view(view, question)));
    }
    let looks = form.may_look();
    let shown = PLACES.iter().filter(|place| asked.is_empty() || stood.contains(&stands_at(**place)));
    // While a danger is known or not ruled out, the homeowner is not sent to meter, board or pipes for a photo either. Photos that were
    // taken before are still sent.
    let shown = shown.filter(|place| looks || stands_at(**place) == Place::Drive);
    parts.extend(shown.map(|place| photos(view, *place, taken)));
    let wrong = if looks {
        looks_wrong(view, stood.iter().copied().find(|place| sends_to_look(*place)).unwrap_or(Place::Meter))
    } else {
        None
    };
    let nothing = form.complaints > 0 && !is_ready(form);
    let main =
        el("button").set("type", "submit").class("main").flag("disabled", form.queued).text(speech.say(words::SEND));
    // Opened from the page after sending, it leads back there; opened by a link, it has no way back.
    let back = form
        .link
        .is_none()
        .then(|| button("quiet", speech.say(words::BACK), view.on_press(|| Action::WentTo(Step::Sent))));
    el("form")
        .class("page adding")
        .key("link")
        .flag("novalidate", true)
        .on(ListenerKind::onsubmit, pressed)
        .perhaps(emergency(view))
        .with(el("p").text(speech.say(match (looks, asked.is_empty()) {
            (false, _) => words::ADD_PHOTOS_NO_LOOK,
            (true, true) => words::ADD_PHOTOS_TEXT,
            (true, false) => words::ADD_ANSWERS_TEXT,
        })))
        .perhaps(wrong)
        .with(el("div").all(parts))
        .perhaps(nothing.then(|| trouble(speech.say(words::ADD_NOTHING))))
        .perhaps(how_far(view))
        .with(el("div").class("actions").with(main).perhaps(back))
}

/// Whether there is something to send, and nothing typed is unreadable.
fn is_ready(form: &Form) -> bool {
    let said = form.asked_by_link().any(|question| (question.get)(&form.answers) != RawAnswer::Nothing);
    let said = said || form.answers.hazard.is_feared();
    form.photos_under_way == 0
        && (said || !form.photos.is_empty())
        && !form.asked_by_link().any(|question| form.unreadable(question))
}

/// Whether a question at this place sends the homeowner to look at meter, board or pipes.
const fn sends_to_look(place: Place) -> bool {
    matches!(place, Place::Meter | Place::Board | Place::Pipes)
}

/// The place where the homeowner stands to take a photo.
fn stands_at(place: PhotoPlace) -> Place {
    match place {
        PhotoPlace::Parking => Place::Drive,
        PhotoPlace::Meter => Place::Meter,
        PhotoPlace::Board => Place::Board,
        PhotoPlace::Pipes | PhotoPlace::Other => Place::Pipes,
    }
}
