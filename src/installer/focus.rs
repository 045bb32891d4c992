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
    // What is folded away can't be focused: unfold it first.
    if let Some(fold) = element.as_ref().and_then(|element| element.closest("details").ok().flatten()) {
        let _ = fold.set_attribute("open", ""); // refused only for a bad name
    }
    if let Some(element) = element.and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
        let _ = element.focus(); // what can't be focused is left where it is
    }
}
