//! How the trade reads the answers: rules that hold over the whole pipeline, each test named for its sentence.
//!
//! Common practice, no source, unless a source stands at the test.

use presurvey::answers::{
    Age, Along, Answer, Answers, Cooking, Count, EarthGoes, Ground, HazardPlace, HazardSign, Heating, HomeKind, Length,
    OperatorAnswer, OtherPoint, Outlet, ParkingPlace, Pipe, Postcode, Protected, Protection, RcdType, Set, SpareWays,
    Tenure, TestButtons,
};
use presurvey::assessment::{Complexity, Gatekeeper, KnownBy, OwedTo};
use presurvey::config::{Config, Item, demo_config};
use presurvey::units::{Amps, KilowattHours, Kilowatts, Pence, Probability};
use presurvey::{Assessment, assess};

fn home(say: impl FnOnce(&mut Answers)) -> Assessment {
    home_under(&demo_config(), say)
}

fn home_under(config: &Config, say: impl FnOnce(&mut Answers)) -> Assessment {
    let mut answers = Answers::default();
    answers.hazard.signs = Answer::Known(Set::NONE);
    say(&mut answers);
    assess(&answers, config)
}

fn count<const L: u8, const M: u8>(count: u8) -> Answer<Count<L, M>> {
    Answer::Known(Count::new(count).unwrap())
}

fn counted(carriers: u8, conductors: u8) -> Assessment {
    home(|answers| {
        answers.home.kind = Answer::Known(HomeKind::Terrace);
        answers.meter.fuse_carriers = count(carriers);
        answers.meter.head_conductors = count(conductors);
        answers.meter.street_cables = count(1);
    })
}

fn has(assessment: &Assessment, code: &str) -> bool {
    assessment.flags.iter().any(|flag| flag.code == code)
}

fn values<'a>(assessment: &'a Assessment, fact: &str) -> Vec<&'a str> {
    let fact = assessment.facts.iter().find(|shown| shown.fact == fact).unwrap();
    fact.values.iter().map(|value| value.value.as_str()).collect()
}

fn chosen<'a>(assessment: &'a Assessment, decision: &str) -> &'a str {
    &assessment.decisions.iter().find(|shown| shown.decision == decision).unwrap().chosen
}

fn stated<'a>(assessment: &'a Assessment, what: &str) -> &'a str {
    &assessment.protection.iter().find(|line| line.what == what).unwrap().value
}

// Hazard.
#[test]
fn an_enquiry_with_a_hazard_is_flagged_and_has_no_price() {
    for place in [HazardPlace::ServiceHead, HazardPlace::Meter, HazardPlace::Board] {
        let seen = home(|answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing]));
            answers.hazard.place = Answer::Known(place);
        });
        assert!(has(&seen, "hazard-seen") && seen.band.is_none() && seen.complexity == Complexity::LookFirst);
    }
}

#[test]
fn not_sure_of_a_hazard_is_flagged_to_settle() {
    assert!(has(&home(|answers| answers.hazard.signs = Answer::NotSure), "hazard-not-sure"));
}

// Supply.
#[test]
fn one_carrier_and_two_conductors_is_single_phase_and_a_terrace_keeps_a_prior() {
    assert_eq!(values(&counted(1, 2), "supply"), ["single-phase", "single-phase, looped"]);
}

#[test]
fn one_carrier_with_four_conductors_is_probably_looped() {
    let looped = counted(1, 4);
    assert_eq!(values(&looped, "supply"), ["single-phase, looped", "single-phase"], "it stays probable");
    assert!(has(&looped, "looped-supply"));
}

#[test]
fn three_carriers_and_four_conductors_are_three_phase() {
    assert!(values(&counted(3, 4), "supply").iter().all(|value| value.starts_with("three-phase")));
}

#[test]
fn three_carriers_and_two_conductors_are_a_contradiction_and_neither_is_asserted() {
    let seen = counted(3, 2);
    assert!(has(&seen, "supply-counts-disagree") && seen.complexity == Complexity::LookFirst);
    let supply = seen.facts.iter().find(|fact| fact.fact == "supply").unwrap();
    assert_eq!(supply.known_by, KnownBy::Contradicted);
}

