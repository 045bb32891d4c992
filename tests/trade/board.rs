//! Board, and isolating the tails. Source: BS 7671 722.531.3.101; enclosure 421.1.201 (from memory).

use super::{chosen, counts, has, home, home_under, line, stated, wanted};
use presurvey::Assessment;
use presurvey::answers::{
    Age, Along, Answer, Answers, Backing, EarthGoes, Length, MeterPlace, ParkingPlace, Protection, RcdType, ShortText,
    SpareWays, TestButtons, WhichBoard,
};
use presurvey::assessment::Gatekeeper;
use presurvey::config::{BoardDevice, Config, Item, demo_config};
use presurvey::units::Amps;
use presurvey::wording::{Words, flags_homeowner, flags_installer};

fn breakers(answers: &mut Answers, buttons: TestButtons, ways: SpareWays) {
    answers.board.protection = Answer::Known(Protection::Breakers);
    answers.board.test_buttons = Answer::Known(buttons);
    answers.board.spare_ways = Answer::Known(ways);
    answers.parking.place = Answer::Known(ParkingPlace::Drive);
}

fn board(buttons: TestButtons, ways: SpareWays) -> Assessment {
    home(|answers| breakers(answers, buttons, ways))
}

/// The board by its maker, with or without the double-pole device to be had for it.
fn listed(double_pole: bool, residual_device: bool) -> Config {
    let mut config = demo_config();
    config.devices = vec![BoardDevice { printed: "invented board".into(), double_pole }];
    config.charge_points.iter_mut().for_each(|point| point.residual_device = residual_device);
    config
}

/// A spare way with a double-pole device in the board that it takes; main switch and feed carry the load.
#[test]
fn a_way_of_its_own_takes_one_double_pole_device() {
    let seen = home_under(&listed(true, false), |answers| {
        breakers(answers, TestButtons::EachWay, SpareWays::Several);
        answers.board.maker = Answer::Known(ShortText::new("Invented Board").unwrap());
    });
    assert_eq!(chosen(&seen, "board"), "use-a-way");
    assert_eq!(wanted(&seen, Item::DoublePoleDevice), Some(1.0));
    assert_eq!(wanted(&seen, Item::SplitTails), None);
    assert_eq!(stated(&seen, "poles"), "double-pole-30-ma-alone");
    let switch = Amps::of(stated(&seen, "main-switch").trim_end_matches(" A").parse().unwrap());
    assert!(switch >= seen.figures.maximum_demand, "main switch and feed carry the load: {switch}");
}

/// Or a breaker in a way that is not behind a shared device, with the double-pole device after it or in the charge point, where the
/// cable itself needs none.
#[test]
fn without_that_device_a_breaker_where_the_cable_needs_none() {
    let seen = |in_point, along| {
        home_under(&listed(false, in_point), |answers| {
            breakers(answers, TestButtons::EachWay, SpareWays::Several);
            answers.board.maker = Answer::Known(ShortText::new("invented board").unwrap());
            answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
            answers.route.mostly = Answer::Known(along);
        })
    };
    assert_eq!(chosen(&seen(false, Along::OutsideWall), "board"), "breaker-then-residual");
    assert_eq!(chosen(&seen(true, Along::OutsideWall), "board"), "breaker-alone");
    assert_eq!(chosen(&seen(true, Along::Inside), "board"), "enclosure-no-device", "flat cable needs one in the board");
}

/// One that can be freed counts as a way.
#[test]
fn a_way_that_can_be_freed_may_be_used() {
    let mut config = demo_config();
    config.priors.way_freed = presurvey::units::Probability::CERTAIN;
    let seen = home_under(&config, |answers| breakers(answers, TestButtons::EachWay, SpareWays::None));
    assert_eq!(chosen(&seen, "board"), "free-a-way");
    assert!(wanted(&seen, Item::FreeWay).is_some());
}

