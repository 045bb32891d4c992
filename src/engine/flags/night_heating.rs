//! Storage heaters charge at night.
//!
//! **Seen:** storage heating.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, Heating};

/// The flag.
pub const FLAG: Flag =
    Flag { code: "night-heating", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"heating": "storage"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.loads.heating {
        Answer::Known(Heating::Storage) => Evidence::certain("storage heaters, charged at night"),
        Answer::Known(Heating::None | Heating::Direct | Heating::HeatPump) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Heating};

    #[test]
    fn raised_by_storage_heaters() {
        let evidence = raised(&FLAG, |answers| answers.loads.heating = Answer::Known(Heating::Storage)).unwrap();
        assert_eq!(evidence.seen, ["storage heaters, charged at night"]);
    }

    #[test]
    fn quiet_for_heating_used_by_day() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.heating = Answer::Known(Heating::Direct)), None);
    }

    #[test]
    fn not_sure_is_no_storage_heating() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.heating = Answer::NotSure), None);
    }
}
