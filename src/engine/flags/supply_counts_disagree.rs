//! The counts at the service head contradict each other.
//!
//! **Seen:** a number of conductors that fits no usual service head with that many fuse carriers.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};

/// The flag.
pub const FLAG: Flag =
    Flag { code: "supply-counts-disagree", weight: Weight::Stop, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause =
    Cause::in_place(r#"{"meter": {"fuse_carriers": 3, "head_conductors": 2}}"#, causes::COUNTED_AGAIN);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let mut about = seen.site.contradictions.iter().filter(|contradiction| contradiction.about == "supply");
    let first = Evidence::certain(about.next()?.says)?;
    Some(about.fold(first, |evidence, next| evidence.and(next.says)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount};

    #[test]
    fn raised_by_three_carriers_and_two_conductors() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        })
        .unwrap();
        assert!(evidence.seen[0].starts_with("three fuse carriers but two conductors"));
    }

    #[test]
    fn quiet_for_three_carriers_and_four_conductors() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
                answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
            }),
            None
        );
    }

    #[test]
    fn not_sure_contradicts_nothing() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
                answers.meter.head_conductors = Answer::NotSure;
            }),
            None
        );
    }
}
