//! They could not tell whether anything alarming is to be seen.
//!
//! **Seen:** the hazard question answered "not sure", or not put.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::HazardInference;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "hazard-not-sure",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"hazard": {"signs": "not-sure"}}"#,
    "a danger that may be there stands in place of one that is",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.site.hazard {
        HazardInference::NotSure => Evidence::certain("not sure whether anything alarming is to be seen"),
        HazardInference::NotAsked => Evidence::certain("nobody was asked whether anything alarming is to be seen"),
        HazardInference::Seen { .. } | HazardInference::LongAgo { .. } | HazardInference::NothingSeen => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, HazardSign, Set};

    #[test]
    fn raised_by_not_sure() {
        let evidence = raised(&FLAG, |answers| answers.hazard.signs = Answer::NotSure).unwrap();
        assert_eq!(evidence.seen, ["not sure whether anything alarming is to be seen"]);
    }

    #[test]
    fn raised_where_nobody_was_asked() {
        let evidence = raised(&FLAG, |_| {}).unwrap();
        assert_eq!(evidence.seen, ["nobody was asked whether anything alarming is to be seen"]);
    }

    #[test]
    fn quiet_where_something_was_seen_for_that_is_another_flag() {
        assert_eq!(
            raised(&FLAG, |answers| answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Buzzing]))),
            None
        );
    }

    #[test]
    fn not_sure_of_the_place_is_not_not_sure_of_the_hazard() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.hazard.signs = Answer::Known(Set::NONE);
                answers.hazard.place = Answer::NotSure;
            }),
            None
        );
    }
}
