//! The home is in a conservation area.
//!
//! **Seen:** a conservation area.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, Protected};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "conservation-area",
    weight: Weight::WorthKnowing,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"home": {"protected": "conservation-area"}}"#,
    "a listed building wants consent before anything is fixed",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.home.protected {
        Answer::Known(Protected::ConservationArea) => Evidence::certain("a conservation area"),
        Answer::Known(Protected::Listed | Protected::Neither) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Protected};

    #[test]
    fn raised_by_the_area() {
        let evidence =
            raised(&FLAG, |answers| answers.home.protected = Answer::Known(Protected::ConservationArea)).unwrap();
        assert_eq!(evidence.seen, ["a conservation area"]);
    }

    #[test]
    fn quiet_where_neither_applies() {
        assert_eq!(raised(&FLAG, |answers| answers.home.protected = Answer::Known(Protected::Neither)), None);
    }

    #[test]
    fn not_sure_is_no_area() {
        assert_eq!(raised(&FLAG, |answers| answers.home.protected = Answer::NotSure), None);
    }
}
