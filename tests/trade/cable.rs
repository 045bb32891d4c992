//! Cable.

use super::{chosen, count, flag, has, home, said, wanted};
use presurvey::Assessment;
use presurvey::answers::{Along, Answer, Answers, EarthGoes, Length, LengthUnit, ParkingPlace, RouterPlace, Stretch};
use presurvey::calculation::sizing::{Check, Disconnects};
use presurvey::config::{Item, demo_config};
use presurvey::figures::working;
use presurvey::units::{Amps, Metres, SquareMillimetres};
use presurvey::wording::{flags_homeowner, flags_installer};

fn along(along: Along) -> Assessment {
    home(|answers| answers.route.mostly = Answer::Known(along))
}

fn stretches(of: &[(Along, f64)]) -> impl Fn(&mut Answers) + use<'_> {
    move |answers| {
        let each =
            of.iter().map(|(along, metres)| Stretch { along: *along, length: Length::metres(*metres), high: false });
        answers.route.stretches = Answer::Known(each.collect());
    }
}

/// Each stretch has a method, and the worst governs; the whole length governs the drop.
#[test]
fn the_worst_stretch_governs_and_the_whole_length_drops() {
    let size = |of: &[(Along, f64)]| home(stretches(of)).figures.cable_size.unwrap();
    let wall = size(&[(Along::Inside, 10.0)]);
    let loft = size(&[(Along::LoftOrFloor, 10.0)]);
    assert!(loft > wall, "insulation around it");
    assert_eq!(size(&[(Along::Inside, 10.0), (Along::LoftOrFloor, 2.0)]), loft, "two metres of it are enough");
    let both = home(stretches(&[(Along::Inside, 8.0), (Along::OutsideWall, 12.0)])).figures;
    assert_eq!(both.cable_length, Metres::of(20.0));
    let long = home(stretches(&[(Along::Inside, 80.0)])).figures;
    assert!(long.voltage_drop > both.voltage_drop && long.cable_size.unwrap() > wall);
}

/// The loop governs disconnection, or relies on the residual-current device.
#[test]
fn a_fault_is_disconnected_by_the_breaker_or_by_the_residual_device() {
    use presurvey::answers::EarthGoes;
    let by = |goes| {
        let seen = home(|answers| {
            answers.earthing.conductor_goes = Answer::Known(goes);
            stretches(&[(Along::Inside, 5.0)])(answers);
        });
        seen.figures.disconnected_by.unwrap()
    };
    assert_eq!(by(EarthGoes::ServiceHead), Disconnects::Breaker);
    assert_eq!(by(EarthGoes::Rod), Disconnects::ResidualDevice);
}

/// Flat twin-and-earth inside, armoured outside or under ground, with a data pair where the signal is weak.
#[test]
fn flat_cable_inside_and_armoured_outside_with_a_data_pair_where_the_signal_is_weak() {
    for inside in [Along::Inside, Along::LoftOrFloor] {
        assert!(chosen(&along(inside), "cable").ends_with("twin-and-earth"), "{inside:?}");
    }
    for outside in [Along::OutsideWall, Along::Fence, Along::SoftGround, Along::Paving] {
        assert!(chosen(&along(outside), "cable").ends_with("armoured"), "{outside:?}");
    }
    let pair = |bars| {
        let all = working(&said(|answers| answers.signal.wifi_bars = count(bars)), &demo_config());
        let figure = all.into_iter().find(|figure| figure.figure == "cable size").unwrap();
        figure.inputs.into_iter().find(|input| input.name == "data pair").unwrap().value
    };
    assert_eq!((pair(0), pair(4)), ("yes".to_owned(), "no".to_owned()));
}

/// An outbuilding's own feed is checked before its board is used: by its device, its size and its length.
#[test]
fn an_outbuildings_feed_is_checked_before_its_board_is_used() {
    let fed = |device: f64, size: f64, metres: f64| {
        home(|answers| {
            super::at_the_garages_board(answers);
            answers.outbuilding.feed_device = Answer::Known(Amps::of(device));
            answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(size));
            answers.outbuilding.feed_length = Answer::Known(Length::metres(metres));
        })
    };
    let stout = fed(40.0, 10.0, 15.0);
    assert_ne!(chosen(&stout, "board"), "enclosure-outbuilding");
    for (small, why) in
        [(fed(20.0, 10.0, 15.0), "device"), (fed(40.0, 4.0, 15.0), "size"), (fed(40.0, 6.0, 60.0), "length")]
    {
        assert_eq!(chosen(&small, "board"), "enclosure-outbuilding", "{why}");
        assert!(small.figures.cable_length > stout.figures.cable_length, "a new cable from the home: {why}");
        assert!(flag(&small, "outbuilding-board").unwrap().evidence.len() > 4, "{why} is said");
    }
    let unknown = home(super::at_the_garages_board);
    let evidence = &flag(&unknown, "outbuilding-board").unwrap().evidence;
    assert_eq!(evidence.iter().filter(|said| said.ends_with("not known")).count(), 3, "{evidence:?}");
}

