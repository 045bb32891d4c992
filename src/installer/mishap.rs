//! What the page says if its own program fails: that what is stored is safe, and that reloading helps.

use super::words::say;
use std::panic::PanicHookInfo;
use wasm_bindgen::prelude::*;
use wording::triage as key;

/// From now on a panic is written to the console, where the standard library has a message for it.
pub fn mind_faults() {
    yew::set_custom_panic_hook(Box::new(|info: &PanicHookInfo<'_>| {
        web_sys::console::error_1(&JsValue::from_str(&info.to_string()));
    }));
}

/// Shows on the page, above its last state, that the program failed. The JavaScript glue calls this once a function of the program has
/// trapped.
#[wasm_bindgen]
pub fn say_how_to_go_on() {
    // Nothing here may fail in turn: what can't be shown is left out.
    let document = gloo::utils::document();
    let (Some(body), Ok(notice)) = (document.body(), document.create_element("p")) else { return };
    notice.set_text_content(Some(say(key::MISHAP)));
    notice.set_class_name("notice");
    let _ = notice.set_attribute("role", "alert");
    let _ = body.insert_adjacent_element("afterbegin", &notice);
}
