//! The data link of the charge point: the home's Wi-Fi where it reaches the spot; otherwise mobile data, where the charge point has it and
//! it is received; otherwise a data cable beside the power cable, and on to the router.
//!
//! Common practice, no source.

use crate::calculation::feed::Feeding;
use crate::context::Context;
use crate::site::case::KnownCase;
use crate::site::{FAR, Feed};
use model::units::Metres;

/// What carries the data.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DataLink {
    /// The home's Wi-Fi.
    Wireless,
    /// Mobile data, by the charge point's own means.
    Mobile,
    /// A cable beside the power cable and on to the router, of this length, with a box by the board.
    Cable(Metres),
    /// A data cable that is there already.
    CableThere,
}

/// Decides what carries the data.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Context<'_>) -> DataLink {
    if given.answers.signal.data_cable.is(true) {
        DataLink::CableThere
    } else if !case.weak_signal() {
        DataLink::Wireless
    } else if given.point.mobile_data && !given.answers.wish.bought.is(true) && case.mobile_signal() {
        DataLink::Mobile
    } else {
        DataLink::Cable(to_the_router(case, given))
    }
}

/// Length of a data cable from the spot to the router, which is in the home. Where the charge point is fed from an outbuilding's board, or
/// its power cable passes it, the way from there to the home is included.
fn to_the_router(case: &KnownCase<'_>, given: &Context<'_>) -> Metres {
    let from_home = match case.feed() {
        Feed::NotThere => Metres::ZERO,
        Feed::TooSmall(length) => length,
        Feed::Carries(_) => Feeding::said(given.answers, given.config).length.unwrap_or(FAR),
    };
    case.router().length(case.route_length() + from_home)
}

impl DataLink {
    /// The decision in a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Wireless => "wireless",
            Self::Mobile => "mobile-data",
            Self::Cable(_) => "data-cable",
            Self::CableThere => "data-cable-there",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Decided, DecisionId, Design};
    use crate::site::{FactId, infer};
    use model::answers::{Answer, Answers, BoundedCount};
    use model::config::demo_config;

    fn design(able: bool, say: impl FnOnce(&mut Answers)) -> Design {
        let (mut config, mut answers) = (demo_config(), Answers::default());
        config.charge_points.iter_mut().for_each(|point| point.mobile_data = able);
        answers.signal.wifi_bars = Answer::Known(BoundedCount::new(0).unwrap());
        say(&mut answers);
        Design::of(&infer(&answers, &config), &Context::of(&answers, &config))
    }

    fn link(able: bool, say: impl FnOnce(&mut Answers)) -> &'static str {
        design(able, say).outcomes(DecisionId::DataLink).likeliest().0
    }

    fn bars(answers: &mut Answers, bars: u8) {
        answers.signal.mobile_bars = Answer::Known(BoundedCount::new(bars).unwrap());
    }

    #[test]
    fn mobile_data_only_where_wifi_is_weak_and_point_and_spot_have_it() {
        assert_eq!(link(true, |answers| bars(answers, 3)), "mobile-data");
        assert_eq!(link(true, |answers| bars(answers, 1)), "data-cable", "too little of it");
        assert_eq!(link(false, |answers| bars(answers, 4)), "data-cable", "the charge point has none");
        let good = |answers: &mut Answers| {
            bars(answers, 4);
            answers.signal.wifi_bars = Answer::Known(BoundedCount::new(4).unwrap());
        };
        assert_eq!(link(true, good), "wireless");
        let there = |answers: &mut Answers| {
            bars(answers, 4);
            answers.signal.data_cable = Answer::Known(true);
        };
        assert_eq!(link(true, there), "data-cable-there");
        let bought = |answers: &mut Answers| {
            bars(answers, 4);
            answers.wish.bought = Answer::Known(true);
        };
        assert_eq!(link(true, bought), "data-cable", "of one bought already nothing is taken for granted");
    }

    #[test]
    fn not_sure_of_the_mobile_signal_keeps_both_alive() {
        let unsure = design(true, |answers| answers.signal.mobile_bars = Answer::NotSure);
        let outcomes = unsure.outcomes(DecisionId::DataLink);
        assert!(outcomes.rests_on.has(FactId::MobileSignal));
        let cable = outcomes.probability(|decided| matches!(decided, Decided::DataLink(DataLink::Cable(_)))).get();
        assert!((0.3..0.5).contains(&cable), "{cable}");
    }
}
