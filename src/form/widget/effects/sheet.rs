//! Fetches the sheet of sketches, which the form does not wait for.

use crate::widget::drawings::Sheet;
use crate::widget::step::Step;
use js_sys::Promise;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use yew::prelude::*;

#[wasm_bindgen(raw_module = "./lazy.js")]
extern "C" {
    fn sketches(language: &str) -> Promise;
}

/// The sheet of sketches in a language, empty until it has been fetched. If fetching fails, it is tried again at the next step.
#[hook]
pub fn use_sheet(step: Step, language: &'static str) -> Sheet {
    let sheet = use_state_eq(Sheet::default);
    let set = sheet.setter();
    let there = sheet.is_there();
    use_effect_with((step.name(), language, there), move |(_, language, there)| {
        let language = *language;
        if !*there {
            spawn_local(async move {
                if let Some(text) = JsFuture::from(sketches(language)).await.ok().and_then(|text| text.as_string()) {
                    set.set(Sheet::of(text));
                }
            });
        }
    });
    (*sheet).clone()
}
