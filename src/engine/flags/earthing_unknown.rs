//! The earthing arrangement is not known.
//!
//! **Seen:** where the earthing conductor goes was not seen.
//! **Source:** BS 7671 722.411.4.1, seen in BSI's amendment notice.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, EarthGoes};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "earthing-unknown",
    weight: Weight::WorthKnowing,
    source: Source::Published("BS 7671 722.411.4.1, seen in BSI's amendment notice"),
    usual: true,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"earthing": {"conductor_goes": "not-sure"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.earthing.conductor_goes {
        Answer::Known(EarthGoes::ServiceHead | EarthGoes::CableSheath | EarthGoes::Rod) => None,
        Answer::NotSure => Evidence::certain("they could not tell where the earthing conductor goes"),
        Answer::NotAsked => Evidence::certain("where the earthing conductor goes was not asked about"),
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Age, Answer, EarthGoes};

    #[test]
    fn raised_where_it_was_not_asked() {
        let evidence = raised(&FLAG, |answers| answers.home.age = Answer::Known(Age::To1966)).unwrap();
        assert_eq!(evidence.seen, ["where the earthing conductor goes was not asked about"]);
    }

    #[test]
    fn quiet_once_it_was_seen() {
        assert_eq!(
            raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::Known(EarthGoes::CableSheath)),
            None
        );
    }

    #[test]
    fn not_sure_raises_it() {
        let evidence = raised(&FLAG, |answers| answers.earthing.conductor_goes = Answer::NotSure).unwrap();
        assert_eq!(evidence.seen, ["they could not tell where the earthing conductor goes"]);
    }
}
