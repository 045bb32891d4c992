//! What is sent, as text: the record of an enquiry, additions to an enquiry that was received, and the letter for other ways of sharing.

use super::assessment::{Assessed, Made, in_english, to_send};
use super::saved::{Blobs, blob};
use super::secrets::sha256;
use super::tell_page::today;
use crate::widget::speech::Speech;
use crate::widget::state::{Form, KeptPhoto};
use crate::widget::worked_out::worked_out;
use engine::assessment::ENGINE;
use js_sys::{Array, Object, Reflect};
use model::answers::Answers;
use model::config::FormPart;
use record::Versions;
use record::enquiry::{CURRENT_VERSION, Contact, Envelope, Photo, plain_text};
use serde::Serialize;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use wording::form as words;

/// Everything that sending needs.
#[derive(Clone)]
pub struct Letter {
    /// The form as filled in.
    pub form: Rc<Form>,
    /// The assessment so far.
    pub assessed: Assessed,
    /// The installer's config, once it is there.
    pub config: Option<Rc<FormPart>>,
    /// The wording.
    pub speech: Speech,
    /// The address that enquiries are sent to; empty where there is none.
    pub url: String,
    /// Whether they are posted there as a plain web form.
    pub plain: bool,
    /// Whether only the fields are used that a service of version 0.2.0 or earlier knows.
    pub older: bool,
    /// The photos' bytes.
    pub blobs: Blobs,
}

impl Letter {
    /// The record as JSON; `None` where the page was not served over a secure connection, or the enquiry has no secrets yet.
    pub async fn record(&self) -> Option<String> {
        self.record_with(self.made().await.as_deref()).await
    }

    /// The assessment that goes with it, in the form's language.
    async fn made(&self) -> Option<Rc<Made>> {
        to_send(&self.assessed, &self.form.answers, self.config.as_deref()?).await
    }

    async fn record_with(&self, made: Option<&Made>) -> Option<String> {
        let secrets = self.form.secrets.as_ref()?;
        let hash = async |secret: &str| sha256(secret.as_bytes()).await;
        let deletion_hash = hash(&secrets.deletion).await?;
        let addition_hash = if secrets.addition.is_empty() { None } else { Some(hash(&secrets.addition).await?) };
        let hashes = (deletion_hash, addition_hash);
        Some(written((&self.form, &self.contact()), made, self.config.as_deref(), &secrets.client_key, hashes))
    }

    /// Whether the service may have refused the enquiry (for the reason `why`) because it is older than the form: the enquiry has a field
    /// that such a service does not know, or the service asks for the consent that earlier forms asked for.
    pub fn may_be_newer_than_the_service(&self, why: &str) -> bool {
        let Contact { address, supply_number, offers, copy, .. } = &self.form.contact;
        !self.older && (!address.is_empty() || !supply_number.is_empty() || *offers || *copy || why.contains("consent"))
    }

    /// The contact as it is sent: with the form's language where that is not English, and in the older fields where `older` is set.
    fn contact(&self) -> Contact {
        let language = self.speech.language();
        let language = if language.starts_with("en") { "" } else { language };
        let contact = Contact { language: language.to_owned(), ..self.form.contact.clone() };
        if !self.older {
            return contact;
        }
        let english = self.speech.english();
        contact.in_older_fields(english.say(words::CONTACT_ADDRESS), english.say(words::CONTACT_SUPPLY_NUMBER))
    }

    /// The letter that `www/form/share.js` takes: the fields of a plain web form, the enquiry in plain text, the record and the photos.
    pub async fn in_plain(&self) -> JsValue {
        let (Form { answers, photos, secrets, .. }, contact) = (&*self.form, self.contact());
        let made = self.made().await;
        // The installer reads English, whatever the homeowner was shown.
        let speech = self.speech.clone().spoken(None);
        let told = match &self.config {
            Some(config) if self.speech.language() != speech.language() => in_english(answers, config).await,
            _ => made.clone(),
        };
        let told = worked_out(told.as_deref().map(|made| &made.shown), answers, &speech);
        let places = [("installer", &*speech.installer), ("telephone", &*speech.telephone)];
        let summary = plain_text(&contact, answers, photos.len(), &told, speech.words(), &places);
        let fields = Array::new();
        let field = |name: &str, value: &str| {
            if !value.is_empty() {
                fields.push(&Array::of2(&name.into(), &value.into()));
            }
        };
        field("name", &contact.name);
        field("telephone", &contact.telephone);
        field("email", &contact.email);
        field("when", &contact.when);
        field("note", &contact.note);
        field("language", &contact.language);
        field("offers", if contact.offers { "yes" } else { "" });
        field("copy", if contact.copy { "yes" } else { "" });
        field("postcode", answers.home.postcode.known().map_or("", |postcode| postcode.as_str()));
        if let Some(signs) = answers.hazard.signs.known() {
            signs.iter().for_each(|sign| field("hazard[]", sign.word()));
        }
        field("hazard-when", answers.hazard.when.known().map_or("", |when| when.word()));
        field("hazard-place", answers.hazard.place.known().map_or("", |place| place.word()));
        field("client_key", secrets.as_ref().map_or("", |secrets| &secrets.client_key));
        let record = self.record_with(made.as_deref()).await.unwrap_or_default();
        let blobs: Array = photos.iter().filter_map(|photo| blob(&self.blobs, &photo.sha256)).collect();
        let letter = Object::new();
        for (name, value) in [
            ("fields", fields.into()),
            ("summary", summary.into()),
            ("record", record.into()),
            ("photos", blobs.into()),
        ] {
            // Setting a field of a new plain object does not fail.
            let _ = Reflect::set(&letter, &name.into(), &value);
        }
        letter.into()
    }
}

