//! The route from board to charge point: its length, and what it runs along.

use super::fact::Fact;
use crate::calculation::radio::{Building, Signal, Wall, arrives, loss};
use alloc::vec::Vec;
use model::answers::said_in_stretches;
use model::answers::{Age, Along, Answers, LengthUnit, ParkingPlace, Stretch};
use model::config::Config;
use model::tables::radio::SENT;
use model::terms::KnownBy;
use model::units::{Count, Megahertz, Metres, Probability, Ratio};

/// A run of cable along one kind of ground or wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Along what.
    pub along: Along,
    /// How long.
    pub length: Metres,
    /// Whether it is above about 3 m.
    pub high: bool,
}

/// A wall thicker than this needs a longer drill; a cavity wall is not. Common practice, no source.
pub const THICK_WALL: Metres = Metres::of(0.4);

/// Factors by which a rough length may be wrong: common practice, no source.
const ROUGH: [(f64, Probability); 3] =
    [(1.0, Probability::of(0.4)), (0.85, Probability::of(0.3)), (1.3, Probability::of(0.3))];
/// A common factor by which stretches that were paced out may be wrong: common practice, no source.
const PACED: [(f64, Probability); 3] =
    [(1.0, Probability::of(0.4)), (0.92, Probability::of(0.3)), (1.12, Probability::of(0.3))];
/// Lengths where nobody could tell: common practice, no source.
const UNKNOWN: [(Metres, Probability); 3] = [
    (Metres::of(12.0), Probability::of(0.4)),
    (Metres::of(6.0), Probability::of(0.3)),
    (Metres::of(25.0), Probability::of(0.3)),
];
/// The shortest cable from board to charge point that is usual: common practice, no source.
const LEAST: Metres = Metres::of(1.0);

/// Infers the length of the whole route.
pub(super) fn infer_length(answers: &Answers, config: &Config) -> Fact<Metres> {
    // The rough answer first; somebody who gave that may make it exact by stretches.
    const FROM: &[&str] = &["route-length", "route-stretches"];
    let pace = config.thresholds.pace;
    if let Some(stretches) = said_in_stretches(answers) {
        // Somebody who gave stretches is not asked roughly as well.
        const EXACT: &[&str] = &["route-stretches"];
        let (measured, paced) = measured_and_paced(stretches, pace);
        let all = |factor: f64| (measured + paced * Ratio::of(factor)).max(LEAST);
        return if paced > Metres::ZERO {
            Fact::weighed(&PACED.map(|(factor, weight)| (all(factor), weight)), KnownBy::Said, EXACT)
        } else {
            Fact::sure(all(1.0), KnownBy::Said, EXACT)
        };
    }
    match answers.route.length.known() {
        Some(length) => {
            let said = length.in_metres(pace).max(LEAST);
            let values = ROUGH.map(|(factor, weight)| (said * Ratio::of(factor), weight));
            Fact::weighed(&values, KnownBy::Said, FROM)
        }
        None => Fact::weighed(&UNKNOWN, KnownBy::Assumed, FROM),
    }
}

/// The likeliest length of the route from board to charge point.
#[must_use]
pub fn likely_length(answers: &Answers, config: &Config) -> Metres {
    infer_length(answers, config).likeliest()
}

/// The length of the stretches that were measured, and of those that were paced out.
fn measured_and_paced(stretches: &[Stretch], pace: Ratio) -> (Metres, Metres) {
    let sum = |such: bool| {
        let those = stretches.iter().filter(|stretch| (stretch.length.unit == LengthUnit::Paces) == such);
        those.map(|stretch| stretch.length.in_metres(pace)).sum()
    };
    (sum(false), sum(true))
}

