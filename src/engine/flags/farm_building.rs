//! The cable begins in, crosses or ends at a farm building.
//!
//! **Seen:** a cable that begins in, crosses or ends at what is, or was, a farm building.
//! **Source:** BS 7671 section 705 (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "farm-building",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published("BS 7671 section 705 (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"parking": {"place": "detached-garage"}, "outbuilding": {"board_there": true, "farm": true}}"#,
    causes::AT_ITS_FEED,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.outbuilding.farm {
        Answer::Known(true) => {
            Evidence::certain("the cable begins in, crosses or ends at a farm building, or what was one")
        }
        Answer::Known(false) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;

    #[test]
    fn raised_by_a_farm_building() {
        assert!(raised(&FLAG, |answers| answers.outbuilding.farm = Answer::Known(true)).is_some());
    }

    #[test]
    fn quiet_for_a_garage() {
        assert_eq!(raised(&FLAG, |answers| answers.outbuilding.farm = Answer::Known(false)), None);
    }

    #[test]
    fn not_sure_is_looked_at_anyway() {
        assert_eq!(raised(&FLAG, |answers| answers.outbuilding.farm = Answer::NotSure), None);
    }
}
