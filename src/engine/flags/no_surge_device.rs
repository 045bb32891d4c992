//! The board has no surge protective device.
//!
//! **Seen:** no surge protective device in the board.
//! **Source:** BS 7671 443.4.1, seen in Professional Electrician on the amendment of 2022.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "no-surge-device",
    weight: Weight::WorthKnowing,
    source: Source::Published("BS 7671 443.4.1, seen in Professional Electrician on the amendment of 2022"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"board": {"surge_device": false}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.board.surge_device {
        Answer::Known(false) => Evidence::certain("no surge protective device seen in the board"),
        Answer::Known(true) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;

    #[test]
    fn raised_where_none_was_seen() {
        let evidence = raised(&FLAG, |answers| answers.board.surge_device = Answer::Known(false)).unwrap();
        assert_eq!(evidence.seen, ["no surge protective device seen in the board"]);
    }

    #[test]
    fn quiet_where_there_is_one() {
        assert_eq!(raised(&FLAG, |answers| answers.board.surge_device = Answer::Known(true)), None);
    }

    #[test]
    fn not_sure_is_priced_and_not_flagged() {
        assert_eq!(raised(&FLAG, |answers| answers.board.surge_device = Answer::NotSure), None);
    }
}
