//! The catalogue: every question, the kind of answer it takes, where one stands to answer it, and when it is asked.
//!
//! Holds no wording (that is in the wording files under `question-ID`), and infers nothing from an answer (the engine's `site` does).

mod beyond;
mod catalogue;
mod counting;
mod when;

pub use beyond::{beyond_use, is_beyond_use};
pub use catalogue::{CATALOGUE, INSTALLERS};
pub use counting::counting;
pub use when::safe as may_look;

use crate::answers::{AnswerKind, Answers, RawAnswer, choices::words};

words! {
    /// Where one stands while answering, in the order in which the places are visited.
    pub enum Place {
        /// Before anyone goes near the meter.
        First => "first",
        /// Indoors: home, car, wishes.
        Indoors => "indoors",
        /// On the drive.
        Drive => "drive",
        /// At the meter, from a step back.
        Meter => "meter",
        /// At the board.
        Board => "board",
        /// Where pipes come in.
        Pipes => "pipes",
        /// At the installer's own desk: never asked of a homeowner.
        Desk => "desk",
    }
}

/// Where a question stands on the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct On {
    /// The screen's name.
    pub screen: &'static str,
    /// Below the others of that screen.
    pub last: bool,
}

/// One question.
pub struct Question {
    /// Its name in the catalogue. Links to stored answers and wording keys use it, so it never changes.
    pub id: &'static str,
    /// Where it stands on the form; `None` where the installer alone records it.
    pub screen: Option<On>,
    /// Path of its field in an answers file.
    pub path: &'static str,
    /// Where one stands to answer it.
    pub place: Place,
    /// Whether it belongs to the core, given the answers so far.
    pub core: fn(&Answers) -> bool,
    /// What kind of answer it takes.
    pub kind: AnswerKind,
    /// Whether it is asked, given the answers so far.
    pub asked: fn(&Answers) -> bool,
    /// Reads its answer from the answers.
    pub get: fn(&Answers) -> RawAnswer,
    /// Sets its answer; false where the value is not allowed (then nothing changes).
    pub set: fn(&mut Answers, &RawAnswer) -> bool,
}

impl Question {
    /// Whether it has no answer yet, or "not sure".
    #[must_use]
    pub fn is_open(&self, answers: &Answers) -> bool {
        matches!((self.get)(answers), RawAnswer::Nothing | RawAnswer::NotSure)
    }
}

/// The question with this id, of those that a homeowner is asked.
#[must_use]
pub fn question(id: &str) -> Option<&'static Question> {
    CATALOGUE.iter().find(|question| question.id == id)
}

/// The question with this id, the installer's own included.
#[must_use]
pub fn any_question(id: &str) -> Option<&'static Question> {
    question(id).or_else(|| INSTALLERS.iter().find(|question| question.id == id))
}

/// The questions to ask given these answers, in order: those of the core, or all.
pub fn to_ask(answers: &Answers, core_only: bool) -> impl Iterator<Item = &'static Question> + '_ {
    let wanted = move |question: &&Question| !core_only || (question.core)(answers);
    CATALOGUE.iter().filter(wanted).filter(move |question| (question.asked)(answers))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, HazardSign, Set};

    #[test]
    fn names_are_unique_and_places_are_walked_once() {
        for (at, question) in CATALOGUE.iter().enumerate() {
            assert!(CATALOGUE[..at].iter().all(|other| other.id != question.id), "{} twice", question.id);
        }
        let mut busy = Answers::default();
        busy.loads.showers = Answer::Known(crate::answers::BoundedCount::new(2).unwrap());
        // What is of the core in some homes alone stands among the rest of the others, where nobody is led through it.
        for (answers, parts) in [(Answers::default(), &[true][..]), (busy, &[true, false])] {
            for core in parts {
                let of = CATALOGUE.iter().filter(|question| (question.core)(&answers) == *core);
                let places: alloc::vec::Vec<Place> = of.map(|question| question.place).collect();
                assert!(places.is_sorted(), "nobody walks twice: {places:?}");
            }
        }
    }

    #[test]
    fn every_question_keeps_what_it_is_given() {
        for question in CATALOGUE.iter().chain(INSTALLERS) {
            let mut answers = Answers::default();
            assert_eq!((question.get)(&answers), RawAnswer::Nothing, "{}", question.id);
            assert!((question.set)(&mut answers, &RawAnswer::NotSure), "{}", question.id);
            assert_eq!((question.get)(&answers), RawAnswer::NotSure, "{}", question.id);
            let path: alloc::vec::Vec<&str> = question.path.split('.').collect();
            let json = serde_json::to_value(&answers).unwrap();
            assert_eq!(json[path[0]][path[1]], "not-sure", "{} is at {}", question.id, question.path);
        }
    }

    #[test]
    fn a_hazard_or_not_sure_keeps_everybody_away_from_meter_and_board() {
        let near = |answers: &Answers| {
            to_ask(answers, false).any(|question| matches!(question.place, Place::Meter | Place::Board))
        };
        let mut answers = Answers::default();
        assert!(!near(&answers), "not before the hazard question is answered");
        answers.hazard.signs = Answer::NotSure;
        assert!(!near(&answers));
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Discolouration]));
        assert!(!near(&answers));
        answers.hazard.signs = Answer::Known(Set::NONE);
        assert!(near(&answers));
    }
}
