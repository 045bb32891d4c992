//! The home has an earth electrode of its own.
//!
//! **Seen:** the earthing conductor goes to a rod in the ground.
//! **Source:** BS 7671 Table 41.5 (from memory): 50 V / 30 mA is 1667 ohms; over 200 ohms may not be stable.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, EarthGoes};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "tt-electrode",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "BS 7671 Table 41.5 (from memory): 50 V / 30 mA is 1667 ohms; over 200 ohms may not be stable",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"earthing": {"conductor_goes": "rod"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.earthing.conductor_goes {
        Answer::Known(EarthGoes::Rod) => Evidence::certain("earthing conductor goes to a rod in the ground"),
        Answer::Known(EarthGoes::ServiceHead | EarthGoes::CableSheath) => None,
        Answer::NotSure | Answer::NotAsked => None, // another flag says that the earthing is unknown
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, EarthGoes};

    #[test]
    fn raised_where_it_was_seen() {
        let evidence =
            raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod)).unwrap();
        assert_eq!(evidence.seen, ["earthing conductor goes to a rod in the ground"]);
    }

    #[test]
    fn quiet_where_it_goes_elsewhere() {
        assert_eq!(
            raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::Known(EarthGoes::CableSheath)),
            None
        );
    }

    #[test]
    fn not_sure_is_another_flag() {
        assert_eq!(raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::NotSure), None);
    }
}