#[test]
fn a_rating_on_the_carrier_is_an_upper_bound() {
    let seen = home(|answers| answers.meter.carrier_rating = Answer::Known(Amps::of(80.0)));
    assert_eq!(values(&seen, "main-fuse").len(), 2, "60 A and 80 A are both alive");
}

// Network operator.
#[test]
fn more_than_one_charge_point_is_asked_about_first() {
    let kept = home(|answers| answers.loads.other_point = Answer::Known(OtherPoint::Kept));
    assert_ne!(chosen(&kept, "network"), "notify-after");
}

#[test]
fn the_operators_answer_changes_the_design() {
    let with = |answer| {
        home(|answers| {
            answers.meter.fuse_carriers = count(1);
            answers.meter.head_conductors = count(4);
            answers.operator.answer = Answer::Known(answer);
        })
    };
    for accepted in [OperatorAnswer::Separated, OperatorAnswer::LeftAsItIs] {
        assert_eq!(chosen(&with(accepted), "network"), "notify-after", "{accepted:?}");
    }
    let refused = with(OperatorAnswer::Refused);
    assert!(has(&refused, "operator-refused"));
    assert!(refused.gates.iter().any(|gate| gate.who == Gatekeeper::NetworkOperator && gate.counts));
}

// Earthing. Source: BS 7671 722.411.4.1.
#[test]
fn pme_outdoors_wants_a_measure_and_tt_an_electrode_proved() {
    let earthed = |goes| home(|answers| answers.earthing.conductor_goes = Answer::Known(goes));
    for goes in [EarthGoes::ServiceHead, EarthGoes::CableSheath] {
        assert!(chosen(&earthed(goes), "earthing").starts_with("open-pen"), "{goes:?}: TN-S as PME until confirmed");
    }
    assert_eq!(stated(&earthed(EarthGoes::Rod), "electrode"), "two-hundred-ohms");
}

#[test]
fn clamps_not_seen_is_not_bonding_absent() {
    let seen = home(|answers| {
        answers.earthing.gas_pipe = Answer::Known(Pipe::Metal);
        answers.earthing.gas_clamp = Answer::Known(false);
    });
    assert_eq!(values(&seen, "gas-bonding").len(), 2);
}

// Board. Source: BS 7671 722.531.3.101.
fn board(buttons: TestButtons, ways: SpareWays, symbol: Answer<RcdType>) -> Assessment {
    home(|answers| {
        answers.board.protection = Answer::Known(Protection::Breakers);
        answers.board.test_buttons = Answer::Known(buttons);
        answers.board.spare_ways = Answer::Known(ways);
        answers.board.rcd_type = symbol;
        answers.outbuilding.board_there = Answer::Known(false);
    })
}

#[test]
fn a_way_behind_a_shared_device_is_no_way_of_its_own() {
    let shared = board(TestButtons::One, SpareWays::Several, Answer::NotSure);
    assert_eq!(chosen(&shared, "board"), "enclosure-shared-device");
}

#[test]
fn no_type_ac_stays_upstream() {
    let under_ac = board(TestButtons::Two, SpareWays::Several, Answer::Known(RcdType::Ac));
    assert_eq!(chosen(&under_ac, "board"), "enclosure-shared-device");
    assert_eq!(stated(&under_ac, "upstream"), "type-ac");
}

#[test]
fn fuse_wire_is_reported_for_an_opinion() {
    let old = home(|answers| {
        answers.board.protection = Answer::Known(Protection::FuseWire);
        answers.outbuilding.board_there = Answer::Known(false);
    });
    assert_eq!(chosen(&old, "board"), "opinion-first");
}

// Cable.
#[test]
fn flat_cable_inside_and_armoured_outside() {
    let along = |along| home(|answers| answers.route.mostly = Answer::Known(along));
    assert!(chosen(&along(Along::Inside), "cable").ends_with("twin-and-earth"));
    assert!(chosen(&along(Along::OutsideWall), "cable").ends_with("armoured"));
}

