//! The order of the screens in the core of the form: place by place, and at each place the screen of the highest question priority first.

use super::screens::{SCREENS, Screen, screen};
use model::answers::Answers;

/// Screens that may swap with their neighbours at the same place. Never moved are screens that can reveal a danger, screens that can end
/// the enquiry, and the first screen of a place.
const MOVE: [&str; 11] =
    ["kitchen", "heating", "sun", "wishes", "spot", "route", "carriers", "street", "head", "buttons", "ways"];

/// The ids of the core's screens that were visited, in the order in which they were.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Navigation(Vec<&'static str>);

impl Navigation {
    /// The core's screens that are shown with these answers: first the visited ones in the order of the visit, then the others in the order
    /// of the table.
    #[must_use]
    pub fn screens(&self, answers: &Answers) -> Vec<&'static Screen> {
        let mut screens = Vec::new();
        let mut put = |screen: &'static Screen| {
            if screen.is_core(answers) && screen.shows(answers) {
                screens.push(screen);
            }
        };
        self.0.iter().filter_map(|id| screen(id)).for_each(&mut put);
        SCREENS.iter().filter(|screen| !self.0.contains(&screen.id)).for_each(&mut put);
        screens
    }

    /// The screen after `here`; `None` after the last. If it was not visited yet and may be moved, it is the one at the same place whose
    /// questions have the highest priority. `question_priority` is a list of question ids, a space between two, the highest first.
    #[must_use]
    pub fn after(&self, here: &Screen, answers: &Answers, question_priority: &str) -> Option<&'static Screen> {
        let mut later = self.screens(answers).into_iter().skip_while(|screen| screen.id != here.id).skip(1);
        let mut first = later.next()?;
        if self.0.contains(&first.id) || !moves(first) {
            return Some(first);
        }
        let mut best = rank(first, question_priority);
        for other in later {
            if !moves(other) || other.place != first.place {
                break;
            }
            let rank = rank(other, question_priority);
            if rank < best {
                (first, best) = (other, rank);
            }
        }
        Some(first)
    }

    /// Records the visit of a screen. If the homeowner jumped there, the screens before it that are fully answered count as visited too.
    pub fn come_to(&mut self, here: &'static Screen, answers: &Answers) {
        if !here.is_core(answers) || self.0.contains(&here.id) {
            return;
        }
        for screen in self.screens(answers) {
            if screen.id == here.id {
                break;
            }
            if !self.0.contains(&screen.id) && !screen.stands_open(answers) {
                self.0.push(screen.id);
            }
        }
        self.0.push(here.id);
    }

    /// The visited screens as a draft keeps them: their ids with spaces between.
    #[must_use]
    pub fn written(&self) -> String {
        self.0.join(" ")
    }

    /// Reads what [`Navigation::written`] wrote; the id of a screen that no longer exists is ignored.
    #[must_use]
    pub fn read(text: &str) -> Self {
        Self(text.split(' ').filter_map(screen).map(|screen| screen.id).collect())
    }
}

/// The best position of a screen's questions in the question priority; `usize::MAX` where none of them is in it.
fn rank(screen: &Screen, question_priority: &str) -> usize {
    let at = |id: &str| question_priority.split(' ').position(|other| other == id);
    screen.questions().filter_map(|question| at(question.id)).min().unwrap_or(usize::MAX)
}

