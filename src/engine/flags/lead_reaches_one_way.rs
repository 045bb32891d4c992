//! The lead reaches the inlet only with the car one way round.
//!
//! **Seen:** a car whose inlet a lead reaches only when it stands one way round.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::calculation::reach;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "lead-reaches-one-way",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(
    r#"{"wish": {"outlet": "lead"}, "parking": {"inlet": "front", "spot_to_car": {"value": 2, "unit": "metres"}}}"#,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let [nose, tail] = reach::lead_needed(seen.answers, seen.config.thresholds.pace)?;
    let lead = seen.point.lead?;
    // Where it reaches neither way round, another flag says that it is too short.
    if lead >= nose.max(tail) || lead < nose.min(tail) {
        return None;
    }
    Evidence::certain(&alloc::format!(
        "a lead of {lead}; needed are {nose} with the nose towards the spot, {tail} with the tail"
    ))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Inlet, Length, Outlet};

    #[test]
    fn raised_by_an_inlet_at_the_far_end() {
        assert!(
            raised(&FLAG, |answers| {
                answers.wish.outlet = Answer::Known(Outlet::Lead);
                answers.parking.inlet = Answer::Known(Inlet::Front);
                answers.parking.spot_to_car = Answer::Known(Length::metres(2.0));
            })
            .is_some()
        );
    }

    #[test]
    fn quiet_where_it_reaches_both_ways() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.wish.outlet = Answer::Known(Outlet::Lead);
                answers.parking.inlet = Answer::Known(Inlet::FrontLeft);
                answers.parking.spot_to_car = Answer::Known(Length::metres(1.0));
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_distance_says_nothing() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.wish.outlet = Answer::Known(Outlet::Lead);
                answers.parking.inlet = Answer::Known(Inlet::Front);
                answers.parking.spot_to_car = Answer::NotSure;
            }),
            None
        );
    }
}