// Before and after.
#[test]
fn each_body_is_owed_its_own_and_the_landlord_before_booking() {
    let seen = home(|answers| {
        answers.home.tenure = Answer::Known(Tenure::Rent);
        answers.home.protected = Answer::Known(Protected::Listed);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
    });
    for to in [
        OwedTo::Landlord,
        OwedTo::Planner,
        OwedTo::BuildingControl,
        OwedTo::Certificate,
        OwedTo::NetworkOperator,
        OwedTo::Handover,
    ] {
        assert!(seen.owed.iter().any(|owed| owed.to == to), "{to:?}");
    }
}

// Demand. Source of the charge point at full current: BS 7671 722.311.201.

/// A home with no large load, all of it said.
fn quiet(answers: &mut Answers) {
    answers.meter.fuse_carriers = count(1);
    answers.meter.head_conductors = count(2);
    answers.meter.street_cables = count(1);
    answers.loads.showers = count(0);
    answers.loads.cooking = Answer::Known(Cooking::Gas);
    answers.loads.heating = Answer::Known(Heating::None);
    answers.loads.hot_tub = Answer::Known(false);
    answers.loads.other_point = Answer::Known(OtherPoint::None);
}

#[test]
fn demand_is_low_likely_and_high_by_use_and_by_ratings_both() {
    let figures = home(|_| {}).figures;
    let [low, likely, high] = figures.existing_by_use;
    assert!(low < likely && likely < high);
    assert!(figures.existing_by_ratings > likely, "ratings overstate what is used");
}

#[test]
fn the_charge_point_counts_in_full_where_nothing_limits_it() {
    let mut config = demo_config();
    config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
    let figures = home_under(&config, quiet).figures;
    let current = config.charge_points[0].current;
    assert!(config.charge_points.iter().all(|point| point.current == current));
    assert_eq!(figures.maximum_demand, figures.existing_by_use[1] + current);
}

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
}

#[test]
fn a_fixed_limit_is_what_the_headroom_leaves_and_nothing_under_six_amperes() {
    for showers in 0..5 {
        let figures = home(|answers| {
            quiet(answers);
            answers.loads.showers = count(showers);
            answers.loads.shower_power = Answer::Known(Kilowatts::of(9.5));
        })
        .figures;
        assert!(figures.fixed_limit.is_none_or(|limit| limit >= Amps::of(6.0)), "{showers}: {:?}", figures.fixed_limit);
    }
}

// Isolating the tails.
#[test]
fn without_a_switch_or_leave_to_draw_the_fuse_the_supplier_is_waited_for() {
    let fed_by_the_tails = |config: &Config, switch| {
        home_under(config, |answers| {
            answers.board.protection = Answer::Known(Protection::Breakers);
            answers.board.test_buttons = Answer::Known(TestButtons::One);
            answers.board.spare_ways = Answer::Known(SpareWays::Several);
            answers.outbuilding.board_there = Answer::Known(false);
            answers.meter.switch_after = Answer::Known(switch);
        })
    };
    let waits = |seen: &Assessment| seen.gates.iter().any(|gate| gate.who == Gatekeeper::Supplier && gate.counts);
    let (mut permitted, mut forbidden) = (demo_config(), demo_config());
    permitted.thresholds.may_draw_fuse = true;
    forbidden.thresholds.may_draw_fuse = false;
    assert!(waits(&fed_by_the_tails(&forbidden, false)), "a wait");
    assert!(!waits(&fed_by_the_tails(&forbidden, true)), "a switch after the meter");
    assert!(!waits(&fed_by_the_tails(&permitted, false)), "where the operator permits it");
}

// Fixing. Source of the supports: BS 7671 521.10.202.
#[test]
fn cables_inside_are_held_in_a_fire_and_drilling_an_older_home_asks_about_asbestos() {
    let drilled = |age| {
        home(|answers| {
            answers.home.age = Answer::Known(age);
            answers.route.mostly = Answer::Known(Along::Inside);
            answers.route.walls = count(2);
        })
    };
    assert!(has(&drilled(Age::To1966), "supports-in-a-fire"));
    assert!(has(&drilled(Age::To1966), "asbestos-when-drilling"));
    assert!(!has(&drilled(Age::Since2000), "asbestos-when-drilling"), "banned before");
}

