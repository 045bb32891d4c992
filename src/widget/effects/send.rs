//! Sends the enquiry, then its photos one by one. Sent twice it is one enquiry, so every step may be tried again.

use super::http::{Answered, ask, pause};
use super::saved::{Blobs, blob};
use super::secrets::sha256;
use crate::answers::Answers;
use crate::assessment::Assessment;
use crate::config::Config;
use crate::enquiry::{CURRENT_VERSION, Contact, Envelope, Photo};
use crate::widget::state::{Action, Form, KeptPhoto, Secrets, SendTrouble, Sending};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::rc::Rc;
use wasm_bindgen::JsValue;
use yew::Callback;

/// Waits between tries, in milliseconds.
const WAITS: [i32; 3] = [800, 2_500, 6_000];

/// All that is sent.
pub struct Letter {
    /// What was filled in.
    pub form: Rc<Form>,
    /// What makes it one enquiry.
    pub secrets: Secrets,
    /// What was worked out of these answers.
    pub assessment: Rc<Assessment>,
    /// The installer's config.
    pub config: Rc<Config>,
    /// Where it goes.
    pub url: String,
    /// The photos' bytes.
    pub blobs: Blobs,
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
pub async fn send(letter: Letter, done: Callback<Action>) {
    let came = |sending| done.emit(Action::SendingCame(sending));
    came(Sending::UnderWay(0, 0));
    let end = match deliver(&letter, &came).await {
        Ok(reference) => Sending::Done(reference),
        Err(trouble) => Sending::Failed(trouble),
    };
    came(end);
}

async fn deliver(letter: &Letter, came: &impl Fn(Sending)) -> Result<String, SendTrouble> {
    let deletion_hash = sha256(letter.secrets.deletion.as_bytes()).await.ok_or(SendTrouble::NotSecure)?;
    let Letter { form, secrets, assessment, config, .. } = letter;
    let text = written(form, assessment, &config.installer.id, &secrets.client_key, deletion_hash);
    let answer = persistently("POST", &letter.url, "application/json", &JsValue::from_str(&text)).await?;
    let receipt: Receipt = serde_json::from_str(&answer.text).map_err(|_| SendTrouble::NoAnswer)?;
    // What has arrived already, from an earlier try, is not sent again.
    let left: Vec<&String> = receipt.photos_missing.iter().collect();
    for (at, sha256) in left.iter().enumerate() {
        came(Sending::UnderWay(at + 1, left.len()));
        let Some(blob) = blob(&letter.blobs, sha256) else { continue };
        let url = [&letter.url, "/", &letter.secrets.client_key, "/photos/", sha256].concat();
        persistently("PUT", &url, "image/jpeg", &blob)
            .await
            .map_err(|_| SendTrouble::PhotosLeft(receipt.reference.clone()))?;
    }
    Ok(receipt.reference)
}

/// Tries a few times, waiting longer each time; a refusal is not tried again.
async fn persistently(method: &str, url: &str, kind: &str, body: &JsValue) -> Result<Answered, SendTrouble> {
    let mut waits = WAITS.iter();
    loop {
        if let Ok(answer) = ask(method, url, Some((kind, body))).await {
            match answer.status {
                200..=299 => return Ok(answer),
                // Too many at once, too slow, or a fault of the other side: later it may do.
                408 | 429 | 500.. => {}
                _ => {
                    let said = serde_json::from_str(&answer.text).map(|refusal: Refusal| refusal.error);
                    return Err(SendTrouble::Refused(said.unwrap_or_default()));
                }
            }
        }
        match waits.next() {
            Some(wait) => pause(*wait).await,
            None => return Err(SendTrouble::NoAnswer),
        }
    }
}

/// An enquiry as it is written, of borrowed parts: nothing large is copied to be sent.
#[derive(Serialize)]
struct Written<'a> {
    version: u32,
    envelope: Envelope,
    payload: WrittenPayload<'a>,
}

/// Its payload.
#[derive(Serialize)]
struct WrittenPayload<'a> {
    contact: &'a Contact,
    answers: &'a Answers,
    assessment: &'a Assessment,
    photos: Vec<Photo>,
    #[serde(with = "crate::answers::day")]
    as_of: Date,
    engine: &'a str,
    config: &'a str,
}

fn written(form: &Form, assessment: &Assessment, installer: &str, client_key: &str, deletion_hash: String) -> String {
    let photo = |photo: &KeptPhoto| Photo {
        sha256: photo.sha256.clone(),
        place: photo.place,
        width: photo.width,
        height: photo.height,
        marks: Vec::new(),
    };
    let enquiry = Written {
        version: CURRENT_VERSION,
        envelope: Envelope {
            installer: installer.to_owned(),
            client_key: client_key.to_owned(),
            deletion_hash,
            addition_hash: None,
            photo_sizes: form.photos.iter().map(|photo| photo.bytes).collect(),
            reference: None,
            received: None,
            keep_until: None,
        },
        payload: WrittenPayload {
            contact: &form.contact,
            answers: &form.answers,
            assessment,
            photos: form.photos.iter().map(photo).collect(),
            as_of: assessment.as_of,
            engine: &assessment.engine,
            config: &assessment.config,
        },
    };
    serde_json::to_string(&enquiry).expect("an enquiry holds nothing that JSON lacks")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::demo_config;
    use crate::enquiry::{PhotoPlace, read_enquiry};

    #[test]
    fn what_is_sent_is_the_record_that_the_service_reads() {
        let contact = Contact {
            name: "Invented Person".into(),
            email: "p@x.invalid".into(),
            consent: true,
            ..Contact::default()
        };
        let mut form = Form { contact, ..Form::default() };
        form.photos.push(KeptPhoto {
            sha256: "a".repeat(64),
            place: PhotoPlace::Meter,
            width: 1600,
            height: 1200,
            bytes: 70_000,
            shown_at: "blob:here".into(),
        });
        let assessment = crate::assess(&form.answers, &demo_config());
        let json = written(&form, &assessment, "invented-installer", &"b".repeat(32), "c".repeat(64));
        let read = read_enquiry(json.as_bytes()).unwrap();
        assert_eq!(serde_json::to_string(&read).unwrap(), json);
        assert_eq!(read.payload.assessment, assessment);
        assert_eq!((read.envelope.photo_sizes, read.payload.contact), (vec![70_000], form.contact));
        assert!(!json.contains("blob:"));
    }
}
