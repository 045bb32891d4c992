//! There is a certificate or inspection report to photograph.
//!
//! **Seen:** a certificate or inspection report for the wiring.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "report-to-photograph",
    weight: Weight::WorthKnowing,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"board": {"report": true}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.board.report {
        Answer::Known(true) => Evidence::certain("a certificate or inspection report is there"),
        Answer::Known(false) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;

    #[test]
    fn raised_by_a_report() {
        assert!(raised(&FLAG, |answers| answers.board.report = Answer::Known(true)).is_some());
    }

    #[test]
    fn quiet_without_one() {
        assert_eq!(raised(&FLAG, |answers| answers.board.report = Answer::Known(false)), None);
    }

    #[test]
    fn not_sure_is_none_to_photograph() {
        assert_eq!(raised(&FLAG, |answers| answers.board.report = Answer::NotSure), None);
    }
}
