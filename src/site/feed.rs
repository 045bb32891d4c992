//! An outbuilding's board: whether it is the one meant, and whether the cable that feeds it carries a charge point.
//!
//! Common practice, no source: a feed is checked before its board is used, and a small one can't carry a charge point.

use super::fact::Fact;
use crate::answers::{Answer, Answers, ParkingPlace};
use crate::assessment::KnownBy;
use crate::config::Config;
use crate::tables::about::at;
use crate::tables::armoured::{BURIED, DROP_90};
use crate::tables::voltage::{DROP_ALLOWED, NOMINAL};
use crate::units::{Amps, Metres, Probability, SquareMillimetres};

/// Which board is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Feed {
    /// The home's own.
    NotThere,
    /// An outbuilding's, whose feed carries a charge point.
    Carries,
    /// An outbuilding's, whose feed does not: a new cable of this length comes from the home.
    TooSmall(Metres),
}

const FROM: &[&str] = &["board-there", "feed-device", "feed-length"];
/// A board in a garage that stands apart, where nobody could tell: common practice, no source.
const MEANT: Probability = Probability::of(0.4);
/// The same where it is not known where the car stands: common practice, no source.
const MEANT_UNKNOWN: Probability = Probability::of(0.05);
/// A feed of which nothing is known carries a charge point: common practice, no source.
const CARRIES: Probability = Probability::of(0.15);
/// How far an outbuilding's board is from the home where nobody measured: common practice, no source.
const FAR: Metres = Metres::of(15.0);
/// The current that a feed must carry: the charge point's, before anything else that hangs on it.
const CHARGE: Amps = Amps::of(32.0);
/// A feed of less carries nothing beside a charge point: common practice, no source.
const LEAST: SquareMillimetres = SquareMillimetres::of(6.0);

/// Reads the outbuilding's answers.
pub(super) fn read(answers: &Answers, config: &Config) -> Fact<Feed> {
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
    let length = said.feed_length.known().map_or(FAR, |length| length.in_metres(config.thresholds.pace));
    let (device, size) = (said.feed_device.known(), said.feed_size.known());
    let too_small = device.is_some_and(|device| *device < CHARGE)
        || size.is_some_and(|size| {
            let row = BURIED.rows.iter().rev().find(|(row, _)| row <= size && *row >= LEAST);
            row.is_none_or(|(row, buried)| {
                *buried < CHARGE
                    || at(DROP_90.rows, *row).is_none_or(|drop| drop * CHARGE * length > NOMINAL * DROP_ALLOWED)
            })
        });
    let carries = match (too_small, device, size) {
        (true, _, _) => Probability::NEVER,
        (false, Some(_), Some(_)) => Probability::CERTAIN,
        (false, _, _) => CARRIES,
    };
    Fact::weighed(
        &[
            (Feed::NotThere, there.complement()),
            (Feed::Carries, there * carries),
            (Feed::TooSmall(length), there * carries.complement()),
        ],
        known_by,
        FROM,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Length;
    use crate::config::demo_config;

    fn feed(size: f64, device: f64, metres: f64) -> Fact<Feed> {
        let mut answers = Answers::default();
        answers.outbuilding.board_there = Answer::Known(true);
        answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(size));
        answers.outbuilding.feed_device = Answer::Known(Amps::of(device));
        answers.outbuilding.feed_length = Answer::Known(Length::metres(metres));
        read(&answers, &demo_config())
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
        assert_eq!(feed(10.0, 40.0, 20.0).values(), [(Feed::Carries, Probability::CERTAIN)]);
    }

    #[test]
    fn not_sure_keeps_all_three_alive() {
        let mut answers = Answers::default();
        answers.outbuilding.board_there = Answer::NotSure;
        assert_eq!(read(&answers, &demo_config()).values().len(), 3);
    }
}
