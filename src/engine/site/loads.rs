//! What the home draws already, after diversity: by likely use as a distribution, and by device ratings as an upper bound.
//!
//! Unsure loads are added, not multiplied out: each load is a small distribution, and the distribution of their sum is worked out on a grid
//! of whole amperes. Loads of the day (cooking, showers) and loads that charge at night (storage heaters, a battery) do not coincide, so
//! the greater of the two sums counts. The result has three values (10 %, 50 %, 90 %) with the weights 0.3, 0.4, 0.3.
//! Source of the weights: Swanson's rule, as examined by Hurst, Brown and Swanson, *AAPG Bulletin* 84 (2000), from memory.

use super::fact::Fact;
use crate::calculation::demand::{Connected, after_diversity, cooking, showers};
use alloc::vec::Vec;
use model::answers::{Answers, Cooking, Heating, OtherPoint};
use model::tables::diversity::COOKING_IN_FULL;
use model::tables::voltage::NOMINAL;
use model::terms::KnownBy;
use model::units::{Amps, Kilowatts, Probability, Ratio};

/// When a load is in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InUse {
    /// At any time.
    Always,
    /// While people are up.
    ByDay,
    /// In the hours of the night rate.
    AtNight,
}

/// One load's possible demands after diversity, with weights that add up to one.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// The load, by the id of its question.
    pub name: &'static str,
    /// When it is in use.
    pub in_use: InUse,
    /// By likely use.
    pub by_use: Vec<(Amps, Probability)>,
}

/// Low, likely and high carry these weights: Swanson's rule, from memory.
const THREE: [Probability; 3] = [Probability::of(0.3), Probability::of(0.4), Probability::of(0.3)];

/// Lighting and sockets of a home in use: common practice, no source.
const BACKGROUND: [Amps; 3] = [Amps::of(8.0), Amps::of(13.0), Amps::of(20.0)];
/// Connected power of an electric cooker where it is not known: common practice, no source.
const COOKER: Kilowatts = Kilowatts::of(10.0);
/// An electric oven beside a gas hob: common practice, no source.
const OVEN: [Amps; 3] = [Amps::of(6.0), Amps::of(11.0), Amps::of(16.0)];
/// Power of an electric shower where it is not known: common practice, no source.
const SHOWERS: [Kilowatts; 3] = [Kilowatts::of(8.5), Kilowatts::of(9.5), Kilowatts::of(10.5)];
/// Storage heaters, all charging at night: common practice, no source.
const STORAGE: [Kilowatts; 3] = [Kilowatts::of(6.0), Kilowatts::of(10.0), Kilowatts::of(15.0)];
/// Panel heaters, floor warming or an electric boiler: common practice, no source.
const DIRECT: [Kilowatts; 3] = [Kilowatts::of(4.0), Kilowatts::of(8.0), Kilowatts::of(12.0)];
/// A heat pump's electrical input: common practice, no source.
const HEAT_PUMP: [Kilowatts; 3] = [Kilowatts::of(2.5), Kilowatts::of(4.0), Kilowatts::of(6.0)];
/// A hot tub: common practice, no source.
const HOT_TUB: [Amps; 3] = [Amps::of(13.0), Amps::of(20.0), Amps::of(32.0)];
/// What a battery takes while it charges, by its inverter's usual ratings: common practice, no source.
const BATTERY: [Kilowatts; 3] = [Kilowatts::of(2.5), Kilowatts::of(3.6), Kilowatts::of(5.0)];
/// A battery where nobody could tell: common practice, no source.
const BATTERY_UNKNOWN: f64 = 0.05;
/// Two electric showers run at the same time in this share of the busiest hours: common practice, no source.
const SHOWERS_TOGETHER: f64 = 0.3;
/// A charge point that stays, at full current (BS 7671 722.311.201); that it is 32 A: common practice, no source.
const CHARGE_POINT: Amps = Amps::of(32.0);
/// How many electric showers a home has where nobody could tell: common practice, no source.
const SHOWERS_UNKNOWN: [(u8, Probability); 3] =
    [(0, Probability::of(0.5)), (1, Probability::of(0.45)), (2, Probability::of(0.05))];

