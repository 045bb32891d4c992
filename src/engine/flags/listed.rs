//! The home is listed.
//!
//! **Seen:** a listed building or its grounds.
//! **Source:** General Permitted Development Order 2015 (the curtilage of a listed building is excluded).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, Protected};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "listed",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "General Permitted Development Order 2015 (the curtilage of a listed building is excluded), the Order itself, read",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"home": {"protected": "listed"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.home.protected {
        Answer::Known(Protected::Listed) => Evidence::certain("a listed building or its grounds"),
        Answer::Known(Protected::ConservationArea | Protected::Neither) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Protected};

    #[test]
    fn raised_by_a_listing() {
        let evidence = raised(&FLAG, |answers| answers.home.protected = Answer::Known(Protected::Listed)).unwrap();
        assert_eq!(evidence.seen, ["a listed building or its grounds"]);
    }

    #[test]
    fn quiet_in_a_conservation_area() {
        assert_eq!(raised(&FLAG, |answers| answers.home.protected = Answer::Known(Protected::ConservationArea)), None);
    }

    #[test]
    fn not_sure_is_no_listing() {
        assert_eq!(raised(&FLAG, |answers| answers.home.protected = Answer::NotSure), None);
    }
}
