//! No loop was seen, which is not the same as no loop.
//!
//! **Seen:** nothing at the service head that shows a loop, in a kind of home where loops occur.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, WORTH_RAISING, Weight};
use model::terms::KnownBy;
use model::units::Probability;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "no-loop-seen", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Below this probability a loop is too rare to mention: common practice, no source.
const RARE: Probability = Probability::of(0.05);

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"home": {"kind": "terrace"}, "meter": {"fuse_carriers": 1, "head_conductors": 2, "street_cables": 1}}"#,
    "that no loop was seen is good news",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let looped = seen.site.supply.probability(|supply| supply.looped);
    if looped < RARE || looped >= WORTH_RAISING || seen.site.supply.known_by == KnownBy::Contradicted {
        return None; // other flags report a probable loop and counts that disagree
    }
    let meter = &seen.answers.meter;
    let counted = [
        meter.fuse_carriers.known().map(|count| (count.get(), "fuse carrier")),
        meter.head_conductors.known().map(|count| (count.get(), "conductor at the service head")),
        meter.street_cables.known().map(|count| (count.get(), "cable from the street")),
    ];
    let mut said = counted.into_iter().flatten().map(|(count, what)| alloc::format!("{what}: {count} counted"));
    let first = Evidence::with(looped, &said.next()?)?;
    Some(said.fold(first, |evidence, next| evidence.and(&next)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Age, Answer, BoundedCount, HomeKind};
    use model::units::Probability;

    #[test]
    fn raised_in_a_terrace_that_shows_one_cable() {
        let evidence = raised(&FLAG, |answers| {
            answers.home.kind = Answer::Known(HomeKind::Terrace);
            answers.home.age = Answer::Known(Age::Before1930);
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
            answers.meter.street_cables = Answer::Known(BoundedCount::new(1).unwrap());
        })
        .unwrap();
        assert_eq!(
            evidence.seen,
            ["fuse carrier: 1 counted", "conductor at the service head: 2 counted", "cable from the street: 1 counted"]
        );
        assert_eq!(evidence.probability, Probability::of(0.15));
    }

    #[test]
    fn quiet_where_a_loop_is_probable() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.home.kind = Answer::Known(HomeKind::Terrace);
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
                answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
            }),
            None
        );
    }

    #[test]
    fn quiet_in_a_young_terrace_for_loops_are_rare_since_about_1980() {
        let young = |answers: &mut model::answers::Answers| {
            answers.home.kind = Answer::Known(HomeKind::Terrace);
            answers.home.age = Answer::Known(Age::Since2000);
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        };
        assert_eq!(raised(&FLAG, young), None);
    }

    #[test]
    fn quiet_in_a_detached_house_where_loops_are_rare() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.home.kind = Answer::Known(HomeKind::Detached);
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
                answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_conductors_keeps_the_greater_doubt() {
        let evidence = raised(&FLAG, |answers| {
            answers.home.kind = Answer::Known(HomeKind::Terrace);
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
            answers.meter.head_conductors = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["fuse carrier: 1 counted"]);
        assert!(evidence.probability > Probability::of(0.15));
    }
}
