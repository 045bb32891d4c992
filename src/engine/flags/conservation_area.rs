//! The home is in a conservation area.
//!
//! **Seen:** a conservation area.
//! **Why it matters:** consent is seldom wanted for a charge point, but a local direction may ask for it.
//! **Installer:** have them ask the planning authority whether a local direction applies.
//! **Source:** common practice, no source.

use super::{Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, Protected};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "conservation-area",
    weight: Weight::WorthKnowing,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

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
