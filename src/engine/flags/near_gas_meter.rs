//! The charge point would be close to the gas meter.
//!
//! **Seen:** a spot for the charge point close to the gas meter.
//! **Source:** BS 6891 (0.15 m from a gas meter, from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;
use model::units::Metres;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "near-gas-meter",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published("BS 6891 (0.15 m from a gas meter, from memory)"),
    usual: false,
    raise,
};

/// A distance judged by eye is doubted below this: common practice, no source.
const CLOSE: Metres = Metres::of(0.5);

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"earthing": {"gas_meter_distance": {"value": 0.4, "unit": "metres"}}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let distance = match &seen.answers.earthing.gas_meter_distance {
        Answer::Known(distance) => distance.in_metres(seen.config.thresholds.pace),
        Answer::NotSure | Answer::NotAsked => return None,
    };
    if distance > CLOSE {
        return None;
    }
    Evidence::certain(&alloc::format!("{distance} from the gas meter to the spot"))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Length};

    #[test]
    fn raised_within_half_a_metre() {
        assert!(
            raised(&FLAG, |answers| answers.earthing.gas_meter_distance = Answer::Known(Length::metres(0.4))).is_some()
        );
    }

    #[test]
    fn quiet_beyond() {
        assert_eq!(
            raised(&FLAG, |answers| answers.earthing.gas_meter_distance = Answer::Known(Length::metres(0.6))),
            None
        );
    }

    #[test]
    fn not_sure_is_not_close() {
        assert_eq!(raised(&FLAG, |answers| answers.earthing.gas_meter_distance = Answer::NotSure), None);
    }
}
