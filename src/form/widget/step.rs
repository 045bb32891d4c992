//! The step: where the homeowner is in the form, and where "next" and "back" lead from there.

use super::navigation::Navigation;
use super::screens::{self, Screen, screen};
use model::answers::{Answers, Word};
use model::questions::{Place, Question, question};
use record::enquiry::events::StepKind;

/// Where the homeowner is.
#[derive(Clone, Copy)]
pub enum Step {
    /// On a screen of questions.
    Screen(&'static Screen),
    /// At one question, reopened from the result.
    Question(&'static Question),
    /// Reporting a danger that was found while looking at this place.
    Found(Place),
    /// At the result.
    Result,
    /// At the contact details.
    Contact,
    /// After the enquiry was received.
    Sent,
    /// Adding to an enquiry that was received.
    Link,
}

impl core::fmt::Debug for Step {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let (kind, id) = self.name();
        write!(f, "{} {id}", kind.word())
    }
}

impl PartialEq for Step {
    fn eq(&self, other: &Self) -> bool {
        self.name() == other.name()
    }
}

impl Step {
    /// The very first screen: hazards.
    #[must_use]
    pub fn first() -> Self {
        Self::Screen(&screens::SCREENS[0])
    }

    /// Its kind and name, as a draft and the events to the page have them; the name is empty where the kind says everything.
    #[must_use]
    pub fn name(&self) -> (StepKind, &'static str) {
        match self {
            Self::Screen(screen) => (StepKind::Screen, screen.id),
            Self::Question(question) => (StepKind::Question, question.id),
            Self::Found(place) => (StepKind::Found, place.word()),
            Self::Result => (StepKind::Result, ""),
            Self::Contact => (StepKind::Contact, ""),
            Self::Sent => (StepKind::Sent, ""),
            Self::Link => (StepKind::Link, ""),
        }
    }

    /// The step of this kind and name; `None` where a draft names one that no longer exists.
    #[must_use]
    pub fn named(kind: &str, id: &str) -> Option<Self> {
        match StepKind::named(kind)? {
            StepKind::Screen => screen(id).map(Self::Screen),
            StepKind::Question => question(id).map(Self::Question),
            StepKind::Found => Place::named(id).map(Self::Found),
            StepKind::Result => Some(Self::Result),
            StepKind::Contact => Some(Self::Contact),
            StepKind::Sent => Some(Self::Sent),
            StepKind::Link => Some(Self::Link),
        }
    }

    /// Whether the homeowner is sent to look at meter, board or pipes here.
    #[must_use]
    pub fn looks(&self) -> bool {
        let place = match self {
            Self::Screen(screen) => screen.place,
            Self::Question(question) => question.place,
            // At `Found` the homeowner is told to step back, not to look.
            Self::Found(_) | Self::Result | Self::Contact | Self::Sent | Self::Link => return false,
        };
        matches!(place, Place::Meter | Place::Board | Place::Pipes)
    }

    /// The questions shown here.
    #[must_use]
    pub fn questions(&self, answers: &Answers) -> Vec<&'static Question> {
        match self {
            Self::Screen(screen) => screen.asked(answers).collect(),
            Self::Question(question) => vec![*question],
            // Only which signs: when and where follow from being there now.
            Self::Found(_) => question("hazard").into_iter().collect(),
            Self::Result | Self::Contact | Self::Sent | Self::Link => Vec::new(),
        }
    }

    /// The step that the main button leads to. `question_priority` is a list of the open questions' ids, a space between two, the highest
    /// first.
    #[must_use]
    pub fn on(&self, answers: &Answers, navigation: &Navigation, question_priority: &str) -> Self {
        match self {
            Self::Screen(_) | Self::Found(_) if answers.hazard.is_noticed() => Self::Contact,
            Self::Screen(screen) if screen.is_core(answers) => {
                // With no open question after this screen, the way leads straight back to the result.
                let mut later =
                    navigation.screens(answers).into_iter().skip_while(|other| other.id != screen.id).skip(1);
                if !later.any(|screen| screen.stands_open(answers)) {
                    return Self::Result;
                }
                navigation.after(screen, answers, question_priority).map_or(Self::Result, Self::Screen)
            }
            // Only questions that a changed answer brought up are asked; the others are not asked again.
            Self::Screen(_) | Self::Question(_) => {
                let open = navigation.screens(answers).into_iter().find(|screen| screen.stands_open(answers));
                open.map_or(Self::Result, Self::Screen)
            }
            Self::Result => Self::Contact,
            Self::Found(place) => Self::looking_at(*place, answers, navigation),
            Self::Contact | Self::Sent | Self::Link => *self,
        }
    }

