//! Which questions share a screen: a table, in the order in which the places are walked.
//!
//! Whether a screen shows follows from its questions: it does while one of them is asked.

use crate::answers::{Answers, Given};
use crate::enquiry::PhotoPlace;
use crate::questions::{Place, Question, question};

/// One screen: one topic.
#[derive(Debug, PartialEq)]
pub struct Screen {
    /// Its name, in wording keys and drafts.
    pub id: &'static str,
    /// Whether it is of the core.
    pub core: bool,
    /// Where one stands.
    pub place: Place,
    /// Its questions' names.
    pub questions: &'static [&'static str],
    /// What is photographed here, if anything.
    pub photo: Option<PhotoPlace>,
}

macro_rules! screens {
    ($($core:literal $place:ident $id:literal [$($question:literal)+] $photo:expr;)+) => {
        /// Every screen.
        pub static SCREENS: &[Screen] = &[$(Screen {
            id: $id,
            core: $core,
            place: Place::$place,
            questions: &[$($question),+],
            photo: $photo,
        },)+];
    };
}

screens! {
    true First "hazard" ["hazard" "hazard-place"] None;
    true Indoors "start" ["postcode" "tenure"] None;
    true Indoors "parking" ["parking"] None;
    true Indoors "home" ["home" "age"] None;
    true Indoors "kitchen" ["showers" "cooking"] None;
    true Indoors "heating" ["heating" "hot-tub" "other-point"] None;
    true Indoors "wishes" ["outlet" "follow-solar" "hold-back"] None;
    true Drive "outbuilding" ["board-there"] None;
    true Drive "spot" ["inlet" "wifi-bars"] Some(PhotoPlace::Parking);
    true Drive "route" ["route-length" "route-mostly"] None;
    true Meter "meter" ["meter-place"] Some(PhotoPlace::Meter);
    true Meter "carriers" ["fuse-carriers"] None;
    true Meter "street" ["street-cables"] None;
    true Meter "head" ["head-conductors"] None;
    true Board "board" ["protection"] Some(PhotoPlace::Board);
    true Board "buttons" ["test-buttons"] None;
    true Board "ways" ["spare-ways"] None;
    false Indoors "more-home" ["protected" "cars" "miles" "car-comes"] None;
    false Indoors "more-power" ["shower-power" "cooking-power" "heating-power" "planned" "highest-half-hour"] None;
    false Indoors "more-solar" ["solar-power" "battery-power" "operator-letter"] None;
    false Indoors "more-wishes" ["lead-length" "holder" "steered-by"] None;
    false Indoors "bought" ["bought" "bought-maker" "bought-model" "bought-papers"] None;
    false Drive "more-drive" ["spot-to-car" "gas-meter-distance" "shared-drive" "ground" "overhead-line"] None;
    false Drive "stretches" ["route-stretches"] None;
    false Drive "more-route" ["walls" "wall-thickness" "buried" "builders-cable"] None;
    false Drive "more-signal" ["data-cable" "mobile-bars"] None;
    false Meter "more-meter" ["carrier-rating" "meter-kind" "switch-after"] None;
    false Meter "more-tails" ["meter-to-board" "backing" "earth-goes"] None;
    false Board "more-board" ["boards" "board-case" "rcd-type" "surge-device"] None;
    false Board "more-wall" ["wall-space" "board-maker" "report"] None;
    false Board "feed" ["feed-length" "feed-device" "feed-size" "farm"] None;
    false Pipes "pipes" ["gas-pipe" "gas-clamp" "water-pipe" "water-clamp"] None;
}

impl Screen {
    /// Its questions that are asked, given what was said so far.
    pub fn asked<'a>(&'static self, answers: &'a Answers) -> impl Iterator<Item = &'static Question> + 'a {
        self.questions.iter().filter_map(|id| question(id)).filter(move |question| (question.asked)(answers))
    }

    /// Whether one of its questions has no answer yet, not even "not sure".
    #[must_use]
    pub fn stands_open(&'static self, answers: &Answers) -> bool {
        self.asked(answers).any(|question| (question.get)(answers) == Given::Nothing)
    }

    /// Whether it shows.
    #[must_use]
    pub fn shows(&'static self, answers: &Answers) -> bool {
        self.asked(answers).next().is_some()
    }
}

/// The screen of that name.
#[must_use]
pub fn screen(id: &str) -> Option<&'static Screen> {
    SCREENS.iter().find(|screen| screen.id == id)
}

/// The other screens that show, in order.
pub fn rest(answers: &Answers) -> impl Iterator<Item = &'static Screen> + '_ {
    SCREENS.iter().filter(move |screen| !screen.core && screen.shows(answers))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, HazardSign, Set};
    use crate::questions::CATALOGUE;
    use crate::widget::course::Course;

    fn core(answers: &Answers) -> Vec<&'static Screen> {
        Course::default().screens(answers)
    }

    #[test]
    fn every_question_has_one_screen_of_its_own_place() {
        for question in CATALOGUE {
            let on: Vec<&Screen> = SCREENS.iter().filter(|screen| screen.questions.contains(&question.id)).collect();
            let [screen] = on.as_slice() else { panic!("{} is on {} screens", question.id, on.len()) };
            assert_eq!((screen.core, screen.place), (question.core, question.place), "{}", question.id);
        }
        assert_eq!(SCREENS.iter().map(|screen| screen.questions.len()).sum::<usize>(), CATALOGUE.len());
    }

    #[test]
    fn the_core_is_about_sixteen_screens_and_a_hazard_ends_it() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        let count = core(&answers).len();
        assert!((14..=16).contains(&count), "{count} screens");
        answers.hazard.signs = Answer::NotSure;
        assert!(core(&answers).iter().all(|screen| !matches!(screen.place, Place::Meter | Place::Board)));
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Smoke]));
        let shown: Vec<&str> = core(&answers).iter().map(|screen| screen.id).collect();
        assert_eq!(shown, ["hazard", "start"]);
    }
}
