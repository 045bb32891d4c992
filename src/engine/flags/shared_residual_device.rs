//! The spare ways are behind a residual-current device that other circuits share.
//!
//! **Seen:** one or two test buttons for the whole board, and a gap left in it.
//! **Source:** BS 7671 722.531.3.101 (each point protected individually), seen in Electrical Contracting News.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes, if_likely};
use crate::design::board::NotUsed;
use crate::design::{BoardDecision, Decided, DecisionId};
use model::answers::{Answer, TestButtons};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "shared-residual-device",
    weight: Weight::ChangesThePrice,
    source: Source::Published(
        "BS 7671 722.531.3.101 (each point protected individually), seen in Electrical Contracting News",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"board": {"protection": "breakers", "spare_ways": "one", "test_buttons": "two"}}"#,
    causes::SEEN_AGAIN,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let shared = seen.design.probability(DecisionId::Board, |decided| {
        matches!(decided, Decided::Board(BoardDecision::Enclosure { because: NotUsed::SharedDevice, .. }))
    });
    let said = match seen.answers.board.test_buttons {
        Answer::Known(TestButtons::One) => "one test button for the whole board",
        Answer::Known(TestButtons::Two) => "two test buttons: a split board",
        Answer::Known(TestButtons::None | TestButtons::EachWay) => return None,
        Answer::NotSure | Answer::NotAsked => "test buttons not counted",
    };
    if_likely(shared, said)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Protection, SpareWays, TestButtons};
    use model::units::Probability;

    #[test]
    fn raised_by_two_buttons_and_a_gap() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.protection = Answer::Known(Protection::Breakers);
            answers.board.spare_ways = Answer::Known(SpareWays::One);
            answers.board.test_buttons = Answer::Known(TestButtons::Two);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["two test buttons: a split board"]);
    }

    #[test]
    fn quiet_with_a_button_on_each_way() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.board.spare_ways = Answer::Known(SpareWays::One);
                answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
            }),
            None
        );
    }

    #[test]
    fn quiet_where_the_board_is_full() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.board.spare_ways = Answer::Known(SpareWays::None);
                answers.board.test_buttons = Answer::Known(TestButtons::Two);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_buttons_stays_possible_beside_a_gap() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.protection = Answer::Known(Protection::Breakers);
            answers.board.spare_ways = Answer::Known(SpareWays::One);
            answers.board.test_buttons = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["test buttons not counted"]);
        assert!(evidence.probability < Probability::of(0.7));
    }
}
