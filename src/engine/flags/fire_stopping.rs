//! A hole drilled between homes must be sealed against fire.
//!
//! **Seen:** a flat, or a bay in a shared car park.
//! **Source:** BS 7671 527.2 (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{HomeKind, ParkingPlace};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "fire-stopping",
    weight: Weight::ChangesThePrice,
    source: Source::Published("BS 7671 527.2 (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"parking": {"place": "shared-car-park"}, "route": {"walls": 1}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.answers.route.walls.known().is_some_and(|walls| walls.get() == 0) {
        return None;
    }
    let (flat, car_park) =
        (seen.answers.home.kind.is(HomeKind::Flat), seen.answers.parking.place.is(ParkingPlace::SharedCarPark));
    let said = match (flat, car_park) {
        (true, true) => "a flat, and a bay in a shared car park",
        (true, false) => "a flat",
        (false, true) => "a bay in a shared car park",
        (false, false) => return None,
    };
    Evidence::certain(said)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount, HomeKind, ParkingPlace};

    #[test]
    fn raised_by_a_flat_and_by_a_car_park() {
        let flat = raised(&FLAG, |answers| answers.home.kind = Answer::Known(HomeKind::Flat)).unwrap();
        assert_eq!(flat.seen, ["a flat"]);
        let bay = raised(&FLAG, |answers| answers.parking.place = Answer::Known(ParkingPlace::SharedCarPark)).unwrap();
        assert_eq!(bay.seen, ["a bay in a shared car park"]);
        let both = raised(&FLAG, |answers| {
            answers.home.kind = Answer::Known(HomeKind::Flat);
            answers.parking.place = Answer::Known(ParkingPlace::SharedCarPark);
            answers.route.walls = Answer::Known(BoundedCount::new(1).unwrap());
        });
        assert_eq!(both.unwrap().seen, ["a flat, and a bay in a shared car park"]);
    }

    #[test]
    fn quiet_where_no_wall_is_drilled() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.home.kind = Answer::Known(HomeKind::Flat);
                answers.route.walls = Answer::Known(BoundedCount::new(0).unwrap());
            }),
            None
        );
    }

    #[test]
    fn quiet_in_a_house() {
        assert_eq!(raised(&FLAG, |answers| answers.home.kind = Answer::Known(HomeKind::Terrace)), None);
    }

    #[test]
    fn not_sure_of_the_walls_keeps_it() {
        assert!(
            raised(&FLAG, |answers| {
                answers.home.kind = Answer::Known(HomeKind::Flat);
                answers.route.walls = Answer::NotSure;
            })
            .is_some()
        );
        assert_eq!(raised(&FLAG, |answers| answers.home.kind = Answer::NotSure), None);
    }
}
