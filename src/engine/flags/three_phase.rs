//! The supply looks three-phase.
//!
//! **Seen:** three fuse carriers, or four conductors that may be three phases.
//! **Source:** IET Code of Practice for Electric Vehicle Charging Equipment Installation, 4th edition, as quoted by an equipment maker, name not kept; not checked in the 5th edition, 2023.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::site::Phases;
use model::terms::KnownBy;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "three-phase",
    weight: Weight::WorthKnowing,
    source: Source::Published(
        "IET Code of Practice for Electric Vehicle Charging Equipment Installation, 4th edition, as quoted by an equipment maker, name not kept; not checked in the 5th edition, 2023",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"meter": {"fuse_carriers": 3, "head_conductors": 4}}"#,
    "with the phases counted a loop is less likely than without",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.site.supply.known_by == KnownBy::Contradicted {
        return None; // neither count is asserted
    }
    let three = seen.site.supply.probability(|supply| supply.phases == Phases::Three);
    let carriers = seen.answers.meter.fuse_carriers.known().map(|count| count.get());
    let said = if carriers == Some(3) { "three fuse carriers" } else { "four conductors at the service head" };
    if_likely(three, said)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount};
    use model::units::Probability;

    #[test]
    fn raised_by_three_carriers_and_four_conductors() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
        })
        .unwrap();
        assert_eq!(evidence.seen, ["three fuse carriers"]);
        assert_eq!(evidence.probability, Probability::CERTAIN);
    }

    #[test]
    fn quiet_for_one_carrier_with_four_conductors() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
                answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
            }),
            None
        );
    }

    #[test]
    fn quiet_where_the_counts_disagree() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
                answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_carriers_leaves_four_conductors_a_mere_possibility() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::NotSure;
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
        })
        .unwrap();
        assert_eq!(evidence.seen, ["four conductors at the service head"]);
        assert!(evidence.probability < Probability::of(0.5));
    }
}