/// Otherwise a small non-combustible enclosure beside it, with surge protection, fed by splitting the tails.
#[test]
fn otherwise_an_enclosure_of_its_own_is_fed_by_splitting_the_tails() {
    let mut config = demo_config();
    config.priors.way_freed = presurvey::units::Probability::NEVER;
    let seen = home_under(&config, |answers| breakers(answers, TestButtons::EachWay, SpareWays::None));
    assert_eq!(chosen(&seen, "board"), "enclosure-board-full");
    for item in [Item::Enclosure, Item::SplitTails, Item::SurgeDevice] {
        assert_eq!(wanted(&seen, item), Some(1.0), "{item:?}");
    }
    assert_eq!(stated(&seen, "enclosure"), "non-combustible");
    assert_eq!(stated(&seen, "surge"), "in-the-enclosure");
    assert_eq!(line(&board(TestButtons::EachWay, SpareWays::Several), "enclosure"), None, "a way is used");
}

/// No Type AC upstream.
#[test]
fn no_type_ac_stays_upstream() {
    let under_ac = home(|answers| {
        breakers(answers, TestButtons::Two, SpareWays::Several);
        answers.board.rcd_type = Answer::Known(RcdType::Ac);
    });
    assert_eq!(chosen(&under_ac, "board"), "enclosure-shared-device");
    assert_eq!(stated(&under_ac, "upstream"), "type-ac");
    assert!(has(&under_ac, "type-ac-upstream"));
}

/// Ways behind a shared device: disputed whether that is individual; the stricter reading, said as such.
#[test]
fn a_way_behind_a_shared_device_is_no_way_of_its_own_by_the_stricter_reading() {
    let shared = board(TestButtons::One, SpareWays::Several);
    assert_eq!(chosen(&shared, "board"), "enclosure-shared-device");
    assert!(has(&shared, "shared-residual-device"));
    let why = Words::new(flags_installer::EN).find("flag-shared-residual-device-why").unwrap();
    assert!(why.contains("stricter reading") && why.contains("disputed"), "{why}");
}

/// Fuse wire and suspect backing boards are reported for an opinion, not condemned.
#[test]
fn old_boards_are_reported_for_an_opinion_not_condemned() {
    let old = home(|answers| {
        answers.board.protection = Answer::Known(Protection::FuseWire);
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        answers.route.length = Answer::NotSure;
        answers.meter.backing = Answer::Known(Backing::DarkOrFibrous);
        answers.home.age = Answer::Known(Age::To1966);
    });
    assert_eq!(chosen(&old, "board"), "opinion-first");
    assert!(old.band.is_some(), "an opinion comes first, the band stays");
    let (installer, homeowner) = (Words::new(flags_installer::EN), Words::new(flags_homeowner::EN));
    for code in ["fuse-wire-board", "backing-board-suspect"] {
        assert!(has(&old, code));
        let does = installer.find(&format!("flag-{code}-do")).unwrap();
        assert!(does.contains("opinion") && does.contains("not condemned"), "{does}");
        assert!(!homeowner.find(&format!("flag-{code}")).unwrap().contains("dangerous"));
    }
}

/// Tails over about 3 m want a switch-fuse (operators' rule, from memory).
#[test]
fn long_tails_want_a_switch_fuse() {
    let tails = |metres| {
        home(|answers| {
            breakers(answers, TestButtons::One, SpareWays::Several);
            answers.meter.to_board = Answer::Known(Length::metres(metres));
        })
    };
    assert!(wanted(&tails(3.1), Item::SwitchFuse).is_some() && has(&tails(3.1), "tails-long"));
    assert!(wanted(&tails(3.0), Item::SwitchFuse).is_none() && !has(&tails(3.0), "tails-long"));
}

/// Nothing of the installer's goes into an outside meter box.
#[test]
fn nothing_goes_into_an_outside_meter_box() {
    let seen = |place| {
        home(|answers| {
            breakers(answers, TestButtons::One, SpareWays::Several);
            answers.meter.place = Answer::Known(place);
        })
    };
    assert!(has(&seen(MeterPlace::OutsideBox), "outside-meter-box"));
    assert!(!has(&seen(MeterPlace::Indoors), "outside-meter-box"));
}

