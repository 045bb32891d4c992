//! The design holds the demand with a load limit.
//!
//! **Seen:** a demand at full charge current over the main fuse or the threshold, and a charge point that can hold back.
//! **Source:** BS 7671 722.311.201 (load control may be counted), seen in a training summary of its amendment (name not kept).

use super::demand_over_limit::over;
use super::{Cause, Evidence, Flag, Seen, Source, WORTH_RAISING, Weight, if_likely};
use crate::design::{Decided, DecisionId};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "load-limit-designed",
    weight: Weight::ChangesThePrice,
    source: Source::Published(
        "BS 7671 722.311.201 (load control may be counted), seen in a training summary of its amendment (name not kept)",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"cooking": "electric", "showers": 1}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.answers.hazard.is_noticed() {
        return None; // nothing is designed until the home is safe
    }
    if over(seen) >= WORTH_RAISING {
        return None; // the flag for a demand over the limit covers this
    }
    let limited = seen
        .design
        .probability(DecisionId::Network, |decided| matches!(decided, Decided::Network(process) if process.load_limit));
    let existing = seen.site.existing.likeliest();
    if_likely(limited, &alloc::format!("{existing} likely in use already, after diversity"))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::{electric_cooking_alone, raised, raised_with};
    use model::answers::{Age, Answer, BoundedCount, Cooking, Heating, OtherPoint};
    use model::config::demo_config;
    use model::units::Probability;

    #[test]
    fn raised_by_electric_cooking_and_background() {
        let evidence = raised(&FLAG, |answers| {
            electric_cooking_alone(answers);
        })
        .unwrap();
        assert!(evidence.probability >= Probability::of(0.4));
    }

    #[test]
    fn quiet_where_there_is_room() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.loads.showers = Answer::Known(BoundedCount::new(0).unwrap());
                answers.loads.cooking = Answer::Known(Cooking::Gas);
                answers.loads.heating = Answer::Known(Heating::None);
                answers.loads.hot_tub = Answer::Known(false);
                answers.loads.other_point = Answer::Known(OtherPoint::None);
                answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
                answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
                answers.home.age = Answer::Known(Age::Since2000);
            }),
            None
        );
    }

    #[test]
    fn quiet_where_the_home_alone_is_over_it_for_that_is_another_flag() {
        assert_eq!(
            raised(&FLAG, |answers| {
                electric_cooking_alone(answers);
                answers.loads.showers = Answer::Known(BoundedCount::new(3).unwrap());
                answers.loads.heating = Answer::Known(Heating::Direct);
            }),
            None
        );
    }

    #[test]
    fn quiet_where_no_charge_point_can_hold_back() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
        assert_eq!(
            raised_with(&FLAG, &config, |answers| {
                electric_cooking_alone(answers);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_cooking_is_a_mere_possibility() {
        assert_eq!(
            raised(&FLAG, |answers| {
                electric_cooking_alone(answers);
                answers.loads.cooking = Answer::NotSure;
            }),
            None
        );
    }
}
