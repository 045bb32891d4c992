//! The cable from the street may go on to a neighbour.
//!
//! **Seen:** one fuse carrier with four conductors, or two thick cables from the street.
//! **Source:** looped services: Energy Networks Association, frequently asked questions; the counts: common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "looped-supply",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "Energy Networks Association, frequently asked questions (looped services are asked about first), the page itself, read",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause =
    Cause::in_place(r#"{"meter": {"fuse_carriers": 1, "head_conductors": 4}}"#, causes::COUNTED_AGAIN);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let probability = seen.site.supply.probability(|supply| supply.looped);
    // Common practice, no source.
    if probability.get() < 0.4 {
        return None; // other flags say "no loop seen" and "nothing counted"
    }
    let meter = &seen.answers.meter;
    let four = meter.head_conductors.known().is_some_and(|count| count.get() == 4);
    let two_cables = meter.street_cables.known().is_some_and(|count| count.get() >= 2);
    let carriers = meter.fuse_carriers.known().map(|count| count.get());
    let first = match (carriers, four, two_cables) {
        (Some(1), true, _) => "one fuse carrier, four conductors at the service head",
        (_, _, true) => "two thick cables from the street",
        _ => "four conductors at the service head",
    };
    let evidence = Evidence::with(probability, first)?;
    Some(if four && two_cables { evidence.and("two thick cables from the street") } else { evidence })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount};

    #[test]
    fn raised_by_one_carrier_and_four_conductors() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
        });
        assert!(evidence.unwrap().seen[0].contains("four conductors"));
    }

    #[test]
    fn quiet_for_three_phases() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
            answers.meter.street_cables = Answer::Known(BoundedCount::new(1).unwrap());
        });
        assert_eq!(evidence, None);
    }

    #[test]
    fn not_sure_of_any_count_is_no_evidence() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::NotSure;
            answers.meter.head_conductors = Answer::NotSure;
            answers.meter.street_cables = Answer::NotSure;
        });
        assert_eq!(evidence, None);
    }
}
