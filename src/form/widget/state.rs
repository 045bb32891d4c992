//! All that the form knows, and how each thing the homeowner does changes it.
//!
//! Pure and cheap: no storage, clock, chance, network or engine. Who watches this state does the rest.

use super::draft::{Draft, take_line};
use super::navigation::Navigation;
use super::step::Step;
use super::typed;
use jiff::civil::Date;
use model::answers::{
    Answer, Answers, FoundAt, Hazard, HazardPlace, HazardSign, HazardWhen, LengthUnit, RawAnswer, Set,
};
use model::questions::{Place, Question, may_look, question};
use record::enquiry::events::Failure;
use record::enquiry::{Contact, PhotoPlace};
use std::rc::Rc;
use yew::Reducible;

/// How long a screen of the core takes, in seconds: reading it at 200 words a minute and four seconds an answer, which a test
/// measures, and the walk to the next place.
const SCREEN_TAKES: usize = 30;

/// A photo kept on the device: re-encoded, so without what a camera writes into it.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptPhoto {
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
    /// What it shows.
    pub place: PhotoPlace,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Its bytes' number.
    pub bytes: u64,
    /// An address under which this page can show it.
    pub shown_at: String,
}

/// Why a photo was not taken up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhotoTrouble {
    /// It could not be read as a picture.
    NotAPicture,
    /// The page was not served over a secure connection.
    NotSecure,
    /// The browser could not make a smaller copy.
    NoCopy,
    /// There are as many as an enquiry may hold.
    TooMany,
}

/// What makes one enquiry one, and lets its sender delete it; made once.
#[derive(Clone, Debug, PartialEq)]
pub struct Secrets {
    /// The enquiry's key, 32 hexadecimal digits.
    pub client_key: String,
    /// The secret with which it may be deleted, 32 hexadecimal digits.
    pub deletion: String,
    /// The secret with which photos may be added to it, likewise; it opens nothing else.
    pub addition: String,
}

/// Why the device does not keep everything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeepTrouble {
    /// The browser keeps nothing.
    Refused,
    /// There is no room left, for nothing.
    Full,
    /// The browser keeps no photos.
    PhotosRefused,
    /// There is no room left for the photos.
    PhotosFull,
}

impl KeepTrouble {
    /// Whether the photos alone are not kept.
    #[must_use]
    pub const fn is_of_photos(self) -> bool {
        matches!(self, Self::PhotosRefused | Self::PhotosFull)
    }
}

/// What opens an enquiry that is in, for adding to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// The enquiry's key.
    pub key: String,
    /// The secret.
    pub secret: String,
    /// The names of the questions it asks; photos may be added in any case.
    pub questions: Vec<&'static str>,
}

/// Where a danger was found on looking, for the record.
const fn found_at(place: Place) -> Option<FoundAt> {
    match place {
        Place::Meter => Some(FoundAt::Meter),
        Place::Board => Some(FoundAt::Board),
        Place::Pipes => Some(FoundAt::Pipes),
        Place::First | Place::Indoors | Place::Drive | Place::Desk => None,
    }
}

/// Why an enquiry did not get through and is not tried again by itself.
#[derive(Clone, Debug, PartialEq)]
pub enum SendTrouble {
    /// There is nothing that takes it.
    Nowhere,
    /// The page was not served over a secure connection.
    NotSecure,
    /// It was refused, in the service's words.
    Refused(String),
    /// The enquiry is in, but not all photos.
    PhotosLeft(String),
}

impl SendTrouble {
    /// What the page around the form hears of it.
    #[must_use]
    pub const fn failure(&self) -> Failure {
        match self {
            Self::Nowhere => Failure::Nowhere,
            Self::NotSecure => Failure::NotSecure,
            Self::Refused(_) => Failure::Refused,
            Self::PhotosLeft(_) => Failure::Photos,
        }
    }
}

/// How far sending is.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Sending {
    /// Not begun.
    #[default]
    Not,
    /// The enquiry itself is under way, or that many photos of so many are.
    UnderWay(usize, usize),
    /// Nobody answers; it is tried again until somebody does.
    Waiting,
    /// It did not get through; everything is kept.
    Failed(SendTrouble),
    /// It is in, under this reference.
    Done(String),
}

