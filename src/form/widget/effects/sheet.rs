//! Fetches the sheet of drawings, beside the form and never before it.

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

/// The sheet, once it is there; where it can't be had it is asked for again at the next step.
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
