//! The page's state and its reducer. Both are pure: they know no network, clock or engine.

use super::ago::{Clock, day_of};
use super::api::{Apart, Detail, Erased, Job, Outbox, SignedIn};
use super::changes::{changes, in_one_breath};
use super::enquiry_rows::{EnquiryRow, Filter};
use super::location::Location;
use super::trouble::Trouble;
use super::words::{counted, fill, say};
use engine::assessment::Assessment;
use model::answers::Answers;
use model::config::Config;
use std::rc::Rc;
use wording::triage as key;
use yew::Reducible;

/// Whether the installer is signed in.
#[derive(Clone, Debug, PartialEq)]
pub enum Session {
    /// Not known yet; the service is being asked.
    Asking,
    /// Not signed in.
    Out {
        /// Whether a sign-in is under way.
        busy: bool,
        /// Why the last sign-in failed.
        trouble: Option<Trouble>,
        /// Whether a session expired.
        expired: bool,
        /// Whether the service asked for a code beside the password.
        code: bool,
    },
    /// Signed in, as somebody.
    In(SignedIn),
}

impl Session {
    /// Nobody is signed in, and nothing was typed yet.
    const OUT: Self = Self::Out { busy: false, trouble: None, expired: false, code: false };
}

/// How far fetching or storing something has come.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Progress {
    /// Nothing under way.
    #[default]
    Idle,
    /// Under way.
    Busy,
    /// It failed.
    Failed(Trouble),
}

/// How far deleting the opened enquiry has come.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Deleting {
    /// Nobody wants to.
    #[default]
    No,
    /// It was asked for and is to be confirmed.
    Asked,
    /// Under way.
    Busy,
    /// It failed.
    Failed(Trouble),
}

/// One opened enquiry: as the service has it, and as it is shown with a correction that is not stored yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// As the service has it.
    pub detail: Rc<Detail>,
    /// The answers shown.
    pub answers: Rc<Answers>,
    /// The assessment shown; `None` if the engine panicked on these answers.
    pub assessment: Option<Rc<Assessment>>,
}

impl Opened {
    fn of(detail: Detail) -> Self {
        let (answers, assessment) = (Rc::new(detail.answers().clone()), detail.assessment().cloned().map(Rc::new));
        Self { detail: Rc::new(detail), answers, assessment }
    }
}

/// The state of correcting: which question, and what the correction changed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Correction {
    /// The question whose control is open, if any.
    pub open: Option<&'static str>,
    /// The question that was corrected last.
    pub done: Option<&'static str>,
    /// The assessment before that correction.
    pub before: Option<Rc<Assessment>>,
    /// Whether the new assessment is there.
    pub assessed: bool,
    /// How far storing it has come.
    pub storing: Progress,
}

/// Everything the page shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Desk {
    /// Whether the installer is signed in.
    pub session: Session,
    /// The name to sign in with: of whoever was signed in last, or the first account's.
    pub name: String,
    /// The place on the page.
    pub place: Location,
    /// The time now.
    pub clock: Clock,
    /// The list, once it was fetched.
    pub rows: Option<Rc<Vec<EnquiryRow>>>,
    /// How far fetching the list has come.
    pub list: Progress,
    /// What the service could not send, when it was asked last.
    pub outbox: Rc<Outbox>,
    /// Which rows are shown.
    pub shown: Filter,
    /// The text of the search.
    pub search: String,
    /// The opened enquiry, once it was fetched.
    pub opened: Option<Rc<Opened>>,
    /// How far fetching it has come.
    pub detail: Progress,
    /// How far marking it as handled has come.
    pub marking: Progress,
    /// How far deleting it has come.
    pub deleting: Deleting,
    /// What is being said of the job that the opened enquiry became; `None` where it is as the service has it.
    pub job: Option<Job>,
    /// How far storing that has come.
    pub job_storing: Progress,
    /// What is kept of jobs whose enquiries were deleted.
    pub apart: Rc<Vec<Apart>>,
    /// What was deleted last, as a sentence for the list.
    pub deleted: Option<String>,
    /// The state of correcting.
    pub correction: Correction,
    /// The published config, with which a correction is assessed.
    pub config: Option<Rc<Config>>,
    /// The text of the live region.
    pub announced: String,
}

