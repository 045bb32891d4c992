//! Start of the installer's page.

use installer::{Page, mind_faults};

fn main() {
    mind_faults();
    let page = gloo::utils::document().get_element_by_id("page").expect("index.html holds the element `page`");
    page.set_inner_html(""); // removes the text shown while the program loaded
    yew::Renderer::<Page>::with_root(page).render();
}
