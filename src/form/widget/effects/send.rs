//! Sends the enquiry, then its photos one by one. An enquiry that is sent twice counts once (its key is the same), so every request may be
//! repeated: for as long as the page is open, after growing waits, and at once when the network is back.

use super::http::{Answered, ask_as, pause};
use super::letter::{Letter, additions};
use super::saved::blob;
use super::share::post;
use crate::widget::state::{Action, SendTrouble, Sending};
use serde::Deserialize;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use yew::Callback;

/// Waits between tries, in seconds; the last one is repeated.
const WAITS: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 40.0, 60.0];
/// The longest wait that a server can ask for, in seconds; common practice, no source.
const LONGEST: f64 = 900.0;

/// Numbers the runs of sending. A run stops when another begins or sending is cancelled.
#[derive(Clone, Default)]
pub struct Runs(Rc<Cell<u32>>);

impl Runs {
    /// Ends the run that is under way, if there is one; returns the number of the next run.
    pub fn end(&self) -> u32 {
        self.0.set(self.0.get() + 1);
        self.0.get()
    }
}

/// One request of a run.
enum Errand<'a> {
    /// A body of a media type to an address, with a secret if one is needed.
    Ask { method: &'a str, url: &'a str, kind: &'a str, body: &'a JsValue, secret: Option<&'a str> },
    /// A letter posted as a plain web form.
    Post { url: &'a str, letter: &'a JsValue },
}

#[derive(Deserialize)]
struct Receipt {
    reference: String,
    #[serde(default)]
    photos_missing: Vec<String>,
}

#[derive(Deserialize)]
struct Refusal {
    error: String,
}

/// Sends an enquiry and its photos; reports the progress and the outcome through `done`. Any run before it ends.
pub async fn send(letter: Letter, runs: Runs, done: Callback<Action>) {
    let number = runs.end();
    let run = Run { letter, runs, number, done };
    let delivered = match run.deliver(&run.letter).await {
        // A service may be older than the form: it is then sent the fields that it knows.
        Err(Some(SendTrouble::Refused(why))) if run.letter.may_be_newer_than_the_service(&why) => {
            run.deliver(&Letter { older: true, ..run.letter.clone() }).await
        }
        delivered => delivered,
    };
    match delivered {
        Ok(reference) => run.came(Sending::Done(reference)),
        Err(Some(trouble)) => run.came(Sending::Failed(trouble)),
        Err(None) => {}
    }
}

struct Run {
    letter: Letter,
    runs: Runs,
    number: u32,
    done: Callback<Action>,
}

impl Run {
    fn came(&self, sending: Sending) {
        if self.goes_on() {
            self.done.emit(Action::SendingCame(sending));
        }
    }

    fn goes_on(&self) -> bool {
        self.runs.0.get() == self.number
    }

    /// Returns the enquiry's reference (empty where a plain web host gave none), or why it did not arrive: `Err(None)` where sending was
    /// cancelled.
    async fn deliver(&self, letter: &Letter) -> Result<String, Option<SendTrouble>> {
        let Letter { form, url, blobs, plain, .. } = letter;
        if url.is_empty() {
            return Err(Some(SendTrouble::Nowhere));
        }
        if *plain {
            let letter = letter.in_plain().await;
            let answer = self.persistently(Errand::Post { url, letter: &letter }).await?;
            // An ordinary web host answers in whatever format it likes: its success status is enough.
            return Ok(serde_json::from_str(&answer.text)
                .map(|receipt: Receipt| receipt.reference)
                .unwrap_or_default());
        }
        let (key, answer) = match form.adds_to() {
            Some(link) => {
                let (to, body) = ([url, "/", &link.key, "/additions"].concat(), JsValue::from_str(&additions(form)));
                let errand =
                    Errand::Ask { method: "POST", url: &to, kind: JSON, body: &body, secret: Some(&link.secret) };
                (link.key, self.persistently(errand).await?)
            }
            None => {
                let body = JsValue::from_str(&letter.record().await.ok_or(Some(SendTrouble::NotSecure))?);
                let key = form.secrets.as_ref().map(|secrets| secrets.client_key.clone()).unwrap_or_default();
                (
                    key,
                    self.persistently(Errand::Ask { method: "POST", url, kind: JSON, body: &body, secret: None })
                        .await?,
                )
            }
        };
        let receipt: Receipt =
            serde_json::from_str(&answer.text).map_err(|_| Some(SendTrouble::Refused(String::new())))?;
        // Photos that arrived in an earlier try are not sent again.
        let left: Vec<_> =
            receipt.photos_missing.iter().filter_map(|sha256| Some((sha256, blob(blobs, sha256)?))).collect();
        for (at, (sha256, bytes)) in left.iter().enumerate() {
            self.came(Sending::UnderWay(at + 1, left.len()));
            let to = [url, "/", &key, "/photos/", sha256].concat();
            let errand = Errand::Ask { method: "PUT", url: &to, kind: "image/jpeg", body: bytes, secret: None };
            self.persistently(errand)
                .await
                .map_err(|why| why.map(|_| SendTrouble::PhotosLeft(receipt.reference.clone())))?;
        }
        Ok(receipt.reference)
    }

    /// Repeats a request until it succeeds, waiting longer each time. A refusal is final; `Err(None)` where sending was cancelled.
    async fn persistently(&self, errand: Errand<'_>) -> Result<Answered, Option<SendTrouble>> {
        let mut waits = WAITS.iter();
        let mut wait = WAITS[0];
        while self.goes_on() {
            let answer = match errand {
                Errand::Ask { method, url, kind, body, secret } => {
                    ask_as(method, url, Some((kind, body)), secret).await
                }
                Errand::Post { url, letter } => post(url, letter).await,
            };
            let told = match answer {
                Ok(answer) => match answer.status {
                    200..=299 => return Ok(answer),
                    // A rate limit, a timeout, or a fault of the server: a later try may succeed.
                    408 | 429 | 500.. => answer.wait.filter(|seconds| *seconds > 0.0),
                    _ => {
                        let said = serde_json::from_str(&answer.text).map(|refusal: Refusal| refusal.error);
                        return Err(Some(SendTrouble::Refused(said.unwrap_or_default())));
                    }
                },
                Err(_) => None,
            };
            if !self.goes_on() {
                break;
            }
            self.came(Sending::Waiting);
            wait = waits.next().copied().unwrap_or(wait);
            match told {
                // A wait that the server asks for is not cut short when the network comes back.
                Some(seconds) => pause(seconds.min(LONGEST), false).await,
                // The wait is randomised: phones that lost the same mast must not all try again in the same second.
                None => pause(wait * (0.75 + js_sys::Math::random() / 2.0), true).await,
            }
        }
        Err(None)
    }
}

const JSON: &str = "application/json";
