//! Mounts the form: the page's script calls [`begin`] with the element of the shadow root in which the form is to be drawn.

use super::app::{App, AppProps, Last};
use super::effects::report;
use super::speech::Speech;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;
use web_sys::{Element, HtmlElement};
use wording::{Language, form as words};
use yew::AppHandle;

thread_local! {
    /// The elements that the forms on this page are drawn in.
    static PLACES: RefCell<Vec<Element>> = const { RefCell::new(Vec::new()) };
    /// The languages that forms on this page have used, each once: kept until the page is closed.
    static LANGUAGES: RefCell<Vec<&'static Language<'static>>> = const { RefCell::new(Vec::new()) };
}

/// A mounted form.
#[wasm_bindgen]
pub struct Running {
    app: AppHandle<App>,
    place: Element,
    last: Last,
}

/// Mounts a form and returns it. `host` is the form's element in the page, `place` an empty element in its shadow root, and `lines` the
/// draft to continue from, if there is one. With `leaves` the form starts at the step after the draft's own. `spoken` is the text of a
/// language's wording, absent for English.
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
    /// Unmounts the form; returns its draft, from which it can be mounted again.
    #[must_use]
    pub fn end(self) -> String {
        PLACES.with_borrow_mut(|places| places.retain(|place| *place != self.place));
        self.app.destroy();
        super::draft::Draft::of(&self.last.borrow()).write()
    }
}

/// Has panics of the program reported to the browser's console, with their message where the build includes one.
pub fn mind_faults() {
    yew::set_custom_panic_hook(Box::new(|info| report(&info.to_string())));
}

/// The language in a text; `None` where the text is of another build: the form is then in English.
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

/// Shows above every form on the page how to go on after a panic of the program; the answers are on the device already. The JavaScript glue
/// calls this once a function of the program has trapped.
#[wasm_bindgen]
pub fn say_how_to_go_on() {
    let spoken =
        LANGUAGES.with(|languages| languages.try_borrow().ok().and_then(|languages| languages.last().copied()));
    let speech = Speech::default().spoken(spoken);
    let text = speech.say(words::PANIC_SENTENCE);
    PLACES.with(|places| {
        // If the panic came while the list was borrowed, nothing can be shown; the console has the message at least.
        let Ok(mut places) = places.try_borrow_mut() else { return };
        for place in places.drain(..) {
            let Ok(line) = gloo::utils::document().create_element("p") else { continue };
            line.set_text_content(Some(&text));
            let _ = line.set_attribute("lang", speech.language());
            let _ = line.set_attribute("role", "alert");
            let _ = line.set_attribute("class", "form panic");
            // Before the element, not in it: Yew owns what is inside.
            let _ = place.before_with_node_1(&line);
        }
    });
}
