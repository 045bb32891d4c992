//! An outbuilding is fed from a home that has an earth electrode of its own (TT).
//!
//! **Seen:** an outbuilding's board, on a home that has an electrode of its own.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::{Answer, EarthGoes};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "outbuilding-electrode",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"parking": {"place": "detached-garage"}, "outbuilding": {"board_there": true}, "earthing": {"conductor_goes": "rod"}}"#,
    causes::AT_ITS_FEED,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let there = seen.answers.outbuilding.board_there.is(true);
    match seen.answers.earthing.conductor_goes {
        Answer::Known(EarthGoes::Rod) if there => Evidence::certain("a rod at the home, and a board in an outbuilding"),
        Answer::Known(_) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, EarthGoes};

    #[test]
    fn raised_by_a_rod_and_an_outbuilding() {
        assert!(
            raised(&FLAG, |answers| {
                answers.outbuilding.board_there = Answer::Known(true);
                answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod);
            })
            .is_some()
        );
    }

    #[test]
    fn quiet_at_the_homes_own_board() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.outbuilding.board_there = Answer::Known(false);
                answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_earthing_is_flagged_elsewhere() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.outbuilding.board_there = Answer::Known(true);
                answers.earthing.conductor_goes = Answer::NotSure;
            }),
            None
        );
    }
}