/// Infers what the route mostly runs along. The shares where nobody could tell: common practice, no source.
pub(super) fn infer_along(answers: &Answers) -> Fact<Along> {
    const FROM: &[&str] = &["route-mostly"];
    if let Some(first) = said_in_stretches(answers).and_then(<[Stretch]>::first) {
        return Fact::sure(first.along, KnownBy::Said, FROM); // the stretches themselves are priced, see `runs`
    }
    match answers.route.mostly.known() {
        Some(along) => Fact::sure(*along, KnownBy::Said, FROM),
        None => {
            let weights: &[(Along, f64)] = if answers.parking.place.is(ParkingPlace::DetachedGarage) {
                &[(Along::SoftGround, 0.4), (Along::Paving, 0.35), (Along::OutsideWall, 0.15), (Along::Fence, 0.1)]
            } else {
                &[
                    (Along::OutsideWall, 0.5),
                    (Along::Inside, 0.25),
                    (Along::LoftOrFloor, 0.1),
                    (Along::SoftGround, 0.08),
                    (Along::Paving, 0.07),
                ]
            };
            let values: Vec<(Along, Probability)> =
                weights.iter().map(|(along, weight)| (*along, Probability::of(*weight))).collect();
            Fact::weighed(&values, KnownBy::Assumed, FROM)
        }
    }
}

/// The probability that ground turns out hard to dig where nobody looked at the route: nothing is known of the depth, of what lies under
/// the surface, of the kind of ground and of what else is buried there. Common practice, no source.
const HARD_UNSEEN: Probability = Probability::of(0.35);
/// The same where the route was given stretch by stretch, so that somebody looked at its surface. Common practice, no source.
const HARD_SURFACE_SEEN: Probability = Probability::of(0.25);
/// The same where, in addition, nothing is known to lie in it. Common practice, no source.
const HARD_NOTHING_BURIED: Probability = Probability::of(0.08);
/// The same where services lie in it, beside which digging is by hand. Common practice, no source.
const HARD_BESIDE_SERVICES: Probability = Probability::of(0.6);

/// Infers whether ground is hard to dig: roots, rubble, concrete under the surface, or digging by hand beside other services.
pub(super) fn infer_hard_ground(answers: &Answers) -> Fact<bool> {
    const FROM: &[&str] = &["buried", "route-stretches"];
    let in_stretches = said_in_stretches(answers).is_some();
    let nothing_buried = answers.route.buried.known().map(|buried| buried.iter().next().is_none());
    let hard = match (nothing_buried, in_stretches) {
        (Some(false), _) => HARD_BESIDE_SERVICES,
        (Some(true), true) => HARD_NOTHING_BURIED,
        (Some(true), false) | (None, true) => HARD_SURFACE_SEEN,
        (None, false) => HARD_UNSEEN,
    };
    Fact::chance(true, false, hard, KnownBy::Assumed, FROM)
}

/// Infers whether there is a wall to fix to where the car stands; without one a post is needed. Common practice, no source.
pub(super) fn infer_wall(answers: &Answers) -> Fact<bool> {
    // Somebody who gave the route stretch by stretch is not asked what it mostly runs along.
    let (digs, from): (bool, &'static [&'static str]) = match said_in_stretches(answers) {
        Some(stretches) => (stretches.last().is_some_and(|last| is_ground(last.along)), &[]),
        None => (answers.route.mostly.known().is_some_and(|along| is_ground(*along)), &["route-mostly"]),
    };
    match answers.parking.place.known() {
        Some(ParkingPlace::AttachedGarage | ParkingPlace::DetachedGarage) => Fact::sure(true, KnownBy::Inferred, from),
        Some(ParkingPlace::Drive | ParkingPlace::SharedCarPark | ParkingPlace::Street) | None if digs => {
            Fact::chance(true, false, Probability::of(0.6), KnownBy::Assumed, from)
        }
        Some(_) => Fact::sure(true, KnownBy::Inferred, from),
        None => Fact::chance(true, false, Probability::of(0.9), KnownBy::Assumed, from),
    }
}

