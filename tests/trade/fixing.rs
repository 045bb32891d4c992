//! Fixing. Source of the supports: BS 7671 521.10.202.

use super::{count, has, home, line, stated, wanted};
use presurvey::answers::{Age, Along, Answer, Buried, Entry, Ground, HomeKind, ParkingPlace, Set};
use presurvey::config::Item;

/// All wiring is held so that it does not fall early in a fire.
#[test]
fn all_wiring_is_held_in_a_fire() {
    let seen = home(|answers| answers.route.mostly = Answer::Known(Along::Inside));
    assert!(has(&seen, "supports-in-a-fire"));
    for along in [Along::Inside, Along::OutsideWall, Along::SoftGround] {
        let seen = home(|answers| answers.route.mostly = Answer::Known(along));
        assert_eq!(stated(&seen, "supports"), "hold-in-a-fire", "{along:?}");
    }
}

/// Where the cable goes through the wall, behind the board, behind the point or between, is asked and not guessed.
#[test]
fn the_cables_entry_is_asked_and_not_guessed() {
    for along in [Along::Inside, Along::OutsideWall, Along::SoftGround] {
        let entry = |entry| {
            let seen = home(|answers| {
                answers.route.mostly = Answer::Known(along);
                answers.route.entry = entry;
            });
            stated(&seen, "entry").to_owned()
        };
        assert_eq!(entry(Answer::NotAsked), "not-known", "{along:?}");
        assert_eq!(entry(Answer::NotSure), "not-known", "{along:?}");
        for known in [Entry::BehindBoard, Entry::BehindPoint, Entry::Between] {
            assert_eq!(entry(Answer::Known(known)), known.word(), "{along:?}");
        }
    }
    assert_eq!(stated(&home(|answers| answers.route.walls = count(0)), "entry"), "none");
}

/// Data and load-sensing cables run beside the power cable and are counted.
#[test]
fn data_and_load_sensing_cables_are_counted() {
    let bars = |bars| home(|answers| answers.signal.wifi_bars = count(bars));
    assert_eq!(wanted(&bars(0), Item::DataCable), Some(1.0));
    assert_eq!(wanted(&bars(4), Item::DataCable), None);
    let held_back = home(|answers| answers.wish.hold_back = Answer::Known(true));
    assert_eq!(wanted(&held_back, Item::LoadSensing), Some(1.0));
}

/// Drilling: asbestos before 2000, pipes, fire-stopping in flats and car parks.
#[test]
fn drilling_asks_about_asbestos_pipes_and_fire_stopping() {
    let drilled = |age, walls| {
        home(|answers| {
            answers.home.age = Answer::Known(age);
            answers.route.walls = count(walls);
        })
    };
    assert!(has(&drilled(Age::To1966, 2), "asbestos-when-drilling"));
    assert!(!has(&drilled(Age::Since2000, 2), "asbestos-when-drilling"), "banned before");
    assert_eq!(stated(&drilled(Age::Since2000, 1), "drilling"), "pipes-and-cables-first");
    assert_eq!(line(&drilled(Age::Since2000, 0), "drilling"), None);
    assert!(has(&home(|answers| answers.home.kind = Answer::Known(HomeKind::Flat)), "fire-stopping"));
    let car_park = home(|answers| answers.parking.place = Answer::Known(ParkingPlace::SharedCarPark));
    assert!(has(&car_park, "fire-stopping"));
    assert!(!has(&home(|answers| answers.home.kind = Answer::Known(HomeKind::Terrace)), "fire-stopping"));
}

/// Trenches: buried services, drains, whose ground.
#[test]
fn trenches_ask_what_lies_there_and_whose_ground_it_is() {
    let seen = home(|answers| {
        answers.route.mostly = Answer::Known(Along::SoftGround);
        answers.route.buried = Answer::Known(Set::of(&[Buried::Gas, Buried::Drains]));
        answers.route.ground = Answer::Known(Ground::Shared);
    });
    assert_eq!(super::flag(&seen, "buried-services").unwrap().evidence.len(), 2);
    assert!(has(&seen, "shared-ground") && has(&seen, "digging"));
    assert_eq!(wanted(&seen, Item::TrenchSoft), Some(1.0));
}
