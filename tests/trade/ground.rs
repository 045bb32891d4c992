//! What is not seen is wide: a way under ground that nobody looked at.

use super::{home, home_under, quiet, wanted};
use presurvey::Assessment;
use presurvey::answers::{Along, Answer, Answers, Buried, Ground, Length, ParkingPlace, Set, Stretch};
use presurvey::config::{Item, demo_config};
use presurvey::units::Pence;

fn along(metres: f64, along: Along) -> impl Fn(&mut Answers) {
    move |answers| {
        quiet(answers);
        answers.parking.place = Answer::Known(ParkingPlace::AttachedGarage);
        answers.route.length = Answer::Known(Length::metres(metres));
        answers.route.mostly = Answer::Known(along);
    }
}

/// The same way looked at: stretch by stretch, with what lies in the ground and whose it is.
fn looked_at(metres: f64, surface: Along) -> impl Fn(&mut Answers) {
    move |answers| {
        along(metres, surface)(answers);
        answers.route.stretches =
            Answer::Known(vec![Stretch { along: surface, length: Length::metres(metres), high: false }]);
        answers.route.buried = Answer::Known(Set::NONE);
        answers.route.ground = Answer::Known(Ground::Own);
    }
}

fn width(seen: &Assessment) -> Pence {
    let band = seen.band.unwrap();
    band.high - band.low
}

fn likely(seen: &Assessment) -> Pence {
    seen.band.unwrap().likely
}

/// Nothing is known of depth, of what is under the paving, of the kind of ground and of what else lies in it.
#[test]
fn a_dug_way_that_nobody_looked_at_is_wide_for_the_grounds_part() {
    for surface in [Along::SoftGround, Along::Paving] {
        for metres in [10.0, 20.0, 40.0] {
            let (dug, wall) = (home(along(metres, surface)), home(along(metres, Along::OutsideWall)));
            let (ground, wider) = (likely(&dug) - likely(&wall), width(&dug) - width(&wall));
            assert!(wider.0 * 4 >= ground.0, "{surface:?} {metres}: {wider} wider for {ground} of ground");
            assert!(width(&dug).0 * 4 >= likely(&dug).0, "{surface:?} {metres}: {}", width(&dug));
        }
    }
}

#[test]
fn it_is_narrower_once_ground_surface_and_stretches_were_said() {
    for surface in [Along::SoftGround, Along::Paving] {
        let (rough, seen) = (home(along(20.0, surface)), home(looked_at(20.0, surface)));
        assert!(width(&seen).0 * 10 <= width(&rough).0 * 8, "{surface:?}: {} of {}", width(&seen), width(&rough));
        assert!(wanted(&seen, Item::HardGround) < wanted(&rough, Item::HardGround));
    }
}

#[test]
fn beside_other_services_it_is_dug_by_hand_and_dearer() {
    let beside = home(|answers| {
        along(20.0, Along::SoftGround)(answers);
        answers.route.buried = Answer::Known(Set::of(&[Buried::Gas]));
    });
    let unseen = home(along(20.0, Along::SoftGround));
    assert!(wanted(&beside, Item::HardGround) > wanted(&unseen, Item::HardGround));
    assert!(beside.sums.with_vat > unseen.sums.with_vat && beside.labour > unseen.labour);
}

#[test]
fn where_nothing_is_dug_no_ground_is_hard() {
    let wall = home(along(20.0, Along::OutsideWall));
    assert_eq!(wanted(&wall, Item::HardGround), None);
    let cable = wall.decisions.iter().find(|decision| decision.decision == "cable").unwrap();
    assert!(!cable.rests_on.iter().any(|fact| fact == "hard-ground"), "{:?}", cable.rests_on);
}

/// On average the ground costs what it did: it is told apart, not made dearer.
#[test]
fn a_config_without_the_line_plans_none_of_it() {
    let mut config = demo_config();
    config.prices.retain(|line| line.item != Item::HardGround);
    let (with, without) = (home(along(20.0, Along::Paving)), home_under(&config, along(20.0, Along::Paving)));
    assert!(width(&without) < width(&with) && likely(&without) < likely(&with));
}
