//! The rating on the fuse carrier is the most it may hold, not the fuse fitted.
//!
//! **Seen:** a rating printed or moulded on the fuse carrier.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "carrier-rating-is-a-bound",
    weight: Weight::WorthKnowing,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"meter": {"carrier_rating": 60}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.meter.carrier_rating {
        Answer::Known(rating) => Evidence::certain(&alloc::format!("{rating} printed on the fuse carrier")),
        Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount};
    use model::units::Amps;

    #[test]
    fn raised_by_a_rating() {
        let evidence = raised(&FLAG, |answers| answers.meter.carrier_rating = Answer::Known(Amps::of(80.0))).unwrap();
        assert_eq!(evidence.seen, ["80 A printed on the fuse carrier"]);
    }

    #[test]
    fn quiet_where_only_the_carriers_were_counted() {
        assert_eq!(
            raised(&FLAG, |answers| answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap())),
            None
        );
    }

    #[test]
    fn not_sure_is_no_rating() {
        assert_eq!(raised(&FLAG, |answers| answers.meter.carrier_rating = Answer::NotSure), None);
    }
}
