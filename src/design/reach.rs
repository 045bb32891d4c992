//! How long a lead must be, from charge point to inlet, for each way the car may stand.
//!
//! The spot is taken to be ahead of one end of the car; from there the lead goes along the car's side. Sizes: common practice,
//! no source.

use crate::answers::{Answers, Inlet};
use crate::units::{Metres, Ratio};

/// Length of a car of middling size.
const CAR: Metres = Metres::of(4.6);
/// From the middle of an end to its corner: half the width.
const HALF_WIDTH: Metres = Metres::of(0.95);
/// From an end back to a wing's inlet.
const TO_WING: Metres = Metres::of(0.9);
/// Down from the charge point, up to the inlet, and a little slack, so that nothing pulls.
const DOWN_AND_UP: Metres = Metres::of(1.5);

/// The lead needed with the nose and with the tail towards the spot; `None` where the spot was not measured or the inlet is not known.
#[must_use]
pub fn lead_needed(answers: &Answers, pace: Ratio) -> Option<[Metres; 2]> {
    let to_car = answers.parking.spot_to_car.known()?.in_metres(pace);
    let (from_nose, from_tail) = match answers.parking.inlet.known()? {
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
    use crate::answers::{Answer, Length};

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
