//! The table of screens, in the order in which the homeowner walks from place to place. Which questions stand on a screen is said by the
//! catalogue of questions.
//!
//! A screen is shown if at least one of its questions is asked with the answers so far; the catalogue says when a question is asked.

use model::answers::{Answers, RawAnswer};
use model::questions::{CATALOGUE, On, Place, Question};
use record::enquiry::PhotoPlace;

/// One screen: one topic.
#[derive(Debug, PartialEq)]
pub struct Screen {
    /// Its id, in wording keys and drafts.
    pub id: &'static str,
    /// The place where the homeowner answers it.
    pub place: Place,
    /// What can be photographed here, if anything.
    pub photo: Option<PhotoPlace>,
}

macro_rules! screens {
    ($($place:ident $id:literal $photo:expr;)+) => {
        /// Every screen.
        pub static SCREENS: &[Screen] = &[$(Screen {
            id: $id,
            place: Place::$place,
            photo: $photo,
        },)+];
    };
}

screens! {
    First "hazard" None;
    Indoors "start" None;
    Indoors "parking" None;
    Indoors "home" None;
    Indoors "kitchen" None;
    Indoors "heating" None;
    Indoors "sun" None;
    Indoors "wishes" None;
    Indoors "half-hour" None;
    Drive "outbuilding" None;
    Drive "spot" Some(PhotoPlace::Parking);
    Drive "route" None;
    Meter "meter" Some(PhotoPlace::Meter);
    Meter "carriers" None;
    Meter "street" None;
    Meter "head" None;
    Meter "rating" None;
    Board "board" Some(PhotoPlace::Board);
    Board "buttons" None;
    Board "ways" None;
    Indoors "already" None;
    Indoors "more-home" None;
    Indoors "more-power" None;
    Indoors "more-solar" None;
    Indoors "more-wishes" None;
    Indoors "bought" None;
    Drive "more-drive" None;
    Drive "stretches" None;
    Drive "more-route" None;
    Drive "more-signal" None;
    Meter "more-meter" None;
    Meter "more-tails" None;
    Board "more-board" None;
    Board "more-wall" None;
    Board "feed" None;
    Pipes "pipes" Some(PhotoPlace::Pipes);
}

impl Screen {
    /// Its questions, from the top.
    pub fn questions(&self) -> impl Iterator<Item = &'static Question> + use<> {
        let id = self.id;
        let these = move |last: bool| {
            let on = On { screen: id, last };
            CATALOGUE.iter().filter(move |question| question.screen == Some(on))
        };
        these(false).chain(these(true))
    }

    /// Whether one of its questions belongs to the core with these answers.
    #[must_use]
    pub fn is_core(&self, answers: &Answers) -> bool {
        self.questions().any(|question| (question.core)(answers))
    }

    /// Its questions that are asked with these answers.
    pub fn asked<'a>(&'static self, answers: &'a Answers) -> impl Iterator<Item = &'static Question> + 'a {
        let asked = |question: &&Question| (question.asked)(answers) && !waits(question, answers);
        self.questions().filter(asked)
    }

    /// Whether one of its asked questions has no answer yet, not even "not sure".
    #[must_use]
    pub fn stands_open(&'static self, answers: &Answers) -> bool {
        self.asked(answers).any(|question| (question.get)(answers) == RawAnswer::Nothing)
    }

    /// Whether it is shown with these answers.
    #[must_use]
    pub fn shows(&'static self, answers: &Answers) -> bool {
        self.asked(answers).next().is_some()
    }
}

/// Whether a question stays hidden on its screen until the one above it is answered: one about charging from solar panels concerns only the
/// few who have some, and one about a cable laid by the builder only those without an old charge point.
fn waits(question: &Question, answers: &Answers) -> bool {
    match question.id {
        "follow-solar" => answers.loads.solar.is_not_asked(),
        "builders-cable" => answers.loads.other_point.is_not_asked(),
        _ => false,
    }
}

/// The screen of this id.
#[must_use]
pub fn screen(id: &str) -> Option<&'static Screen> {
    SCREENS.iter().find(|screen| screen.id == id)
}

/// The screens outside the core that are shown with these answers, in the table's order.
pub fn rest(answers: &Answers) -> impl Iterator<Item = &'static Screen> + '_ {
    SCREENS.iter().filter(move |screen| !screen.is_core(answers) && screen.shows(answers))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::widget::navigation::Navigation;
    use model::answers::{Answer, HazardSign, Set};

    fn core(answers: &Answers) -> Vec<&'static Screen> {
        Navigation::default().screens(answers)
    }

    #[test]
    fn whether_to_follow_the_sun_comes_up_once_panels_were_spoken_of() {
        let sun = screen("sun").unwrap();
        let asked = |solar| {
            let mut answers = Answers::default();
            answers.loads.solar = solar;
            sun.asked(&answers).map(|question| question.id).collect::<Vec<_>>()
        };
        assert_eq!(asked(Answer::NotAsked), ["solar", "battery"]);
        assert_eq!(asked(Answer::Known(false)), ["solar", "battery"]);
        for solar in [Answer::Known(true), Answer::NotSure] {
            assert_eq!(asked(solar), ["solar", "battery", "follow-solar"]);
        }
    }

    #[test]
    fn every_question_has_one_screen_of_its_own_place() {
        for question in CATALOGUE {
            let on: Vec<&Screen> =
                SCREENS.iter().filter(|screen| screen.questions().any(|on| on.id == question.id)).collect();
            let [screen] = on.as_slice() else { panic!("{} is on {} screens", question.id, on.len()) };
            assert_eq!(screen.place, question.place, "{}", question.id);
            let mut busy = Answers::default();
            busy.loads.showers = Answer::Known(model::answers::BoundedCount::new(2).unwrap());
            for answers in [Answers::default(), busy] {
                assert_eq!(
                    screen.is_core(&answers),
                    (question.core)(&answers),
                    "{}: a screen is of the core or is not",
                    question.id
                );
            }
        }
        assert_eq!(SCREENS.iter().map(|screen| screen.questions().count()).sum::<usize>(), CATALOGUE.len());
    }

    #[test]
    fn the_core_is_about_sixteen_screens_and_a_hazard_ends_it() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        let count = core(&answers).len();
        assert!((14..=17).contains(&count), "{count} screens");
        answers.loads.showers = Answer::Known(model::answers::BoundedCount::new(2).unwrap());
        assert_eq!(
            core(&answers).len(),
            count + 2,
            "where they would decide, the half-hour and the fuse are asked as well"
        );
        answers.loads.showers = Answer::NotAsked;
        answers.hazard.signs = Answer::NotSure;
        assert!(core(&answers).iter().all(|screen| !matches!(screen.place, Place::Meter | Place::Board)));
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Smoke]));
        let shown: Vec<&str> = core(&answers).iter().map(|screen| screen.id).collect();
        assert_eq!(shown, ["hazard", "start"]);
    }
}
