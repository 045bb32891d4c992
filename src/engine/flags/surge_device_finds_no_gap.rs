//! The board has one gap, but two devices need one.
//!
//! **Seen:** one gap in the board and no surge protective device.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::design::board::Surge;
use crate::design::{BoardDecision, Decided, DecisionId};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "surge-device-finds-no-gap",
    weight: Weight::ChangesThePrice,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"board": {"protection": "breakers", "test_buttons": "each-way", "spare_ways": "one", "surge_device": false}, "parking": {"place": "drive"}}"#,
    "one gap is found where none was known of",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let beside = seen.design.probability(DecisionId::Board, |decided| {
        matches!(decided, Decided::Board(BoardDecision::UseWay { surge: Surge::Beside, .. }))
    });
    if_likely(beside, "one gap for the charge point's device, none for surge protection")
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Protection, SpareWays, TestButtons};

    #[test]
    fn raised_by_one_gap() {
        assert!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
                answers.board.spare_ways = Answer::Known(SpareWays::One);
                answers.board.surge_device = Answer::Known(false);
                answers.outbuilding.board_there = Answer::Known(false);
            })
            .is_some()
        );
    }

    #[test]
    fn quiet_with_two_gaps() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
                answers.board.spare_ways = Answer::Known(SpareWays::Several);
                answers.board.surge_device = Answer::Known(false);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_gaps_is_not_one_gap() {
        assert_eq!(raised(&FLAG, |answers| answers.board.spare_ways = Answer::NotSure), None);
    }
}
