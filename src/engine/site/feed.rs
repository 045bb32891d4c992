//! An outbuilding's board: whether it is the one meant, and whether the cable that feeds it can carry a charge point.
//!
//! Common practice, no source: a feed is checked before its board is used, and a small one can't carry a charge point.

use super::Supply;
use super::fact::Fact;
use crate::calculation::feed::{Feeding, Judged};
use crate::context::Context;
use model::answers::{Answer, Answers, ParkingPlace};
use model::config::Config;
use model::terms::KnownBy;
use model::units::{Amps, Metres, Probability};

/// Which board is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Feed {
    /// The home's own.
    NotThere,
    /// An outbuilding's, whose feed carries the charge point at this current.
    Carries(Amps),
    /// An outbuilding's, whose feed can't: a new cable of this length comes from the home.
    TooSmall(Metres),
}

impl Feed {
    /// Whether the feed can't carry a charge point, so that its power comes by a new cable from the home.
    #[must_use]
    pub const fn is_too_small(self) -> bool {
        matches!(self, Self::TooSmall(_))
    }
}

const FROM: &[&str] = &["board-there", "feed-device", "feed-size", "feed-length"];
/// The probability that the board in a garage that stands apart is meant, where nobody could tell: common practice, no source.
const MEANT: Probability = Probability::of(0.4);
/// The same where it is not known where the car stands: common practice, no source.
const MEANT_UNKNOWN: Probability = Probability::of(0.05);
/// The probability that a feed carries a charge point where neither its device nor its size is known: common practice, no source.
const CARRIES: Probability = Probability::of(0.15);
/// The same where one of the two is known, and is large enough: common practice, no source.
const CARRIES_BY_ONE: Probability = Probability::of(0.4);
/// The same where both are, and only the length is not known: common practice, no source.
const CARRIES_BY_BOTH: Probability = Probability::of(0.85);
/// How far an outbuilding's board is from the home where nobody measured: common practice, no source.
pub const FAR: Metres = Metres::of(15.0);

