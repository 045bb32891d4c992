//! One request and its answer; no more than the form needs.

use gloo::timers::callback::Timeout;
use gloo::utils::window;
use js_sys::Promise;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{AbortController, Request, RequestInit, Response};

/// An answer: its status and its text.
pub struct Answered {
    /// The status.
    pub status: u16,
    /// The body.
    pub text: String,
}

/// Nobody answered, or not in time.
pub struct NoAnswer;

/// Longest wait for one request, in milliseconds: a photo on a slow line takes its time.
const PATIENCE: u32 = 60_000;

/// Sends one request; `content` is a body with its type.
pub async fn ask(method: &str, url: &str, content: Option<(&str, &JsValue)>) -> Result<Answered, NoAnswer> {
    let init = RequestInit::new();
    init.set_method(method);
    if let Some((_, body)) = content {
        init.set_body(body);
    }
    let controller = AbortController::new().map_err(|_| NoAnswer)?;
    init.set_signal(Some(&controller.signal()));
    let request = Request::new_with_str_and_init(url, &init).map_err(|_| NoAnswer)?;
    if let Some((kind, _)) = content {
        request.headers().set("content-type", kind).map_err(|_| NoAnswer)?;
    }
    let _gives_up = Timeout::new(PATIENCE, move || controller.abort());
    let response = JsFuture::from(window().fetch_with_request(&request)).await.map_err(|_| NoAnswer)?;
    let response: Response = response.dyn_into().map_err(|_| NoAnswer)?;
    let text = JsFuture::from(response.text().map_err(|_| NoAnswer)?).await.map_err(|_| NoAnswer)?;
    Ok(Answered { status: response.status(), text: text.as_string().unwrap_or_default() })
}

/// Waits so many milliseconds.
pub async fn pause(milliseconds: i32) {
    let waiting = Promise::new(&mut |resolve, _| {
        // A window always has a timer; without one there is no wait.
        if window().set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, milliseconds).is_err() {
            let _ = resolve.call0(&JsValue::NULL);
        }
    });
    let _ = JsFuture::from(waiting).await;
}