/// What was said. The same while its address is: answers are never set to what they are already.
#[derive(Clone, Debug, Default)]
pub struct Said(Rc<Answers>);

impl Said {
    /// These answers.
    #[must_use]
    pub fn of(answers: Answers) -> Self {
        Self(Rc::new(answers))
    }
}

impl PartialEq for Said {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl core::ops::Deref for Said {
    type Target = Rc<Answers>;
    fn deref(&self) -> &Rc<Answers> {
        &self.0
    }
}

impl core::ops::DerefMut for Said {
    fn deref_mut(&mut self) -> &mut Rc<Answers> {
        &mut self.0
    }
}

/// Something noted for a few questions, by their names: a list, for a map is more program than it is worth here.
pub type Noted<T> = Vec<(&'static str, T)>;

fn noted<'a, T>(notes: &'a Noted<T>, question: &Question) -> Option<&'a T> {
    notes.iter().find(|(id, _)| *id == question.id).map(|(_, note)| note)
}

pub(super) fn note<T>(notes: &mut Noted<T>, question: &Question, what: Option<T>) {
    notes.retain(|(id, _)| *id != question.id);
    notes.extend(what.map(|what| (question.id, what)));
}

/// All that the form knows.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// What was said.
    pub answers: Said,
    /// Where the homeowner is.
    pub step: Step,
    /// How they came there.
    pub navigation: Navigation,
    /// What was typed into a field, by question, as typed.
    pub typed: Noted<String>,
    /// Units chosen before or while a distance is typed.
    pub units: Noted<LengthUnit>,
    /// How often the main action was pressed here while something was still open or unreadable.
    pub complaints: u32,
    /// The postcode is asked once more beside the contact: it was not known when that page was come to.
    pub asks_postcode: bool,
    /// Photos.
    pub photos: Vec<KeptPhoto>,
    /// What went wrong with the last photo of a place.
    pub photo_trouble: Option<(PhotoPlace, PhotoTrouble)>,
    /// Photos being made smaller.
    pub photos_under_way: usize,
    /// Who asks.
    pub contact: Contact,
    /// What makes the enquiry one.
    pub secrets: Option<Secrets>,
    /// How far sending is.
    pub sending: Sending,
    /// Send was pressed and has not come through yet: it goes as soon as it can.
    pub queued: bool,
    /// The enquiry is in, under this reference; empty where whoever took it gave none.
    pub reference: Option<String>,
    /// A link was opened that adds to an enquiry.
    pub link: Option<Link>,
    /// The service has said that looking at meter and board is allowed, for a page on which something is added. Without its word it
    /// is not: such a page holds no answers, and what became known meanwhile is the service's to know.
    pub told_to_look: bool,
    /// The list of signs is shown beside the advice: something else was noticed.
    pub lists_signs: bool,
    /// The link to another device is shown.
    pub moves: bool,
    /// The result has been reached once: from then on Send is possible from anywhere.
    pub reached_result: bool,
    /// What the device does not keep, and why.
    pub keep_trouble: Option<KeepTrouble>,
}

impl Default for Form {
    fn default() -> Self {
        Self {
            answers: Said::default(),
            step: Step::first(),
            navigation: Navigation::default(),
            typed: Vec::new(),
            units: Vec::new(),
            complaints: 0,
            asks_postcode: false,
            photos: Vec::new(),
            photo_trouble: None,
            photos_under_way: 0,
            contact: Contact::default(),
            secrets: None,
            sending: Sending::Not,
            queued: false,
            reference: None,
            link: None,
            told_to_look: false,
            lists_signs: false,
            moves: false,
            reached_result: false,
            keep_trouble: None,
        }
    }
}

