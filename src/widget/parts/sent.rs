//! After sending: the reference, large enough to read out.

use super::Emergency;
use crate::widget::speech::Speech;
use crate::widget::state::{Action, Form, Sending};
use crate::wording::form as words;
use std::rc::Rc;
use yew::prelude::*;

/// What the page needs.
#[derive(Properties, PartialEq)]
pub struct SentPageProps {
    /// The form.
    pub form: Rc<Form>,
    /// The wording.
    pub speech: Speech,
    /// What was done.
    pub done: Callback<Action>,
}

/// The reference, and what happens next.
#[component]
pub fn SentPage(props: &SentPageProps) -> Html {
    let SentPageProps { form, speech, done } = props;
    let again = {
        let done = done.clone();
        Callback::from(move |_: MouseEvent| done.emit(Action::StartedAgain))
    };
    html! {
        <div class="page sent">
            <Emergency answers={form.answers.clone()} speech={speech.clone()} />
            if let Sending::Done(reference) = &form.sending {
                <p>{ speech.say(words::SENT_REFERENCE) }</p>
                <p class="reference">{ reference }</p>
            }
            <p>{ speech.say(words::SENT_TEXT) }</p>
            <section>
                <h3>{ speech.say(words::NEXT_TITLE) }</h3>
                <ol>
                    <li>{ speech.say(words::NEXT_2) }</li>
                    <li>{ speech.say(words::NEXT_3) }</li>
                </ol>
            </section>
            <div class="actions">
                <button type="button" class="quiet" onclick={again}>{ speech.say(words::START_AGAIN) }</button>
            </div>
        </div>
    }
}
