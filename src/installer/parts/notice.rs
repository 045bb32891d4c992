//! A notice that something went wrong: the sentence, and a button to try again.

use crate::trouble::Trouble;
use crate::words::say;
use wording::triage as key;
use yew::prelude::*;

/// The notice's properties.
#[derive(PartialEq, Properties)]
pub struct NoticeProps {
    /// What went wrong.
    pub trouble: Trouble,
    /// Called to try again; `None` if that can't help.
    #[prop_or_default]
    pub again: Option<Callback<MouseEvent>>,
    /// A further sentence, such as that what is shown is kept.
    #[prop_or_default]
    pub besides: Option<AttrValue>,
}

/// The notice. The live region announces it too, so it has no alert role of its own.
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
