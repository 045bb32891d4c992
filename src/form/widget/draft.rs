//! The draft: the form's state as text, stored on the device after each change and read again when the page is reloaded.
//!
//! The lines of a draft are declared in [`draft_lines`](record::enquiry::draft_lines); here a form's state is written as such lines and
//! read from them. Touches no storage itself.

use super::navigation::Navigation;
use super::state::{Form, KeptPhoto, Link, Secrets, Sending, note};
use super::step::Step;
use model::answers::{LengthUnit, Word, each_written, take_written};
use model::questions::question;
use record::enquiry::draft_lines::{DraftLine, VERSION};
use record::enquiry::{Contact, PhotoPlace, Reach};
use std::rc::Rc;

/// A draft: named lines in order, the version first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft(Vec<(String, String)>);

impl Draft {
    /// The draft of a form. Its photos are named in it; their bytes are stored apart.
    #[must_use]
    pub fn of(form: &Form) -> Self {
        let mut lines = Vec::new();
        let mut line = |line: DraftLine, of: &str, value: &[&str]| lines.push((line.of(of), value.join(" ")));
        let (kind, id) = form.step.name();
        line(DraftLine::Version, "", &[VERSION]);
        for (path, json) in each_written(&form.answers) {
            line(DraftLine::Answer, &path, &[&json]);
        }
        line(DraftLine::Step, "", &[kind.word(), id]);
        let walked = form.navigation.written();
        if !walked.is_empty() {
            line(DraftLine::Walked, "", &[&walked]);
        }
        for (id, text) in &form.typed {
            line(DraftLine::Typed, id, &[text]);
        }
        for (id, unit) in &form.units {
            line(DraftLine::Unit, id, &[unit.word()]);
        }
        lines.extend(form.photos.iter().map(photo_line));
        let mut line = |line: DraftLine, of: &str, value: &[&str]| lines.push((line.of(of), value.join(" ")));
        let mut contact = form.contact.clone();
        for (name, text) in texts(&mut contact) {
            if !text.is_empty() {
                line(DraftLine::Contact, name, &[text]);
            }
        }
        if let Some(reach) = contact.reach {
            line(DraftLine::Contact, REACH, &[reach.word()]);
        }
        for (name, ticked) in ticks(&mut contact) {
            if *ticked {
                line(DraftLine::Contact, name, &[YES]);
            }
        }
        if let Some(secrets) = &form.secrets {
            line(DraftLine::Secrets, "", &[&secrets.client_key, &secrets.deletion, &secrets.addition]);
        }
        if form.queued {
            line(DraftLine::Queued, "", &[YES]);
        }
        if let Some(reference) = &form.reference {
            line(DraftLine::Reference, "", &[reference]);
        }
        if let Some(link) = &form.link {
            line(DraftLine::Link, "", &[&link.key, &link.secret]);
            line(DraftLine::Settle, "", &link.questions);
        }
        if form.reached_result {
            line(DraftLine::Result, "", &["reached"]);
        }
        Self(lines)
    }

    /// Reads a draft from its text; `None` for one of another version, or anything else.
    #[must_use]
    pub fn read(json: &str) -> Option<Self> {
        let lines: Vec<(String, String)> = serde_json::from_str(json).ok()?;
        let (name, version) = lines.first()?;
        ((name.as_str(), version.as_str()) == (DraftLine::Version.word(), VERSION)).then_some(Self(lines))
    }

    /// The draft as text.
    #[must_use]
    pub fn write(&self) -> String {
        serde_json::to_string(&self.0).expect("texts always fit into JSON")
    }