/// A builder's cable is used only if size, route and ends can be proved: until then it is flagged, and both ways are priced.
#[test]
fn a_builders_cable_is_flagged_and_may_do() {
    let with = |there| {
        home(|answers| {
            answers.route.mostly = Answer::Known(Along::OutsideWall);
            answers.parking.place = Answer::Known(ParkingPlace::Drive);
            answers.route.length = Answer::Known(Length::metres(12.0));
            answers.route.builders_cable = Answer::Known(there);
        })
    };
    assert!(has(&with(true), "builders-cable") && !has(&with(false), "builders-cable"));
    let (unproved, none) = (with(true), with(false));
    assert!(unproved.band.unwrap().likely < none.band.unwrap().likely);
    let kept = wanted(&unproved, Item::ProveCircuit).unwrap();
    assert!(kept > 0.5 && (wanted(&unproved, Item::CableOutside).unwrap() + kept - 1.0).abs() < 1e-6);
    assert_eq!(wanted(&none, Item::ProveCircuit), None);
}

/// An outbuilding's own feed counts: voltage drop and fault loop run from the origin, where its size and length are known.
/// A supply at its lawful lowest stays inside the window of a charge point that watches the voltage: 216.2 − 207 = 9.2 V.
/// Sources: BS 7671 Table 4Ab (from the origin), 722.411.4.1 (iv); ESQCR 2002; Table 4E4B: 4.7 and 7.9 mV/A/m for 10 and 6 mm².
#[test]
fn an_outbuildings_feed_is_ahead_of_the_cable() {
    let fed = |length: Answer<Length>| {
        move |answers: &mut Answers| {
            super::at_the_garages_board(answers);
            answers.outbuilding.feed_device = Answer::Known(Amps::of(40.0));
            answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(10.0));
            answers.outbuilding.feed_length = length;
            answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
            answers.route.length = Answer::Known(Length::metres(15.0));
            answers.route.mostly = Answer::Known(Along::Fence);
        }
    };
    let [near, far, unknown] =
        [Answer::Known(Length::metres(1.0)), Answer::Known(Length::metres(30.0)), Answer::NotSure].map(fed);
    // 1.4 × 32 A × 4.7 mV × 30 m = 6.3 V of the feed leave 2.9 V; 6 mm² over 15 m takes 3.8 V, 10 mm² 2.3 V.
    let [short, long, silent] = [home(near), home(far), home(unknown)];
    assert_eq!(short.figures.cable_size, Some(SquareMillimetres::of(6.0)));
    assert_eq!(long.figures.cable_size, Some(SquareMillimetres::of(10.0)));
    assert_eq!(long.figures.cable_governed_by, Some(Check::VoltageDrop));
    assert!((long.figures.voltage_drop.get() - 8.5728).abs() < 1e-9, "{}", long.figures.voltage_drop);
    assert_eq!(silent.figures.cable_size, Some(SquareMillimetres::of(6.0)), "not known, it adds nothing and is said");
    assert!((silent.figures.voltage_drop.get() - 3.792).abs() < 1e-9);
    let inputs = |answers: &dyn Fn(&mut Answers), name: &str| {
        let all = working(&said(|said| answers(said)), &demo_config());
        all.into_iter().find(|figure| figure.figure == name).unwrap().inputs
    };
    for (figure, input) in [
        ("voltage drop", "drop ahead"),
        ("earth fault loop impedance", "loop ahead"),
        ("cable size", "drop ahead"),
        ("cable size", "loop ahead"),
    ] {
        assert!(inputs(&far, figure).iter().any(|given| given.name == input), "{figure}");
        assert!(inputs(&unknown, figure).iter().all(|given| given.name != input), "{figure}");
    }
}

