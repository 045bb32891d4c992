//! One HTTP request and its answer, with a time limit, and waiting before another try. Decides nothing about what is asked.

use gloo::timers::callback::Timeout;
use gloo::utils::{document, window};
use js_sys::{Function, Promise, parse_float};
use model::config::FORMAT;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{AbortController, Request, RequestInit, Response};

/// An HTTP answer.
pub struct Answered {
    /// Its status code.
    pub status: u16,
    /// Its body as text.
    pub text: String,
    /// How many seconds the server asks to wait before the next try (`Retry-After`), if it does.
    pub wait: Option<f64>,
}

/// There was no answer, or not in time.
pub struct NoAnswer;

/// The time limit for one request, in milliseconds: long enough for a photo on a slow line.
const PATIENCE: u32 = 60_000;

/// Sends one request; `content` is the body with its media type before it.
///
/// # Errors
/// [`NoAnswer`] where there is no answer within the time limit.
pub async fn ask(method: &str, url: &str, content: Option<(&str, &JsValue)>) -> Result<Answered, NoAnswer> {
    ask_as(method, url, content, None).await
}

/// Like [`ask`], with a secret that is sent as a bearer token.
///
/// # Errors
/// [`NoAnswer`] where there is no answer within the time limit.
pub async fn ask_as(
    method: &str,
    url: &str,
    content: Option<(&str, &JsValue)>,
    secret: Option<&str>,
) -> Result<Answered, NoAnswer> {
    let init = RequestInit::new();
    init.set_method(method);
    if let Some((_, body)) = content {
        init.set_body(body);
    }
    let controller = AbortController::new().map_err(|_| NoAnswer)?;
    init.set_signal(Some(&controller.signal()));
    let request = Request::new_with_str_and_init(url, &init).map_err(|_| NoAnswer)?;
    let set = |name, value: &str| request.headers().set(name, value).map_err(|_| NoAnswer);
    // A config is requested in the format that this form reads; other addresses ignore the header.
    if method == "GET" {
        set("accept", FORMAT)?;
    }
    if let Some((kind, _)) = content {
        set("content-type", kind)?;
    }
    if let Some(secret) = secret {
        set("authorization", &["Bearer ", secret].concat())?;
    }
    let _gives_up = Timeout::new(PATIENCE, move || controller.abort());
    let response = JsFuture::from(window().fetch_with_request(&request)).await.map_err(|_| NoAnswer)?;
    let response: Response = response.dyn_into().map_err(|_| NoAnswer)?;
    let text = JsFuture::from(response.text().map_err(|_| NoAnswer)?).await.map_err(|_| NoAnswer)?;
    // `Retry-After` may be a date instead of seconds: that is no number, and the form waits as it would without.
    let wait = response.headers().get("retry-after").ok().flatten().map(|wait| parse_float(&wait));
    Ok(Answered { status: response.status(), text: text.as_string().unwrap_or_default(), wait })
}

/// Waits this many seconds. With `wakes` the wait ends early when the network may be back: the browser reports it, or the page becomes
/// visible again.
pub async fn pause(seconds: f64, wakes: bool) {
    let mut woken = None::<Function>;
    let waiting = Promise::new(&mut |resolve, _| {
        // A window always has a timer; without one there is no wait.
        if window().set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, (seconds * 1000.0) as i32).is_err()
        {
            let _ = resolve.call0(&JsValue::NULL);
        }
        if wakes {
            // Where they can't be heard the timer is enough.
            let _ = window().add_event_listener_with_callback("online", &resolve);
            let _ = document().add_event_listener_with_callback("visibilitychange", &resolve);
            woken = Some(resolve);
        }
    });
    let _ = JsFuture::from(waiting).await;
    if let Some(resolve) = woken {
        let _ = window().remove_event_listener_with_callback("online", &resolve);
        let _ = document().remove_event_listener_with_callback("visibilitychange", &resolve);
    }
}
