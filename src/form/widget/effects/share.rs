//! Calls the scripts that are loaded on demand (`www/form/lazy.js`): sharing an enquiry other than by a service, links, printing, and the
//! plans.

use super::http::{Answered, NoAnswer};
use super::letter::Letter;
use js_sys::{Array, Promise};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Element, HtmlElement};

#[wasm_bindgen(raw_module = "./lazy.js")]
extern "C" {
    #[wasm_bindgen(variadic)]
    fn share(does: &str, given: Vec<JsValue>) -> Promise;
    fn plan(place: Element, config: &str, answers: &str, language: &str) -> Promise;
}

/// Posts a letter ([`Letter::in_plain`]) to an address as a plain web form.
///
/// # Errors
/// [`NoAnswer`] where nobody answers, or the script could not be loaded.
pub async fn post(url: &str, letter: &JsValue) -> Result<Answered, NoAnswer> {
    let answer = JsFuture::from(share("post", vec![url.into(), letter.clone()])).await.map_err(|_| NoAnswer)?;
    let answer: Array = answer.dyn_into().map_err(|_| NoAnswer)?;
    let number = |at| answer.get(at).as_f64().unwrap_or_default();
    Ok(Answered {
        status: number(0) as u16,
        text: answer.get(1).as_string().unwrap_or_default(),
        wait: Some(number(2)),
    })
}

/// Draws the ways to share an enquiry in a place of the form; `host` is the form's element.
pub fn offer_ways(place: Element, host: HtmlElement, letter: Letter) {
    spawn_local(async move {
        let letter = letter.in_plain().await;
        draw("offer", vec![place.into(), host.into(), letter]);
    });
}

/// Prints a copy of the form's page on which the button was pressed, headed by the names in `whose`.
pub fn print_copy(pressed: &web_sys::Event, whose: &[&str]) {
    let button = pressed.target().and_then(|target| target.dyn_into::<Element>().ok());
    let page = button.and_then(|button| button.closest(".form").ok().flatten());
    let Some(page) = page else { return };
    draw("printCopy", std::iter::once(page.into()).chain(whose.iter().map(|name| JsValue::from_str(name))).collect());
}

/// Draws a plan in its place, or updates it, from config and answers as JSON.
pub fn draw_plan(place: Element, config: &str, answers: &str, language: &str) {
    let drawn = plan(place, config, answers, language);
    spawn_local(async move {
        let _ = JsFuture::from(drawn).await;
    });
}

/// Draws the link that carries a draft (`lines`) to another device.
pub fn show_move(place: Element, host: &HtmlElement, lines: &str) {
    draw("moving", vec![place.into(), host.into(), lines.into()]);
}

/// Draws a link to this page with the given fragment, and one that deletes the enquiry where its secret is given.
pub fn show_link(place: Element, host: &HtmlElement, fragment: &str, deletion: &str) {
    draw("showLink", vec![place.into(), host.into(), fragment.into(), deletion.into()]);
}

/// Calls a function of the script. If it can't be loaded, its place stays empty; it is tried again when the form changes.
fn draw(does: &'static str, given: Vec<JsValue>) {
    spawn_local(async move {
        let _ = JsFuture::from(share(does, given)).await;
    });
}