    /// Whether there is anything in it worth keeping: an answer, a typed text or a photo.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        self.0.iter().any(|(name, _)| DraftLine::read(name).is_some_and(|(line, _)| line.begins()))
    }

    /// The draft with the number of days that it may stay on the device.
    #[must_use]
    pub fn lasting(mut self, days: Option<u16>) -> Self {
        self.0.extend(days.map(|days| (DraftLine::Days.word().to_owned(), days.to_string())));
        self
    }

    fn value(&self, name: &str) -> Option<&str> {
        self.0.iter().find(|(other, _)| other == name).map(|(_, value)| value.as_str())
    }

    /// Whether it has the same lines as another, in any order.
    #[must_use]
    pub fn says_as(&self, other: &Self) -> bool {
        self.0.len() == other.0.len() && self.0.iter().all(|(name, value)| other.value(name) == Some(value))
    }

    /// The lines that other pages changed in this draft since this page last read it as `seen`, where `mine` differs from them. A line that
    /// they removed has an empty value; a line counts as removed only if it was in `seen`. Lines that are each page's own are left out.
    #[must_use]
    pub fn news(&self, seen: Option<&Self>, mine: &Self) -> Vec<(String, String)> {
        let was = |name: &str| seen.and_then(|seen| seen.value(name));
        let put_in = self.0.iter().filter(|(name, value)| was(name) != Some(value)).cloned();
        let gone = seen.iter().flat_map(|seen| &seen.0).filter(|(name, _)| self.value(name).is_none());
        put_in
            .chain(gone.map(|(name, _)| (name.clone(), String::new())))
            .filter(|(name, value)| {
                let is_shared = DraftLine::read(name).is_some_and(|(line, _)| line.is_shared());
                is_shared && mine.value(name).unwrap_or_default() != value
            })
            .collect()
    }

    /// Takes over changed lines ([`Draft::news`]). A line that a form of this version would not write is left out, so that this page never
    /// appears to have removed it.
    pub fn take(&mut self, news: &[(String, String)]) {
        for (name, value) in news {
            self.0.retain(|(other, _)| other != name);
            let mut form = Form::default();
            take_line(&mut form, name, value);
            if Self::of(&form).value(name) == Some(value) {
                self.0.push((name.clone(), value.clone()));
            }
        }
    }

    /// Adds the line of a photo that was read from the device.
    pub fn have_photo(&mut self, photo: &KeptPhoto) {
        let line = photo_line(photo);
        self.0.retain(|(name, _)| *name != line.0);
        self.0.push(line);
    }

    /// The names of its photos: their SHA-256.
    pub fn photo_names(&self) -> impl Iterator<Item = &str> {
        self.0.iter().filter_map(|(name, _)| photo_name(name))
    }

    /// A photo of this draft by its name, with the address at which the page can show its bytes; `None` for a name the draft lacks.
    #[must_use]
    pub fn kept_photo(&self, sha256: &str, shown_at: String) -> Option<KeptPhoto> {
        let (_, line) = self.0.iter().find(|(name, _)| photo_name(name) == Some(sha256))?;
        let mut parts = line.split(' ');
        let place = PhotoPlace::named(parts.next()?)?;
        let mut number = || parts.next().and_then(|part| part.parse::<u32>().ok());
        let (width, height, bytes) = (number()?, number()?, number()?);
        Some(KeptPhoto { sha256: sha256.to_owned(), place, width, height, bytes: u64::from(bytes), shown_at })
    }

    /// The text of the lines that may be carried to another device: answers and the step, but no contact, secrets or photos.
    #[must_use]
    pub fn moving(&self) -> String {
        let goes =
            |name: &str| DraftLine::read(name).is_some_and(|(line, _)| line == DraftLine::Version || line.moves());
        let lines: Vec<_> = self.0.iter().filter(|(name, _)| goes(name)).collect();
        serde_json::to_string(&lines).expect("texts always fit into JSON")
    }

    /// Restores a form's state from the draft. Photos are added later, when their bytes have been read ([`Draft::kept_photo`]).
    pub(super) fn restore(self, form: &mut Form) {
        let has_photos = self.photo_names().next().is_some();
        for (name, value) in &self.0 {
            if name == DraftLine::Step.word() {
                let (kind, id) = value.split_once(' ').unwrap_or((value, ""));
                form.step = Step::named(kind, id).unwrap_or(Step::first());
            } else {
                take_line(form, name, value);
            }
        }
        if form.reference.is_some() || form.link.is_some() {
            let adds = form.reference.is_none() || form.queued || (form.step == Step::Link && has_photos);
            form.step = if adds { Step::Link } else { Step::Sent };
            return;
        }
        // A form that was not sent has no reference to show and nothing to add to.
        if form.step == Step::Sent || form.step == Step::Link {
            form.step = Step::Contact;
        }
        form.asks_postcode = form.step == Step::Contact && form.answers.home.postcode.known().is_none();
    }
}

