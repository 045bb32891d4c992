//! Moving the focus, so that keyboard and screen reader follow what the page does.

use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Focuses the element of that id, if there is one; the browser scrolls to it.
pub fn by_id(id: &str) {
    on(gloo::utils::document().get_element_by_id(id));
}

/// Focuses the first element that a selector finds.
pub fn first(selector: &str) {
    on(gloo::utils::document().query_selector(selector).ok().flatten());
}

fn on(element: Option<web_sys::Element>) {
    if let Some(element) = element.and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
        let _ = element.focus(); // what can't be focused is left where it is
    }
}
