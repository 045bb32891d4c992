//! A cable-sheath earth that may have become PME upstream.
//!
//! **Seen:** the earthing conductor goes to the sheath of the supply cable.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::{Answer, EarthGoes};

/// The flag.
pub const FLAG: Flag =
    Flag { code: "tn-s-may-be-pme", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"earthing": {"conductor_goes": "cable-sheath"}}"#, causes::EARTHING_KNOWN);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.earthing.conductor_goes {
        Answer::Known(EarthGoes::CableSheath) => {
            Evidence::certain("earthing conductor goes to the sheath of the supply cable")
        }
        Answer::Known(EarthGoes::ServiceHead | EarthGoes::Rod) => None,
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
            raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::Known(EarthGoes::CableSheath)).unwrap();
        assert_eq!(evidence.seen, ["earthing conductor goes to the sheath of the supply cable"]);
    }

    #[test]
    fn quiet_where_it_goes_elsewhere() {
        assert_eq!(
            raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead)),
            None
        );
    }

    #[test]
    fn not_sure_is_another_flag() {
        assert_eq!(raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::NotSure), None);
    }
}
