//! The home is outside the area covered.
//!
//! **Seen:** the postcode is outside the area covered.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::Coverage;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "outside-area", weight: Weight::Stop, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"home": {"postcode": "YY1"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.site.coverage {
        Coverage::OutsideArea => Evidence::certain("the postcode is outside the area covered"),
        Coverage::Covered | Coverage::Unknown | Coverage::NorthernIreland => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Postcode};

    #[test]
    fn raised_by_the_postcode() {
        let evidence =
            raised(&FLAG, |answers| answers.home.postcode = Answer::Known(Postcode::new("YY1").unwrap())).unwrap();
        assert_eq!(evidence.seen, ["the postcode is outside the area covered"]);
    }

    #[test]
    fn quiet_where_it_is_covered() {
        assert_eq!(raised(&FLAG, |answers| answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap())), None);
    }

    #[test]
    fn quiet_where_another_flag_says_why() {
        assert_eq!(raised(&FLAG, |answers| answers.home.postcode = Answer::Known(Postcode::new("BT0").unwrap())), None);
    }

    #[test]
    fn not_sure_of_the_postcode_rules_nothing_out() {
        assert_eq!(raised(&FLAG, |answers| answers.home.postcode = Answer::NotSure), None);
    }
}
