//! What the page around may hear: DOM events without personal data; and the day it is.

use js_sys::{Object, Reflect};
use record::Shown;
use wasm_bindgen::prelude::*;
use web_sys::{CustomEvent, CustomEventInit, HtmlElement};

#[wasm_bindgen]
extern "C" {
    /// Says something to whoever looks after the page: in the browser's console, without personal data.
    #[wasm_bindgen(js_namespace = console, js_name = error)]
    pub fn report(text: &str);
}

fn tell(host: &HtmlElement, name: &str, detail: &[(&str, JsValue)]) {
    let object = Object::new();
    for (key, value) in detail {
        // Setting a field of a new plain object does not fail.
        let _ = Reflect::set(&object, &JsValue::from_str(key), value);
    }
    let init = CustomEventInit::new();
    init.set_bubbles(true);
    init.set_composed(true);
    init.set_detail(&object);
    if let Ok(event) = CustomEvent::new_with_event_init_dict(name, &init) {
        let _ = host.dispatch_event(&event);
    }
}

/// The homeowner is somewhere else in the form.
pub fn tell_step(host: &HtmlElement, (kind, id): (&str, &str)) {
    tell(host, "presurvey-step", &[("kind", kind.into()), ("step", id.into())]);
}

/// There is a result: how involved, and whether with a price; neither figures nor answers.
pub fn tell_result(host: &HtmlElement, shown: &Shown) {
    let detail = [("complexity", shown.complexity.word().into()), ("band", shown.band.is_some().into())];
    tell(host, "presurvey-result", &detail);
}

/// The enquiry is in.
pub fn tell_sent(host: &HtmlElement) {
    tell(host, "presurvey-sent", &[]);
}

/// It did not get through: a word that says why, and whether it waits or has to be tried again.
pub fn tell_failed(host: &HtmlElement, reason: &str) {
    tell(host, "presurvey-failed", &[("reason", reason.into())]);
}

/// Today, by the device's own clock and zone.
#[must_use]
pub fn today() -> Option<jiff::civil::Date> {
    let now = js_sys::Date::new_0();
    let year = i16::try_from(now.get_full_year()).ok()?;
    let (month, day) = (i8::try_from(now.get_month() + 1).ok()?, i8::try_from(now.get_date()).ok()?);
    jiff::civil::Date::new(year, month, day).ok()
}
