//! The network operator set a limit.
//!
//! **Seen:** the network operator's answer, recorded with a limit on the whole home.
//! **Source:** BS 7671 722.311.201 (load control counts), seen in a training summary (name not kept).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, OperatorAnswer};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "operators-limit",
    weight: Weight::ChangesThePrice,
    source: Source::Published("BS 7671 722.311.201 (load control counts), seen in a training summary (name not kept)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause =
    Cause::lowering(r#"{"operator": {"answer": "limited", "limit": 60}}"#, "the network operator has answered");

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.operator.answer {
        Answer::Known(OperatorAnswer::Limited) => {}
        Answer::Known(_) | Answer::NotSure | Answer::NotAsked => return None,
    }
    Evidence::certain(&match seen.answers.operator.limit {
        Answer::Known(limit) => alloc::format!("the network operator's limit on the whole home: {limit}"),
        Answer::NotSure | Answer::NotAsked => alloc::string::String::from("the network operator's limit, not recorded"),
    })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, OperatorAnswer};

    #[test]
    fn raised_with_the_limit() {
        assert!(
            raised(&FLAG, |answers| {
                answers.operator.answer = Answer::Known(OperatorAnswer::Limited);
                answers.operator.limit = Answer::Known(model::units::Amps::of(60.0));
            })
            .is_some()
        );
    }

    #[test]
    fn quiet_where_it_is_accepted_whole() {
        assert_eq!(raised(&FLAG, |answers| answers.operator.answer = Answer::Known(OperatorAnswer::Accepted)), None);
    }

    #[test]
    fn not_sure_of_the_answer_is_no_limit() {
        assert_eq!(raised(&FLAG, |answers| answers.operator.answer = Answer::NotSure), None);
    }
}
