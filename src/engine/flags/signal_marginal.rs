//! The signal at the spot is between good and weak.
//!
//! **Seen:** a signal at the spot between good and weak, or two measurements of it that disagree.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::calculation::radio::Signal;
use crate::site::verdict;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "signal-marginal", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// How often such a link fails in service: common practice, no source.
const MARGINAL: model::units::Probability = model::units::Probability::of(0.5);

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"signal": {"level": 70}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.answers.signal.data_cable.is(true) {
        return None;
    }
    match verdict(seen.answers, seen.config) {
        Some(Signal::Marginal) => {
            Evidence::with(MARGINAL, "a signal between good and weak, or signs of it that disagree")
        }
        Some(Signal::Good | Signal::Weak) | None => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;
    use model::units::DecibelsUnder;

    #[test]
    fn raised_between_the_limits() {
        assert!(raised(&FLAG, |answers| answers.signal.level = Answer::Known(DecibelsUnder::of(70.0))).is_some());
    }

    #[test]
    fn quiet_where_it_is_good() {
        assert_eq!(raised(&FLAG, |answers| answers.signal.level = Answer::Known(DecibelsUnder::of(66.0))), None);
    }

    #[test]
    fn not_sure_is_no_measurement() {
        assert_eq!(raised(&FLAG, |answers| answers.signal.level = Answer::NotSure), None);
    }
}