#[test]
fn the_data_cable_beside_the_power_cable_is_counted() {
    let bars = |bars| home(|answers| answers.signal.wifi_bars = count(bars));
    let counts = |seen: &Assessment| seen.work.iter().any(|line| line.item == Item::DataCable);
    assert!(counts(&bars(0)) && !counts(&bars(4)));
}

// Equipment, by capability.
#[test]
fn a_lead_across_a_footway_is_refused_and_the_highway_authority_named() {
    let seen = home(|answers| {
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        answers.route.ground = Answer::Known(Ground::Footway);
    });
    assert!(has(&seen, "footway-crossing"));
    assert!(seen.gates.iter().any(|gate| gate.who == Gatekeeper::HighwayAuthority && gate.counts));
}

#[test]
fn one_bought_already_without_its_papers_is_flagged_and_carried_as_typed() {
    let bought = home(|answers| {
        answers.wish.bought = Answer::Known(true);
        answers.wish.bought_papers = Answer::Known(false);
    });
    assert!(has(&bought, "bought-already"));
    assert!(!bought.work.iter().any(|line| line.item == Item::ChargePoint), "it is not sold to them a second time");
}

#[test]
fn a_fixed_lead_is_chosen_long_enough_for_the_wish() {
    let seen = home(|answers| {
        answers.wish.outlet = Answer::Known(Outlet::Lead);
        answers.wish.lead_length = Answer::Known(Length::metres(12.0));
    });
    assert!(has(&seen, "lead-too-short"), "none of the list reaches: said, not passed over");
}

// Price and complexity.
#[test]
fn an_invented_price_says_so_and_unconfirmed_rates_give_none() {
    let seen = home(quiet);
    assert!(seen.invented && seen.band.is_some());
    let mut config = demo_config();
    config.rates_confirmed = false;
    assert!(home_under(&config, quiet).band.is_none());
}

#[test]
fn what_others_must_do_stands_beside_the_band_never_in_it() {
    let asked = |tenure| {
        home(|answers| {
            quiet(answers);
            answers.home.tenure = Answer::Known(tenure);
        })
    };
    let (own, rent) = (asked(Tenure::Own), asked(Tenure::Rent));
    assert_eq!(own.band, rent.band, "a landlord's answer costs the homeowner time, not the installer's work");
    assert!(rent.gates.iter().any(|gate| gate.who == Gatekeeper::Landlord && gate.counts));
    assert_eq!(rent.complexity, Complexity::DependsOnOthers);
}

#[test]
fn digging_makes_it_more_involved_and_a_band_is_rounded_outwards() {
    let along = |along| {
        home(|answers| {
            quiet(answers);
            answers.home.kind = Answer::Known(HomeKind::Detached);
            answers.home.tenure = Answer::Known(Tenure::Own);
            answers.parking.place = Answer::Known(ParkingPlace::Drive);
            answers.route.mostly = Answer::Known(along);
            answers.route.length = Answer::Known(Length::metres(8.0));
        })
    };
    let dug = along(Along::Paving);
    assert!(dug.complexity >= Complexity::MoreInvolved, "{:?}", dug.reasons);
    let (band, step) = (dug.band.unwrap(), demo_config().rates.step);
    assert_eq!((band.low.0 % step.0, band.high.0 % step.0), (0, 0));
    assert!(Pence(0) < band.low && band.low <= band.likely && band.likely <= band.high);
}

#[test]
fn a_gate_counts_from_the_installers_threshold_on_and_is_listed_below_it() {
    let looped = |threshold: f64| {
        let mut config = demo_config();
        config.thresholds.gate = Probability::of(threshold);
        home_under(&config, |answers| {
            quiet(answers);
            answers.home.kind = Answer::Known(HomeKind::Terrace);
        })
    };
    let gate = |seen: &Assessment| {
        let gate = seen.gates.iter().find(|gate| gate.who == Gatekeeper::NetworkOperator);
        gate.map(|gate| (gate.counts, gate.probability))
    };
    let (counts, probability) = gate(&looped(0.9)).expect("a terrace keeps a prior");
    assert!(!counts && probability.get() > 0.0);
    assert_eq!(gate(&looped(probability.get() / 2.0)).map(|(counts, _)| counts), Some(true));
}
