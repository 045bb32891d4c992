//! The charge current that a supply allows, by one of two limits: a fixed limit, set once, or load sensing, which follows the home's demand
//! at each moment.
//!
//! Source: BS 7671 722.311.201 (load control may be counted), seen in a training summary of amendment 1. Currents are whole amperes, since
//! that is how a charge point is set: common practice, no source. Nothing is under 6 A: [`LEAST_CHARGE`].

use model::tables::driving::LEAST_CHARGE;
use model::units::{Amps, Headroom};

/// What a limit leaves over beside a demand; negative where the demand is greater.
#[must_use]
pub fn headroom(limit: Amps, demand: Amps) -> Headroom {
    demand.headroom_under(limit)
}

/// The greatest charge current that fits under a limit beside a demand, in whole amperes and at most the charge point's own; `None` where
/// that is under 6 A.
///
/// `demand` has an element for each phase that the charge point uses. It draws the same from each, so the fullest phase decides.
#[must_use]
pub fn that_fits(limit: Amps, demand: &[Amps], point: Amps) -> Option<Amps> {
    let fullest = demand.iter().copied().fold(Amps::ZERO, Amps::max);
    // A billionth is allowed for, as the rounding of arithmetic: 60 − 28.0…01 still gives 32 A.
    let left = headroom(limit, fullest).as_current()? * model::units::Ratio::of(1.0 + 1e-9);
    Some(left.min(point).whole()).filter(|amps| *amps >= LEAST_CHARGE)
}

/// A fixed limit on the charge current: what the maximum demand leaves, set once and never exceeded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixedLimit {
    /// The setting; `None` where nothing fits.
    pub setting: Option<Amps>,
    /// Maximum demand with it, on the fullest phase.
    pub demand: Amps,
}

/// Works out a fixed limit from the home's maximum demand, phase by phase.
#[must_use]
pub fn fixed_limit(limit: Amps, demand: &[Amps], point: Amps) -> FixedLimit {
    let fullest = demand.iter().copied().fold(Amps::ZERO, Amps::max);
    let setting = that_fits(limit, demand, point);
    FixedLimit { setting, demand: fullest + setting.unwrap_or(Amps::ZERO) }
}

/// A dynamic limit by load sensing: full current while the home leaves room for it, less while it does not, a pause under 6 A.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sensed {
    /// The charge current at this moment; `None` while charging pauses.
    pub now: Option<Amps>,
    /// Maximum demand: at most the limit, unless the home alone exceeds it.
    pub demand: Amps,
}

/// Works out a dynamic limit, from the home's demand at this moment (an element for each phase) and its maximum demand.
#[must_use]
pub fn sensed(limit: Amps, taken_now: &[Amps], maximum: Amps, point: Amps) -> Sensed {
    Sensed { now: that_fits(limit, taken_now, point), demand: (maximum + point).min(limit).max(maximum) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn whole_amperes_and_nothing_under_six() {
        let fits = |limit, demand: f64| that_fits(Amps::of(limit), &[Amps::of(demand)], Amps::of(32.0)).map(Amps::get);
        assert_eq!(fits(60.0, 10.0), Some(32.0), "no more than the charge point gives");
        assert_eq!(fits(60.0, 28.0), Some(32.0));
        assert_eq!(fits(60.0, 28.5), Some(31.0));
        assert_eq!(fits(60.0, 54.0), Some(6.0), "exactly six");
        assert_eq!(fits(60.0, 54.1), None);
        assert_eq!(fits(60.0, 70.0), None);
        for fuse in [60.0, 63.0, 80.0, 100.0] {
            assert_eq!(fits(fuse, fuse - 20.0), Some(20.0), "{fuse}");
        }
    }

    #[test]
    fn the_fullest_phase_decides() {
        let phases = [10.0, 45.0, 20.0].map(Amps::of);
        assert_eq!(that_fits(Amps::of(60.0), &phases, Amps::of(32.0)), Some(Amps::of(15.0)));
    }

    #[test]
    fn a_fixed_limit_stays_and_a_sensed_one_gives_way() {
        let (limit, point) = (Amps::of(60.0), Amps::of(32.0));
        let fixed = fixed_limit(limit, &[Amps::of(40.0)], point);
        assert_eq!((fixed.setting, fixed.demand), (Some(Amps::of(20.0)), Amps::of(60.0)));
        let quiet = sensed(limit, &[Amps::of(5.0)], Amps::of(40.0), point);
        assert_eq!((quiet.now, quiet.demand), (Some(point), limit), "the full current lets itself be had at night");
        assert_eq!(sensed(limit, &[Amps::of(57.0)], Amps::of(58.0), point).now, None, "it pauses");
        assert_eq!(
            sensed(limit, &[Amps::of(5.0)], Amps::of(70.0), point).demand,
            Amps::of(70.0),
            "the home alone is over it"
        );
    }

    proptest! {
        #[test]
        fn more_load_never_leaves_more(limit in 20.0..120.0_f64, demand in 0.0..120.0_f64, more in 0.0..60.0_f64) {
            let (limit, point) = (Amps::of(limit), Amps::of(32.0));
            let (less_load, more_load) = (Amps::of(demand), Amps::of(demand + more));
            prop_assert!(headroom(limit, more_load) <= headroom(limit, less_load));
            prop_assert!(that_fits(limit, &[more_load], point) <= that_fits(limit, &[less_load], point));
            prop_assert!(that_fits(limit, &[less_load, more_load], point) <= that_fits(limit, &[less_load], point));
        }
    }
}
