//! Requests to the service: one function for each, with a time limit; every failure is a [`Trouble`].

use super::api::{Apart, Detail, Erased, Handled, Job, ListPage, NewAnswers, Outbox, Refusal, SignIn, SignedIn};
use super::enquiry_rows::EnquiryRow;
use super::trouble::Trouble;
use gloo::timers::callback::Timeout;
use model::answers::Answers;
use model::config::Config;
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{AbortController, Request, RequestInit, Response};

/// The address of the service's API, relative to this page.
const API: &str = "../api";
/// How long to wait for a response. Common practice, no source.
const PATIENCE_MS: u32 = 20_000;
/// Rows asked for at once: the most that the service returns.
const ROWS_AT_ONCE: usize = 200;
/// The most pages of the list to fetch, so that a faulty service can't keep this page fetching for ever.
const PAGES_AT_MOST: usize = 50;

/// Asks who is signed in; `None` if nobody is.
///
/// # Errors
/// [`Trouble`] if the service could not be asked.
pub async fn session() -> Result<Option<SignedIn>, Trouble> {
    match ask("GET", "/session", None).await {
        Ok(text) => read(&text).map(Some),
        Err(Trouble::SignedOut) => Ok(None),
        Err(trouble) => Err(trouble),
    }
}

/// Signs in; `None` if the password is right and a code is needed beside it.
///
/// # Errors
/// [`Trouble`]: a wrong password or code, too many attempts, no response.
pub async fn sign_in(typed: &SignIn) -> Result<Option<SignedIn>, Trouble> {
    match ask("POST", "/session", Some(json(typed))).await {
        // Where the browser keeps no cookie, nobody is signed in after all.
        Ok(_) => session().await?.ok_or(Trouble::SignedOut).map(Some),
        Err(Trouble::CodeNeeded) => Ok(None),
        Err(trouble) => Err(trouble),
    }
}

/// Signs out.
///
/// # Errors
/// [`Trouble`] if the service could not be reached.
pub async fn sign_out() -> Result<(), Trouble> {
    ask("DELETE", "/session", None).await.map(|_| ())
}

/// Fetches the whole list, page by page.
///
/// # Errors
/// [`Trouble`] if any page could not be fetched or read.
pub async fn list() -> Result<Vec<EnquiryRow>, Trouble> {
    let mut rows = Vec::new();
    let mut after = String::new();
    for _ in 0..PAGES_AT_MOST {
        let page: ListPage =
            read(&ask("GET", &format!("/installer/enquiries?limit={ROWS_AT_ONCE}{after}"), None).await?)?;
        let next = page.next.clone();
        rows.extend(page.rows());
        match next {
            Some(key) => after = format!("&after={key}"),
            None => break,
        }
    }
    Ok(rows)
}

/// Marks an enquiry as a job, or takes the mark away, and returns the enquiry after that.
///
/// # Errors
/// [`Trouble`]: the service refused it, or could not be reached.
pub async fn store_job(key: &str, job: &Job) -> Result<Detail, Trouble> {
    read(&ask("PUT", &format!("/installer/enquiries/{key}/job"), Some(json(job))).await?)
}

/// Fetches what is kept of jobs whose enquiries were deleted.
///
/// # Errors
/// [`Trouble`] if it could not be fetched or read.
pub async fn apart() -> Result<Vec<Apart>, Trouble> {
    read(&ask("GET", "/installer/jobs", None).await?)
}

/// Fetches what the service could not send yet.
///
/// # Errors
/// [`Trouble`] if it could not be fetched or read.
pub async fn outbox() -> Result<Outbox, Trouble> {
    read(&ask("GET", "/installer/outbox", None).await?)
}

/// Fetches one enquiry.
///
/// # Errors
/// [`Trouble`]: there is none by this key, or it could not be fetched or read.
pub async fn detail(key: &str) -> Result<Detail, Trouble> {
    read(&ask("GET", &format!("/installer/enquiries/{key}"), None).await?)
}

/// Stores corrected answers and returns the enquiry with the service's assessment of them.
///
/// # Errors
/// [`Trouble`]: the service refused them, or could not be reached.
pub async fn store_answers(key: &str, answers: &Answers) -> Result<Detail, Trouble> {
    let body = json(&NewAnswers { answers });
    read(&ask("PUT", &format!("/installer/enquiries/{key}/answers"), Some(body)).await?)
}

/// Marks an enquiry as handled, or not.
///
/// # Errors
/// [`Trouble`] if this was not stored.
pub async fn mark(key: &str, handled: bool) -> Result<(), Trouble> {
    ask("PUT", &format!("/installer/enquiries/{key}/handled"), Some(json(&Handled { handled }))).await.map(|_| ())
}