impl FromIterator<(String, String)> for Draft {
    fn from_iter<T: IntoIterator<Item = (String, String)>>(lines: T) -> Self {
        Self(lines.into_iter().collect())
    }
}

fn photo_line(photo: &KeptPhoto) -> (String, String) {
    let [width, height] = [photo.width, photo.height].map(|side| side.to_string());
    let value = [photo.place.word(), &width, &height, &photo.bytes.to_string()].join(" ");
    (DraftLine::Photo.of(&photo.sha256), value)
}

/// The name of the photo that a line with this name describes.
fn photo_name(name: &str) -> Option<&str> {
    DraftLine::read(name).filter(|(line, _)| *line == DraftLine::Photo).map(|(_, of)| of)
}

/// The value of a line that only says yes.
const YES: &str = "yes";

/// The name of the contact's line that says how the homeowner is best reached.
const REACH: &str = "reach";

/// The text fields of a contact with the names of their lines.
fn texts(contact: &mut Contact) -> [(&'static str, &mut String); 7] {
    [
        ("name", &mut contact.name),
        ("telephone", &mut contact.telephone),
        ("email", &mut contact.email),
        ("when", &mut contact.when),
        ("note", &mut contact.note),
        ("address", &mut contact.address),
        ("supply-number", &mut contact.supply_number),
    ]
}

/// The tick boxes of a contact with the names of their lines. Only earlier forms asked for consent; it is kept as it was ticked.
fn ticks(contact: &mut Contact) -> [(&'static str, &mut bool); 3] {
    [("consent", &mut contact.consent), ("offers", &mut contact.offers), ("copy", &mut contact.copy)]
}

/// Applies one line to a form; an empty value undoes the line. The step is not applied here, nor is a photo added: its bytes have to be
/// read first.
pub(super) fn take_line(form: &mut Form, name: &str, value: &str) {
    let Some((line, of)) = DraftLine::read(name) else { return };
    let said = (!value.is_empty()).then(|| value.to_owned());
    match (line, question(of)) {
        (DraftLine::Answer, _) => {
            // An answer that is not allowed (any more) is ignored.
            take_written(Rc::make_mut(&mut form.answers), of, value);
        }
        (DraftLine::Typed, Some(question)) => note(&mut form.typed, question, said),
        (DraftLine::Unit, Some(question)) => note(&mut form.units, question, LengthUnit::named(value)),
        // The question no longer exists.
        (DraftLine::Typed | DraftLine::Unit, None) => {}
        (DraftLine::Photo, _) => {
            if said.is_none() {
                form.photos.retain(|photo| photo.sha256 != of);
            }
        }
        (DraftLine::Contact, _) => take_contact(&mut form.contact, of, value),
        (DraftLine::Secrets, _) => {
            let mut parts = value.split(' ').map(str::to_owned);
            let (key, deletion) = (parts.next(), parts.next());
            form.secrets = key.zip(deletion).map(|(client_key, deletion)| Secrets {
                client_key,
                deletion,
                // Drafts from before photos could be added later have no such secret.
                addition: parts.next().unwrap_or_default(),
            });
        }
        (DraftLine::Queued, _) => {
            form.queued = said.is_some();
            form.sending = if form.queued { Sending::UnderWay(0, 0) } else { Sending::Not };
        }
        (DraftLine::Reference, _) => form.reference = said,
        (DraftLine::Link, _) => {
            let link = value.split_once(' ');
            form.link = link.map(|(key, secret)| Link {
                key: key.to_owned(),
                secret: secret.to_owned(),
                questions: Vec::new(),
            });
        }
        (DraftLine::Look, _) => form.told_to_look = said.is_some(),
        (DraftLine::Settle, _) => {
            if let Some(link) = &mut form.link {
                link.questions = value.split(' ').filter_map(question).map(|question| question.id).collect();
            }
        }
        (DraftLine::Walked, _) => form.navigation = Navigation::read(value),
        (DraftLine::Result, _) => form.reached_result = said.is_some(),
        // The step is restored with the whole draft; the other lines are the store's.
        (DraftLine::Version | DraftLine::Step | DraftLine::Days | DraftLine::Kept | DraftLine::Late, _) => {}
    }
}

fn take_contact(contact: &mut Contact, of: &str, value: &str) {
    if of == REACH {
        contact.reach = Reach::named(value);
    }
    for (name, text) in texts(contact) {
        if name == of {
            value.clone_into(text);
        }
    }
    for (name, ticked) in ticks(contact) {
        if name == of {
            *ticked = !value.is_empty();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::widget::state::Action;
    use model::answers::RawAnswer;
    use std::rc::Rc;
    use yew::Reducible;

    #[test]
    fn what_was_done_comes_back_as_it_was() {
        let contact = Contact {
            name: "Invented  Person ".into(),
            telephone: "01632 960 111".into(),
            reach: Some(Reach::Message),
            note: "two\nlines".into(),
            address: "1 Invented Street\nZZ1 1AA".into(),
            supply_number: "10 1234 5678 903".into(),
            consent: true,
            offers: true,
            copy: true,
            ..Contact::default()
        };
        let mut form = Rc::new(Form::default());
        for action in [
            Action::Answered(question("hazard").unwrap(), RawAnswer::Any(0)),
            Action::WentOn(String::new()),
            Action::Typed(question("postcode").unwrap(), "zz1".into()),
            Action::Typed(question("route-length").unwrap(), "about ten".into()),
            Action::MeasuredIn(question("route-length").unwrap(), LengthUnit::Bricks),
            Action::SecretsMade(Secrets { client_key: "k".into(), deletion: "d".into(), addition: "a".into() }),
            Action::ContactGiven(contact),
        ] {
            form = form.reduce(action);
        }
        let draft = Draft::read(&Draft::of(&form).write()).unwrap();
        assert!(draft.is_begun());
        let back = Form::begun(Some(&draft.write()), false);
        assert_eq!(back.answers.as_ref(), form.answers.as_ref());
        let answers = form.answers.clone();
        assert_eq!(Rc::new(Form { answers, ..back }), form);
    }

    fn written(lines: &[(&str, &str)]) -> Draft {
        lines.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect()
    }

    #[test]
    fn news_is_what_others_changed_and_nothing_else() {
        let mine =
            written(&[("answer home.kind", "\"semi\""), ("step", "screen age"), ("answer home.age", "\"not-sure\"")]);
        let now = written(&[
            ("kept", "1"),
            ("answer home.kind", "\"detached\""),
            ("step", "screen hazard"),
            ("contact name", "Invented Person"),
        ]);
        let pairs = |lines: &[(&str, &str)]| written(lines).0;
        // Read for the first time: no missing line counts as removed.
        let fresh = [("answer home.kind", "\"detached\""), ("contact name", "Invented Person")];
        assert_eq!(now.news(None, &mine), pairs(&fresh));
        let seen = written(&[("answer home.kind", "\"detached\""), ("answer home.age", "\"not-sure\"")]);
        // The kind is as it was seen last: it was this page that changed it since.
        let since = [("contact name", "Invented Person"), ("answer home.age", "")];
        assert_eq!(now.news(Some(&seen), &mine), pairs(&since));
        let mut taken = mine.clone();
        taken.take(&now.news(Some(&seen), &mine));
        assert!(now.news(Some(&seen), &taken).is_empty());
        // Lines that this program would not write are not taken over, so that it never appears to have removed them.
        taken.take(&pairs(&[("answer home.colour", "1"), ("answer home.age", "\"old\"")]));
        assert_eq!(taken.value("answer home.colour").or(taken.value("answer home.age")), None);
    }

    #[test]
    fn what_another_page_changed_is_taken_over_where_one_is() {
        let mut form = Rc::new(Form::default());
        form = form
            .reduce(Action::Answered(question("hazard").unwrap(), RawAnswer::Any(0)))
            .reduce(Action::WentOn(String::new()));
        form = form.reduce(Action::Answered(question("tenure").unwrap(), RawAnswer::One(0)));
        let step = form.step;
        form = form.reduce(Action::ToldElsewhere(vec![
            ("answer home.postcode".into(), "\"ZZ1 1AA\"".into()),
            ("answer home.tenure".into(), String::new()),
            ("contact name".into(), "Invented Person".into()),
        ]));
        assert_eq!(form.step, step);
        assert_eq!(form.answers.home.postcode.known().map(|known| known.as_str()), Some("ZZ1 1AA"));
        assert!(form.answers.home.tenure.is_not_asked());
        assert_eq!(form.contact.name, "Invented Person");
        // When another page has sent the enquiry, this one shows it as sent.
        form = form.reduce(Action::ToldElsewhere(vec![("reference".into(), "BCDF-GHJK".into())]));
        assert_eq!((form.step, &form.sending), (Step::Sent, &Sending::Done("BCDF-GHJK".into())));
        assert_eq!(form.contact, Contact::default());
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
        assert_eq!(Draft::read(&written.replace("[\"version\",\"3\"]", "[\"version\",\"4\"]")), None);
        for rubbish in ["", "{}", "[]", "null", &written[..written.len() - 1]] {
            assert_eq!(Draft::read(rubbish), None);
        }
    }

    #[test]
    fn what_goes_to_another_device_says_neither_who_nor_what_opens() {
        let contact = Contact {
            name: "Invented Person".into(),
            address: "1 Invented Street".into(),
            supply_number: "1012345678903".into(),
            consent: true,
            ..Contact::default()
        };
        let secrets = Secrets { client_key: "key".into(), deletion: "deletion".into(), addition: "addition".into() };
        let mut form = Rc::new(Form { secrets: Some(secrets), contact, queued: true, ..Form::default() });
        for action in [
            Action::Answered(question("hazard").unwrap(), RawAnswer::Any(0)),
            Action::Typed(question("planned").unwrap(), "a hot tub".into()),
        ] {
            form = form.reduce(action);
        }
        let lines = Draft::of(&form).moving();
        let draft = Draft::read(&lines).unwrap();
        assert!(draft.is_begun() && lines.contains("a hot tub"), "{lines}");
        for word in ["Invented", "1012345678903", "key", "deletion", "addition", "consent", "queued"] {
            assert!(!lines.contains(word), "{word} in {lines}");
        }
    }

    #[test]
    fn a_link_comes_back_and_is_asked_until_it_is_answered() {
        let lines =
            r#"[["version","V"],["link","k s"],["settle","fuse-carriers nonsense tenure"],["step","screen meter"]]"#;
        let mut form = Form::default();
        Draft::read(&lines.replace('V', VERSION)).unwrap().restore(&mut form);
        assert_eq!(form.step, Step::Link);
        let link = form.adds_to().unwrap();
        assert_eq!(
            (link.key.as_str(), link.secret.as_str(), link.questions),
            ("k", "s", vec!["fuse-carriers", "tenure"])
        );
        let form = Rc::new(form).reduce(Action::SendingCame(Sending::Done("BCDF-GHJK".into())));
        let mut back = Form::default();
        Draft::read(&Draft::of(&form).write()).unwrap().restore(&mut back);
        assert_eq!((back.step, back.link), (Step::Sent, form.link.clone()));
    }

    #[test]
    fn sent_comes_back_as_sent_without_contact() {
        let contact = Contact { name: "Invented Person".into(), ..Contact::default() };
        let form = Rc::new(Form::default())
            .reduce(Action::ContactGiven(contact))
            .reduce(Action::SendingCame(Sending::Done("BCDF-GHJK".into())));
        let kept = Draft::of(&form).write();
        assert!(!kept.contains("Invented Person"));
        let back = Form::begun(Some(&kept), false);
        assert_eq!(back.reference.as_deref(), Some("BCDF-GHJK"));
        assert_eq!(back.step, Step::Sent);
    }

    /// Each draft opens at the step where it was left, and is written again line for line. Lines that the store writes, or that hold for
    /// one visit only, are not the form's to write; a photo's line is written once its bytes have been read.
    #[test]
    fn what_version_0_3_0_kept_on_a_device_is_read_and_written_as_it_was() {
        for (kept, step) in [
            (include_str!("../../../tests/earlier/0.3.0/drafts/first-screen.json"), "screen hazard"),
            (include_str!("../../../tests/earlier/0.3.0/drafts/danger.json"), "screen hazard"),
            (include_str!("../../../tests/earlier/0.3.0/drafts/postcode-half-typed.json"), "screen start"),
            (include_str!("../../../tests/earlier/0.3.0/drafts/half-way.json"), "screen carriers"),
            (include_str!("../../../tests/earlier/0.3.0/drafts/at-the-result.json"), "result "),
            (include_str!("../../../tests/earlier/0.3.0/drafts/contact.json"), "contact "),
            (include_str!("../../../tests/earlier/0.3.0/drafts/waiting-to-be-sent.json"), "contact "),
            (include_str!("../../../tests/earlier/0.3.0/drafts/sent.json"), "sent "),
            (include_str!("../../../tests/earlier/0.3.0/drafts/link.json"), "link "),
            (include_str!("../../../tests/earlier/0.3.0/drafts/plain-form.json"), "screen hazard"),
        ] {
            let form = Form::begun(Some(kept), false);
            assert_eq!(format!("{:?}", form.step), step);
            let (then, now) = (Draft::read(kept).unwrap(), Draft::of(&form));
            for (name, value) in &then.0 {
                match DraftLine::read(name).unwrap().0 {
                    DraftLine::Kept | DraftLine::Days | DraftLine::Look | DraftLine::Photo => {}
                    // The plain form draws two secrets of three.
                    DraftLine::Secrets => {
                        assert_eq!(now.value(name).map(str::trim_end), Some(value.as_str()), "{step}")
                    }
                    _ => assert_eq!(now.value(name), Some(value.as_str()), "{step}: {name}"),
                }
            }
        }
    }

    #[test]
    fn what_version_0_1_0_kept_on_a_device_opens_where_it_was() {
        for (kept, step, kind, postcode) in [
            (include_str!("../../../tests/earlier/0.1.0/drafts/first-screen.json"), "screen hazard", "", ""),
            (
                include_str!("../../../tests/earlier/0.1.0/drafts/postcode-half-typed.json"),
                "screen start",
                "",
                "ZZ1 1A",
            ),
            (include_str!("../../../tests/earlier/0.1.0/drafts/half-way.json"), "screen spot", "terrace", "ZZ4 2BB"),
            (include_str!("../../../tests/earlier/0.1.0/drafts/at-the-result.json"), "result ", "terrace", "ZZ4 2BB"),
            (include_str!("../../../tests/earlier/0.1.0/drafts/contact.json"), "contact ", "terrace", "ZZ4 2BB"),
            (include_str!("../../../tests/earlier/0.1.0/drafts/sent.json"), "sent ", "terrace", "ZZ4 2BB"),
        ] {
            let form = Form::begun(Some(kept), false);
            assert_eq!(format!("{:?}", form.step), step);
            assert_eq!(form.text_of(question("postcode").unwrap()), postcode, "{step}");
            assert_eq!(form.answers.home.kind.known().map_or("", |kind| kind.word()), kind, "{step}");
            assert!(form.may_look(), "{step}: no sign was noticed");
            // Nothing that was answered is left out when it is kept again.
            let (then, now) = (Draft::read(kept).unwrap(), Draft::of(&form));
            for (name, value) in then.0.iter().filter(|(name, _)| name.starts_with("answer ")) {
                assert_eq!(now.value(name), Some(value.as_str()), "{step}");
            }
        }
        let danger = Form::begun(Some(include_str!("../../../tests/earlier/0.1.0/drafts/danger.json")), false);
        assert!(danger.answers.hazard.is_noticed() && !danger.may_look() && danger.step == Step::first());
    }
}
