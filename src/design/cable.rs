//! The cable: the smallest size that carries the current along every stretch and keeps the voltage drop over the whole length.
//!
//! Each stretch has a reference method; the worst governs the current rating, the whole length governs voltage drop, and the
//! fault loop relies on the 30 mA device that every point has. Source: BS 7671 Appendix 4 (Ib ≤ In ≤ Iz), 722.531.3.101.

use super::Given;
use super::voltage_drop::voltage_drop;
use crate::answers::Along;
use crate::site::case::KnownCase;
use crate::site::{Feed, Run, is_ground, runs, said_in_stretches};
use crate::tables::armoured::ARMOURED;
use crate::tables::twin_and_earth::TWIN_AND_EARTH;
use crate::tables::voltage::{DROP_ALLOWED, NOMINAL};
use crate::units::{Amps, Metres, MillivoltsPerAmpMetre, SquareMillimetres, Volts};

/// The cable of one known case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CableDesign {
    /// Length, one way.
    pub length: Metres,
    /// What the route mostly runs along, where it was not said stretch by stretch.
    pub along: Along,
    /// Whether there is a wall to fix to.
    pub wall: bool,
    /// Size, or `None` where no size of the tables passes.
    pub size: Option<SquareMillimetres>,
    /// Voltage drop at full charge current of that size, or of the largest where none passes.
    pub drop: Volts,
    /// Rating of the device that protects it.
    pub in_: Amps,
    /// From the home to an outbuilding whose own feed does not carry a charge point: a stretch before the others.
    pub from_home: Option<Run>,
}

/// The plain size: what a short route needs; common practice, no source.
pub const PLAIN: SquareMillimetres = SquareMillimetres::of(6.0);

/// Standard ratings of protective devices. Source: BS EN 60898-1 (from memory).
const RATINGS: [Amps; 7] =
    [Amps::of(16.0), Amps::of(20.0), Amps::of(25.0), Amps::of(32.0), Amps::of(40.0), Amps::of(50.0), Amps::of(63.0)];

/// The smallest standard rating that is not under the design current.
#[must_use]
pub fn rating_for(ib: Amps) -> Amps {
    RATINGS.into_iter().find(|rating| *rating >= ib).unwrap_or(RATINGS[RATINGS.len() - 1])
}

/// Decides.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Given<'_>) -> CableDesign {
    let (rough, along) = (case.route_length(), case.route_along());
    // A new cable to an outbuilding is dug in soft ground until its way is known: common practice, no source.
    let from_home = match case.feed() {
        Feed::TooSmall(length) => Some(Run { along: Along::SoftGround, length, high: false }),
        Feed::NotThere | Feed::Carries => None,
    };
    let length = from_home.map_or(rough, |run| rough + run.length);
    let wall = case.wall();
    let ib = given.point.current;
    let in_ = rating_for(ib);
    let allowed = NOMINAL * DROP_ALLOWED;

    let mut last = Volts::ZERO;
    for size in ARMOURED.iter().map(|row| row.size) {
        let mut drop = Volts::ZERO;
        let mut carries = true;
        for run in whole_route(given, rough, along, from_home) {
            match of_size(size, &run) {
                Some((iz, per_metre)) => {
                    carries &= in_ <= iz;
                    drop = drop + voltage_drop(per_metre, ib, run.length);
                }
                None => carries = false,
            }
        }
        last = drop;
        if carries && drop <= allowed {
            return CableDesign { length, along, wall, size: Some(size), drop, in_, from_home };
        }
    }
    CableDesign { length, along, wall, size: None, drop: last, in_, from_home }
}

/// Every stretch from where the cable begins: what comes from the home first, then as said or roughly.
fn whole_route<'a>(
    given: &Given<'a>,
    rough: Metres,
    along: Along,
    from_home: Option<Run>,
) -> impl Iterator<Item = Run> + use<'a> {
    let said = said_in_stretches(given.answers);
    from_home.into_iter().chain(runs(said, given.config.thresholds.pace, rough, along))
}