    /// The step at which looking at a place goes on after nothing was wrong there: the first of its screens with an open question, else its
    /// last.
    fn looking_at(place: Place, answers: &Answers, navigation: &Navigation) -> Self {
        let there: Vec<_> = navigation.screens(answers).into_iter().filter(|screen| screen.place == place).collect();
        let open = there.iter().find(|screen| screen.stands_open(answers)).or(there.last());
        open.map_or(Self::Result, |screen| Self::Screen(screen))
    }

    /// The step that "back" leads to; `None` where there is no way back.
    #[must_use]
    pub fn back(&self, answers: &Answers, navigation: &Navigation) -> Option<Self> {
        let last_core = |before: Option<&'static Screen>| {
            let all = navigation.screens(answers).into_iter();
            all.take_while(|other| before.is_none_or(|screen| screen.id != other.id)).last()
        };
        match self {
            Self::Screen(screen) if screen.is_core(answers) => last_core(Some(screen)).map(Self::Screen),
            Self::Found(_) if answers.hazard.is_noticed() => Some(Self::first()),
            Self::Found(place) => Some(Self::looking_at(*place, answers, navigation)),
            Self::Screen(_) | Self::Question(_) => Some(Self::Result),
            Self::Result => last_core(None).map(Self::Screen),
            Self::Contact if answers.hazard.is_noticed() => Some(Self::first()),
            Self::Contact => Some(Self::Result),
            Self::Sent | Self::Link => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, HazardSign, RawAnswer, Set};

    #[test]
    fn on_and_back_walk_the_same_way() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        let (mut step, mut walked) = (Step::first(), vec![Step::first()]);
        let mut navigation = Navigation::default();
        while step != Step::Contact {
            step = step.on(&answers, &navigation, "test-buttons spare-ways hold-back");
            if let Step::Screen(screen) = step {
                navigation.come_to(screen, &answers);
            }
            walked.push(step);
        }
        assert!(walked.len() > 14);
        for pair in walked.windows(2) {
            assert_eq!(pair[1].back(&answers, &navigation), Some(pair[0]));
            let (kind, id) = pair[1].name();
            assert_eq!(Step::named(kind.word(), id), Some(pair[1]));
        }
    }

    /// No hazard, and every other question answered "not sure": the answers of a homeowner who reached the result.
    fn all_answered() -> Answers {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        let open = |answers: &Answers| {
            let asked = |screen: &'static screens::Screen| screen.asked(answers).collect::<Vec<_>>();
            Navigation::default()
                .screens(answers)
                .into_iter()
                .flat_map(asked)
                .find(|question| (question.get)(answers) == RawAnswer::Nothing)
        };
        while let Some(question) = open(&answers) {
            assert!((question.set)(&mut answers, &RawAnswer::NotSure), "{}", question.id);
        }
        answers
    }

    #[test]
    fn a_changed_answer_asks_only_what_depends_on_it() {
        let mut answers = all_answered();
        let parking = question("parking").unwrap();
        assert_eq!(
            Step::Question(parking).on(&answers, &Navigation::default(), ""),
            Step::Result,
            "nothing depends on what it was"
        );
        answers.parking.place = Answer::Known(model::answers::ParkingPlace::DetachedGarage);
        let next = Step::Question(parking).on(&answers, &Navigation::default(), "");
        assert_eq!(next.name(), (StepKind::Screen, "outbuilding"), "an outbuilding may have a board");
        answers.outbuilding.board_there = Answer::NotSure;
        assert_eq!(next.on(&answers, &Navigation::default(), ""), Step::Result, "and nothing is asked again");
    }

    #[test]
    fn a_hazard_leads_straight_to_sending() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::MeltedPlastic]));
        assert_eq!(Step::first().on(&answers, &Navigation::default(), ""), Step::Contact);
        assert_eq!(Step::Contact.back(&answers, &Navigation::default()), Some(Step::first()));
    }
}
