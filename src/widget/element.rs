//! `<presurvey-form>`: the custom element around the form, its open shadow root and its adopted style sheet.

use super::app::{App, AppProps};
use crate::wording::{self, Words};
use js_sys::Array;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;
use web_sys::{CssStyleSheet, HtmlElement, ShadowRoot, ShadowRootInit, ShadowRootMode};
use yew::AppHandle;

/// The element's name.
const NAME: &str = "presurvey-form";

/// The form's styles; they reach nothing outside its shadow root, and nothing outside reaches in.
const STYLE: &str = include_str!("form.css");

#[wasm_bindgen(inline_js = r#"
export function define(name, connected, disconnected) {
  if (customElements.get(name)) return;
  customElements.define(name, class extends HTMLElement {
    connectedCallback() { connected(this); }
    disconnectedCallback() { disconnected(this); }
  });
}
export function report(text) { console.error(text); }
"#)]
extern "C" {
    fn define(name: &str, connected: &Closure<dyn FnMut(HtmlElement)>, disconnected: &Closure<dyn FnMut(HtmlElement)>);
    fn report(text: &str);
}

thread_local! {
    /// The forms on this page.
    static LIVE: RefCell<Vec<(HtmlElement, AppHandle<App>)>> = const { RefCell::new(Vec::new()) };
}

/// Makes the element known to the page. A name that is taken already is left as it is.
pub fn define_element() {
    yew::set_custom_panic_hook(Box::new(|info| {
        report(&info.to_string());
        say_how_to_go_on();
    }));
    let connected = Closure::new(connect);
    let disconnected = Closure::new(disconnect);
    define(NAME, &connected, &disconnected);
    // They live as long as the page: an element may come at any time.
    connected.forget();
    disconnected.forget();
}

fn connect(host: HtmlElement) {
    // A host that gives no shadow root (none that knows custom elements does) shows nothing rather than half.
    let Some(shadow) = shadow_of(&host) else { return };
    let Ok(place) = gloo::utils::document().create_element("div") else { return };
    if shadow.append_child(&place).is_err() {
        return;
    }
    let said = |name: &str| host.get_attribute(name).unwrap_or_default().into();
    let props = AppProps {
        config: said("config"),
        submit: said("submit"),
        installer: said("installer"),
        telephone: said("telephone"),
        host: host.clone(),
    };
    let app = yew::Renderer::<App>::with_root_and_props(place, props).render();
    LIVE.with_borrow_mut(|live| live.push((host, app)));
}

fn disconnect(host: HtmlElement) {
    let gone =
        LIVE.with_borrow_mut(|live| live.iter().position(|(other, _)| *other == host).map(|at| live.swap_remove(at).1));
    if let Some(app) = gone {
        app.destroy();
    }
    if let Some(shadow) = host.shadow_root() {
        while let Some(child) = shadow.first_child() {
            if shadow.remove_child(&child).is_err() {
                break;
            }
        }
    }
}

fn shadow_of(host: &HtmlElement) -> Option<ShadowRoot> {
    if let Some(shadow) = host.shadow_root() {
        return Some(shadow); // taken out and put in again
    }
    let shadow = host.attach_shadow(&ShadowRootInit::new(ShadowRootMode::Open)).ok()?;
    adopt(&shadow, STYLE);
    Some(shadow)
}

fn adopt(shadow: &ShadowRoot, style: &str) {
    if let Ok(sheet) = CssStyleSheet::new()
        && sheet.replace_sync(style).is_ok()
    {
        let sheets = Array::from(&shadow.adopted_style_sheets());
        sheets.push(&sheet);
        shadow.set_adopted_style_sheets(&sheets);
    }
}

/// Colours the form with an installer's accent; anything but a plain CSS colour is left out.
pub fn set_accent(host: &HtmlElement, colour: &str) {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"#(),.% -/".contains(&byte);
    if colour.len() <= 60
        && colour.bytes().all(plain)
        && let Some(shadow) = host.shadow_root()
    {
        adopt(&shadow, &[".form{--accent:", colour, "}"].concat());
    }
}

/// After a fault of the program: what was answered is on the device already; say so in every form.
fn say_how_to_go_on() {
    let text = Words::new(wording::form::EN).say(wording::form::PANIC_SENTENCE);
    LIVE.with(|live| {
        // Where the fault struck while the list was held, the console has it at least.
        let Ok(live) = live.try_borrow() else { return };
        for (host, _) in live.iter() {
            let (Some(shadow), Ok(line)) = (host.shadow_root(), gloo::utils::document().create_element("p")) else {
                continue;
            };
            line.set_text_content(Some(text));
            let _ = line.set_attribute("role", "alert");
            let _ = line.set_attribute("class", "panic");
            let _ = shadow.insert_before(&line, shadow.first_child().as_ref());
        }
    });
}
