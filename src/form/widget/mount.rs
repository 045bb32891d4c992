//! Where the page's script hands over: the form begins in a place of the shadow root that the script has made.

use super::app::{App, AppProps, Last};
use super::effects::report;
use super::speech::Speech;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;
use web_sys::{Element, HtmlElement};
use wording::{Language, form as words};
use yew::AppHandle;

thread_local! {
    /// The places of the forms on this page.
    static PLACES: RefCell<Vec<Element>> = const { RefCell::new(Vec::new()) };
    /// The languages that forms on this page have spoken: kept for as long as the page, each once.
    static LANGUAGES: RefCell<Vec<&'static Language<'static>>> = const { RefCell::new(Vec::new()) };
}

/// A form that has begun.
#[wasm_bindgen]
pub struct Running {
    app: AppHandle<App>,
    place: Element,
    last: Last,
}

/// Begins a form: `host` is the element in the page, `place` an empty one in its shadow root, `lines` the draft that it
/// goes on from; with `leaves` at the step after the one that the draft is at; `spoken` a language's text, where that is
/// not English.
#[wasm_bindgen]
#[must_use]
pub fn begin(
    host: HtmlElement,
    place: Element,
    lines: Option<String>,
    leaves: bool,
    spoken: Option<String>,
) -> Running {
    PLACES.with_borrow_mut(|places| places.push(place.clone()));
    let said = |name: &str| host.get_attribute(name).unwrap_or_default().into();
    let last = Last::default();
    let props = AppProps {
        config: said("config"),
        submit: said("submit"),
        plain: said("submit-as") == "multipart",
        installer: said("installer"),
        telephone: said("telephone"),
        language: spoken.and_then(language),
        lines: lines.map(Into::into),
        leaves,
        last: last.clone(),
        host,
    };
    let app = yew::Renderer::<App>::with_root_and_props(place.clone(), props).render();
    Running { app, place, last }
}

#[wasm_bindgen]
impl Running {
    /// Ends it; returns its draft, from which it can begin again.
    #[must_use]
    pub fn end(self) -> String {
        PLACES.with_borrow_mut(|places| places.retain(|place| *place != self.place));
        self.app.destroy();
        super::draft::Draft::of(&self.last.borrow()).write()
    }
}

/// From now on the console is told of a fault of the program, where the standard library has words for one.
pub fn mind_faults() {
    yew::set_custom_panic_hook(Box::new(|info| report(&info.to_string())));
}

/// A language from its text; none where that is of another build, then English is spoken.
fn language(text: String) -> Option<&'static Language<'static>> {
    LANGUAGES.with_borrow_mut(|languages| {
        let is_known = |known: &&&'static Language<'_>| text.split(' ').next() == Some(known.code);
        if let Some(known) = languages.iter().find(is_known) {
            return Some(*known);
        }
        let read: &'static Language = Box::leak(Box::new(Language::of_form(String::leak(text))?));
        languages.push(read);
        Some(read)
    })
}

/// Beside every form it is said how to go on after a fault of the program: what was answered is on the device already. The glue
/// calls this once a function of the program has trapped.
#[wasm_bindgen]
pub fn say_how_to_go_on() {
    let spoken =
        LANGUAGES.with(|languages| languages.try_borrow().ok().and_then(|languages| languages.last().copied()));
    let speech = Speech::default().spoken(spoken);
    let text = speech.say(words::PANIC_SENTENCE);
    PLACES.with(|places| {
        // Where the fault struck while the list was held, the console has it at least.
        let Ok(mut places) = places.try_borrow_mut() else { return };
        for place in places.drain(..) {
            let Ok(line) = gloo::utils::document().create_element("p") else { continue };
            line.set_text_content(Some(&text));
            let _ = line.set_attribute("lang", speech.language());
            let _ = line.set_attribute("role", "alert");
            let _ = line.set_attribute("class", "form panic");
            // Beside the place, not in it: what is drawn there is the drawing library's.
            let _ = place.before_with_node_1(&line);
        }
    });
}
