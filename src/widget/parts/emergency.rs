//! The emergency advice: shown at once, before anything else is asked.

use super::View;
use crate::widget::emergency::advice;
use crate::wording::form as words;
use yew::prelude::*;

/// What to do first, and whom to ring. Nothing where nothing was noticed.
pub fn emergency(view: &View) -> Html {
    let speech = view.speech;
    let all = advice(&view.form.answers);
    if all.is_empty() {
        return html! {};
    }
    html! {
        <div class="emergency" role="alert">
            <h3>
                <svg class="sign" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
                    <path class="line" d="M12 3L22 21H2z M12 10v5 M12 17.5v1" />
                </svg>
                { speech.say(words::EMERGENCY_TITLE) }
            </h3>
            { for all.into_iter().map(|advice| html! {
                <p key={advice.text.0}>
                    { speech.say(advice.text) }
                    if let Some((number, text)) = advice.ring {
                        <a class="ring" href={["tel:", number].concat()}>{ speech.say(text) }</a>
                    }
                </p>
            }) }
            <p>{ speech.say(words::EMERGENCY_THEN) }</p>
        </div>
    }
}