/// Everything that changes the page's state.
pub enum Action {
    /// A minute passed.
    ClockTold(Clock),
    /// The address changed.
    WentTo(Location),
    /// The service said who is signed in, if anybody is.
    SessionKnown(Option<SignedIn>),
    /// The service could not be asked.
    SessionUnknown(Trouble),
    /// A name and a password were sent, or a code with them.
    SigningIn,
    /// The service asked for a code beside them.
    CodeAsked,
    /// The service did not accept them.
    SignInFailed(Trouble),
    /// The service accepted them.
    SignedIn(SignedIn),
    /// The installer signed out.
    SignedOut,
    /// The list was asked for.
    ListAsked,
    /// The list was fetched.
    ListCame(Vec<EnquiryRow>),
    /// The list could not be fetched.
    ListFailed(Trouble),
    /// The service said what it could not send.
    OutboxCame(Outbox),
    /// The service said what it keeps of jobs.
    ApartCame(Vec<Apart>),
    /// Something was said of the job that the enquiry became.
    JobGiven(Job),
    /// That is being stored.
    JobStoring,
    /// It was stored.
    JobStored(Box<Detail>),
    /// It could not be stored.
    JobNotStored(Trouble),
    /// An enquiry was asked for.
    DetailAsked,
    /// The enquiry was fetched.
    DetailCame(Box<Detail>),
    /// The enquiry with this key could not be fetched.
    DetailFailed(String, Trouble),
    /// The config was fetched.
    ConfigCame(Box<Config>),
    /// Another filter was chosen.
    Chose(Filter),
    /// A search was typed.
    Searched(String),
    /// A question's control was opened, or closed.
    CorrectionOpened(Option<&'static str>),
    /// An answer to this question was corrected; all answers after that.
    Corrected(&'static str, Rc<Answers>),
    /// The corrected answers were assessed.
    Reassessed(Rc<Answers>, Rc<Assessment>),
    /// Corrected answers are being stored, for the first time or again.
    Storing,
    /// Corrected answers were stored.
    Stored(Box<Detail>),
    /// Corrected answers could not be stored.
    NotStored(Trouble),
    /// Marking as handled, or not, is under way.
    Marking,
    /// The enquiry with this key was marked as handled, or not.
    Marked(String, bool),
    /// Marking could not be stored.
    NotMarked(Trouble),
    /// Deleting was asked for, or called off.
    DeletionAsked(bool),
    /// Deleting was confirmed and is under way.
    Deleting,
    /// The enquiry with this key was deleted.
    Deleted(String, Erased),
    /// Deleting failed.
    NotDeleted(Trouble),
}

impl Desk {
    /// The state when the page is mounted.
    #[must_use]
    pub fn new(place: Location, clock: Clock) -> Self {
        Self {
            session: Session::Asking,
            name: "owner".to_owned(),
            place,
            clock,
            rows: None,
            list: Progress::Idle,
            outbox: Rc::default(),
            shown: Filter::default(),
            search: String::new(),
            opened: None,
            detail: Progress::Idle,
            marking: Progress::Idle,
            deleting: Deleting::No,
            job: None,
            job_storing: Progress::Idle,
            apart: Rc::default(),
            deleted: None,
            correction: Correction::default(),
            config: None,
            announced: String::new(),
        }
    }

    /// The failed state for a trouble. If the session ended, everything shown is kept behind the password screen.
    fn failed(&mut self, trouble: Trouble) -> Progress {
        if trouble == Trouble::SignedOut {
            self.session = Session::Out { busy: false, trouble: None, expired: true, code: false };
        }
        self.announced = trouble.sentence();
        Progress::Failed(trouble)
    }

    /// Whether enquiries may be deleted and exported by whoever is signed in.
    #[must_use]
    pub fn is_owners(&self) -> bool {
        matches!(&self.session, Session::In(who) if who.is_owner())
    }

    /// Whether a correction is shown that the service has not stored.
    #[must_use]
    pub fn unstored(&self) -> bool {
        self.correction.done.is_some() && self.correction.storing != Progress::Idle
    }

    fn is_open(&self, key: &str) -> bool {
        self.opened.as_ref().is_some_and(|opened| opened.detail.client_key == key)
    }

    /// Clears the opened enquiry; a correction that is not stored stays until it is, or until another enquiry is opened.
    fn leave_enquiry(&mut self) {
        if !self.unstored() {
            self.correction = Correction::default();
        }
        self.detail = Progress::Idle;
        self.marking = Progress::Idle;
        self.deleting = Deleting::No;
        (self.job, self.job_storing) = (None, Progress::Idle);
    }

    /// Shows a mark that was stored, and nothing else of what came with it: a correction may be under way.
    fn job_stored(&mut self, detail: &Detail) {
        if let Some(opened) = self.opened.as_mut().filter(|opened| opened.detail.client_key == detail.client_key) {
            Rc::make_mut(&mut Rc::make_mut(opened).detail).job.clone_from(&detail.job);
            (self.job, self.job_storing) = (None, Progress::Idle);
            self.announced = say(if detail.job.is_some() { key::JOB_STORED } else { key::JOB_NONE }).to_owned();
        }
    }

    fn apply(&mut self, action: Action) {
        match action {
            Action::ClockTold(clock) => self.clock = clock,
            Action::WentTo(place) => {
                if place.key() != self.place.key() {
                    self.leave_enquiry();
                    self.deleted = None;
                }
                if place != self.place {
                    self.announced.clear();
                }
                self.place = place;
            }
            Action::SessionKnown(Some(who)) | Action::SignedIn(who) => {
                self.announced.clear();
                self.name.clone_from(&who.name);
                if !who.is_owner() {
                    self.deleting = Deleting::No; // an owner was signed in when it was asked for
                }
                self.session = Session::In(who);
                if self.marking == Progress::Failed(Trouble::SignedOut) {
                    self.marking = Progress::Idle; // can be pressed again: nothing was marked meanwhile
                }
                if self.deleting == Deleting::Failed(Trouble::SignedOut) {
                    self.deleting = Deleting::No; // to be asked for anew: somebody else may have signed in
                }
            }
            Action::SessionKnown(None) => self.session = Session::OUT,
            Action::SessionUnknown(trouble) => {
                self.announced = trouble.sentence();
                self.session = Session::Out { busy: false, trouble: Some(trouble), expired: false, code: false };
            }
            Action::SigningIn => {
                if let Session::Out { busy, trouble, .. } = &mut self.session {
                    (*busy, *trouble) = (true, None);
                }
            }
            Action::CodeAsked => {
                self.announced = Trouble::CodeNeeded.sentence();
                self.session = Session::Out { busy: false, trouble: None, expired: false, code: true };
            }
            Action::SignInFailed(trouble) => {
                self.announced = trouble.sentence();
                let code = matches!(self.session, Session::Out { code: true, .. });
                self.session = Session::Out { busy: false, trouble: Some(trouble), expired: false, code };
            }
            Action::SignedOut => {
                let place = std::mem::take(&mut self.place);
                *self = Self::new(place, self.clock);
                self.session = Session::OUT;
            }
            Action::ListAsked => self.list = Progress::Busy,
            Action::ListCame(rows) => self.list_came(rows),
            Action::ListFailed(trouble) => self.list = self.failed(trouble),
            Action::OutboxCame(outbox) => self.outbox = Rc::new(outbox),
            Action::ApartCame(apart) => self.apart = Rc::new(apart),
            Action::JobGiven(job) => self.job = Some(job),
            Action::JobStoring => self.job_storing = Progress::Busy,
            Action::JobStored(detail) => self.job_stored(&detail),
            Action::JobNotStored(trouble) => self.job_storing = self.failed(trouble),
            Action::DetailAsked => self.detail = Progress::Busy,
            Action::DetailCame(detail) => self.detail_came(*detail),
            Action::DetailFailed(key, trouble) => {
                if self.place.key() == Some(&key) {
                    self.detail = self.failed(trouble);
                }
            }
            Action::ConfigCame(config) => self.config = Some(Rc::new(*config)),
            Action::Chose(shown) => self.shown = shown,
            Action::Searched(search) => self.search = search,
            Action::CorrectionOpened(open) => self.correction.open = open,
            Action::Corrected(question, answers) => self.corrected(question, answers),
            Action::Reassessed(answers, assessment) => self.reassessed(&answers, assessment),
            Action::Storing => self.correction.storing = Progress::Busy,
            Action::Stored(detail) => self.stored(*detail),
            Action::NotStored(trouble) => self.correction.storing = self.failed(trouble),
            Action::Marking => self.marking = Progress::Busy,
            Action::Marked(key, handled) => {
                self.marking = Progress::Idle;
                self.announced = say(if handled { key::MARKED_HANDLED } else { key::MARKED_WAITING }).to_owned();
                self.mark(&key, handled);
            }
            Action::NotMarked(trouble) => self.marking = self.failed(trouble),
            Action::DeletionAsked(asked) => self.deleting = if asked { Deleting::Asked } else { Deleting::No },
            Action::Deleting => self.deleting = Deleting::Busy,
            Action::Deleted(key, erased) => self.forget(&key, &erased),
            Action::NotDeleted(trouble) => {
                self.failed(trouble.clone());
                self.deleting = Deleting::Failed(trouble);
            }
        }
    }

    fn list_came(&mut self, rows: Vec<EnquiryRow>) {
        let waiting = rows.iter().filter(|row| !row.handled).count();
        self.announced = fill(key::LIST_CAME, &[("n", &rows.len().to_string()), ("waiting", &waiting.to_string())]);
        (self.rows, self.list) = (Some(Rc::new(rows)), Progress::Idle);
    }

    /// Shows a fetched enquiry, unless another place was gone to meanwhile.
    fn detail_came(&mut self, detail: Detail) {
        if self.place.key() != Some(&detail.client_key) {
            return;
        }
        self.detail = Progress::Idle;
        if !self.is_open(&detail.client_key) {
            self.correction = Correction::default();
        }
        if !self.unstored() {
            self.opened = Some(Rc::new(Opened::of(detail)));
        }
    }

    fn corrected(&mut self, question: &'static str, answers: Rc<Answers>) {
        if let Some(opened) = &mut self.opened {
            let before = opened.assessment.clone();
            Rc::make_mut(opened).answers = answers;
            self.correction =
                Correction { open: None, done: Some(question), before, assessed: false, storing: Progress::Busy };
        }
    }

    /// Shows a new assessment, unless the answers shown are others by now.
    fn reassessed(&mut self, answers: &Rc<Answers>, assessment: Rc<Assessment>) {
        if let Some(opened) = &mut self.opened
            && Rc::ptr_eq(&opened.answers, answers)
        {
            Rc::make_mut(opened).assessment = Some(assessment);
            self.correction.assessed = true;
            self.say_what_changed();
        }
    }

    fn stored(&mut self, detail: Detail) {
        if self.is_open(&detail.client_key) {
            self.opened = Some(Rc::new(Opened::of(detail)));
            self.correction.storing = Progress::Idle;
            self.correction.assessed = true;
            self.say_what_changed();
        }
    }

    fn mark(&mut self, key: &str, handled: bool) {
        if self.is_open(key)
            && let Some(opened) = &mut self.opened
        {
            Rc::make_mut(&mut Rc::make_mut(opened).detail).handled = handled;
        }
        if let Some(rows) = &mut self.rows
            && let Some(row) = Rc::make_mut(rows).iter_mut().find(|row| row.key == key)
        {
            row.handled = handled;
        }
    }

    /// Drops all that is shown of a deleted enquiry and goes back to the list, which says what was deleted.
    fn forget(&mut self, which: &str, erased: &Erased) {
        let kept = self.opened.take_if(|opened| opened.detail.client_key == which);
        let name = kept.map(|opened| opened.detail.enquiry.payload.contact.name.clone()).unwrap_or_default();
        let photos = match erased.photos {
            0 => say(key::DELETED_NO_PHOTOS).to_owned(),
            photos => counted(key::DELETED_PHOTO, key::DELETED_PHOTOS, photos),
        };
        let places = [("name", &*name), ("reference", &*erased.reference), ("photos", &*photos)];
        let mut sentence = fill(key::DELETED, &places);
        if let Some(job) = &erased.kept {
            sentence = [sentence, fill(key::DELETED_KEPT, &[("day", &day_of(&job.until))])].join(" ");
        }
        if let Some(rows) = &mut self.rows {
            Rc::make_mut(rows).retain(|row| row.key != which);
        }
        self.correction = Correction::default(); // one that was not stored is not wanted any more
        if self.place.key() == Some(which) {
            self.place = Location::List;
        }
        self.leave_enquiry();
        self.announced.clone_from(&sentence);
        self.deleted = Some(sentence);
    }

    fn say_what_changed(&mut self) {
        let after = self.opened.as_ref().and_then(|opened| opened.assessment.as_ref());
        if let (Some(before), Some(after)) = (&self.correction.before, after) {
            self.announced = in_one_breath(&changes(before, after));
        }
    }
}

impl Reducible for Desk {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        let mut next = Rc::unwrap_or_clone(self);
        next.apply(action);
        next.into()
    }
}

#[cfg(test)]
#[path = "state_tests.rs"]
mod tests;
