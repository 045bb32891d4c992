//! A length is so great that it must be a slip.
//!
//! **Seen:** a run, a wall or a lead longer than a home has.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::RawAnswer;
use model::questions::{beyond_use, question};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "length-beyond-use",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"route": {"length": {"value": 1000, "unit": "metres"}}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let said = |id: &&str| {
        let asked = question(id)?;
        Some(match (asked.get)(seen.answers) {
            RawAnswer::Distance(length) => {
                alloc::format!("{}: {}", asked.path, length.in_metres(seen.config.thresholds.pace))
            }
            _ => alloc::format!("{}: more than 150 m together", asked.path),
        })
    };
    let beyond = beyond_use(seen.answers);
    let mut said = beyond.iter().filter_map(said);
    let first = Evidence::certain(&said.next()?)?;
    Some(said.fold(first, |evidence, next| evidence.and(&next)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Length};

    #[test]
    fn raised_by_a_thousand_metres() {
        let evidence = raised(&FLAG, |answers| answers.route.length = Answer::Known(Length::metres(1000.0))).unwrap();
        assert_eq!(evidence.seen, ["route.length: 1000 m"]);
    }

    #[test]
    fn quiet_for_a_long_way() {
        assert_eq!(raised(&FLAG, |answers| answers.route.length = Answer::Known(Length::metres(60.0))), None);
    }

    #[test]
    fn not_sure_is_no_length() {
        assert_eq!(raised(&FLAG, |answers| answers.route.length = Answer::NotSure), None);
    }
}
