//! An overhead line is near the route.
//!
//! **Seen:** an overhead line near the route.
//! **Source:** HSE guidance note GS6, avoiding danger from overhead power lines (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "overhead-line",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published("HSE guidance note GS6, avoiding danger from overhead power lines (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"route": {"overhead_line": true}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.route.overhead_line {
        Answer::Known(true) => Evidence::certain("an overhead line near the route"),
        Answer::Known(false) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;

    #[test]
    fn raised_by_a_line() {
        let evidence = raised(&FLAG, |answers| answers.route.overhead_line = Answer::Known(true)).unwrap();
        assert_eq!(evidence.seen, ["an overhead line near the route"]);
    }

    #[test]
    fn quiet_without_one() {
        assert_eq!(raised(&FLAG, |answers| answers.route.overhead_line = Answer::Known(false)), None);
    }

    #[test]
    fn not_sure_is_no_line() {
        assert_eq!(raised(&FLAG, |answers| answers.route.overhead_line = Answer::NotSure), None);
    }
}
