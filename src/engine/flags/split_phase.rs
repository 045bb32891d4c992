//! Two fuse carriers: a rural split-phase supply, or something else.
//!
//! **Seen:** two fuse carriers at the service head.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes, if_likely};
use crate::site::Phases;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "split-phase",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause =
    Cause::in_place(r#"{"meter": {"fuse_carriers": 2, "head_conductors": 3}}"#, causes::COUNTED_AGAIN);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let split = seen.site.supply.probability(|supply| supply.phases == Phases::Split);
    let three_conductors = seen.answers.meter.head_conductors.known().is_some_and(|count| count.get() == 3);
    if_likely(
        split,
        if three_conductors { "two fuse carriers, three conductors at the service head" } else { "two fuse carriers" },
    )
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount};
    use model::units::Probability;

    #[test]
    fn raised_by_two_carriers_and_three_conductors() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(2).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(3).unwrap());
        })
        .unwrap();
        assert_eq!(evidence.seen, ["two fuse carriers, three conductors at the service head"]);
    }

    #[test]
    fn quiet_for_three_carriers() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
                answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_conductors_still_wants_a_look() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(2).unwrap());
            answers.meter.head_conductors = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["two fuse carriers"]);
        assert_eq!(evidence.probability, Probability::of(0.5));
    }
}
