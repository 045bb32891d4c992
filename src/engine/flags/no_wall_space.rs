//! There is no room for an enclosure beside the board.
//!
//! **Seen:** no wall space beside the board, and an enclosure of its own likely.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::design::{Decided, DecisionId};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "no-wall-space",
    weight: Weight::ChangesThePrice,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"board": {"spare_ways": "none", "wall_space": false}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.board.wall_space {
        Answer::Known(false) => {}
        Answer::Known(true) | Answer::NotSure | Answer::NotAsked => return None,
    }
    let enclosure = seen.design.probability(DecisionId::Board, Decided::is_enclosure);
    if_likely(enclosure, "no wall space beside the board")
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Protection, SpareWays, TestButtons};

    #[test]
    fn raised_where_a_full_board_has_no_space_beside_it() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.spare_ways = Answer::Known(SpareWays::None);
            answers.board.wall_space = Answer::Known(false);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["no wall space beside the board"]);
    }

    #[test]
    fn quiet_where_the_board_itself_is_used() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.board.spare_ways = Answer::Known(SpareWays::Several);
                answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
                answers.board.wall_space = Answer::Known(false);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_space_is_not_no_space() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.spare_ways = Answer::Known(SpareWays::None);
                answers.board.wall_space = Answer::NotSure;
            }),
            None
        );
    }
}
