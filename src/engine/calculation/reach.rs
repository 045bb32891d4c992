//! How long a lead must be, from charge point to inlet, for each way the car may stand.
//!
//! The spot is taken to lie ahead of one end of the car; from there the lead runs along the car's side. Sizes: common practice, no source.

use model::answers::{Answers, Inlet, ParkingPlace};
use model::units::{Metres, Ratio};

/// Length of a car of middling size: common practice, no source.
pub const CAR: Metres = Metres::of(4.6);
/// From the middle of an end to its corner: half the width; common practice, no source.
pub const HALF_WIDTH: Metres = Metres::of(0.95);
/// From an end back to a wing's inlet: common practice, no source.
pub const TO_WING: Metres = Metres::of(0.9);
/// Down from the charge point, up to the inlet, and a little slack, so that nothing pulls: common practice, no source.
pub const DOWN_AND_UP: Metres = Metres::of(1.5);

/// From the spot to the car where nobody measured it, for a picture alone: common practice, no source.
pub const UNMEASURED: Metres = Metres::of(1.0);
/// Every place where a car may have its inlet, once round it.
pub const PLACES: [Inlet; 6] =
    [Inlet::Front, Inlet::FrontRight, Inlet::RearRight, Inlet::Rear, Inlet::RearLeft, Inlet::FrontLeft];

/// Whether a fixed lead of some length reaches the inlet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reaches {
    /// It reaches whichever way the car stands.
    BothWays,
    /// It reaches only with the car's nose towards the spot.
    NoseIn,
    /// It reaches only with the car's tail towards the spot.
    TailIn,
    /// Neither way.
    NeitherWay,
    /// It would lie across a public footway, which is refused whatever its length.
    AcrossFootway,
}

/// Whether a lead reaches, where `nose` and `tail` are the lengths needed with that end of the car towards the spot. Between home and
/// street lies the footway: a lead trailed across it is refused (Highways Act 1980, section 178, from memory).
#[must_use]
pub fn reaches(lead: Metres, [nose, tail]: [Metres; 2], place: Option<ParkingPlace>) -> Reaches {
    match (lead >= nose, lead >= tail) {
        _ if place == Some(ParkingPlace::Street) => Reaches::AcrossFootway,
        (true, true) => Reaches::BothWays,
        (true, false) => Reaches::NoseIn,
        (false, true) => Reaches::TailIn,
        (false, false) => Reaches::NeitherWay,
    }
}

/// The lead needed with the nose and with the tail towards the spot; `None` where the distance was not measured or the inlet is not known.
#[must_use]
pub fn lead_needed(answers: &Answers, pace: Ratio) -> Option<[Metres; 2]> {
    needed(*answers.parking.inlet.known()?, answers.parking.spot_to_car.known()?.in_metres(pace))
}

/// The lead needed with the nose and with the tail towards the spot, for an inlet in this place and this distance from spot to car; `None`
/// where the place is not known yet.
#[must_use]
pub fn needed(inlet: Inlet, to_car: Metres) -> Option<[Metres; 2]> {
    let (from_nose, from_tail) = match inlet {
        Inlet::Front => (Metres::ZERO, HALF_WIDTH + CAR + HALF_WIDTH),
        Inlet::FrontLeft | Inlet::FrontRight => (HALF_WIDTH + TO_WING, HALF_WIDTH + CAR.less(TO_WING)),
        Inlet::RearLeft | Inlet::RearRight => (HALF_WIDTH + CAR.less(TO_WING), HALF_WIDTH + TO_WING),
        Inlet::Rear => (HALF_WIDTH + CAR + HALF_WIDTH, Metres::ZERO),
        Inlet::NotKnownYet => return None,
    };
    Some([from_nose, from_tail].map(|along| to_car + along + DOWN_AND_UP))
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Length};

    #[test]
    fn a_lead_is_judged_by_both_ways_and_never_across_a_footway() {
        let needs = needed(Inlet::FrontLeft, Metres::of(1.0)).unwrap();
        assert!(needs[0] < needs[1]);
        let at = |lead, place| reaches(Metres::of(lead), needs, place);
        assert_eq!(at(4.0, None), Reaches::NeitherWay);
        assert_eq!(at(needs[0].get(), None), Reaches::NoseIn, "just long enough is long enough");
        assert_eq!(at(needs[1].get(), Some(ParkingPlace::Drive)), Reaches::BothWays);
        assert_eq!(at(50.0, Some(ParkingPlace::Street)), Reaches::AcrossFootway);
        let tail = needed(Inlet::Rear, Metres::of(1.0)).unwrap();
        assert_eq!(reaches(Metres::of(5.0), tail, None), Reaches::TailIn);
        for inlet in PLACES {
            let [nose, tail] = needed(inlet, Metres::ZERO).unwrap();
            assert!(nose >= DOWN_AND_UP && tail >= DOWN_AND_UP && nose != tail, "{inlet:?}");
        }
        assert_eq!(needed(Inlet::NotKnownYet, Metres::ZERO), None);
    }

    #[test]
    fn an_inlet_at_the_nose_is_far_where_the_tail_is_towards_the_spot() {
        let mut answers = Answers::default();
        assert_eq!(lead_needed(&answers, Ratio::of(0.75)), None);
        answers.parking.spot_to_car = Answer::Known(Length::metres(1.0));
        assert_eq!(lead_needed(&answers, Ratio::of(0.75)), None, "the inlet is not known");
        answers.parking.inlet = Answer::Known(Inlet::Front);
        let [nose, tail] = lead_needed(&answers, Ratio::of(0.75)).unwrap();
        assert_eq!(nose, Metres::of(2.5));
        assert!(tail > Metres::of(8.0));
        answers.parking.inlet = Answer::Known(Inlet::NotKnownYet);
        assert_eq!(lead_needed(&answers, Ratio::of(0.75)), None);
    }
}
