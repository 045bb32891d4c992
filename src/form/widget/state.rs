//! The form's state, and how each action of the homeowner changes it.
//!
//! Pure and cheap: no storage, clock, random numbers, network or engine. Those are reached by the effects, which watch this state and send
//! actions of their own.

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

/// A photo kept on the device, re-encoded so that it has none of a camera's metadata.
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
    /// Its size in bytes.
    pub bytes: u64,
    /// An address under which this page can show it.
    pub shown_at: String,
}

/// Why a photo was not added.
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

/// An enquiry's key, by which a service recognises it when it is sent again, and the secrets that let its sender delete it or add to it.
/// Drawn once.
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
    /// There is no room left at all.
    Full,
    /// The browser keeps no photos.
    PhotosRefused,
    /// There is no room left for the photos.
    PhotosFull,
}

impl KeepTrouble {
    /// Whether only the photos are not kept.
    #[must_use]
    pub const fn is_of_photos(self) -> bool {
        matches!(self, Self::PhotosRefused | Self::PhotosFull)
    }
}

/// What is needed to add to an enquiry that was received.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// The enquiry's key.
    pub key: String,
    /// The secret that allows it.
    pub secret: String,
    /// The ids of the questions that the link asks; photos may be added in any case.
    pub questions: Vec<&'static str>,
}

/// Where a danger was found while looking, as the answers record it; `None` for places where nobody is sent to look.
const fn found_at(place: Place) -> Option<FoundAt> {
    match place {
        Place::Meter => Some(FoundAt::Meter),
        Place::Board => Some(FoundAt::Board),
        Place::Pipes => Some(FoundAt::Pipes),
        Place::First | Place::Indoors | Place::Drive | Place::Desk => None,
    }
}

/// Why an enquiry did not arrive and is not sent again by itself.
#[derive(Clone, Debug, PartialEq)]
pub enum SendTrouble {
    /// There is no address to send it to.
    Nowhere,
    /// The page was not served over a secure connection.
    NotSecure,
    /// It was refused, for this reason in the service's words.
    Refused(String),
    /// The enquiry was received under this reference, but not all of its photos.
    PhotosLeft(String),
}

impl SendTrouble {
    /// The reason that the event to the page around the form carries.
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

/// The progress of sending.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Sending {
    /// Not started.
    #[default]
    Not,
    /// The photo of this number, out of this many, is being sent; `(0, 0)` while the enquiry itself is.
    UnderWay(usize, usize),
    /// There is no answer; it is sent again until there is one.
    Waiting,
    /// It failed; everything is kept.
    Failed(SendTrouble),
    /// It was received, under this reference.
    Done(String),
}

/// The answers, shared and compared by pointer: every change makes a new allocation, and an answer is never set to the value that it has
/// already, so equal pointers mean unchanged answers.
#[derive(Clone, Debug, Default)]
pub struct Said(Rc<Answers>);

impl Said {
    /// Wraps answers.
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

/// Something noted for a few questions, by their ids. A list, because a map would add more code than it saves.
pub type Noted<T> = Vec<(&'static str, T)>;

fn noted<'a, T>(notes: &'a Noted<T>, question: &Question) -> Option<&'a T> {
    notes.iter().find(|(id, _)| *id == question.id).map(|(_, note)| note)
}

pub(super) fn note<T>(notes: &mut Noted<T>, question: &Question, what: Option<T>) {
    notes.retain(|(id, _)| *id != question.id);
    notes.extend(what.map(|what| (question.id, what)));
}

