//! There is a spare way; whether the right device can be had for this board is to be confirmed.
//!
//! **Seen:** a spare way that no shared device stands ahead of.
//! **Source:** BS 7671 722.531.3.101 (double-pole, 30 mA), seen in Electrical Contracting News.

use super::{Cause, Evidence, Flag, Seen, Source, WORTH_RAISING, Weight};
use crate::design::board::NotUsed;
use crate::design::{BoardDecision, Decided, DecisionId};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "device-to-confirm",
    weight: Weight::WorthKnowing,
    source: Source::Published("BS 7671 722.531.3.101 (double-pole, 30 mA), seen in Electrical Contracting News"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"board": {"protection": "breakers", "test_buttons": "each-way", "spare_ways": "several", "maker": "an invented name"}}"#,
    "a spare way of its own is found where none was known of",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let way = seen
        .design
        .probability(DecisionId::Board, |decided| matches!(decided, Decided::Board(BoardDecision::UseWay { .. })));
    if way < WORTH_RAISING {
        return None;
    }
    let none_to_be_had = seen.design.probability(DecisionId::Board, |decided| {
        matches!(decided, Decided::Board(BoardDecision::Enclosure { because: NotUsed::NoDevice, .. }))
    });
    let evidence = Evidence::with(none_to_be_had, "a spare way of its own, but perhaps no device that fits it")?;
    Some(match &seen.answers.board.maker {
        Answer::Known(maker) => evidence.and(&alloc::format!("printed on the board: {}", maker.as_str())),
        Answer::NotSure | Answer::NotAsked => evidence.and("maker of the board not known"),
    })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Protection, ShortText, SpareWays, TestButtons};
    use model::units::Probability;

    #[test]
    fn raised_by_a_way_of_its_own() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.protection = Answer::Known(Protection::Breakers);
            answers.board.spare_ways = Answer::Known(SpareWays::Several);
            answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
            answers.board.maker = Answer::Known(ShortText::new("an invented name").unwrap());
        })
        .unwrap();
        assert_eq!(
            evidence.seen,
            ["a spare way of its own, but perhaps no device that fits it", "printed on the board: an invented name"]
        );
        assert!(evidence.probability < Probability::of(0.5));
    }

    #[test]
    fn quiet_where_the_ways_are_shared() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::Breakers);
                answers.board.spare_ways = Answer::Known(SpareWays::Several);
                answers.board.test_buttons = Answer::Known(TestButtons::Two);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_maker_is_said() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.protection = Answer::Known(Protection::Breakers);
            answers.board.spare_ways = Answer::Known(SpareWays::One);
            answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
            answers.board.maker = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(
            evidence.seen,
            ["a spare way of its own, but perhaps no device that fits it", "maker of the board not known"]
        );
    }
}
