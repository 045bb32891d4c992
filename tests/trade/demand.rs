//! Demand. Source of the charge point at full current: BS 7671 722.311.201.

use super::{count, has, home, home_under, quiet, without_sensing};
use presurvey::answers::{Answer, Answers, Cooking};
use presurvey::config::demo_config;
use presurvey::design::network::Otherwise;
use presurvey::units::{Amps, KilowattHours, Kilowatts};

fn showers(of: u8) -> impl Fn(&mut Answers) {
    move |answers| {
        quiet(answers);
        answers.loads.showers = count(of);
        answers.loads.shower_power = Answer::Known(Kilowatts::of(9.5));
    }
}

#[test]
fn existing_load_is_low_likely_and_high_by_use_and_by_ratings_both() {
    let figures = home(|_| {}).figures;
    let [low, likely, high] = figures.existing_by_use;
    assert!(low < likely && likely < high);
    assert!(figures.existing_by_ratings > likely, "ratings overstate what is used");
}

#[test]
fn the_charge_point_counts_in_full_where_nothing_limits_it() {
    let config = without_sensing();
    let figures = home_under(&config, quiet).figures;
    let current = config.charge_points[0].current;
    assert!(config.charge_points.iter().all(|point| point.current == current));
    assert_eq!(figures.maximum_demand, figures.existing_by_use[1] + current);
}

/// Where an accepted scheme limits the home, the limit is the demand.
#[test]
fn an_accepted_scheme_counts_by_its_limit() {
    let figures = home(showers(1)).figures;
    assert!(figures.load_limit);
    assert_eq!(Some(figures.maximum_demand), figures.limit);
    assert!(home_under(&without_sensing(), showers(1)).figures.maximum_demand > figures.maximum_demand);
}

/// A lower bound: it averages short peaks away, and solar or a battery hides load; an implausible one is queried.
#[test]
fn the_highest_half_hour_is_a_lower_bound_and_an_implausible_one_is_queried() {
    let used = |energy: f64| {
        home(|answers| {
            quiet(answers);
            answers.loads.highest_half_hour = Answer::Known(KilowattHours::of(energy));
        })
    };
    let [low, _, high] = used(5.0).figures.existing_by_use;
    // 5 kWh in half an hour is 10 kW: 43.5 A at 230 V.
    assert!(low >= Amps::of(43.0) && high >= low, "nothing under what the meter has seen: {low}");
    assert_eq!(used(0.1).figures.existing_by_use, home(quiet).figures.existing_by_use, "it takes nothing away");
    assert!(!has(&used(5.0), "half-hour-implausible") && has(&used(60.0), "half-hour-implausible"));
    let most = home(quiet).figures.existing_by_ratings.whole();
    assert_eq!(
        used(60.0).figures.existing_by_use,
        [most; 3],
        "perhaps a day's total: as far as the devices could draw it"
    );
    let seen = used(60.0);
    let evidence = &super::flag(&seen, "half-hour-implausible").unwrap().evidence;
    assert!(evidence[1].contains(" A all through it"), "what it would mean is said in amperes: {evidence:?}");
    let hidden = home(|answers| {
        answers.loads.highest_half_hour = Answer::Known(KilowattHours::of(3.0));
        answers.loads.solar_power = Answer::Known(Kilowatts::of(3.0));
    });
    assert!(has(&hidden, "half-hour-hides-load"));
}

/// What the headroom leaves, nothing under 6 A. Source of the 6 A: IEC 61851-1, as in the tables.
#[test]
fn a_fixed_limit_is_what_the_headroom_leaves_and_nothing_under_six_amperes() {
    let mut none = 0;
    for of in 0..5 {
        let figures = home(showers(of)).figures;
        none += usize::from(figures.fixed_limit.is_none());
        // It never gives way: the highest that the home may draw counts.
        let left = Amps::of(60.0).get() - figures.existing_by_use[2].get();
        match figures.fixed_limit {
            Some(limit) => assert!(limit >= Amps::of(6.0) && limit.get() <= left, "{of}: {limit} of {left}"),
            None => assert!(left < 6.0, "{of}: {left} A are left"),
        }
    }
    assert!(none > 0, "with enough showers nothing fits");
}

/// A dynamic one lets the full current through and pauses; a fixed one holds the charge point lower for good.
#[test]
fn a_dynamic_limit_lets_the_full_current_through() {
    let full = demo_config().charge_points[0].current;
    let seen = home_under(&without_sensing(), |answers| {
        quiet(answers);
        answers.loads.cooking = Answer::Known(Cooking::Electric);
    });
    let other = |design| seen.alternatives.iter().find(|other| other.design == design).unwrap();
    assert_eq!(other(Otherwise::DynamicLimit).current, full);
    assert!(other(Otherwise::FixedLimit).current < full);
}

/// Headroom is the main fuse less the demand.
#[test]
fn headroom_is_the_main_fuse_less_the_demand() {
    let seen = home_under(&without_sensing(), |answers| {
        quiet(answers);
        answers.meter.carrier_rating = Answer::Known(Amps::of(60.0));
    });
    assert_eq!(seen.figures.headroom.get(), 60.0 - seen.figures.maximum_demand.get());
    assert!(
        home_under(&without_sensing(), |answers| {
            showers(2)(answers);
            answers.meter.carrier_rating = Answer::Known(Amps::of(60.0));
        })
        .figures
        .headroom
        .get()
            < 0.0,
        "it may be less than nothing"
    );
}