/// The device is the one that the charge point's maker states; the demand stays the charge current, the cable carries the device.
/// Sources: BS 7671 Appendix 4 (Ib ≤ In ≤ Iz); Table 4D5: 6 mm² in a loft under 100 mm of insulation or more, method 101: 32 A. That
/// makers of 32 A state 40 A: common practice, no source.
#[test]
fn the_cable_carries_the_makers_device_and_the_demand_stays_the_charge_current() {
    let with = |device: Option<f64>, along: Along, metres: f64| {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.device = device.map(Amps::of));
        super::home_under(&config, stretches(&[(along, metres)]))
    };
    let (plain, larger) = (with(None, Along::OutsideWall, 10.0), with(Some(40.0), Along::OutsideWall, 10.0));
    assert_eq!(plain.figures.maximum_demand, larger.figures.maximum_demand);
    assert_eq!(plain.figures.voltage_drop, larger.figures.voltage_drop);
    let [loft, loft_40] = [None, Some(40.0)].map(|device| with(device, Along::LoftOrFloor, 5.0).figures.cable_size);
    assert!(loft_40 > loft, "{loft:?} carries 32 A there, and not 40");
}

/// Forty-five paced metres that use nearly all of the allowance are no job for 6 mm²: the next size is priced by its chance. 32 A over 36
/// m of 6 mm² armoured are 9.1 V of 9.2. Source of the figure: Table 4E4B, 7.9 mV/A/m.
#[test]
fn a_length_that_was_paced_out_prices_the_next_size_by_its_chance() {
    let of = |unit: LengthUnit, value: f64| {
        home(|answers| {
            answers.parking.place = Answer::Known(ParkingPlace::Drive);
            let length = Length { value: presurvey::units::Ratio::of(value), unit };
            let along = Along::OutsideWall;
            answers.route.stretches = Answer::Known(vec![Stretch { along, length, high: false }]);
        })
    };
    let (measured, paced) = (of(LengthUnit::Metres, 36.0), of(LengthUnit::Paces, 48.0));
    assert_eq!(measured.figures.cable_size, Some(SquareMillimetres::of(6.0)));
    assert_eq!(wanted(&measured, Item::LargerCable), None);
    let chance = wanted(&paced, Item::LargerCable).expect("it may be longer than it was paced");
    assert!((chance - 0.3).abs() < 1e-9, "{chance}");
    assert!(paced.estimate.unwrap().mean > measured.estimate.unwrap().mean);
}

/// A supply at its lawful lowest stays inside the window of a charge point that watches the voltage; the installer's own limit is a
/// setting. Sources: BS 7671 722.411.4.1 (iv), 207 V; ESQCR 2002, 230 V − 6 %; Table 4E4B, 7.9 mV/A/m: 11.5 V are 45.5 m of 6 mm² at
/// 32 A, 9.2 V are 36.4 m, 3 % of 230 V are 27.3 m.
#[test]
fn the_voltage_drop_is_held_by_the_window_and_by_the_installers_own_limit() {
    let longest = |change: &dyn Fn(&mut presurvey::config::Config), goes: EarthGoes| {
        let mut config = demo_config();
        change(&mut config);
        (1..60)
            .take_while(|metres| {
                let of = super::home_under(&config, |answers| {
                    answers.earthing.conductor_goes = Answer::Known(goes);
                    stretches(&[(Along::OutsideWall, f64::from(*metres))])(answers);
                });
                of.figures.cable_size == Some(SquareMillimetres::of(6.0))
            })
            .last()
    };
    let three = |config: &mut presurvey::config::Config| {
        config.charge_points.iter_mut().for_each(|point| point.open_pen_three_phase = true);
    };
    assert_eq!(longest(&|_| (), EarthGoes::ServiceHead), Some(36));
    assert_eq!(longest(&three, EarthGoes::ServiceHead), Some(45), "nothing watches the voltage");
    assert_eq!(longest(&|_| (), EarthGoes::Rod), Some(45), "nothing has to");
    let own =
        |config: &mut presurvey::config::Config| config.thresholds.voltage_drop = presurvey::units::Ratio::of(0.03);
    assert_eq!(longest(&own, EarthGoes::ServiceHead), Some(27));
    let over = |config: &mut presurvey::config::Config| {
        three(config);
        config.thresholds.voltage_drop = presurvey::units::Ratio::of(0.2);
    };
    assert_eq!(longest(&over, EarthGoes::ServiceHead), Some(45), "never more than the regulations allow");
}

