//! The network operator's answer is dated before the day on which it was asked.
//!
//! **Seen:** both days, as they were recorded.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::day::written;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "operator-dates-disagree",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"operator": {"asked_on": "2026-03-10", "answer": "accepted", "answered_on": "2026-03-02"}}"#,
    "the network operator has answered",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let operator = &seen.answers.operator;
    let (asked, answered) = operator.asked_on.known().zip(operator.answered_on.known())?;
    if answered >= asked {
        return None;
    }
    Evidence::certain(&alloc::format!("asked on {}, but answered on {}", written(*asked), written(*answered)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::Evidence;
    use crate::flags::flag::raised;
    use jiff::civil::{Date, date};
    use model::answers::{Answer, OperatorAnswer};

    fn dated(asked: Answer<Date>, answered: Answer<Date>) -> Option<Evidence> {
        raised(&FLAG, |answers| {
            answers.operator.answer = Answer::Known(OperatorAnswer::Accepted);
            answers.operator.asked_on = asked;
            answers.operator.answered_on = answered;
        })
    }

    #[test]
    fn raised_by_an_answer_of_the_day_before() {
        let evidence = dated(Answer::Known(date(2026, 3, 1)), Answer::Known(date(2026, 2, 28))).unwrap();
        assert_eq!(evidence.seen, ["asked on 2026-03-01, but answered on 2026-02-28"]);
    }

    #[test]
    fn quiet_where_it_answered_on_the_same_day() {
        let day = Answer::Known(date(2026, 3, 1));
        assert_eq!(dated(day, day), None);
    }

    #[test]
    fn not_sure_of_a_day_contradicts_nothing() {
        let day = Answer::Known(date(2026, 3, 1));
        for (asked, answered) in [(Answer::NotSure, day), (day, Answer::NotSure), (Answer::NotAsked, day)] {
            assert_eq!(dated(asked, answered), None);
        }
    }
}
