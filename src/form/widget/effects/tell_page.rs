//! Tells the page around what it may hear (`enquiry/events.rs`), as DOM events; and the day it is.

use js_sys::{Object, Reflect};
use record::ViewModel;
use record::enquiry::events::{Failure, PageEvent, StepKind};
use wasm_bindgen::prelude::*;
use web_sys::{CustomEvent, CustomEventInit, HtmlElement};

#[wasm_bindgen]
extern "C" {
    /// Says something to whoever looks after the page: in the browser's console, without personal data.
    #[wasm_bindgen(js_namespace = console, js_name = error)]
    pub fn report(text: &str);
}

/// Sends an event; `detail` has what stands under each of its names, in their order.
fn tell(host: &HtmlElement, event: PageEvent, detail: &[JsValue]) {
    let object = Object::new();
    for (name, value) in event.names().iter().zip(detail) {
        // Setting a field of a new plain object does not fail.
        let _ = Reflect::set(&object, &JsValue::from_str(name), value);
    }
    let init = CustomEventInit::new();
    init.set_bubbles(true);
    init.set_composed(true);
    init.set_detail(&object);
    if let Ok(event) = CustomEvent::new_with_event_init_dict(event.word(), &init) {
        let _ = host.dispatch_event(&event);
    }
}

/// The homeowner is somewhere else in the form.
pub fn tell_step(host: &HtmlElement, (kind, id): (StepKind, &str)) {
    tell(host, PageEvent::Step, &[kind.word().into(), id.into()]);
}

/// There is a result: how involved, and whether with a price; neither figures nor answers.
pub fn tell_result(host: &HtmlElement, shown: &ViewModel) {
    tell(host, PageEvent::Result, &[shown.complexity.word().into(), shown.band.is_some().into()]);
}

/// The enquiry is in.
pub fn tell_sent(host: &HtmlElement) {
    tell(host, PageEvent::Sent, &[]);
}

/// Something did not work out.
pub fn tell_failed(host: &HtmlElement, why: Failure) {
    tell(host, PageEvent::Failed, &[why.word().into()]);
}

/// Today, by the device's own clock and zone.
#[must_use]
pub fn today() -> Option<jiff::civil::Date> {
    let now = js_sys::Date::new_0();
    let year = i16::try_from(now.get_full_year()).ok()?;
    let (month, day) = (i8::try_from(now.get_month() + 1).ok()?, i8::try_from(now.get_date()).ok()?);
    jiff::civil::Date::new(year, month, day).ok()
}
