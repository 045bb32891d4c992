//! A screen of questions: how to stand there, the questions, the photo of the place, and the way on.

use super::View;
use super::emergency::emergency;
use super::photos::photos;
use super::question::question_view;
use crate::enquiry::PhotoPlace;
use crate::questions::Place;
use crate::widget::ending::hazard_noticed;
use crate::widget::speech::Speech;
use crate::widget::state::Action;
use crate::widget::step::Step;
use crate::wording::form as words;
use web_sys::File;
use yew::prelude::*;

/// The screen that the form is on, or the one question taken up again.
#[must_use]
pub fn screen_page(view: &View, taken: &Callback<(PhotoPlace, File)>) -> Html {
    let View { form, speech, done, .. } = view;
    let questions = form.step.questions(&form.answers);
    let (place, photo) = match form.step {
        Step::Screen(screen) => (screen.place, screen.photo),
        Step::Question(question) => (question.place, None),
        Step::Result | Step::Contact | Step::Sent => return html! {},
    };
    let onsubmit = {
        let done = (*done).clone();
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            done.emit(Action::WentOn);
        })
    };
    let send = view.on_press(|| Action::WentTo(Step::Contact));
    let hazard = hazard_noticed(&form.answers);
    let in_core = matches!(form.step, Step::Screen(screen) if screen.core);
    html! {
        <form class="page" key={form.step.name().1} novalidate={true} {onsubmit}>
            if place == Place::First {
                { emergency(view) }
            }
            { how_to_stand(speech, place) }
            { for questions.iter().map(|question| html! {
                <div key={question.id} class="asked">
                    { question_view(view, question) }
                    if question.id == "hazard" && form.answers.hazard.signs.is_not_sure() {
                        <p class="ending" role="status">{ speech.say(words::HAZARD_NOT_SURE) }</p>
                    }
                </div>
            }) }
            if let Some(place) = photo {
                { photos(view, place, taken) }
            }
            <div class="actions">
                <button type="submit" class="main">
                    { speech.say(if hazard { words::SEND } else if in_core { words::GO_ON } else { words::DONE }) }
                </button>
                if form.may_send() && !hazard {
                    <button type="button" class="quiet" onclick={send}>{ speech.say(words::SEND_NOW) }</button>
                }
            </div>
        </form>
    }
}

/// How to stand at meter, board or pipes: said on each of their screens.
fn how_to_stand(speech: &Speech, place: Place) -> Html {
    let more = match place {
        Place::Meter => words::LOOK_ONLY_METER,
        Place::Board => words::LOOK_ONLY_BOARD,
        Place::Pipes => words::LOOK_ONLY_PIPES,
        Place::First | Place::Indoors | Place::Drive => return html! {},
    };
    html! {
        <p class="stand">
            <strong>{ speech.say(words::LOOK_ONLY) }</strong>
            { " " }
            { speech.say(more) }
        </p>
    }
}