/// A switch after the meter; or, where the operator permits, the fuse drawn; or the supplier: a wait.
#[test]
fn without_a_switch_or_leave_to_draw_the_fuse_the_supplier_is_waited_for() {
    let fed_by_the_tails = |may_draw_fuse, switch| {
        let mut config = demo_config();
        config.thresholds.may_draw_fuse = may_draw_fuse;
        home_under(&config, |answers| {
            breakers(answers, TestButtons::One, SpareWays::Several);
            answers.meter.switch_after = Answer::Known(switch);
        })
    };
    for (permitted, switch, isolated, waits) in [
        (false, false, "by-the-supplier", true),
        (false, true, "by-a-switch", false),
        (true, false, "by-drawing-the-fuse", false),
    ] {
        let seen = fed_by_the_tails(permitted, switch);
        assert_eq!(stated(&seen, "tails-isolated"), isolated);
        assert_eq!(counts(&seen, Gatekeeper::Supplier), waits, "{isolated}");
        assert_eq!(has(&seen, "supplier-must-isolate"), waits, "{isolated}");
    }
}

/// Devices for both ways belong to power that flows both ways: a car that powers the home. Following the sun feeds nothing back through
/// them, nor does another charge point; panels or a battery behind an outbuilding's feed are looked for there.
#[test]
fn devices_for_both_ways_belong_to_power_that_flows_both_ways() {
    use presurvey::answers::OtherPoint;
    let way = |say: fn(&mut presurvey::answers::Answers)| stated(&home(say), "able-to-export").to_owned();
    assert_eq!(way(|_| {}), "one-way");
    assert_eq!(way(|answers| answers.wish.follow_solar = Answer::Known(true)), "one-way");
    assert_eq!(way(|answers| answers.loads.other_point = Answer::Known(OtherPoint::Kept)), "one-way");
    assert_eq!(way(|answers| answers.loads.solar = Answer::Known(true)), "one-way");
    assert_eq!(way(|answers| answers.wish.gives_back = Answer::Known(true)), "bidirectional");
    assert_eq!(way(|answers| answers.wish.gives_back = Answer::NotSure), "one-way");
    let behind = way(|answers| {
        super::at_the_garages_board(answers);
        answers.loads.solar = Answer::Known(true);
    });
    assert_eq!(behind, "look-behind-the-feed");
    let seen = home(|answers| answers.wish.gives_back = Answer::Known(true));
    assert!(super::has(&seen, "power-both-ways"));
    assert!(
        super::counts(&seen, presurvey::assessment::Gatekeeper::NetworkOperator)
            || super::is_asked(&seen, presurvey::assessment::Gatekeeper::NetworkOperator)
    );
}

/// Which of two boards is meant is asked: only what was seen of that board counts; where it is not known, it is looked at first.
#[test]
fn which_of_two_boards_is_meant_is_asked_and_designed() {
    let of = |which| {
        home(|answers| {
            breakers(answers, TestButtons::EachWay, SpareWays::Several);
            answers.board.surge_device = Answer::Known(true);
            answers.board.boards = super::count(2);
            answers.board.which = which;
        })
    };
    let described = of(Answer::Known(WhichBoard::Described));
    assert_eq!(chosen(&described, "board"), "use-a-way");
    assert!(!has(&described, "which-board") && super::values(&described, "board").len() == 1);
    let another = of(Answer::Known(WhichBoard::Another));
    assert!(has(&another, "which-board"), "look");
    assert!(super::values(&another, "board").len() > 1, "nothing is known of it");
    for unsure in [Answer::NotSure, Answer::NotAsked] {
        let seen = of(unsure);
        assert!(has(&seen, "which-board") && seen.settle.iter().any(|code| code == "which-board"));
        assert!(seen.open.iter().any(|open| open.question == "which-board" && open.settles));
    }
}