/// How good the signal at the spot is: by a measured level, otherwise by a timed transfer, otherwise by bars; `None` where there is none of
/// these.
///
/// Good down to −67 dBm, weak below −75 dBm: survey practice. Bars and transfer: common practice, no source.
#[must_use]
pub fn verdict(answers: &Answers, config: &Config) -> Option<Signal> {
    let (said, thresholds) = (&answers.signal, &config.thresholds);
    if let Some(level) = said.level.known() {
        return Some(if *level <= thresholds.signal_good {
            Signal::Good
        } else if *level <= thresholds.signal_least {
            Signal::Marginal
        } else {
            Signal::Weak
        });
    }
    let holds = |good| if good { Signal::Good } else { Signal::Weak };
    let timed = said.transfer.known().map(|rate| holds(*rate >= thresholds.transfer));
    let bars = said.wifi_bars.known().map(|bars| holds(bars.get() >= thresholds.wifi_bars));
    match (timed, bars) {
        // Bars and transfer disagree: one of them was luck.
        (Some(timed), Some(bars)) if timed != bars => Some(Signal::Marginal),
        (timed, bars) => timed.or(bars),
    }
}

/// The probability that a marginal signal fails in service: common practice, no source.
const MARGINAL: Probability = Probability::of(0.5);

/// Infers whether the signal is weak at the spot.
pub(super) fn infer_signal(answers: &Answers, config: &Config) -> Fact<bool> {
    // After a measurement, bars tell nothing more.
    const MEASURED: &[&str] = &["data-cable"];
    const FROM: &[&str] = &["wifi-bars", "data-cable"];
    let from = if answers.signal.level.known().is_some() { MEASURED } else { FROM };
    if answers.signal.data_cable.is(true) {
        return Fact::sure(false, KnownBy::Said, from); // the cable that is there is used
    }
    match verdict(answers, config) {
        Some(Signal::Good) => Fact::sure(false, KnownBy::Seen, from),
        Some(Signal::Weak) => Fact::sure(true, KnownBy::Seen, from),
        Some(Signal::Marginal) => Fact::chance(true, false, MARGINAL, KnownBy::Inferred, from),
        // Nobody measured: predicted from the router's distance where that is known, otherwise assumed.
        None => match answers.signal.router.known() {
            Some(router) => {
                let weak = foretold(router.in_metres(config.thresholds.pace), config);
                Fact::chance(true, false, weak, KnownBy::Inferred, from)
            }
            None => Fact::chance(true, false, config.priors.weak_signal, KnownBy::Assumed, from),
        },
    }
}

/// Shadowing scatters a level by this many decibels (one standard deviation): 10 indoors and 5 through an outside wall, taken together.
/// Source: seen in the ns-3 Buildings module, design document (CTTC).
const SCATTERS: f64 = 11.180_339_887_498_949;

/// The probability that the signal is weak at this distance from the router, on the same floor and behind one outside wall with windows, by
/// ITU-R P.1238 with its shadowing. The model does not cover water, metal or foil on the way: a measurement is better.
#[must_use]
pub fn foretold(distance: Metres, config: &Config) -> Probability {
    // The lower of the two usual frequency bands: from memory.
    let lost = loss(Megahertz::of(2400.0), distance, Building::Residential, Count::of(0));
    let level = arrives(SENT, lost, core::iter::once(Wall::WithWindows));
    let short = (-config.thresholds.signal_least.get() - level.get()) / SCATTERS;
    // Arithmetic: the normal distribution.
    Probability::from_sum(0.5 * libm::erfc(-short * core::f64::consts::FRAC_1_SQRT_2))
}

/// The probability that mobile data is received where nobody looked: common practice, no source.
const RECEIVED: Probability = Probability::of(0.6);

/// Infers whether mobile data is received at the spot.
pub(super) fn infer_mobile(answers: &Answers, config: &Config) -> Fact<bool> {
    const FROM: &[&str] = &["mobile-bars"];
    match answers.signal.mobile_bars.known() {
        Some(bars) => Fact::sure(bars.get() >= config.thresholds.mobile_bars, KnownBy::Seen, FROM),
        None => Fact::chance(true, false, RECEIVED, KnownBy::Assumed, FROM),
    }
}

/// Whether a cable along it is dug in.
#[must_use]
pub const fn is_ground(along: Along) -> bool {
    matches!(along, Along::SoftGround | Along::Paving)
}

/// The probability that any of the route is dug in: by its stretches where they were given, otherwise by what it mostly runs along.
#[must_use]
pub fn digs(answers: &Answers, mostly: &Fact<Along>) -> Probability {
    match answers.route.stretches.known().filter(|stretches| !stretches.is_empty()) {
        Some(stretches) if stretches.iter().any(|stretch| is_ground(stretch.along)) => Probability::CERTAIN,
        Some(_) => Probability::NEVER,
        None => mostly.probability(is_ground),
    }
}

