//! The meter is in an outside box, where the installer may put nothing.
//!
//! **Seen:** a meter in an outside box, and an enclosure fed from the tails likely.
//! **Source:** network operators' rule, from memory.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::design::{Decided, DecisionId};
use model::answers::{Answer, MeterPlace};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "outside-meter-box",
    weight: Weight::WorthKnowing,
    source: Source::Published("network operators' rule, from memory"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"board": {"spare_ways": "none"}, "meter": {"place": "outside-box"}}"#,
    "a meter in a shared room wants the freeholder's leave",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.meter.place {
        Answer::Known(MeterPlace::OutsideBox) => {}
        Answer::Known(MeterPlace::Indoors | MeterPlace::Cupboard | MeterPlace::Communal)
        | Answer::NotSure
        | Answer::NotAsked => {
            return None;
        }
    }
    let enclosure = seen.design.probability(DecisionId::Board, Decided::is_enclosure);
    if_likely(enclosure, "meter in an outside box, tails to be split")
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, MeterPlace, Protection, SpareWays, TestButtons};

    #[test]
    fn raised_where_the_tails_are_split() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.spare_ways = Answer::Known(SpareWays::None);
            answers.meter.place = Answer::Known(MeterPlace::OutsideBox);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["meter in an outside box, tails to be split"]);
    }

    #[test]
    fn quiet_where_a_way_is_used() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.board.spare_ways = Answer::Known(SpareWays::Several);
                answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
                answers.meter.place = Answer::Known(MeterPlace::OutsideBox);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_place_is_no_outside_box() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.spare_ways = Answer::Known(SpareWays::None);
                answers.meter.place = Answer::NotSure;
            }),
            None
        );
    }
}