/// Deletes an enquiry with its photos, and returns what was deleted.
///
/// # Errors
/// [`Trouble`] if it was not deleted, or nobody knows whether it was.
pub async fn delete(key: &str) -> Result<Erased, Trouble> {
    read(&ask("DELETE", &format!("/installer/enquiries/{key}"), None).await?)
}

/// The address of everything held of an enquiry, as a file.
#[must_use]
pub fn export_source(key: &str) -> String {
    format!("{API}/installer/enquiries/{key}/export")
}

/// Fetches the published config.
///
/// # Errors
/// [`Trouble`] if it could not be fetched or read.
pub async fn config() -> Result<Config, Trouble> {
    read(&ask("GET", "/config", None).await?)
}

/// The address of a photo.
#[must_use]
pub fn photo_source(key: &str, sha256: &str) -> String {
    format!("{API}/installer/enquiries/{key}/photos/{sha256}")
}

fn json(value: &impl Serialize) -> String {
    serde_json::to_string(value).expect("these types hold only text, numbers and lists")
}

fn read<T: DeserializeOwned>(text: &str) -> Result<T, Trouble> {
    serde_json::from_str(text).map_err(|_| Trouble::Unreadable)
}

/// Sends one request and returns the body of a successful response.
async fn ask(method: &str, path: &str, body: Option<String>) -> Result<String, Trouble> {
    let response = send(method, path, body.as_deref()).await.map_err(|_| Trouble::Unreachable)?;
    let status = response.status();
    let text = text(&response).await.map_err(|_| Trouble::Unreachable)?;
    if response.ok() {
        return Ok(text);
    }
    Err(trouble(status, &text, response.headers().get("retry-after").ok().flatten().as_deref()))
}

/// The trouble that a status other than success stands for.
fn trouble(status: u16, body: &str, retry_after: Option<&str>) -> Trouble {
    let refusal = || serde_json::from_str::<Refusal>(body).unwrap_or_default();
    match status {
        401 => match &*refusal().reason {
            "code-needed" => Trouble::CodeNeeded,
            "wrong-code" => Trouble::WrongCode,
            "wrong-password" => Trouble::WrongPassword,
            _ => Trouble::SignedOut,
        },
        404 => Trouble::NotFound,
        429 => Trouble::TooMany(retry_after.and_then(|seconds| seconds.parse().ok()).unwrap_or(60)),
        400..=499 => {
            let refusal = refusal();
            let fields: Vec<String> =
                refusal.fields.iter().map(|field| format!("{}: {}", field.path, field.message)).collect();
            Trouble::Refused(if fields.is_empty() { refusal.error } else { fields.join("; ") })
        }
        _ => Trouble::Theirs,
    }
}

async fn send(method: &str, path: &str, body: Option<&str>) -> Result<Response, JsValue> {
    let controller = AbortController::new()?;
    let init = RequestInit::new();
    init.set_method(method);
    init.set_signal(Some(&controller.signal()));
    if let Some(body) = body {
        init.set_body(&JsValue::from_str(body));
    }
    let request = Request::new_with_str_and_init(&format!("{API}{path}"), &init)?;
    if method != "GET" {
        request.headers().set("x-presurvey", "1")?; // only a script of this page can send it
    }
    if body.is_some() {
        request.headers().set("content-type", "application/json")?;
    }
    let patience = Timeout::new(PATIENCE_MS, move || controller.abort());
    let answer = JsFuture::from(gloo::utils::window().fetch_with_request(&request)).await;
    patience.cancel();
    answer?.dyn_into()
}

async fn text(response: &Response) -> Result<String, JsValue> {
    Ok(JsFuture::from(response.text()?).await?.as_string().unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_status_is_its_own_trouble() {
        assert_eq!(trouble(401, "", None), Trouble::SignedOut);
        for (reason, expected) in [
            ("code-needed", Trouble::CodeNeeded),
            ("wrong-code", Trouble::WrongCode),
            ("wrong-password", Trouble::WrongPassword),
            ("a word of a newer service", Trouble::SignedOut),
        ] {
            assert_eq!(trouble(401, &format!(r#"{{"error":"no","fields":[],"reason":"{reason}"}}"#), None), expected);
        }
        let owner = r#"{"error":"this is for an owner","fields":[]}"#;
        assert_eq!(trouble(403, owner, None), Trouble::Refused("this is for an owner".into()));
        assert_eq!(trouble(404, "", None), Trouble::NotFound);
        assert_eq!(trouble(429, "", Some("90")), Trouble::TooMany(90));
        assert_eq!(trouble(500, "<html>", None), Trouble::Theirs);
        let body = r#"{"error":"2 fields","fields":[{"path":"answers.home.age","message":"may be …"}]}"#;
        assert_eq!(trouble(422, body, None), Trouble::Refused("answers.home.age: may be …".into()));
        assert_eq!(trouble(413, r#"{"error":"too large"}"#, None), Trouble::Refused("too large".into()));
    }
}
