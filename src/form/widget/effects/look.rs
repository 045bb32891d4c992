//! Asks the service whether anybody may be sent to look at meter and board, each time somebody comes back to add a photo: what was
//! answered lies here, but what became known since is the service's to know.

use super::http::ask_as;
use crate::widget::state::{Action, Form, Link};
use crate::widget::step::Step;
use serde::Deserialize;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

/// What the service says; where it says nothing of it, looking is not allowed.
#[derive(Default, Deserialize)]
struct Word {
    #[serde(default)]
    looks: bool,
}

/// Asks as the page of what is added comes up. A link that was opened has asked already, before the form began.
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
