//! Which charge point of the installer's list is meant: by capability, the cheapest that does all that is wished for.

use crate::calculation::reach::lead_needed;
use alloc::vec::Vec;
use model::answers::choices::words;
use model::answers::{Answers, Outlet, SteeredBy};
use model::config::{Config, OfferedPoint};
use serde::{Deserialize, Serialize};

words! {
    /// What a homeowner may wish of a charge point.
    pub enum Wish {
        /// A socket.
        Socket => "socket",
        /// A lead that stays on.
        Lead => "lead",
        /// Charging from their own solar power.
        FollowSolar => "follow-solar",
        /// Holding back while the home is busy.
        HoldBack => "hold-back",
        /// Being steered by the supplier's cheap-rate scheme.
        Steered => "steered",
    }
}

/// A wish, and whether the charge point of the design fulfils it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Wished {
    /// The wish.
    pub wish: Wish,
    /// Whether the charge point fulfils it.
    pub met: bool,
}

/// The charge point of the installer's list that suits; `None` only where the list is empty.
///
/// The wish for socket or lead comes first, then the other wishes by how many are met, then the price.
#[must_use]
pub fn suited<'a>(answers: &Answers, config: &'a Config) -> Option<&'a OfferedPoint> {
    let pace = config.thresholds.pace;
    let wished = answers.wish.lead_length.known().map(|length| length.in_metres(pace));
    // The lead is to reach the inlet whichever way round the car stands.
    let needed = lead_needed(answers, pace).map(|[nose, tail]| nose.max(tail));
    let lead_wanted = match (wished, needed) {
        (Some(wished), Some(needed)) => Some(wished.max(needed)),
        (one, other) => one.or(other),
    };
    config.charge_points.iter().max_by_key(|point| {
        let outlet = match answers.wish.outlet.known() {
            Some(Outlet::Socket) => point.lead.is_none(),
            Some(Outlet::Lead) => point.lead.is_some(),
            Some(Outlet::Either) | None => true,
        };
        let reaches = lead_wanted.is_none_or(|wanted| point.lead.is_none_or(|lead| lead >= wanted));
        let wishes = [
            !answers.wish.follow_solar.is(true) || point.follows_solar,
            !answers.wish.hold_back.is(true) || point.load_sensing,
            !answers.wish.steered_by.is(SteeredBy::ChargePoint) || point.off_peak.is_some(),
            reaches,
        ];
        // Where no lead is long enough, the longest is preferred.
        let longest = if reaches { 0 } else { point.lead.map_or(0, |lead| libm::round(lead.get() * 100.0) as u64) };
        (outlet, wishes.iter().filter(|met| **met).count(), longest, core::cmp::Reverse(point.price))
    })
}

/// The homeowner's wishes, and whether this charge point fulfils each. Empty for a charge point that was bought already, since that is what
/// it is.
#[must_use]
pub fn wishes(answers: &Answers, point: &OfferedPoint) -> Vec<Wished> {
    let wish = &answers.wish;
    if wish.bought.is(true) {
        return Vec::new();
    }
    [
        (wish.outlet.is(Outlet::Socket), Wish::Socket, point.lead.is_none()),
        (wish.outlet.is(Outlet::Lead), Wish::Lead, point.lead.is_some()),
        (wish.follow_solar.is(true), Wish::FollowSolar, point.follows_solar),
        (wish.hold_back.is(true), Wish::HoldBack, point.load_sensing),
        (wish.steered_by.is(SteeredBy::ChargePoint), Wish::Steered, point.off_peak.is_some()),
    ]
    .into_iter()
    .filter(|(wished, ..)| *wished)
    .map(|(_, wish, met)| Wished { wish, met })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Length};
    use model::config::demo_config;
    use model::units::Metres;

    #[test]
    fn the_wish_decides_then_the_price() {
        let config = demo_config();
        let mut answers = Answers::default();
        assert!(suited(&answers, &config).unwrap().lead.is_none(), "the cheapest where there is no wish");
        answers.wish.outlet = Answer::Known(Outlet::Lead);
        assert_eq!(suited(&answers, &config).unwrap().lead, Some(Metres::of(5.0)));
        answers.wish.lead_length = Answer::Known(Length::metres(7.0));
        assert_eq!(suited(&answers, &config).unwrap().lead, Some(Metres::of(8.0)));
        answers.wish.lead_length = Answer::Known(Length::metres(10.0));
        assert_eq!(suited(&answers, &config).unwrap().lead, Some(Metres::of(8.0)), "none reaches: the longest");
        answers.wish.lead_length = Answer::NotSure;
        answers.wish.follow_solar = Answer::Known(true);
        assert!(suited(&answers, &config).unwrap().follows_solar);
        answers.wish.follow_solar = Answer::NotSure;
        assert_eq!(suited(&answers, &config).unwrap().id, "lead-5");
        answers.wish.steered_by = Answer::Known(SteeredBy::Car);
        assert_eq!(suited(&answers, &config).unwrap().id, "lead-5", "the car is steered, whatever the charge point");
        answers.wish.steered_by = Answer::Known(SteeredBy::ChargePoint);
        assert!(suited(&answers, &config).unwrap().off_peak.is_some());
    }
}