/// The currents of the home's showers, the largest first: as rated where that was read; others are taken as the largest.
fn each_shower(answers: &Answers, count: u8, unread: Amps) -> Vec<Amps> {
    let said = &answers.loads;
    let current = |power: Option<&Kilowatts>| power.map(|power| power.current_at(NOMINAL));
    let first = current(said.shower_power.known()).unwrap_or(unread);
    let second = current(said.second_shower_power.known()).unwrap_or(first);
    let mut all = alloc::vec![second; usize::from(count)];
    if let Some(one) = all.first_mut() {
        *one = first;
    }
    all
}

/// Demand of a number of showers: with the allowances for diversity where they run together, the largest alone where they do not.
fn of_showers(answers: &Answers, count: u8) -> Vec<(Amps, Probability)> {
    let of = |unread: Amps, weight: f64| {
        let all = each_shower(answers, count, unread);
        let alone = all.iter().copied().fold(Amps::ZERO, Amps::max);
        [(showers(&all), weight * SHOWERS_TOGETHER), (alone, weight * (1.0 - SHOWERS_TOGETHER))]
    };
    let known = answers.loads.shower_power.known().is_some();
    let usual = SHOWERS.map(|power| power.current_at(NOMINAL));
    let weighed: Vec<(Amps, f64)> = if known {
        of(Amps::ZERO, 1.0).into()
    } else {
        usual.into_iter().zip(THREE).flat_map(|(amps, weight)| of(amps, weight.get())).collect()
    };
    weighed.into_iter().map(|(amps, weight)| (amps, Probability::from_sum(weight))).collect()
}

/// Every load, by likely use. What homes have where nobody could tell: common practice, no source.
#[must_use]
pub fn loads(answers: &Answers) -> Vec<Load> {
    use InUse::{Always, AtNight, ByDay};
    let said = &answers.loads;
    let mut all = Vec::with_capacity(8);
    let mut add = |name, in_use, by_use| all.push(Load { name, in_use, by_use });
    add("background", Always, spread(BACKGROUND));

    let cooker = said.cooking_power.known().copied().unwrap_or(COOKER).current_at(NOMINAL);
    let electric = [cooker.min(COOKING_IN_FULL), cooking(cooker, false), cooking(cooker, true)];
    add(
        "cooking",
        ByDay,
        match said.cooking.known() {
            Some(Cooking::Electric) => spread(electric),
            Some(Cooking::Mixed) => spread(OVEN),
            Some(Cooking::Gas) => just(Amps::ZERO),
            // Cooking where nobody could tell: electric, an electric oven alone, gas alone. Common practice, no source.
            None => mixed(&[(spread(electric), 0.6), (spread(OVEN), 0.25), (just(Amps::ZERO), 0.15)]),
        },
    );

    add(
        "showers",
        ByDay,
        match said.showers.known() {
            Some(count) => of_showers(answers, count.get()),
            None => mixed(&SHOWERS_UNKNOWN.map(|(count, weight)| (of_showers(answers, count), weight.get()))),
        },
    );

    let heating = |usual: [Kilowatts; 3]| match said.heating_power.known() {
        Some(power) => just(power.current_at(NOMINAL)),
        None => spread(usual.map(|power| power.current_at(NOMINAL))),
    };
    add(
        "heating",
        Always,
        match said.heating.known() {
            Some(Heating::None | Heating::Storage) => just(Amps::ZERO),
            Some(Heating::Direct) => heating(DIRECT),
            Some(Heating::HeatPump) => heating(HEAT_PUMP),
            // Heating by electricity where nobody could tell: none, direct, a heat pump. Common practice, no source.
            None => mixed(&[(just(Amps::ZERO), 0.91), (heating(DIRECT), 0.04), (heating(HEAT_PUMP), 0.05)]),
        },
    );
    add(
        "storage-heating",
        AtNight,
        match said.heating.known() {
            Some(Heating::Storage) => heating(STORAGE),
            Some(Heating::None | Heating::Direct | Heating::HeatPump) => just(Amps::ZERO),
            // Storage heaters where nobody could tell: none, some. Common practice, no source.
            None => mixed(&[(just(Amps::ZERO), 0.94), (heating(STORAGE), 0.06)]),
        },
    );
    let hot_tub = || match said.hot_tub_power.known() {
        Some(power) => just(power.current_at(NOMINAL)),
        None => spread(HOT_TUB),
    };
    add(
        "hot-tub",
        Always,
        match said.hot_tub.known() {
            Some(true) => hot_tub(),
            Some(false) => just(Amps::ZERO),
            // A hot tub where nobody could tell: none, one. Common practice, no source.
            None => mixed(&[(just(Amps::ZERO), 0.95), (hot_tub(), 0.05)]),
        },
    );
    let battery = || match said.battery_power.known() {
        Some(power) => just(power.current_at(NOMINAL)),
        None => spread(BATTERY.map(|power| power.current_at(NOMINAL))),
    };
    add(
        "battery",
        AtNight,
        match (said.battery.known(), said.battery_power.known()) {
            (Some(false), _) => just(Amps::ZERO),
            (Some(true), _) | (None, Some(_)) => battery(),
            (None, None) => mixed(&[(just(Amps::ZERO), 1.0 - BATTERY_UNKNOWN), (battery(), BATTERY_UNKNOWN)]),
        },
    );
    add(
        "other-point",
        Always,
        match said.other_point.known() {
            Some(OtherPoint::Kept) => just(CHARGE_POINT),
            Some(OtherPoint::None | OtherPoint::Replaced) => just(Amps::ZERO),
            // Another charge point where nobody could tell: none, one. Common practice, no source.
            None => mixed(&[(just(Amps::ZERO), 0.97), (just(CHARGE_POINT), 0.03)]),
        },
    );
    all
}

