//! What was counted at the service head does not go together.
//!
//! **Seen:** a number of conductors that fits no usual service head with that many fuse carriers.
//! **Why it matters:** phases, loop and network process all rest on these counts; neither is asserted.
//! **Installer:** look at the photo, or ask for another; settle the counts before anything is designed or priced.
//! **Source:** common practice, no source.

use super::{Evidence, Flag, Seen, Source, Weight};

/// The flag.
pub const FLAG: Flag =
    Flag { code: "supply-counts-disagree", weight: Weight::Stop, source: Source::CommonPractice, usual: false, raise };

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
