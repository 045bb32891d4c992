//! Somebody else must make the meter tails dead.
//!
//! **Seen:** an enclosure fed by splitting the tails, no switch after the meter, and no permission here to draw the fuse.
//! **Source:** IET Wiring Matters 106 (some operators let registered electricians withdraw fuses).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::design::{Decided, DecisionId};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "supplier-must-isolate",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "IET Wiring Matters 106 (some operators let registered electricians withdraw fuses), itself, read",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"board": {"spare_ways": "none"}, "meter": {"switch_after": false}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let waits = seen.design.probability(DecisionId::Board, Decided::waits_for_supplier);
    if_likely(
        waits,
        match seen.answers.meter.switch_after {
            Answer::Known(true) => return None,
            Answer::Known(false) => "no switch between meter and board",
            Answer::NotSure | Answer::NotAsked => "no switch between meter and board known of",
        },
    )
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised_with;
    use model::answers::{Answer, SpareWays};
    use model::config::demo_config;
    use model::units::Probability;

    #[test]
    fn raised_where_a_full_board_has_no_switch_before_it() {
        let mut config = demo_config();
        config.thresholds.may_draw_fuse = false;
        let evidence = raised_with(&FLAG, &config, |answers| {
            answers.board.spare_ways = Answer::Known(SpareWays::None);
            answers.meter.switch_after = Answer::Known(false);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["no switch between meter and board"]);
    }

    #[test]
    fn quiet_where_the_fuse_may_be_drawn() {
        let mut config = demo_config();
        config.thresholds.may_draw_fuse = true;
        assert_eq!(
            raised_with(&FLAG, &config, |answers| {
                answers.board.spare_ways = Answer::Known(SpareWays::None);
                answers.meter.switch_after = Answer::Known(false);
            }),
            None
        );
    }

    #[test]
    fn quiet_where_there_is_a_switch() {
        let mut config = demo_config();
        config.thresholds.may_draw_fuse = false;
        assert_eq!(
            raised_with(&FLAG, &config, |answers| {
                answers.board.spare_ways = Answer::Known(SpareWays::None);
                answers.meter.switch_after = Answer::Known(true);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_switch_stays_probable() {
        let mut config = demo_config();
        config.thresholds.may_draw_fuse = false;
        let evidence = raised_with(&FLAG, &config, |answers| {
            answers.board.spare_ways = Answer::Known(SpareWays::None);
            answers.meter.switch_after = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["no switch between meter and board known of"]);
        assert!(evidence.probability < Probability::CERTAIN);
    }
}
