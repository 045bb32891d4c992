//! Sends the form's DOM events (`enquiry/events.rs`) to the page around it. Also writes to the browser's console, and asks the device for
//! today's date.

use js_sys::{Object, Reflect};
use record::ViewModel;
use record::enquiry::events::{Failure, PageEvent, StepKind};
use wasm_bindgen::prelude::*;
use web_sys::{CustomEvent, CustomEventInit, HtmlElement};

#[wasm_bindgen]
extern "C" {
    /// Writes an error to the browser's console, for the developer of the page. It must hold no personal data.
    #[wasm_bindgen(js_namespace = console, js_name = error)]
    pub fn report(text: &str);
}

/// Sends an event; `detail` has the value of each of its names, in their order.
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

/// Tells the page that the homeowner came to another step.
pub fn tell_step(host: &HtmlElement, (kind, id): (StepKind, &str)) {
    tell(host, PageEvent::Step, &[kind.word().into(), id.into()]);
}

/// Tells the page that there is a result: the job's class and whether there is a price band, but no figures and no answers.
pub fn tell_result(host: &HtmlElement, shown: &ViewModel) {
    tell(host, PageEvent::Result, &[shown.complexity.word().into(), shown.band.is_some().into()]);
}

/// Tells the page that the enquiry was received.
pub fn tell_sent(host: &HtmlElement) {
    tell(host, PageEvent::Sent, &[]);
}

/// Tells the page that something failed, and why.
pub fn tell_failed(host: &HtmlElement, why: Failure) {
    tell(host, PageEvent::Failed, &[why.word().into()]);
}

/// Today's date by the device's clock and time zone; `None` where its clock shows a year that the calendar lacks.
#[must_use]
pub fn today() -> Option<jiff::civil::Date> {
    let now = js_sys::Date::new_0();
    let year = i16::try_from(now.get_full_year()).ok()?;
    let (month, day) = (i8::try_from(now.get_month() + 1).ok()?, i8::try_from(now.get_date()).ok()?);
    jiff::civil::Date::new(year, month, day).ok()
}
