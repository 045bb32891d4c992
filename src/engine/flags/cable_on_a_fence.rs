//! Part of the cable runs on a fence.
//!
//! **Seen:** a route along a fence, or stretches of it.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes, if_likely};
use crate::site::{on_a_fence, said_in_stretches};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "cable-on-a-fence",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"route": {"stretches": [{"along": "fence", "length": {"value": 8, "unit": "metres"}}]}}"#,
    causes::A_WAY_OF_ITS_OWN,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let said = match said_in_stretches(seen.answers) {
        Some(_) => "stretches of the route on a fence",
        None => "mostly along a fence",
    };
    if_likely(on_a_fence(seen.answers, &seen.site.route_along), said)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Along, Answer, Length, ParkingPlace, Stretch};

    #[test]
    fn raised_by_a_fence_and_by_one_stretch_of_it() {
        let evidence = raised(&FLAG, |answers| answers.route.mostly = Answer::Known(Along::Fence)).unwrap();
        assert_eq!(evidence.seen, ["mostly along a fence"]);
        let evidence = raised(&FLAG, |answers| {
            let stretch = |along| Stretch { along, length: Length::metres(4.0), high: false };
            answers.route.stretches = Answer::Known(alloc::vec![stretch(Along::Inside), stretch(Along::Fence)]);
        });
        assert_eq!(evidence.unwrap().seen, ["stretches of the route on a fence"]);
    }

    #[test]
    fn quiet_where_the_stretches_avoid_it() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.mostly = Answer::Known(Along::Fence);
                let wall = Stretch { along: Along::OutsideWall, length: Length::metres(4.0), high: false };
                answers.route.stretches = Answer::Known(alloc::vec![wall]);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_way_is_no_fence_yet() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.mostly = Answer::NotSure;
                answers.parking.place = Answer::Known(ParkingPlace::DetachedGarage);
            }),
            None
        );
    }
}
