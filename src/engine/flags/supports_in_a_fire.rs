//! Cables inside need supports that hold in a fire.
//!
//! **Seen:** a route that runs inside the home.
//! **Source:** BS 7671 521.10.202, seen in a trade article (name not kept).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use crate::site::said_in_stretches;
use model::answers::{Along, Answer};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "supports-in-a-fire",
    weight: Weight::WorthKnowing,
    source: Source::Published("BS 7671 521.10.202, seen in a trade article (name not kept)"),
    usual: true,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"route": {"stretches": [{"along": "inside", "length": {"value": 8, "unit": "metres"}}]}}"#,
    causes::A_WAY_OF_ITS_OWN,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let inside = |along: Along| matches!(along, Along::Inside | Along::LoftOrFloor);
    let runs_inside = match said_in_stretches(seen.answers) {
        Some(stretches) => stretches.iter().any(|stretch| inside(stretch.along)),
        None => match seen.answers.route.mostly {
            Answer::Known(along) => inside(along),
            Answer::NotSure | Answer::NotAsked => false,
        },
    };
    if runs_inside { Evidence::certain("the route runs inside, or in a loft or under a floor") } else { None }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Along, Answer};

    #[test]
    fn raised_by_a_route_inside() {
        assert!(raised(&FLAG, |answers| answers.route.mostly = Answer::Known(Along::Inside)).is_some());
    }

    #[test]
    fn quiet_under_ground() {
        assert_eq!(raised(&FLAG, |answers| answers.route.mostly = Answer::Known(Along::SoftGround)), None);
    }

    #[test]
    fn not_sure_of_the_route_says_nothing() {
        assert_eq!(raised(&FLAG, |answers| answers.route.mostly = Answer::NotSure), None);
    }
}
