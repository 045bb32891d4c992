//! The car is to power the home.
//!
//! **Seen:** a wish that the car gives power back.
//! **Source:** BS 7671 530.3.201 (A3:2024, from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "power-both-ways",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published("BS 7671 530.3.201 (A3:2024, from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"wish": {"gives_back": true}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.wish.gives_back {
        Answer::Known(true) => Evidence::certain("the car is to power the home"),
        Answer::Known(false) | Answer::NotSure | Answer::NotAsked => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;

    #[test]
    fn raised_by_the_wish() {
        assert!(raised(&FLAG, |answers| answers.wish.gives_back = Answer::Known(true)).is_some());
    }

    #[test]
    fn quiet_where_the_sun_is_followed() {
        assert_eq!(raised(&FLAG, |answers| answers.wish.follow_solar = Answer::Known(true)), None);
        assert_eq!(raised(&FLAG, |answers| answers.wish.gives_back = Answer::Known(false)), None);
    }

    #[test]
    fn not_sure_is_no_wish() {
        assert_eq!(raised(&FLAG, |answers| answers.wish.gives_back = Answer::NotSure), None);
    }
}