/// Infers which board is meant, and what an outbuilding's feed carries, from the answers and the current that the charge point draws.
pub(super) fn infer(
    answers: &Answers,
    config: &Config,
    existing: &Fact<Amps>,
    supply: &Fact<Supply>,
    fuse: &Fact<Amps>,
) -> Fact<Feed> {
    let said = &answers.outbuilding;
    let there = match said.board_there {
        Answer::Known(true) => Probability::CERTAIN,
        Answer::Known(false) => return Fact::sure(Feed::NotThere, KnownBy::Said, FROM),
        Answer::NotSure => MEANT,
        Answer::NotAsked if answers.parking.place.is(ParkingPlace::DetachedGarage) => MEANT,
        Answer::NotAsked if answers.parking.place.known().is_some() => {
            return Fact::sure(Feed::NotThere, KnownBy::Inferred, FROM);
        }
        Answer::NotAsked => MEANT_UNKNOWN,
    };
    let known_by = if said.board_there.known().is_some() { KnownBy::Inferred } else { KnownBy::Assumed };
    let feeding = Feeding::said(answers, config);
    let drawn = super::drawn(existing, supply, fuse, &Context::of(answers, config));
    let length = feeding.length.unwrap_or(FAR);
    let mut values = alloc::vec![(Feed::NotThere, there.complement())];
    for (charge, weight) in drawn.values() {
        let carries = match feeding.judged(*charge) {
            Judged::Carries => Probability::CERTAIN,
            Judged::DeviceTooSmall | Judged::CableTooThin | Judged::DropsTooMuch => Probability::NEVER,
            Judged::NotKnown => match (feeding.device, feeding.size) {
                (None, None) => CARRIES,
                (Some(_), None) | (None, Some(_)) => CARRIES_BY_ONE,
                (Some(_), Some(_)) => CARRIES_BY_BOTH,
            },
        };
        values.push((Feed::Carries(*charge), there * *weight * carries));
        values.push((Feed::TooSmall(length), there * *weight * carries.complement()));
    }
    Fact::weighed(&values, known_by, FROM)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site;
    use model::answers::{BoundedCount, Cooking, Heating, Length, OperatorAnswer, OtherPoint};
    use model::config::demo_config;
    use model::units::SquareMillimetres;

    fn infer(answers: &Answers, config: &Config) -> Fact<Feed> {
        site::infer(answers, config).feed
    }

    fn carries(feed: Feed) -> bool {
        matches!(feed, Feed::Carries(_))
    }

    fn feed(size: f64, device: f64, metres: f64) -> Fact<Feed> {
        let mut answers = Answers::default();
        answers.outbuilding.board_there = Answer::Known(true);
        answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(size));
        answers.outbuilding.feed_device = Answer::Known(Amps::of(device));
        answers.outbuilding.feed_length = Answer::Known(Length::metres(metres));
        infer(&answers, &demo_config())
    }

    #[test]
    fn a_small_feed_cannot_carry_a_charge_point() {
        assert_eq!(feed(2.5, 16.0, 30.0).likeliest(), Feed::TooSmall(Metres::of(30.0)));
        assert_eq!(feed(6.0, 20.0, 10.0).likeliest(), Feed::TooSmall(Metres::of(10.0)), "its device is too small");
        assert_eq!(
            feed(6.0, 40.0, 90.0).likeliest(),
            Feed::TooSmall(Metres::of(90.0)),
            "its voltage drop is too great"
        );
    }

    #[test]
    fn a_stout_feed_can() {
        assert_eq!(feed(10.0, 40.0, 20.0).values(), [(Feed::Carries(Amps::of(32.0)), Probability::CERTAIN)]);
    }

    #[test]
    fn a_smaller_charge_point_asks_less_of_it() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.current = Amps::of(16.0));
        let mut answers = Answers::default();
        answers.outbuilding.board_there = Answer::Known(true);
        answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(4.0));
        answers.outbuilding.feed_device = Answer::Known(Amps::of(20.0));
        answers.outbuilding.feed_length = Answer::Known(Length::metres(10.0));
        assert_eq!(infer(&answers, &config).values(), [(Feed::Carries(Amps::of(16.0)), Probability::CERTAIN)]);
        assert_eq!(infer(&answers, &demo_config()).likeliest(), Feed::TooSmall(Metres::of(10.0)));
    }

    #[test]
    fn each_thing_known_in_its_favour_makes_it_likelier() {
        let mut answers = Answers::default();
        answers.outbuilding.board_there = Answer::Known(true);
        let carries = |answers: &Answers| infer(answers, &demo_config()).probability(carries);
        assert_eq!(carries(&answers), CARRIES);
        answers.outbuilding.feed_device = Answer::Known(Amps::of(40.0));
        assert_eq!(carries(&answers), CARRIES_BY_ONE);
        answers.outbuilding.feed_size = Answer::NotSure;
        assert_eq!(carries(&answers), CARRIES_BY_ONE, "not sure is neither for nor against it");
        answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(10.0));
        assert_eq!(carries(&answers), CARRIES_BY_BOTH);
        answers.outbuilding.feed_length = Answer::Known(Length::metres(20.0));
        assert_eq!(carries(&answers), Probability::CERTAIN);
    }

    #[test]
    fn not_sure_keeps_all_three_alive() {
        let mut answers = Answers::default();
        answers.outbuilding.board_there = Answer::NotSure;
        assert_eq!(infer(&answers, &demo_config()).values().len(), 3);
    }

    /// A home without large loads, held at the operator's limit by load sensing: never more than that flows through the feed.
    #[test]
    fn a_feed_is_judged_at_the_limit_that_the_home_is_held_at() {
        let limited = |limit: f64, sensing: bool, showers: u8| {
            let (mut config, mut answers) = (demo_config(), Answers::default());
            config.charge_points.iter_mut().for_each(|point| point.load_sensing = sensing);
            answers.loads.showers = Answer::Known(BoundedCount::new(showers).unwrap());
            answers.loads.cooking = Answer::Known(Cooking::Gas);
            answers.loads.heating = Answer::Known(Heating::None);
            answers.loads.hot_tub = Answer::Known(false);
            answers.loads.other_point = Answer::Known(OtherPoint::None);
            answers.operator.answer = Answer::Known(OperatorAnswer::Limited);
            answers.operator.limit = Answer::Known(Amps::of(limit));
            answers.outbuilding.board_there = Answer::Known(true);
            answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(4.0));
            answers.outbuilding.feed_device = Answer::Known(Amps::of(25.0));
            answers.outbuilding.feed_length = Answer::Known(Length::metres(10.0));
            infer(&answers, &config)
        };
        assert_eq!(limited(25.0, true, 0).likeliest(), Feed::Carries(Amps::of(25.0)), "37 A is more than 1.4 × 25 A");
        assert_eq!(limited(27.0, true, 0).likeliest(), Feed::TooSmall(Metres::of(10.0)), "its device is for 25 A");
        assert_eq!(
            limited(40.0, true, 0).likeliest(),
            Feed::TooSmall(Metres::of(10.0)),
            "all 32 A are under the limit"
        );
        assert_eq!(limited(25.0, false, 0).probability(carries), Probability::NEVER, "nothing holds it there");
        assert_eq!(
            limited(25.0, true, 2).likeliest(),
            Feed::Carries(Amps::of(25.0)),
            "where the home alone is over the limit the charge point pauses"
        );
    }
}