impl CableDesign {
    /// Every stretch of it.
    pub fn stretches<'a>(&self, given: &Given<'a>) -> impl Iterator<Item = Run> + use<'a> {
        let rough = match self.from_home {
            Some(run) => self.length.less(run.length),
            None => self.length,
        };
        whole_route(given, rough, self.along, self.from_home)
    }
}

/// Whether a stretch takes armoured cable: outside in reach of damage, or under ground.
#[must_use]
pub const fn takes_armoured(along: Along) -> bool {
    is_ground(along) || matches!(along, Along::OutsideWall | Along::Fence)
}

/// Capacity and voltage drop of a size along a stretch; `None` where the table has no such size.
///
/// Ambient and grouping factors are one: a circuit alone, 30 °C in air, 20 °C in the ground. Insulation in a loft is taken as
/// thicker than 100 mm until seen: the stricter reference method.
#[must_use]
pub fn of_size(size: SquareMillimetres, run: &Run) -> Option<(Amps, MillivoltsPerAmpMetre)> {
    if takes_armoured(run.along) {
        let row = ARMOURED.iter().find(|row| row.size == size)?;
        Some((if is_ground(run.along) { row.buried } else { row.clipped }, row.drop))
    } else {
        let row = TWIN_AND_EARTH.iter().find(|row| row.size == size)?;
        Some((if matches!(run.along, Along::LoftOrFloor) { row.under_insulation } else { row.clipped }, row.drop))
    }
}

impl CableDesign {
    /// In a word.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match (self.size, takes_armoured(self.along)) {
            (None, _) => "no-size-passes",
            (Some(size), true) if size > PLAIN => "larger-armoured",
            (Some(_), true) => "armoured",
            (Some(size), false) if size > PLAIN => "larger-twin-and-earth",
            (Some(_), false) => "twin-and-earth",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, Answers, Length};
    use crate::config::demo_config;
    use crate::design::charge_point::suited;
    use crate::site;
    use proptest::prelude::*;

    fn cable(metres: f64, along: Along) -> CableDesign {
        let (config, mut answers) = (demo_config(), Answers::default());
        answers.route.length = Answer::Known(Length::metres(metres));
        answers.route.mostly = Answer::Known(along);
        let site = site::read(&answers, &config);
        let point = suited(&answers, &config).unwrap();
        decide(&site.likeliest_case(), &Given { answers: &answers, config: &config, point })
    }

    /// Source: worked from BS 7671 Table 4D5: 32 A, 20 m, 6 mm² at 7.3 mV/A/m is 4.672 V, 2.03 %.
    #[test]
    fn a_short_route_inside_takes_six_square_millimetres() {
        let cable = cable(20.0, Along::Inside);
        assert_eq!(cable.size, Some(SquareMillimetres::of(6.0)));
        assert!((cable.drop.get() - 4.672).abs() < 1e-9);
    }

    #[test]
    fn insulation_and_length_each_ask_for_a_larger_size() {
        assert_eq!(cable(20.0, Along::LoftOrFloor).size, Some(SquareMillimetres::of(10.0)));
        assert_eq!(cable(60.0, Along::OutsideWall).size, Some(SquareMillimetres::of(10.0)));
    }

    #[test]
    fn where_no_size_passes_none_is_made_up() {
        assert_eq!(cable(1000.0, Along::SoftGround).size, None);
    }

    proptest! {
        #[test]
        fn a_longer_route_never_needs_a_smaller_cable(metres in 0.0..400.0_f64, more in 0.0..200.0_f64) {
            for along in [Along::Inside, Along::OutsideWall, Along::Paving] {
                let (short, long) = (cable(metres, along), cable(metres + more, along));
                prop_assert!(long.size.is_none() || short.size <= long.size);
            }
        }
    }
}