/// The form's state.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// The answers.
    pub answers: Said,
    /// Where the homeowner is.
    pub step: Step,
    /// The screens that they visited.
    pub navigation: Navigation,
    /// The texts of fields as typed, by question.
    pub typed: Noted<String>,
    /// Units chosen before or while a distance is typed.
    pub units: Noted<LengthUnit>,
    /// How often the main button was pressed at this step while a question was still open or a field unreadable.
    pub complaints: u32,
    /// Whether the contact page asks for the postcode again: it was not known when that page was opened.
    pub asks_postcode: bool,
    /// The photos.
    pub photos: Vec<KeptPhoto>,
    /// Why the last photo of a place was not added.
    pub photo_trouble: Option<(PhotoPlace, PhotoTrouble)>,
    /// How many photos are being made smaller.
    pub photos_under_way: usize,
    /// The contact details.
    pub contact: Contact,
    /// The enquiry's key and secrets, once they are drawn.
    pub secrets: Option<Secrets>,
    /// The progress of sending.
    pub sending: Sending,
    /// Whether Send was pressed and the enquiry has not arrived yet: it is sent as soon as possible.
    pub queued: bool,
    /// The reference of the received enquiry; empty where the receiver gave none, `None` before it was received.
    pub reference: Option<String>,
    /// The link that was opened to add to an enquiry, if one was.
    pub link: Option<Link>,
    /// Whether the service allows the homeowner to be sent to look at meter and board, for a page that adds to an enquiry. Without its word
    /// they are not: the page may not have the enquiry's answers, and only the service knows of a danger that was reported since.
    pub told_to_look: bool,
    /// Whether the list of signs is shown beside the emergency advice, so that a further one can be ticked.
    pub lists_signs: bool,
    /// Whether the link to another device is shown.
    pub moves: bool,
    /// Whether the result has been reached once: from then on Send is offered on every screen.
    pub reached_result: bool,
    /// Why the device does not keep everything; `None` where it does.
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

