//! What the page says where its own program fails: what is stored is safe, and loading again goes on.

use super::words::say;
use std::panic::PanicHookInfo;
use wasm_bindgen::prelude::*;
use wording::triage as key;

/// From now on the console is told of a failure of the program, where the standard library has words for one.
pub fn mind_faults() {
    yew::set_custom_panic_hook(Box::new(|info: &PanicHookInfo<'_>| {
        web_sys::console::error_1(&JsValue::from_str(&info.to_string()));
    }));
}

/// A failure of the program is said on the page, above what it showed last. The glue calls this once a function of the program has
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