/// The home's circuits and devices by their ratings, those that are known and those that are usual.
///
/// Assumed where nobody counted them: two circuits of lighting at 6 A, two of sockets at 32 A, a cooker at 32 A with a socket, showers at
/// 40 A. Common practice, no source.
#[derive(Clone, Debug, PartialEq)]
pub struct Rated {
    /// Circuits of lighting.
    pub lighting: [Amps; 2],
    /// Circuits of socket-outlets.
    pub sockets: [Amps; 2],
    /// The cooker, its control unit with a socket-outlet.
    pub cooking: Option<Amps>,
    /// Each shower.
    showers: Vec<Amps>,
    /// Heating, a hot tub, and a battery that charges; zero where nothing is known of it.
    in_full: [Amps; 3],
    /// A charge point that stays.
    point: Option<Amps>,
}

/// The circuits and devices by the answers. What is assumed where nobody counted: common practice, no source.
#[must_use]
pub fn rated(answers: &Answers) -> Rated {
    let said = &answers.loads;
    let high = |usual: [Kilowatts; 3]| said.heating_power.known().copied().unwrap_or(usual[2]).current_at(NOMINAL);
    let heating = match said.heating.known() {
        Some(Heating::None) | None => Amps::ZERO,
        Some(Heating::Storage) => high(STORAGE),
        Some(Heating::Direct) => high(DIRECT),
        Some(Heating::HeatPump) => high(HEAT_PUMP),
    };
    Rated {
        lighting: [Amps::of(6.0); 2],
        sockets: [Amps::of(32.0); 2],
        cooking: match said.cooking.known() {
            Some(Cooking::Gas) => None,
            Some(Cooking::Electric | Cooking::Mixed) | None => Some(Amps::of(32.0)),
        },
        showers: {
            // A shower's circuit; a shower that is rated higher counts as rated.
            let circuit = Amps::of(40.0);
            let count = said.showers.known().map_or(1, |count| count.get());
            each_shower(answers, count, circuit).into_iter().map(|amps| amps.max(circuit)).collect()
        },
        in_full: [
            heating,
            if said.hot_tub.is(true) {
                said.hot_tub_power.known().map_or(HOT_TUB[2], |power| power.current_at(NOMINAL))
            } else {
                Amps::ZERO
            },
            match (said.battery.known(), said.battery_power.known()) {
                (Some(false), _) | (None, None) => Amps::ZERO,
                (_, Some(power)) => power.current_at(NOMINAL),
                (Some(true), None) => BATTERY[2].current_at(NOMINAL),
            },
        ],
        point: said.other_point.is(OtherPoint::Kept).then_some(CHARGE_POINT),
    }
}

