//! The tails from meter to board are long.
//!
//! **Seen:** a distance from meter to board over the limit in the settings.
//! **Source:** network operators' rule, from memory (tails over about 3 m).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "tails-long",
    weight: Weight::ChangesThePrice,
    source: Source::Published("network operators' rule, from memory (tails over about 3 m)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause =
    Cause::never(r#"{"meter": {"to_board": {"value": 5, "unit": "metres"}, "switch_after": false}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let thresholds = &seen.config.thresholds;
    let tails = seen.answers.meter.to_board.known()?.in_metres(thresholds.pace);
    if tails <= thresholds.tails {
        return None;
    }
    let evidence = Evidence::certain(&alloc::format!("{tails} from meter to board"))?;
    Some(match seen.answers.meter.switch_after {
        Answer::Known(true) => evidence.and("a switch between them was seen: perhaps fused already"),
        Answer::Known(false) => evidence.and("no switch between them was seen"),
        Answer::NotSure | Answer::NotAsked => evidence,
    })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Length};

    #[test]
    fn raised_by_five_metres() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.to_board = Answer::Known(Length::metres(5.0));
            answers.meter.switch_after = Answer::Known(false);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["5 m from meter to board", "no switch between them was seen"]);
    }

    #[test]
    fn quiet_at_just_three_metres() {
        assert_eq!(raised(&FLAG, |answers| answers.meter.to_board = Answer::Known(Length::metres(3.0))), None);
    }

    #[test]
    fn not_sure_is_not_long() {
        assert_eq!(raised(&FLAG, |answers| answers.meter.to_board = Answer::NotSure), None);
    }
}
