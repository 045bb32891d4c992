//! A Type B device is planned until papers show that the charge point senses direct current.
//!
//! **Seen:** a charge point that is not known to sense 6 mA of direct current.
//! **Source:** BS 7671 722.531.3.101; IEC 62955 (number from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "direct-current-not-sensed",
    weight: Weight::ChangesThePrice,
    source: Source::Published("BS 7671 722.531.3.101; IEC 62955 (number from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"wish": {"bought": true}}"#, causes::NOT_FIXED);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let bought = seen.answers.wish.bought.is(true);
    let none_senses = seen.config.charge_points.iter().all(|point| !point.dc_sensing);
    if bought {
        Evidence::certain("bought already: nothing is known of its sensing direct current")
    } else if none_senses && !seen.config.charge_points.is_empty() {
        Evidence::certain("no charge point of the list senses 6 mA of direct current")
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;

    #[test]
    fn raised_by_one_bought_already() {
        assert!(raised(&FLAG, |answers| answers.wish.bought = Answer::Known(true)).is_some());
    }

    #[test]
    fn quiet_where_the_list_senses_it() {
        assert_eq!(raised(&FLAG, |answers| answers.wish.bought = Answer::Known(false)), None);
    }

    #[test]
    fn not_sure_of_having_bought_is_not_bought() {
        assert_eq!(raised(&FLAG, |answers| answers.wish.bought = Answer::NotSure), None);
    }
}
