//! The board meant is one in a garage or outbuilding.
//!
//! **Seen:** a board in a garage or outbuilding.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use crate::calculation::feed::{Feeding, Judged};

use crate::context::Context;
use alloc::string::{String, ToString};
use model::answers::Answer;
use model::units::Probability;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "outbuilding-board",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// The probability that the garage's board is meant, where somebody can't tell which is: common practice, no source.
const NOT_TOLD: Probability = Probability::of(0.5);

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"parking": {"place": "detached-garage"}, "outbuilding": {"board_there": true, "feed_device": 20}}"#,
    causes::AT_ITS_FEED,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let outbuilding = &seen.answers.outbuilding;
    let evidence = match outbuilding.board_there {
        Answer::Known(true) => Evidence::certain("the board meant is in a garage or outbuilding")?,
        Answer::NotSure => {
            return Evidence::with(NOT_TOLD, "not sure whether the board meant is in a garage or outbuilding");
        }
        Answer::Known(false) | Answer::NotAsked => return None,
    };
    let feeding = Feeding::said(seen.answers, seen.config);
    let or_not = |said: Option<String>, what: &str| said.unwrap_or_else(|| alloc::format!("its {what} is not known"));
    let known = [
        or_not(feeding.size.map(|size| alloc::format!("its feed is of {size}")), "feed's cross-section"),
        or_not(feeding.length.map(|length| alloc::format!("its feed is {length} long")), "feed's length"),
        or_not(feeding.device.map(|rating| alloc::format!("its feed is protected at {rating}")), "feed's protection"),
    ];
    let (site, given) = (seen.site, Context { answers: seen.answers, config: seen.config, point: seen.point });
    let charge = crate::site::drawn(&site.existing, &site.supply, &site.main_fuse, &given).likeliest();
    let against = match feeding.judged(charge) {
        Judged::Carries | Judged::NotKnown => None,
        Judged::DeviceTooSmall => Some("its feed's protection is under the charge current"),
        Judged::CableTooThin => Some("its feed's cable is too thin for the charge current"),
        Judged::DropsTooMuch => Some("its feed's voltage drop is too great"),
    };
    let against = against.map(|said| match feeding.most(charge) {
        Some(most) => alloc::format!("{said}; nothing known is against {most}"),
        None => said.to_string(),
    });
    let over =
        feeding.device_over_cable().then(|| "its feed's protection is rated over what its cable carries".to_string());
    Some(known.into_iter().chain(against).chain(over).fold(evidence, |evidence, next| evidence.and(&next)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, ParkingPlace};
    use model::units::{Amps, Probability, SquareMillimetres};

    #[test]
    fn raised_with_what_is_known_of_its_feed() {
        let evidence = raised(&FLAG, |answers| {
            answers.outbuilding.board_there = Answer::Known(true);
            answers.outbuilding.feed_device = Answer::Known(Amps::of(20.0));
        })
        .unwrap();
        assert_eq!(
            evidence.seen,
            [
                "the board meant is in a garage or outbuilding",
                "its feed's cross-section is not known",
                "its feed's length is not known",
                "its feed is protected at 20 A",
                "its feed's protection is under the charge current; nothing known is against 20 A",
            ]
        );
    }

    #[test]
    fn a_device_larger_than_its_cable_is_said() {
        let evidence = raised(&FLAG, |answers| {
            answers.outbuilding.board_there = Answer::Known(true);
            answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(2.5));
            answers.outbuilding.feed_device = Answer::Known(Amps::of(40.0));
        })
        .unwrap();
        assert_eq!(
            evidence.seen[4..],
            [
                "its feed's cable is too thin for the charge current; nothing known is against 14 A",
                "its feed's protection is rated over what its cable carries",
            ]
        );
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
