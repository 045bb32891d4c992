//! The screen to sign in: name and password, and the code where the service asks for one.

use crate::api::SignIn;
use crate::trouble::Trouble;
use crate::words::say;
use web_sys::{HtmlInputElement, InputEvent, SubmitEvent};
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
    /// Whether a code is needed beside the password.
    pub code: bool,
    /// The name that is there to begin with.
    pub name: String,
    /// Called with what was typed.
    pub on_sign_in: Callback<SignIn>,
}

/// The screen: name and password, then the code; one button; the error tied to the field that it is about.
#[component]
pub fn SignInView(props: &SignInProps) -> Html {
    let name = use_state(|| props.name.clone());
    let (password, code) = (use_node_ref(), use_node_ref());
    // A wrong password stays a matter of its field while a code is asked for, too.
    let at_code = props.code && props.trouble != Some(Trouble::WrongPassword);
    {
        let (password, code) = (password.clone(), code.clone());
        use_effect_with((props.busy, props.trouble.clone(), at_code), move |(_, trouble, at_code)| {
            let field = if *at_code { code } else { password };
            if let Some(input) = field.cast::<HtmlInputElement>() {
                if *trouble == Some(Trouble::WrongCode) {
                    input.set_value(""); // the next one is another
                }
                let _ = input.focus(); // a field that can't be focused is no error
            }
        });
    }
    let typed_name = {
        let name = name.clone();
        Callback::from(move |event: InputEvent| name.set(event.target_unchecked_into::<HtmlInputElement>().value()))
    };
    let onsubmit = {
        let (name, password, code) = (name.clone(), password.clone(), code.clone());
        let (on_sign_in, busy) = (props.on_sign_in.clone(), props.busy);
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            if let Some(password) = password.cast::<HtmlInputElement>()
                && !busy
            {
                let code = code.cast::<HtmlInputElement>().map(|code| code.value());
                on_sign_in.emit(SignIn { name: (*name).clone(), password: password.value(), code });
            }
        })
    };
    let error = props.trouble.as_ref().map(Trouble::sentence);
    let [at_password, at_code] = if at_code { [None, error] } else { [error, None] };
    html! {
        <main class="sign-in">
            <h1>{ say(key::SIGN_IN_TITLE) }</h1>
            <p>{ say(if props.expired { key::SIGN_IN_EXPIRED } else { key::SIGN_IN_WHY }) }</p>
            <form {onsubmit}>
                <label for="name">{ say(key::SIGN_IN_NAME) }</label>
                <input id="name" type="text" value={(*name).clone()} oninput={typed_name} autocomplete="username"
                    autocapitalize="none" spellcheck="false" required=true />
                <label for="password">{ say(key::SIGN_IN_PASSWORD) }</label>
                <input ref={password} id="password" type="password" autocomplete="current-password" required=true
                    aria-invalid={at_password.is_some().then_some("true")}
                    aria-describedby={at_password.is_some().then_some("password-error")} />
                if let Some(error) = at_password {
                    <p id="password-error" class="error">{ error }</p>
                }
                if props.code {
                    <label for="code">{ say(key::SIGN_IN_CODE) }</label>
                    <input ref={code} id="code" type="text" inputmode="numeric" autocomplete="one-time-code" required=true
                        aria-invalid={at_code.is_some().then_some("true")}
                        aria-describedby={if at_code.is_some() { "code-error code-hint" } else { "code-hint" }} />
                    if let Some(error) = at_code {
                        <p id="code-error" class="error">{ error }</p>
                    }
                    <p id="code-hint" class="quietly">{ say(key::SIGN_IN_CODE_HINT) }</p>
                }
                <button type="submit" class="main" aria-disabled={props.busy.then_some("true")}>
                    { say(if props.busy { key::SIGN_IN_BUSY } else { key::SIGN_IN_BUTTON }) }
                </button>
            </form>
        </main>
    }
}
