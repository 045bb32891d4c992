//! A battery for the home stands beside the charge point.
//!
//! **Seen:** a battery, or a rating of its inverter.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::units::Kilowatts;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "battery-beside", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"battery": true}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let loads = &seen.answers.loads;
    match (loads.battery.known(), loads.battery_power.known()) {
        (Some(false), _) | (None, None) => None,
        (_, Some(power)) if *power > Kilowatts::ZERO => {
            Evidence::certain(&alloc::format!("a battery of {power} by its inverter"))
        }
        (None, Some(_)) => None,
        (Some(true), _) => Evidence::certain("a battery of unknown rating"),
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;
    use model::units::Kilowatts;

    #[test]
    fn raised_by_a_battery_with_or_without_its_rating() {
        assert!(raised(&FLAG, |answers| answers.loads.battery = Answer::Known(true)).is_some());
        let read = raised(&FLAG, |answers| answers.loads.battery_power = Answer::Known(Kilowatts::of(3.6))).unwrap();
        assert_eq!(read.seen, ["a battery of 3.6 kW by its inverter"]);
    }

    #[test]
    fn quiet_where_there_is_none() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.battery = Answer::Known(false)), None);
        assert_eq!(raised(&FLAG, |answers| answers.loads.battery_power = Answer::Known(Kilowatts::ZERO)), None);
    }

    #[test]
    fn not_sure_of_a_battery_says_nothing() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.battery = Answer::NotSure), None);
    }
}
