//! The off-peak scheme must steer the charge point, and was not found to steer this one.
//!
//! **Seen:** a night rate that must steer the charge point, and none taken from the list that is known to be steered.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::{Answer, SteeredBy};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "off-peak-not-steered",
    weight: Weight::ChangesThePrice,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"wish": {"steered_by": "charge-point"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.wish.steered_by {
        Answer::Known(SteeredBy::ChargePoint) => {}
        Answer::Known(SteeredBy::Car | SteeredBy::Neither) | Answer::NotSure | Answer::NotAsked => return None,
    }
    let said = "the off-peak scheme must steer the charge point";
    if seen.answers.wish.bought.is(true) {
        return Some(Evidence::certain(said)?.and("bought already: whether it is steered is not known"));
    }
    match seen.point.off_peak {
        Some(_) => None,
        None => Some(Evidence::certain(said)?.and("the one taken from the list was not found to be steered")),
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::{raised, raised_with};
    use model::answers::{Answer, SteeredBy};
    use model::config::demo_config;

    #[test]
    fn raised_where_none_of_the_list_is_steered() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.off_peak = None);
        let steered = |by| raised_with(&FLAG, &config, |answers| answers.wish.steered_by = Answer::Known(by));
        assert_eq!(
            steered(SteeredBy::ChargePoint).unwrap().seen[1],
            "the one taken from the list was not found to be steered"
        );
        assert_eq!(steered(SteeredBy::Car), None);
    }

    #[test]
    fn raised_for_one_that_was_bought_already() {
        let evidence = raised(&FLAG, |answers| {
            answers.wish.steered_by = Answer::Known(SteeredBy::ChargePoint);
            answers.wish.bought = Answer::Known(true);
        })
        .unwrap();
        assert!(evidence.seen[1].starts_with("bought already"));
    }

    #[test]
    fn quiet_where_one_of_the_list_is_steered() {
        assert_eq!(raised(&FLAG, |answers| answers.wish.steered_by = Answer::Known(SteeredBy::ChargePoint)), None);
    }

    #[test]
    fn not_sure_what_is_steered_asks_for_nothing() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.off_peak = None);
        assert_eq!(raised_with(&FLAG, &config, |answers| answers.wish.steered_by = Answer::NotSure), None);
    }
}