/// What was done: by the homeowner, or by what watches the state.
pub enum Action {
    /// Chose an answer.
    Answered(&'static Question, RawAnswer),
    /// Typed into a field.
    Typed(&'static Question, String),
    /// Chose what to measure in.
    MeasuredIn(&'static Question, LengthUnit),
    /// Pressed the main action of a screen, with the open questions by name, a space between two, the one that tells most first.
    WentOn(String),
    /// Pressed Send while something was missing.
    SentTooSoon,
    /// Pressed Send.
    SendAsked,
    /// Called sending off.
    SendingStopped,
    /// Asked for the link to another device, or had enough of it.
    MoveAsked,
    /// Noticed something else, beside a danger that is told already.
    SignsListed,
    /// The service has said whether looking is allowed, for a page on which something is added.
    ToldToLook(bool),
    /// Pressed "back".
    WentBack,
    /// Went straight to somewhere.
    WentTo(Step),
    /// Took or chose a photo that is now being made smaller.
    PhotoTaken,
    /// A photo is ready and kept.
    PhotoKept(KeptPhoto),
    /// A photo could not be taken up.
    PhotoRefused(PhotoPlace, PhotoTrouble),
    /// Removed a photo.
    PhotoRemoved(String),
    /// Filled in how to be reached.
    ContactGiven(Contact),
    /// The enquiry's secrets were made.
    SecretsMade(Secrets),
    /// Sending came this far.
    SendingCame(Sending),
    /// The device was given something to keep, and this came of it.
    KeepingCame(Option<KeepTrouble>),
    /// Another page with the same draft changed these lines of it.
    ToldElsewhere(Vec<(String, String)>),
    /// Threw everything away to begin again.
    StartedAgain,
    /// Today's date became known.
    TodayIs(Date),
}

impl Form {
    /// The form as it begins: from the lines of a draft, and at the step after its own where that was left already.
    #[must_use]
    pub fn begun(lines: Option<&str>, leaves: bool) -> Self {
        let mut form = Self::default();
        if let Some(draft) = lines.and_then(Draft::read) {
            draft.restore(&mut form);
        }
        if leaves {
            form.go_to(form.step.on(&form.answers, &form.navigation, ""));
        }
        form.step_back();
        form
    }

    /// What to show in a question's text field.
    #[must_use]
    pub fn text_of(&self, question: &Question) -> String {
        match noted(&self.typed, question) {
            Some(text) => text.clone(),
            None => typed::shown(&(question.get)(&self.answers)),
        }
    }

    /// What a distance is measured in.
    #[must_use]
    pub fn unit_of(&self, question: &Question) -> LengthUnit {
        match (question.get)(&self.answers) {
            RawAnswer::Distance(length) => length.unit,
            _ => noted(&self.units, question).copied().unwrap_or(LengthUnit::Metres),
        }
    }

    /// Whether something was typed that can't be read as an answer.
    #[must_use]
    pub fn unreadable(&self, question: &Question) -> bool {
        noted(&self.typed, question).is_some_and(|text| typed::read(question.kind, text, LengthUnit::Metres).is_none())
    }

    /// Whether a question still stands in the way of going on: unreadable anywhere, unanswered in the core.
    #[must_use]
    pub fn stands_open(&self, question: &Question) -> bool {
        // Beside a danger nothing has to be filled in.
        let needed = (question.core)(&self.answers) && !self.answers.hazard.is_noticed();
        self.unreadable(question) || (needed && (question.get)(&self.answers) == RawAnswer::Nothing)
    }

    /// Whether Send may be offered on a screen of questions.
    #[must_use]
    pub fn may_send(&self) -> bool {
        self.reached_result || self.answers.hazard.is_noticed()
    }

    /// Whether anybody may be sent to look at meter, board or pipes: a danger is ruled out, and where something is added later the
    /// service has said so as well.
    #[must_use]
    pub fn may_look(&self) -> bool {
        if self.link.is_some() {
            // What was answered before is not here.
            self.told_to_look && !self.answers.hazard.is_feared()
        } else {
            may_look(&self.answers) && (self.step != Step::Link || self.told_to_look)
        }
    }

    /// Which of the core's screens this is, how many there are, and the minutes left with this one; `None` away from the core.
    #[must_use]
    pub fn progress(&self) -> Option<[usize; 3]> {
        let Step::Screen(here) = self.step else { return None };
        let screens = self.navigation.screens(&self.answers);
        let (place, all) = (screens.iter().position(|screen| screen.id == here.id)?, screens.len());
        Some([place + 1, all, ((all - place) * SCREEN_TAKES).div_ceil(60)])
    }

    /// What opens the enquiry for adding to it: the link that was opened, or what was made with the enquiry that is in.
    #[must_use]
    pub fn adds_to(&self) -> Option<Link> {
        let own = || {
            let secrets = self.secrets.as_ref().filter(|secrets| !secrets.addition.is_empty())?;
            let named = self.reference.as_ref().is_some_and(|reference| !reference.is_empty());
            let (key, secret) = (secrets.client_key.clone(), secrets.addition.clone());
            named.then_some(Link { key, secret, questions: Vec::new() })
        };
        self.link.clone().or_else(own)
    }

    /// The questions that the link asks.
    pub fn asked_by_link(&self) -> impl Iterator<Item = &'static Question> + '_ {
        self.link.iter().flat_map(|link| &link.questions).filter_map(|id| question(id))
    }

    /// What is changed while it waits to go is not sent half changed: Send is pressed again.
    fn stop_sending(&mut self) {
        if self.queued {
            self.queued = false;
            self.sending = Sending::Not;
        }
    }

    fn answer(&mut self, question: &'static Question, given: &RawAnswer) {
        if (question.get)(&self.answers) == *given {
            return;
        }
        let mut answers = Answers::clone(&self.answers);
        let before = answers.hazard.signs.known().copied().unwrap_or(Set::NONE);
        // A value that is not allowed changes nothing: the controls offer none.
        if !(question.set)(&mut answers, given) {
            return;
        }
        if question.id == "hazard" {
            self.signs_changed(&mut answers.hazard, before);
        }
        self.answers = Said::of(answers);
    }

    /// A sign was ticked or unticked. What is new is of now, whatever was said of another; what was found on looking is where one
    /// stands.
    fn signs_changed(&mut self, hazard: &mut Hazard, before: Set<HazardSign>) {
        let after = hazard.signs.known().copied().unwrap_or(Set::NONE);
        if after.iter().any(|sign| !before.has(sign)) {
            hazard.when = Answer::NotAsked;
            self.lists_signs = false;
        }
        if let Step::Found(place) = self.step {
            let found = found_at(place).filter(|_| !after.is_empty());
            hazard.found_at = found.map_or(Answer::NotAsked, Answer::Known);
            hazard.place = match found {
                Some(FoundAt::Meter) => Answer::Known(HazardPlace::Meter),
                Some(FoundAt::Board) => Answer::Known(HazardPlace::Board),
                Some(FoundAt::Pipes) | None => Answer::NotAsked,
            };
            if found.is_some() {
                hazard.when = Answer::Known(HazardWhen::Now);
            }
        }
    }

    /// Nobody stays where they were sent to look once that is not safe any more, whoever said so: another page, a draft, a link.
    fn step_back(&mut self) {
        if self.step.looks() && !may_look(&self.answers) {
            let noticed = self.answers.hazard.is_noticed();
            self.go_to(if noticed || !self.reached_result { Step::first() } else { Step::Result });
        }
    }
}

impl Reducible for Form {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        let mut next = (*self).clone();
        match action {
            Action::Answered(question, given) => {
                next.stop_sending();
                note(&mut next.typed, question, None);
                next.answer(question, &given);
            }
            Action::Typed(question, text) => next.type_in(question, text),
            Action::MeasuredIn(question, unit) => next.measure_in(question, unit),
            Action::WentOn(question_priority) => next.go_on(&question_priority),
            Action::SentTooSoon => next.complaints += 1,
            Action::SendAsked => {
                next.queued = true;
                next.sending = Sending::UnderWay(0, 0);
            }
            Action::SendingStopped => next.stop_sending(),
            Action::MoveAsked => next.moves = !self.moves,
            Action::SignsListed => next.lists_signs = true,
            Action::ToldToLook(allowed) => next.told_to_look = allowed,
            Action::WentBack => next.go_back(),
            Action::WentTo(step) => next.go_to(step),
            Action::PhotoTaken => {
                next.stop_sending();
                next.photos_under_way += 1;
                next.photo_trouble = None;
            }
            Action::PhotoKept(photo) => {
                next.photos_under_way = self.photos_under_way.saturating_sub(1);
                next.photos.retain(|other| other.sha256 != photo.sha256);
                next.photos.push(photo);
            }
            Action::PhotoRefused(place, trouble) => {
                next.photos_under_way = self.photos_under_way.saturating_sub(1);
                next.photo_trouble = Some((place, trouble));
            }
            Action::PhotoRemoved(sha256) => {
                next.stop_sending();
                next.photos.retain(|photo| photo.sha256 != sha256);
            }
            Action::ContactGiven(contact) => {
                next.stop_sending();
                next.contact = contact;
            }
            // Made once: a second tap or a later try is the same enquiry.
            Action::SecretsMade(secrets) => next.secrets = Some(self.secrets.clone().unwrap_or(secrets)),
            Action::SendingCame(sending) => next.sending_came(sending),
            Action::ToldElsewhere(lines) => next.told_elsewhere(&lines),
            // Photos that were not kept once are not kept because an answer was.
            Action::KeepingCame(trouble)
                if trouble.is_some() || !self.keep_trouble.is_some_and(KeepTrouble::is_of_photos) =>
            {
                next.keep_trouble = trouble;
            }
            Action::KeepingCame(_) => {}
            Action::StartedAgain => {
                next = Self { keep_trouble: self.keep_trouble, ..Self::default() };
                Rc::make_mut(&mut next.answers).as_of = self.answers.as_of;
            }
            Action::TodayIs(date) => {
                if self.answers.as_of != Some(date) {
                    Rc::make_mut(&mut next.answers).as_of = Some(date);
                }
            }
        }
        next.step_back();
        if next == *self { self } else { Rc::new(next) }
    }
}

impl Form {
    fn type_in(&mut self, question: &'static Question, text: String) {
        self.stop_sending();
        let unit = self.unit_of(question);
        self.answer(question, &typed::read(question.kind, &text, unit).unwrap_or(RawAnswer::Nothing));
        note(&mut self.units, question, Some(unit));
        note(&mut self.typed, question, Some(text));
    }

    fn measure_in(&mut self, question: &'static Question, unit: LengthUnit) {
        self.stop_sending();
        let text = self.text_of(question);
        note(&mut self.units, question, Some(unit));
        if let Some(given @ RawAnswer::Distance(_)) = typed::read(question.kind, &text, unit) {
            self.answer(question, &given);
        }
    }

    /// Whether something was found while adding to an enquiry that is in: it goes there, forwards and back.
    fn found_while_adding(&self) -> bool {
        matches!(self.step, Step::Found(_)) && self.adds_to().is_some()
    }

    fn go_on(&mut self, question_priority: &str) {
        if self.step.questions(&self.answers).iter().any(|question| self.stands_open(question)) {
            self.complaints += 1;
        } else if self.found_while_adding() {
            self.go_to(Step::Link);
        } else {
            self.go_to(self.step.on(&self.answers, &self.navigation, question_priority));
        }
    }

    fn go_back(&mut self) {
        if self.found_while_adding() {
            self.go_to(Step::Link);
        } else if let Some(step) = self.step.back(&self.answers, &self.navigation) {
            self.go_to(step);
        }
    }

    fn sending_came(&mut self, sending: Sending) {
        if let Sending::Done(reference) = &sending {
            self.was_sent(reference.clone());
        }
        self.queued = matches!(sending, Sending::UnderWay(..) | Sending::Waiting);
        self.sending = sending;
    }

    /// Another page of the same form said what is new; that the enquiry is in is new once.
    fn told_elsewhere(&mut self, lines: &[(String, String)]) {
        let was_in = self.reference.is_some();
        for (name, value) in lines {
            take_line(self, name, value);
        }
        if let (false, Some(reference)) = (was_in, self.reference.clone()) {
            self.was_sent(reference.clone());
            self.queued = false;
            self.sending = Sending::Done(reference);
        }
    }

    /// What was sent leaves nothing personal behind.
    fn was_sent(&mut self, reference: String) {
        self.reference = Some(reference);
        self.go_to(Step::Sent);
        self.contact = Contact::default();
        self.photos.clear();
    }

    fn go_to(&mut self, step: Step) {
        self.step = step;
        // Each time anew: a link that was opened has been told as it was.
        self.told_to_look &= self.link.is_some();
        if let Step::Screen(screen) = step {
            self.navigation.come_to(screen, &self.answers);
        }
        self.complaints = 0;
        self.lists_signs = false;
        self.asks_postcode = step == Step::Contact && self.answers.home.postcode.known().is_none();
        self.photo_trouble = None;
        self.reached_result |= step == Step::Result;
    }
}

#[cfg(test)]
#[path = "state_tests.rs"]
mod tests;
