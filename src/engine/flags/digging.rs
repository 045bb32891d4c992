//! Part of the route is dug in.
//!
//! **Seen:** a route under soft ground or paving, or one that probably is.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes, if_likely};
use crate::design::{Decided, DecisionId};
use crate::site::digs;
use model::answers::{Along, Answer};
use model::units::Probability;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "digging", weight: Weight::ChangesThePrice, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"route": {"stretches": [{"along": "paving", "length": {"value": 8, "unit": "metres"}}]}}"#,
    causes::A_WAY_OF_ITS_OWN,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let dug =
        seen.design.probability(DecisionId::Cable, |decided| matches!(decided, Decided::Cable(cable) if cable.digs));
    // Even where the route itself is dug nowhere, a new cable to the outbuilding may be.
    let way = digs(seen.answers, &seen.site.route_along);
    let said = match (&seen.answers.route.stretches, &seen.answers.route.mostly) {
        // Arithmetic: the likelier of two.
        _ if way < dug && way < Probability::of(0.5) => "a new cable from the home to the outbuilding",
        (Answer::Known(stretches), _) if !stretches.is_empty() => "stretches of the route under the ground",
        (_, Answer::Known(Along::Paving)) => "mostly under paving, concrete or tarmac",
        (_, Answer::Known(_)) => "mostly under soft ground",
        (_, Answer::NotSure | Answer::NotAsked) => "the garage stands apart and the route is not known",
    };
    if_likely(dug, said)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Along, Answer, Length, ParkingPlace, Stretch};

    #[test]
    fn raised_by_paving() {
        let evidence = raised(&FLAG, |answers| answers.route.mostly = Answer::Known(Along::Paving)).unwrap();
        assert_eq!(evidence.seen, ["mostly under paving, concrete or tarmac"]);
    }

    #[test]
    fn raised_by_one_stretch_of_three() {
        let evidence = raised(&FLAG, |answers| {
            let stretch = |along| Stretch { along, length: Length::metres(4.0), high: false };
            answers.route.stretches = Answer::Known(alloc::vec![
                stretch(Along::Inside),
                stretch(Along::SoftGround),
                stretch(Along::OutsideWall)
            ]);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["stretches of the route under the ground"]);
    }

    #[test]
    fn quiet_along_a_fence() {
        assert_eq!(raised(&FLAG, |answers| answers.route.mostly = Answer::Known(Along::Fence)), None);
    }

    #[test]
    fn not_sure_on_a_drive_is_not_yet_digging() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.mostly = Answer::NotSure;
                answers.parking.place = Answer::Known(ParkingPlace::Drive);
            }),
            None
        );
    }

    #[test]
    fn not_sure_where_a_garage_stands_apart_is_probably_digging() {
        let evidence = raised(&FLAG, |answers| {
            answers.route.mostly = Answer::NotSure;
            answers.parking.place = Answer::Known(ParkingPlace::DetachedGarage);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["the garage stands apart and the route is not known"]);
    }
}
