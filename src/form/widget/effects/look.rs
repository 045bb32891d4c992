//! Asks the service whether the homeowner may be sent to look at meter and board, each time they come back to add a photo. This form has
//! only the answers from before; the service knows of any danger that became known since.

use super::http::ask_as;
use crate::widget::state::{Action, Form, Link};
use crate::widget::step::Step;
use serde::Deserialize;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

/// The service's answer; where it does not say so, looking is not allowed.
#[derive(Default, Deserialize)]
struct Word {
    #[serde(default)]
    looks: bool,
}

/// Asks when the page for additions is shown. Where a link was opened, its script asked already, before the form started.
#[hook]
pub fn use_word_to_look(form: &Rc<Form>, url: &str, done: &Callback<Action>) {
    let comes = form.step == Step::Link && form.link.is_none();
    let opens = form
        .adds_to()
        .filter(|_| comes)
        .map(|Link { key, secret, .. }| ([url, "/", &key, "/additions"].concat(), secret));
    let done = done.clone();
    use_effect_with(opens, move |opens| {
        if let Some((url, secret)) = opens.clone() {
            spawn_local(async move {
                let answer = ask_as("GET", &url, None, Some(&secret)).await.ok().filter(|answer| answer.status == 200);
                let word: Word = answer.and_then(|answer| serde_json::from_str(&answer.text).ok()).unwrap_or_default();
                done.emit(Action::ToldToLook(word.looks));
            });
        }
    });
}