/// The probability that any of the route runs on a fence: by its stretches where they were given, otherwise by what it mostly runs along.
#[must_use]
pub fn on_a_fence(answers: &Answers, mostly: &Fact<Along>) -> Probability {
    match said_in_stretches(answers) {
        Some(stretches) if stretches.iter().any(|stretch| stretch.along == Along::Fence) => Probability::CERTAIN,
        Some(_) => Probability::NEVER,
        None => mostly.probability(|along| along == Along::Fence),
    }
}

/// The runs of the stretches, with the lengths that were answered.
pub fn as_said(stretches: &[Stretch], pace: Ratio) -> impl Iterator<Item = Run> + '_ {
    let (measured, paced) = measured_and_paced(stretches, pace);
    runs(Some(stretches), pace, measured + paced, Along::Inside)
}

/// The runs of the route in one known case, which has the length `length`: paced stretches are scaled to make up the difference from the
/// length that was answered. Without stretches, one run along `along`.
pub fn runs(
    stretches: Option<&[Stretch]>,
    pace: Ratio,
    length: Metres,
    along: Along,
) -> impl Iterator<Item = Run> + '_ {
    let rough = Run { along, length, high: false };
    let (measured, paced) = measured_and_paced(stretches.unwrap_or_default(), pace);
    let factor = length.less(measured).times_of(paced).unwrap_or(Ratio::of(1.0));
    let one = move |stretch: &Stretch| {
        let said = stretch.length.in_metres(pace);
        let length = if stretch.length.unit == LengthUnit::Paces { said * factor } else { said };
        Run { along: stretch.along, length, high: stretch.high }
    };
    stretches.into_iter().flatten().map(one).chain(stretches.is_none().then_some(rough))
}