impl Rated {
    /// Each shower.
    #[must_use]
    pub fn showers(&self) -> &[Amps] {
        &self.showers
    }

    /// The loads that count in full.
    #[must_use]
    pub fn in_full(&self) -> Vec<Amps> {
        self.in_full.into_iter().filter(|amps| *amps > Amps::ZERO).collect()
    }

    /// Charge points that stay.
    #[must_use]
    pub fn charge_points(&self) -> Vec<Amps> {
        self.point.into_iter().collect()
    }
}

/// Demand by the ratings of devices that are known or usual. It is shown beside the demand by likely use, which it usually exceeds.
#[must_use]
pub fn by_ratings(answers: &Answers) -> Amps {
    let rated = rated(answers);
    let cooking: Vec<(Amps, bool)> = rated.cooking.into_iter().map(|amps| (amps, true)).collect();
    after_diversity(&Connected {
        lighting: rated.lighting.into_iter().sum(),
        cooking: &cooking,
        showers: rated.showers(),
        in_full: rated.in_full.into_iter().sum(),
        socket_circuits: &rated.sockets,
        charge_points: rated.charge_points().into_iter().sum(),
        ..Connected::default()
    })
    .total()
}

/// Infers existing demand: the sum of all loads, with at most three values.
pub(super) fn infer(answers: &Answers) -> Fact<Amps> {
    const FROM: &[&str] = &[
        "showers",
        "cooking",
        "heating",
        "hot-tub",
        "other-point",
        "shower-power",
        "second-shower-power",
        "cooking-power",
        "heating-power",
        "hot-tub-power",
        "highest-half-hour",
        "battery",
        "battery-power",
        "carrier-rating",
    ];
    // Loads that charge at night seldom count beside those of the day, and the rating on the carrier is only a bound. So where they were
    // answered the fact rests on these questions, but nobody is asked them because of it.
    let battery = answers.loads.battery.is(true) || answers.loads.battery_power.known().is_some();
    let from = match (battery, answers.meter.carrier_rating.known()) {
        (_, Some(_)) if battery => FROM,
        (true, _) => &FROM[..FROM.len() - 1],
        (false, _) => &FROM[..FROM.len() - 3],
    };
    let said = &answers.loads;
    let unsaid = said.showers.known().is_none()
        || said.cooking.known().is_none()
        || said.heating.known().is_none()
        || said.hot_tub.known().is_none()
        || said.other_point.known().is_none();
    let known_by = if unsaid { KnownBy::Assumed } else { KnownBy::Inferred };
    let values = quantiles(&sum(&loads(answers)));
    // The meter's highest half-hour averages short peaks away: a lower bound on what the home draws, as far as it is plausible. A greater
    // one is perhaps a day's total, and another flag queries it. What a charge point that is replaced took is no longer drawn.
    let goes = if said.other_point.is(OtherPoint::Replaced) { CHARGE_POINT } else { Amps::ZERO };
    let least = half_hour(answers).map_or(Amps::ZERO, |amps| amps.min(plausible(answers)).above(goes).whole());
    // Loads add up to more only on paper: the fuse has held.
    let most = fuse_holds(answers).map(Amps::whole);
    let bounded = values.map(|amps| amps.max(least)).map(|amps| most.map_or(amps, |most| amps.min(most)));
    Fact::weighed(&[(bounded[1], THREE[1]), (bounded[0], THREE[0]), (bounded[2], THREE[2])], known_by, from)
}

