//! The car stands on the street.
//!
//! **Seen:** street parking.
//! **Source:** Department for Transport guidance, December 2024 (authorised channels are at the highway authority's discretion).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, ParkingPlace};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "street-parking",
    weight: Weight::Stop,
    source: Source::Published(
        "Department for Transport guidance, December 2024 (authorised channels are at the highway authority's discretion), title not kept, itself, read",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"parking": {"place": "street"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.parking.place {
        Answer::Known(ParkingPlace::Street) => Evidence::certain("the car stands on the street"),
        Answer::Known(
            ParkingPlace::Drive
            | ParkingPlace::AttachedGarage
            | ParkingPlace::DetachedGarage
            | ParkingPlace::SharedCarPark,
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
    fn raised_by_the_street() {
        let evidence = raised(&FLAG, |answers| answers.parking.place = Answer::Known(ParkingPlace::Street)).unwrap();
        assert_eq!(evidence.seen, ["the car stands on the street"]);
    }

    #[test]
    fn quiet_in_a_shared_car_park() {
        assert_eq!(raised(&FLAG, |answers| answers.parking.place = Answer::Known(ParkingPlace::SharedCarPark)), None);
    }

    #[test]
    fn not_sure_is_not_the_street() {
        assert_eq!(raised(&FLAG, |answers| answers.parking.place = Answer::NotSure), None);
    }
}
