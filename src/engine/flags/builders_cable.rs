//! A builder left a cable for the charge point.
//!
//! **Seen:** a cable left by a builder.
//! **Why it matters:** it is of use only if its size, route and both ends can be proved.
//! **Installer:** ask for photos of both ends and any certificate; test it before relying on it.
//! **Source:** common practice, no source.

use super::{Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "builders-cable", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

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
