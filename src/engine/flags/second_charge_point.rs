//! Another charge point stays.
//!
//! **Seen:** a charge point there already, to be kept.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, OtherPoint};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "second-charge-point",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"other_point": "kept"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.loads.other_point {
        Answer::Known(OtherPoint::Kept) => Evidence::certain("a charge point there already, to be kept"),
        Answer::Known(OtherPoint::None | OtherPoint::Replaced) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, OtherPoint};

    #[test]
    fn raised_by_one_that_stays() {
        let evidence = raised(&FLAG, |answers| answers.loads.other_point = Answer::Known(OtherPoint::Kept)).unwrap();
        assert_eq!(evidence.seen, ["a charge point there already, to be kept"]);
    }

    #[test]
    fn quiet_where_it_is_replaced() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.other_point = Answer::Known(OtherPoint::Replaced)), None);
    }

    #[test]
    fn not_sure_is_hardly_ever_a_second_one() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.other_point = Answer::NotSure), None);
    }
}
