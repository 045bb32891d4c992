//! What is kept on the device while the form is filled in: written after each change, taken up again on a reload.
//!
//! Reads no storage itself. A draft of another version is left alone: it is not guessed at.

use super::state::{Form, KeptPhoto, Secrets, Sending};
use super::step::Step;
use crate::answers::{Answers, LengthUnit};
use crate::enquiry::{Contact, PhotoPlace};
use crate::questions::question;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::rc::Rc;

/// The version written today.
const VERSION: u32 = 1;

/// A draft.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
pub struct Draft {
    version: u32,
    answers: Answers,
    step: (String, String),
    typed: BTreeMap<String, String>,
    units: BTreeMap<String, LengthUnit>,
    photos: Vec<DraftPhoto>,
    contact: Contact,
    secrets: Option<(String, String)>,
    reference: Option<String>,
    reached_result: bool,
}

/// A photo of a draft; its bytes are kept beside it.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct DraftPhoto {
    sha256: String,
    place: PhotoPlace,
    width: u32,
    height: u32,
    bytes: u64,
}

impl Draft {
    /// What of a form is kept.
    #[must_use]
    pub fn of(form: &Form) -> Self {
        let (kind, id) = form.step.name();
        Self {
            version: VERSION,
            answers: (*form.answers).clone(),
            step: (kind.into(), id.into()),
            typed: form.typed.iter().map(|(id, text)| ((*id).to_owned(), text.clone())).collect(),
            units: form.units.iter().map(|(id, unit)| ((*id).to_owned(), *unit)).collect(),
            photos: form
                .photos
                .iter()
                .map(|photo| DraftPhoto {
                    sha256: photo.sha256.clone(),
                    place: photo.place,
                    width: photo.width,
                    height: photo.height,
                    bytes: photo.bytes,
                })
                .collect(),
            contact: form.contact.clone(),
            secrets: form.secrets.as_ref().map(|made| (made.client_key.clone(), made.deletion.clone())),
            reference: match &form.sending {
                Sending::Done(reference) => Some(reference.clone()),
                _ => None,
            },
            reached_result: form.reached_result,
        }
    }

    /// Reads one back; `None` for another version or anything else.
    #[must_use]
    pub fn read(json: &str) -> Option<Self> {
        serde_json::from_str(json).ok().filter(|draft: &Self| draft.version == VERSION)
    }

    /// As it is kept.
    #[must_use]
    pub fn write(&self) -> String {
        serde_json::to_string(self).expect("a draft holds nothing that JSON lacks")
    }

    /// Whether anything was done that is worth keeping.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        let nothing_said = Answers { as_of: self.answers.as_of, ..Answers::default() };
        self.answers != nothing_said || !self.typed.is_empty() || !self.photos.is_empty()
    }

    /// The names of its photos.
    pub fn photo_names(&self) -> impl Iterator<Item = &str> {
        self.photos.iter().map(|photo| photo.sha256.as_str())
    }

    /// Puts a draft into a form. Photos come after, when their bytes have been found ([`Draft::kept_photo`]).
    pub(super) fn restore(self, form: &mut Form) {
        let as_of = form.answers.as_of;
        form.answers = Rc::new(Answers { as_of, ..self.answers });
        form.step = Step::named(&self.step.0, &self.step.1).unwrap_or(Step::first());
        form.typed =
            self.typed.into_iter().filter_map(|(id, text)| question(&id).map(|asked| (asked.id, text))).collect();
        form.units =
            self.units.into_iter().filter_map(|(id, unit)| question(&id).map(|asked| (asked.id, unit))).collect();
        form.asks_postcode = form.step == Step::Contact && form.answers.home.postcode.known().is_none();
        form.contact = self.contact;
        form.secrets = self.secrets.map(|(client_key, deletion)| Secrets { client_key, deletion });
        form.reached_result = self.reached_result;
        if let Some(reference) = self.reference {
            form.sending = Sending::Done(reference);
            form.step = Step::Sent;
        } else {
            form.restored = true;
            // Only what was sent has a reference to show.
            if form.step == Step::Sent {
                form.step = Step::Contact;
            }
        }
    }

    /// A photo of this draft with the address its bytes are shown under; `None` for a name the draft lacks.
    #[must_use]
    pub fn kept_photo(&self, sha256: &str, shown_at: String) -> Option<KeptPhoto> {
        self.photos.iter().find(|photo| photo.sha256 == sha256).map(|photo| KeptPhoto {
            sha256: photo.sha256.clone(),
            place: photo.place,
            width: photo.width,
            height: photo.height,
            bytes: photo.bytes,
            shown_at,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Given;
    use crate::widget::state::Action;
    use yew::Reducible;

    #[test]
    fn what_was_done_comes_back_as_it_was() {
        let postcode = question("postcode").unwrap();
        let mut form = Rc::new(Form::default());
        for action in [
            Action::Answered(question("hazard").unwrap(), Given::Any(0)),
            Action::WentOn,
            Action::Typed(postcode, "zz1".into()),
            Action::Typed(question("route-length").unwrap(), "about ten".into()),
            Action::SecretsMade(Secrets { client_key: "k".into(), deletion: "d".into() }),
        ] {
            form = form.reduce(action);
        }
        let draft = Draft::read(&Draft::of(&form).write()).unwrap();
        assert!(draft.is_begun());
        let back = Rc::new(Form::default()).reduce(Action::DraftFound(Box::new(draft)));
        assert!(back.restored);
        assert_eq!(Rc::new(Form { restored: false, ..(*back).clone() }), form);
    }

    #[test]
    fn another_version_or_rubbish_is_left_alone() {
        let written = Draft::of(&Form::default()).write();
        assert!(Draft::read(&written).is_some_and(|draft| !draft.is_begun()));
        assert_eq!(Draft::read(&written.replace("\"version\":1", "\"version\":2")), None);
        for rubbish in ["", "{}", "null", &written[..written.len() - 1]] {
            assert_eq!(Draft::read(rubbish), None);
        }
    }

    #[test]
    fn sent_comes_back_as_sent_without_contact() {
        let contact = Contact { name: "Invented Person".into(), ..Contact::default() };
        let form = Rc::new(Form::default())
            .reduce(Action::ContactGiven(contact))
            .reduce(Action::SendingCame(Sending::Done("BCDF-GHJK".into())));
        let kept = Draft::of(&form).write();
        assert!(!kept.contains("Invented Person"));
        let back = Rc::new(Form::default()).reduce(Action::DraftFound(Box::new(Draft::read(&kept).unwrap())));
        assert_eq!(back.sending, Sending::Done("BCDF-GHJK".into()));
        assert_eq!(back.step, Step::Sent);
    }
}
