//! Sends the enquiry, then its photos one by one. Sent twice it is one enquiry, so every step may be tried again, and is: for as
//! long as the page is open, with growing waits, at once when the browser has a line again.

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

/// Waits between tries, in seconds; the last is kept to.
const WAITS: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 40.0, 60.0];
/// The longest that another side may make one wait, in seconds; common practice, no source.
const LONGEST: f64 = 900.0;

/// One run of sending; it ends where another has begun or it was called off.
#[derive(Clone, Default)]
pub struct Runs(Rc<Cell<u32>>);

impl Runs {
    /// Ends the run that is under way, if one is.
    pub fn end(&self) -> u32 {
        self.0.set(self.0.get() + 1);
        self.0.get()
    }
}

/// What one request of a run is.
enum Errand<'a> {
    /// A body of a type, to an address, perhaps with a secret.
    Ask { method: &'a str, url: &'a str, kind: &'a str, body: &'a JsValue, secret: Option<&'a str> },
    /// A letter as a plain form.
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

/// Sends it and says how far it came.
pub async fn send(letter: Letter, runs: Runs, done: Callback<Action>) {
    let number = runs.end();
    let run = Run { letter, runs, number, done };
    let delivered = match run.deliver(&run.letter).await {
        // A service may be older than the form: what it has no field for goes in words that it takes, what it asks for beside is given.
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

    /// The reference, or why not; `None` where it was called off.
    async fn deliver(&self, letter: &Letter) -> Result<String, Option<SendTrouble>> {
        let Letter { form, url, blobs, plain, .. } = letter;
        if url.is_empty() {
            return Err(Some(SendTrouble::Nowhere));
        }
        if *plain {
            let letter = letter.in_plain().await;
            let answer = self.persistently(Errand::Post { url, letter: &letter }).await?;
            // An ordinary host answers what it likes: that it took it is enough.
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
        // What has arrived already, from an earlier try, is not sent again.
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

    /// Tries until it is answered, waiting longer each time; a refusal is not tried again.
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
                    // Too many at once, too slow, or a fault of the other side: later it may do.
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
                // Asked to wait, one waits, whatever the line does.
                Some(seconds) => pause(seconds.min(LONGEST), false).await,
                // Many phones that lost the same mast must not all come back in the same second.
                None => pause(wait * (0.75 + js_sys::Math::random() / 2.0), true).await,
            }
        }
        Err(None)
    }
}

const JSON: &str = "application/json";
