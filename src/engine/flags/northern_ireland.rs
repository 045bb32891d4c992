//! The home is in Northern Ireland.
//!
//! **Seen:** the postcode is in Northern Ireland.
//! **Source:** NIE Networks, own connection process; Building Regulations Part P does not reach there (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::Coverage;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "northern-ireland",
    weight: Weight::Stop,
    source: Source::Published(
        "NIE Networks, own connection process; Building Regulations Part P does not reach there (from memory)",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"home": {"postcode": "BT0"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.site.coverage {
        Coverage::NorthernIreland => Evidence::certain("the postcode is in Northern Ireland"),
        Coverage::Covered | Coverage::Unknown | Coverage::OutsideArea => None,
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
            raised(&FLAG, |answers| answers.home.postcode = Answer::Known(Postcode::new("BT0").unwrap())).unwrap();
        assert_eq!(evidence.seen, ["the postcode is in Northern Ireland"]);
    }

    #[test]
    fn quiet_where_it_is_covered() {
        assert_eq!(raised(&FLAG, |answers| answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap())), None);
    }

    #[test]
    fn quiet_where_another_flag_says_why() {
        assert_eq!(raised(&FLAG, |answers| answers.home.postcode = Answer::Known(Postcode::new("YY1").unwrap())), None);
    }

    #[test]
    fn not_sure_of_the_postcode_rules_nothing_out() {
        assert_eq!(raised(&FLAG, |answers| answers.home.postcode = Answer::NotSure), None);
    }
}
