//! Part of the route is high up.
//!
//! **Seen:** a stretch above about 3 m.
//! **Source:** Work at Height Regulations 2005 (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "high-work",
    weight: Weight::ChangesThePrice,
    source: Source::Published("Work at Height Regulations 2005 (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"route": {"stretches": [{"along": "outside-wall", "length": {"value": 6, "unit": "metres"}, "high": true}]}}"#,
    causes::A_WAY_OF_ITS_OWN,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match &seen.answers.route.stretches {
        Answer::Known(stretches) => {
            let high = stretches.iter().any(|stretch| stretch.high);
            if high { Evidence::certain("a stretch above about 3 m") } else { None }
        }
        Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Along, Answer, Length, Stretch};

    #[test]
    fn raised_by_one_high_stretch() {
        let evidence = raised(&FLAG, |answers| {
            answers.route.stretches = Answer::Known(alloc::vec![Stretch {
                along: Along::OutsideWall,
                length: Length::metres(6.0),
                high: true
            }])
        })
        .unwrap();
        assert_eq!(evidence.seen, ["a stretch above about 3 m"]);
    }

    #[test]
    fn quiet_along_the_same_wall_in_reach() {
        assert_eq!(
            raised(&FLAG, |answers| answers.route.stretches = Answer::Known(alloc::vec![Stretch {
                along: Along::OutsideWall,
                length: Length::metres(6.0),
                high: false
            }])),
            None
        );
    }

    #[test]
    fn not_sure_of_the_stretches_is_not_high() {
        assert_eq!(raised(&FLAG, |answers| answers.route.stretches = Answer::NotSure), None);
    }
}
