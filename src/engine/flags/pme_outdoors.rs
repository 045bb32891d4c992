//! A PME supply and a car that stands outdoors.
//!
//! **Seen:** the earthing conductor goes to the service head.
//! **Source:** BS 7671 722.411.4.1, seen in BSI's amendment notice.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::{Answer, EarthGoes};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "pme-outdoors",
    weight: Weight::WorthKnowing,
    source: Source::Published("BS 7671 722.411.4.1, seen in BSI's amendment notice"),
    usual: true,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"earthing": {"conductor_goes": "service-head"}}"#, causes::EARTHING_KNOWN);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.earthing.conductor_goes {
        Answer::Known(EarthGoes::ServiceHead) => Evidence::certain("earthing conductor goes to the service head"),
        Answer::Known(EarthGoes::CableSheath | EarthGoes::Rod) => None,
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
            raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead)).unwrap();
        assert_eq!(evidence.seen, ["earthing conductor goes to the service head"]);
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