/// The average current over the meter's highest half-hour, at nominal voltage; `None` where it was not read.
#[must_use]
pub fn half_hour(answers: &Answers) -> Option<Amps> {
    let energy = answers.loads.highest_half_hour.known()?;
    Some(Kilowatts::new(energy.get() * 2.0).ok()?.current_at(NOMINAL))
}

/// How much more than its rating a fuse carries for hours: the conventional non-fusing current of a gG fuse-link, 1.25 In. Source: BS EN
/// 60269-1 (from memory).
const FUSE_HOLDS: Ratio = Ratio::of(1.25);

/// The most that the home can draw for hours, on the largest fuse that its carrier takes and on as many phases as there are fuses; `None`
/// where the rating was not read.
fn fuse_holds(answers: &Answers) -> Option<Amps> {
    let rating = *answers.meter.carrier_rating.known()?;
    // Arithmetic: a fuse a phase.
    let phases = if answers.meter.fuse_carriers.known().is_some_and(|count| count.get() == 3) { 3.0 } else { 1.0 };
    Some(rating * FUSE_HOLDS * Ratio::of(phases))
}

/// Where nothing large was named, a half-hour of more than this is probably a day's total: 8 kWh, as a current. Common practice, no source.
const LARGE: Amps = Amps::of(16_000.0 / 230.0);

/// The greatest half-hour that is believed: what the home's devices could draw by their ratings, with a charge point that is replaced, but
/// no more than its fuse carries; where nothing large was named, at most eight kilowatt-hours. Common practice, no source.
#[must_use]
pub fn plausible(answers: &Answers) -> Amps {
    let said = &answers.loads;
    let goes = said.other_point.is(OtherPoint::Replaced);
    let three = answers.meter.fuse_carriers.known().is_some_and(|count| count.get() == 3);
    let nothing_large = said.heating.is(Heating::None)
        && said.other_point.is(OtherPoint::None)
        && said.hot_tub.is(false)
        && said.battery.is(false)
        && !three;
    let by_devices = by_ratings(answers) + if goes { CHARGE_POINT } else { Amps::ZERO };
    let by_size = if nothing_large { by_devices.min(LARGE) } else { by_devices };
    fuse_holds(answers).map_or(by_size, |most| by_size.min(most))
}

/// Whether a half-hour is greater than is plausible.
#[must_use]
pub fn is_implausible(half_hour: Amps, answers: &Answers) -> bool {
    half_hour > plausible(answers)
}

/// The likely demand in the hours of the night rate besides the charge point: heaters and a battery that charge then, and another charge
/// point that stays.
#[must_use]
pub fn at_night(answers: &Answers) -> Amps {
    let likely = |load: &Load| {
        // The likeliest value: that of a load that is there; zero for one that only may be.
        load.by_use
            .iter()
            .copied()
            .fold((Amps::ZERO, Probability::NEVER), |best, one| if one.1 > best.1 { one } else { best })
            .0
    };
    let stays = |load: &Load| load.in_use == InUse::AtNight || load.name == "other-point";
    loads(answers).iter().filter(|load| stays(load)).map(likely).sum()
}

/// Infers whether another charge point stays.
pub(super) fn infer_other_point(answers: &Answers) -> Fact<bool> {
    const FROM: &[&str] = &["other-point"];
    match answers.loads.other_point.known() {
        Some(point) => Fact::sure(*point == OtherPoint::Kept, KnownBy::Said, FROM),
        None => Fact::chance(true, false, OTHER_POINT, KnownBy::Assumed, FROM),
    }
}

/// The probability of another charge point where nobody could tell: common practice, no source.
const OTHER_POINT: Probability = Probability::of(0.03);

fn just(amps: Amps) -> Vec<(Amps, Probability)> {
    alloc::vec![(amps, Probability::CERTAIN)]
}

fn spread(three: [Amps; 3]) -> Vec<(Amps, Probability)> {
    three.into_iter().zip(THREE).collect()
}

