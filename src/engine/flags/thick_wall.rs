//! A thick wall is to be drilled.
//!
//! **Seen:** a wall to drill that is thicker than a usual one.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::THICK_WALL;
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "thick-wall", weight: Weight::ChangesThePrice, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"route": {"wall_thickness": {"value": 0.6, "unit": "metres"}}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let thickness = match &seen.answers.route.wall_thickness {
        Answer::Known(thickness) => thickness.in_metres(seen.config.thresholds.pace),
        Answer::NotSure | Answer::NotAsked => return None,
    };
    if thickness <= THICK_WALL {
        return None;
    }
    Evidence::certain(&alloc::format!("{thickness} of wall to drill"))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Length};

    #[test]
    fn raised_by_a_thick_wall() {
        assert!(raised(&FLAG, |answers| answers.route.wall_thickness = Answer::Known(Length::metres(0.6))).is_some());
    }

    #[test]
    fn quiet_for_a_cavity_wall() {
        assert_eq!(raised(&FLAG, |answers| answers.route.wall_thickness = Answer::Known(Length::metres(0.3))), None);
    }

    #[test]
    fn not_sure_is_not_thick() {
        assert_eq!(raised(&FLAG, |answers| answers.route.wall_thickness = Answer::NotSure), None);
    }
}
