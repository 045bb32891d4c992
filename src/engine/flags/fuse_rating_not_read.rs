//! No rating was read from the fuse carrier.
//!
//! **Seen:** a service head that was looked at, but no rating from its fuse carrier.
//! **Source:** Energy Networks Association, application form for low-carbon technologies (adequacy of the supply is assessed first).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "fuse-rating-not-read",
    weight: Weight::WorthKnowing,
    source: Source::Published(
        "Energy Networks Association, application form for low-carbon technologies, version not kept (adequacy of the supply is assessed first), the form itself, read",
    ),
    usual: true,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"meter": {"carrier_rating": "not-sure"}}"#,
    "a small rating that was read is graver than one that nobody could read",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let meter = &seen.answers.meter;
    meter.fuse_carriers.known()?; // where nothing was counted another flag says so
    match meter.carrier_rating {
        Answer::Known(_) => None,
        Answer::NotSure => Evidence::certain("they could read no rating on the fuse carrier"),
        Answer::NotAsked => Evidence::certain("the rating on the fuse carrier was not asked about"),
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount};
    use model::units::Amps;

    #[test]
    fn raised_where_only_the_carriers_were_counted() {
        let evidence =
            raised(&FLAG, |answers| answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap()))
                .unwrap();
        assert_eq!(evidence.seen, ["the rating on the fuse carrier was not asked about"]);
    }

    #[test]
    fn quiet_where_it_was_read() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
                answers.meter.carrier_rating = Answer::Known(Amps::of(100.0));
            }),
            None
        );
    }

    #[test]
    fn quiet_where_nothing_was_counted() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.fuse_carriers = Answer::NotSure;
                answers.meter.carrier_rating = Answer::NotSure;
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_rating_raises_it() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
            answers.meter.carrier_rating = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["they could read no rating on the fuse carrier"]);
    }
}
