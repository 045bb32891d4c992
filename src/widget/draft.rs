//! What is kept on the device while the form is filled in: written after each change, taken up again on a reload.
//!
//! A list of named lines, so that little program reads it. Reads no storage itself. A draft of another version is left
//! alone: it is not guessed at.

use super::state::{Form, KeptPhoto, Said, Secrets, Sending};
use super::step::Step;
use crate::answers::{Answers, LengthUnit, Word};
use crate::enquiry::{Contact, PhotoPlace, Reach};
use crate::questions::question;

/// The first line: the version written today.
const VERSION: (&str, &str) = ("version", "2");

/// A draft: named lines in order.
#[derive(Debug, PartialEq)]
pub struct Draft(Vec<(String, String)>);

impl Draft {
    /// What of a form is kept.
    #[must_use]
    pub fn of(form: &Form) -> Self {
        let mut lines = Vec::new();
        let mut line = |name: &[&str], value: &[&str]| lines.push((name.concat(), value.join(" ")));
        let (kind, id) = form.step.name();
        line(&[VERSION.0], &[VERSION.1]);
        line(
            &["answers"],
            &[&serde_json::to_string(form.answers.as_ref()).expect("answers hold nothing that JSON lacks")],
        );
        line(&["step"], &[kind, id]);
        for (id, text) in &form.typed {
            line(&["typed ", id], &[text]);
        }
        for (id, unit) in &form.units {
            line(&["unit ", id], &[unit.word()]);
        }
        for photo in &form.photos {
            let [width, height] = [photo.width, photo.height].map(|side| side.to_string());
            line(&["photo ", &photo.sha256], &[photo.place.word(), &width, &height, &photo.bytes.to_string()]);
        }
        let contact = &form.contact;
        for (name, value) in [
            ("name", &contact.name),
            ("telephone", &contact.telephone),
            ("email", &contact.email),
            ("when", &contact.when),
            ("note", &contact.note),
        ] {
            if !value.is_empty() {
                line(&["contact ", name], &[value]);
            }
        }
        if let Some(reach) = contact.reach {
            line(&["contact reach"], &[reach.word()]);
        }
        if contact.consent {
            line(&["contact consent"], &["yes"]);
        }
        if let Some(secrets) = &form.secrets {
            line(&["secrets"], &[&secrets.client_key, &secrets.deletion]);
        }
        if let Sending::Done(reference) = &form.sending {
            line(&["reference"], &[reference]);
        }
        if form.reached_result {
            line(&["result"], &["reached"]);
        }
        Self(lines)
    }

    /// Reads one back; `None` for another version or anything else.
    #[must_use]
    pub fn read(json: &str) -> Option<Self> {
        let lines: Vec<(String, String)> = serde_json::from_str(json).ok()?;
        let (name, version) = lines.first()?;
        ((name.as_str(), version.as_str()) == VERSION).then_some(Self(lines))
    }

    /// As it is kept.
    #[must_use]
    pub fn write(&self) -> String {
        serde_json::to_string(&self.0).expect("lines hold nothing that JSON lacks")
    }

    /// Whether anything was done that is worth keeping.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        // Answers of which none was given hold the day, and no topic.
        self.0.iter().any(|(name, value)| match name.as_str() {
            "answers" => value.bytes().filter(|byte| *byte == b'{').count() > 1,
            name => name.starts_with("typed ") || name.starts_with("photo "),
        })
    }

    fn answers(&self) -> Option<Answers> {
        self.0.iter().find(|(name, _)| name == "answers").and_then(|(_, json)| serde_json::from_str(json).ok())
    }

    /// The names of its photos.
    pub fn photo_names(&self) -> impl Iterator<Item = &str> {
        self.0.iter().filter_map(|(name, _)| name.strip_prefix("photo "))
    }

    /// A photo of this draft with the address its bytes are shown under; `None` for a name the draft lacks.
    #[must_use]
    pub fn kept_photo(&self, sha256: &str, shown_at: String) -> Option<KeptPhoto> {
        let (_, line) = self.0.iter().find(|(name, _)| name.strip_prefix("photo ") == Some(sha256))?;
        let mut parts = line.split(' ');
        let place = word::<PhotoPlace>(parts.next()?)?;
        let mut number = || parts.next().and_then(|part| part.parse::<u32>().ok());
        let (width, height, bytes) = (number()?, number()?, number()?);
        Some(KeptPhoto { sha256: sha256.to_owned(), place, width, height, bytes: u64::from(bytes), shown_at })
    }

    /// Puts a draft into a form. Photos come after, when their bytes have been found ([`Draft::kept_photo`]).
    pub(super) fn restore(self, form: &mut Form) {
        if let Some(answers) = self.answers() {
            form.answers = Said::of(Answers { as_of: form.answers.as_of, ..answers });
        }
        for (name, value) in self.0 {
            let (name, of) = name.split_once(' ').unwrap_or((&name, ""));
            let (first, second) = value.split_once(' ').unwrap_or((&value, ""));
            match (name, question(of)) {
                ("step", _) => form.step = Step::named(first, second).unwrap_or(Step::first()),
                ("typed", Some(question)) => form.typed.push((question.id, value)),
                ("unit", Some(question)) => {
                    form.units.extend(word::<LengthUnit>(&value).map(|unit| (question.id, unit)))
                }
                ("contact", _) => contact(&mut form.contact, of, value),
                ("secrets", _) => {
                    form.secrets = Some(Secrets { client_key: first.to_owned(), deletion: second.to_owned() });
                }
                ("reference", _) => form.sending = Sending::Done(value),
                ("result", _) => form.reached_result = true,
                _ => {}
            }
        }
        if let Sending::Done(_) = form.sending {
            form.step = Step::Sent;
            return;
        }
        form.restored = true;
        // Only what was sent has a reference to show.
        if form.step == Step::Sent {
            form.step = Step::Contact;
        }
        form.asks_postcode = form.step == Step::Contact && form.answers.home.postcode.known().is_none();
    }
}

