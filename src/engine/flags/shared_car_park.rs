//! The car stands in a shared car park.
//!
//! **Seen:** a bay of their own in a shared car park.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, ParkingPlace};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "shared-car-park",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"parking": {"place": "shared-car-park"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.parking.place {
        Answer::Known(ParkingPlace::SharedCarPark) => Evidence::certain("a bay of their own in a shared car park"),
        Answer::Known(
            ParkingPlace::Drive | ParkingPlace::AttachedGarage | ParkingPlace::DetachedGarage | ParkingPlace::Street,
        )
        | Answer::NotSure
        | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, ParkingPlace};

    #[test]
    fn raised_by_such_a_bay() {
        let evidence =
            raised(&FLAG, |answers| answers.parking.place = Answer::Known(ParkingPlace::SharedCarPark)).unwrap();
        assert_eq!(evidence.seen, ["a bay of their own in a shared car park"]);
    }

    #[test]
    fn quiet_for_a_garage() {
        assert_eq!(raised(&FLAG, |answers| answers.parking.place = Answer::Known(ParkingPlace::AttachedGarage)), None);
    }

    #[test]
    fn not_sure_is_not_a_car_park() {
        assert_eq!(raised(&FLAG, |answers| answers.parking.place = Answer::NotSure), None);
    }
}