fn moves(screen: &Screen) -> bool {
    MOVE.contains(&screen.id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, RawAnswer, Set};

    fn no_hazard() -> Answers {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers
    }

    /// Everything asked there is answered "not sure".
    fn answered(screen: &'static Screen, answers: &mut Answers) {
        // One answer may bring the next question up.
        let open = |answers: &Answers| screen.asked(answers).find(|one| (one.get)(answers) == RawAnswer::Nothing);
        while let Some(question) = open(answers) {
            assert!((question.set)(answers, &RawAnswer::NotSure), "{}", question.id);
        }
    }

    /// Walks from the first screen to the last, and gives back the names.
    fn walked(question_priority: &[&str]) -> Vec<&'static str> {
        let question_priority = question_priority.join(" ");
        let (mut navigation, mut answers) = (Navigation::default(), no_hazard());
        let mut here = &SCREENS[0];
        let mut names = vec![here.id];
        while let Some(next) = navigation.after(here, &answers, &question_priority) {
            navigation.come_to(next, &answers);
            answered(next, &mut answers);
            names.push(next.id);
            here = next;
        }
        names
    }

    fn in_the_table(answers: &Answers) -> Vec<&'static str> {
        Navigation::default().screens(answers).iter().map(|screen| screen.id).collect()
    }

    #[test]
    fn where_nothing_is_known_of_what_tells_most_the_tables_order_holds() {
        let mut answers = no_hazard();
        SCREENS
            .iter()
            .filter(|screen| screen.is_core(&Answers::default()))
            .for_each(|screen| answered(screen, &mut answers));
        assert_eq!(walked(&[]), in_the_table(&answers));
    }

    #[test]
    fn what_tells_most_comes_first_at_its_place_and_nothing_else_moves() {
        let names = walked(&["spare-ways", "head-conductors", "route-mostly", "tenure", "hold-back", "protection"]);
        let at = |id: &str| names.iter().position(|name| *name == id).unwrap();
        assert!(at("ways") < at("buttons") && at("head") < at("carriers") && at("route") < at("spot"), "{names:?}");
        assert!(at("wishes") < at("kitchen"), "{names:?}");
        assert_eq!(
            names[..4],
            ["hazard", "start", "parking", "home"],
            "hazards and screens that can end the enquiry stay first"
        );
        assert!(
            at("meter") < at("head") && at("board") < at("ways"),
            "the first screen of a place comes before its closer questions"
        );
        let mut sorted = [names.clone(), walked(&[])];
        sorted.iter_mut().for_each(|names| names.sort_unstable());
        assert_eq!(sorted[0], sorted[1], "no screen is left out or shown twice");
        let places: Vec<_> = names.iter().filter_map(|id| screen(id)).map(|screen| screen.place).collect();
        let mut seen = places.clone();
        seen.dedup();
        assert_eq!(seen.len(), 5, "each place is visited once: {places:?}");
    }

    #[test]
    fn the_way_back_is_the_way_that_was_walked_whatever_tells_most_now() {
        let (mut navigation, mut answers) = (Navigation::default(), no_hazard());
        for id in ["hazard", "start", "parking", "home", "wishes"] {
            navigation.come_to(screen(id).unwrap(), &answers);
            answered(screen(id).unwrap(), &mut answers);
        }
        let names: Vec<_> = navigation.screens(&answers).iter().map(|screen| screen.id).collect();
        assert_eq!(names[3..7], ["home", "wishes", "kitchen", "heating"]);
        let home = screen("home").unwrap();
        assert_eq!(
            navigation.after(home, &answers, "showers").unwrap().id,
            "wishes",
            "visited screens keep their order"
        );
        assert_eq!(Navigation::read(&navigation.written()), navigation);
        assert_eq!(Navigation::read("no-such home").written(), "home");
    }

    #[test]
    fn whoever_jumps_to_a_screen_has_the_answered_ones_behind() {
        let mut answers = no_hazard();
        SCREENS
            .iter()
            .filter(|screen| screen.is_core(&Answers::default()))
            .for_each(|screen| answered(screen, &mut answers));
        let mut navigation = Navigation::default();
        navigation.come_to(screen("ways").unwrap(), &answers);
        assert_eq!(
            navigation.screens(&answers).iter().map(|screen| screen.id).collect::<Vec<_>>(),
            in_the_table(&answers)
        );
        navigation.come_to(screen("pipes").unwrap(), &answers);
        assert!(!navigation.written().contains("pipes"), "a screen outside the core is not recorded as visited");
    }
}
