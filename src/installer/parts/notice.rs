//! Something went wrong: the sentence, and a way to try again.

use crate::trouble::Trouble;
use crate::words::say;
use wording::triage as key;
use yew::prelude::*;

/// What a notice needs.
#[derive(PartialEq, Properties)]
pub struct NoticeProps {
    /// What went wrong.
    pub trouble: Trouble,
    /// Asked to try again; none where trying again can't help.
    #[prop_or_default]
    pub again: Option<Callback<MouseEvent>>,
    /// What else is to be said, such as that what is shown is kept.
    #[prop_or_default]
    pub besides: Option<AttrValue>,
}

/// The notice. The live region says it too, so this is no alert of its own.
#[component]
pub fn Notice(props: &NoticeProps) -> Html {
    html! {
        <div class="notice">
            <p>
                <strong>{ props.trouble.sentence() }</strong>
                if let Some(besides) = &props.besides {
                    { " " }{ besides }
                }
            </p>
            if let Some(again) = &props.again {
                <button type="button" class="quiet" onclick={again.clone()}>{ say(key::TRY_AGAIN) }</button>
            }
        </div>
    }
}