fn contact(contact: &mut Contact, of: &str, value: String) {
    match of {
        "name" => contact.name = value,
        "telephone" => contact.telephone = value,
        "email" => contact.email = value,
        "when" => contact.when = value,
        "note" => contact.note = value,
        "reach" => contact.reach = word::<Reach>(&value),
        "consent" => contact.consent = true,
        _ => {}
    }
}

/// The member of a closed list that is written so.
fn word<T: Word>(text: &str) -> Option<T> {
    T::WORDS.iter().position(|word| *word == text).map(|at| T::ALL[at])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Given;
    use crate::widget::state::Action;
    use std::rc::Rc;
    use yew::Reducible;

    #[test]
    fn what_was_done_comes_back_as_it_was() {
        let contact = Contact {
            name: "Invented  Person ".into(),
            telephone: "01632 960 111".into(),
            reach: Some(Reach::Message),
            note: "two\nlines".into(),
            consent: true,
            ..Contact::default()
        };
        let mut form = Rc::new(Form::default());
        for action in [
            Action::Answered(question("hazard").unwrap(), Given::Any(0)),
            Action::WentOn,
            Action::Typed(question("postcode").unwrap(), "zz1".into()),
            Action::Typed(question("route-length").unwrap(), "about ten".into()),
            Action::MeasuredIn(question("route-length").unwrap(), LengthUnit::Bricks),
            Action::SecretsMade(Secrets { client_key: "k".into(), deletion: "d".into() }),
            Action::ContactGiven(contact),
        ] {
            form = form.reduce(action);
        }
        let draft = Draft::read(&Draft::of(&form).write()).unwrap();
        assert!(draft.is_begun());
        let back = Rc::new(Form::default()).reduce(Action::DraftFound(Box::new(draft)));
        assert!(back.restored);
        assert_eq!(back.answers.as_ref(), form.answers.as_ref());
        let answers = form.answers.clone();
        assert_eq!(Rc::new(Form { restored: false, answers, ..(*back).clone() }), form);
    }

    #[test]
    fn a_photo_comes_back_with_its_size() {
        let photo = KeptPhoto {
            sha256: "ab".into(),
            place: PhotoPlace::Board,
            width: 1600,
            height: 1200,
            bytes: 70_000,
            shown_at: "blob:then".into(),
        };
        let form = Form { photos: vec![photo.clone()], ..Form::default() };
        let draft = Draft::read(&Draft::of(&form).write()).unwrap();
        assert_eq!(draft.photo_names().collect::<Vec<_>>(), ["ab"]);
        assert_eq!(draft.kept_photo("ab", "blob:now".into()), Some(KeptPhoto { shown_at: "blob:now".into(), ..photo }));
        assert_eq!(draft.kept_photo("cd", String::new()), None);
    }

    #[test]
    fn another_version_or_rubbish_is_left_alone() {
        let written = Draft::of(&Form::default()).write();
        assert!(Draft::read(&written).is_some_and(|draft| !draft.is_begun()));
        assert_eq!(Draft::read(&written.replace("[\"version\",\"2\"]", "[\"version\",\"3\"]")), None);
        for rubbish in ["", "{}", "[]", "null", &written[..written.len() - 1]] {
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