/// An action: something that the homeowner did, or that an effect reports.
pub enum Action {
    /// The homeowner chose an answer.
    Answered(&'static Question, RawAnswer),
    /// The homeowner typed into a field.
    Typed(&'static Question, String),
    /// The homeowner chose the unit of a length.
    MeasuredIn(&'static Question, LengthUnit),
    /// The homeowner pressed the main button. With it comes the question priority: ids of open questions, a space between two, the highest
    /// first.
    WentOn(String),
    /// The homeowner pressed Send while something was missing.
    SentTooSoon,
    /// The homeowner pressed Send.
    SendAsked,
    /// The homeowner cancelled sending.
    SendingStopped,
    /// The homeowner opened or closed the panel with the link to another device.
    MoveAsked,
    /// The homeowner went back to the list of signs beside the emergency advice.
    SignsListed,
    /// The service answered whether looking at meter and board is allowed, for a page that adds to an enquiry.
    ToldToLook(bool),
    /// The homeowner pressed "back".
    WentBack,
    /// The homeowner went straight to a step.
    WentTo(Step),
    /// The homeowner took or chose a photo, which is now being made smaller.
    PhotoTaken,
    /// A photo is ready and kept.
    PhotoKept(KeptPhoto),
    /// A photo could not be added.
    PhotoRefused(PhotoPlace, PhotoTrouble),
    /// The homeowner removed the photo of this name.
    PhotoRemoved(String),
    /// The homeowner changed the contact details.
    ContactGiven(Contact),
    /// The enquiry's secrets were drawn.
    SecretsMade(Secrets),
    /// Sending made progress, failed or succeeded.
    SendingCame(Sending),
    /// The device was given something to keep: why it does not keep it, or `None` where it does.
    KeepingCame(Option<KeepTrouble>),
    /// Another page changed these lines of the same draft.
    ToldElsewhere(Vec<(String, String)>),
    /// The homeowner threw everything away to start again.
    StartedAgain,
    /// Today's date became known.
    TodayIs(Date),
}

impl Form {
    /// The state in which the form starts: that of the draft in `lines`, if there is one. With `leaves` it starts at the step after the
    /// draft's own.
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

    /// The text in a question's field: as typed, else that of the answer.
    #[must_use]
    pub fn text_of(&self, question: &Question) -> String {
        match noted(&self.typed, question) {
            Some(text) => text.clone(),
            None => typed::shown(&(question.get)(&self.answers)),
        }
    }

    /// The unit of a question's length: the answer's, else the chosen one, else metres.
    #[must_use]
    pub fn unit_of(&self, question: &Question) -> LengthUnit {
        match (question.get)(&self.answers) {
            RawAnswer::Distance(length) => length.unit,
            _ => noted(&self.units, question).copied().unwrap_or(LengthUnit::Metres),
        }
    }

    /// Whether the text typed for a question can't be read as an answer.
    #[must_use]
    pub fn unreadable(&self, question: &Question) -> bool {
        noted(&self.typed, question).is_some_and(|text| typed::read(question.kind, text, LengthUnit::Metres).is_none())
    }

    /// Whether a question prevents going on: its text is unreadable, or it belongs to the core and is unanswered.
    #[must_use]
    pub fn stands_open(&self, question: &Question) -> bool {
        // Once a danger was noticed, no question has to be answered.
        let needed = (question.core)(&self.answers) && !self.answers.hazard.is_noticed();
        self.unreadable(question) || (needed && (question.get)(&self.answers) == RawAnswer::Nothing)
    }

    /// Whether Send may be offered on a screen of questions.
    #[must_use]
    pub fn may_send(&self) -> bool {
        self.reached_result || self.answers.hazard.is_noticed()
    }

    /// Whether the homeowner may be sent to look at meter, board or pipes: a danger is ruled out and, on a page that adds to an enquiry,
    /// the service allows it too.
    #[must_use]
    pub fn may_look(&self) -> bool {
        if self.link.is_some() {
            // This page does not have the answers of the enquiry.
            self.told_to_look && !self.answers.hazard.is_feared()
        } else {
            may_look(&self.answers) && (self.step != Step::Link || self.told_to_look)
        }
    }

    /// The number of this screen among the core's, how many there are, and the minutes left including this screen; `None` on any other
    /// screen.
    #[must_use]
    pub fn progress(&self) -> Option<[usize; 3]> {
        let Step::Screen(here) = self.step else { return None };
        let screens = self.navigation.screens(&self.answers);
        let (place, all) = (screens.iter().position(|screen| screen.id == here.id)?, screens.len());
        Some([place + 1, all, ((all - place) * SCREEN_TAKES).div_ceil(60)])
    }

    /// What is needed to add to an enquiry: the link that was opened, or the key and secret of the enquiry that this form sent.
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

    /// The questions that the opened link asks.
    pub fn asked_by_link(&self) -> impl Iterator<Item = &'static Question> + '_ {
        self.link.iter().flat_map(|link| &link.questions).filter_map(|id| question(id))
    }

    /// Stops sending, because the form is being changed while it waits to be sent: Send has to be pressed again.
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
        // A value that is not allowed changes nothing; no control offers one.
        if !(question.set)(&mut answers, given) {
            return;
        }
        if question.id == "hazard" {
            self.signs_changed(&mut answers.hazard, before);
        }
        self.answers = Said::of(answers);
    }

    /// Updates the other answers about hazards after a sign was ticked or unticked. A new sign makes the form ask again when it was. A sign
    /// found while looking is there now, at the place that was looked at.
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

    /// Leaves a step at which the homeowner looks at meter, board or pipes as soon as that is not safe any more, also when that became
    /// known from another page, a draft or a link.
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
            // Drawn once: after a second tap or a later try it is still the same enquiry.
            Action::SecretsMade(secrets) => next.secrets = Some(self.secrets.clone().unwrap_or(secrets)),
            Action::SendingCame(sending) => next.sending_came(sending),
            Action::ToldElsewhere(lines) => next.told_elsewhere(&lines),
            // That an answer was kept does not mean that the photos are: their warning stays.
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

    /// Whether a danger is being reported while adding to an enquiry: then "next" and "back" both lead to the page for additions.
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

    /// Applies lines that another page changed. If they say that the enquiry was received, this page shows it as sent, once.
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

    /// Goes to the page after sending, and removes the contact details and photos from the state.
    fn was_sent(&mut self, reference: String) {
        self.reference = Some(reference);
        self.go_to(Step::Sent);
        self.contact = Contact::default();
        self.photos.clear();
    }

    fn go_to(&mut self, step: Step) {
        self.step = step;
        // The service is asked again at each visit of the page for additions; a link that was opened keeps the answer that its script got.
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
