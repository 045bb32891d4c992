//! Sends the enquiry, then its photos one by one. Sent twice it is one enquiry, so every step may be tried again.

use super::assessment::{Assessed, Made, to_send};
use super::http::{Answered, ask, pause};
use super::outside::today;
use super::saved::{Blobs, blob};
use super::secrets::sha256;
use crate::assessment::{ENGINE, Versions};
use crate::config::FormPart;
use crate::enquiry::{CURRENT_VERSION, Envelope, Photo};
use crate::widget::state::{Action, Form, KeptPhoto, Secrets, SendTrouble, Sending};
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
    /// What was worked out of the answers so far.
    pub assessed: Assessed,
    /// The installer's config.
    pub config: Rc<FormPart>,
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
    let Letter { form, secrets, assessed, config, .. } = letter;
    let made = to_send(assessed, &form.answers, config).await;
    let text = written(form, made.as_deref(), config, &secrets.client_key, deletion_hash);
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

/// An enquiry as it is written, part by part: the assessment goes in as the engine wrote it, and nothing large is copied to
/// be sent. Without one it speaks of the day it is sent on.
fn written(form: &Form, made: Option<&Made>, config: &FormPart, client_key: &str, deletion_hash: String) -> String {
    let photo = |photo: &KeptPhoto| Photo {
        sha256: photo.sha256.clone(),
        place: photo.place,
        width: photo.width,
        height: photo.height,
        marks: Vec::new(),
    };
    let envelope = Envelope {
        installer: config.installer.id.clone(),
        client_key: client_key.to_owned(),
        deletion_hash,
        addition_hash: None,
        photo_sizes: form.photos.iter().map(|photo| photo.bytes).collect(),
        reference: None,
        received: None,
        keep_until: None,
    };
    let photos: Vec<Photo> = form.photos.iter().map(photo).collect();
    let today = || form.answers.as_of.or_else(today).map(|day| day.to_string()).unwrap_or_default();
    let (as_of, engine, version) = match made {
        Some(made) => {
            let Versions { as_of, engine, config } = &made.shown.of;
            (as_of.clone(), engine.as_str(), config.as_str())
        }
        None => (today(), ENGINE, config.version.as_str()),
    };
    let assessment = made.map_or(["", ""], |made| [",\"assessment\":", &made.json]);
    [
        "{\"version\":",
        &json(&CURRENT_VERSION),
        ",\"envelope\":",
        &json(&envelope),
        ",\"payload\":{\"contact\":",
        &json(&form.contact),
        ",\"answers\":",
        &json(form.answers.as_ref()),
        assessment[0],
        assessment[1],
        ",\"photos\":",
        &json(&photos),
        ",\"as_of\":",
        &json(&as_of),
        ",\"engine\":",
        &json(engine),
        ",\"config\":",
        &json(version),
        "}}",
    ]
    .concat()
}

fn json(part: &(impl Serialize + ?Sized)) -> String {
    serde_json::to_string(part).expect("an enquiry holds nothing that JSON lacks")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::Shown;
    use crate::config::{demo_config, demo_part};
    use crate::enquiry::{Contact, PhotoPlace, read_enquiry};

    fn filled_in() -> Form {
        let contact = Contact {
            name: "Invented \"Person\", \"assessment\":".into(),
            email: "p@x.invalid".into(),
            consent: true,
            ..Contact::default()
        };
        let mut form = Form { contact, ..Form::default() };
        Rc::make_mut(&mut form.answers).as_of = Some(jiff::civil::date(2026, 11, 5));
        form.photos.push(KeptPhoto {
            sha256: "a".repeat(64),
            place: PhotoPlace::Meter,
            width: 1600,
            height: 1200,
            bytes: 70_000,
            shown_at: "blob:here".into(),
        });
        form
    }

    #[test]
    fn what_is_sent_is_the_record_that_the_service_reads() {
        let form = filled_in();
        let assessment = crate::assess(&form.answers, &demo_config());
        let made =
            Made { shown: Shown::of(&assessment, &demo_config()), json: serde_json::to_string(&assessment).unwrap() };
        let json = written(&form, Some(&made), &demo_part(), &"b".repeat(32), "c".repeat(64));
        let read = read_enquiry(json.as_bytes()).unwrap();
        assert_eq!(serde_json::to_string(&read).unwrap(), json);
        assert_eq!((read.payload.as_of, &read.payload.engine), (assessment.as_of, &assessment.engine));
        assert_eq!(read.payload.assessment, Some(assessment));
        assert_eq!((read.envelope.photo_sizes, read.payload.contact), (vec![70_000], form.contact));
        assert!(!json.contains("blob:"));
    }

    #[test]
    fn it_may_be_sent_before_an_assessment_was_made() {
        let form = filled_in();
        let json = written(&form, None, &demo_part(), &"b".repeat(32), "c".repeat(64));
        let read = read_enquiry(json.as_bytes()).unwrap();
        assert_eq!(serde_json::to_string(&read).unwrap(), json);
        assert_eq!(read.payload.assessment, None);
        assert_eq!(Some(read.payload.as_of), form.answers.as_of);
        assert_eq!((read.payload.engine.as_str(), read.payload.config), (ENGINE, demo_config().version));
    }
}
