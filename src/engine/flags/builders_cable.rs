//! A builder left a cable for the charge point.
//!
//! **Seen:** a cable left by a builder.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "builders-cable", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"route": {"builders_cable": true}}"#, causes::THERE_ALREADY);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.route.builders_cable {
        Answer::Known(true) => Evidence::certain("a cable left by a builder"),
        Answer::Known(false) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;

    #[test]
    fn raised_by_such_a_cable() {
        let evidence = raised(&FLAG, |answers| answers.route.builders_cable = Answer::Known(true)).unwrap();
        assert_eq!(evidence.seen, ["a cable left by a builder"]);
    }

    #[test]
    fn quiet_without_one() {
        assert_eq!(raised(&FLAG, |answers| answers.route.builders_cable = Answer::Known(false)), None);
    }

    #[test]
    fn not_sure_is_no_cable() {
        assert_eq!(raised(&FLAG, |answers| answers.route.builders_cable = Answer::NotSure), None);
    }
}
