//! Outbuilding on TT.
//!
//! **Seen:** an outbuilding's board, on a home that has an electrode of its own.
//! **Why it matters:** on TT the cable to an outbuilding needs a residual-current device at its origin, and the outbuilding perhaps an electrode of its own.
//! **Installer:** Test the electrode and the device ahead of the feed before that board is used.
//! **Source:** common practice, no source.

use super::{Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, EarthGoes};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "outbuilding-electrode",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

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
