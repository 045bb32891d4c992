//! The emergency advice: shown at once, before anything else is asked.

use crate::answers::Answers;
use crate::widget::emergency::advice;
use crate::widget::speech::Speech;
use crate::wording::form as words;
use std::rc::Rc;
use yew::prelude::*;

/// What the advice needs.
#[derive(Properties, PartialEq)]
pub struct EmergencyProps {
    /// What was said.
    pub answers: Rc<Answers>,
    /// The wording.
    pub speech: Speech,
    /// Whether it moves into view when it changes: nobody should have to look for it.
    #[prop_or_default]
    pub moves: bool,
}

/// What to do first, and whom to ring. Nothing where nothing was noticed.
#[component]
pub fn Emergency(props: &EmergencyProps) -> Html {
    let EmergencyProps { answers, speech, moves } = props;
    let all = advice(answers);
    let place = use_node_ref();
    {
        let (place, moves) = (place.clone(), *moves);
        use_effect_with(all.clone(), move |all| {
            if let (true, false, Some(element)) = (moves, all.is_empty(), place.cast::<web_sys::Element>()) {
                element.scroll_into_view();
            }
        });
    }
    if all.is_empty() {
        return html! {};
    }
    html! {
        <div class="emergency" role="alert" ref={place}>
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
