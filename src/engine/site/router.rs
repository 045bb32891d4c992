//! Where the router is, and so how long a data cable from the spot to it is.
//!
//! Common practice, no source.

use super::fact::Fact;
use model::answers::{Answer, Answers, RouterPlace};
use model::config::Config;
use model::terms::KnownBy;
use model::units::{Metres, Probability, Ratio};

/// The way of a data cable from the spot to the router, measured against the way from the spot to the home's board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RouterWay {
    /// The share of the way to the home's board that the cable runs along.
    pub of_the_way: Ratio,
    /// The length that comes on top of that.
    pub beyond: Metres,
    /// The least length: the straight line, where somebody measured that.
    pub least: Metres,
}

impl RouterWay {
    const fn of(of_the_way: f64, beyond: f64) -> Self {
        Self { of_the_way: Ratio::of(of_the_way), beyond: Metres::of(beyond), least: Metres::ZERO }
    }

    /// The cable's length, where `way` is the length from the spot to the home's board.
    #[must_use]
    pub fn length(&self, way: Metres) -> Metres {
        (way * self.of_the_way + self.beyond).max(self.least)
    }
}

/// The possible ways for one place of a router, with their weights: common practice, no source.
type Ways = [(RouterWay, Probability); 3];

/// The weight of the likeliest way: common practice, no source.
const LIKELY: Probability = Probability::of(0.4);
const LESS_OR_MORE: Probability = Probability::of(0.3); // common practice, no source
/// A router by the board: common practice, no source.
const BY_BOARD: Ways = [
    (RouterWay::of(1.0, 2.0), LIKELY),
    (RouterWay::of(1.0, 1.0), LESS_OR_MORE),
    (RouterWay::of(1.0, 4.0), LESS_OR_MORE),
];
/// A router on the way to the car: common practice, no source.
const TOWARDS_CAR: Ways = [
    (RouterWay::of(0.6, 2.0), LIKELY),
    (RouterWay::of(0.4, 1.0), LESS_OR_MORE),
    (RouterWay::of(0.9, 4.0), LESS_OR_MORE),
];
/// A router elsewhere in the house: common practice, no source.
const ELSEWHERE: Ways = [
    (RouterWay::of(1.0, 10.0), LIKELY),
    (RouterWay::of(1.0, 5.0), LESS_OR_MORE),
    (RouterWay::of(1.0, 18.0), LESS_OR_MORE),
];
/// A router of which nobody could tell the place: by the board or on the way to it, or elsewhere. Only two values, since each adds a case
/// to every home of which little is known.
const UNKNOWN: [(RouterWay, Probability); 2] =
    // Common practice, no source.
    [(RouterWay::of(0.85, 2.0), Probability::of(0.6)), (RouterWay::of(1.0, 10.0), Probability::of(0.4))];
/// The factors by which a cable's way is longer than the straight line: common practice, no source.
const ROUND_CORNERS: [(f64, Probability); 3] = [(1.3, LIKELY), (1.1, LESS_OR_MORE), (1.7, LESS_OR_MORE)];

/// Infers the way from the router's place, or else from the distance that the installer recorded. Where both are known, the cable is at
/// least as long as the straight line.
pub(super) fn infer(answers: &Answers, config: &Config) -> Fact<RouterWay> {
    const FROM: &[&str] = &["router-place"];
    let straight = answers.signal.router.known().map(|length| length.in_metres(config.thresholds.pace));
    let (ways, known_by) = match (&answers.signal.router_place, straight) {
        (Answer::Known(RouterPlace::ByBoard), _) => (BY_BOARD, KnownBy::Said),
        (Answer::Known(RouterPlace::TowardsCar), _) => (TOWARDS_CAR, KnownBy::Said),
        (Answer::Known(RouterPlace::Elsewhere), _) => (ELSEWHERE, KnownBy::Said),
        (Answer::NotSure | Answer::NotAsked, Some(straight)) => {
            let ways = ROUND_CORNERS.map(|(factor, weight)| {
                let beyond = straight * Ratio::of(factor);
                (RouterWay { of_the_way: Ratio::ZERO, beyond, least: Metres::ZERO }, weight)
            });
            (ways, KnownBy::Inferred)
        }
        (Answer::NotSure | Answer::NotAsked, None) => return Fact::weighed(&UNKNOWN, KnownBy::Assumed, FROM),
    };
    let least = straight.unwrap_or(Metres::ZERO);
    Fact::weighed(&ways.map(|(way, weight)| (RouterWay { least, ..way }, weight)), known_by, FROM)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::Length;
    use model::config::demo_config;

    fn lengths(way: f64, say: impl FnOnce(&mut Answers)) -> alloc::vec::Vec<f64> {
        let mut answers = Answers::default();
        say(&mut answers);
        infer(&answers, &demo_config())
            .values()
            .iter()
            .map(|(router, _)| router.length(Metres::of(way)).get())
            .collect()
    }

    #[test]
    fn a_router_by_the_board_is_a_little_beyond_it_and_one_elsewhere_farther() {
        assert_eq!(lengths(10.0, |a| a.signal.router_place = Answer::Known(RouterPlace::ByBoard)), [12.0, 11.0, 14.0]);
        assert_eq!(
            lengths(10.0, |a| a.signal.router_place = Answer::Known(RouterPlace::Elsewhere)),
            [20.0, 15.0, 28.0]
        );
        assert_eq!(lengths(10.0, |a| a.signal.router_place = Answer::Known(RouterPlace::TowardsCar)), [8.0, 5.0, 13.0]);
    }

    #[test]
    fn what_the_installer_measured_stands_in_for_the_place_and_bounds_it() {
        assert_eq!(lengths(3.0, |a| a.signal.router = Answer::Known(Length::metres(10.0))), [13.0, 11.0, 17.0]);
        let both = |answers: &mut Answers| {
            answers.signal.router = Answer::Known(Length::metres(13.0));
            answers.signal.router_place = Answer::Known(RouterPlace::ByBoard);
        };
        assert_eq!(lengths(10.0, both), [13.0, 13.0, 14.0]);
    }

    #[test]
    fn not_sure_keeps_near_and_far_alive() {
        let mut answers = Answers::default();
        answers.signal.router_place = Answer::NotSure;
        let fact = infer(&answers, &demo_config());
        assert_eq!((fact.values().len(), fact.known_by), (2, KnownBy::Assumed));
    }
}
