//! In Scotland a charge point is permitted within limits.
//!
//! **Seen:** a postcode in Scotland.
//! **Source:** General Permitted Development (Scotland) Order 1992, classes 9E and 9F, as amended by SSI 2023/35.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::{Nation, nation};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "scottish-planning",
    weight: Weight::WorthKnowing,
    source: Source::Published(
        "General Permitted Development (Scotland) Order 1992, classes 9E and 9F, as amended by SSI 2023/35: legislation and circular 2/2024, annex E, itself, read",
    ),
    usual: true,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"home": {"postcode": "EH1"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match nation(seen.answers) {
        Nation::Scotland => Evidence::certain("a postcode in Scotland"),
        Nation::England | Nation::Wales | Nation::NorthernIreland | Nation::Islands | Nation::Unclear => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Postcode};

    #[test]
    fn raised_by_the_postcode() {
        let at = |text: &str| raised(&FLAG, |a| a.home.postcode = Answer::Known(Postcode::new(text).unwrap()));
        assert_eq!(at("EH1").unwrap().seen, ["a postcode in Scotland"]);
    }

    #[test]
    fn quiet_across_the_border() {
        let at = |text: &str| raised(&FLAG, |a| a.home.postcode = Answer::Known(Postcode::new(text).unwrap()));
        assert_eq!((at("ZZ1"), at("CF1")), (None, None));
    }

    #[test]
    fn not_sure_where_it_lies_is_no_scotland() {
        assert_eq!(raised(&FLAG, |answers| answers.home.postcode = Answer::NotSure), None);
    }
}
