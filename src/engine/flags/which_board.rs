//! It is not known which of several boards is meant.
//!
//! **Seen:** several boards, and the one that was described is not the one that is meant, or nobody could tell.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::{Answer, WhichBoard};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "which-board",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"board": {"boards": 2, "which": "not-sure"}, "parking": {"place": "drive"}}"#,
    causes::NOT_THE_BOARD_MEANT,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let board = &seen.answers.board;
    let boards = board.boards.known().filter(|boards| boards.get() > 1)?;
    // An outbuilding's board is known to be the one meant.
    if seen.answers.outbuilding.board_there.is(true) {
        return None;
    }
    let said = match board.which {
        Answer::Known(WhichBoard::Described) => return None,
        Answer::Known(WhichBoard::Another) => "another board is meant than the one that was described",
        Answer::NotSure => "not sure which of them is meant",
        Answer::NotAsked => "which of them is meant was not asked",
    };
    Some(Evidence::certain(&alloc::format!("boards counted: {}", boards.get()))?.and(said))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Answers, BoundedCount, WhichBoard};

    fn of(boards: u8, which: Answer<WhichBoard>) -> impl Fn(&mut Answers) {
        move |answers| {
            answers.board.boards = Answer::Known(BoundedCount::new(boards).unwrap());
            answers.board.which = which;
        }
    }

    #[test]
    fn raised_by_another_board() {
        let evidence = raised(&FLAG, of(2, Answer::Known(WhichBoard::Another))).unwrap();
        assert_eq!(evidence.seen, ["boards counted: 2", "another board is meant than the one that was described"]);
    }

    #[test]
    fn quiet_where_it_is_the_one_described_or_there_is_one() {
        assert_eq!(raised(&FLAG, of(2, Answer::Known(WhichBoard::Described))), None);
        assert_eq!(raised(&FLAG, of(1, Answer::NotAsked)), None);
        assert_eq!(
            raised(&FLAG, |answers| {
                of(2, Answer::NotSure)(answers);
                answers.outbuilding.board_there = Answer::Known(true);
            }),
            None
        );
    }

    #[test]
    fn not_sure_which_is_looked_at() {
        assert!(raised(&FLAG, of(2, Answer::NotSure)).is_some());
        assert!(raised(&FLAG, of(3, Answer::NotAsked)).is_some());
    }
}
