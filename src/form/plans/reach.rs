//! Which lead of the installer's list reaches the car, in a drawing from above and in words. The homeowner can turn the car round and move
//! the inlet to try other positions.

use super::from_above::{Standing, from_above};
use super::{Speech, button, list, of_class, tenths};
use engine::calculation::reach::{PLACES, Reaches, UNMEASURED, needed, reaches};
use model::answers::{Inlet, ParkingPlace};
use model::units::Metres;
use record::markup::Tag;
use wording::plans as words;

/// How many leads are drawn and described at most.
const MOST_LEADS: usize = 4;

/// The answers about car and drive that the drawing is made from; `None` where one was not given or is not known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// Where the car has its inlet.
    pub inlet: Option<Inlet>,
    /// The distance from the charge point to the car.
    pub to_car: Option<Metres>,
    /// Where the car stands.
    pub place: Option<ParkingPlace>,
    /// The lengths of the leads to choose from; empty where the homeowner wants a socket.
    pub leads: Vec<Metres>,
}

/// The state of the drawing: the answers, and the position of car and inlet that is tried out.
pub struct Reach {
    speech: Speech,
    told: Told,
    turned: bool,
    tried: Option<Inlet>,
}

impl Reach {
    /// A drawing without any answers; [`Reach::take_up`] gives it those that there are.
    #[must_use]
    pub fn new(speech: Speech) -> Self {
        Self { speech, told: Told::default(), turned: false, tried: None }
    }

    /// Replaces the answers. Where the answered inlet is another than before, the one being tried is forgotten.
    pub fn take_up(&mut self, told: Told) {
        let Told { mut leads, inlet, .. } = told;
        leads.sort_by(|one, other| one.get().total_cmp(&other.get()));
        leads.dedup();
        leads.truncate(MOST_LEADS);
        // "Not known yet" names no place on the car.
        let inlet = inlet.filter(|inlet| *inlet != Inlet::NotKnownYet);
        if inlet != self.told.inlet {
            self.tried = None;
        }
        self.told = Told { leads, inlet, ..told };
    }

    /// Turns the car round.
    pub fn turn(&mut self) {
        self.turned ^= true;
    }

    /// Moves the inlet to the next place round the car.
    pub fn move_inlet(&mut self) {
        let now = self.inlet();
        self.tried = PLACES.iter().cycle().skip_while(|place| **place != now).nth(1).copied();
    }

    /// The word of the inlet that is being tried, where it differs from the answered one; else `None`.
    #[must_use]
    pub fn tries(&self) -> Option<&'static str> {
        self.tried.filter(|tried| self.told.inlet != Some(*tried)).map(Inlet::word)
    }

    fn inlet(&self) -> Inlet {
        self.tried.or(self.told.inlet).unwrap_or(PLACES[0])
    }

    /// The drawing with its buttons and sentences. `may_take` says whether the inlet being tried can be taken as the answer: then there is
    /// a button for that.
    #[must_use]
    pub fn view(&self, may_take: bool) -> Tag {
        let (Self { speech, .. }, Told { leads, place, .. }) = (self, &self.told);
        let (inlet, to_car) = (self.inlet(), self.told.to_car.unwrap_or(UNMEASURED));
        let footway = *place == Some(ParkingPlace::Street);
        let shown = if self.turned { words::REACH_SHOWN_TAIL } else { words::REACH_SHOWN_NOSE };
        let shown = speech.fill(shown, &[("inlet", &speech.made(&["option-inlet-", inlet.word()]))]);
        let of_leads: Vec<String> = leads.iter().map(|lead| self.of_lead(*lead, to_car)).collect();
        let standing = Standing { inlet, nose_in: !self.turned, to_car, leads, footway };
        let in_words = [&*shown, " ", &of_leads.join(" ")].concat();
        let way = needed(inlet, to_car).map(|needs| {
            let [nose, tail] = needs.map(|needs| speech.metres(tenths(needs)));
            speech.fill(words::REACH_NEEDED, &[("nose", &nose), ("tail", &tail)])
        });
        let assumed = (self.told.to_car.is_none() && !footway)
            .then(|| speech.fill(words::REACH_ASSUMED, &[("metres", &speech.metres(to_car))]));
        let aside = |text| of_class("p", "aside").text(text);
        let take = (may_take && self.tries().is_some()).then(|| button("take", speech.say(words::REACH_TAKE)));
        let does = of_class("div", "does")
            .with(button("turn", speech.say(words::REACH_TURN)))
            .with(button("move", speech.say(words::REACH_MOVE)))
            .all(take);
        // With a socket, the homeowner uses a lead of their own.
        let heading = if leads.is_empty() { words::REACH_HEADING_OWN } else { words::REACH_HEADING };
        of_class("div", "reach")
            .with(Tag::new("p").with(Tag::new("strong").text(speech.say(heading))))
            .with(from_above(&standing, in_words, speech))
            .with(aside(shown).attr("role", "status"))
            .with(does)
            .with(list(of_leads))
            .all([way, assumed].into_iter().flatten().map(aside))
    }

    /// Whether a lead reaches, in a sentence. Where the inlet is not known and none is being tried, the sentence covers all six places.
    fn of_lead(&self, lead: Metres, to_car: Metres) -> String {
        let known = self.tried.or(self.told.inlet);
        let of = |inlet| needed(inlet, to_car).map(|needs| reaches(lead, needs, self.told.place));
        let each = || PLACES.iter().filter_map(|inlet| of(*inlet));
        let key = match known.and_then(of) {
            Some(Reaches::AcrossFootway) => words::REACH_FOOTWAY,
            Some(Reaches::BothWays) => words::REACH_BOTH,
            Some(Reaches::NoseIn) => words::REACH_NOSE,
            Some(Reaches::TailIn) => words::REACH_TAIL,
            Some(Reaches::NeitherWay) => words::REACH_NEITHER,
            None if each().any(|reaches| reaches == Reaches::AcrossFootway) => words::REACH_FOOTWAY,
            None if each().all(|reaches| reaches == Reaches::BothWays) => words::REACH_ANY,
            None if each().all(|reaches| reaches == Reaches::NeitherWay) => words::REACH_NEITHER,
            None => words::REACH_SOME,
        };
        self.speech.fill(key, &[("lead", &self.speech.metres(lead))])
    }
}

