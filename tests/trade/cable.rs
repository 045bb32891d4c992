//! Cable.

use super::{chosen, count, flag, has, home, said, wanted};
use presurvey::Assessment;
use presurvey::answers::{Along, Answer, Answers, EarthGoes, Length, Stretch};
use presurvey::assessment::working;
use presurvey::config::{Item, demo_config};
use presurvey::design::sizing::{Check, Disconnects};
use presurvey::units::{Amps, Metres, SquareMillimetres};

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

/// A builder's cable is used only if size, route and ends can be proved: until then it is flagged, and the route is priced without.
#[test]
fn a_builders_cable_is_flagged_and_not_counted_on() {
    let with = |there| {
        home(|answers| {
            answers.route.mostly = Answer::Known(Along::OutsideWall);
            answers.route.builders_cable = Answer::Known(there);
        })
    };
    assert!(has(&with(true), "builders-cable") && !has(&with(false), "builders-cable"));
    assert_eq!(with(true).band, with(false).band);
    assert_eq!(wanted(&with(true), Item::CableOutside), Some(1.0));
}

/// An outbuilding's own feed counts: voltage drop and fault loop run from the origin, where its size and length are known.
/// Sources: BS 7671 Table 4Ab (5 % from the origin: 11.5 V); Table 4E4B: 4.7 and 7.9 mV/A/m for 10 and 6 mm².
#[test]
fn an_outbuildings_feed_is_ahead_of_the_cable() {
    let fed = |length: Answer<Length>| {
        move |answers: &mut Answers| {
            super::at_the_garages_board(answers);
            answers.outbuilding.feed_device = Answer::Known(Amps::of(40.0));
            answers.outbuilding.feed_size = Answer::Known(SquareMillimetres::of(10.0));
            answers.outbuilding.feed_length = length;
            answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
            answers.route.length = Answer::Known(Length::metres(20.0));
            answers.route.mostly = Answer::Known(Along::Fence);
        }
    };
    let [near, far, unknown] =
        [Answer::Known(Length::metres(1.0)), Answer::Known(Length::metres(40.0)), Answer::NotSure].map(fed);
    // 1.4 × 32 A × 4.7 mV × 40 m = 8.4 V of the feed leave 3.1 V; 6 mm² over 20 m takes 5.1 V, 10 mm² 3.0 V.
    let [short, long, silent] = [home(near), home(far), home(unknown)];
    assert_eq!(short.figures.cable_size, Some(SquareMillimetres::of(6.0)));
    assert_eq!(long.figures.cable_size, Some(SquareMillimetres::of(10.0)));
    assert_eq!(long.figures.cable_governed_by, Some(Check::VoltageDrop));
    assert!((long.figures.voltage_drop.get() - 11.4304).abs() < 1e-9, "{}", long.figures.voltage_drop);
    assert_eq!(silent.figures.cable_size, Some(SquareMillimetres::of(6.0)), "not known, it adds nothing and is said");
    assert!((silent.figures.voltage_drop.get() - 5.056).abs() < 1e-9);
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
