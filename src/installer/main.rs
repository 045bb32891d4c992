//! Start of the installer's page.

use installer::{Page, say_how_to_go_on};

fn main() {
    say_how_to_go_on();
    let page = gloo::utils::document().get_element_by_id("page").expect("index.html holds the element `page`");
    page.set_inner_html(""); // what was said while the program loaded
    yew::Renderer::<Page>::with_root(page).render();
}