#[cfg(test)]
mod tests {
    use super::super::written;
    use super::*;
    use wording::{Words, form, plans};

    fn reach(told: Told) -> Reach {
        let words = written(Words::new(plans::EN), Words::new(form::EN));
        let mut reach = Reach::new(Speech::new(words, "en-GB".into()));
        reach.take_up(told);
        reach
    }

    fn leads() -> Vec<Metres> {
        [8.0, 5.0, 5.0].map(Metres::of).into()
    }

    #[test]
    fn each_lead_of_the_list_is_judged_in_words_and_drawn() {
        let told =
            Told { inlet: Some(Inlet::FrontLeft), to_car: Some(Metres::of(1.0)), leads: leads(), ..Told::default() };
        let html = reach(told).view(true).html();
        for wanted in [
            "<li>A 5 m lead reaches only nose in.</li><li>A 8 m lead reaches whichever way the car stands.</li>",
            "<title>The car and the leads, from above</title>",
            "takes 4.4 m nose in, 7.2 m backed in",
            "Inlet: Front, left side",
        ] {
            assert!(html.contains(wanted), "{wanted} in {html}");
        }
        assert!(!html.contains("As if the car stood") && !html.contains("My car has it there"));
    }

    #[test]
    fn what_is_not_known_of_the_car_is_said_and_what_is_tried_may_be_taken() {
        let told = Told { inlet: Some(Inlet::NotKnownYet), leads: leads(), ..Told::default() };
        let mut tried = reach(told.clone());
        let open = tried.view(true).html();
        assert!(open.contains("A 5 m lead reaches some cars") && open.contains("As if the car stood 1 m"), "{open}");
        let round: Vec<_> = PLACES.iter().map(|_| (tried.move_inlet(), tried.tries()).1).collect();
        assert_eq!(round[0], Some(Inlet::FrontRight.word()), "the first place, the nose, was drawn before");
        assert_eq!(round[5], Some(Inlet::Front.word()), "after the last place comes the first again");
        tried.turn();
        let html = tried.view(true).html();
        assert!(
            html.contains("reaches only nose in")
                && html.contains("Drawn backed in")
                && html.contains("data-does=\"take\"")
        );
        assert!(!tried.view(false).html().contains("data-does=\"take\""));
        tried.take_up(Told { inlet: Some(Inlet::Front), ..told });
        assert_eq!(tried.tries(), None, "it is the answer now");
    }

    #[test]
    fn a_footway_is_never_crossed_and_a_socket_has_no_lead() {
        let street = Told { place: Some(ParkingPlace::Street), leads: leads(), ..Told::default() };
        let street = reach(street).view(false).html();
        assert_eq!(
            street.matches("would have to cross the pavement: not allowed").count(),
            4,
            "in the list and the drawing"
        );
        assert!(street.contains(">pavement<"));
        let socket = reach(Told::default()).view(false).html();
        assert!(
            !socket.contains("m lead")
                && socket.contains("How long must the lead be?")
                && socket.contains("The way to this inlet takes")
        );
    }
}
