//! The cable is larger than the plain size.
//!
//! **Seen:** a long route, or one through insulation.
//! **Source:** BS 7671 Appendix 4 (Ib, In, Iz and voltage drop over the whole length).

use super::flag::likely_length;
use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes, if_likely};
use crate::design::cable::PLAIN;
use crate::design::{Decided, DecisionId};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "larger-cable",
    weight: Weight::ChangesThePrice,
    source: Source::Published(
        "BS 7671 Appendix 4 (Ib, In, Iz and voltage drop over the whole length), seen in a revision summary (name not kept)",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"route": {"stretches": [{"along": "outside-wall", "length": {"value": 70, "unit": "metres"}}]}}"#,
    causes::A_WAY_OF_ITS_OWN,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let larger = seen.design.probability(
        DecisionId::Cable,
        |decided| matches!(decided, Decided::Cable(cable) if cable.size.is_some_and(|size| size > PLAIN)),
    );
    let length = likely_length(seen);
    if_likely(
        larger,
        &match (&seen.answers.route.length, &seen.answers.route.stretches) {
            (Answer::Known(_), _) | (_, Answer::Known(_)) => {
                alloc::format!("about {length} from board to charge point")
            }
            (Answer::NotSure | Answer::NotAsked, Answer::NotSure | Answer::NotAsked) => {
                alloc::format!("distance not known; {length} taken as likely")
            }
        },
    )
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Along, Answer, Length};
    use model::units::Probability;

    #[test]
    fn raised_by_a_long_wall() {
        let evidence = raised(&FLAG, |answers| {
            answers.route.length = Answer::Known(Length::metres(60.0));
            answers.route.mostly = Answer::Known(Along::OutsideWall);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["about 60 m from board to charge point"]);
        assert_eq!(evidence.probability, Probability::CERTAIN);
    }

    #[test]
    fn raised_by_insulation_however_short() {
        let evidence = raised(&FLAG, |answers| {
            answers.route.length = Answer::Known(Length::metres(8.0));
            answers.route.mostly = Answer::Known(Along::LoftOrFloor);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["about 8 m from board to charge point"]);
    }

    #[test]
    fn quiet_for_a_plain_run() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.length = Answer::Known(Length::metres(20.0));
                answers.route.mostly = Answer::Known(Along::OutsideWall);
            }),
            None
        );
    }

    #[test]
    fn not_sure_how_far_is_not_yet_far() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.length = Answer::NotSure;
                answers.route.mostly = Answer::Known(Along::OutsideWall);
            }),
            None
        );
    }
}
