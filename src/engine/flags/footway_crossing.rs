//! The route crosses a public footway.
//!
//! **Seen:** a route across a public footway.
//! **Source:** Department for Transport guidance, December 2024 (authorised channels are at the highway authority's discretion).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, Ground};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "footway-crossing",
    weight: Weight::Stop,
    source: Source::Published(
        "Department for Transport guidance, December 2024 (authorised channels are at the highway authority's discretion), title not kept, itself, read",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"route": {"ground": "footway"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.route.ground {
        Answer::Known(Ground::Footway) => Evidence::certain("the route crosses a public footway"),
        Answer::Known(Ground::Own | Ground::Shared | Ground::Others) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Ground};

    #[test]
    fn raised_by_a_footway() {
        let evidence = raised(&FLAG, |answers| answers.route.ground = Answer::Known(Ground::Footway)).unwrap();
        assert_eq!(evidence.seen, ["the route crosses a public footway"]);
    }

    #[test]
    fn quiet_over_shared_ground() {
        assert_eq!(raised(&FLAG, |answers| answers.route.ground = Answer::Known(Ground::Shared)), None);
    }

    #[test]
    fn not_sure_is_no_footway() {
        assert_eq!(raised(&FLAG, |answers| answers.route.ground = Answer::NotSure), None);
    }
}