/// Whether the home may hold asbestos, by its age: before 2000 (Control of Asbestos: use banned in 1999, from memory).
#[must_use]
pub fn may_hold_asbestos(answers: &Answers) -> bool {
    answers.home.age.known().is_none_or(|age| *age != Age::Since2000)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, BoundedCount, Length};
    use model::config::demo_config;

    /// Source: the check of ITU-R P.1238 at 2400 MHz and 10 m in a home with one outside wall with windows: −54.6 dBm (worked in the
    /// reference from the ns-3 Buildings module's document). With 11.2 dB of shadowing −75 dBm lies 1.82 deviations below, which
    /// the normal table puts at 3.4 %.
    #[test]
    fn a_router_ten_metres_off_is_seldom_too_far() {
        let config = demo_config();
        assert!((foretold(Metres::of(10.0), &config).get() - 0.034).abs() < 0.001);
        let mut before = 0.0;
        for metres in [0.0, 5.0, 10.0, 20.0, 40.0, 80.0] {
            let weak = foretold(Metres::of(metres), &config).get();
            assert!(weak >= before, "farther off is never likelier to do");
            before = weak;
        }
        let mut answers = Answers::default();
        answers.signal.router = model::answers::Answer::Known(model::answers::Length::metres(40.0));
        let told = infer_signal(&answers, &config);
        assert_eq!(told.known_by, KnownBy::Inferred);
        answers.signal.wifi_bars = model::answers::Answer::Known(model::answers::BoundedCount::new(4).unwrap());
        assert_eq!(
            infer_signal(&answers, &config).known_by,
            KnownBy::Seen,
            "what was seen counts before what is foretold"
        );
    }

    #[test]
    fn paces_become_metres_and_stay_rough() {
        let mut answers = Answers::default();
        answers.route.length =
            Answer::Known(Length { value: Ratio::of(20.0), unit: model::answers::LengthUnit::Paces });
        let fact = infer_length(&answers, &demo_config());
        assert_eq!(fact.likeliest(), Metres::of(15.0));
        assert_eq!(fact.values().len(), 3);
    }

    #[test]
    fn stretches_stand_in_place_of_the_rough_answer() {
        let mut answers = Answers::default();
        answers.route.length = Answer::Known(Length::metres(50.0));
        let stretch = |along, metres| Stretch { along, length: Length::metres(metres), high: false };
        answers.route.stretches = Answer::Known(alloc::vec![stretch(Along::Inside, 4.0), stretch(Along::Paving, 5.0)]);
        assert_eq!(infer_length(&answers, &demo_config()).likeliest(), Metres::of(9.0));
        assert!(!infer_length(&answers, &demo_config()).is_unsure());
    }

    #[test]
    fn stretches_that_were_paced_out_stay_uncertain_and_take_up_the_difference() {
        let mut answers = Answers::default();
        let stretch = |value, unit| Stretch {
            along: Along::Inside,
            length: Length { value: Ratio::of(value), unit },
            high: false,
        };
        let said = alloc::vec![stretch(40.0, LengthUnit::Paces), stretch(5.0, LengthUnit::Metres)];
        answers.route.stretches = Answer::Known(said.clone());
        let pace = demo_config().thresholds.pace;
        let fact = infer_length(&answers, &demo_config());
        assert_eq!((fact.likeliest(), fact.values().len()), (Metres::of(35.0), 3));
        let lengths = |total| runs(Some(&said), pace, total, Along::Inside).map(|run| run.length).collect::<Vec<_>>();
        assert_eq!(lengths(Metres::of(35.0)), [Metres::of(30.0), Metres::of(5.0)]);
        let longer = lengths(Metres::of(38.0));
        assert!((longer[0].get() - 33.0).abs() < 1e-9 && longer[1] == Metres::of(5.0), "what was measured stays");
        assert_eq!(as_said(&said, pace).map(|run| run.length).sum::<Metres>(), Metres::of(35.0));
        assert_eq!(fact.from, ["route-stretches"], "nothing rougher is asked");
    }

    #[test]
    fn not_sure_of_the_bars_is_neither_weak_nor_strong() {
        let mut answers = Answers::default();
        answers.signal.wifi_bars = Answer::NotSure;
        assert!(infer_signal(&answers, &demo_config()).is_unsure());
        answers.signal.wifi_bars = Answer::Known(BoundedCount::new(1).unwrap());
        assert!(infer_signal(&answers, &demo_config()).likeliest());
        answers.signal.data_cable = Answer::Known(true);
        assert!(!infer_signal(&answers, &demo_config()).likeliest());
    }

    #[test]
    fn not_sure_of_the_mobile_bars_says_neither() {
        let (config, mut answers) = (demo_config(), Answers::default());
        answers.signal.mobile_bars = Answer::NotSure;
        assert!(infer_mobile(&answers, &config).is_unsure());
        for (bars, received) in [(0, false), (1, false), (2, true), (4, true)] {
            answers.signal.mobile_bars = Answer::Known(BoundedCount::new(bars).unwrap());
            assert_eq!(infer_mobile(&answers, &config).values(), [(received, Probability::CERTAIN)], "{bars}");
        }
    }

    #[test]
    fn a_meters_figure_is_a_verdict_and_goes_before_bars() {
        let (config, mut answers) = (demo_config(), Answers::default());
        answers.signal.wifi_bars = Answer::Known(BoundedCount::new(4).unwrap());
        for (level, expected) in
            [(67.0, Signal::Good), (67.1, Signal::Marginal), (75.0, Signal::Marginal), (75.1, Signal::Weak)]
        {
            answers.signal.level = Answer::Known(model::units::DecibelsUnder::of(level));
            assert_eq!(verdict(&answers, &config), Some(expected), "−{level} dBm");
        }
    }

    #[test]
    fn a_transfer_that_disagrees_with_the_bars_is_marginal() {
        let (config, mut answers) = (demo_config(), Answers::default());
        answers.signal.wifi_bars = Answer::Known(BoundedCount::new(4).unwrap());
        answers.signal.transfer = Answer::Known(model::units::MegabitsPerSecond::of(0.5));
        assert_eq!(verdict(&answers, &config), Some(Signal::Marginal));
        answers.signal.wifi_bars = Answer::NotSure;
        assert_eq!(verdict(&answers, &config), Some(Signal::Weak));
    }
}
