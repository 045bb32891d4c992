//! The board has no spare way.
//!
//! **Seen:** no gaps left in the board.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::CircuitThere;
use model::answers::SpareWays;
use model::units::Probability;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "board-full", weight: Weight::ChangesThePrice, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"board": {"spare_ways": "none"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    // A circuit that is kept has a way already.
    let kept = seen.site.circuit.probability(CircuitThere::has_a_way);
    match seen.answers.board.spare_ways.known()? {
        SpareWays::None if kept == Probability::CERTAIN => None,
        SpareWays::None => Evidence::certain("no gaps left in the board"),
        SpareWays::One | SpareWays::Several => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, SpareWays};

    #[test]
    fn raised_by_no_gap() {
        assert!(raised(&FLAG, |answers| answers.board.spare_ways = Answer::Known(SpareWays::None)).is_some());
    }

    #[test]
    fn quiet_with_one_gap() {
        assert_eq!(raised(&FLAG, |answers| answers.board.spare_ways = Answer::Known(SpareWays::One)), None);
    }

    #[test]
    fn not_sure_is_not_full() {
        assert_eq!(raised(&FLAG, |answers| answers.board.spare_ways = Answer::NotSure), None);
    }
}
