//! The board's main switch must carry more than the least rating that such switches have.
//!
//! **Seen:** a way of the board to be used, a demand with the charge point and a main fuse over 63 A; the switch's rating is not known.
//! **Source:** BS 7671 536.4.3.2 (from memory); ratings BS EN 60947-3 (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::design::board::LEAST_MAIN_SWITCH;
use crate::design::{BoardDecision, Decided, DecisionId};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "main-switch-not-read",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published("BS 7671 536.4.3.2 (from memory); ratings BS EN 60947-3 (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"showers": 2, "cooking": "electric"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.answers.hazard.is_noticed() {
        return None; // nothing is designed until the home is safe
    }
    let used = seen
        .design
        .probability(DecisionId::Board, |decided| matches!(decided, Decided::Board(BoardDecision::UseWay { .. })));
    let over = seen.design.probability(DecisionId::Network, |decided| {
        matches!(decided, Decided::Network(process)
            if process.demand > LEAST_MAIN_SWITCH && process.fuse > LEAST_MAIN_SWITCH)
    });
    // The board's room and the home's demand are taken as independent.
    if_likely(used * over, &alloc::format!("a demand over {LEAST_MAIN_SWITCH} through the board's main switch"))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised_with;
    use model::answers::{Answer, Answers, BoundedCount, Protection, SpareWays, TestButtons};
    use model::config::{BoardDevice, demo_config};

    fn seen(say: impl FnOnce(&mut Answers)) -> Option<super::Evidence> {
        let mut config = demo_config();
        config.devices = alloc::vec![BoardDevice { printed: "invented board".into(), double_pole: true }];
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
        raised_with(&FLAG, &config, |answers| {
            answers.board.protection = Answer::Known(Protection::Breakers);
            answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
            answers.board.spare_ways = Answer::Known(SpareWays::Several);
            answers.board.maker = Answer::Known(model::answers::ShortText::new("invented board").unwrap());
            answers.outbuilding.board_there = Answer::Known(false);
            answers.loads.showers = Answer::Known(BoundedCount::new(2).unwrap());
            say(answers);
        })
    }

    #[test]
    fn raised_by_two_showers_and_a_way_that_is_used() {
        assert!(seen(|_| ()).is_some());
    }

    #[test]
    fn quiet_where_the_board_is_full() {
        assert_eq!(seen(|answers| answers.board.spare_ways = Answer::Known(SpareWays::None)), None);
    }

    #[test]
    fn quiet_where_little_is_drawn() {
        assert_eq!(
            seen(|answers| {
                crate::flags::flag::electric_cooking_alone(answers);
                answers.loads.cooking = Answer::Known(model::answers::Cooking::Gas);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_board_and_the_loads_is_not_a_switch_that_is_too_small() {
        assert_eq!(
            seen(|answers| {
                answers.board.spare_ways = Answer::NotSure;
                answers.loads.showers = Answer::NotSure;
            }),
            None
        );
    }
}
