//! The cable: which kind along each stretch, and the smallest size that passes every check over the whole route.
//!
//! Flat twin-and-earth inside, armoured outside in reach of damage or under ground. The fault loop relies on the 30 mA device
//! that every point has, where the breaker itself does not disconnect. Source: BS 7671 Appendix 4 (Ib ≤ In ≤ Iz), 722.531.3.101.

use super::laid::{Around, pieces};
use crate::calculation::capacity::CableType;
use crate::calculation::feed::Feeding;
use crate::calculation::loop_impedance::{BreakerType, declared};
use crate::calculation::sizing::{Ahead, Check, Checked, Chosen, Disconnects, Needs, SIZES, choose};
use crate::context::Context;
use crate::site::case::KnownCase;
use crate::site::{EarthingArrangement, Feed, Run, is_ground, runs, said_in_stretches};
use model::answers::{Along, Answers, ParkingPlace};
use model::tables::disconnection::{C_MIN, RESIDUAL};
use model::tables::voltage::NOMINAL;
use model::units::{Amps, Metres, Ohms, SquareMillimetres, Volts};

/// The cable of one known case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CableDesign {
    /// Length, one way.
    pub length: Metres,
    /// What the route mostly runs along, where it was not given stretch by stretch.
    pub along: Along,
    /// Whether armoured cable is taken all the way.
    pub armoured: bool,
    /// Whether there is a wall to fix to.
    pub wall: bool,
    /// Whether any of it is dug in.
    pub digs: bool,
    /// Whether the part that is dug is hard to dig.
    pub hard_ground: bool,
    /// Size, or `None` where no size of the tables passes.
    pub size: Option<SquareMillimetres>,
    /// Voltage drop at full charge current with that size, or with the largest where none passes. It includes an outbuilding's feed, as far
    /// as that is known.
    pub drop: Volts,
    /// The voltage drop allowed.
    pub allowed: Volts,
    /// Rating of the device that protects it.
    pub in_: Amps,
    /// The check that asks for the size, or that none passes.
    pub governs: Check,
    /// What disconnects a fault to earth at the far end.
    pub disconnects: Disconnects,
    /// A new stretch from the home, ahead of the others, to an outbuilding whose own feed can't carry a charge point.
    pub from_home: Option<Run>,
}

/// The plain size, which a short route needs; common practice, no source.
pub const PLAIN: SquareMillimetres = SIZES[0];

/// Standard ratings of protective devices. Source: BS EN 60898-1 (from memory).
const RATINGS: [Amps; 7] =
    [Amps::of(16.0), Amps::of(20.0), Amps::of(25.0), Amps::of(32.0), Amps::of(40.0), Amps::of(50.0), Amps::of(63.0)];

/// The smallest standard rating that is not under the design current.
#[must_use]
pub fn rating_for(ib: Amps) -> Amps {
    RATINGS.into_iter().find(|rating| *rating >= ib).unwrap_or(RATINGS[RATINGS.len() - 1])
}

/// Rating of the device that protects the circuit: the one that the charge point's maker states, often 40 A for 32 A; otherwise the next
/// standard rating.
#[must_use]
pub fn device(given: &Context<'_>) -> Amps {
    given.point.device.unwrap_or(rating_for(given.point.current)).max(given.point.current)
}

/// Voltage drop allowed from the origin to the charge point: the regulations' share of nominal, or the installer's own where that is less.
/// Where a voltage window senses a broken supply neutral, it is less again: even a supply at its lawful lowest must stay inside the window
/// at full current, or the charge point would switch off.
#[must_use]
pub fn allowed(case: &KnownCase<'_>, given: &Context<'_>) -> Volts {
    let broken_neutral = case.possible_earthing().any(|arrangement| arrangement != EarthingArrangement::Tt);
    crate::calculation::voltage_drop::allowed_by(given.config, broken_neutral && !given.point.open_pen_three_phase)
}

/// Whether the cable that is there is used: it can be, and an outbuilding's feed ahead of it, if any, carries a charge point.
#[must_use]
pub fn is_kept(case: &KnownCase<'_>) -> bool {
    case.circuit().keeps_cable() && !case.feed().is_too_small()
}

