//! Moving the focus, so that keyboard and screen reader follow the page.

use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Focuses the element with this id, if there is one; the browser scrolls to it.
pub fn by_id(id: &str) {
    on(gloo::utils::document().get_element_by_id(id));
}

/// Focuses the first element that matches a selector.
pub fn first(selector: &str) {
    on(gloo::utils::document().query_selector(selector).ok().flatten());
}

fn on(element: Option<web_sys::Element>) {
    // An element inside a closed `details` can't be focused, so that is opened first.
    if let Some(fold) = element.as_ref().and_then(|element| element.closest("details").ok().flatten()) {
        let _ = fold.set_attribute("open", ""); // fails only for a name that is not allowed
    }
    if let Some(element) = element.and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
        let _ = element.focus(); // an element that can't be focused is no error
    }
}
