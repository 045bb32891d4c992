//! The password screen.

use crate::trouble::Trouble;
use crate::words::say;
use web_sys::{HtmlInputElement, SubmitEvent};
use wording::triage as key;
use yew::prelude::*;

/// The screen's properties.
#[derive(PartialEq, Properties)]
pub struct SignInProps {
    /// Whether a sign-in is under way.
    pub busy: bool,
    /// Why the last sign-in failed.
    pub trouble: Option<Trouble>,
    /// Whether a session expired; what was open is shown again after signing in.
    pub expired: bool,
    /// Called with the password.
    pub on_sign_in: Callback<String>,
}

/// The screen: one field, one button, the error tied to the field.
#[component]
pub fn SignInView(props: &SignInProps) -> Html {
    let field = use_node_ref();
    {
        let field = field.clone();
        use_effect_with((props.busy, props.trouble.clone()), move |_| {
            if let Some(input) = field.cast::<HtmlInputElement>() {
                let _ = input.focus(); // a field that can't be focused is no error
            }
        });
    }
    let onsubmit = {
        let (field, on_sign_in, busy) = (field.clone(), props.on_sign_in.clone(), props.busy);
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            if let Some(input) = field.cast::<HtmlInputElement>()
                && !busy
            {
                on_sign_in.emit(input.value());
            }
        })
    };
    let error = props.trouble.as_ref().map(Trouble::sentence);
    html! {
        <main class="sign-in">
            <h1>{ say(key::SIGN_IN_TITLE) }</h1>
            <p>{ say(if props.expired { key::SIGN_IN_EXPIRED } else { key::SIGN_IN_WHY }) }</p>
            <form {onsubmit}>
                <label for="password">{ say(key::SIGN_IN_PASSWORD) }</label>
                <input ref={field} id="password" type="password" autocomplete="current-password" required=true
                    aria-invalid={error.is_some().then_some("true")}
                    aria-describedby={error.is_some().then_some("password-error")} />
                if let Some(error) = error {
                    <p id="password-error" class="error">{ error }</p>
                }
                <button type="submit" class="main" aria-disabled={props.busy.then_some("true")}>
                    { say(if props.busy { key::SIGN_IN_BUSY } else { key::SIGN_IN_BUTTON }) }
                </button>
            </form>
        </main>
    }
}
