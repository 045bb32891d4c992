//! After sending: the reference, large enough to read out.

use super::View;
use super::emergency::emergency;
use crate::widget::state::{Action, Sending};
use crate::wording::form as words;
use yew::prelude::*;

/// The reference, and what happens next.
#[must_use]
pub fn sent_page(view: &View) -> Html {
    let View { form, speech, .. } = view;
    let again = view.on_press(|| Action::StartedAgain);
    html! {
        <div class="page sent" key="sent">
            { emergency(view) }
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