/// Decides kind and size of the cable.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Context<'_>) -> CableDesign {
    let (rough, along) = (case.route_length(), case.route_along());
    // Until its way is known, a new cable to an outbuilding is taken as dug in soft ground: common practice, no source.
    let from_home = match case.feed() {
        Feed::TooSmall(length) => Some(Run { along: Along::SoftGround, length, high: false }),
        Feed::NotThere | Feed::Carries(_) => None,
    };
    let length = from_home.map_or(rough, |run| rough + run.length);
    let wall = case.wall();
    // Where nothing is dug, the result must not depend on the kind of ground.
    let digs = whole_route(given, rough, along, from_home).any(|run| is_ground(run.along));
    let hard_ground = digs && case.hard_ground();
    let needs = needs(case, given);
    let around = Around::of(given.answers);
    let Chosen { size, governs, checked: Checked { drop, by, .. }, .. } =
        choose(|| pieces(|| whole_route(given, rough, along, from_home), false, around), &needs);
    let (allowed, in_) = (needs.allowed, needs.in_);
    CableDesign {
        length,
        along,
        armoured: around.armoured,
        wall,
        digs,
        hard_ground,
        size,
        drop,
        allowed,
        in_,
        governs,
        disconnects: by,
        from_home,
    }
}

/// What the cable of a charge point must satisfy: a Type B breaker of the device's rating, the 30 mA device that every point has, and every
/// earthing arrangement that is still possible: the highest external impedance for the loop, the lowest for the fault current. Voltage drop
/// and loop count from the origin, so an outbuilding's own feed is included.
#[must_use]
pub fn needs(case: &KnownCase<'_>, given: &Context<'_>) -> Needs {
    let ib = given.point.current;
    let (mut ze_highest, mut ze_lowest) = (Ohms::ZERO, None::<Ohms>);
    for ze in case.possible_earthing().map(declared) {
        ze_highest = ze_highest.max(ze);
        ze_lowest = Some(ze_lowest.map_or(ze, |least| least.min(ze)));
    }
    Needs {
        ib,
        in_: device(given),
        breaker: BreakerType::B,
        residual: Some(RESIDUAL),
        nominal: NOMINAL,
        c_min: C_MIN,
        allowed: allowed(case, given),
        ahead: match case.feed() {
            Feed::Carries(charge) => Feeding::said(given.answers, given.config).ahead(charge),
            Feed::NotThere | Feed::TooSmall(_) => Ahead::NOTHING,
        },
        ze_highest,
        ze_lowest: ze_lowest.unwrap_or(ze_highest),
    }
}

/// Every stretch from where the cable begins: the new one from the home first, then the route as answered stretch by stretch or roughly.
fn whole_route<'a>(
    given: &Context<'a>,
    rough: Metres,
    along: Along,
    from_home: Option<Run>,
) -> impl Iterator<Item = Run> + use<'a> {
    let said = said_in_stretches(given.answers);
    from_home.into_iter().chain(runs(said, given.config.thresholds.pace, rough, along))
}

impl CableDesign {
    /// Every stretch of this cable.
    pub fn stretches<'a>(&self, given: &Context<'a>) -> impl Iterator<Item = Run> + use<'a> {
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

/// Whether armoured cable is taken along the whole route. A car park of flats and the way to it are shared, and not wired in flat cable.
/// Common practice, no source: steel-wired or in conduit, here as armoured.
#[must_use]
pub fn all_armoured(answers: &Answers) -> bool {
    answers.parking.place.is(ParkingPlace::SharedCarPark)
}

/// The kind of cable along a stretch.
#[must_use]
pub const fn kind(armoured: bool, with_data: bool) -> CableType {
    match (armoured, with_data) {
        (false, _) => CableType::TwinAndEarth, // indoors a data cable runs beside it
        (true, false) => CableType::Armoured,
        (true, true) => CableType::ArmouredWithData,
    }
}

impl CableDesign {
    /// The decision in a word.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match (self.size, self.armoured || self.from_home.is_some() || takes_armoured(self.along)) {
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
    use crate::site;
    use model::answers::{Answer, Length};
    use model::config::demo_config;
    use proptest::prelude::*;

    fn cable(metres: f64, along: Along) -> CableDesign {
        let (config, mut answers) = (demo_config(), Answers::default());
        answers.route.length = Answer::Known(Length::metres(metres));
        answers.route.mostly = Answer::Known(along);
        let site = site::infer(&answers, &config);
        decide(&site.likeliest_case(), &Context::of(&answers, &config))
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
        assert_eq!(cable(20.0, Along::LoftOrFloor).size, Some(SquareMillimetres::of(16.0)));
        assert_eq!(cable(60.0, Along::OutsideWall).size, Some(SquareMillimetres::of(10.0)));
    }

    #[test]
    fn a_cable_is_named_by_its_kind_and_whether_it_is_larger_than_plain() {
        for (metres, along, word) in [
            (10.0, Along::Inside, "twin-and-earth"),
            (60.0, Along::Inside, "larger-twin-and-earth"),
            (10.0, Along::Fence, "armoured"),
            (60.0, Along::Fence, "larger-armoured"),
            (1000.0, Along::Fence, "no-size-passes"),
        ] {
            assert_eq!(cable(metres, along).word(), word);
        }
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
