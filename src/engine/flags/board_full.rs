//! The board has no spare way.
//!
//! **Seen:** no gaps left in the board.
//! **Why it matters:** the charge point then wants a small enclosure of its own beside the board, or a way must be freed.
//! **Installer:** plan for an enclosure fed by splitting the tails; look at the photograph for a way that can be freed.
//! **Source:** common practice, no source.

use super::{Evidence, Flag, Seen, Source, Weight};
use crate::site::CircuitThere;
use model::answers::SpareWays;
use model::units::Probability;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "board-full", weight: Weight::ChangesThePrice, source: Source::CommonPractice, usual: false, raise };

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    // A circuit that is kept has its way already.
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