fn mixed(parts: &[(Vec<(Amps, Probability)>, f64)]) -> Vec<(Amps, Probability)> {
    let weigh = |weight: f64| move |(amps, of): &(Amps, Probability)| (*amps, Probability::from_sum(of.get() * weight));
    parts.iter().flat_map(|(values, weight)| values.iter().map(weigh(*weight))).collect()
}

/// Size of the grid; its last place holds everything above it: this program's choice.
const GRID: usize = 400;

/// The distribution of the current at the busiest time, on a grid of whole amperes (each load rounded to the nearest).
fn sum(loads: &[Load]) -> [f64; GRID] {
    let of = |in_use: InUse| add_up(loads.iter().filter(move |load| load.in_use == in_use));
    let (always, day, night) = (of(InUse::Always), of(InUse::ByDay), of(InUse::AtNight));
    // The greater of two independent sums is at most a value where both sums are.
    let (mut greater, mut under) = ([0.0; GRID], [0.0; 3]);
    for at in 0..GRID {
        let (by_day, at_night) = (under[0] + day[at], under[1] + night[at]);
        greater[at] = by_day * at_night - under[2];
        under = [by_day, at_night, by_day * at_night];
    }
    let mut total = [0.0; GRID];
    for (at, weight) in always.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
        for (more, of) in greater.iter().enumerate().filter(|(_, of)| **of > 0.0) {
            total[(at + more).min(GRID - 1)] += weight * of;
        }
    }
    total
}

/// The distribution of the sum of some loads.
fn add_up<'a>(loads: impl Iterator<Item = &'a Load>) -> [f64; GRID] {
    let mut total = [0.0; GRID];
    total[0] = 1.0;
    for load in loads {
        let mut next = [0.0; GRID];
        for (at, weight) in total.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
            for (amps, of) in &load.by_use {
                let step = libm::round(amps.get()).min(GRID as f64) as usize;
                next[(at + step).min(GRID - 1)] += weight * of.get();
            }
        }
        total = next;
    }
    total
}

