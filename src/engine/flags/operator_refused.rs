//! The network operator has refused.
//!
//! **Seen:** the network operator's answer, recorded as a refusal.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, OperatorAnswer};

/// The flag.
pub const FLAG: Flag =
    Flag { code: "operator-refused", weight: Weight::Stop, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"operator": {"answer": "refused"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.operator.answer {
        Answer::Known(OperatorAnswer::Refused) => Evidence::certain("the network operator's answer: refused"),
        Answer::Known(_) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, OperatorAnswer};

    #[test]
    fn raised_by_a_refusal() {
        assert!(raised(&FLAG, |answers| answers.operator.answer = Answer::Known(OperatorAnswer::Refused)).is_some());
    }

    #[test]
    fn quiet_where_it_is_left_as_it_is() {
        assert_eq!(raised(&FLAG, |answers| answers.operator.answer = Answer::Known(OperatorAnswer::LeftAsItIs)), None);
    }

    #[test]
    fn not_sure_of_the_answer_is_no_refusal() {
        assert_eq!(raised(&FLAG, |answers| answers.operator.answer = Answer::NotSure), None);
    }
}