/// A data cable goes all the way to the router: where the point hangs on an outbuilding's board, the way from there to the home is
/// part of it; where the router is in the home is asked, and tells how far beyond.
#[test]
fn a_data_cable_goes_all_the_way_to_the_router() {
    let metres = |place: Answer<RouterPlace>, feed: Option<f64>| {
        let seen = home(|answers| {
            stretches(&[(Along::OutsideWall, 8.0)])(answers);
            answers.signal.wifi_bars = count(0);
            answers.signal.mobile_bars = count(0);
            answers.signal.router_place = place;
            match feed {
                None => {
                    answers.parking.place = Answer::Known(ParkingPlace::Drive);
                    answers.outbuilding.board_there = Answer::Known(false);
                }
                Some(metres) => {
                    super::at_the_garages_board(answers);
                    answers.outbuilding.feed_device = Answer::Known(Amps::of(63.0));
                    answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(16.0));
                    answers.outbuilding.feed_length = Answer::Known(Length::metres(metres));
                }
            }
        });
        seen.work.iter().find(|line| line.item == Item::DataCable).unwrap().quantity.get()
    };
    let by_board = Answer::Known(RouterPlace::ByBoard);
    let near = metres(by_board, None);
    assert!((9.0..=12.0).contains(&near), "8 m to the board and a little more: {near}");
    let fed = metres(by_board, Some(50.0));
    assert!((fed - near - 50.0).abs() < 0.02, "the feed's fifty metres are on the way: {fed}");
    assert!(metres(Answer::Known(RouterPlace::Elsewhere), None) > near + 5.0);
    assert!(metres(Answer::Known(RouterPlace::TowardsCar), None) < near);
    for unsure in [Answer::NotSure, Answer::NotAsked] {
        assert!((near..near + 10.0).contains(&metres(unsure, None)));
    }
}

/// A car park of flats is not wired in flat cable: armoured all the way, also inside, in the bill as in the working.
#[test]
fn a_car_park_of_flats_is_not_wired_in_flat_cable() {
    let at = |place, of: &[(Along, f64)]| {
        said(|answers| {
            answers.parking.place = Answer::Known(place);
            stretches(of)(answers);
        })
    };
    let ways = [(Along::Inside, 12.0), (Along::LoftOrFloor, 6.0)];
    let car_park = at(ParkingPlace::SharedCarPark, &ways);
    let seen = presurvey::assess(&car_park, &demo_config());
    assert!(chosen(&seen, "cable").ends_with("armoured"), "{}", chosen(&seen, "cable"));
    assert_eq!((wanted(&seen, Item::CableInside), wanted(&seen, Item::CableLoft)), (None, None));
    let clipped = seen.work.iter().find(|line| line.item == Item::CableOutside).unwrap();
    assert_eq!((clipped.quantity.get(), wanted(&seen, Item::Glands)), (18.0, Some(1.0)));
    assert!(seen.figures.cable_size.is_some());
    let all = working(&car_park, &demo_config());
    for figure in ["cable size", "voltage drop", "earth fault loop impedance"] {
        let figure = all.iter().find(|shown| shown.figure == figure).unwrap();
        assert!(figure.inputs.iter().any(|input| input.name == "armoured" && input.value == "yes"), "{figure:?}");
    }
    let drive = presurvey::assess(&at(ParkingPlace::Drive, &ways), &demo_config());
    assert!(chosen(&drive, "cable").ends_with("twin-and-earth"));
    assert_eq!(wanted(&drive, Item::CableOutside), None);
}

/// What a car park's or a flat's holes and charging may be is said by the building's fire strategy, which is asked for.
#[test]
fn the_buildings_fire_strategy_is_named() {
    for key in ["flag-fire-stopping", "flag-fire-stopping-do"] {
        let said = [flags_homeowner::EN, flags_installer::EN].into_iter().find_map(|table| table.find(key));
        assert!(said.unwrap().contains("fire strategy"), "{key}");
    }
}

/// A cable along a fence is flagged: often not the homeowner's, or not to last; and no such job is straightforward.
#[test]
fn a_cable_along_a_fence_is_flagged_and_never_straightforward() {
    use presurvey::assessment::{Complexity, Reason};
    let easy = |along| {
        let mut answers: Answers = serde_json::from_str(include_str!("../homes/easy-detached/answers.json")).unwrap();
        stretches(&[(along, 6.0)])(&mut answers);
        presurvey::assess(&answers, &demo_config())
    };
    let wall = easy(Along::OutsideWall);
    assert_eq!(wall.complexity, Complexity::Straightforward);
    let fence = easy(Along::Fence);
    assert_eq!(fence.complexity, Complexity::MoreInvolved);
    assert!(fence.reasons.contains(&Reason::Fence) && has(&fence, "cable-on-a-fence"));
    assert!(!wall.reasons.contains(&Reason::Fence) && !has(&wall, "cable-on-a-fence"));
    let mostly = along(Along::Fence);
    assert!(has(&mostly, "cable-on-a-fence") && mostly.reasons.contains(&Reason::Fence));
}
