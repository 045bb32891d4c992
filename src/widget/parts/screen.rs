//! A screen of questions: how to stand there, the questions, the photo of the place, and the way on.

use super::{Emergency, Photos, QuestionView};
use crate::config::Config;
use crate::enquiry::PhotoPlace;
use crate::questions::Place;
use crate::widget::ending::hazard_noticed;
use crate::widget::speech::Speech;
use crate::widget::state::{Action, Form};
use crate::widget::step::Step;
use crate::wording::form as words;
use std::rc::Rc;
use web_sys::File;
use yew::prelude::*;

/// What a screen needs.
#[derive(Properties, PartialEq)]
pub struct ScreenPageProps {
    /// The form.
    pub form: Rc<Form>,
    /// The installer's config, once it is there.
    pub config: Option<Rc<Config>>,
    /// The wording.
    pub speech: Speech,
    /// What was done.
    pub done: Callback<Action>,
    /// A picture was taken or chosen.
    pub taken: Callback<(PhotoPlace, File)>,
}

/// The screen that the form is on, or the one question taken up again.
#[component]
pub fn ScreenPage(props: &ScreenPageProps) -> Html {
    let ScreenPageProps { form, config, speech, done, taken } = props;
    let questions = form.step.questions(&form.answers);
    let (place, photo) = match form.step {
        Step::Screen(screen) => (screen.place, screen.photo),
        Step::Question(question) => (question.place, None),
        Step::Result | Step::Contact | Step::Sent => return html! {},
    };
    let onsubmit = {
        let done = done.clone();
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            done.emit(Action::WentOn);
        })
    };
    let send = {
        let done = done.clone();
        Callback::from(move |_: MouseEvent| done.emit(Action::WentTo(Step::Contact)))
    };
    let hazard = hazard_noticed(&form.answers);
    let in_core = matches!(form.step, Step::Screen(screen) if screen.core);
    html! {
        <form class="page" novalidate={true} {onsubmit}>
            if place == Place::First {
                <Emergency answers={form.answers.clone()} speech={speech.clone()} moves={true} />
            }
            { how_to_stand(speech, place) }
            { for questions.iter().map(|question| html! {
                <div key={question.id} class="asked">
                    <QuestionView
                        id={question.id}
                        form={form.clone()}
                        config={config.clone()}
                        speech={speech.clone()}
                        done={done.clone()}
                    />
                    if question.id == "hazard" && form.answers.hazard.signs.is_not_sure() {
                        <p class="ending" role="status">{ speech.say(words::HAZARD_NOT_SURE) }</p>
                    }
                </div>
            }) }
            if let Some(place) = photo {
                <Photos {place} form={form.clone()} speech={speech.clone()} done={done.clone()} taken={taken.clone()} />
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