/// The record of an enquiry as JSON, put together part by part, so that the assessment goes in as the engine wrote it without being parsed
/// and written again. Without an assessment the record's day is today.
fn written(
    (form, contact): (&Form, &Contact),
    made: Option<&Made>,
    config: Option<&FormPart>,
    client_key: &str,
    (deletion_hash, addition_hash): (String, Option<String>),
) -> String {
    let envelope = Envelope {
        installer: config.map(|config| config.installer.id.clone()).unwrap_or_default(),
        client_key: client_key.to_owned(),
        deletion_hash,
        addition_hash,
        photo_sizes: form.photos.iter().map(|photo| photo.bytes).collect(),
        reference: None,
        received: None,
        keep_until: None,
    };
    let today = || form.answers.as_of.or_else(today).map(|day| day.to_string()).unwrap_or_default();
    let (as_of, engine, version) = match made {
        Some(made) => {
            let Versions { as_of, engine, config } = &made.shown.of;
            (as_of.clone(), engine.as_str(), config.as_str())
        }
        None => (today(), ENGINE, config.map_or("", |config| config.version.as_str())),
    };
    let assessment = made.map_or(["", ""], |made| [",\"assessment\":", &made.json]);
    [
        "{\"version\":",
        &json(&CURRENT_VERSION),
        ",\"envelope\":",
        &json(&envelope),
        ",\"payload\":{\"contact\":",
        &json(contact),
        ",\"answers\":",
        &json(form.answers.as_ref()),
        assessment[0],
        assessment[1],
        ",\"photos\":",
        &listed(&form.photos),
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

/// The additions to an enquiry that was received, as JSON: answers and photos.
pub fn additions(form: &Form) -> String {
    let Form { answers, photos, link, .. } = form;
    // Only a link from the installer asks for answers. A form that sent the enquiry itself adds photos alone, since its answers are in the
    // enquiry already, but always adds a danger.
    let answers = if link.is_some() {
        json(answers.as_ref())
    } else if answers.hazard.is_feared() {
        json(&Answers { hazard: answers.hazard.clone(), ..Answers::default() })
    } else {
        "{}".to_owned()
    };
    ["{\"answers\":", &answers, ",\"photos\":", &listed(photos), ",\"photo_sizes\":", &sizes(photos), "}"].concat()
}

/// Photos as a record lists them.
fn listed(photos: &[KeptPhoto]) -> String {
    let photo = |photo: &KeptPhoto| Photo {
        sha256: photo.sha256.clone(),
        place: photo.place,
        width: photo.width,
        height: photo.height,
        marks: Vec::new(),
    };
    json(&photos.iter().map(photo).collect::<Vec<_>>())
}

fn sizes(photos: &[KeptPhoto]) -> String {
    json(&photos.iter().map(|photo| photo.bytes).collect::<Vec<_>>())
}

fn json(part: &(impl Serialize + ?Sized)) -> String {
    serde_json::to_string(part).expect("an enquiry always fits into JSON")
}
#[cfg(test)]
mod tests {
    use super::*;
    use model::config::{demo_config, demo_part};
    use record::ViewModel;
    use record::enquiry::{PhotoPlace, read_enquiry};

    fn hashes() -> (String, Option<String>) {
        ("c".repeat(64), Some("d".repeat(64)))
    }

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
        let assessment = engine::assess(&form.answers, &demo_config());
        let made = Made {
            shown: ViewModel::of(&assessment, &demo_config()),
            json: serde_json::to_string(&assessment).unwrap(),
        };
        let json = written((&form, &form.contact), Some(&made), Some(&demo_part()), &"b".repeat(32), hashes());
        let read = read_enquiry(json.as_bytes()).unwrap();
        assert_eq!(serde_json::to_string(&read).unwrap(), json);
        assert_eq!((read.payload.as_of, &read.payload.engine), (assessment.as_of, &assessment.engine));
        assert_eq!(read.payload.assessment, Some(assessment));
        assert_eq!((read.envelope.photo_sizes, read.payload.contact), (vec![70_000], form.contact));
        assert!(!json.contains("blob:"));
    }

    #[test]
    fn only_a_link_adds_answers() {
        use crate::widget::state::Link;
        let mut form = filled_in();
        Rc::make_mut(&mut form.answers).meter.fuse_carriers = model::answers::Answer::NotSure;
        let added = |form: &Form| serde_json::from_str::<serde_json::Value>(&additions(form)).unwrap();
        let photos_alone = added(&form);
        assert_eq!(
            (&photos_alone["answers"], &photos_alone["photo_sizes"][0]),
            (&serde_json::json!({}), &70_000.into())
        );
        form.link = Some(Link { key: "k".into(), secret: "s".into(), questions: vec!["fuse-carriers"] });
        assert_eq!(added(&form)["answers"]["meter"]["fuse_carriers"], "not-sure");
    }

    #[test]
    fn it_may_be_sent_before_an_assessment_was_made() {
        let form = filled_in();
        let json = written((&form, &form.contact), None, Some(&demo_part()), &"b".repeat(32), hashes());
        let read = read_enquiry(json.as_bytes()).unwrap();
        assert_eq!(serde_json::to_string(&read).unwrap(), json);
        assert_eq!(read.payload.assessment, None);
        assert_eq!(Some(read.payload.as_of), form.answers.as_of);
        assert_eq!((read.payload.engine.as_str(), read.payload.config), (ENGINE, demo_config().version));
    }
}
