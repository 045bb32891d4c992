//! The board meant is one in a garage or outbuilding.
//!
//! **Seen:** a board in a garage or outbuilding.
//! **Why it matters:** a small feed cannot carry a charge point, and an outbuilding may want an electrode of its own.
//! **Installer:** check size, length and protection of its feed before that board is used; else run from the home.
//! **Source:** common practice, no source.

use super::{Evidence, Flag, Seen, Source, Weight};
use crate::answers::Answer;
use crate::units::Probability;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "outbuilding-board", weight: Weight::SettleBeforeBooking, source: Source::CommonPractice, raise };

/// Where somebody cannot tell which board is meant, it may well be the garage's: common practice, no source.
const NOT_TOLD: Probability = Probability::of(0.5);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let outbuilding = &seen.answers.outbuilding;
    let evidence = match outbuilding.board_there {
        Answer::Known(true) => Evidence::certain("the board meant is in a garage or outbuilding")?,
        Answer::NotSure => Evidence::with(NOT_TOLD, "not sure whether the board meant is in a garage or outbuilding")?,
        Answer::Known(false) | Answer::NotAsked => return None,
    };
    let pace = seen.config.thresholds.pace;
    let said = [
        outbuilding.feed_size.known().map(|size| alloc::format!("its feed is of {size}")),
        outbuilding.feed_length.known().map(|length| alloc::format!("its feed is {} long", length.in_metres(pace))),
        outbuilding.feed_device.known().map(|rating| alloc::format!("its feed is protected at {rating}")),
    ];
    Some(said.into_iter().flatten().fold(evidence, |evidence, next| evidence.and(&next)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::answers::{Answer, ParkingPlace};
    use crate::flags::flag::raised;
    use crate::units::{Amps, Probability};

    #[test]
    fn raised_with_what_is_known_of_its_feed() {
        let evidence = raised(&FLAG, |answers| {
            answers.outbuilding.board_there = Answer::Known(true);
            answers.outbuilding.feed_device = Answer::Known(Amps::of(20.0));
        })
        .unwrap();
        assert_eq!(evidence.seen, ["the board meant is in a garage or outbuilding", "its feed is protected at 20 A"]);
    }

    #[test]
    fn quiet_where_the_homes_own_board_is_meant() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.outbuilding.board_there = Answer::Known(false);
                answers.parking.place = Answer::Known(ParkingPlace::DetachedGarage);
            }),
            None
        );
    }

    #[test]
    fn not_sure_which_board_is_said_as_such() {
        let evidence = raised(&FLAG, |answers| answers.outbuilding.board_there = Answer::NotSure).unwrap();
        assert_eq!(evidence.seen, ["not sure whether the board meant is in a garage or outbuilding"]);
        assert!(evidence.probability < Probability::CERTAIN);
    }
}
