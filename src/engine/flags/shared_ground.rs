//! The route crosses ground that is shared, or somebody else's.
//!
//! **Seen:** shared or other people's ground on the way, or a shared drive.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::site::agreements;
use model::terms::Gatekeeper;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "shared-ground",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"route": {"ground": "shared"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let likely = agreements(seen.answers)
        .into_iter()
        .filter(|agreement| agreement.who == Gatekeeper::Neighbour)
        .max_by(|a, b| a.probability.get().total_cmp(&b.probability.get()))?;
    if_likely(likely.probability, likely.why)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Ground};

    #[test]
    fn raised_by_shared_ground() {
        let evidence = raised(&FLAG, |answers| answers.route.ground = Answer::Known(Ground::Shared)).unwrap();
        assert_eq!(evidence.seen, ["the route crosses shared ground"]);
    }

    #[test]
    fn quiet_on_own_ground_beside_a_shared_drive() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.ground = Answer::Known(Ground::Own);
                answers.parking.shared_drive = Answer::Known(true);
            }),
            None
        );
    }

    #[test]
    fn not_sure_whose_ground_is_not_shared() {
        assert_eq!(raised(&FLAG, |answers| answers.route.ground = Answer::NotSure), None);
    }

    #[test]
    fn not_sure_whose_ground_beside_a_shared_drive_is_probably_shared() {
        let evidence = raised(&FLAG, |answers| {
            answers.route.ground = Answer::NotSure;
            answers.parking.shared_drive = Answer::Known(true);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["the drive is shared"]);
    }
}
