//! The home has more than one board.
//!
//! **Seen:** two or more boards.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "several-boards", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"board": {"boards": 2}}"#, causes::NOT_THE_BOARD_MEANT);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.board.boards {
        Answer::Known(boards) if boards.get() > 1 => {
            Evidence::certain(&alloc::format!("boards counted: {}", boards.get()))
        }
        Answer::Known(_) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount};

    #[test]
    fn raised_by_two() {
        let evidence =
            raised(&FLAG, |answers| answers.board.boards = Answer::Known(BoundedCount::new(2).unwrap())).unwrap();
        assert_eq!(evidence.seen, ["boards counted: 2"]);
    }

    #[test]
    fn quiet_with_one() {
        assert_eq!(raised(&FLAG, |answers| answers.board.boards = Answer::Known(BoundedCount::new(1).unwrap())), None);
    }

    #[test]
    fn not_sure_is_not_several() {
        assert_eq!(raised(&FLAG, |answers| answers.board.boards = Answer::NotSure), None);
    }
}