/// The 10 %, 50 % and 90 % quantiles: Swanson's rule, from memory.
fn quantiles(total: &[f64; GRID]) -> [Amps; 3] {
    [0.1, 0.5, 0.9].map(|share| {
        let mut sum = 0.0;
        let at = total.iter().position(|weight| {
            sum += weight;
            sum >= share - 1e-9
        });
        Amps::new(at.unwrap_or(GRID - 1) as f64).expect("a place on the grid is not negative")
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, BoundedCount};

    /// Source: SELECT, "What is maximum demand and diversity": its example less its 16 A water heater, 90.32 − 16 A.
    #[test]
    fn device_ratings_as_published() {
        let mut answers = Answers::default();
        answers.loads.showers = Answer::Known(BoundedCount::new(0).unwrap());
        answers.loads.cooking = Answer::Known(Cooking::Electric);
        assert!((by_ratings(&answers).get() - 74.32).abs() < 1e-9);
    }

    #[test]
    fn unsure_loads_add_up_and_do_not_multiply() {
        let fact = infer(&Answers::default());
        assert!(fact.values().len() <= 3);
        assert_eq!(fact.known_by, KnownBy::Assumed);
    }

    #[test]
    fn more_load_never_draws_less() {
        let mut answers = Answers::default();
        let mut before = [Amps::ZERO; 3];
        for showers in 0..=4 {
            answers.loads.showers = Answer::Known(BoundedCount::new(showers).unwrap());
            let after = quantiles(&sum(&loads(&answers)));
            assert!(after.iter().zip(before).all(|(after, before)| *after >= before));
            before = after;
        }
    }

    #[test]
    fn a_half_hour_is_believed_as_far_as_devices_fuse_and_sense_go() {
        let said = r#"{"loads": {"showers": 1, "cooking": "mixed", "heating": "none", "hot_tub": false, "other_point": "none",
            "battery": false, "highest_half_hour": 10}}"#;
        let mut answers: Answers = serde_json::from_str(said).unwrap();
        let (believes, used) =
            (|answers: &Answers| plausible(answers).rounded(), |answers: &Answers| infer(answers).values()[0].0);
        // 8 kWh in half an hour are 16 kW: 69.6 A at 230 V.
        assert_eq!((believes(&answers), used(&answers)), (Amps::of(70.0), Amps::of(69.0)), "rather a day's total");
        answers.meter.carrier_rating = Answer::Known(Amps::of(40.0));
        assert_eq!((believes(&answers), used(&answers)), (Amps::of(50.0), Amps::of(50.0)), "its fuse has held");
        answers.meter.carrier_rating = Answer::NotAsked;
        answers.loads.battery = Answer::Known(true);
        assert!(believes(&answers) > Amps::of(87.0) && !is_implausible(half_hour(&answers).unwrap(), &answers));
        // One that goes took its part of the half-hour: 87 A less 32 A are under what is in use anyway.
        answers.loads.battery = Answer::Known(false);
        let stays = used(&answers);
        answers.loads.other_point = Answer::Known(OtherPoint::Replaced);
        assert!(used(&answers) < stays && !is_implausible(half_hour(&answers).unwrap(), &answers));
    }

    #[test]
    fn the_highest_half_hour_is_a_lower_bound() {
        let mut answers = Answers::default();
        answers.loads.highest_half_hour = Answer::Known(model::units::KilowattHours::of(9.2));
        assert!(infer(&answers).values().iter().all(|(amps, _)| *amps >= Amps::of(80.0)));
        answers.loads.highest_half_hour = Answer::Known(model::units::KilowattHours::of(20.0));
        let most = by_ratings(&answers).whole();
        assert!(infer(&answers).values().iter().all(|(amps, _)| *amps >= most), "up to what the devices could draw");
    }

    #[test]
    fn existing_demand_is_assumed_until_every_load_was_said() {
        let mut answers = Answers::default();
        answers.loads.showers = Answer::Known(BoundedCount::new(0).unwrap());
        answers.loads.cooking = Answer::Known(Cooking::Gas);
        answers.loads.heating = Answer::Known(Heating::None);
        answers.loads.hot_tub = Answer::Known(false);
        answers.loads.other_point = Answer::Known(OtherPoint::None);
        assert_eq!(infer(&answers).known_by, KnownBy::Inferred);
        let forget: [fn(&mut Answers); 5] = [
            |answers| answers.loads.showers = Answer::NotSure,
            |answers| answers.loads.cooking = Answer::NotSure,
            |answers| answers.loads.heating = Answer::NotAsked,
            |answers| answers.loads.hot_tub = Answer::NotAsked,
            |answers| answers.loads.other_point = Answer::NotSure,
        ];
        for forget in forget {
            let mut answers = answers.clone();
            forget(&mut answers);
            assert_eq!(infer(&answers).known_by, KnownBy::Assumed);
        }
    }

    /// Source: BS 7671 722.311.201: a charge point counts in full. Heating and a hot tub in full: common practice, no source.
    #[test]
    fn what_counts_in_full_by_its_rating_is_added_in_full() {
        let mut answers = Answers::default();
        let more = |answers: &Answers| by_ratings(answers).get() - by_ratings(&Answers::default()).get();
        answers.loads.hot_tub = Answer::Known(true);
        assert!((more(&answers) - 32.0).abs() < 1e-9);
        answers.loads.heating = Answer::Known(Heating::HeatPump);
        answers.loads.heating_power = Answer::Known(Kilowatts::of(2.3));
        assert!((more(&answers) - 42.0).abs() < 1e-9, "2.3 kW at 230 V is 10 A");
        answers.loads.other_point = Answer::Known(OtherPoint::Kept);
        assert!((more(&answers) - 74.0).abs() < 1e-9);
        answers.loads.other_point = Answer::Known(OtherPoint::Replaced);
        assert!((more(&answers) - 42.0).abs() < 1e-9);
    }
}
