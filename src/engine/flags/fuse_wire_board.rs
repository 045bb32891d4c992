//! The board has fuses, not breakers.
//!
//! **Seen:** fuse wire or cartridge fuses in the board.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::site::BoardState;
use model::terms::KnownBy;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "fuse-wire-board",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"board": {"protection": "fuse-wire"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.site.board.known_by == KnownBy::Contradicted {
        return None; // another flag reports answers that contradict each other
    }
    let fuse_wire = seen.site.board.probability(|board| board == BoardState::FuseWire);
    if_likely(fuse_wire, "fuse wire or cartridge fuses in the board")
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Age, Answer, Protection};

    #[test]
    fn raised_by_fuse_wire() {
        let evidence = raised(&FLAG, |answers| answers.board.protection = Answer::Known(Protection::FuseWire)).unwrap();
        assert_eq!(evidence.seen, ["fuse wire or cartridge fuses in the board"]);
    }

    #[test]
    fn quiet_for_breakers_in_an_old_home() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.home.age = Answer::Known(Age::Before1930);
            }),
            None
        );
    }

    #[test]
    fn not_sure_in_an_old_home_is_not_yet_fuse_wire() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::NotSure;
                answers.home.age = Answer::Known(Age::Before1930);
            }),
            None
        );
    }
}
