//! Moving the focus, so that keyboard and screen reader follow the page.

use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, ScrollIntoViewOptions, ScrollLogicalPosition};

/// Focuses the element with this id, if there is one; the browser scrolls to it.
pub fn by_id(id: &str) {
    on(gloo::utils::document().get_element_by_id(id));
}

/// Focuses the first element that matches a selector.
pub fn first(selector: &str) {
    on(gloo::utils::document().query_selector(selector).ok().flatten());
}

/// Scrolls the first element that matches a selector into view with all of it, as far as the window is high enough.
pub fn show_whole(selector: &str) {
    if let Some(element) = gloo::utils::document().query_selector(selector).ok().flatten() {
        let how = ScrollIntoViewOptions::new();
        how.set_block(ScrollLogicalPosition::Nearest);
        element.scroll_into_view_with_scroll_into_view_options(&how);
    }
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
