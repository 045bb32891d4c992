//! The meter is in a shared room or hall.
//!
//! **Seen:** a meter in a shared meter room or hall.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, MeterPlace};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "communal-meter",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"meter": {"place": "communal"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.meter.place {
        Answer::Known(MeterPlace::Communal) => Evidence::certain("meter in a shared meter room or hall"),
        Answer::Known(MeterPlace::Indoors | MeterPlace::OutsideBox | MeterPlace::Cupboard)
        | Answer::NotSure
        | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, MeterPlace};

    #[test]
    fn raised_by_a_shared_room() {
        let evidence = raised(&FLAG, |answers| answers.meter.place = Answer::Known(MeterPlace::Communal)).unwrap();
        assert_eq!(evidence.seen, ["meter in a shared meter room or hall"]);
    }

    #[test]
    fn quiet_in_a_cupboard_of_their_own() {
        assert_eq!(raised(&FLAG, |answers| answers.meter.place = Answer::Known(MeterPlace::Cupboard)), None);
    }

    #[test]
    fn not_sure_is_no_shared_room() {
        assert_eq!(raised(&FLAG, |answers| answers.meter.place = Answer::NotSure), None);
    }
}
